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

// pictureFindings is what was found in the pictures and clips of a narrative:
// texts of drawings, and clips as a whole. They go through the gate with the
// rest of their file, so that a reviewed exception with where: media can cover
// them.
type pictureFindings []pictureFinding

type pictureFinding struct {
	part     part
	findings []privacy.Finding
}

// checkPictures tries every picture that a narrative shows: what can't be
// published is an error at the place where it is shown, and what will be taken
// out of it is told by kind, never by value.
func (l *loader) checkPictures() map[*Body]pictureFindings {
	found := map[*Body]pictureFindings{}
	for _, c := range l.bank.Cases {
		found[&c.Body] = append(l.picturesOf(&c.Body, c.Release), l.clipsOf(c)...)
	}
	for _, d := range l.bank.Decisions {
		found[&d.Body] = l.picturesOf(&d.Body, Release{})
	}
	return found
}

func (l *loader) picturesOf(b *Body, release Release) pictureFindings {
	var all pictureFindings
	if len(b.Pictures) == 0 {
		return nil
	}
	places := b.pictureSpans()
	for _, name := range b.Pictures {
		at := places[name]
		data, err := fs.ReadFile(l.fsys, name)
		if err != nil {
			l.fail(err)
			continue
		}
		clean, removed, err := l.bank.scanner.Clean(name, data)
		if err != nil {
			l.bag.Error("refused-picture", at, "%s can't be published: %s", quoteShort(name), refusal(err))
			continue
		}
		if kinds := removedWords(removed); kinds != "" {
			l.bag.Note("metadata-removed", at, "taken out of the copy of %s that is published: %s; your own file stays as it is", quoteShort(name), kinds)
		}
		all = append(all, mediaFindings(name, data, at, clean, release)...)
	}
	return all
}

func refusal(err error) string {
	var refused *privacy.RefusedError
	if errors.As(err, &refused) {
		return refused.Why
	}
	return err.Error()
}

// mediaFindings parts what was found in a drawing's text from what concerns a
// clip as a whole: an exception names the first by that text and the second by
// the clip's name.
func mediaFindings(name string, data []byte, at diagnose.Span, clean privacy.Cleaned, release Release) pictureFindings {
	whole := pictureFinding{part: part{zone: privacy.Media, text: name, at: -1, span: at}}
	inside := pictureFinding{part: part{zone: privacy.Media, text: string(data), at: -1, span: at, what: "text in the picture: "}}
	for _, f := range clean.Findings {
		switch {
		case f.Rule != privacy.RuleSound:
			inside.findings = append(inside.findings, f)
		case release.Sound.Value != "reviewed":
			f.Start, f.End = 0, len(name)
			whole.findings = append(whole.findings, f)
		}
	}
	var all pictureFindings
	for _, f := range []pictureFinding{whole, inside} {
		if len(f.findings) > 0 {
			all = append(all, f)
		}
	}
	return all
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

// pictureSpans returns where each picture is first shown.
func (b *Body) pictureSpans() map[string]diagnose.Span {
	if len(b.pictured) == 0 {
		return nil
	}
	spans := make(map[string]diagnose.Span, len(b.pictured))
	for name, at := range b.pictured {
		spans[name] = b.Span(at, 1)
	}
	return spans
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
