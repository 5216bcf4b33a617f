// Package front reads what stands at the head of a Markdown file, and whole
// YAML files, into nodes whose lines and columns are those of the file. Its
// faults are said in words of what the author did (a tab, a lost closing line,
// a comment that swallowed half a sentence), not in a parser's.
//
// Enter: the bytes of a file. Leave: a [Document], or a mapping node.
// Read [Split] first; [scan] in scan.go holds the likely faults.
//
//	src, ok := front.Normalise("cases/hb-007.md", data, bag)
//	if !ok {
//		return
//	}
//	doc, ok := front.Split(src, bag)
//
// A reader says false only when what follows could not be trusted: the shape of
// the file is in doubt. Faults that leave the shape alone (a key given twice, a
// text cut by a comment) are in the bag as errors and the tree is handed on, so
// that the rest of the file is checked in the same run.
package front

import (
	"gopkg.in/yaml.v3"

	"caseleaf/content/diagnose"
)

// Document is a Markdown file taken apart.
type Document struct {
	Root       *yaml.Node // the mapping of the front matter; lines and columns of the file
	Front      []byte     // the text between the fences
	Body       []byte     // everything after the closing fence
	BodyOffset int        // byte offset of Body in the file as normalised
}

// Limits of what is read; a case is a few kilobytes, so they are generous.
const (
	maxFile  = 16 << 20 // bytes of one file
	maxTable = 1 << 30  // bytes of a CSV file, which holds a row an operation
	maxFront = 1 << 20  // bytes of front matter or of a whole YAML file
	maxDepth = 100      // braces and lists inside one another
)

// Split takes a Markdown file apart at its fences and reads the front matter.
// It reports false when there is no front matter whose shape can be trusted.
func Split(src *diagnose.Source, bag *diagnose.Bag) (Document, bool) {
	f, ok := findFences(src, bag)
	if !ok {
		return Document{}, false
	}
	doc := Document{
		Front: src.Data[f.start:f.end], Body: src.Data[f.body:], BodyOffset: f.body,
	}
	secondHead(src, f.body, bag)
	doc.Root, ok = read(src, part{f.firstLine, f.start, f.end}, bag)
	return doc, ok
}

// YAML reads a whole file, such as bank.yaml, which must be one mapping.
func YAML(src *diagnose.Source, bag *diagnose.Bag) (*yaml.Node, bool) {
	return read(src, wholeFile(src), bag)
}
