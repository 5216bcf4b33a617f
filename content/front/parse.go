package front

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"caseleaf/content/diagnose"
)

// part is the stretch of a file that holds YAML.
type part struct {
	firstLine  int // its first line in the file, from 1
	start, end int // byte offsets in the file
}

func wholeFile(src *diagnose.Source) part { return part{1, 0, len(src.Data)} }

// read scans, parses and checks one stretch of YAML.
func read(src *diagnose.Source, p part, bag *diagnose.Bag) (*yaml.Node, bool) {
	if p.end-p.start > maxFront {
		bag.Error("too-large", src.Span(p.firstLine, 1, 0),
			"the front matter is larger than %d kB, so it is not read; a case needs a few", maxFront>>10)
		return nil, false
	}
	if !scan(src, p, bag) {
		return nil, false
	}
	root, line, problem := parse(src, p)
	if problem != "" {
		explain(src, p, line, problem, bag)
		return nil, false
	}
	return root, checkTree(src, root, bag)
}

// parse gives the root node with file-true lines, or yaml.v3's words and the
// file line it names. The text is padded with line ends to its place in the
// file, and with one more, since the library names no line for a fault on the
// first.
func parse(src *diagnose.Source, p part) (root *yaml.Node, line int, problem string) {
	defer func() {
		// yaml.v3 panics on some odd placings of comments.
		if r := recover(); r != nil {
			root, line, problem = nil, 0, fmt.Sprint(r)
		}
	}()
	padded := append(bytes.Repeat([]byte{'\n'}, p.firstLine), src.Data[p.start:p.end]...)
	stand := standInFor(padded)
	decoder := yaml.NewDecoder(bytes.NewReader(stand.hide(padded)))
	var doc, rest yaml.Node
	if err := decoder.Decode(&doc); err != nil {
		line, problem = splitProblem(err.Error())
		return nil, line, problem
	}
	// The library stops where it thinks a document ends and would drop the rest.
	if err := decoder.Decode(&rest); err == nil {
		return nil, rest.Line - 1, "rest"
	} else if err != io.EOF {
		line, problem = splitProblem(err.Error())
		return nil, line, problem
	}
	settle(&doc, stand, src)
	if len(doc.Content) == 0 {
		return nil, p.firstLine, "EOF"
	}
	return doc.Content[0], 0, ""
}

var problemLine = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

// splitProblem takes yaml.v3's error apart; the padding's extra line is taken
// off the line it names.
func splitProblem(text string) (line int, problem string) {
	m := problemLine.FindStringSubmatch(text)
	if m == nil {
		return 0, text
	}
	if m[1] != "" {
		line, _ = strconv.Atoi(m[1])
		line--
	}
	return line, m[2]
}

// settle takes the padding's extra line off every node and puts back what was
// hidden from the library. A value that is not there is put by the library on
// the line after the last, and here at the end of the last.
func settle(n *yaml.Node, stand standIn, src *diagnose.Source) {
	n.Line--
	if n.Line > src.Lines() {
		n.Line = src.Lines()
		n.Column = utf8.RuneCountInString(src.Line(n.Line)) + 1
	}
	n.Value = stand.show(n.Value)
	for _, c := range n.Content {
		settle(c, stand, src)
	}
}
