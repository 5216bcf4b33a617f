package prose_test

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/builder/prose"
	"caseleaf/content"
	"caseleaf/content/diagnose"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/net/html"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const reports = "../../testdata/field-reports/"

// plainHead is what a case needs besides the parts that a report is about.
const plainHead = "procedure: phacoemulsification\ntechnique: divide-and-conquer\ntimeline:\n  - {at: 0:40, step: main-incision, width: 2.4 mm}\n%s" +
	"release: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n"

// fitted puts a report's id, title, sign and story under front matter of today.
// Comments keep the lines of the story, and of the sign, where they are.
func fitted(data string) []byte {
	head, body, _ := strings.Cut(data, "\n---\n")
	kept, sign := "---\n", ""
	for line := range strings.Lines(head) {
		switch text := strings.TrimSpace(line); {
		case strings.HasPrefix(line, "case:"), strings.HasPrefix(line, "title:"):
			kept += line
		case strings.HasPrefix(text, "sign:"):
			sign = "  - at: 3:05\n    event: iris-prolapse\n    " + text + "\n"
		}
	}
	kept += fmt.Sprintf(plainHead, sign)
	kept += strings.Repeat("#\n", max(0, strings.Count(head, "\n")+1-strings.Count(kept, "\n")))
	return []byte(kept + "---\n" + body)
}

