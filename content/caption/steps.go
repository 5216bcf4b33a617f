package caption

import (
	"math"
	"slices"

	"caseleaf/content/term"
)

// mention is a term named in a cue, rightly or after correction.
type mention struct {
	cue      int // place in the track
	from, to int // words of the cue as corrected
	term     string
	mood     mood
}

// talk is the recording after hearing: corrected words and what they name.
type talk struct {
	v        *term.Vocabulary
	cues     []Cue
	words    [][]string  // as corrected and applied
	stems    [][]string  // of words
	mentions [][]mention // by cue
	sayings  [][]said    // by cue; see says
}

// affinity is how strongly a term speaks for a step.
func affinity(t *term.Term, step string) float64 {
	if t.ID == step {
		return 3.4
	}
	kind := 1.0
	switch t.Kind {
	case term.Complication, term.Anatomy, term.Sign:
		kind = 0.45
	case term.Measure, term.RiskFactor, term.CataractType, term.Outcome, term.Grade:
		kind = 0.2
	case term.Technique:
		kind = 1.3
	}
	if t.Parent == step {
		return 2.4 * min(kind, 1)
	}
	if slices.Contains(t.Steps, step) {
		return 2.1 * kind / math.Sqrt(float64(len(t.Steps)))
	}
	return 0
}

// emissions weighs each cue against each state of the model.
func (t *talk) emissions(m *model) [][]float64 {
	place := make(map[string]int, len(m.states))
	for i, s := range m.states {
		place[s] = i
	}
	out := make([][]float64, len(t.cues))
	for i := range t.cues {
		out[i] = make([]float64, len(m.states))
		t.emitTerms(i, m, out[i])
		t.emitSayings(i, place, out[i])
		for s := range out[i] {
			out[i][s] = max(-1.5, min(out[i][s], 5))
		}
	}
	return out
}

func (t *talk) emitTerms(i int, m *model, row []float64) {
	for _, mn := range t.mentions[i] {
		tm, ok := t.v.Get(mn.term)
		if !ok {
			continue
		}
		w := mn.mood.weight()
		if tm.Kind == term.Step && t.asPlace(mn) {
			w *= 0.3
		}
		for s := 1; s < len(m.states); s++ {
			row[s] += w * affinity(&tm, m.states[s])
		}
		if tm.Kind == term.CataractType || tm.Kind == term.RiskFactor {
			row[0] += 0.6 // talk of the patient comes before the operation
		}
	}
}

// places are words that make what follows a place rather than something done:
// "through the side port".
var (
	places   = wordSet("through via from at by beside near towards of behind")
	articles = wordSet("the a my your our this that other another same right left")
)

func (t *talk) asPlace(m mention) bool {
	words := t.words[m.cue]
	i := m.from - 1
	for i > 0 && articles[words[i]] {
		i--
	}
	return i >= 0 && places[words[i]]
}

// openers are words with which a narrator turns to something new.
var openers = wordSet("now next okay ok right ready then")

// changes is how ready each cue is to begin something new: an opening word, or
// a pause before it that is long for this recording.
func (t *talk) changes() []float64 {
	var gaps []float64
	for i := 1; i < len(t.cues); i++ {
		gaps = append(gaps, max(0, t.cues[i].Start-t.cues[i-1].End))
	}
	slices.Sort(gaps)
	usual := 0.3
	if len(gaps) > 0 {
		usual = max(usual, gaps[len(gaps)/2])
	}
	out := make([]float64, len(t.cues))
	for i := range t.cues {
		words := t.words[i]
		for k := 0; k < min(3, len(words)); k++ {
			if openers[words[k]] {
				out[i] = 0.5
			}
		}
		if i > 0 {
			if gap := t.cues[i].Start - t.cues[i-1].End; gap > 2*usual {
				out[i] += min(0.9, 0.4*gap/usual/2)
			}
		}
	}
	return out
}

// modelOf builds the model of one procedure.
func modelOf(v *term.Vocabulary, procedure string) *model {
	m := &model{procedure: procedure, states: []string{""}, optional: []bool{true}, rescue: []bool{false}, enter: []float64{0}}
	add := func(step string, rescue bool) {
		m.states = append(m.states, step)
		m.optional = append(m.optional, rescue)
		m.rescue = append(m.rescue, rescue)
		e := 0.0
		if step == "postop-review" { // not on a recording, as a rule
			e = 2.5
		}
		m.enter = append(m.enter, e)
	}
	usual := v.Sequence(procedure)
	for _, s := range withParent(v, procedure, usual) {
		add(s, false)
		m.optional[len(m.optional)-1] = !slices.Contains(usual, s)
	}
	for _, s := range v.Rescue(procedure) {
		add(s, true)
	}
	return m
}

// withParent adds to the steps of a procedure those of the procedure it is a kind
// of, each after the step it follows there: where the laser makes no wounds, the
// surgeon does.
func withParent(v *term.Vocabulary, procedure string, steps []string) []string {
	t, _ := v.Get(procedure)
	if own, ok := v.ProcedureOf(t.Parent); !ok || own != t.Parent {
		return steps // an umbrella, or none
	}
	all := slices.Clone(steps)
	after := -1
	for _, s := range v.Sequence(t.Parent) {
		if k := slices.Index(all, s); k >= 0 {
			after = k
			continue
		}
		if after >= 0 {
			after++
			all = slices.Insert(all, after, s)
		}
	}
	return all
}

// decodeSteps tries every procedure of the vocabulary and keeps the one that
// explains the recording best.
func (t *talk) decodeSteps(only string) (*model, decoding) {
	var best *model
	var bestDecoding decoding
	var bestEmit [][]float64
	change := t.changes()
	for _, p := range t.procedures(only) {
		m := modelOf(t.v, p)
		emit := t.emissions(m)
		d := m.decode(emit, change)
		d.score += t.named(p)
		if best == nil || d.score > bestDecoding.score {
			best, bestDecoding, bestEmit = m, d, emit
		}
	}
	if best != nil {
		best.weigh(bestEmit, change, &bestDecoding)
	}
	return best, bestDecoding
}

func (t *talk) procedures(only string) []string {
	if p, ok := t.v.ProcedureOf(only); ok {
		return []string{p}
	}
	var out []string
	for _, p := range t.v.Of(term.Procedure) {
		if q, ok := t.v.ProcedureOf(p.ID); ok && q == p.ID && len(t.v.Sequence(p.ID)) > 3 {
			out = append(out, p.ID)
		}
	}
	return out
}

// named is what it is worth that the narrator names the procedure.
func (t *talk) named(procedure string) float64 {
	sum := 0.0
	for _, list := range t.mentions {
		for _, m := range list {
			if m.term == procedure && m.mood == told {
				sum += 2
			}
		}
	}
	return min(sum, 4)
}
