package bidi

import (
	"bytes"
	"regexp"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// apart are the elements whose text is left alone: no words of the page, or drawings, which
// isolate their own lines, or listings, which run from left to right as a whole.
var apart = map[atom.Atom]bool{atom.Script: true, atom.Style: true, atom.Svg: true, atom.Pre: true, atom.Textarea: true, atom.Bdi: true}

// bare are the elements that hold text and no elements.
var bare = map[atom.Atom]bool{atom.Title: true, atom.Option: true}

// Page marks the islands of a page in a language written from right to left. Everything but
// the text it marks keeps its bytes.
func Page(page []byte) []byte {
	z := html.NewTokenizer(bytes.NewReader(page))
	out := bytes.NewBuffer(make([]byte, 0, len(page)+len(page)/8))
	var within atom.Atom // the element apart that we are in
	depth := 0
	inBare := false
	for {
		kind := z.Next()
		raw := string(z.Raw())
		switch kind {
		case html.ErrorToken:
			out.WriteString(raw)
			return out.Bytes()
		case html.StartTagToken, html.EndTagToken:
			name, _ := z.TagName()
			a := atom.Lookup(name)
			if bare[a] {
				inBare = kind == html.StartTagToken
			}
			switch {
			case within == 0 && apart[a] && kind == html.StartTagToken:
				within, depth = a, 1
			case within != 0 && a == within && kind == html.StartTagToken:
				depth++
			case within != 0 && a == within:
				if depth--; depth == 0 {
					within = 0
				}
			}
		case html.TextToken:
			switch {
			case within != 0:
			case inBare:
				raw = bareText(raw)
			default:
				raw = marked(raw)
			}
		}
		out.WriteString(raw)
	}
}

// bareText isolates islands where no element may stand.
func bareText(raw string) string {
	if HasRight(raw) {
		return mark(raw, leftToRight, popIsolate)
	}
	return raw
}

// words finds more than symbols and abbreviations. What has words of Latin letters and none
// of the page's own is told to be English: the built-in vocabulary and the guidelines are, and
// a voice for Arabic would spell them out.
var words = regexp.MustCompile(`[a-z]{4}`)

// marked puts islands of a text, as it stands in the page, into bdi elements.
func marked(raw string) string {
	const open, foreign, shut = `<bdi dir="ltr">`, `<bdi dir="ltr" lang="en">`, `</bdi>`
	from, to := whole(raw)
	if !HasRight(raw[from:to]) && hasLeft(html.UnescapeString(raw)) {
		if words.MatchString(raw[from:to]) {
			return raw[:from] + foreign + raw[from:to] + shut + raw[to:]
		}
		return raw[:from] + open + raw[from:to] + shut + raw[to:]
	}
	return mark(raw, open, shut)
}