// reportBank makes a bank of a report: a file, or a folder with its pictures.
func reportBank(t *testing.T, name string) fstest.MapFS {
	t.Helper()
	bank := fstest.MapFS{"bank.yaml": {Data: []byte("title: T\nedition: \"2026\"\n")}}
	err := filepath.WalkDir(reports+name, func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(file)
		if strings.HasSuffix(file, ".md") {
			data = fitted(string(data))
		}
		below := strings.TrimPrefix(filepath.ToSlash(file), reports+name)
		if below == "" {
			below = "/" + name
		}
		bank["cases"+below] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return bank
}

// place writes a target the way a page would, but so that its parts are seen.
func place(t content.Target) string {
	switch t.Kind {
	case content.ToWeb:
		return t.ID
	case content.ToHeading:
		return "#" + t.Fragment
	case content.ToCase:
		return strings.TrimSuffix("case/"+t.ID+".html#"+t.Fragment, "#")
	case content.ToPicture:
		return "picture/" + regexp.MustCompile(`[^A-Za-z0-9./]`).ReplaceAllString(t.ID, "_")
	case content.ToTime:
		return "time/" + t.Time.String()
	}
	return "other/" + t.ID
}

// read gives what is said of a bank's stories (notes and the privacy check left
// out) and the stories as HTML, all on one page.
func read(t *testing.T, bank fstest.MapFS) (said []string, page string) {
	t.Helper()
	b, found, err := content.Read(bank)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range found {
		if d.Severity != diagnose.Note && d.Code != "identifying" {
			said = append(said, fmt.Sprintf("%s:%d:%d %s %s: %s", d.Span.File(), d.Span.Line(), d.Span.Column(), d.Severity, d.Code, d.Message))
		}
	}
	var out bytes.Buffer
	for _, c := range b.Cases {
		fmt.Fprintf(&out, "<section id=\"%s\">\n", strings.ToLower(c.ID.Value))
		prose.Render(&out, &c.Body, prose.Options{Prefix: strings.ToLower(c.ID.Value) + "-", Href: place})
		out.WriteString("</section>\n")
	}
	return said, out.String()
}

// TestFieldReports holds stories to FR-11 and FR-14 to FR-23. The golden files
// hold the place of every message and the page; what the reports' index asks for is checked
// besides: lines and words of messages (in order; every one must be there, and
// no other), strings of the page.
func TestFieldReports(t *testing.T) {
	for _, test := range []struct {
		file     string
		messages []string // "line severity words", the lines of the reports' index
		has      []string
		hasNot   []string
	}{
		{file: "fr-11-rules.md", has: []string{"Third part. A note --- with dashes --- in it.", "Fourth part ends here."}},
		{file: "fr-14-headings.md", messages: []string{"51 warning no-such-heading"}, has: []string{
			`id="hb-116-капсулорексис"`, `id="hb-116-капсулорексис-2"`, `id="hb-116-超声乳化"`, `id="hb-116-étape-1-incision"`,
			`id="hb-116-1-iris-why-hooks"`, `id="hb-116-section"`, `<a href="#капсулорексис">`, `<a href="#超声乳化">`, `<a href="#étape-1-incision">`,
			" and nowhere.",
		}},
		{file: "fr-15-footnotes", messages: []string{"33 warning unused", "35 warning gone", "33 warning unused", "35 warning gone"}, has: []string{
			`<a href="#hb-118-note_1"`, `<a href="#hb-118-call_1" `, `<a href="#hb-118-call_1_2" `, "missing[^gone].",
		}, hasNot: []string{"Never called"}},
		{file: "fr-16-hostile.md", messages: []string{
			"3 warning shown as typed", "10 warning shown as typed", "29 warning only https", "30 warning only https", "30 warning only https",
			"31 warning only https", "31 warning only https", "32 warning only https", "32 warning only https", "33 warning <img>",
			"34 warning <script>", "35 warning <iframe>", "36 warning left out", "36 warning left out", "37 warning path on your computer",
		}, has: []string{
			`<a href="https://example.org/guide?a=1&amp;b=2"`, `<a href="mailto:team@example.org"`, `<a href="#notes">`,
			"Pupil &lt;5 mm &amp; rising, then &gt;6 mm; H<sub>2</sub>O.",
		}, hasNot: []string{"<script", "<style", "<iframe", "<img", "<svg", "onerror", "javascript:", "jane", "Mrs", "000000", `href=""`}},
		{file: "fr-17-table.md", messages: []string{"31 warning 5 cells, the head has 3", "33 warning 4 cells, the head has 3"},
			has: []string{"<code>a | b</code>", "<td>kept by the machine</td>", "<td>&gt; 2 A`</td>", "<td>also a fourth cell</td>", "55 %"}},
		{file: "fr-18-images", messages: []string{
			"29 warning put < > round the name", "32 warning put < > round the name", "33 error differs in capitals", "34 error differs in capitals",
			"35 warning a space or a letter", "36 warning a space or a letter", "38 warning write /", "39 error was not found", "40 error outside the bank",
			"41 warning no description",
		}, has: []string{`alt="angle brackets"`, `alt="coded"`, `alt="per cent"`}},
		{file: "fr-19-clinical-text.md", has: []string{
			"12/10", "6/24", "1/2", "~5 mm~6 mm", "~30 s~40 s", "5' 6&quot;", "27 G", "10-0", "2*3*4", "IOP_pre_op", "10^-3^", "H~2~O", "+21.5 D",
			"-0.50 D", "$5 and $6", "&lt; 40", "&gt; 20", "6 o'clock",
		}, hasNot: []string{"<em>", "<del>", "<strong>"}},
		{file: "fr-20-links", messages: []string{
			"31 warning nothing-here", "32 error differs in capitals", "33 warning put < > round the name", "35 error HB-199.md", "38 error outside",
		}, has: []string{
			`<a href="case/HB-124.html">next case`, `<a href="case/HB-124.html#what-i-learned">`, `title="Tip: &quot;quoted&quot;"`,
			`<a href="case/HB-125.html#part-two">by reference`, `<a href="picture/cases/more_cases/plan.png">`, `<a href="#a-heading-here">`,
			`<a href="case/HB-124.html">with query`, `<a href="case/HB-123.html">the first`,
		}, hasNot: []string{`.md"`, ".md#", ".md?"}},
		{file: "fr-23-odd-names", has: []string{`alt="pupil"`, `<a href="case/HB-127.html">`, `alt="amp"`}},
	} {
		t.Run(test.file, func(t *testing.T) {
			said, page := read(t, reportBank(t, test.file))
			compareMessages(t, test.messages, said)
			for _, s := range test.has {
				if !strings.Contains(page, s) {
					t.Errorf("the page lacks %q", s)
				}
			}
			for _, s := range test.hasNot {
				if strings.Contains(page, s) {
					t.Errorf("the page holds %q", s)
				}
			}
			checkPage(t, page)
			golden(t, strings.TrimSuffix(test.file, ".md"), places(said)+"\n"+page)
		})
	}
}

// places gives the places and codes of messages; their words are for people and
// are checked by the test itself.
func places(said []string) string {
	var out strings.Builder
	for _, s := range said {
		place, _, _ := strings.Cut(s, ": ")
		out.WriteString(place + "\n")
	}
	return out.String()
}

func compareMessages(t *testing.T, want, said []string) {
	t.Helper()
	if len(want) != len(said) {
		t.Fatalf("%d messages, want %d:\n%s", len(said), len(want), strings.Join(said, "\n"))
	}
	for i, m := range want {
		line, rest, _ := strings.Cut(m, " ")
		severity, words, _ := strings.Cut(rest, " ")
		if !strings.Contains(said[i], ":"+line+":") || !strings.Contains(said[i], " "+severity+" ") || !strings.Contains(said[i], words) {
			t.Errorf("message %d is %q, want line %s, %s, %q", i, said[i], line, severity, words)
		}
	}
}

// allowed are the elements and attributes that a story may put on a page.
var (
	elements = strings.Fields("section p br hr em strong sub sup kbd b i u s del ins mark abbr small cite code q var samp dfn a img blockquote " +
		"ul ol li pre span div table thead tbody tr th td h2 h3 h4 h5 h6")
	attributes = strings.Fields("id class href src alt title rel role aria-label tabindex scope start loading decoding")
)

// checkPage holds a page to what every story must keep: elements and attributes
// of a list, tags in pairs, ids once, addresses of a harmless form.
func checkPage(t *testing.T, page string) {
	t.Helper()
	ids := map[string]bool{}
	var open []string
	lexer := html.NewTokenizer(strings.NewReader(page))
	for {
		kind := lexer.Next()
		if kind == html.ErrorToken {
			break
		}
		token := lexer.Token()
		switch kind {
		case html.CommentToken, html.DoctypeToken:
			t.Errorf("the page holds %s", token)
		case html.StartTagToken:
			if !slices.Contains(elements, token.Data) {
				t.Errorf("the page holds <%s>", token.Data)
			}
			if !slices.Contains([]string{"br", "hr", "img"}, token.Data) {
				open = append(open, token.Data)
			}
		case html.EndTagToken:
			if len(open) == 0 || open[len(open)-1] != token.Data {
				t.Fatalf("</%s> ends %v", token.Data, open)
			}
			open = open[:len(open)-1]
		}
		for _, a := range token.Attr {
			checkAttribute(t, a, ids)
		}
	}
	if len(open) > 0 {
		t.Errorf("not ended: %v", open)
	}
}

var harmless = regexp.MustCompile(`^(https?://[^/]|mailto:.|#.|case/|picture/|time/|other/)`)

func checkAttribute(t *testing.T, a html.Attribute, ids map[string]bool) {
	t.Helper()
	if !slices.Contains(attributes, a.Key) {
		t.Errorf("the page holds the attribute %s", a.Key)
	}
	switch a.Key {
	case "id":
		if ids[a.Val] {
			t.Errorf("the id %s occurs twice", a.Val)
		}
		ids[a.Val] = true
	case "href":
		if !harmless.MatchString(a.Val) {
			t.Errorf("the page leads to %q", a.Val)
		}
	case "src":
		if !strings.HasPrefix(a.Val, "picture/") {
			t.Errorf("the page loads %q", a.Val)
		}
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := "testdata/" + name + ".golden"
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got; refresh with -update):\n%s", file, diff)
	}
}
