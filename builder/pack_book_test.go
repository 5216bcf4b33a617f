package builder_test

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"caseleaf/builder"
	"caseleaf/builder/epub"
	"caseleaf/casebank"
	"caseleaf/content"

	"github.com/google/go-cmp/cmp"
)

// packBook packs a bank that must have no errors and returns the book.
func packBook(t testing.TB, files fs.FS, options builder.Options) []byte {
	t.Helper()
	return packed(t, files, options, "book.epub", builder.PackBook)
}

// bookFile is what the tests want to know of one XML file of a book.
type bookFile struct {
	ids   []string
	links []string // href and src of any name space
	names []string // aria-labelledby and aria-describedby
	text  string
}

// readBookFile reads XML strictly: a fault in it, which an HTML reader would
// forgive, closes the book in most programs.
func readBookFile(t *testing.T, name string, data []byte) bookFile {
	t.Helper()
	var b bookFile
	var text strings.Builder
	d := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		switch token := token.(type) {
		case xml.CharData:
			text.Write(token)
		case xml.StartElement:
			for _, a := range token.Attr {
				switch a.Name.Local {
				case "id":
					b.ids = append(b.ids, a.Value)
				case "href", "src":
					b.links = append(b.links, a.Value)
				case "aria-labelledby", "aria-describedby":
					b.names = append(b.names, strings.Fields(a.Value)...)
				}
			}
		}
	}
	b.text = text.String()
	return b
}

// readBook reads every XML file of a book.
func readBook(t *testing.T, data []byte) (r *zip.Reader, parsed map[string]bookFile) {
	t.Helper()
	r, parsed = readZip(t, data), map[string]bookFile{}
	for _, f := range r.File {
		switch path.Ext(f.Name) {
		case ".xhtml", ".opf", ".xml", ".svg":
			one, err := fs.ReadFile(r, f.Name)
			if err != nil {
				t.Fatal(err)
			}
			parsed[f.Name] = readBookFile(t, f.Name, one)
		}
	}
	return r, parsed
}

// What programs rely on: EPUB Open Container Format 3.3, section 4.3 (the first
// file is "mimetype", stored, without extra fields), and EPUB 3.3, sections 5 to
// 7 (every file is in the manifest, every document in the spine).
func TestBookStructure(t *testing.T) {
	for _, course := range []string{"", "wet-lab"} {
		data := packBook(t, casebank.FS(), builder.Options{Course: course})
		if got := string(data[30:58]); got != "mimetypeapplication/epub+zip" {
			t.Errorf("the head of the book is %q", got)
		}
		r, parsed := readBook(t, data)
		if first := r.File[0]; first.Method != zip.Store || len(first.Extra) > 0 {
			t.Errorf("the mimetype is packed by method %d with %d bytes of extra fields", first.Method, len(first.Extra))
		}
		listed := []string{"mimetype", "META-INF/container.xml", epub.PackageName}
		for _, l := range parsed[epub.PackageName].links {
			listed = append(listed, path.Join(path.Dir(epub.PackageName), l))
		}
		var held []string
		for _, f := range r.File {
			held = append(held, f.Name)
		}
		if diff := cmp.Diff(held, listed); diff != "" {
			t.Errorf("held, and listed in the package (-held +listed):\n%s", diff)
		}
		pack, err := fs.ReadFile(r, epub.PackageName)
		if err != nil {
			t.Fatal(err)
		}
		documents := 0
		for name := range parsed {
			if path.Ext(name) == ".xhtml" {
				documents++
			}
		}
		if n := bytes.Count(pack, []byte("<itemref ")); n != documents {
			t.Errorf("%d documents, %d in the reading order", documents, n)
		}
		checkBookLinks(t, r, parsed)
	}
}

