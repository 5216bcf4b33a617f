package tally

import (
	"cmp"
	"slices"

	"caseleaf/builder/stat"
	"caseleaf/content"
)

// Spread summarises times in seconds; all but N are undefined without any.
type Spread struct {
	N      int    `json:"n" doc:"how many times were known"`
	Median Number `json:"median" doc:"seconds"`
	Lower  Number `json:"lower" doc:"first quartile, seconds"`
	Upper  Number `json:"upper" doc:"third quartile, seconds"`
	Least  Number `json:"least" doc:"seconds"`
	Most   Number `json:"most" doc:"seconds"`
}

func spread(seconds []float64) Spread {
	s := stat.Summarise(seconds)
	return Spread{s.N, Number(s.Median), Number(s.Lower), Number(s.Upper), Number(s.Min), Number(s.Max)}
}

// OnsetRow counts events of the cases by the step in which they began; the
// step is null where a case does not tell.
type OnsetRow struct {
	Step         Word   `json:"step" doc:"step in which it began; null where the case does not tell"`
	Complication string `json:"complication"`
	Count        int    `json:"count" doc:"events in the cases: a count, not a rate"`
}

// DelayRow is how long one complication went unnoticed, and then unacted on,
// over the cases in which both times are known and the recording was not cut
// between.
type DelayRow struct {
	Complication string `json:"complication"`
	Events       int    `json:"events" doc:"events in the cases"`
	// BeganNoticed and NoticedActed are in seconds.
	BeganNoticed Spread   `json:"began_noticed" doc:"from beginning to being noticed"`
	NoticedActed Spread   `json:"noticed_acted" doc:"from being noticed to being acted on"`
	Each         []Moment `json:"each" doc:"the events one by one"`
}

// Moment is one event of a case in seconds of its recording; an unknown time,
// and one that did not come, is null.
type Moment struct {
	Case    string `json:"case"`
	Began   Number `json:"began" doc:"second of the recording; null where unknown"`
	Noticed Number `json:"noticed" doc:"second of the recording; null where unknown"`
	Acted   Number `json:"acted" doc:"second of the recording; null where unknown or nothing was done"`
}

// DurationRow is how long one step took with one technique, in seconds.
type DurationRow struct {
	Step      string `json:"step"`
	Technique Word   `json:"technique" doc:"technique of the operation"`
	Spread
	// Untold counts stretches without a known end or with a cut in them.
	Untold int `json:"untold" doc:"stretches without a known end or with a cut in them"`
}

// addCases counts what the written-up cases tell.
func (r *Result) addCases(cases []*content.Case) {
	r.Source.Cases = len(cases)
	r.Onsets, r.Delays = list(onsetRows(cases)), list(delayRows(cases))
	r.Durations = list(durationRows(cases))
	r.Choices, r.Decisions = choiceRows(cases)
	r.Acuity = list(acuityRows(cases))
}

// onsetRows lists the most frequent onset first.
func onsetRows(cases []*content.Case) []OnsetRow {
	counts := map[OnsetRow]int{}
	for _, c := range cases {
		for _, e := range c.Events() {
			if !e.Event.Term.Known() {
				continue
			}
			step, _ := c.Onset(e.Event)
			counts[OnsetRow{Step: Word(step), Complication: e.Event.Term.Value}]++
		}
	}
	var rows []OnsetRow
	for row, n := range counts {
		row.Count = n
		rows = append(rows, row)
	}
	slices.SortFunc(rows, func(a, b OnsetRow) int {
		return cmp.Or(cmp.Compare(b.Count, a.Count), cmp.Compare(a.Complication, b.Complication), cmp.Compare(a.Step, b.Step))
	})
	return rows
}

// delayRows lists the complications by id.
func delayRows(cases []*content.Case) []DelayRow {
	noticing, acting, each := map[string][]float64{}, map[string][]float64{}, map[string][]Moment{}
	for _, c := range cases {
		for _, entry := range c.Events() {
			e := entry.Event
			if !e.Term.Known() {
				continue
			}
			id := e.Term.Value
			if d, ok := c.NoticeDelay(e); ok {
				noticing[id] = append(noticing[id], float64(d.Seconds()))
			}
			if d, ok := c.ActDelay(e); ok {
				acting[id] = append(acting[id], float64(d.Seconds()))
			}
			each[id] = append(each[id], Moment{c.ID.Value, seconds(e.Began), seconds(e.Noticed), seconds(e.Acted)})
		}
	}
	var rows []DelayRow
	for _, id := range sortedKeys(each) {
		rows = append(rows, DelayRow{id, len(each[id]), spread(noticing[id]), spread(acting[id]), each[id]})
	}
	return rows
}

// durationRows lists steps by id and techniques by id within them.
func durationRows(cases []*content.Case) []DurationRow {
	type stretch struct{ step, technique string }
	told, untold := map[stretch][]float64{}, map[stretch]int{}
	var met []stretch
	for _, c := range cases {
		for _, s := range c.Steps() {
			at := stretch{s.Term, c.Technique.Or("")}
			if told[at] == nil && untold[at] == 0 {
				met = append(met, at)
			}
			if d, ok := s.Duration(); ok {
				told[at] = append(told[at], float64(d.Seconds()))
			} else {
				untold[at]++
			}
		}
	}
	var rows []DurationRow
	for _, at := range met {
		rows = append(rows, DurationRow{at.step, Word(at.technique), spread(told[at]), untold[at]})
	}
	slices.SortFunc(rows, func(a, b DurationRow) int {
		return cmp.Or(cmp.Compare(a.Step, b.Step), cmp.Compare(a.Technique, b.Technique))
	})
	return rows
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
