package caption

import (
	"slices"
	"strings"

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
	after    = []string{"ago", "earlier", "when i", "when we", "when the", "from when", "on the way", "must have", "probably", "i think", "back when", "as i came", "as the", "as we", "it was when", "it began", "it started", "when he", "when she", "when it", "at that"}
	lookBack = 240.0 // seconds searched for where an event began
)

// events drafts the complications told as happening, by name or by hint.
func (a *analysis) events() []Event {
	var out []Event
	for i := range a.talk.cues {
		for _, m := range slices.Concat(a.talk.mentions[i], a.hinted(i)) {
			t, _ := a.talk.v.Get(m.term)
			if t.Kind != term.Complication || !a.tells(m) || sought(a.talk.words[i], m.from) || !a.credible(i, &t) {
				continue
			}
			if slices.ContainsFunc(out, func(e Event) bool { return e.Term == m.term && !a.anew(&e, i) }) {
				continue
			}
			e := Event{Term: m.term, Cue: a.talk.cues[i].Index, place: i, acted: -1, sign: -1}
			e.noticed = a.noticedAt(i, &t, out)
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
// step where it can start, or with an alarm before it. "A deep groove" while
// sculpting is no scleral disinsertion.
func (a *analysis) credible(i int, t *term.Term) bool {
	if a.fits(i, t) {
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
