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

// GlossaryTerm is one entry. Its id is the term's. An entry for another name of a
// term has none, and says See.
type GlossaryTerm struct {
	ID         string
	Label      string
	Kind       string
	Names      string
	Definition string
	Broader    *Link
	Page       *Link // the term's own page, where it has one
	See        *Link // the entry that this name leads to
}

// planGlossary makes the glossary.
func planGlossary(s *Site) []Page {
	w := s.words()
	p := &GlossaryPage{Heading: s.heading(glossaryPage, w.say("glossary"))}
	p.Summary = w.say("glossary-summary", len(s.Bank.Vocabulary.All()))
	p.Letters = s.glossaryLetters()
	return []Page{{Path: glossaryPage, Template: "glossary", Data: p}}
}

// glossaryLetters files every term under the first letter of its name, and
// under the other names that it has.
func (s *Site) glossaryLetters() []GlossaryLetter {
	var entries []GlossaryTerm
	for _, t := range s.Bank.Vocabulary.All() {
		entries = append(entries, s.glossaryTerm(s.met, t))
		taken := []string{sortKey(t.Label)}
		for _, name := range append([]string{t.Abbreviation}, t.Synonyms...) {
			if key := sortKey(name); name != "" && !slices.Contains(taken, key) {
				taken = append(taken, key)
				entries = append(entries, GlossaryTerm{Label: name, See: &Link{Text: t.Label, Path: glossaryPath(t.ID)}})
			}
		}
	}
	keys := map[string]string{}
	for _, e := range entries {
		keys[e.Label] = sortKey(e.Label)
	}
	slices.SortStableFunc(entries, func(a, b GlossaryTerm) int { return cmp.Compare(keys[a.Label], keys[b.Label]) })
	var letters []GlossaryLetter
	for _, e := range entries {
		first := initial(e.Label)
		if n := len(letters); n == 0 || letters[n-1].Letter != first {
			letters = append(letters, GlossaryLetter{ID: letterID(first), Letter: first})
		}
		at := &letters[len(letters)-1]
		at.Terms = append(at.Terms, e)
	}
	return letters
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

// letterID is the id of a letter's part of the page. # may not stand in a
// fragment.
func letterID(letter string) string {
	if letter == "#" {
		letter = "0-9"
	}
	return "page-letter-" + letter
}

// initial is the letter a label stands under; figures stand under #.
func initial(label string) string {
	r, _ := utf8.DecodeRuneInString(sortKey(label))
	if !unicode.IsLetter(r) {
		return "#"
	}
	return string(unicode.ToUpper(r))
}
