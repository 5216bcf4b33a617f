package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/front"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
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
	offset   int                 // of Markdown in the source
}

// markdown is the Markdown of a narrative: CommonMark with tables and footnotes. A
// tilde is a tilde, since "~5 mm" is how surgeons write about five.
var markdown = goldmark.New(goldmark.WithExtensions(extension.Table, extension.Footnote))

func parseBody(src *diagnose.Source, doc front.Document) Body {
	b := Body{Source: src, Markdown: doc.Body, offset: doc.BodyOffset}
	if len(doc.Body) > 0 {
		b.Root = markdown.Parser().Parse(gtext.NewReader(doc.Body))
		b.Headings = headings(&b)
		b.Targets = map[ast.Node]Target{}
	}
	return b
}

// Span returns the place of a stretch of the Markdown in its file.
func (b *Body) Span(offset, length int) diagnose.Span {
	return b.Source.SpanAt(b.offset+offset, length)
}
