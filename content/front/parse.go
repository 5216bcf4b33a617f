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
	s := newScanner(src, p, bag)
	defer s.free()
	if !s.scan() {
		return nil, false
	}
	root := parseThin(src, p, s.simple)
	if root == nil {
		var line int
		var problem string
		if root, line, problem = parse(src, p); problem != "" {
			explain(src, p, line, problem, bag)
			return nil, false
		}
	}
	return root, checkTree(src, root, bag)
}

// parseThin gives the root node of a stretch whose simple texts are known, or nil
// where the text must be parsed as it is typed: for the library's own words on a
// fault in it, if for nothing else.
func parseThin(src *diagnose.Source, p part, simple []stretch) *yaml.Node {
	if hasHidden(src.Data[p.start:p.end]) {
		return nil
	}
	t := thin(src, p, simple)
	defer t.free()
	root, _, problem := decode(t.text)
	if problem != "" || root == nil || !t.fill(root) {
		return nil
	}
	return root
}

// parse gives the root node with file-true lines, or yaml.v3's words and the
// file line it names. The text is padded with line ends to its place in the
// file, and with one more, since the library names no line for a fault on the
// first.
func parse(src *diagnose.Source, p part) (root *yaml.Node, line int, problem string) {
	padded := append(bytes.Repeat([]byte{'\n'}, p.firstLine), src.Data[p.start:p.end]...)
	stand := standInFor(padded)
	root, line, problem = decode(stand.hide(padded))
	switch {
	case problem != "":
		return nil, line, problem
	case root == nil:
		return nil, p.firstLine, "EOF"
	}
	settle(root, stand, src)
	return root, 0, ""
}

// decode gives the root node of a padded text, nil when it holds none, or
// yaml.v3's words and the file line it names. Lines of nodes are as padded.
func decode(padded []byte) (root *yaml.Node, line int, problem string) {
	defer func() {
		// yaml.v3 panics on some odd placings of comments.
		if r := recover(); r != nil {
			root, line, problem = nil, 0, fmt.Sprint(r)
		}
	}()
	decoder := yaml.NewDecoder(bytes.NewReader(padded))
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
	if len(doc.Content) == 0 {
		return nil, 0, ""
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

// settle puts every node of a padded text in its place and gives it back what was
// hidden from the library.
func settle(n *yaml.Node, stand standIn, src *diagnose.Source) {
	lift(n, src)
	n.Value = stand.show(n.Value)
	for _, c := range n.Content {
		settle(c, stand, src)
	}
}

// lift takes the padding's extra line off a node. A value that is not there is put
// by the library on the line after the last, and here at the end of the last.
func lift(n *yaml.Node, src *diagnose.Source) {
	n.Line--
	if n.Line > src.Lines() {
		n.Line = src.Lines()
		n.Column = utf8.RuneCountInString(src.Line(n.Line)) + 1
	}
}
