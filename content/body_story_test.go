package content

import (
	"fmt"
	"strings"
	"testing"

	"caseleaf/casebank"

	"github.com/yuin/goldmark/ast"
)

// A story whose tree was let go is printed as if it had been kept.
func TestStoryIsParsedAgain(t *testing.T) {
	bank, _, err := Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	links, headings := 0, 0
	for _, c := range bank.Cases {
		if c.Body.root == nil {
			t.Fatalf("%s has no tree", c.File)
		}
		kept := storyText(&c.Body)
		c.Body.root = nil
		if again := storyText(&c.Body); again != kept {
			t.Errorf("%s: kept\n%s\nparsed again\n%s", c.File, kept, again)
		}
		links, headings = links+strings.Count(kept, "target"), headings+strings.Count(kept, "heading")
	}
	if links < 20 || headings < 20 {
		t.Errorf("only %d links and %d headings", links, headings)
	}
}

// storyText is a story's tree with its targets and ids.
func storyText(b *Body) string {
	var out strings.Builder
	s := b.Story()
	_ = ast.Walk(s.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		fmt.Fprintf(&out, "%s %d %t", n.Kind(), n.Pos(), entering)
		if target, ok := s.Targets[n]; ok {
			fmt.Fprintf(&out, " target %+v", target)
		}
		switch n := n.(type) {
		case *ast.Heading:
			fmt.Fprintf(&out, " heading %s", s.HeadingID(n))
		case *ast.Text:
			fmt.Fprintf(&out, " %q", n.Segment.Value(b.Markdown))
		}
		out.WriteByte('\n')
		return ast.WalkContinue, nil
	})
	return out.String()
}
