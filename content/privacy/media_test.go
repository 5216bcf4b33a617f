package privacy

import (
	"bufio"
	"bytes"
	"compress/zlib"
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"errors"
	"hash/crc32"
	"image"
	_ "image/gif"
	_ "image/jpeg"
	_ "image/png"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"
	_ "golang.org/x/image/webp"
)

// planted is one line of images/planted.jsonl.
type planted struct {
	File    string
	Action  string
	Planted []string
}

func readPlanted(t testing.TB) []planted {
	t.Helper()
	f, err := os.Open(filepath.Join(dataDir, "images", "planted.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []planted
	for sc := bufio.NewScanner(f); sc.Scan(); {
		var p planted
		if err := json.Unmarshal(sc.Bytes(), &p); err != nil {
			t.Fatal(err)
		}
		out = append(out, p)
	}
	return out
}

func readImage(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(dataDir, "images", name))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// layers are the bytes of a file, its inflated zlib streams and its decoded
// base64 runs, and the layers of those.
func layers(data []byte, depth int) [][]byte {
	out := [][]byte{data}
	if depth == 0 {
		return out
	}
	for i := 0; i+2 < len(data); i++ {
		if data[i]&0x0F == 8 && (int(data[i])<<8|int(data[i+1]))%31 == 0 {
			if r, err := zlib.NewReader(bytes.NewReader(data[i:])); err == nil {
				if b, _ := io.ReadAll(io.LimitReader(r, 1<<20)); len(b) > 4 {
					out = append(out, layers(b, depth-1)...)
				}
			}
		}
	}
	for _, run := range regexp.MustCompile(`[A-Za-z0-9+/]{24,}=*`).FindAll(data, -1) {
		if b, err := base64.StdEncoding.DecodeString(string(run)); err == nil {
			out = append(out, layers(b, depth-1)...)
		}
	}
	return out
}

func utf16le(s string) []byte {
	var b []byte
	for _, u := range utf16.Encode([]rune(s)) {
		b = binary.LittleEndian.AppendUint16(b, u)
	}
	return b
}

// holds says whether s occurs in any layer, as UTF-8 or UTF-16.
func holds(data []byte, s string) bool {
	for _, l := range layers(data, 2) {
		if bytes.Contains(l, []byte(s)) || bytes.Contains(l, utf16le(s)) {
			return true
		}
	}
	return false
}

// TestPlantedMetadata cleans the shared set: nothing planted is left in any
// layer, and the pixels are those of the source.
func TestPlantedMetadata(t *testing.T) {
	for _, p := range readPlanted(t) {
		t.Run(p.File, func(t *testing.T) {
			data := readImage(t, p.File)
			before := bytes.Clone(data)
			out, removed, err := Clean("images/"+p.File, data)
			if !bytes.Equal(before, data) {
				t.Error("the source was changed")
			}
			if p.Action == "refuse" {
				var r *RefusedError
				if !errors.As(err, &r) || r.Why == "" || out.Data != nil {
					t.Fatalf("want a refusal with words, got %v", err)
				}
				t.Log(err)
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			found := 0
			for _, s := range p.Planted {
				if holds(data, s) {
					found++
				}
				if holds(out.Data, s) {
					t.Errorf("%q is left", s)
				}
			}
			if found < len(p.Planted)/2 {
				t.Errorf("the search finds %d of %d strings in the source: it is too weak", found, len(p.Planted))
			}
			if len(removed) == 0 {
				t.Error("nothing reported")
			}
			for _, r := range removed {
				for _, s := range p.Planted {
					if strings.Contains(r.String(), s) {
						t.Errorf("the report tells a value: %v", r)
					}
				}
			}
			t.Log(removed)
			samePixels(t, out.Kind, data, out.Data)
			again, more, err := Clean("images/"+p.File, out.Data)
			if err != nil || !bytes.Equal(again.Data, out.Data) {
				t.Errorf("cleaning a clean file changes it: %v %v", more, err)
			}
		})
	}
}

func samePixels(t *testing.T, kind MediaKind, a, b []byte) {
	t.Helper()
	if kind == SVG || kind == MP4 {
		return
	}
	x, _, err1 := image.Decode(bytes.NewReader(a))
	y, _, err2 := image.Decode(bytes.NewReader(b))
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	if x.Bounds() != y.Bounds() {
		t.Fatalf("bounds %v, then %v", x.Bounds(), y.Bounds())
	}
	for py := x.Bounds().Min.Y; py < x.Bounds().Max.Y; py++ {
		for px := x.Bounds().Min.X; px < x.Bounds().Max.X; px++ {
			if x.At(px, py) != y.At(px, py) {
				t.Fatalf("pixel %d,%d: %v, then %v", px, py, x.At(px, py), y.At(px, py))
			}
		}
	}
	if kind == JPEG && !bytes.Equal(scanData(a), scanData(b)) {
		t.Error("scan data differ")
	}
}

// scanData is what lies between the first SOS and EOI.
func scanData(data []byte) []byte {
	for i := 2; i+4 < len(data); {
		end := i + 2 + int(binary.BigEndian.Uint16(data[i+2:]))
		if data[i+1] == 0xDA {
			return data[i:scanEnd(data, end)]
		}
		i = end
	}
	return nil
}

func TestCleanKeeps(t *testing.T) {
	jpg, _, err := Clean("a.jpg", readImage(t, "jpeg-orientation-6.jpg"))
	if err != nil || jpg.Orientation != 6 || jpg.Width != 48 && jpg.Width != 32 {
		t.Errorf("orientation %d (%v), want 6 kept alone", jpg.Orientation, err)
	}
	svg, _, err := Clean("a.svg", readImage(t, "svg-metadata-path.svg"))
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []string{"<title>Incision plan</title>", "<circle", "2.4 mm at 120", "data:image/jpeg;base64,"} {
		if !bytes.Contains(svg.Data, []byte(s)) {
			t.Errorf("svg lost %q", s)
		}
	}
	if len(svg.Findings) == 0 || svg.Findings[0].Class != Name {
		t.Errorf("the name in desc was not reported: %v", svg.Findings)
	}
	src := readImage(t, "mp4-udta-xyz.mp4")
	mp4, _, err := Clean("a.mp4", src)
	if err != nil || len(mp4.Data) != len(src) || bytes.Index(mp4.Data, []byte("mdat")) != bytes.Index(src, []byte("mdat")) {
		t.Errorf("mp4: length or mdat moved (%v)", err)
	}
	webp, _, err := Clean("a.webp", readImage(t, "webp-xmp-exif.webp"))
	if err != nil || webp.Data[20]&(webpExif|webpXMP|webpICC) != 0 || int(binary.LittleEndian.Uint32(webp.Data[4:]))+8 != len(webp.Data) {
		t.Errorf("webp: flags %02X or size wrong (%v)", webp.Data[20], err)
	}
	gif, _, err := Clean("a.gif", readImage(t, "gif-comment-xmp.gif"))
	if err != nil || !bytes.Contains(gif.Data, []byte("NETSCAPE2.0")) {
		t.Errorf("gif lost its loop (%v)", err)
	}
}

// bombPNG is a small file that announces a very large picture.
func bombPNG(w, h uint32) []byte {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)
	head = append(head, 8, 2, 0, 0, 0)
	var z bytes.Buffer
	zw := zlib.NewWriter(&z)
	_, _ = zw.Write(make([]byte, 1<<16))
	_ = zw.Close()
	out := []byte(pngMagic)
	out = append(out, pngChunk("IHDR", head)...)
	out = append(out, pngChunk("IDAT", z.Bytes())...)
	return append(out, pngChunk("IEND", nil)...)
}

func box(name string, body ...byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(8+len(body)))
	return append(append(out, name...), body...)
}

func handlerBox(kind string) []byte {
	return box("hdlr", append(append(make([]byte, 8), kind...), append(make([]byte, 12), "Camera of X"...)...)...)
}

func film(kind string) []byte {
	trak := box("trak", box("mdia", handlerBox(kind)...)...)
	return append(box("ftyp", []byte("isom\x00\x00\x00\x00")...), box("moov", trak...)...)
}

func TestRefusals(t *testing.T) {
	svg := func(s string) []byte { return []byte(`<svg xmlns="http://www.w3.org/2000/svg">` + s + `</svg>`) }
	jpg := readImage(t, "jpeg-everything.jpg")
	crc := bytes.Clone(readImage(t, "png-text-exif.png"))
	crc[20] ^= 1
	for name, c := range map[string]struct {
		file string
		data []byte
		want string
	}{
		"pdf":             {"a.pdf", []byte("%PDF-1.4"), "PDF"},
		"pdf after text":  {"a.jpg", []byte("junk %PDF-1.4"), "PDF"},
		"zip":             {"a.zip", []byte("PK\x03\x04...."), "archive"},
		"office":          {"a.doc", []byte("\xD0\xCF\x11\xE0...."), "office"},
		"tiff":            {"a.jpg", []byte("II*\x00abcd"), "TIFF"},
		"heic":            {"a.jpg", []byte("\x00\x00\x00\x18ftypheic00000000"), "HEIC"},
		"empty":           {"a.jpg", nil, "empty"},
		"unknown":         {"a.bin", []byte("hello"), "unknown kind"},
		"wrong extension": {"a.png", jpg, "by its bytes"},
		"cut jpeg":        {"a.jpg", jpg[:len(jpg)/2], ""},
		"bad crc":         {"a.png", crc, ""},
		"png bomb":        {"a.png", bombPNG(60000, 60000), "pixels"},
		"svg script":      {"a.svg", svg("<script>x</script>"), "script"},
		"svg on":          {"a.svg", svg(`<g onload="x"/>`), "script"},
		"svg foreign":     {"a.svg", svg("<foreignObject/>"), "foreignObject"},
		"svg href":        {"a.svg", svg(`<image href="https://example.org/a.png"/>`), "outside"},
		"svg style url":   {"a.svg", svg(`<g style="fill:url(https://example.org/a)"/>`), "outside"},
		"svg import":      {"a.svg", svg(`<style>@import "x";</style>`), "@ rule"},
		"svg entity":      {"a.svg", []byte(`<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg">&a;</svg>`), "entities"},
		"svg use bomb":    {"a.svg", svg(`<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>`), "use"},
		"svg nesting":     {"a.svg", svg(strings.Repeat("<g>", 200) + strings.Repeat("</g>", 200)), "nested"},
		"text track":      {"a.mp4", film("text"), "text track"},
		"gps track":       {"a.mp4", film("camm"), "timed data"},
		"box past end":    {"a.mp4", append(film("vide"), 0, 0, 1, 0, 'f', 'r', 'e', 'e'), "damaged"},
	} {
		_, _, err := Clean(c.file, c.data)
		var r *RefusedError
		if !errors.As(err, &r) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want words with %q", name, err, c.want)
		}
	}
}

