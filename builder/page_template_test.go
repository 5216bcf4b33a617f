package builder

import (
	"bytes"
	"fmt"
	"html/template"
	"io/fs"
	"path"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"golang.org/x/net/html"

	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/themes"
)

// pageData is the struct that each template of the theme lays out.
var pageData = map[string]any{
	"start": &StartPage{}, "case": &CasePage{}, "cases": &CasesPage{}, "source": &SourcePage{},
	"step": &StepPage{}, "steps": &StepsPage{}, "complication": &ComplicationPage{},
	"complications": &ComplicationsPage{}, "technique": &TechniquePage{}, "techniques": &TechniquesPage{},
	"decision": &DecisionPage{}, "decisions": &DecisionsPage{}, "course": &CoursePage{}, "course-stations": &StationsPage{}, "course-groups": &GroupsPage{},
	"course-kit": &KitPage{}, "course-reading": &ReadingPage{}, "course-tutors": &CourseTutorsPage{},
	"courses": &CoursesPage{}, "risks": &RisksPage{}, "glossary": &GlossaryPage{},
	"about": &AboutPage{}, "cautions": &CautionsPage{},
	"tutors": &TutorsPage{}, "progress": &ProgressPage{}, "questions": &QuestionsPage{}, "cards": &CardsPage{}, "chains": &ChainsPage{}, "figures": &FiguresPage{},
	"evening": &EveningPage{}, "booklets": &BookletsPage{},
	"booklet-participants": &BookletPage{}, "booklet-tutors": &BookletPage{},
	"search": &SearchPage{}, "surgeons": &SurgeonsPage{},
}

// fill sets every field below v, so that a template's every branch is walked:
// with full, one of everything; without, only what is not a condition.
func fill(v reflect.Value, full bool, depth int) {
	if depth > 8 {
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if full {
			v.Set(reflect.New(v.Type().Elem()))
			fill(v.Elem(), full, depth+1)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() { // templates cannot read the others
				fill(v.Field(i), full, depth+1)
			}
		}
	case reflect.Slice:
		if full {
			v.Set(reflect.MakeSlice(v.Type(), 2, 2))
			fill(v.Index(0), true, depth+1)
			fill(v.Index(1), false, depth+1)
		}
	case reflect.String:
		if full && v.Type() != reflect.TypeFor[template.HTML]() {
			v.SetString("x")
		} else if full {
			v.SetString("<p>x</p>")
		}
	case reflect.Bool:
		v.SetBool(full)
	case reflect.Int:
		if full {
			v.SetInt(2)
		}
	}
}

// Every template executes with its struct, filled and empty: a template and
// its data cannot part unseen.
func TestTemplatesFitTheirData(t *testing.T) {
	render, err := newRenderer(themes.FS(), Masthead{Title: "Bank", Edition: "2026", Language: "en", Invented: true, Unreleased: true})
	if err != nil {
		t.Fatal(err)
	}
	files, err := fs.Glob(themes.FS(), "pages/[a-z]*.tmpl")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		name := strings.TrimSuffix(path.Base(f), ".tmpl")
		data, ok := pageData[name]
		if !ok {
			continue // laid out by another planner, which has its own test
		}
		for _, full := range []bool{true, false} {
			page := reflect.New(reflect.TypeOf(data).Elem())
			fill(page.Elem(), full, 0)
			if _, err := render.render(Page{Path: "x/x.html", Template: name, Data: page.Interface()}); err != nil {
				t.Errorf("%s, full %v: %v", f, full, err)
			}
		}
	}
	for name := range pageData {
		if !slices.Contains(files, "pages/"+name+".tmpl") {
			t.Errorf("no pages/%s.tmpl", name)
		}
	}
}

// demoPages is the demonstration bank, planned and rendered in memory, once for
// all tests, which only look at it.
func demoPages(t *testing.T) (*Site, map[string]*html.Node) {
	t.Helper()
	made, err := renderDemo()
	if err != nil {
		t.Fatal(err)
	}
	return made.site, made.pages
}

// renderedDemo is a site and its pages, by path.
type renderedDemo struct {
	site  *Site
	pages map[string]*html.Node
}

var renderDemo = sync.OnceValues(func() (made renderedDemo, err error) {
	bank, found, err := content.Read(casebank.FS())
	if err != nil || found.Failed() {
		return made, fmt.Errorf("reading the demonstration bank: %v, %s", err, found.Summary())
	}
	made.site, made.pages = Plan(bank, Options{BankFiles: casebank.FS()}), map[string]*html.Node{}
	render, err := newRenderer(made.site.theme(), made.site.Masthead)
	if err != nil {
		return made, err
	}
	for _, p := range made.site.Pages {
		data, err := render.render(p)
		if err != nil {
			return made, err
		}
		if made.pages[p.Path], err = html.Parse(bytes.NewReader(data)); err != nil {
			return made, err
		}
	}
	return made, nil
})

func attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func hasClass(n *html.Node, class string) bool {
	return slices.Contains(strings.Fields(attr(n, "class")), class)
}

// all lists the elements below root that are of an element name, or of a class
// when the name begins with a full stop.
func all(root *html.Node, what string) []*html.Node {
	var list []*html.Node
	for n := range root.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		if class, ok := strings.CutPrefix(what, "."); ok && hasClass(n, class) || n.Data == what {
			list = append(list, n)
		}
	}
	return list
}

