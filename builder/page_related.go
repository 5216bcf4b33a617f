package builder

import (
	"cmp"
	"slices"

	"caseleaf/content"
)

// mostRelated is how many related cases a page names at most.
const mostRelated = 5

// nearestHolders is how many cases on either side, in the order of the bank,
// are looked at for each topic of a case. It keeps the work for each case the
// same however large the bank is.
const nearestHolders = 32

// topic is one thing a case is about.
type topic struct {
	id       string
	weight   int
	decision bool
}

// topics is what each case is about, and the places in the bank's order of the
// cases that are about each topic.
type topics struct {
	of      [][]topic
	holders map[topic][]int
	place   map[*content.Case]int
	byID    map[string]int
}

// newTopics takes what the cases are about that are still those of an earlier
// reading from its topics; last is nil where there was none.
func newTopics(bank *content.Bank, last *topics) *topics {
	t := &topics{
		of: make([][]topic, len(bank.Cases)), holders: map[topic][]int{},
		place: make(map[*content.Case]int, len(bank.Cases)), byID: make(map[string]int, len(bank.Cases)),
	}
	for i, c := range bank.Cases {
		t.of[i], t.place[c], t.byID[c.ID.Value] = last.again(c), i, i
		for _, topic := range t.of[i] {
			t.holders[topic] = append(t.holders[topic], i)
		}
	}
	return t
}

// again is what a case is about.
func (t *topics) again(c *content.Case) []topic {
	if t != nil {
		if i, ok := t.place[c]; ok {
			return t.of[i]
		}
	}
	return topicsOf(c)
}

func topicsOf(c *content.Case) []topic {
	var list []topic
	add := func(g content.Given[string], weight int, decision bool) {
		t := topic{g.Value, weight, decision}
		if g.Known() && !slices.Contains(list, t) {
			list = append(list, t)
		}
	}
	for i := range c.Timeline.Entries {
		switch e := &c.Timeline.Entries[i]; {
		case e.Event != nil:
			add(e.Event.Term, 3, false)
		case e.Decision != nil:
			add(e.Decision.Point, 3, true)
		}
	}
	for _, id := range c.Outcome.Later {
		add(id, 3, false)
	}
	add(c.Technique, 1, false)
	for _, r := range c.Patient.Risks {
		add(r, 1, false)
	}
	return list
}

// near returns the places of cases that may be related to the one at a place:
// those the author named, then the nearest that share a topic.
func (t *topics) near(at int, named []content.Given[string]) []int {
	var list []int
	for _, id := range named {
		if other, ok := t.byID[id.Value]; ok && id.Known() {
			list = append(list, other)
		}
	}
	for _, topic := range t.of[at] {
		holders := t.holders[topic]
		i, _ := slices.BinarySearch(holders, at)
		list = append(list, holders[max(0, i-nearestHolders):min(len(holders), i+nearestHolders+1)]...)
	}
	slices.Sort(list)
	return slices.DeleteFunc(slices.Compact(list), func(other int) bool { return other == at })
}

// leastShared is the weight that two cases must share to be called related.
const leastShared = 3

// related names the cases the author asked for, then those that share most: a
// complication counts 3, a shared decision 3, the technique 1, a risk factor 1.
// Among equals the earlier in the bank comes first.
func (v *caseView) related() []RelatedCase {
	t := v.site.topics
	at := t.place[v.c]
	type scored struct{ at, score int }
	var list []scored
	for _, other := range t.near(at, v.c.Related) {
		s := scored{other, sharedWeight(t.of[at], t.of[other])}
		if v.names(v.site.Bank.Cases[other]) {
			s.score += 1000 // the author's word comes before any count
		}
		if s.score >= leastShared {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(a, b scored) int { return cmp.Compare(b.score, a.score) })
	var out []RelatedCase
	for _, r := range list[:min(len(list), mostRelated)] {
		out = append(out, RelatedCase{Case: caseLink(v.site.Bank.Cases[r.at]), Why: v.shared(t.of[at], t.of[r.at])})
	}
	return out
}

// names reports whether the case's author named another as related.
func (v *caseView) names(other *content.Case) bool {
	return slices.ContainsFunc(v.c.Related, func(id content.Given[string]) bool {
		return id.Known() && id.Value == other.ID.Value
	})
}

// sharedWeight weighs what two cases have in common.
func sharedWeight(mine, theirs []topic) (weight int) {
	for _, t := range mine {
		if slices.Contains(theirs, t) {
			weight += t.weight
		}
	}
	return weight
}

// shared names what two cases have in common.
func (v *caseView) shared(mine, theirs []topic) (why []Link) {
	for _, t := range mine {
		switch {
		case !slices.Contains(theirs, t):
		case !t.decision:
			why = append(why, v.met.link(t.id))
		default:
			if d, ok := v.site.Bank.Decision(t.id); ok {
				why = append(why, Link{Text: d.Title.Or(t.id), Path: decisionPath(t.id)})
			}
		}
	}
	return why
}