func TestSoundBlocks(t *testing.T) {
	out, _, err := Clean("a.mp4", film("soun"))
	if err != nil || !out.Sound || len(out.Findings) != 1 || out.Findings[0].Severity != Block {
		t.Fatalf("sound not found: %+v %v", out.Findings, err)
	}
	out, removed, err := Clean("a.mp4", film("vide"))
	if err != nil || out.Sound || bytes.Contains(out.Data, []byte("Camera")) {
		t.Fatalf("silent film: %v %v", removed, err)
	}
	want := []Removed{{"names or remarks", "handler name", 11}}
	if diff := cmp.Diff(want, removed); diff != "" {
		t.Error(diff)
	}
}

// FuzzClean wants no panic, no growth, and a clean file that stays as it is.
func FuzzClean(f *testing.F) {
	for _, p := range readPlanted(f) {
		f.Add(readImage(f, p.File))
	}
	f.Add(film("vide"))
	f.Fuzz(func(t *testing.T, data []byte) {
		kind, _ := sniff(data)
		if kind == "" {
			return
		}
		if kind == PNG && len(data) > 33 { // let the fuzzer past the checksum
			binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
		}
		small := DefaultLimits
		small.Pixels = 1 << 20
		out, _, err := small.Clean("x"+extensions[kind][0], data)
		if err != nil {
			return
		}
		again, _, err := small.Clean("x"+extensions[kind][0], out.Data)
		if err != nil || !bytes.Equal(again.Data, out.Data) {
			t.Fatalf("%s: not clean after cleaning: %v", kind, err)
		}
	})
}
