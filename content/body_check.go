package content

import (
	"bytes"
	"cmp"
	"regexp"
	"slices"

	"caseleaf/content/diagnose"

	"github.com/yuin/goldmark/ast"
	extension "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
)

// Markdown has no faults: what it can't read as mark-up it takes for text, or
// passes over. checkMarkdown finds where that is hardly what was meant.
func checkMarkdown(root ast.Node, found *markdownFaults) {
	definitions := map[string]*ast.LinkReferenceDefinition{}
	used := map[string]bool{}
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		found.repeated(n)
		switch n := n.(type) {
		case *ast.Paragraph:
			found.almostTable(n)
			found.runs(n)
		case *ast.TextBlock, *ast.Heading, *extension.TableCell:
			found.runs(n)
		case *ast.List:
			found.signs(n)
		case *extension.Table:
			found.table(n)
		case *ast.LinkReferenceDefinition:
			definitions[referenceKey(n.Label)] = n
		case *ast.Link:
			if n.Reference != nil {
				used[referenceKey(n.Reference.Value)] = true
			}
		case *ast.Image:
			if n.Reference != nil {
				used[referenceKey(n.Reference.Value)] = true
			}
		}
		return ast.WalkContinue, nil
	})
	for key, d := range definitions {
		if !used[key] && d.Lines().Len() > 0 {
			at := d.Lines().At(0)
			found.say(diagnose.Warning, "unused-address", at.Start, at.Len(), "this line gives an address that nothing in the story uses, so it is left out")
		}
	}
	slices.SortFunc(found.list, func(a, b bodyFault) int {
		return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.code, b.code))
	})
}

func referenceKey(label []byte) string {
	return string(bytes.ToLower(bytes.Join(bytes.Fields(label), []byte(" "))))
}

// unusedNotes reports footnotes that nothing calls, which goldmark takes out.
type unusedNotes struct{}

func (unusedNotes) Transform(doc *ast.Document, reader gtext.Reader, pc parser.Context) {
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if note, ok := n.(*extension.Footnote); ok && entering && note.Index < 0 {
			faultsOf(pc).say(diagnose.Warning, "unused-note", n.Pos(), len(note.Ref)+3,
				"nothing in the story calls the note %s, so it is left out", quoteShort(string(note.Ref)))
		}
		return ast.WalkContinue, nil
	})
}

// Forms that are left standing as text where mark-up was meant. In each the
// first sign must not be written with a backslash before it.
var (
	mediaLike = regexp.MustCompile(`!\[[^\[\]]*\](\(|\[[^\[\]]+\])?|\](\(\S|\[[^\[\]^][^\[\]]*\])`)
	ownLike   = regexp.MustCompile(`\b(term:[a-z]|time:\d)`) // addresses that only a link has
	noteLike  = regexp.MustCompile(`\[\^[^\[\]\s][^\[\]]*\]`)
)

// runs looks through the text of a block, code left out, for what was meant to
// be mark-up.
func (f *markdownFaults) runs(block ast.Node) {
	for _, run := range textRuns(block) {
		if i := bytes.Index(f.source[run[0]:run[1]], commentOpen); i >= 0 {
			f.say(diagnose.Error, "comment-not-closed", run[0]+i, len(commentOpen),
				"this comment has no end in its paragraph, so it would be printed; close it with --> or begin it on a line of its own")
		}
		f.links(run)
		for _, m := range f.unescaped(noteLike, '^', run) {
			call := f.source[m[0]:m[1]]
			f.say(diagnose.Warning, "missing-note", m[0], len(call), "there is no note %s; it would begin with %s: on a line of its own",
				quoteShort(string(call[2:len(call)-1])), call)
		}
	}
}

// links reports what looks like a link or a picture, or like the address of one.
func (f *markdownFaults) links(run [2]int) {
	inside := map[int]bool{} // where the address of something reported begins
	for _, m := range f.unescaped(mediaLike, ']', run) {
		what := "link"
		if f.source[m[0]] == '!' {
			what = "picture"
		}
		f.say(diagnose.Warning, "link-not-read", m[0], m[1]-m[0], "%s", notReadWords(what, f.source[m[0]:m[1]]))
		inside[m[1]], inside[m[1]-1] = true, true
	}
	for _, m := range f.unescaped(ownLike, ':', run) {
		if !inside[m[0]] {
			f.say(diagnose.Warning, "link-not-read", m[0], m[1]-m[0], "this looks like the address of a link, but a bracket is missing: [text](address)")
		}
	}
}

func notReadWords(what string, text []byte) string {
	if bytes.HasSuffix(text, []byte("]")) && bytes.Contains(text, []byte("][")) {
		return "this looks like a " + what + ", but nothing gives the address that the second pair of brackets names"
	}
	if what == "picture" && !bytes.HasSuffix(text, []byte("(")) {
		return "this looks like a picture, but no name of a file follows in round brackets"
	}
	return "this looks like a " + what + " and is none: put < > round the name if it holds a space or a bracket, or add the bracket that is missing"
}

