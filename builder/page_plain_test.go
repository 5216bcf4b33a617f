package builder_test

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/content/measure"
)

// plain is what a page is without script and without style: its texts in the
// order of the document, and where elements with an id begin in them.
type plain struct {
	text string
	ids  map[string]int
}

// readPlain reads a page as a reader without script and style does: nothing of
// templates, scripts or what is marked hidden.
func readPlain(t *testing.T, name string) plain {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	root, err := html.Parse(strings.NewReader(string(data)))
	if err != nil {
		t.Fatal(err)
	}
	p := plain{ids: map[string]int{}}
	var words []string
	length := 0
	var walk func(n *html.Node)
	walk = func(n *html.Node) {
		switch {
		case n.Type == html.TextNode:
			for _, w := range strings.Fields(n.Data) {
				words = append(words, w)
				length += len(w) + 1
			}
		case n.Data == "template", n.Data == "script", n.Data == "head":
			return
		}
		for _, a := range n.Attr {
			switch a.Key {
			case "hidden":
				return
			case "id":
				p.ids[a.Val] = length
			}
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c)
		}
	}
	walk(root)
	p.text = strings.Join(words, " ")
	return p
}

// after finds a text at or after a place: where it ends, or -1.
func (p plain) after(from int, text string) int {
	if from < 0 || from > len(p.text) {
		return -1
	}
	text = single(text)
	i := strings.Index(squeezed(p.text[from:]), squeezed(text))
	if i < 0 {
		return -1
	}
	// Blanks are not counted, since an element that ends before a full stop puts
	// one there; walk to the same place with them.
	left, at := i+len(squeezed(text)), from
	for ; left > 0; at++ {
		if p.text[at] != ' ' {
			left--
		}
	}
	return at
}

func squeezed(s string) string { return strings.ReplaceAll(s, " ", "") }

// texts collects what an author wrote in a case: every text of more than one
// word, by the path of its field. What a word stands for (a term, a grade) is
// looked at by the caller.
func texts(v reflect.Value, path string, into map[string]string) {
	switch g := v.Interface().(type) {
	case content.Given[string]:
		if g.Known() && strings.Contains(g.Value, " ") {
			into[path+" "+g.Value] = g.Value
		}
		return
	case content.Release, content.PrivacyException, content.Body: // the check's own, and the narrative
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			texts(v.Elem(), path, into)
		}
	case reflect.Slice:
		for i := range v.Len() {
			texts(v.Index(i), path, into)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && f.Name != "Source" && f.Name != "Span" {
				texts(v.Field(i), path+"."+f.Name, into)
			}
		}
	}
}

// Every fact of every demonstration case stands on its page without script:
// texts, terms by their labels, and times.
func TestEveryFactWithoutScript(t *testing.T) {
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	facts := 0
	for _, c := range bank.Cases {
		p := readPlain(t, filepath.Join(demoHandout(t), "cases", strings.ToLower(c.ID.Value)+".html"))
		wanted := map[string]string{}
		texts(reflect.ValueOf(*c), "", wanted)
		addTerms(bank, c, wanted)
		facts += len(wanted)
		for where, text := range wanted {
			if p.after(0, text) < 0 {
				t.Errorf("%s: %s is not on the page", c.ID.Value, where)
			}
		}
		for n := c.Body.Story().Root.FirstChild(); n != nil; n = n.NextSibling() {
			facts++
			if text := content.PlainText(n, c.Body.Markdown); p.after(0, text) < 0 {
				t.Errorf("%s: of the narrative, %q is not on the page", c.ID.Value, text)
			}
		}
	}
	if facts < 2000 {
		t.Errorf("only %d facts were looked for", facts)
	}
	t.Logf("%d facts of %d cases", facts, len(bank.Cases))
}

// addTerms adds what a timeline names by a word and by a time.
func addTerms(bank *content.Bank, c *content.Case, wanted map[string]string) {
	term := func(g content.Given[string]) {
		if g.Known() {
			wanted["term "+g.Value] = bank.Term(g.Value).Label
		}
	}
	at := func(g content.Given[measure.Time]) {
		if g.Known() {
			wanted["time "+g.Value.String()] = g.Value.String()
		}
	}
	term(c.Technique)
	for _, k := range c.Kit {
		term(k.Item)
	}
	for i := range c.Timeline.Entries {
		e := &c.Timeline.Entries[i]
		at(e.At)
		switch {
		case e.Step != nil:
			term(e.Step.Term)
			term(e.Step.Detail().Technique)
			at(e.Step.Until)
		case e.Event != nil:
			term(e.Event.Term)
			at(e.Event.Began)
			at(e.Event.Noticed)
			at(e.Event.Acted)
			for _, a := range e.Event.Actions {
				term(a)
			}
		case e.Finding != nil:
			term(e.Finding.Term)
		}
	}
}

// Without script and style a case reads in the order of the operation: what was
// known before, then each question, its options and only then what was chosen
// and why, then the outcome, the lessons and the sources.
func TestOrderWithoutStyle(t *testing.T) {
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range bank.Cases {
		p := readPlain(t, filepath.Join(demoHandout(t), "cases", strings.ToLower(c.ID.Value)+".html"))
		at := p.after(0, "Skip to the text")
		step := func(what string, to int) {
			if to < at {
				t.Errorf("%s: %s is at %d, want it behind %d", c.ID.Value, what, to, at)
			}
			at = to
		}
		step("the title", p.after(at, c.Title.Value))
		step("what was known before", p.ids["page-before"])
		for i, e := range c.Decisions() {
			d := e.Decision
			step("a question", p.ids["decision-"+string(rune('1'+i))])
			step("its words", p.after(at, d.Question.Value))
			for _, o := range d.Options {
				step("an option", p.after(at, o.Text.Value))
			}
			if d.Because.Known() {
				step("why", p.after(at, d.Because.Value))
			}
		}
		step("the outcome", p.ids["page-outcome"])
		for _, l := range c.Lessons {
			step("a lesson", p.after(at, l.Value))
		}
		step("the sources", p.ids["page-sources"])
		step("the foot", p.after(at, bank.Settings.Title.Value))
	}
}
