package caption

import (
	"slices"

	"caseleaf/content/term"
)

// Event is a complication as the narration tells it. Times are those of cues,
// in seconds; a nil time is unknown and is never filled in from another.
type Event struct {
	Term    string   `json:"term"`
	Step    string   `json:"step"` // in which it began, as far as known
	Began   *float64 `json:"began"`
	Noticed *float64 `json:"noticed"`
	Acted   *float64 `json:"acted"`
	Cue     int      `json:"cue"` // that names it
	Sign    string   `json:"sign,omitempty"`
	Basis   string   `json:"basis,omitempty"` // how began is known, in words

	place, noticed, acted int // cues in the track; acted -1 when unknown
	sign                  int // cue of the sign's words
}

// What the draft reads from a narrator's words: surprise, seeing, and strain.
var (
	cries    = wordSet("oh hm hmm ah wait stop careful whoa oops hang ooh aha uhoh aiyo ayyo arre damn blast bother aha hello")
	seeing   = []string{"look at", "looks", "do you see", "what is that", "there is a", "there is the", "i can see", "you can see", "i see", "see that", "what was that", "something", "going out", "coming out", "is gone", "has gone", "not coming", "suddenly", "all of a sudden", "says pain", "says ow", "in pain", "it hurts"}
	underWay = []string{"here comes", "here it comes", "it comes", "is coming", "is going", "are coming", "going out", "coming out", "is running", "is falling", "there it goes", "there she goes", "there he goes", "there they go", "just went", "is opening", "comes out", "slides down", "slips away", "tips away", "snaps", "pops out", "and is gone"}
	strain   = wordSet("tight push pushed pushing force forced harder hard deep deeper deepen pressure bigger larger pull pulled pulling caught catch grabbed slipped jerk jerked steep fast quickly struggle struggling stuck resistance lost rush rushed chase chased surge tough twist")
	strains  = []string{"cannot see", "can not see", "cant see", "lost sight", "lose sight", "than i wanted", "than i want", "more than", "a bit more", "a little more", "too much", "too far", "too deep", "too low", "too high", "too fast", "not ideal", "should have", "do not like", "do not love", "dont like", "dont love", "a bit much", "bit much", "not happy", "little deep", "bit deep", "bit long", "bit short"}
	after    = []string{"ago", "earlier", "when i", "when we", "when the", "from when", "on the way", "must have", "probably", "i think", "back when", "as i came", "as the", "as we", "it was when", "it began", "it started", "when he", "when she", "when it", "at that", "it went with", "that was where"}
	lookBack = 240.0 // seconds searched for where an event began
)

// events drafts the complications told as happening, by name or by hint.
func (a *analysis) events() []Event {
	var out []Event
	for i := range a.talk.cues {
		for _, m := range slices.Concat(a.talk.mentions[i], a.hinted(i)) {
			t, _ := a.talk.v.Get(m.term)
			if t.Kind != term.Complication || !a.tells(m) || sought(a.talk.words[i], m.from) || !a.credible(m, &t) {
				continue
			}
			if slices.ContainsFunc(out, func(e Event) bool { return e.Term == m.term && !a.anew(&e, i) }) {
				continue
			}
			e := Event{Term: m.term, Cue: a.talk.cues[i].Index, place: i, noticed: i, acted: -1, sign: -1}
			out = a.without(out, &e)
			e.noticed = min(a.noticedAt(i, &t, out), e.noticed)
			e.Noticed = a.start(e.noticed)
			a.findSign(&e)
			out = append(out, e)
		}
	}
	for k := range out {
		a.began(&out[k], out[:k])
	}
	a.actions(out)
	return out
}

// without drops an event that was only seen, in the chamber, just before e is
// named: it was the first that was seen of e.
func (a *analysis) without(events []Event, e *Event) []Event {
	n := len(events) - 1
	if n < 0 || !passing[events[n].Term] || passing[e.Term] || a.talk.cues[e.place].Start-a.talk.cues[events[n].place].Start > leading {
		return events
	}
	for i := range e.place + 1 {
		if slices.ContainsFunc(a.talk.mentions[i], func(m mention) bool { return m.term == events[n].Term }) {
			return events // it was named for itself
		}
	}
	e.noticed = events[n].noticed
	return events[:n]
}

// passing are complications that are as often the sign of another.
var passing = wordSet("shallow-chamber chamber-collapse")

// tells reports whether a mention is of something that happened; a name called
// out right after a cry is, whatever is taught of it in the same breath.
func (a *analysis) tells(m mention) bool {
	if m.mood == general && m.from <= firstOf(a.talk.words[m.cue]) {
		for k := max(0, m.cue-2); k < m.cue; k++ {
			if a.crying(k) {
				return true
			}
		}
	}
	return m.mood == told || m.mood == past
}

// anew reports whether a cue tells of the same complication a second time rather
// than going on about it: long after it, and at a new cry.
func (a *analysis) anew(e *Event, i int) bool {
	if a.talk.cues[i].Start-a.talk.cues[e.place].Start < secondTime {
		return false
	}
	for k := max(e.place+1, i-3); k <= i; k++ {
		if a.crying(k) {
			return true
		}
	}
	return false
}

// secondTime is how many seconds after the name of a complication it may have come a
// second time.
const secondTime = 120.0

// credible reports whether a complication named in a cue can be meant: in a
// step where it can start, with an alarm before it, or where "that is a" leads up
// to it. "A deep groove" while sculpting is no scleral disinsertion.
func (a *analysis) credible(m mention, t *term.Term) bool {
	i := m.cue
	if a.fits(i, t) || announced(a.talk.words[i][:m.from]) {
		return true
	}
	for k := max(0, i-4); k <= i; k++ {
		if slices.Contains(t.Steps, a.stepOf(k)) || a.alarming(k) {
			return true
		}
	}
	return a.model == nil || len(t.Steps) == 0
}

func (a *analysis) start(place int) *float64 {
	s := a.talk.cues[place].Start
	return &s
}
