package tally

import (
	"cmp"
	"maps"
	"slices"

	"caseleaf/content"
	"caseleaf/content/measure"
)

// ChoiceRow counts how often the cases chose one option at a decision point.
type ChoiceRow struct {
	// Decision is the shared decision; null where the question stands in one
	// case only, and then Case names it.
	Decision Word `json:"decision" doc:"shared decision; null for a question of one case"`
	Case     Word `json:"case" doc:"the case of such a question"`
	// Question is the shared decision's, where the bank has one, else as the
	// first of the cases words it.
	Question string `json:"question"`
	Option   string `json:"option"`
	Chosen   int    `json:"chosen" doc:"moments that chose the option"`
	// Met is how many moments met the decision, whatever was chosen.
	Met int `json:"met" doc:"moments that met the decision"`
}

// OutcomeRow counts what came of one option: the branch of the shared decision's
// tree that followed, null where no case tells.
type OutcomeRow struct {
	Decision Word   `json:"decision" doc:"shared decision; null for a question of one case"`
	Case     Word   `json:"case" doc:"the case of such a question"`
	Question string `json:"question"`
	Option   string `json:"option"`
	CameOf   Word   `json:"came_of" doc:"branch that followed; null where the case does not tell"`
	Count    int    `json:"count" doc:"moments: a count, not a rate"`
}

// AcuityRow is one case's acuity before the operation and at follow-up, as
// written and in logMAR. A category such as counting fingers has no logMAR and is
// not given one: the published substitutes disagree.
type AcuityRow struct {
	Case         string `json:"case"`
	Technique    Word   `json:"technique"`
	Before       Word   `json:"before" doc:"as written"`
	After        Word   `json:"after" doc:"as written"`
	BeforeLogMAR Number `json:"before_logmar" doc:"null for a category such as counting fingers"`
	AfterLogMAR  Number `json:"after_logmar" doc:"null for a category such as counting fingers"`
	// Change is after less before: negative is better.
	Change Number `json:"change" doc:"after less before: negative is better"`
}

// point is where a choice is counted: a shared decision, or one question of one
// case.
type point struct {
	decision, inCase Word
	question         string
}

func pointOf(c *content.Case, d *content.DecisionPoint) point {
	if id, ok := d.Point.Get(); ok {
		return point{decision: Word(id)}
	}
	return point{inCase: Word(c.ID.Value), question: d.Question.Or("")}
}

func (p point) compare(q point) int {
	switch {
	case p.decision == "" && q.decision != "":
		return 1 // questions of one case after the shared decisions
	case p.decision != "" && q.decision == "":
		return -1
	}
	return cmp.Or(cmp.Compare(p.decision, q.decision), cmp.Compare(p.inCase, q.inCase), cmp.Compare(p.question, q.question))
}

// choice is one option at a point, followed by a branch (in outcomes only).
type choice struct {
	point
	option, cameOf string
}

func (c choice) compare(d choice) int {
	return cmp.Or(c.point.compare(d.point), cmp.Compare(c.option, d.option), cmp.Compare(c.cameOf, d.cameOf))
}

// choiceRows counts choices and what came of them. Options that a case offers
// and nobody chose are there with 0.
func choiceRows(cases []*content.Case) ([]ChoiceRow, []OutcomeRow) {
	met, wording := map[point]int{}, map[point]string{}
	chosen, came := map[choice]int{}, map[choice]int{}
	for _, c := range cases {
		for _, e := range c.Decisions() {
			d, at := e.Decision, pointOf(c, e.Decision)
			met[at]++
			wording[at] = cmp.Or(wording[at], d.Question.Or(""))
			for _, o := range d.Options {
				chosen[choice{at, o.ID.Or(""), ""}] += 0
			}
			if id, ok := d.Chosen.Get(); ok {
				chosen[choice{at, id, ""}]++
				came[choice{at, id, d.CameOf.Or("")}]++
			}
		}
	}
	choices, outcomes := []ChoiceRow{}, []OutcomeRow{}
	for _, k := range slices.SortedFunc(maps.Keys(chosen), choice.compare) {
		choices = append(choices, ChoiceRow{k.decision, k.inCase, wording[k.point], k.option, chosen[k], met[k.point]})
	}
	for _, k := range slices.SortedFunc(maps.Keys(came), choice.compare) {
		outcomes = append(outcomes, OutcomeRow{k.decision, k.inCase, wording[k.point], k.option, Word(k.cameOf), came[k]})
	}
	return choices, outcomes
}

// acuityRows lists the cases that tell an acuity, in their order.
func acuityRows(cases []*content.Case) []AcuityRow {
	var rows []AcuityRow
	for _, c := range cases {
		change := c.Outcome.Acuity
		if !change.Before.Known() && !change.After.Known() {
			continue
		}
		row := AcuityRow{Case: c.ID.Value, Technique: Word(c.Technique.Or(""))}
		row.Before, row.BeforeLogMAR = acuity(change.Before)
		row.After, row.AfterLogMAR = acuity(change.After)
		row.Change = row.AfterLogMAR - row.BeforeLogMAR
		rows = append(rows, row)
	}
	return rows
}

func acuity(given content.Given[measure.Acuity]) (Word, Number) {
	a, ok := given.Get()
	if !ok {
		return "", undefined
	}
	if v, ok := a.LogMAR(); ok {
		return Word(a.String()), Number(v)
	}
	return Word(a.String()), undefined
}

// seconds is a known time of a recording in seconds.
func seconds(t content.Given[measure.Time]) Number {
	if v, ok := t.Get(); ok {
		return Number(v.Seconds())
	}
	return undefined
}
