// Package prose renders the Markdown of narratives as HTML that runs nothing
// and fetches nothing.
//
// Enter: a [content.Body], parsed and with its links resolved.
// Leave: HTML with ids that begin with the caller's prefix, so that several
// narratives can share a page.
//
// Every element is written by the renderer itself and every address comes from
// [content.Story]; of an author's own HTML nothing but the names of a few
// elements is left, see [content.Element]. Code blocks are marked up by chroma
// with classes, whose one style sheet is [StyleSheet].
package prose

import (
	"bytes"
	"fmt"
	"io"

	"caseleaf/content"

	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"
)

// Options says how one narrative is placed on a page.
type Options struct {
	Prefix string                             // before every id; unique on the page
	Href   func(target content.Target) string // "" where the target can't be followed
	// Note, where given, numbers the address of a link that leads outside; the
	// number is written behind the link, for the page to print the address by it.
	Note func(address string) int
	// Picture, where given, tells of a picture what its img needs besides the
	// address.
	Picture func(target content.Target) Picture
	// HeadingShift is added to the levels of headings, so that a page keeps
	// one h1; 0 shifts by one.
	HeadingShift int
	// Say gives what a narrative adds for those who listen: prose-table, prose-notes,
	// prose-note with its number, and prose-back. Without it, English.
	Say func(key string, args ...any) string
}

// say asks for a phrase, made safe for an attribute.
func (o Options) say(key, english string, args ...any) string {
	if o.Say == nil {
		return escape(fmt.Sprintf(english, args...))
	}
	return escape(o.Say(key, args...))
}

// Picture is the size of a picture, and the sizes it can be had in.
type Picture struct {
	Width, Height int    // pixels; 0 where not known
	Set, Sizes    string // srcset and sizes of an img; empty for one size only
}

// Render writes a narrative. A body without text writes nothing.
func Render(w io.Writer, body *content.Body, o Options) {
	story := body.Story()
	if story.Root == nil {
		return
	}
	p := &pass{story: story, options: o}
	r := renderer.NewRenderer(renderer.WithNodeRenderers(
		util.Prioritized(html.NewRenderer(), 1000),
		util.Prioritized(p, 100),
	))
	var out bytes.Buffer
	if err := r.Render(&out, body.Markdown, story.Root); err != nil {
		return // a buffer does not fail
	}
	_, _ = w.Write(out.Bytes())
}
