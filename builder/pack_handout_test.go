package builder_test

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"caseleaf/builder"
	"caseleaf/builder/pack"
	"caseleaf/casebank"
	"caseleaf/content"

	"github.com/google/go-cmp/cmp"
)

// packZip packs a bank that must have no errors and returns the zip.
func packZip(t testing.TB, files fs.FS, options builder.Options) []byte {
	t.Helper()
	return packed(t, files, options, "handout.zip", builder.Pack)
}

// packed packs a bank that must have no errors into a file of a name.
func packed(t testing.TB, files fs.FS, options builder.Options, name string, packing func(*content.Bank, builder.Options) (builder.Packed, error)) []byte {
	t.Helper()
	bank, found, err := content.Read(files)
	if err != nil || found.Failed() {
		t.Fatalf("reading: %v, %s", err, found.Summary())
	}
	options.BankFiles, options.Out = files, filepath.Join(t.TempDir(), name)
	if _, err := packing(bank, options); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(options.Out)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func readZip(t testing.TB, data []byte) *zip.Reader {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// unzipped lays a zip out in a folder.
func unzipped(t testing.TB, data []byte) string {
	t.Helper()
	folder := t.TempDir()
	if err := os.CopyFS(folder, readZip(t, data)); err != nil {
		t.Fatal(err)
	}
	return folder
}

// The same bank gives the same zip, whatever the time zone and the number of
// processors; it begins with what a person should see first.
func TestPackSameBytes(t *testing.T) {
	zone, processors := time.Local, runtime.GOMAXPROCS(0)
	defer func() { time.Local = zone; runtime.GOMAXPROCS(processors) }()
	var zips [][]byte
	for i, z := range []*time.Location{time.UTC, time.FixedZone("far", 14*3600)} {
		time.Local = z
		runtime.GOMAXPROCS(i + 1)
		zips = append(zips, packZip(t, casebank.FS(), builder.Options{}))
	}
	if !bytes.Equal(zips[0], zips[1]) {
		t.Error("two zips of one bank differ")
	}
	var names []string
	for _, f := range readZip(t, zips[0]).File[:3] {
		names = append(names, f.Name)
	}
	if diff := cmp.Diff([]string{"START-HERE.txt", "index.html", "manifest.json"}, names); diff != "" {
		t.Errorf("the first files (-want +got):\n%s", diff)
	}
	name := filepath.Join(t.TempDir(), "copy.zip")
	if err := os.WriteFile(name, zips[0], 0o644); err != nil {
		t.Fatal(err)
	}
	if report, err := pack.Verify(name); err != nil || len(report.Differences) > 0 {
		t.Errorf("a fresh zip differs from its manifest: %v %+v", err, report.Differences)
	}
}

// START-HERE.txt can be read in an old editor, and names what people have.
func TestStartHere(t *testing.T) {
	data, err := fs.ReadFile(readZip(t, packZip(t, casebank.FS(), builder.Options{Course: "wet-lab"})), "START-HERE.txt")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, want := range []string{"\ufeff", "Windows", "macOS", "phone", "index.html", "Unpack first", "manifest.json", "For the course: Complications wet lab"} {
		if !strings.Contains(text, want) {
			t.Errorf("it does not say %q", want)
		}
	}
	if n := strings.Count(text, "\n"); n != strings.Count(text, "\r\n") {
		t.Error("a line does not end as Windows wants it")
	}
	for line := range strings.SplitSeq(text, "\r\n") {
		if len([]rune(line)) > 73 {
			t.Errorf("a long line: %s", line)
		}
	}
}

// A course's zip holds its cases and no other; every link in it leads somewhere;
// its rates are those of the whole logbook; every page says what it is.
func TestCoursePart(t *testing.T) {
	folder := unzipped(t, packZip(t, casebank.FS(), builder.Options{Course: "wet-lab"}))
	pages, files := readPages(t, folder)
	for _, p := range pages {
		for _, l := range p.links {
			checkLink(t, pages, files, p, l)
		}
	}
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	course, _ := bank.Course("wet-lab")
	shown := 0
	for _, c := range bank.Cases {
		page := "cases/" + strings.ToLower(c.ID.Value) + ".html"
		if files[page] != course.Reads(c.ID.Value) {
			t.Errorf("%s: there %v, of the course %v", page, files[page], course.Reads(c.ID.Value))
		}
		if files[page] {
			shown++
		}
	}
	if whole, _ := readPages(t, demoHandout(t)); shown == 0 || len(pages) >= len(whole) {
		t.Errorf("%d cases, %d pages of %d", shown, len(pages), len(whole))
	}
	for name := range pages {
		data, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(data, []byte("This copy holds what the course")) {
			t.Errorf("%s does not say that it is a part", name)
		}
	}
	const table = "data/complications.csv"
	part, err := os.ReadFile(filepath.Join(folder, table))
	whole, err2 := os.ReadFile(filepath.Join(demoHandout(t), table))
	if err := errors.Join(err, err2); err != nil || !bytes.Equal(part, whole) {
		t.Errorf("the rates of a course are not those of the whole logbook: %v", err)
	}
}

func TestPackRefuses(t *testing.T) {
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "thesis.zip")
	if err := os.WriteFile(out, []byte("Dear all"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := builder.Pack(bank, builder.Options{Out: out}); !errors.Is(err, builder.ErrWontReplace) {
		t.Errorf("somebody's file was written over: %v", err)
	}
	var noCourse *builder.NoCourseError
	if _, err := builder.Pack(bank, builder.Options{Out: out + "2.zip", Course: "dry-lab"}); !errors.As(err, &noCourse) || !strings.Contains(err.Error(), "wet-lab") {
		t.Errorf("a course that isn't there: %v", err)
	}
	if list, _ := os.ReadDir(filepath.Dir(out)); len(list) != 1 {
		t.Errorf("something was left beside it: %v", list)
	}
}

// A case that is not released is not in a zip, by no word of it; and a finding
// that only warns, in a text that no author was warned of, stops the zip.
func TestPackHoldsBack(t *testing.T) {
	bank := fstest.MapFS{
		"bank.yaml":     {Data: []byte("title: Two cases\n")},
		"cases/ab-1.md": smallCase("AB-1", attested, "Ready."), "cases/ab-2.md": smallCase("AB-2", "", "Not ready."),
	}
	r := readZip(t, packZip(t, bank, builder.Options{WithUnreleased: true}))
	for _, f := range r.File {
		data, err := fs.ReadFile(r, f.Name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(f.Name, "ab-2") || bytes.Contains(data, []byte("AB-2")) || bytes.Contains(data, []byte("Not ready")) {
			t.Errorf("%s shows the case that is held back", f.Name)
		}
	}
	bank["theme/pages/about.tmpl"] = &fstest.MapFile{Data: []byte(`{{define "main"}}<p>First shown in spring 2020.</p>{{end}}`)}
	bank["bank.yaml"] = &fstest.MapFile{Data: []byte("title: Two cases\ntheme: theme\n")}
	read, _, err := content.Read(bank)
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "a.zip")
	_, err = builder.Pack(read, builder.Options{Out: out, BankFiles: bank})
	var identifying *builder.IdentifyingError
	if !errors.As(err, &identifying) || len(identifying.Places) != 1 || identifying.Places[0].File != "about.html" {
		t.Errorf("a season went out: %v", err)
	}
	if list, _ := os.ReadDir(filepath.Dir(out)); len(list) > 0 {
		t.Errorf("something was written: %v", list)
	}
}

// Nothing that was planted in a picture is in the zip: not in its raw bytes, not
// in its files, not in what is compressed within them.
func TestPlantedPicturesInZip(t *testing.T) {
	shown := 0
	for _, p := range readPlanted(t) {
		bank := pictureBank(t, p.File, "own-name-"+p.File)
		read, found, err := content.Read(bank)
		if err != nil || found.Failed() {
			continue // refused, as TestPlantedPictures looks at
		}
		if read.Cases[0].Body.Pictures == nil {
			continue
		}
		data := packZip(t, bank, builder.Options{})
		chunks := [][]byte{data}
		r := readZip(t, data)
		for _, f := range r.File {
			one, err := fs.ReadFile(r, f.Name)
			if err != nil {
				t.Fatal(err)
			}
			chunks = append(chunks, []byte(f.Name), one)
			chunks = append(chunks, opened(one)...)
		}
		for _, text := range append([]string{"own-name"}, p.Planted...) {
			if i := slices.IndexFunc(chunks, func(c []byte) bool { return holds(c, text) }); i >= 0 {
				t.Errorf("%s: %q is in the zip (%d)", p.File, text, i)
			}
		}
		shown++
	}
	if shown < 4 {
		t.Errorf("only %d pictures were packed; the test looks at too little", shown)
	}
}

// opened gives what is compressed within a picture: every zlib stream that a PNG
// or another holder could carry.
func opened(data []byte) [][]byte {
	var all [][]byte
	for i := 0; i+2 < len(data); i++ {
		if data[i] != 0x78 || binary.BigEndian.Uint16(data[i:])%31 != 0 {
			continue
		}
		r, err := zlib.NewReader(bytes.NewReader(data[i:]))
		if err != nil {
			continue
		}
		out, _ := io.ReadAll(io.LimitReader(r, 16<<20))
		if len(out) > 0 {
			all = append(all, out)
		}
		raw, _ := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(data[i:])), 16<<20))
		all = append(all, raw)
	}
	return all
}

// Every name in a zip of odd ids is one that Windows can store.
func TestPackOddIDs(t *testing.T) {
	bank := fstest.MapFS{
		"bank.yaml":      {Data: []byte("title: Odd ids\n")},
		"cases/aux.1.md": smallCase("aux.1", attested, "One."), "cases/con.md": smallCase("CON", attested, "Two."),
	}
	names := 0
	for _, f := range readZip(t, packZip(t, bank, builder.Options{})).File {
		if why := pack.Unsafe(f.Name); why != "" {
			t.Errorf("%s: %s", f.Name, why)
		}
		if strings.Contains(f.Name, "aux_.1") || strings.Contains(f.Name, "con_") {
			names++
		}
	}
	if names < 2 {
		t.Error("the odd ids have no pages")
	}
}