// checkBookLinks looks whether every address leads to a file and an id of the
// book, every id is there once, and every name is that of an element.
func checkBookLinks(t *testing.T, r *zip.Reader, parsed map[string]bookFile) {
	t.Helper()
	held := map[string]bool{}
	for _, f := range r.File {
		held[f.Name] = true
	}
	inside := 0
	for name, f := range parsed {
		if path.Ext(name) != ".xhtml" {
			continue
		}
		slices.Sort(f.ids)
		if n := len(slices.Compact(slices.Clone(f.ids))); n != len(f.ids) {
			t.Errorf("%s: an id stands twice", name)
		}
		for _, id := range f.names {
			if !slices.Contains(f.ids, id) {
				t.Errorf("%s: nothing has the id %s that names something", name, id)
			}
		}
		for _, l := range f.links {
			u, err := url.Parse(l)
			if err != nil || u.Scheme != "" && u.Scheme != "https" {
				t.Errorf("%s: a link to %s (%v)", name, l, err)
				continue
			}
			if u.Scheme == "https" {
				continue
			}
			inside++
			to := name
			if u.Path != "" {
				to = path.Join(path.Dir(name), u.Path)
			}
			if !held[to] || u.Fragment != "" && !slices.Contains(parsed[to].ids, u.Fragment) {
				t.Errorf("%s: %s leads nowhere", name, l)
			}
		}
	}
	if inside < 1000 {
		t.Errorf("only %d links within the book; the test looks at too little", inside)
	}
}

var (
	askLink   = regexp.MustCompile(`<p class="Ask" id="[^"]+"><a href="([^"]+)">`)
	covered   = regexp.MustCompile(`(?s)<details class="Reveal[^>]*>`)
	drawing   = regexp.MustCompile(`<svg [^>]*>`)
	drawnName = regexp.MustCompile(`aria-labelledby="[^"]+"`)
)

// Every chapter says that the data are invented, and of which course the book
// is a part; answers stand in a chapter of their own; drawings have names.
func TestBookChapters(t *testing.T) {
	r, parsed := readBook(t, packBook(t, casebank.FS(), builder.Options{Course: "wet-lab"}))
	asked, drawings := 0, 0
	for name, f := range parsed {
		if path.Ext(name) != ".xhtml" {
			continue
		}
		for _, want := range []string{"All cases and data in this handout are invented", "This copy holds what the course"} {
			if !strings.Contains(f.text, want) {
				t.Errorf("%s does not say: %s", name, want)
			}
		}
		data, err := fs.ReadFile(r, name)
		if err != nil {
			t.Fatal(err)
		}
		if path.Base(name) == "tutors.xhtml" {
			t.Errorf("%s gives the answers without a cover", name)
		}
		answers := strings.HasSuffix(name, "-answers.xhtml")
		if bytes.Contains(data, []byte(`class="Answer"`)) != answers {
			t.Errorf("%s: answers stand where they should not, or don't where they should", name)
		}
		for _, m := range askLink.FindAllSubmatch(data, -1) {
			if asked++; !strings.Contains(string(m[1]), "-answers.xhtml#answer-") {
				t.Errorf("%s: a cover leads to %s", name, m[1])
			}
		}
		for _, svg := range drawing.FindAll(data, -1) {
			if drawings++; !drawnName.Match(svg) {
				t.Errorf("%s: a drawing without a name: %s", name, svg)
			}
		}
	}
	// Every cover over an answer is one link in the book: as many as the course's
	// handout has, without those over what the page says in another form.
	folder, want := unzipped(t, packZip(t, casebank.FS(), builder.Options{Course: "wet-lab"})), 0
	for _, f := range []string{"cases", "decisions", "questions"} {
		names, _ := filepath.Glob(filepath.Join(folder, f, "*.html"))
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range covered.FindAllString(string(data), -1) {
				if !strings.Contains(m, "data-same") {
					want++
				}
			}
		}
	}
	if asked == 0 || asked > want || drawings < 20 {
		t.Errorf("%d covers in the book, at most %d in the handout; %d drawings", asked, want, drawings)
	}
}

