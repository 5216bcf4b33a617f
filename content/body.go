package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/front"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
)

// Body is the Markdown below the front matter, parsed once.
type Body struct {
	Source   *diagnose.Source
	Markdown []byte   // the text that Root's segments point into
	Root     ast.Node // nil when the file has no body
	Headings []Heading
	Targets  map[ast.Node]Target // of links and pictures
	Pictures []string            // paths in the bank, in order of first use

	offset   int // of Markdown in the source
	faults   []bodyFault
	headings *headingIndex   // nil without headings
	pictured map[string]bool // the paths in Pictures
	crosses  bool            // a link leads to a heading of another case
}

// bodyFault is something that was found while the Markdown was taken apart; it
// is reported together with what the links draw.
type bodyFault struct {
	severity   diagnose.Severity
	code       diagnose.Code
	at, length int // in Markdown
	message    string
}

func parseBody(src *diagnose.Source, doc front.Document) Body {
	b := Body{Source: src, Markdown: doc.Body, offset: doc.BodyOffset}
	if len(doc.Body) == 0 {
		return b
	}
	context := parser.NewContext()
	found := &markdownFaults{known: map[lineFault]bool{}, source: doc.Body}
	context.Set(faultsKey, found)
	b.Root = storyParser.Parse(gtext.NewReader(doc.Body), parser.WithContext(context))
	checkMarkdown(b.Root, found)
	b.faults = found.list
	if b.Headings = headings(&b); len(b.Headings) > 0 {
		b.headings = &headingIndex{list: b.Headings}
	}
	b.Targets = map[ast.Node]Target{}
	return b
}

// Span returns the place of a stretch of the Markdown in its file.
func (b *Body) Span(offset, length int) diagnose.Span {
	return b.Source.SpanAt(b.offset+offset, length)
}

// report hands on what was found while the Markdown was taken apart.
func (b *Body) report(bag *diagnose.Bag) {
	for _, f := range b.faults {
		span := b.Span(f.at, f.length)
		switch f.severity {
		case diagnose.Error:
			bag.Error(f.code, span, "%s", f.message)
		case diagnose.Warning:
			bag.Warn(f.code, span, "%s", f.message)
		default:
			bag.Note(f.code, span, "%s", f.message)
		}
	}
}
