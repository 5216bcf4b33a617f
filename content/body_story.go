package content

import "github.com/yuin/goldmark/ast"

// A story is parsed once, at reading. Its tree takes more memory than its text,
// so a bank of many cases keeps the trees of the first ones only; the others are
// parsed again by whoever prints them.

// keptStories is how many cases of a bank keep their trees.
const keptStories = 2000

// Story is a narrative as a tree of Markdown, with its links resolved.
type Story struct {
	Root    ast.Node            // nil when the file has no body
	Targets map[ast.Node]Target // of links and pictures

	headings map[*ast.Heading]string
}

// Story returns the narrative for printing.
func (b *Body) Story() Story {
	if len(b.Markdown) == 0 {
		return Story{}
	}
	s := Story{Root: b.root, Targets: make(map[ast.Node]Target, len(b.Targets))}
	if s.Root == nil {
		s.Root, _ = parseStory(b.Markdown)
	}
	if len(b.Headings) > 0 {
		s.headings = make(map[*ast.Heading]string, len(b.Headings))
	}
	link, heading := 0, 0
	_ = ast.Walk(s.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Link, *ast.AutoLink, *ast.Image:
			if link < len(b.Targets) {
				s.Targets[n] = b.Targets[link]
			}
			link++
		case *ast.Heading:
			if heading < len(b.Headings) {
				s.headings[n] = b.Headings[heading].ID
			}
			heading++
		}
		return ast.WalkContinue, nil
	})
	return s
}

// HeadingID returns the id of a heading of the story, unique in it.
func (s Story) HeadingID(h *ast.Heading) string { return s.headings[h] }

// letGo frees the trees of the cases past the first ones.
func (b *Bank) letGo() {
	for _, c := range b.Cases[min(keptStories, len(b.Cases)):] {
		c.Body.root = nil
	}
}
