package content

import (
	_ "embed" // the two tables below
	"encoding/csv"
	"strings"
	"sync"
)

// Which items of published reporting guidelines a case answers. The items are
// data (guidelines/*.csv), described in our own words and numbered as
// published; guideline_facts.go holds what can be asked of a case, and this
// file puts the two together. Where the published text could not be read, an item
// is either carried from memory and marked so ([Answer.FromMemory]), or left out
// and named in [Guideline.Seen]: of CARE all items were read, of SCARE 2023 1 to
// 5b, of LAP-VEGaS 1 to 12 (the rest is left out); the later topics of SCARE and
// the nine of the assessment tool are from memory. The letters of CARE 10d to 11d were read in a
// second-hand list and agree with the order of the authors' own page; the
// volume and pages of the LAP-VEGaS paper are from memory, its doi was seen.

//go:embed guidelines/sources.csv
var guidelineSources string

//go:embed guidelines/items.csv
var guidelineItems string

// Guideline is one published reporting guideline.
type Guideline struct {
	ID        string // as in Answer.Guideline
	Name      string // with its edition
	Citation  string
	DOI       string
	Published string // how many items the publication has
	Seen      string // which items are carried here, and which are missing
}

// Source is where the guideline stands, what of it is carried and what is
// missing, in one line to print.
func (g Guideline) Source() string {
	return g.Name + ": " + g.Citation + ", doi " + g.DOI + "; published as " + g.Published + ". " + g.Seen + "."
}

// Fulfilment is how a case stands to one item of a guideline.
type Fulfilment string

// The three ways a case stands to an item.
const (
	Answered     Fulfilment = "answered"
	NotAnswered  Fulfilment = "not answered"
	DoesNotApply Fulfilment = "does not apply"
)

// Answer is how a case stands to one item. Answered means that the keys are
// filled in, with a value or with none; whether the words in them say enough
// is for a reader to judge. A value given as unknown does not answer.
type Answer struct {
	Guideline string // id of the guideline
	Item      string // number as published, such as 8c
	Topic     string
	Asks      string // what the item asks, in our own words
	Status    Fulfilment
	// Key is what answers the item, or else what is still missing, all of
	// "complaint; history or patient.risks". Empty where the item does not
	// apply.
	Key string
	// FromMemory says that number and content of the item were not checked
	// against the published list.
	FromMemory bool
	// Why says why the item does not apply; empty otherwise.
	Why string
}

// Guidelines returns the guidelines in the order of the answers, for printing
// their sources.
func Guidelines() []Guideline {
	return append([]Guideline(nil), guidelines().sources...)
}

// Completeness returns how a case stands to every item, in the order of
// [Guidelines] and of publication.
func Completeness(c *Case) []Answer {
	items := guidelines().items
	answers := make([]Answer, 0, len(items))
	for _, it := range items {
		answers = append(answers, it.answer(c))
	}
	return answers
}

// guidelineItem is one row of items.csv. It is answered when each of its needs
// is met by one of the facts in it.
type guidelineItem struct {
	Answer             // without status, key and reason
	needs   [][]string // names of facts: all of the alternatives of each need
	applies string     // name of a condition; empty: always
}

func (it guidelineItem) answer(c *Case) Answer {
	a := it.Answer
	if applies, ok := conditions[it.applies]; ok && !applies.holds(c) {
		a.Status, a.Why = DoesNotApply, applies.otherwise
		return a
	}
	var met, missing []string
	for _, alternatives := range it.needs {
		if name, ok := firstFact(c, alternatives); ok {
			met = append(met, factKey(name))
			continue
		}
		keys := make([]string, len(alternatives))
		for i, name := range alternatives {
			keys[i] = factKey(name)
		}
		missing = append(missing, strings.Join(keys, " or "))
	}
	a.Status, a.Key = Answered, strings.Join(met, "; ")
	if len(missing) > 0 {
		a.Status, a.Key = NotAnswered, strings.Join(missing, "; ")
	}
	return a
}

func firstFact(c *Case, names []string) (string, bool) {
	for _, name := range names {
		if holds, ok := facts[name]; ok && holds(c) {
			return name, true
		}
	}
	return "", false
}

// factKey is the key a fact is about: title of title:case-report.
func factKey(name string) string {
	key, _, _ := strings.Cut(name, ":")
	return key
}

type guidelineTables struct {
	sources []Guideline
	items   []guidelineItem
}

// The tables are compiled in and covered by tests, so a fault in them cannot
// reach a user; an unreadable table would show as no guideline.
var guidelines = sync.OnceValue(func() guidelineTables {
	var t guidelineTables
	for _, row := range guidelineRows(guidelineSources, 6) {
		t.sources = append(t.sources, Guideline{row[0], row[1], row[2], row[3], row[4], row[5]})
	}
	for _, row := range guidelineRows(guidelineItems, 7) {
		it := guidelineItem{Answer: Answer{Guideline: row[0], Item: row[1], Topic: row[2], Asks: row[3], FromMemory: row[6] == "memory"}, applies: row[5]}
		for _, need := range strings.Fields(row[4]) {
			it.needs = append(it.needs, strings.Split(need, "|"))
		}
		t.items = append(t.items, it)
	}
	return t
})

// guidelineRows reads a table without its header, or nothing when a row has
// another number of columns.
func guidelineRows(text string, columns int) [][]string {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = columns
	rows, err := r.ReadAll()
	if err != nil || len(rows) == 0 {
		return nil
	}
	return rows[1:]
}
