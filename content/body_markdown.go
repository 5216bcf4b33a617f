package content

import (
	"bytes"
	"fmt"
	"unicode"
	"unicode/utf8"

	"caseleaf/content/diagnose"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// The Markdown of a narrative is CommonMark with tables and footnotes, and with
// what would change the meaning of clinical shorthand taken out:
//
//   - a tilde is a tilde ("~5 mm"), a star between letters or digits is a star
//     ("2*3*4");
//   - a line that begins with a signed number does not interrupt a paragraph
//     ("lens power\n+ 21.5 D");
//   - a line of dashes is always a divider, also right under a line of text;
//   - HTML is a handful of elements of running text without attributes; see
//     [Element]. There are no blocks of HTML but comments.
var storyParser = newStoryParser()

func newStoryParser() parser.Parser {
	p := parser.NewParser(
		parser.WithBlockParsers(
			util.Prioritized(underlined{parser.NewSetextHeadingParser()}, 100),
			util.Prioritized(parser.NewThematicBreakParser(), 200),
			util.Prioritized(signedList{parser.NewListParser()}, 300),
			util.Prioritized(parser.NewListItemParser(), 400),
			util.Prioritized(parser.NewCodeBlockParser(), 500),
			util.Prioritized(parser.NewATXHeadingParser(), 600),
			util.Prioritized(parser.NewFencedCodeBlockParser(), 700),
			util.Prioritized(parser.NewBlockquoteParser(), 800),
			util.Prioritized(commentBlock{}, 900),
			util.Prioritized(parser.NewParagraphParser(), 1000),
		),
		parser.WithInlineParsers(
			util.Prioritized(parser.NewCodeSpanParser(), 100),
			util.Prioritized(parser.NewLinkParser(), 200),
			util.Prioritized(parser.NewAutoLinkParser(), 300),
			util.Prioritized(tagParser{parser.NewRawHTMLParser()}, 400),
			util.Prioritized(starParser{}, 490),
			util.Prioritized(parser.NewEmphasisParser(), 500),
		),
		parser.WithParagraphTransformers(util.Prioritized(parser.LinkReferenceParagraphTransformer, 100)),
		parser.WithASTTransformers(util.Prioritized(unusedNotes{}, 500), util.Prioritized(tagPairs{}, 1000)),
	)
	goldmark.New(goldmark.WithParser(p), goldmark.WithExtensions(extension.Table, extension.Footnote))
	return p
}

var faultsKey = parser.NewContextKey()

// markdownFaults collects what is found while Markdown is taken apart, each
// thing once; of HTML, which comes in heaps, one a line.
type markdownFaults struct {
	source []byte
	list   []bodyFault
	known  map[lineFault]bool
}

type lineFault struct {
	at   int // offset of the fault, or of its line's beginning
	code diagnose.Code
}

func faultsOf(pc parser.Context) *markdownFaults { return pc.Get(faultsKey).(*markdownFaults) }

func (f *markdownFaults) say(severity diagnose.Severity, code diagnose.Code, at, length int, format string, args ...any) {
	at = min(max(at, 0), len(f.source))
	key := lineFault{at, code}
	if code == "raw-html" {
		key.at = bytes.LastIndexByte(f.source[:at], '\n')
	}
	if f.known[key] {
		return
	}
	f.known[key] = true
	f.list = append(f.list, bodyFault{severity, code, at, length, fmt.Sprintf(format, args...)})
}

// starParser takes stars between letters or digits for what they are.
type starParser struct{}

func (starParser) Trigger() []byte { return []byte{'*'} }

func (starParser) Parse(parent ast.Node, block gtext.Reader, pc parser.Context) ast.Node {
	before := block.PrecendingCharacter()
	line, segment := block.PeekLine()
	n := len(line) - len(bytes.TrimLeft(line, "*"))
	after, _ := utf8.DecodeRune(line[n:])
	if n == 1 && isWordRune(before) && isWordRune(after) || unicode.IsDigit(before) && unicode.IsDigit(after) {
		block.Advance(n)
		return ast.NewTextSegment(segment.WithStop(segment.Start + n))
	}
	return nil
}

func isWordRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// underlined reads headings underlined with equals signs only: a line of dashes
// right under a line of text is a divider far more often than it is meant to
// make a heading of the text.
type underlined struct{ parser.BlockParser }

func (underlined) Trigger() []byte { return []byte{'='} }

// signedList opens no list where a paragraph goes on with a signed number.
type signedList struct{ parser.BlockParser }

func (s signedList) Open(parent ast.Node, reader gtext.Reader, pc parser.Context) (ast.Node, parser.State) {
	last := pc.LastOpenedBlock().Node
	if ast.IsParagraph(last) && last.Parent() == parent && !endsInColon(last, reader.Source()) {
		if line, _ := reader.PeekLine(); startsSigned(line) {
			return nil, parser.NoChildren
		}
	}
	return s.BlockParser.Open(parent, reader, pc)
}

// startsSigned reports a line that begins with a sign, a blank and a digit.
func startsSigned(line []byte) bool {
	line = bytes.TrimLeft(line, " ")
	if len(line) < 3 || bytes.IndexByte([]byte("+-*"), line[0]) < 0 {
		return false
	}
	rest := bytes.TrimLeft(line[1:], " \t")
	return len(rest) < len(line)-1 && len(rest) > 0 && rest[0] >= '0' && rest[0] <= '9'
}

// endsInColon reports a paragraph that announces what follows it.
func endsInColon(paragraph ast.Node, source []byte) bool {
	lines := paragraph.Lines()
	if lines.Len() == 0 {
		return false
	}
	last := lines.At(lines.Len() - 1)
	return bytes.HasSuffix(bytes.TrimRight(last.Value(source), " \n"), []byte(":"))
}
