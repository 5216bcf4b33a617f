package content

import (
	"net/url"
	"path"
	"slices"
	"strings"

	"caseleaf/content/diagnose"

	"github.com/yuin/goldmark/ast"
	"golang.org/x/text/unicode/norm"
)

// pictureEndings are the endings of pictures that can be published.
var pictureEndings = []string{".jpg", ".jpeg", ".png", ".webp", ".gif", ".svg"}

func isPicture(name string) bool {
	return slices.Contains(pictureEndings, strings.ToLower(path.Ext(name)))
}

// picture resolves a picture of the narrative; nothing is fetched.
func (r *resolver) picture(n *ast.Image, dest string) Target {
	if strings.TrimSpace(PlainText(n, r.body.Markdown)) == "" {
		r.bag.Warn("no-description", r.span(n), "the picture has no description for people who can't see it")
	}
	slashed := strings.ReplaceAll(dest, `\`, "/")
	if slashed != dest {
		r.bag.Warn("file-name", r.span(n), "write / instead of \\ in the name of a picture")
	}
	u, err := url.Parse(slashed)
	if err != nil || u.Scheme != "" || u.Host != "" {
		r.bag.Warn("refused-link", r.span(n), "pictures are published only from the bank itself; this one is left out")
		return Target{}
	}
	name := path.Join(path.Dir(r.file), u.Path)
	if strings.HasPrefix(name, "../") || path.IsAbs(u.Path) {
		r.bag.Error("unknown-file", r.span(n), "the picture %s lies outside the bank", quoteShort(u.Path))
		return Target{}
	}
	return r.pictureFile(n, name)
}

// pictureFile finds a picture by its name, or by a name that looks the same.
func (r *resolver) pictureFile(n ast.Node, name string) Target {
	real, ok := r.files[foldName(name)]
	switch {
	case !ok:
		r.bag.Error("unknown-file", r.span(n), "the picture %s was not found", quoteShort(name))
		return Target{}
	case strings.EqualFold(real, name) && real != name:
		r.bag.Error("file-name", r.span(n), "the picture is called %s: the name differs in capitals", quoteShort(real))
	case real != name:
		r.bag.Warn("file-name", r.span(n), "the picture is called %s: a space or a letter is stored otherwise", quoteShort(real))
	}
	if !slices.Contains(r.body.Pictures, real) {
		r.body.Pictures = append(r.body.Pictures, real)
	}
	return Target{Kind: ToPicture, ID: real}
}

// foldName is what names that look the same have in common: capitals, the way
// letters are composed and the sort of space are set aside.
func foldName(name string) string {
	return strings.ToLower(strings.Join(strings.FieldsFunc(norm.NFC.String(name), isSpace), " "))
}

func isSpace(r rune) bool { return r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\u2009' }

// resolveBodies resolves the links of all narratives of a bank.
func resolveBodies(b *Bank, bag *diagnose.Bag, pictures []string) {
	files := make(map[string]string, len(pictures))
	for _, name := range pictures {
		files[foldName(name)] = name
	}
	for _, c := range b.Cases {
		(&resolver{bank: b, bag: bag, body: &c.Body, file: c.File, files: files}).resolve()
	}
	for _, d := range b.Decisions {
		(&resolver{bank: b, bag: bag, body: &d.Body, file: d.File, files: files}).resolve()
	}
}
