package content

import (
	"crypto/sha256"
	"fmt"
	"slices"
	"strconv"

	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"
	"caseleaf/content/term"
)

// Memo carries what one reading of a bank found over to the next reading of the
// same bank, so that cases that stand as they were are neither taken apart nor
// scanned again. What is read is the same with and without one. It is for one
// reading at a time; the zero value is empty.
//
// A case is known again when its own bytes are the same, and so is everything
// else that its checks look at: bank.yaml and terms.yaml (the words), and which
// cases, decisions and pictures there are (the ground). A case that shows
// pictures or clips, or links into another case, is read again each time.
type Memo struct {
	words, ground [sha256.Size]byte
	scanner       *privacy.Scanner
	cases         map[string]*knownCase // by file
	lists         map[string]*walked    // folders of cases, decisions and courses

	profiles [sha256.Size]byte     // what was held against one another for rare combinations
	rare     []privacy.Combination // and what was found

	terms    [sha256.Size]byte // of terms.yaml, of the last reading of whatever words
	base     *term.Vocabulary  // what its terms were added to
	extended *term.Vocabulary  // and what came of it
	problems []term.Problem
}

// with adds a bank's own terms, read from a file, to a vocabulary. It is worked out
// when the file has changed.
func (m *Memo) with(base *term.Vocabulary, file *diagnose.Source, terms []term.Term) (*term.Vocabulary, []term.Problem) {
	if m == nil {
		return base.With(terms)
	}
	if sum := sha256.Sum256(file.Data); m.base != base || m.terms != sum {
		m.base, m.terms = base, sum
		m.extended, m.problems = base.With(terms)
	}
	return m.extended, m.problems
}

// combinations are the rare ones among the profiles of cases; they are worked out
// when a profile has changed.
func (m *Memo) combinations(cases []compared, k int) []privacy.Combination {
	if m == nil {
		return privacy.RareCombinations(profilesOf(cases), k)
	}
	h := sha256.New()
	h.Write(strconv.AppendInt(nil, int64(k), 10))
	for _, c := range cases {
		h.Write(c.sum[:])
	}
	if sum := [sha256.Size]byte(h.Sum(nil)); m.rare == nil || sum != m.profiles {
		m.profiles, m.rare = sum, append([]privacy.Combination{}, privacy.RareCombinations(profilesOf(cases), k)...)
	}
	return m.rare
}

// sumOfTraits sums up what a case publishes of its patient, wherever that stands.
func sumOfTraits(traits []trait) [sha256.Size]byte {
	var all []byte
	for _, t := range traits {
		all = strconv.AppendQuote(all, t.Field)
		all = strconv.AppendQuote(all, t.Value)
		all = strconv.AppendBool(all, t.Rare)
		all = strconv.AppendBool(all, t.Exact)
		for _, coarser := range t.Coarser {
			all = strconv.AppendQuote(all, coarser)
		}
		all = append(all, '\n')
	}
	return sha256.Sum256(all)
}

// knownCase is a case with all that was found in it alone.
type knownCase struct {
	c      *Case
	sum    [sha256.Size]byte // of the file's bytes
	said   diagnose.Diagnostics
	scan   *scanned // as the gate found it, before it was held against others
	traits []trait
	sumOf  [sha256.Size]byte // of the traits
}

// wordsOf sums up what a bank's files are read by.
func wordsOf(b *Bank) [sha256.Size]byte {
	var all []byte
	for _, src := range []*diagnose.Source{b.Settings.Source, b.termsSource} {
		if src != nil {
			all = fmt.Appendf(all, "%q\n", src.Data)
		}
	}
	return sha256.Sum256(all)
}

// groundOf sums up what a case may name beside itself.
func groundOf(b *Bank, pictures []string) [sha256.Size]byte {
	h := sha256.New()
	var line []byte
	for _, c := range b.Cases {
		line = strconv.AppendQuote(line[:0], c.File)
		line = strconv.AppendQuote(line, c.ID.Value)
		h.Write(line)
	}
	for _, d := range b.Decisions {
		fmt.Fprintf(h, "%q %q\n", d.File, d.Source.Data)
	}
	fmt.Fprintf(h, "%q\n", pictures)
	return [sha256.Size]byte(h.Sum(nil))
}

// begin forgets all where the words are others than at the last reading.
func (m *Memo) begin(b *Bank) {
	if m == nil {
		return
	}
	if words := wordsOf(b); words != m.words {
		*m = Memo{words: words, terms: m.terms, base: m.base, extended: m.extended, problems: m.problems}
	}
}

// again is what was found in a known case, for the gate to add to.
func (k *knownCase) again() *scanned {
	f := *k.scan
	f.found, f.known = slices.Clone(f.found), true
	return &f
}

// list is what the last reading found in a folder; nil for nothing.
func (m *Memo) list(folder string) *walked {
	if m == nil {
		return nil
	}
	return m.lists[folder]
}

// remember takes in the cases of a reading.
func (m *Memo) remember(l *loader, g *gate, ground [sha256.Size]byte) {
	if m == nil {
		return
	}
	m.lists = l.walks
	m.ground, m.scanner, m.cases = ground, g.scanner, make(map[string]*knownCase, len(l.bank.Cases))
	for _, c := range l.bank.Cases {
		if len(c.Body.Pictures) > 0 || len(c.Clips) > 0 || c.Body.crosses {
			continue
		}
		k := l.known[c]
		if k == nil {
			k = g.cases[c]
			k.sum, k.said = l.sums[c], l.said[c].Sorted()
		}
		m.cases[c.File] = k
	}
}
