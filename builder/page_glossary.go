package builder

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"caseleaf/content/term"
)

// GlossaryPage is what pages/glossary.tmpl lays out: every term from A to Z.
type GlossaryPage struct {
	Heading
	Letters []GlossaryLetter
}

// GlossaryLetter is the terms under one letter.
type GlossaryLetter struct {
	ID, Letter string
	Terms      []GlossaryTerm
}

// GlossaryTerm is one entry. Its id is the term's.
type GlossaryTerm struct {
	ID         string
	Label      string
	Kind       string
	Names      string
	Definition string
	Broader    *Link
	Page       *Link // the term's own page, where it has one
}

// planGlossary makes the glossary.
func planGlossary(s *Site) []Page {
	m := s.met
	w := s.words()
	p := &GlossaryPage{Heading: s.heading(glossaryPage, w.say("glossary"))}
	p.Summary = w.say("glossary-summary", len(s.Bank.Vocabulary.All()))
	terms := s.Bank.Vocabulary.All()
	slices.SortStableFunc(terms, func(a, b term.Term) int {
		return cmp.Or(cmp.Compare(sortKey(a.Label), sortKey(b.Label)), cmp.Compare(a.ID, b.ID))
	})
	for _, t := range terms {
		first := initial(t.Label)
		if n := len(p.Letters); n == 0 || p.Letters[n-1].Letter != first {
			p.Letters = append(p.Letters, GlossaryLetter{ID: "page-letter-" + first, Letter: first})
		}
		at := &p.Letters[len(p.Letters)-1]
		at.Terms = append(at.Terms, s.glossaryTerm(m, t))
	}
	return []Page{{Path: glossaryPage, Template: "glossary", Data: p}}
}

func (s *Site) glossaryTerm(m *met, t term.Term) GlossaryTerm {
	g := GlossaryTerm{
		ID: t.ID, Label: t.Label, Kind: s.words().say("term-" + string(t.Kind)),
		Names: otherNames(t), Definition: t.Definition,
	}
	g.Broader, _ = m.family(t)
	if m.hasPage(t.ID) {
		g.Page = &Link{Text: t.Label, Path: m.pageOf(t.ID)}
	}
	return g
}

// sortKey folds case and accents away, so that É sorts with E.
func sortKey(label string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(label) {
		if !unicode.Is(unicode.Mn, r) {
			b.WriteRune(unicode.ToLower(r))
		}
	}
	return b.String()
}

// initial is the letter a label stands under; figures stand under #.
func initial(label string) string {
	r, _ := utf8.DecodeRuneInString(sortKey(label))
	if !unicode.IsLetter(r) {
		return "#"
	}
	return string(unicode.ToUpper(r))
}
