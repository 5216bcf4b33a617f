package content

import (
	"net/url"
	"path"
	"strings"

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
	file  string // path of the file that holds the narrative
	files map[string]string
}

// resolve finds the target of every link and picture, and reports the ones
// that lead nowhere.
func (r *resolver) resolve() {
	b := r.body
	if b.Root == nil {
		return
	}
	_ = ast.Walk(b.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Link:
			b.Targets[n] = r.link(n, string(n.Destination))
		case *ast.AutoLink:
			b.Targets[n] = r.web(n, string(n.URL(b.Markdown)))
		case *ast.Image:
			b.Targets[n] = r.picture(n, string(n.Destination))
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

func (r *resolver) link(n ast.Node, dest string) Target {
	dest = strings.TrimSpace(dest)
	if id, ok := strings.CutPrefix(dest, "term:"); ok {
		return r.term(n, id)
	}
	if at, ok := strings.CutPrefix(dest, "time:"); ok {
		return r.time(n, at)
	}
	if fragment, ok := strings.CutPrefix(dest, "#"); ok {
		return r.heading(n, r.body, "", fragment)
	}
	u, err := url.Parse(dest)
	if err != nil {
		r.bag.Warn("refused-link", r.span(n), "%s is no address that can be followed; its text is kept", quoteShort(dest))
		return Target{}
	}
	if u.Scheme != "" || u.Host != "" {
		return r.web(n, dest)
	}
	return r.toFile(n, u)
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
	return Target{Kind: ToTime, Time: t}
}

// web allows https, http and mailto, and nothing else.
func (r *resolver) web(n ast.Node, dest string) Target {
	u, err := url.Parse(dest)
	switch {
	case err != nil, u.User != nil && u.Scheme != "mailto":
	case u.Scheme == "https" || u.Scheme == "http" || u.Scheme == "mailto":
		return Target{Kind: ToWeb, ID: dest}
	case strings.EqualFold(u.Scheme, "file"):
		r.bag.Warn("refused-link", r.span(n), "a path on your computer can't be followed by readers; its text is kept")
		return Target{}
	}
	r.bag.Warn("refused-link", r.span(n), "only https, http and mailto addresses are published; the text of this link is kept")
	return Target{}
}

// toFile resolves a relative link to a case, a decision or a picture.
func (r *resolver) toFile(n ast.Node, u *url.URL) Target {
	name := path.Join(path.Dir(r.file), u.Path)
	if strings.HasPrefix(name, "../") || path.IsAbs(u.Path) {
		r.bag.Error("unknown-file", r.span(n), "%s lies outside the bank", quoteShort(u.Path))
		return Target{}
	}
	for _, c := range r.bank.Cases {
		if c.File == name {
			return r.heading(n, &c.Body, c.ID.Value, u.Fragment)
		}
	}
	for _, d := range r.bank.Decisions {
		if d.File == name {
			return Target{Kind: ToDecision, ID: d.ID.Value}
		}
	}
	if isPicture(name) {
		return r.pictureFile(n, name)
	}
	d := r.bag.Error("unknown-file", r.span(n), "%s was not found", quoteShort(u.Path))
	if near, ok := term.Nearest(name, r.caseFiles()); ok {
		d.Suggest(path.Base(near))
	}
	return Target{}
}

func (r *resolver) caseFiles() []string {
	var names []string
	for _, c := range r.bank.Cases {
		names = append(names, c.File)
	}
	return names
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
	key := headingKey(fragment)
	for _, h := range b.Headings {
		if headingKey(h.ID) == key || headingKey(h.Text) == key {
			t.Fragment = h.ID
			return t
		}
	}
	r.bag.Warn("unknown-heading", r.span(n), "there is no heading %s", quoteShort(fragment))
	if id == "" {
		return Target{}
	}
	return t
}
