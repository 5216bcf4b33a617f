package content

import (
	"cmp"
	"slices"

	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"
	"caseleaf/content/term"
)

// Bank is a folder of cases, decisions, courses and a logbook.
type Bank struct {
	Settings   Settings
	Vocabulary *term.Vocabulary
	Cases      []*Case     // by id
	Decisions  []*Decision // by id
	Courses    []*Course   // by id
	Logbook    *Logbook    // nil without logbook.csv

	cases      map[string]*Case
	decisions  map[string]*Decision
	localWatch []term.WatchRow

	termsSource     *diagnose.Source
	termsExceptions []PrivacyException
	scanner         *privacy.Scanner
}

// Settings is bank.yaml.
type Settings struct {
	Source *diagnose.Source
	Span   diagnose.Span

	Title              Given[string]
	Edition            Given[string]
	Language           Given[string]
	Invented           Given[bool] // every page says that the data are invented
	Notice             Given[string]
	ReferenceTechnique Given[string]
	Vocabulary         Given[string] // cataract or none
	Strata             []Stratum
	SmallCount         SmallCount
	RareCombination    Given[int]      // k: smallest class size that is not warned about
	Rare               []Given[string] // terms so rare that they single a patient out
	Cautions           []Given[string]
	Booklets           []Booklet // none: one of every case
	ShowSource         Given[bool]
	AskSigns           Given[bool]
	Theme              Given[string]
	Privacy            PrivacySettings
	Exceptions         []PrivacyException // those of bank.yaml itself
}

// PrivacySettings are what a bank tells the privacy check.
type PrivacySettings struct {
	Eponyms  []Given[string] // of the dead; no names
	URLAllow []Given[string] // hosts that may be linked to
}

// Stratum is one risk stratum of the logbook.
type Stratum struct {
	Span       diagnose.Span
	ID         Given[string]
	Label      Given[string]
	Definition Given[string]
}

// Booklet chooses cases that are printed as one document. One that chooses
// nothing holds every case.
type Booklet struct {
	Span  diagnose.Span
	ID    Given[string]
	Title Given[string]

	Cases         []Given[string] // case ids, in the order of printing
	Steps         []Given[string] // terms: cases with an event that began in one of them, or a decision met there
	Complications []Given[string] // terms: cases that met one of them
	Techniques    []Given[string] // terms: cases operated so
}

// SmallCount is the rule by which small counts are hidden.
type SmallCount struct {
	Threshold Given[int] // counts from 1 to Threshold-1 are hidden
}

// Threshold returns the small-count threshold, 5 when the bank sets none.
func (s Settings) Threshold() int { return s.SmallCount.Threshold.Or(5) }

// Term returns the term of an id, and a term labelled by the id itself where
// the vocabulary has none.
func (b *Bank) Term(id string) term.Term {
	if t, ok := b.Vocabulary.Get(id); ok {
		return t
	}
	return term.Term{ID: id, Label: id}
}

// WatchFor returns what can start in a step, the bank's own rows last.
func (b *Bank) WatchFor(step string) []term.WatchRow {
	rows := b.Vocabulary.WatchFor(step)
	for _, w := range b.localWatch {
		if w.Step == step {
			rows = append(rows, w)
		}
	}
	return rows
}

// WatchOf returns in which steps a complication can start, the bank's own rows
// last.
func (b *Bank) WatchOf(complication string) []term.WatchRow {
	rows := b.Vocabulary.WatchOf(complication)
	for _, w := range b.localWatch {
		if w.Complication == complication {
			rows = append(rows, w)
		}
	}
	return rows
}

// Case returns the case of an id.
func (b *Bank) Case(id string) (*Case, bool) {
	c, ok := b.cases[id]
	return c, ok
}

// Decision returns the shared decision of an id.
func (b *Bank) Decision(id string) (*Decision, bool) {
	d, ok := b.decisions[id]
	return d, ok
}

// index sorts the bank's parts by id and makes the look-up tables. Ids sort as
// text, so 1.10 stands after 1.1 and is another id.
func (b *Bank) index() {
	slices.SortFunc(b.Cases, func(x, y *Case) int {
		return cmp.Or(cmp.Compare(x.ID.Value, y.ID.Value), cmp.Compare(x.File, y.File))
	})
	slices.SortFunc(b.Decisions, func(x, y *Decision) int {
		return cmp.Or(cmp.Compare(x.ID.Value, y.ID.Value), cmp.Compare(x.File, y.File))
	})
	slices.SortFunc(b.Courses, func(x, y *Course) int {
		return cmp.Or(cmp.Compare(x.ID.Value, y.ID.Value), cmp.Compare(x.File, y.File))
	})
	b.cases = make(map[string]*Case, len(b.Cases))
	for _, c := range b.Cases {
		if _, taken := b.cases[c.ID.Value]; !taken {
			b.cases[c.ID.Value] = c
		}
	}
	b.decisions = make(map[string]*Decision, len(b.Decisions))
	for _, d := range b.Decisions {
		if _, taken := b.decisions[d.ID.Value]; !taken {
			b.decisions[d.ID.Value] = d
		}
	}
}

// Keep returns the bank with only the cases that keep accepts.
func (b *Bank) Keep(keep func(*Case) bool) *Bank {
	kept := *b
	kept.Cases = nil
	for _, c := range b.Cases {
		if keep(c) {
			kept.Cases = append(kept.Cases, c)
		}
	}
	kept.index()
	return &kept
}

// Privacy returns the scanner that knows the bank's own words.
func (b *Bank) Privacy() *privacy.Scanner { return b.scanner }

// Excepted is one file of the bank with the reviewed exceptions it gives.
type Excepted struct {
	Case     *Case     // one of the first two, or neither
	Decision *Decision // for a file that is a page by itself
	File     string
	List     []PrivacyException
}

// AllExceptions returns the reviewed exceptions by file: cases and decisions
// first, then courses, bank.yaml and terms.yaml. Files without any are left out.
func (b *Bank) AllExceptions() []Excepted {
	var all []Excepted
	add := func(e Excepted) {
		if len(e.List) > 0 {
			all = append(all, e)
		}
	}
	for _, c := range b.Cases {
		add(Excepted{Case: c, File: c.File, List: c.Exceptions})
	}
	for _, d := range b.Decisions {
		add(Excepted{Decision: d, File: d.File, List: d.Exceptions})
	}
	for _, c := range b.Courses {
		add(Excepted{File: c.File, List: c.Exceptions})
	}
	add(Excepted{File: "bank.yaml", List: b.Settings.Exceptions})
	add(Excepted{File: "terms.yaml", List: b.termsExceptions})
	return all
}

// Exceptions returns the reviewed exceptions of all files as the privacy check
// takes them.
func (b *Bank) Exceptions() []privacy.Exception {
	var all []privacy.Exception
	for _, e := range b.AllExceptions() {
		all = append(all, plainExceptions(e.List)...)
	}
	return all
}
