package pack_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"io"
	"io/fs"
	"runtime"
	"slices"
	"testing"

	"caseleaf/builder/pack"

	"github.com/google/go-cmp/cmp"
)

// attack is a zip that somebody made to do harm, and what is to be said of it.
type attack struct {
	name string
	data []byte
	want []pack.Difference
}

// rawZip writes entries with a general writer: names are not checked.
func rawZip(t testing.TB, add func(w *zip.Writer)) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	add(w)
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func put(t testing.TB, w *zip.Writer, h *zip.FileHeader, data []byte) {
	t.Helper()
	h.Method = zip.Deflate
	f, err := w.CreateHeader(h)
	if err == nil {
		_, err = f.Write(data)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// hostile are the attacks: one small good file in each, and one evil thing.
func hostile(t testing.TB) []attack {
	files := map[string]string{"a.txt": "plain"}
	manifest := listed(files).Encode()
	with := func(more func(w *zip.Writer)) []byte {
		return rawZip(t, func(w *zip.Writer) {
			put(t, w, &zip.FileHeader{Name: pack.ManifestName}, manifest)
			put(t, w, &zip.FileHeader{Name: "a.txt"}, []byte("plain"))
			more(w)
		})
	}
	link := &zip.FileHeader{Name: "b.txt"}
	link.SetMode(fs.ModeSymlink | 0o777)
	bomb := make([]byte, 64<<20)
	return []attack{
		{"leads out of the folder", with(func(w *zip.Writer) { put(t, w, &zip.FileHeader{Name: "../../up.txt"}, []byte("x")) }),
			[]pack.Difference{{Path: "../../up.txt", Kind: pack.Unsafely}}},
		{"an absolute name", with(func(w *zip.Writer) { put(t, w, &zip.FileHeader{Name: "/etc/up.txt"}, []byte("x")) }),
			[]pack.Difference{{Path: "/etc/up.txt", Kind: pack.Unsafely}}},
		{"a device", with(func(w *zip.Writer) { put(t, w, &zip.FileHeader{Name: "cases/aux.html"}, []byte("x")) }),
			[]pack.Difference{{Path: "cases/aux.html", Kind: pack.Unsafely}}},
		{"one name twice", with(func(w *zip.Writer) { put(t, w, &zip.FileHeader{Name: "a.txt"}, []byte("other")) }),
			[]pack.Difference{{Path: "a.txt", Kind: pack.Twice}}},
		{"one name twice but for capitals", with(func(w *zip.Writer) { put(t, w, &zip.FileHeader{Name: "A.TXT"}, []byte("plain")) }),
			[]pack.Difference{{Path: "A.TXT", Kind: pack.Twice}}},
		{"a link", with(func(w *zip.Writer) { put(t, w, link, []byte("/etc/passwd")) }),
			[]pack.Difference{{Path: "b.txt", Kind: pack.Linked}}},
		{"few bytes that unpack into many", with(func(w *zip.Writer) { put(t, w, &zip.FileHeader{Name: "bomb.bin"}, bomb) }),
			[]pack.Difference{{Path: "bomb.bin", Kind: pack.Extra}}},
		{"many in place of few", rawZip(t, func(w *zip.Writer) {
			put(t, w, &zip.FileHeader{Name: pack.ManifestName}, manifest)
			put(t, w, &zip.FileHeader{Name: "a.txt"}, bomb)
		}), []pack.Difference{{Path: "a.txt", Kind: pack.Changed}}},
		{"a remark", rawZip(t, func(w *zip.Writer) {
			put(t, w, &zip.FileHeader{Name: pack.ManifestName}, manifest)
			put(t, w, &zip.FileHeader{Name: "a.txt"}, []byte("plain"))
			if err := w.SetComment("from the eye ward"); err != nil {
				t.Fatal(err)
			}
		}), []pack.Difference{{Kind: pack.Hidden}}},
	}
}

// What a hostile zip does is named, nothing is unpacked, and memory stays small.
func TestVerifyHostile(t *testing.T) {
	for _, h := range hostile(t) {
		t.Run(h.name, func(t *testing.T) {
			name := onDisk(t, h.data)
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			report, err := pack.Verify(name)
			runtime.ReadMemStats(&after)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(h.want, report.Differences); diff != "" {
				t.Errorf("differences (-want +got):\n%s", diff)
			}
			if grown := after.TotalAlloc - before.TotalAlloc; grown > 8<<20 {
				t.Errorf("%d bytes were taken", grown)
			}
		})
	}
}

// Bytes before, between and after the entries, other names in the list than in
// front of the data, and a zip cut short.
func TestVerifyDamagedZip(t *testing.T) {
	data := packed(t, map[string]string{"a.txt": "plain"})
	local := bytes.Index(data, []byte("a.txt"))
	for _, c := range []struct {
		name string
		data []byte
		want []pack.Difference
	}{
		{"something after the end", append(slices.Clone(data), "tail"...), []pack.Difference{{Kind: pack.Hidden}}},
		{"another name in front of the data", replaced(data, local, "b.txt"), []pack.Difference{{Kind: pack.Hidden}}},
		{"cut short", data[:len(data)*2/3], []pack.Difference{{Kind: pack.Damaged}}},
		{"only its beginning", []byte("PK\x03\x04"), []pack.Difference{{Kind: pack.Damaged}}},
		{"a wrong check sum", wrongSum(data), []pack.Difference{{Path: "a.txt", Kind: pack.Damaged}}},
	} {
		report, err := pack.Verify(onDisk(t, c.data))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if diff := cmp.Diff(c.want, report.Differences); diff != "" {
			t.Errorf("%s: differences (-want +got):\n%s", c.name, diff)
		}
	}
}

func replaced(data []byte, at int, text string) []byte {
	out := slices.Clone(data)
	copy(out[at:], text)
	return out
}

// wrongSum changes the check sum of the last entry in the list of all.
func wrongSum(data []byte) []byte {
	out := slices.Clone(data)
	at := bytes.LastIndex(out, []byte("PK\x01\x02"))
	binary.LittleEndian.PutUint32(out[at+16:], 1)
	return out
}

// A zip that another program made of an unpacked copy is good too: its files are
// the same, and folders are no files.
func TestVerifyPackedAgain(t *testing.T) {
	data := packed(t, sample)
	again := rawZip(t, func(w *zip.Writer) {
		if _, err := w.Create("cases/"); err != nil {
			t.Fatal(err)
		}
		r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range r.File {
			in, err := f.Open()
			if err != nil {
				t.Fatal(err)
			}
			all, err := io.ReadAll(in)
			if err != nil {
				t.Fatal(err)
			}
			put(t, w, &zip.FileHeader{Name: f.Name}, all)
		}
	})
	report, err := pack.Verify(onDisk(t, again))
	if err != nil || len(report.Differences) > 0 || report.Files != len(sample) {
		t.Fatalf("%v %+v", err, report.Differences)
	}
}
