package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/front"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
)

// Body is the Markdown below the front matter, taken apart; [Body.Story] is for
// whoever prints it.
type Body struct {
	Source   *diagnose.Source
	Markdown []byte // the text that the story's segments point into
	Headings []Heading
	Targets  []Target // of links and pictures, in the order of the text
	Pictures []string // paths in the bank, in order of first use

	root     ast.Node // nil when the file has no body, or when it was let go
	offset   int      // of Markdown in the source
	faults   []bodyFault
	headings *headingIndex  // nil without headings
	pictured map[string]int // where each of Pictures first stands in Markdown
	crosses  bool           // a link leads to a heading of another case
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
	b.root, b.faults = parseStory(doc.Body)
	if b.Headings = headings(&b); len(b.Headings) > 0 {
		b.headings = &headingIndex{list: b.Headings}
	}
	return b
}

// parseStory parses Markdown, and finds what is hardly meant as it is read.
func parseStory(markdown []byte) (ast.Node, []bodyFault) {
	context := parser.NewContext()
	found := &markdownFaults{known: map[lineFault]bool{}, source: markdown}
	context.Set(faultsKey, found)
	root := storyParser.Parse(gtext.NewReader(markdown), parser.WithContext(context))
	checkMarkdown(root, found)
	return root, found.list
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