// unescaped finds all matches in a stretch of the source that don't begin with
// an escaped sign; for the end of a link, the bracket that opens it counts. Every
// match holds the mark, without which there is nothing to look for.
func (f *markdownFaults) unescaped(form *regexp.Regexp, mark byte, run [2]int) [][2]int {
	if bytes.IndexByte(f.source[run[0]:run[1]], mark) < 0 {
		return nil
	}
	var found [][2]int
	for _, m := range form.FindAllIndex(f.source[run[0]:run[1]], -1) {
		from, first := run[0]+m[0], run[0]+m[0]
		if f.source[from] == ']' {
			const longestLabel = 999 // as CommonMark has it
			window := f.source[max(0, from-longestLabel):from]
			open := bytes.LastIndexByte(window, '[')
			if open < 0 {
				continue
			}
			first = from - len(window) + open
		}
		if !isEscaped(f.source, first) {
			found = append(found, [2]int{from, run[0] + m[1]})
		}
	}
	return found
}

func isEscaped(text []byte, at int) bool {
	before := text[:at]
	return (len(before)-len(bytes.TrimRight(before, `\`)))%2 == 1
}

// textRuns lists the stretches of the source that a block shows as text;
// neighbours are joined. Code is left out.
func textRuns(block ast.Node) [][2]int {
	var runs [][2]int
	_ = ast.Walk(block, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if n.Kind() == ast.KindCodeSpan || n != block && n.Type() == ast.TypeBlock {
			return ast.WalkSkipChildren, nil
		}
		if text, ok := n.(*ast.Text); ok && entering {
			runs = append(runs, [2]int{text.Segment.Start, text.Segment.Stop})
		}
		return ast.WalkContinue, nil
	})
	slices.SortFunc(runs, func(a, b [2]int) int { return a[0] - b[0] })
	joined := runs[:0]
	for _, r := range runs {
		if n := len(joined); n > 0 && joined[n-1][1] == r[0] {
			joined[n-1][1] = r[1]
		} else {
			joined = append(joined, r)
		}
	}
	return joined
}

// repeated reports a line of a paragraph, a heading or an entry of a list that
// follows upon itself.
func (f *markdownFaults) repeated(n ast.Node) {
	switch n.Kind() {
	case ast.KindParagraph, ast.KindTextBlock:
		for i := 1; i < n.Lines().Len(); i++ {
			last, line := n.Lines().At(i-1), n.Lines().At(i)
			f.repeatedLine(last.Value(f.source), line.Value(f.source), line.Start)
		}
	case ast.KindHeading:
		if last := n.PreviousSibling(); last != nil && last.Kind() == n.Kind() && n.Lines().Len() == 1 && last.Lines().Len() == 1 {
			line, before := n.Lines().At(0), last.Lines().At(0)
			f.repeatedLine(before.Value(f.source), line.Value(f.source), line.Start)
		}
	case ast.KindListItem:
		if last := n.PreviousSibling(); last != nil {
			at, text := f.itemText(n)
			_, before := f.itemText(last)
			f.repeatedLine(before, text, at)
		}
	}
}

func (f *markdownFaults) repeatedLine(before, line []byte, at int) {
	line = bytes.TrimSpace(line)
	if len(line) > 0 && bytes.Equal(bytes.TrimSpace(before), line) {
		f.say(diagnose.Warning, "repeated-line", at, len(line), "this line stands here twice; take one out")
	}
}

var dioptres = regexp.MustCompile(`^\d+([.,]\d+)? ?(D|dpt|dioptres?)\b`)

// signs reports lists whose bullets may be the signs of numbers: a plus before
// a digit, a lone item that begins with a digit, and lens powers.
func (f *markdownFaults) signs(list *ast.List) {
	if list.IsOrdered() {
		return
	}
	for item := list.FirstChild(); item != nil; item = item.NextSibling() {
		at, text := f.itemText(item)
		if len(text) == 0 || text[0] < '0' || text[0] > '9' {
			continue
		}
		if list.Marker == '+' || list.ChildCount() == 1 || dioptres.Match(text) {
			f.say(diagnose.Warning, "sign-as-bullet", at, 1,
				"the %c before this number makes it an entry of a list, so the sign isn't shown; if it is a sign, write it without a space after it", list.Marker)
		}
	}
}

// itemText returns where an entry begins, and its text after the bullet.
func (f *markdownFaults) itemText(item ast.Node) (at int, text []byte) {
	first := item.FirstChild()
	if first == nil || first.Lines() == nil || first.Lines().Len() == 0 {
		return 0, nil
	}
	line := first.Lines().At(0)
	start := bytes.LastIndexByte(f.source[:line.Start], '\n') + 1
	at = start + len(f.source[start:]) - len(bytes.TrimLeft(f.source[start:], " >"))
	return min(at, line.Start), line.Value(f.source)
}
