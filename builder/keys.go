package builder

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"io/fs"

	"caseleaf/content"
)

// Which page needs what. Every file of a handout that can be let stand has a key:
// a sum over all that its bytes are made of. Where the key is that of the last
// build, and the file of the last build still has its bytes, the file is carried
// over and nothing is planned, laid out or scanned for it.
//
//	settings, terms, decisions, courses, theme, options ──► ground ──┬──► page of a case
//	the case's own file, and where its links lead ───────────────────┤
//	its neighbours and relatives among the cases ────────────────────┘
//	ground, front matter of every case, logbook ──► pages about many cases
//
// A file without a key is made by every build: booklets, the search and whatever
// is not listed here. So a page that is forgotten costs time and is never stale.

// storyless are the templates of pages about many cases that print nothing of
// their stories. A page of another template has no key.
var storyless = map[string]bool{
	"about": true, "cards": true, "case_counts": true, "cases": true, "cautions": true, "chains": true,
	"complication": true, "complications": true, "decision": true, "decisions": true, "evening": true, "figures": true,
	"frequencies": true, "frequency": true, "glossary": true, "progress": true, "questions": true, "risks": true,
	"start": true, "step": true, "steps": true, "surgeons": true, "technique": true, "techniques": true, "tutors": true,
}

// keys gives every file that can be let stand its key.
type keys struct {
	site   *Site
	ground string   // what every page rests on
	facts  string   // what pages about many cases rest on
	cases  []string // what the page of each case rests on, in the order of the bank
}

// sum is a digest of parts, each of which may hold anything.
func sum(parts ...any) string {
	h := sha256.New()
	for _, p := range parts {
		part := sha256.New()
		if data, ok := p.([]byte); ok {
			part.Write(data)
		} else {
			fmt.Fprintf(part, "%T %v", p, p)
		}
		h.Write(part.Sum(nil))
	}
	return hex.EncodeToString(h.Sum(nil)[:16])
}

// newKeys works the keys of a site out; nil where nothing may be let stand: a
// course's part has links that depend on what else is in it.
func newKeys(s *Site) *keys {
	if s.Options.Course != "" || s.Options.BankFiles == nil {
		return nil
	}
	k := &keys{site: s}
	var ok bool
	if k.ground, ok = s.ground(); !ok {
		return nil
	}
	logbook, _ := fs.ReadFile(s.Options.BankFiles, "logbook.csv") // none is empty
	facts := sha256.New()
	for _, c := range s.Bank.Cases {
		writeFile(facts, c.File, frontOf(c))
		s.writeMedia(facts, c)
	}
	k.facts = sum(k.ground, logbook, facts.Sum(nil))
	k.cases = eachCase(s.Bank.Cases, func(c *content.Case) string {
		if key, ok := s.past.caseKey(k, c); ok {
			return key
		}
		return k.ofCase(c)
	})
	return k
}

// writeFile takes in a file; its length parts it from what follows.
func writeFile(h hash.Hash, name string, data []byte) {
	fmt.Fprintf(h, "%q %d\n", name, len(data))
	h.Write(data)
}

// frontOf is a case's file down to where its story begins.
func frontOf(c *content.Case) []byte {
	return c.Source.Data[:len(c.Source.Data)-len(c.Body.Markdown)]
}

// ground sums up what every page rests on; not ok where a file can't be read.
func (s *Site) ground() (sum string, ok bool) {
	h := sha256.New()
	fmt.Fprintf(h, "%s %+v\n", s.Options.digest(), s.Masthead)
	for _, name := range []string{"bank.yaml", "terms.yaml"} {
		data, _ := fs.ReadFile(s.Options.BankFiles, name) // none is empty
		fmt.Fprintf(h, "%q\n", data)
	}
	for _, d := range s.Bank.Decisions {
		fmt.Fprintf(h, "%q %q\n", d.File, d.Source.Data)
		writeTargets(h, s, &d.Body, decisionPath(d.ID.Value))
	}
	for _, c := range s.Bank.Courses {
		fmt.Fprintf(h, "%q %q\n", c.File, c.Source.Data)
	}
	for _, t := range s.Bank.Vocabulary.All() {
		if s.met.hasPage(t.ID) {
			fmt.Fprintf(h, "%s\n", t.ID)
		}
	}
	for _, p := range s.Bank.Logbook.Periods() {
		fmt.Fprintf(h, "%q\n", p) // the last look at a page lets them stand
	}
	for _, e := range s.Bank.Exceptions() {
		fmt.Fprintf(h, "%+v\n", e) // so it does with what they cover, wherever they are written
	}
	if err := sumTheme(h, s.theme()); err != nil {
		return "", false
	}
	return hex.EncodeToString(h.Sum(nil)), true
}

