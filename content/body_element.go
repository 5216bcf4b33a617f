package content

import (
	"bytes"
	"regexp"
	"strings"

	"caseleaf/content/diagnose"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
)

// Element is an element of running text that an author wrote as HTML, such as
// sub: always with its end, never with an attribute, so never with an address.
type Element struct {
	ast.BaseInline
	Name string // in lower case
}

// KindElement is the kind of Element nodes.
var KindElement = ast.NewNodeKind("Element")

// Kind implements ast.Node.
func (e *Element) Kind() ast.NodeKind { return KindElement }

// Dump implements ast.Node.
func (e *Element) Dump(source []byte, level int) {
	ast.DumpHelper(e, source, level, map[string]string{"Name": e.Name}, nil)
}

// Void reports an element without content.
func (e *Element) Void() bool { return e.Name == "br" }

// textElements are the elements that a narrative may hold.
var textElements = wordSet("sub sup br em strong b i u s kbd del ins mark abbr small cite code q var samp dfn")

// pageElements are those that text copied from a web page brings along. Their
// tags are left out, what stands between is kept. Any other word in angle
// brackets is shown as typed: <adrenaline> may be a drug that is not to be lost.
var pageElements = wordSet("a address article aside audio base blockquote body button canvas caption center col colgroup dd details " +
	"dialog div dl dt embed fieldset figcaption figure font footer form frame frameset h1 h2 h3 h4 h5 h6 head header hr html iframe img " +
	"image input label legend li link main map math menu meta nav noscript object ol optgroup option p param picture pre script section " +
	"select source span strike style summary svg table tbody td template textarea tfoot th thead time title tr track tt ul video wbr")

func wordSet(words string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(words) {
		set[w] = true
	}
	return set
}

// tag is one tag of HTML.
type tag struct {
	name       string
	closing    bool
	attributes bool
	comment    bool
}

var tagForm = regexp.MustCompile(`(?s)^<(/?)([A-Za-z][A-Za-z0-9-]*)(.*?)/?>$`)

func readTag(text []byte) (tag, bool) {
	if bytes.HasPrefix(text, commentOpen) {
		return tag{comment: true}, true
	}
	m := tagForm.FindSubmatch(text)
	if m == nil {
		return tag{}, false
	}
	return tag{strings.ToLower(string(m[2])), len(m[1]) > 0, len(bytes.TrimSpace(m[3])) > 0, false}, true
}

// tagParser reads comments and tags. What is no tag of HTML, or a processing
// instruction, stays text.
type tagParser struct{ parser.InlineParser }

func (p tagParser) Parse(parent ast.Node, block gtext.Reader, pc parser.Context) ast.Node {
	node := p.InlineParser.Parse(parent, block, pc)
	if node == nil {
		return nil
	}
	raw := node.(*ast.RawHTML)
	at := raw.Segments.At(0)
	found := faultsOf(pc)
	t, ok := readTag(raw.Segments.Value(block.Source()))
	switch {
	case ok && t.comment:
		return node
	case ok && textElements[t.name]:
		if t.attributes {
			found.say(diagnose.Warning, "raw-html", at.Start, at.Len(), "<%s> is kept, but what stands in it after the name is left out", t.name)
		}
		return node
	case ok && (t.attributes || pageElements[t.name]):
		found.say(diagnose.Warning, "raw-html", at.Start, at.Len(), "%s", leftOutWords(t))
		return node
	}
	found.say(diagnose.Warning, "raw-html", at.Start, at.Len(), "this is shown with its angle brackets, as typed; write &lt; for the first if that is meant")
	return nil
}

// leftOutWords says what is left out, and what to write instead.
func leftOutWords(t tag) string {
	instead := map[string]string{
		"a": "; write a link as [text](address)", "img": "; write a picture as ![what is to be seen](name)",
		"script": "; a page runs nothing from a text", "style": "; the looks are the theme's", "table": "; write a table with | between the cells",
	}
	if t.closing {
		t.name = "/" + t.name
	}
	return "the tag <" + t.name + "> of HTML is left out, the text around it is kept" + instead[strings.TrimPrefix(t.name, "/")]
}

// tagPairs makes elements of tags that belong together.
type tagPairs struct{}

func (tagPairs) Transform(doc *ast.Document, reader gtext.Reader, pc parser.Context) {
	found := faultsOf(pc)
	var parents []ast.Node
	known := map[ast.Node]bool{}
	var blocks []*ast.HTMLBlock
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.HTMLBlock:
			blocks = append(blocks, n)
		case *ast.RawHTML:
			if p := n.Parent(); !known[p] {
				known[p] = true
				parents = append(parents, p)
			}
		}
		return ast.WalkContinue, nil
	})
	for _, n := range blocks {
		found.comment(n, n.Pos(), n.HasClosure())
	}
	for _, p := range parents {
		pairTags(p, reader.Source(), found)
		if ast.IsParagraph(p) && p.ChildCount() == 0 {
			p.Parent().RemoveChild(p.Parent(), p)
		}
	}
}

// openTag is a tag whose end was not met yet.
type openTag struct {
	name string
	node *ast.RawHTML
}

// pairTags makes elements of the tags among the children of one node. A tag
// without its partner is shown as typed.
func pairTags(parent ast.Node, source []byte, found *markdownFaults) {
	var open []openTag
	waiting := map[string]int{}
	for n := parent.FirstChild(); n != nil; {
		next := n.NextSibling()
		raw, ok := n.(*ast.RawHTML)
		if !ok {
			n = next
			continue
		}
		t, _ := readTag(raw.Segments.Value(source))
		switch {
		case t.comment:
			found.comment(n, raw.Segments.At(0).Start, true)
		case !textElements[t.name]:
			parent.RemoveChild(parent, n)
		case t.name == "br":
			parent.ReplaceChild(parent, n, &Element{Name: t.name})
		case !t.closing:
			open = append(open, openTag{t.name, raw})
			waiting[t.name]++
		case waiting[t.name] == 0:
			showTag(parent, raw, found)
		default:
			for {
				last := open[len(open)-1]
				open = open[:len(open)-1]
				waiting[last.name]--
				if last.name == t.name {
					enclose(parent, last.node, raw, t.name)
					break
				}
				showTag(parent, last.node, found)
			}
		}
		n = next
	}
	for _, o := range open {
		showTag(parent, o.node, found)
	}
}

// enclose puts what stands between two tags into an element.
func enclose(parent ast.Node, from, to *ast.RawHTML, name string) {
	e := &Element{Name: name}
	for n := from.NextSibling(); n != ast.Node(to); {
		next := n.NextSibling()
		e.AppendChild(e, n)
		n = next
	}
	parent.ReplaceChild(parent, from, e)
	parent.RemoveChild(parent, to)
}

// showTag turns a tag back into text.
func showTag(parent ast.Node, raw *ast.RawHTML, found *markdownFaults) {
	first := raw.Segments.At(0)
	found.say(diagnose.Warning, "raw-html", first.Start, first.Len(), "this tag has no partner in the same paragraph, so it is shown as typed")
	for i := range raw.Segments.Len() {
		parent.InsertBefore(parent, raw, ast.NewTextSegment(raw.Segments.At(i)))
	}
	parent.RemoveChild(parent, raw)
}
