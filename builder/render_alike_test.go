package builder

import (
	"bytes"
	"os"
	"reflect"
	"testing"

	"caseleaf/builder/layout"
	"caseleaf/content"
	"caseleaf/themes"
)

// LaidAlike holds what package layout makes of every page of a site against what
// html/template makes of it. No page is left to html/template.
func LaidAlike(t *testing.T, s *Site) {
	t.Helper()
	r, err := newRenderer(s.theme(), s.Masthead)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range s.Pages {
		laidAlike(t, r, p)
	}
}

func laidAlike(t *testing.T, r *renderer, p Page) {
	t.Helper()
	template := r.pages[p.Template]
	template.compile.Do(func() { template.quick = layout.Compile(template.whole) })
	if template.quick == nil {
		t.Errorf("%s: package layout doesn't know all that the template %s holds", p.Path, p.Template)
		return
	}
	var got, want bytes.Buffer
	f := r.frame(p)
	if err := template.whole.Execute(&want, *f); err != nil {
		t.Errorf("%s: %v", p.Path, err)
	}
	if err := template.quick.Execute(&got, f); err != nil {
		t.Errorf("%s, laid out from %s: %v", p.Path, p.Template, err)
	}
	if !bytes.Equal(got.Bytes(), want.Bytes()) {
		at := 0
		for at < min(got.Len(), want.Len()) && got.Bytes()[at] == want.Bytes()[at] {
			at++
		}
		near := func(b []byte) []byte { return b[max(0, at-60):min(len(b), at+60)] }
		t.Errorf("%s: from byte %d\n%s\nand not\n%s", p.Path, at, near(got.Bytes()), near(want.Bytes()))
	}
}

func TestDemoIsLaidAlike(t *testing.T) {
	site, _ := demoPages(t)
	LaidAlike(t, site)
}

func TestArabicIsLaidAlike(t *testing.T) {
	files := os.DirFS("../testdata/arabic")
	bank, _, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	LaidAlike(t, Plan(bank, Options{BankFiles: files}))
}

// Every field of every page's struct attacks the page.
func TestAttacksAreLaidAlike(t *testing.T) {
	attacks := []string{
		`"><script>ran(1)</script>`, `' onfocus='ran(1)`, "javascript:ran(1)", "//hostile/?a=b&c=d#e", "data:text/html,<b>", "a b%20c%zz\x00\xff\u2028",
		"&lt;&amp;&#43;+", `\x3c\u003c</title></textarea>`, "#", "", " JaVaScRiPt\t:ran(1)", "é–…", "mailto:a@b.example", "<!--", "`${ran(1)}`",
	}
	r, err := newRenderer(themes.FS(), Masthead{Title: "<Bank>", Edition: `"2026"`, Language: "en", Invented: true, Unreleased: true, Part: "<part>"})
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range pageData {
		for _, full := range []bool{true, false} {
			for i := range attacks {
				page := reflect.New(reflect.TypeOf(data).Elem())
				fill(page.Elem(), full, 0)
				attack(page.Elem(), attacks[i:], 0)
				laidAlike(t, r, Page{Path: "x/x.html", Template: name, Data: page.Interface()})
			}
		}
	}
}

// attack puts attacks into all texts below v, in turn, markup too.
func attack(v reflect.Value, attacks []string, n int) int {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			n = attack(v.Elem(), attacks, n)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			n = attack(v.Field(i), attacks, n)
		}
	case reflect.Slice:
		for i := range v.Len() {
			n = attack(v.Index(i), attacks, n)
		}
	case reflect.String:
		if v.CanSet() {
			v.SetString(attacks[n%len(attacks)])
		}
		n++
	}
	return n
}