// sumTheme takes in the files of a theme that pages are laid out with.
func sumTheme(h hash.Hash, theme fs.FS) error {
	names, err := fs.Glob(theme, "pages/*")
	if err != nil {
		return err
	}
	for _, name := range append(names, "layout.tmpl") {
		data, err := fs.ReadFile(theme, name)
		if err != nil {
			return err
		}
		fmt.Fprintf(h, "%q %q\n", name, data)
	}
	return nil
}

// writeTargets takes in where the links of a story lead from its page, in their
// order.
func writeTargets(h hash.Hash, s *Site, b *content.Body, from string) {
	for _, t := range b.Targets {
		fmt.Fprintf(h, "%d %q %q\n", t.Kind, t.Fragment, s.href(t, from))
	}
}

// ofCase sums up what the page of a case rests on.
func (k *keys) ofCase(c *content.Case) string {
	h := sha256.New()
	s := k.site
	v := s.view(c)
	previous, next := s.beside(s.topics.place[c])
	writeFile(h, c.File, c.Source.Data)
	fmt.Fprintf(h, "%s %+v\n", k.ground, v.related())
	for _, l := range v.around() {
		fmt.Fprintf(h, "%+v %+v %+v\n", l.Topic, linkText(l.Previous), linkText(l.Next))
	}
	fmt.Fprintf(h, "%+v %+v\n", linkText(previous), linkText(next))
	s.writeMedia(h, c)
	writeTargets(h, s, &c.Body, casePath(c.ID.Value))
	return hex.EncodeToString(h.Sum(nil)[:16])
}

// writeMedia takes in the names under which a case's pictures and clips are
// published, and the captions of clips.
func (s *Site) writeMedia(h hash.Hash, c *content.Case) {
	for _, name := range shownBy(c) {
		fmt.Fprintf(h, "%q %q\n", name, s.pictures[name])
	}
	for i := range c.Clips {
		fmt.Fprintf(h, "%q %+v\n", c.Clips[i].Name, c.Clips[i].Cues)
	}
}

func linkText(l *Link) Link {
	if l == nil {
		return Link{}
	}
	return *l
}

// caseKeys are the keys of cases by the sums of their files.
func (k *keys) caseKeys() map[string]string {
	keys := make(map[string]string, len(k.cases))
	for i, c := range k.site.Bank.Cases {
		keys[sourceSum(c)] = k.cases[i]
	}
	return keys
}

// sourceSum is a sum over a case's file and its name.
func sourceSum(c *content.Case) string { return sum(c.File, c.Source.Data) }

func (k *keys) ofOne(c *content.Case) string { return k.cases[k.site.topics.place[c]] }

// ofRecord is the key of what the manifest says of a case; "" where that must be
// worked out, as for one with pictures, whose bytes it sums up.
func (k *keys) ofRecord(c *content.Case) string {
	if k == nil || len(c.Body.Pictures) > 0 {
		return ""
	}
	return sum("record", k.ofOne(c))
}

// ofPage is the key of a page; "" for one that every build makes.
func (k *keys) ofPage(p Page) string {
	switch {
	case k == nil:
		return ""
	case p.of != nil:
		return sum(p.Template, p.Path, k.ofOne(p.of))
	case storyless[p.Template]:
		return sum(p.Template, p.Path, k.facts)
	}
	return ""
}

// ofFile is the key of a table or chart that was planned along with pages that rest
// on facts alone.
func (k *keys) ofFile(path string) string {
	if k == nil {
		return ""
	}
	return sum("file", path, k.facts)
}

// ofFigure is the key of a figure's file.
func (k *keys) ofFigure(d drawnFigure) string {
	switch {
	case k == nil:
		return ""
	case d.of != nil:
		return sum("figure", d.path, k.ofOne(d.of))
	}
	return sum("figure", d.path, k.facts)
}
