package caption

import (
	"caseleaf/content/term"
)

// Finding is something looked for: there or not.
type Finding struct {
	Term    string  `json:"term"`
	Present bool    `json:"present"`
	Time    float64 `json:"time"`
	Cue     int     `json:"cue"`

	place int
}

// findings lists signs told as seen, and signs and complications told as
// absent. The sign that leads to an event stays with the event as well. One
// finding of a kind is kept for each step.
func (a *analysis) findings() []Finding {
	var out []Finding
	type once struct {
		term    string
		step    string
		present bool
	}
	seen := make(map[once]bool)
	for i, c := range a.talk.cues {
		for _, m := range a.talk.mentions[i] {
			t, _ := a.talk.v.Get(m.term)
			present := m.mood == told && t.Kind == term.Sign
			absent := m.mood == denied && (t.Kind == term.Sign || t.Kind == term.Complication || t.Kind == term.Anatomy && m.term == "vitreous")
			if !present && !absent || absent && a.forbidden(m) {
				continue
			}
			key := once{m.term, a.stepOf(i), present}
			if !seen[key] {
				seen[key] = true
				out = append(out, Finding{Term: m.term, Present: present, Time: c.Start, Cue: c.Index, place: i})
			}
		}
	}
	return out
}

// forbidden reports whether a "no" or "not" forbids or wishes away rather than
// reports: "do not push", "I do not want a hard eye".
func (a *analysis) forbidden(m mention) bool {
	words := a.talk.words[m.cue]
	for k := max(0, m.from-7); k < m.from; k++ {
		if words[k] == "want" || words[k] == "never" || words[k] == "avoid" || words[k] == "do" && k+1 < len(words) && words[k+1] == "not" && (k == 0 || k == firstOf(words)) {
			return true
		}
	}
	return false
}