func textOf(n *html.Node) string {
	var out strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			out.WriteString(d.Data)
		}
	}
	return strings.Join(strings.Fields(out.String()), " ")
}

func inside(n *html.Node, element string) bool {
	for p := n.Parent; p != nil; p = p.Parent {
		if p.Data == element {
			return true
		}
	}
	return false
}

// What every page owes its reader, held by selector.
func TestEveryPage(t *testing.T) {
	site, pages := demoPages(t)
	invented, _ := site.words().look("invented")
	protocol, _ := site.words().look("protocol")
	for p, root := range pages {
		checkFrame(t, p, root)
		checkTables(t, p, root)
		checkReferences(t, p, root)
		text := textOf(root)
		if !strings.Contains(text, invented) {
			t.Errorf("%s: does not say that the data are invented", p)
		}
		if !strings.Contains(text, protocol) {
			t.Errorf("%s: does not defer to the local protocol", p)
		}
		checkScripts(t, p, root)
	}
}

// checkScripts holds scripts to files of the handout that no reading waits for,
// and a page to the policy that lets nothing else run, load or be sent.
func checkScripts(t *testing.T, p string, root *html.Node) {
	t.Helper()
	for _, s := range all(root, "script") {
		src := attr(s, "src")
		deferred := hasAttr(s, "defer")
		if !strings.HasPrefix(src, rootOf(p)+"assets/") || !deferred || s.FirstChild != nil {
			t.Errorf("%s: a script of %q, deferred %v, is no deferred file of the handout", p, src, deferred)
		}
	}
	policy := ""
	for _, m := range all(root, "meta") {
		if attr(m, "http-equiv") == "Content-Security-Policy" {
			policy = attr(m, "content")
		}
	}
	if !strings.HasPrefix(policy, "default-src 'none';") || strings.Contains(policy, "unsafe") || strings.Contains(policy, "connect-src") {
		t.Errorf("%s: the policy is %q", p, policy)
	}
}

func checkFrame(t *testing.T, p string, root *html.Node) {
	t.Helper()
	if l := all(root, "html"); attr(l[0], "lang") != "en" || attr(l[0], "dir") != "ltr" {
		t.Errorf("%s: language %q, direction %q", p, attr(l[0], "lang"), attr(l[0], "dir"))
	}
	for _, once := range []string{"h1", "main", "title", "footer"} {
		n := 0
		for _, e := range all(root, once) {
			if !inside(e, "svg") { // a drawing has a title of its own
				n++
			}
		}
		if n != 1 {
			t.Errorf("%s: %d <%s>", p, n, once)
		}
	}
	if textOf(all(root, "title")[0]) == "" || textOf(all(root, "h1")[0]) == "" {
		t.Errorf("%s: title or head is empty", p)
	}
	skip := all(root, ".Skip")
	if len(skip) != 1 || attr(skip[0], "href") != "#"+attr(all(root, "main")[0], "id") {
		t.Errorf("%s: no skip link to the text", p)
	}
	for _, nav := range all(root, "nav") {
		if attr(nav, "aria-label") == "" {
			t.Errorf("%s: a nav without a name", p)
		}
	}
	if p != startPage && len(all(root, ".Trail")) != 1 {
		t.Errorf("%s: no trail", p)
	}
	level := 0
	for n := range root.Descendants() {
		if n.Type != html.ElementNode || len(n.Data) != 2 || n.Data[0] != 'h' || n.Data[1] < '1' || n.Data[1] > '6' {
			continue
		}
		if now := int(n.Data[1] - '0'); now > level+1 {
			t.Errorf("%s: <%s> %q follows a heading of level %d", p, n.Data, textOf(n), level)
		} else {
			level = now
		}
	}
}

func checkTables(t *testing.T, p string, root *html.Node) {
	t.Helper()
	for _, table := range all(root, ".Table") {
		if l := all(table, "caption"); len(l) != 1 || textOf(l[0]) == "" {
			t.Errorf("%s: a table without a caption", p)
		}
		for _, th := range all(table, "th") {
			if attr(th, "scope") == "" {
				t.Errorf("%s: header %q without a scope", p, textOf(th))
			}
		}
	}
	for _, img := range all(root, "img") {
		if !slices.ContainsFunc(img.Attr, func(a html.Attribute) bool { return a.Key == "alt" }) {
			t.Errorf("%s: a picture without alt", p)
		}
	}
	for _, d := range all(root, "details") {
		if l := all(d, "summary"); len(l) == 0 || l[0].Parent != d {
			t.Errorf("%s: details without one summary", p)
		}
	}
}

// checkReferences holds ids unique and every reference to one that exists.
func checkReferences(t *testing.T, p string, root *html.Node) {
	t.Helper()
	ids := map[string]int{}
	for n := range root.Descendants() {
		if id := attr(n, "id"); id != "" {
			ids[id]++
		}
	}
	for id, n := range ids {
		if n > 1 {
			t.Errorf("%s: id %q stands %d times", p, id, n)
		}
	}
	for n := range root.Descendants() {
		for _, id := range strings.Fields(attr(n, "aria-labelledby")) {
			if ids[id] == 0 {
				t.Errorf("%s: labelled by %q, which is not there", p, id)
			}
		}
	}
}
