package front

import (
	"os"
	"path/filepath"
	"testing"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"caseleaf/content/diagnose"
)

// seed adds every Markdown file of the field reports, bytes as they are.
func seed(f *testing.F) {
	for _, pattern := range []string{"fr-*.md", "fr-*/*.md", "fr-*/*/*.md"} {
		files, err := filepath.Glob(reports + pattern)
		if err != nil {
			f.Fatal(err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	for _, text := range []string{
		"", "---\n", "---\n---\n", "--- \na: b\n---", "\n\n---\na: {b: [c, \"d\", 'e']}\n---\nf", "---\na: |\n  b\n\tc\n---\n",
		"---\na: \"\\u20\n---\n", "---\n- ? : &a *a !!b\n---\n", "---\na: b\u2028c: d\n---\n", "---\nk: [\n- \"\n---\n", "---\n{a\n: b}\n---\n",
		"---\n0: {0: у,0: }\n---",
	} {
		f.Add([]byte(text))
	}
}

// checkPlaces asserts that every message and every node lies inside the file.
func checkPlaces(t *testing.T, src *diagnose.Source, root *yaml.Node, ds diagnose.Diagnostics) {
	t.Helper()
	inside := func(line, column, length int, what string) {
		if line < 1 || line > src.Lines() || column < 1 || length < 0 || column+length-1 > utf8.RuneCountInString(src.Line(line))+1 {
			t.Errorf("%s at %d:%d, %d long, lies outside the file", what, line, column, length)
		}
	}
	for _, d := range ds {
		inside(d.Span.Line(), d.Span.Column(), d.Span.Length(), string(d.Code))
		for _, r := range d.Related {
			inside(r.Span.Line(), r.Span.Column(), r.Span.Length(), r.Message)
		}
	}
	var walk func(n *yaml.Node)
	walk = func(n *yaml.Node) {
		inside(n.Line, n.Column, 0, "node "+n.Value)
		for _, c := range n.Content {
			walk(c)
		}
	}
	if root != nil {
		walk(root)
	}
}

// checkThin asserts that the tree is the one that the library makes of the text as
// it is typed. Of tags only that of nothing is looked at, as readers do.
func checkThin(t *testing.T, src *diagnose.Source, p part, root *yaml.Node) {
	t.Helper()
	typed, line, problem := parse(src, p)
	if problem != "" {
		t.Fatalf("read, but as typed line %d has a fault: %s", line, problem)
	}
	var walk func(a, b *yaml.Node)
	walk = func(a, b *yaml.Node) {
		if a.Kind != b.Kind || a.Value != b.Value || a.Style != b.Style || a.Line != b.Line || a.Column != b.Column ||
			(a.Tag == "!!null") != (b.Tag == "!!null") || len(a.Content) != len(b.Content) {
			t.Fatalf("read %+v\nas typed %+v", a, b)
		}
		for i := range a.Content {
			walk(a.Content[i], b.Content[i])
		}
	}
	walk(root, typed)
}

// FuzzSplit reads arbitrary bytes as a Markdown file: it never panics, says why
// it refuses, and every place lies inside the file.
func FuzzSplit(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		bag := diagnose.NewBag()
		src, ok := Normalise("case.md", data, bag)
		var doc Document
		if ok {
			doc, ok = Split(src, bag)
		}
		ds := bag.Sorted()
		if !ok && !ds.Failed() {
			t.Error("refused without a word")
		}
		if ok && doc.BodyOffset+len(doc.Body) != len(src.Data) {
			t.Error("the body does not reach the end of the file")
		}
		checkPlaces(t, src, doc.Root, ds)
		if ok {
			fences, _ := findFences(src, bag)
			checkThin(t, src, part{fences.firstLine, fences.start, fences.end}, doc.Root)
		}
	})
}

// FuzzYAML reads arbitrary bytes as a whole YAML file.
func FuzzYAML(f *testing.F) {
	seed(f)
	f.Add([]byte("title: A bank\nstrata:\n  - {id: low, label: Low risk}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		bag := diagnose.NewBag()
		src, ok := Normalise("bank.yaml", data, bag)
		var root *yaml.Node
		if ok {
			root, ok = YAML(src, bag)
		}
		ds := bag.Sorted()
		if ok != (root != nil) && ok {
			t.Error("accepted without a tree")
		}
		if !ok && !ds.Failed() {
			t.Error("refused without a word")
		}
		checkPlaces(t, src, root, ds)
		if ok {
			checkThin(t, src, wholeFile(src), root)
		}
	})
}
