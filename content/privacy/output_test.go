package privacy

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/net/html"
)

func TestScanOutput(t *testing.T) {
	page := func(s string) string {
		return "<!DOCTYPE html><html><head><title>Hooks</title></head><body>" + s + "</body></html>"
	}
	for name, c := range map[string]struct {
		file, data string
		want       []string // the source text of each finding
	}{
		"clean":             {"a.html", page(`<h1 class="Mrs Oxtallow" style="x">Hooks</h1><svg viewBox="0 0 120 14"><path d="M14/03/2021"/></svg>`), nil},
		"text":              {"a.html", page("<p>Seen by Mrs Oxtallow.</p>"), []string{"Mrs Oxtallow"}},
		"split by tags":     {"a.html", page("<p>Seen by <b>Mrs</b> <em>Oxtallow</em>.</p>"), []string{"Mrs</b> <em>Oxtallow"}},
		"two blocks":        {"a.html", page("<p>Dear Mrs</p><p>Oxtallow hooks</p>"), nil},
		"entity":            {"a.html", page("<p>MRN&#58; 4471902</p>"), []string{"4471902"}},
		"attribute":         {"a.html", page(`<img src="a.png" alt="Full-face portrait">`), []string{"Full-face portrait"}},
		"comment":           {"a.html", page("<!-- Mrs Oxtallow -->"), []string{"Mrs Oxtallow"}},
		"script":            {"a.html", page(`<script>var a = {"text": "Mrs Oxtallow"}</script>`), []string{"Mrs Oxtallow"}},
		"style":             {"a.html", page(`<style>/* for Mrs Oxtallow */ a { color: #123 }</style>`), []string{"Mrs Oxtallow"}},
		"address":           {"a.html", page(`<a href="https://photos.example.org/x">x</a>`), []string{"https://photos.example.org/x"}},
		"address in refs":   {"a.html", page(`<h2>Sources</h2><ol><li>A. <a href="https://journal.example.org/x">x</a></li></ol>`), nil},
		"refs end":          {"a.html", page(`<h2>Sources</h2><p>x</p><h2>Notes</h2><p>https://photos.example.org/x</p>`), []string{"https://photos.example.org/x"}},
		"zone reference":    {"a.html", page(`<ol data-zone="reference"><li>https://journal.example.org/x <ol><li>b</li></ol></li></ol>`), nil},
		"zone ends":         {"a.html", page(`<div data-zone="reference"><div>a</div></div><p>https://photos.example.org/x</p>`), []string{"https://photos.example.org/x"}},
		"zone authors":      {"a.html", page(`<p data-zone="authors">Margaret Oxtallow</p>`), nil},
		"zone published":    {"a.html", page(`<p data-zone="published">2 May 2024</p>`), nil},
		"zone front matter": {"a.html", page(`<pre data-zone="front-matter"><span>published</span>: <span>2024-05-02</span>` + "\n" + `<span>date</span>: <span>2021-03-14</span></pre>`), []string{"2021-03-14"}},
		"json":              {"search.json", `{"t":"Mrs Oxtallow","u":"a\nMRN 4471902"}`, []string{"Mrs Oxtallow", "4471902"}},
		"js":                {"search.js", "window.s = ['pt: OXTALLOW, Gwendra'];", []string{"OXTALLOW, Gwendra"}},
		"csv":               {"a.csv", "period,notes\n2024-Q2,\"seen 14/03/2021, late\"\n", []string{"14/03/2021"}},
		"svg":               {"a.svg", `<svg><text x="1">Mrs Oxtallow</text></svg>`, []string{"Mrs Oxtallow"}},
		"css":               {"a.css", "/* Mrs Oxtallow */ .a { margin: 10px 12px 14px 16px }", []string{"Mrs Oxtallow"}},
		"js comment":        {"a.js", "var a = 1; // by Mrs Oxtallow\nvar b = 'https://doi.org/10.5555/1';", []string{"Mrs Oxtallow"}},
		"csv broken":        {"a.csv", "period,notes\n2024,\"open\nMRN 4471902\n", []string{"4471902"}},
		"calendar":          {"a.ics", "BEGIN:VEVENT\r\nDTSTART:20260304T090000\r\nDESCRIPTION:Asked for by Mrs Ox\r\n tallow on the day\r\nEND:VEVENT\r\n", []string{"Mrs Ox\r\n tallow"}},
		"vtt":               {"a.vtt", "WEBVTT\n\n00:01.000 --> 00:02.000\nMRN 4471902\n", []string{"4471902"}},
	} {
		var got []string
		for _, f := range ScanOutput(c.file, []byte(c.data)) {
			got = append(got, c.data[f.Start:f.End])
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// TestScanManifest wants no finding in lists of check sums, which are figures
// and letters by chance: a false alarm there would stop a build for nothing.
func TestScanManifest(t *testing.T) {
	var b bytes.Buffer
	for i := range 20000 {
		fmt.Fprintf(&b, "{\n \"path\": \"cases/hb-%04d.html\",\n \"size\": %d,\n \"sha256\": \"%x\"\n},\n", i%9999, 10000+i*7919, sha256.Sum256([]byte{byte(i), byte(i >> 8)}))
	}
	for _, f := range ScanOutput("manifest.json", b.Bytes()) {
		t.Errorf("%v in %q", f, b.Bytes()[f.Start:f.End])
	}
}

func TestScanArchiveAndMedia(t *testing.T) {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for name, data := range map[string][]byte{"cases/a.html": []byte("<p>Mrs Oxtallow</p>"), "clean.html": []byte("<p>Hooks</p>"), "dirty.jpg": readImage(t, "jpeg-everything.jpg")} {
		f, err := w.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.Write(data); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	rules := map[string]int{}
	for _, f := range ScanOutput("handout.zip", b.Bytes()) {
		rules[f.Rule]++
	}
	if diff := cmp.Diff(map[string]int{"name.honorific": 1, RuleUnclean: 1}, rules); diff != "" {
		t.Error(diff)
	}
	clean, _, err := Clean("a.jpg", readImage(t, "jpeg-everything.jpg"))
	if err != nil || len(ScanOutput("a.jpg", clean.Data)) != 0 {
		t.Error("a cleaned picture is not silent")
	}
	if len(ScanOutput("broken.zip", []byte("PK\x03\x04"))) == 0 {
		t.Error("a broken archive is silent")
	}
}

// TestSilentBlocksAreNotScannedTwice: the memory of silent blocks must not hide
// a finding.
func TestSilentBlocksAreNotScannedTwice(t *testing.T) {
	o := builtin().NewOutput()
	for range 2 {
		if n := len(o.Scan("a.html", []byte("<p>Hooks and rings</p><p>Mrs Oxtallow</p>"))); n != 1 {
			t.Errorf("%d findings", n)
		}
	}
	zoned := []byte(`<p data-zone="published">2 May 2024</p>`)
	if len(o.Scan("a.html", zoned)) != 0 || len(o.Scan("a.html", []byte(`<p>2 May 2024</p>`))) != 1 {
		t.Error("what is silent in one zone is taken for silent in another")
	}
	const line = "<p>https://photos.example.org/x</p>\n<p>Hooks</p>\n"
	for _, c := range []struct {
		page string
		want int
	}{
		{"<h2>Sources</h2>\n" + line + line, 0},
		{"<h2>Hooks</h2>\n" + line + line, 2},
		{"<div data-zone=\"reference\">\n" + line + "</div>\n" + line, 1},
		{"<h2>\n" + line + "</h2>\n" + line, 2},
		{line + "<h2>Sources</h2>\n" + line, 1},
	} {
		for range 2 {
			if n := len(o.Scan("a.html", []byte(c.page))); n != c.want {
				t.Errorf("%q: %d findings, want %d", c.page, n, c.want)
			}
		}
	}
}

// FuzzFastIsPlain wants of an Output that remembers what was silent what one
// finds that remembers nothing.
func FuzzFastIsPlain(f *testing.F) {
	for _, s := range []string{"<p>Mrs Oxtallow</p>\n<p>x\n<p>Mrs Oxtallow", "\n<h2>Sources</h2>\n<p>2 May 2024\n<h2>a</h2>\n<p>2 May 2024\n<p>", "<p>\n<b>a\n</p>\n<script>\n<p>\"MRN 4471902\"\n</script>\n<p>\n<script>\n<p>"} {
		f.Add([]byte(s))
	}
	o, plain := builtin().ForgetfulOutput(), builtin().PlainOutput()
	f.Fuzz(func(t *testing.T, page []byte) {
		want := plain.Scan("a.html", page)
		for _, o := range []*Output{o, builtin().NewOutput()} {
			for range 2 {
				if diff := cmp.Diff(want, o.Scan("a.html", page)); diff != "" {
					t.Fatalf("(-plain +fast) %s", diff)
				}
			}
		}
	})
}

func TestExcepted(t *testing.T) {
	data := []byte("<p>A shepherd from Antmark came.</p>")
	found := ScanOutput("a.html", data)
	if len(found) != 1 || len(Excepted(found, data, []Exception{good()})) != 0 {
		t.Errorf("%v", found)
	}
	other := good()
	other.Match = "Elsewhere"
	if len(Excepted(found, data, []Exception{other})) != 1 {
		t.Error("another exception covers it")
	}
}

// TestLexerAgainstHTML holds the plain lexer against x/net/html: the same text
// comes out of both.
func TestLexerAgainstHTML(t *testing.T) {
	for _, page := range []string{
		`<p title="a > b">one<br/>two</p>`, `<a href=x>y</a >z`, `a < b and c <d>e</d>`, `<!-- c -->x<!doctype html>y`, `<p CLASS='q'>A</P>`,
		`<input disabled value="v">t`, `<p a = "b" c>t</p>`, `<style>a>b{}</style>t`, `<script>if (a<b) {}</script>t`, `<?xml version="1.0"?>t`,
	} {
		if got, want := plainText([]byte(page)), textOf(page); got != want {
			t.Errorf("%s: %q, want %q", page, got, want)
		}
	}
}

// textOf is the text of a page as x/net/html reads it, without comments,
// scripts and styles.
func textOf(page string) string {
	var text strings.Builder
	z := html.NewTokenizer(strings.NewReader(page))
	raw := false
	for kind := z.Next(); kind != html.ErrorToken; kind = z.Next() {
		name, _ := z.TagName()
		switch kind {
		case html.TextToken:
			if !raw {
				text.Write(z.Raw())
			}
		case html.StartTagToken:
			raw = string(name) == "script" || string(name) == "style"
		case html.EndTagToken:
			raw = false
		}
	}
	return text.String()
}

// plainText is what the lexer takes for text, without comments.
func plainText(data []byte) string {
	m := markup{o: builtin().NewOutput(), data: data, zone: Body}
	var out []byte
	for i := 0; i < len(data); {
		if data[i] != '<' {
			out = append(out, data[i])
			i++
			continue
		}
		m.text = stitched{}
		next := m.tag(i)
		if next == i+1 {
			out = append(out, '<')
		}
		i = next
	}
	return string(out)
}

func FuzzScanOutput(f *testing.F) {
	for _, s := range []string{"<p>Mrs Oxtallow</p>", "<a b='c", "<!--", "<script>\"", "</", "<svg><text>x", `{"a":"\u0041`, "a,b\n\"c"} {
		for _, name := range []string{"a.html", "a.json", "a.csv", "a.css"} {
			f.Add(name, []byte(s))
		}
	}
	f.Fuzz(func(t *testing.T, name string, data []byte) {
		last := 0
		for _, x := range ScanOutput(name, data) {
			if x.Start < last || x.End <= x.Start || x.End > max(1, len(data)) {
				t.Fatalf("%v in %d bytes", x, len(data))
			}
			last = x.Start
		}
	})
}
