package privacy_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"caseleaf/builder"
	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/content/privacy"
	"caseleaf/content/term"

	"github.com/google/go-cmp/cmp"
)

// forms are the ways in which a text gets into a written file. Each is put in
// at the beginning of a line.
var forms = map[string]func(r *rand.Rand, text string) string{
	"paragraph": func(r *rand.Rand, text string) string { return "<p>" + html.EscapeString(text) + "</p>\n" },
	"split over tags": func(r *rand.Rand, text string) string {
		words := strings.Split(html.EscapeString(text), " ")
		k := r.IntN(len(words))
		words[k] = "<em class=\"x\">" + words[k] + "</em>"
		return "<li><span class=\"a\">" + strings.Join(words, "</span> <span class=\"a\">") + "</span></li>\n"
	},
	"split in a word": func(r *rand.Rand, text string) string {
		k := r.IntN(len(text) + 1)
		return "<td>" + html.EscapeString(text[:k]) + "<wbr>" + html.EscapeString(text[k:]) + "\n"
	},
	"over lines": func(r *rand.Rand, text string) string {
		return "<div>\n" + strings.ReplaceAll(html.EscapeString(text), " ", "\n") + "\n</div>\n"
	},
	"in a heading": func(r *rand.Rand, text string) string { return "<h2>" + html.EscapeString(text) + "</h2>\n<p>x</p>\n" },
	"under sources": func(r *rand.Rand, text string) string {
		return "<h2>Sources</h2>\n<p>" + html.EscapeString(text) + "</p>\n"
	},
	"in an attribute": func(r *rand.Rand, text string) string { return `<img alt="` + html.EscapeString(text) + "\">\n" },
	"in data":         func(r *rand.Rand, text string) string { return `<a data-x='` + html.EscapeString(text) + "'>x</a>\n" },
	"in a comment":    func(r *rand.Rand, text string) string { return "<!-- " + text + " -->\n" },
	"drawn": func(r *rand.Rand, text string) string {
		return `<svg><text x="1">` + html.EscapeString(text) + "</text></svg>\n"
	},
	"in a script": func(r *rand.Rand, text string) string { return "<script>var a = " + inJSON(text) + ";</script>\n" },
	"in a style":  func(r *rand.Rand, text string) string { return "<style>/* " + text + " */</style>\n" },
	"front matter": func(r *rand.Rand, text string) string {
		return `<pre data-zone="front-matter">note: ` + html.EscapeString(text) + "</pre>\n"
	},
	"of the authors": func(r *rand.Rand, text string) string {
		return `<p data-zone="authors">` + html.EscapeString(text) + "</p>\n"
	},
	"unclosed": func(r *rand.Rand, text string) string { return "<p title=\"" + text + "\n<p>" + text + "\n" },
}

func inJSON(text string) string {
	b, _ := json.Marshal(text) // a string is always encoded
	return string(b)
}

// TestFastIsPlain scans the handout of the demonstration, and then its pages
// with every labelled text planted in one of many forms, by Outputs that
// remember what was silent, and wants what one that remembers nothing finds.
// Each page is scanned twice, and the text stands in it twice, so that a text
// that was wrongly taken for silent would be missed the second time.
func TestFastIsPlain(t *testing.T) {
	files := handout(t)
	scanner := privacy.New(privacy.Options{Vocabulary: term.Cataract()})
	plain := scanner.PlainOutput()
	fast := []*privacy.Output{scanner.NewOutput(), scanner.ForgetfulOutput()}
	same := func(what, name string, data []byte) (found int) {
		t.Helper()
		want := plain.Scan(name, data)
		for range 2 {
			for _, o := range fast {
				if diff := cmp.Diff(want, o.Scan(name, data)); diff != "" {
					t.Fatalf("%s %s (-plain +fast): %s", name, what, diff)
				}
			}
		}
		return len(want)
	}
	var pages []string
	for _, name := range slices.Sorted(maps.Keys(files)) {
		same("as it is", name, files[name])
		if path.Ext(name) == ".html" && len(files[name]) < 40_000 {
			pages = append(pages, name)
		}
	}
	r := rand.New(rand.NewPCG(5, 2026))
	names := slices.Sorted(maps.Keys(forms))
	planted, found := 0, 0
	for i, text := range privacy.LabelledTexts(t) {
		for k := range 3 {
			form := names[(3*i+k)%len(names)]
			page := pages[r.IntN(len(pages))]
			lines := strings.SplitAfter(string(files[page]), "\n")
			for range 2 {
				lines = slices.Insert(lines, r.IntN(len(lines)), forms[form](r, text))
			}
			planted++
			found += same(fmt.Sprintf("with %q %s", text, form), page, []byte(strings.Join(lines, "")))
		}
	}
	if planted < 1000 || found < planted {
		t.Errorf("%d texts were planted and %d findings made; the test looks at too little", planted, found)
	}
}

// TestLexerOnHandout holds the lexer against x/net/html on every page and
// drawing of the demonstration.
func TestLexerOnHandout(t *testing.T) {
	for name, data := range handout(t) {
		if ext := path.Ext(name); ext == ".html" || ext == ".svg" {
			data = bytes.ReplaceAll(data, []byte("noscript"), []byte("nocode")) // which x/net/html takes for text
			if diff := cmp.Diff(privacy.TextOf(data), privacy.LexedText(data)); diff != "" {
				t.Errorf("%s: %s", name, diff)
			}
		}
	}
}

// handout is that of the demonstration, made once.
var handout = func() func(*testing.T) map[string][]byte {
	var once sync.Once
	var files map[string][]byte
	return func(t *testing.T) map[string][]byte {
		t.Helper()
		once.Do(func() { files = makeHandout(t) })
		return files
	}
}()

func makeHandout(t *testing.T) map[string][]byte {
	t.Helper()
	bank, found, err := content.Read(casebank.FS())
	if err != nil || found.Failed() {
		t.Fatal(err, found.Summary())
	}
	out := filepath.Join(t.TempDir(), "handout")
	if _, err := builder.Build(bank, builder.Options{Out: out, BankFiles: casebank.FS()}); err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{}
	err = filepath.WalkDir(out, func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		rel, err := filepath.Rel(out, name)
		if err != nil {
			return err
		}
		files[filepath.ToSlash(rel)], err = os.ReadFile(name)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}
