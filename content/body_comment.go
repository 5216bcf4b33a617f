package content

import (
	"bytes"

	"caseleaf/content/diagnose"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
)

var commentOpen, commentClose = []byte("<!--"), []byte("-->")

// commentBlock reads a comment of several lines, blank ones included, that
// begins a block. A comment that ends on its own line is part of a paragraph.
// What stands after the end of a comment is text as any other.
type commentBlock struct{}

func (commentBlock) Trigger() []byte { return []byte{'<'} }

func (commentBlock) Open(parent ast.Node, reader gtext.Reader, pc parser.Context) (ast.Node, parser.State) {
	line, segment := reader.PeekLine()
	text := bytes.TrimLeft(line, " ")
	if !bytes.HasPrefix(text, commentOpen) || bytes.Contains(text[len(commentOpen):], commentClose) {
		return nil, parser.NoChildren
	}
	node := ast.NewHTMLBlock(ast.HTMLBlockType2)
	node.Lines().Append(segment)
	reader.AdvanceToEOL()
	return node, parser.NoChildren
}

func (commentBlock) Continue(node ast.Node, reader gtext.Reader, pc parser.Context) parser.State {
	block := node.(*ast.HTMLBlock)
	line, segment := reader.PeekLine()
	if block.HasClosure() {
		return parser.Close
	}
	end := bytes.Index(line, commentClose)
	if end < 0 {
		block.Lines().Append(segment)
		reader.AdvanceToEOL()
		return parser.Continue | parser.NoChildren
	}
	end += len(commentClose)
	block.ClosureLine = segment.WithStop(segment.Start + end)
	if len(bytes.TrimSpace(line[end:])) == 0 {
		reader.AdvanceToEOL()
	} else {
		reader.Advance(end)
	}
	return parser.Close
}

func (commentBlock) Close(ast.Node, gtext.Reader, parser.Context) {}
func (commentBlock) CanInterruptParagraph() bool                  { return true }
func (commentBlock) CanAcceptIndentedLine() bool                  { return false }

// comment takes a comment out of the tree, and says so.
func (f *markdownFaults) comment(n ast.Node, at int, closed bool) {
	if closed {
		f.say(diagnose.Note, "comment-left-out", at, len(commentOpen), "this comment stays in your file; nothing of it is published")
	} else {
		f.say(diagnose.Error, "comment-not-closed", at, len(commentOpen),
			"this comment has no end, so the rest of the story would be left out; close it with -->")
	}
	n.Parent().RemoveChild(n.Parent(), n)
}
