package content

import (
	"strings"

	"github.com/yuin/goldmark/ast"
)

// picture resolves a picture of the narrative; nothing is fetched.
func (r *resolver) picture(n *ast.Image) Target {
	if strings.TrimSpace(PlainText(n, r.body.Markdown)) == "" {
		r.bag.Warn("no-description", r.span(n), "the picture has no description for people who can't see it")
	}
	dest := cleanAddress(n.Destination)
	l, as, ok := r.find(strings.ReplaceAll(dest, `\`, "/"))
	switch {
	case ok && l.target.Kind != ToPicture:
		r.bag.Error("unknown-file", r.span(n), "%s is no picture; a link to it has no ! before its brackets", quoteShort(l.name))
		return Target{}
	case !ok && (schemeOf(dest) != "" || strings.HasPrefix(as.name, "..//")):
		r.bag.Warn("refused-link", r.span(n), "pictures are published only from the bank itself; this one is left out")
		return Target{}
	case !ok && as.name == "":
		r.bag.Error("unknown-file", r.span(n), "the picture has no name in its round brackets")
		return Target{}
	}
	return r.toFile(n, dest)
}
