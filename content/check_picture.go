package content

import (
	"errors"
	"io/fs"
	"slices"
	"strings"

	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"

	"github.com/yuin/goldmark/ast"
)

// checkPictures tries every picture that a narrative shows: what can't be
// published is an error at the place where it is shown, and what will be taken
// out of it is told by kind, never by value.
func (l *loader) checkPictures() {
	for _, c := range l.bank.Cases {
		l.picturesOf(&c.Body, c.Release)
	}
	for _, d := range l.bank.Decisions {
		l.picturesOf(&d.Body, Release{})
	}
}

func (l *loader) picturesOf(b *Body, release Release) {
	for _, name := range b.Pictures {
		at := b.pictureSpan(name)
		data, err := fs.ReadFile(l.fsys, name)
		if err != nil {
			l.fail(err)
			continue
		}
		clean, removed, err := privacy.Clean(name, data)
		var refused *privacy.RefusedError
		switch {
		case errors.As(err, &refused):
			l.bag.Error("refused-picture", at, "%s can't be published: %s", quoteShort(name), refused.Why)
			continue
		case err != nil:
			l.bag.Error("refused-picture", at, "%s can't be published: %s", quoteShort(name), err)
			continue
		}
		if kinds := removedWords(removed); kinds != "" {
			l.bag.Note("metadata-removed", at, "taken out of the copy of %s that is published: %s; your own file stays as it is", quoteShort(name), kinds)
		}
		if clean.Sound && release.Sound.Value != "reviewed" {
			l.bag.Error("refused-picture", at, "the clip has a sound track, where voices and names are heard; take it out, or have it reviewed and write sound: reviewed in the release")
		}
		for _, f := range clean.Findings {
			if f.Class != privacy.Biometric {
				l.bag.Error("identifying", at, "text in the picture looks like %s", f.Class.Noun())
			}
		}
	}
}

func removedWords(removed []privacy.Removed) string {
	var kinds []string
	for _, r := range removed {
		if !slices.Contains(kinds, r.Kind) {
			kinds = append(kinds, r.Kind)
		}
	}
	return strings.Join(kinds, ", ")
}

// pictureSpan returns where a picture is first shown.
func (b *Body) pictureSpan(name string) diagnose.Span {
	first := -1
	for n, t := range b.Targets {
		if t.Kind != ToPicture || t.ID != name {
			continue
		}
		if at := positionOf(n); at >= 0 && (first < 0 || at < first) {
			first = at
		}
	}
	return b.Span(max(first, 0), 1)
}

// positionOf returns a node's place in the Markdown, or that of the block
// around it.
func positionOf(n ast.Node) int {
	for ; n != nil; n = n.Parent() {
		if at := n.Pos(); at >= 0 {
			return at
		}
	}
	return -1
}
