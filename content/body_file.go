package content

import (
	"net/url"
	"path"
	"strings"
	"sync"

	"caseleaf/content/diagnose"
	"caseleaf/content/term"

	"github.com/yuin/goldmark/ast"
	"golang.org/x/text/unicode/norm"
)

// linked is a file of the bank that a narrative can lead to.
type linked struct {
	name   string
	target Target
	body   *Body // where the target has headings
}

// fileTable finds the files of a bank by their names. It is made once for all
// links, so that resolving ten thousand cases takes time for each link, not for
// each pair of cases; and when the first link asks for a file.
type fileTable struct {
	exact map[string]linked
	alike map[string]string // a name, by what names that look the same share
	cases []string          // for suggestions
}

// filesOf makes the table of a bank's files when it is first asked for.
func filesOf(b *Bank, pictures []string) func() *fileTable {
	return sync.OnceValue(func() *fileTable { return newFileTable(b, pictures) })
}

func newFileTable(b *Bank, pictures []string) *fileTable {
	t := &fileTable{exact: map[string]linked{}, alike: map[string]string{}}
	for _, c := range b.Cases {
		t.add(linked{c.File, Target{Kind: ToCase, ID: c.ID.Value}, &c.Body})
		t.cases = append(t.cases, c.File)
	}
	for _, d := range b.Decisions {
		t.add(linked{d.File, Target{Kind: ToDecision, ID: d.ID.Value}, &d.Body})
	}
	for _, name := range pictures {
		t.add(linked{name, Target{Kind: ToPicture, ID: name}, nil})
	}
	return t
}

func (t *fileTable) add(l linked) {
	t.exact[l.name] = l
	setFirst(t.alike, foldName(l.name), l.name)
}

// foldName is what names that look the same have in common: capitals, the way
// letters are composed and the sort of space are set aside.
func foldName(name string) string {
	return strings.ToLower(strings.Join(strings.FieldsFunc(norm.NFC.String(name), isSpace), " "))
}

func isSpace(r rune) bool { return r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\u2009' }

// isOutside reports a name in the bank that leads out of it.
func isOutside(name string) bool {
	return name == ".." || strings.HasPrefix(name, "../") || path.IsAbs(name)
}

// reading is one way to read an address as the name of a file.
type reading struct{ name, fragment string }

// readings lists the ways to read a relative address, the most literal first:
// a file may well be called "pupil#2 50%.png".
func readings(folder, dest string) []reading {
	var all []reading
	add := func(name, fragment string) {
		if path.IsAbs(name) {
			all = append(all, reading{"../" + name, fragment})
		} else if name != "" {
			all = append(all, reading{path.Join(folder, name), fragment})
		}
	}
	add(dest, "")
	if decoded, err := url.PathUnescape(dest); err == nil {
		add(decoded, "")
	}
	name, fragment, _ := strings.Cut(dest, "#")
	name, _, _ = strings.Cut(name, "?")
	if decoded, err := url.PathUnescape(fragment); err == nil {
		fragment = decoded
	}
	add(name, fragment)
	if decoded, err := url.PathUnescape(name); err == nil {
		add(decoded, fragment)
	}
	return all
}

// find looks a relative address up. Without a file it returns the likeliest
// name that was meant.
func (r *resolver) find(dest string) (l linked, as reading, ok bool) {
	all := readings(path.Dir(r.file), dest)
	for _, as := range all {
		if l, ok := r.files().exact[as.name]; ok {
			return l, as, true
		}
	}
	for _, as := range all {
		if real, ok := r.files().alike[foldName(as.name)]; ok && !isOutside(as.name) {
			return r.files().exact[real], as, true
		}
	}
	if strings.Trim(dest, "#?") == "" || dest[0] == '#' || dest[0] == '?' {
		return linked{}, reading{}, false
	}
	return linked{}, all[len(all)-1], false
}

// toFile resolves a relative address to a case, a decision or a picture.
func (r *resolver) toFile(n ast.Node, dest string) Target {
	slashed := strings.ReplaceAll(dest, `\`, "/")
	l, as, ok := r.find(slashed)
	switch {
	case !ok && as.name == "":
		r.bag.Warn("refused-link", r.span(n), "the link leads nowhere: no address stands in its round brackets; its text is kept")
		return Target{}
	case !ok && isOutside(as.name):
		r.bag.Error("unknown-file", r.span(n), "%s lies outside the bank", quoteShort(dest))
		return Target{}
	case !ok:
		d := r.bag.Error("unknown-file", r.span(n), "%s was not found", quoteShort(dest))
		if near, ok := term.Nearest(as.name, r.files().cases); ok && path.Ext(as.name) == path.Ext(near) {
			d.Suggest(path.Base(near))
		}
		return Target{}
	}
	if slashed != dest {
		r.bag.Warn("file-name", r.span(n), "write / instead of \\ in the name of a file")
	}
	r.alike(n, as.name, l.name)
	switch l.target.Kind {
	case ToCase:
		return r.heading(n, l.body, l.target.ID, as.fragment)
	case ToPicture:
		r.body.show(l.name, max(positionOf(n), 0))
	}
	return l.target
}

// alike reports a name that only looks like the file's.
func (r *resolver) alike(n ast.Node, name, real string) {
	switch {
	case name == real:
	case strings.EqualFold(norm.NFC.String(real), norm.NFC.String(name)) && norm.NFC.String(real) != norm.NFC.String(name):
		r.bag.Error("file-name", r.span(n), "the file is called %s: the name differs in capitals", quoteShort(real))
	default:
		r.bag.Warn("file-name", r.span(n), "the file is called %s: a space or a letter is stored otherwise", quoteShort(real))
	}
}

// show remembers a picture that the narrative shows or leads to, and where.
func (b *Body) show(name string, at int) {
	before, known := b.pictured[name]
	if !known {
		if b.pictured == nil {
			b.pictured = map[string]int{}
		}
		before = at
		b.Pictures = append(b.Pictures, name)
	}
	b.pictured[name] = min(at, before)
}

// resolveCase resolves the links of a case's narrative.
func resolveCase(b *Bank, bag *diagnose.Bag, c *Case, files func() *fileTable) {
	(&resolver{bank: b, bag: bag, body: &c.Body, file: c.File, files: files, ends: c.Recording.Ends}).resolve()
	checkValues(c.Source, c.Body.offset, bag)
	checkStrayKeys(&c.Body, caseFields.keys(), bag)
}

// resolveOthers resolves the links of all other narratives, and looks at the
// files that have none.
func resolveOthers(b *Bank, bag *diagnose.Bag, files func() *fileTable) {
	for _, d := range b.Decisions {
		(&resolver{bank: b, bag: bag, body: &d.Body, file: d.File, files: files}).resolve()
		checkValues(d.Source, d.Body.offset, bag)
		checkStrayKeys(&d.Body, decisionFields.keys(), bag)
	}
	for _, c := range b.Courses {
		checkValues(c.Source, len(c.Source.Data), bag)
	}
	for _, src := range []*diagnose.Source{b.Settings.Source, b.termsSource} {
		if src != nil {
			checkValues(src, len(src.Data), bag)
		}
	}
}

// pictureEndings are the endings of pictures that can be published.
var pictureEndings = []string{".jpg", ".jpeg", ".png", ".webp", ".gif", ".svg"}