// The same bank gives the same book whatever the time zone and the number of
// processors, and nothing in it tells when it was made.
func TestBookSameBytes(t *testing.T) {
	zone, processors := time.Local, runtime.GOMAXPROCS(0)
	defer func() { time.Local = zone; runtime.GOMAXPROCS(processors) }()
	var books [][]byte
	for i, z := range []*time.Location{time.UTC, time.FixedZone("far", 14*3600)} {
		time.Local = z
		runtime.GOMAXPROCS(i + 1)
		books = append(books, packBook(t, casebank.FS(), builder.Options{Course: "wet-lab"}))
	}
	if !bytes.Equal(books[0], books[1]) {
		t.Error("two books of one bank differ")
	}
	r := readZip(t, books[0])
	pack, err := fs.ReadFile(r, epub.PackageName)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`<meta property="dcterms:modified">2026-01-01T00:00:00Z</meta>`, // the demonstration bank is edition 2026
		`<dc:language>en</dc:language>`, `<meta property="schema:accessibilitySummary">`, `<meta property="schema:accessModeSufficient">textual</meta>`,
	} {
		if !bytes.Contains(pack, []byte(want)) {
			t.Errorf("the package does not say %s", want)
		}
	}
	for _, f := range r.File {
		if y, m, d := f.Modified.Date(); y != 1980 || m != 1 || d != 1 || f.Modified.Hour() != 0 {
			t.Errorf("%s has the time %v", f.Name, f.Modified)
		}
	}
}

// A case that is not released is not in a book, by no word of it; a finding of
// privacy stops it; and nobody's file is written over.
func TestBookHoldsBack(t *testing.T) {
	bank := fstest.MapFS{
		"bank.yaml":     {Data: []byte("title: Two cases\n")},
		"cases/ab-1.md": smallCase("AB-1", attested, "Ready."), "cases/ab-2.md": smallCase("AB-2", "", "Not ready."),
	}
	shown := false
	r := readZip(t, packBook(t, bank, builder.Options{WithUnreleased: true}))
	for _, f := range r.File {
		data, err := fs.ReadFile(r, f.Name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(f.Name, "ab-2") || bytes.Contains(data, []byte("AB-2")) || bytes.Contains(data, []byte("Not ready")) {
			t.Errorf("%s shows the case that is held back", f.Name)
		}
		shown = shown || bytes.Contains(data, []byte("Ready."))
	}
	if !shown {
		t.Error("the released case is not in the book")
	}
	bank["theme/pages/about.tmpl"] = &fstest.MapFile{Data: []byte(`{{define "main"}}<p>First shown in spring 2020.</p>{{end}}`)}
	bank["bank.yaml"] = &fstest.MapFile{Data: []byte("title: Two cases\ntheme: theme\n")}
	read, _, err := content.Read(bank)
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "a.epub")
	var identifying *builder.IdentifyingError
	if _, err := builder.PackBook(read, builder.Options{Out: out, BankFiles: bank}); !errors.As(err, &identifying) {
		t.Errorf("a season went out: %v", err)
	}
	if list, _ := os.ReadDir(filepath.Dir(out)); len(list) > 0 {
		t.Errorf("something was written: %v", list)
	}
	if err := os.WriteFile(out, []byte("Dear all"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := builder.PackBook(read, builder.Options{Out: out, BankFiles: bank}); !errors.Is(err, builder.ErrWontReplace) {
		t.Errorf("somebody's file was written over: %v", err)
	}
}

// The book of a bank from right to left: pages turn that way, and every chapter
// and the navigation say their direction and language.
func TestBookFromRightToLeft(t *testing.T) {
	for _, course := range []string{"", "lab-day"} {
		r := readZip(t, packBook(t, os.DirFS("../testdata/arabic"), builder.Options{Course: course}))
		chapters := 0
		for _, f := range r.File {
			data, err := fs.ReadFile(r, f.Name)
			if err != nil {
				t.Fatal(err)
			}
			wanted := []string{`lang="ar"`, `xml:lang="ar"`, `dir="rtl"`}
			switch path.Ext(f.Name) {
			case ".opf":
				wanted = []string{`<spine page-progression-direction="rtl">`, "<dc:language>ar</dc:language>"}
			case ".xhtml":
				chapters++
			default:
				continue
			}
			for _, want := range wanted {
				if !bytes.Contains(data, []byte(want)) {
					t.Errorf("course %q: %s has no %s", course, f.Name, want)
				}
			}
		}
		if chapters < 20 {
			t.Errorf("course %q: %d chapters", course, chapters)
		}
	}
}
