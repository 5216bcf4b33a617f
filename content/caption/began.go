package caption

import (
	"slices"
	"strings"
)

// began finds when an event started: from what the narrator says of it after,
// from an earlier stage of the same thing, from an earlier cue that tells of
// the usual mis-step, or because it was seen as it happened. Else it stays
// unknown.
func (a *analysis) began(e *Event, earlier []Event) {
	set := func(place int, basis string) {
		e.Began, e.Basis, e.Step = a.start(place), basis, a.stepOf(place)
	}
	e.Step = a.stepOf(e.noticed)
	if a.unsaid(e) {
		return
	}
	if s, ok := a.ago(e); ok {
		place := a.placeAt(s)
		e.Began, e.Basis, e.Step = &s, "the narrator says how long ago", a.stepOf(place)
		if p, ok := a.recalled(e, len(earlier) == 0); ok && a.talk.cues[p].Start > s-15 && a.talk.cues[p].Start <= *e.Noticed {
			set(p, "the narrator says what it came with")
		}
		return
	}
	for _, x := range earlier {
		if !a.hintedAt(e) && a.kin(x.Term, e.Term) && *e.Noticed-*x.Noticed < 180 {
			set(x.noticed, "a later stage of "+x.Term)
			return
		}
	}
	if p, ok := a.recalled(e, len(earlier) == 0); ok {
		set(p, "the narrator says what it came with")
		return
	}
	shows := showing[e.Term] && !a.tested(e.noticed)
	if p, ok := a.misStep(e, earlier); ok && !shows {
		set(p, "an earlier remark that fits the usual mis-step; to be confirmed")
		return
	}
	switch {
	case a.asItHappens(e):
		set(e.noticed, "seen as it happens")
	case shows:
		set(e.noticed, "shows itself as it begins; to be confirmed")
	}
}

// showing are complications that nobody can overlook as they begin: something
// moves that was at rest.
var showing = wordSet("block-chemosis chamber-collapse floppy-iris-syndrome flying-cannula iris-prolapse laser-suction-loss lens-iris-retropulsion")

// kin reports whether one complication is the other's parent.
func (a *analysis) kin(x, y string) bool {
	tx, _ := a.talk.v.Get(x)
	ty, _ := a.talk.v.Get(y)
	return tx.Parent == y || ty.Parent == x
}

func (a *analysis) asItHappens(e *Event) bool {
	for i := e.noticed; i <= e.place; i++ {
		words := a.talk.words[i]
		if a.hintedAt(e) && progressive(words) && !a.tested(e.noticed) {
			return true
		}
		if len(words) > 0 && cries[words[0]] || containsAny(" "+strings.Join(words, " ")+" ", underWay) {
			return true
		}
	}
	return false
}

// ago reads "ten seconds ago" near the cue that names the event.
func (a *analysis) ago(e *Event) (float64, bool) {
	for i := e.noticed; i < min(e.place+3, len(a.talk.cues)); i++ {
		words := a.talk.words[i]
		for k, w := range words {
			if w != "ago" || k < 2 {
				continue
			}
			unit := map[string]float64{"second": 1, "minute": 60}[strings.TrimSuffix(words[k-1], "s")]
			if n, from := numberBefore(words, k-1); unit > 0 && from < k-1 {
				return max(0, *e.Noticed-n*unit), true
			}
		}
	}
	return 0, false
}

func (a *analysis) placeAt(seconds float64) int {
	place := 0
	for i, c := range a.talk.cues {
		if c.Start <= seconds {
			place = i
		}
	}
	return place
}

// misStep looks back for a remark of strain in a step where the complication
// can start, preferring words that the watch table uses of it.
func (a *analysis) misStep(e *Event, earlier []Event) (int, bool) {
	t, _ := a.talk.v.Get(e.Term)
	rows := a.talk.v.WatchOf(e.Term)
	best, top := -1, 1.0
	for _, x := range earlier {
		if *e.Noticed-*x.Noticed < 120 {
			top = 2.2 // more likely what came of the other event
		}
	}
	for k := e.noticed - 1; k >= 0 && *e.Noticed-a.talk.cues[k].Start < lookBack; k-- {
		step := a.stepOf(k)
		if !slices.Contains(t.Steps, step) {
			continue
		}
		s := a.straining(k)
		if s == 0 {
			continue
		}
		for _, r := range rows {
			if r.Step == step {
				watch := texts(splitWords(r.MisStep + " " + r.FirstSign + " " + r.Prevention))
				s += 0.8 * shared(watch, a.talk.words[k])
			}
		}
		s -= (*e.Noticed - a.talk.cues[k].Start) / 120
		if s > top {
			best, top = k, s
		}
	}
	return best, best >= 0
}

// straining weighs how much a cue tells of force, depth or lost sight.
func (a *analysis) straining(i int) float64 {
	words := a.talk.words[i]
	text := " " + strings.Join(words, " ") + " "
	s := 0.0
	for _, p := range strains {
		if strings.Contains(text, " "+p+" ") {
			s += 1.2
		}
	}
	for k, w := range words {
		if strain[w] && !hasWord(words[max(0, k-3):k], negations) {
			s += 0.8
		}
	}
	if len(words) > 0 && (words[0] == "if" || hasWord(words, generally)) {
		return 0
	}
	return s
}
