package content

import (
	"net/url"
	"regexp"
	"strings"
	"unicode"

	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
	"caseleaf/content/term"

	"github.com/yuin/goldmark/ast"
)

// TargetKind says where a link of a narrative leads.
type TargetKind int

const (
	// Refused: the link isn't published; its text is.
	Refused TargetKind = iota
	// ToTerm: a term of the vocabulary; ID is the term's.
	ToTerm
	// ToTime: a moment of the same case's recording; Time says which.
	ToTime
	// ToCase: another case; ID is the case's, Fragment a heading in it.
	ToCase
	// ToDecision: a shared decision; ID is the decision's.
	ToDecision
	// ToHeading: a heading of the same narrative; Fragment is its id.
	ToHeading
	// ToWeb: an https, http or mailto address; ID is the address.
	ToWeb
	// ToPicture: a picture beside the file; ID is its path in the bank.
	ToPicture
)

// Target is where a link or picture of a narrative leads.
type Target struct {
	Kind     TargetKind
	ID       string
	Fragment string
	Time     measure.Time
}

// resolver resolves the links of one narrative.
type resolver struct {
	bank  *Bank
	bag   *diagnose.Bag
	body  *Body
	file  string              // path of the file that holds the narrative
	ends  Given[measure.Time] // of the recording that the narrative is about
	files func() *fileTable
}

// resolve finds the target of every link and picture, and reports the ones
// that lead nowhere.
func (r *resolver) resolve() {
	b := r.body
	if b.root == nil {
		return
	}
	b.report(r.bag)
	_ = ast.Walk(b.root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Link:
			b.Targets = append(b.Targets, r.link(n, cleanAddress(n.Destination)))
		case *ast.AutoLink:
			b.Targets = append(b.Targets, r.web(n, cleanAddress(n.URL(b.Markdown))))
		case *ast.Image:
			b.Targets = append(b.Targets, r.picture(n))
		}
		return ast.WalkContinue, nil
	})
}

// span returns the place of a node, or of the block around it.
func (r *resolver) span(n ast.Node) diagnose.Span {
	for ; n != nil; n = n.Parent() {
		if at := n.Pos(); at >= 0 {
			return r.body.Span(at, 1)
		}
	}
	return r.body.Span(0, 1)
}

// cleanAddress is an address as a browser reads it: escapes and entities
// resolved, control characters and blanks around it taken out.
func cleanAddress(dest []byte) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, Unescape(dest)))
}

var schemeForm = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9+.-]*:`)

// schemeOf returns the scheme of an address in lower case, or "" for one within
// the bank.
func schemeOf(dest string) string {
	return strings.ToLower(strings.TrimSuffix(schemeForm.FindString(dest), ":"))
}

func (r *resolver) link(n ast.Node, dest string) Target {
	if id, ok := strings.CutPrefix(dest, "term:"); ok {
		return r.term(n, id)
	}
	if at, ok := strings.CutPrefix(dest, "time:"); ok {
		return r.time(n, at)
	}
	if _, _, ok := r.find(dest); !ok && (schemeOf(dest) != "" || strings.HasPrefix(dest, "//") || strings.HasPrefix(dest, `\\`)) {
		return r.web(n, dest)
	}
	if fragment, ok := strings.CutPrefix(dest, "#"); ok && fragment != "" {
		if decoded, err := url.PathUnescape(fragment); err == nil {
			fragment = decoded
		}
		return r.heading(n, r.body, "", fragment)
	}
	return r.toFile(n, dest)
}

func (r *resolver) term(n ast.Node, id string) Target {
	if _, ok := r.bank.Vocabulary.Get(id); ok {
		return Target{Kind: ToTerm, ID: id}
	}
	d := r.bag.Error("unknown-term", r.span(n), "unknown term %s", quoteShort(id))
	if near, ok := r.bank.Vocabulary.Suggest(id, term.Kinds()...); ok {
		d.Suggest(near)
	}
	return Target{}
}

func (r *resolver) time(n ast.Node, text string) Target {
	t, err := measure.ParseTime(text)
	if err != nil {
		r.bag.Error("bad-time", r.span(n), "expected a time of the recording such as time:2:58, found %s", quoteShort(text))
		return Target{}
	}
	if ends, ok := r.ends.Get(); ok && t > ends {
		r.bag.Error("time-order", r.span(n), "the link leads to %s, after the end of the recording at %s", t, ends).Also(r.ends.Span, "the end")
		return Target{}
	}
	return Target{Kind: ToTime, Time: t}
}

// web allows https, http and mailto, and nothing else.
func (r *resolver) web(n ast.Node, dest string) Target {
	u, err := url.Parse(dest)
	scheme := schemeOf(dest)
	switch {
	case scheme == "file", len(scheme) == 1, strings.HasPrefix(dest, `\\`):
		r.bag.Warn("refused-link", r.span(n), "a path on your computer can't be followed by readers; the text of this link is kept")
		return Target{}
	case err != nil:
	case scheme == "mailto" && u.Opaque != "",
		(scheme == "https" || scheme == "http") && u.Host != "" && u.User == nil:
		return Target{Kind: ToWeb, ID: dest}
	}
	r.bag.Warn("refused-link", r.span(n), "only https, http and mailto addresses are published; the text of this link is kept")
	return Target{}
}

// heading resolves a fragment by the heading's id or its text. With an empty
// id it leads within the page.
func (r *resolver) heading(n ast.Node, b *Body, id, fragment string) Target {
	t := Target{Kind: ToCase, ID: id}
	if id == "" {
		t.Kind = ToHeading
	}
	if fragment == "" {
		return t
	}
	if id != "" {
		r.body.crosses = true
	}
	if found, ok := b.findHeading(fragment); ok {
		t.Fragment = found
		return t
	}
	r.bag.Warn("unknown-heading", r.span(n), "there is no heading %s", quoteShort(fragment))
	if id == "" {
		return Target{}
	}
	return t
}
