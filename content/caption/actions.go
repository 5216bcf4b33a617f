package caption

import (
	"slices"
	"strings"

	"caseleaf/content/term"
)

// doing are words with which a narrator begins to do something about it.
var (
	doing    = wordSet("stop hold let fill raise lower refill inject put suture cut close reposit enlarge convert call remove release wash turn pull press stain cover plug place use give leave leaving document taking take bring start stitch fix flatten pause withdraw lift sweep only cannula first open stroke pour flush off coat seal inflate deepen switch swap redo reposition extend lower drop")
	did      = wordSet("stopped held filled raised lowered refilled injected sutured closed enlarged converted called removed released washed covered placed left brought started stitched flattened withdrew lifted swept opened took gave pushed pressed")
	doings   = []string{"foot off", "foot up", "foot position", "finger on", "off the pedal", "i will", "we will", "we leave", "i leave", "so we", "nothing to do", "document it", "first thing", "i am going to", "i am taking", "everything is gentle", "from here", "i just", "let us", "lets"}
	idle     = []string{"so we have", "so i have", "so we had", "so i had", "we will see", "i will see", "let us see", "lets see", "let me see", "let me look", "i will show", "i will tell", "let me show", "let me tell"}
	resolved = []string{"i will", "we will", "i am going to", "we are going to", "so i", "so we", "im going to", "im gonna", "were gonna"}
	waiting  = 120.0 // seconds after the name in which an action still answers it
)

// together is how many seconds apart two events may be noticed for one action
// to answer both.
const together = 30.0

// actions finds, for each event, the first thing done about it. What is done
// answers the latest event before it, unless the watch table says that it is
// what is done about an earlier one.
func (a *analysis) actions(events []Event) {
	taken := make(map[int]bool)
	for k := len(events) - 1; k >= 0; k-- {
		e := &events[k]
		first, apt := -1, -1
		if a.actsAtOnce(e) {
			first = e.place
		}
		for i := e.noticed + 1; i < len(a.talk.cues) && a.talk.cues[i].Start-a.talk.cues[e.place].Start < waiting; i++ {
			if !a.acting(i) || taken[i] || i < e.place && a.alarming(i) {
				continue
			}
			if first < 0 && !a.betweenOthers(events, k, i) {
				first = i
			}
			if apt < 0 && a.answersTo(e, i) && !slices.ContainsFunc(events[k+1:], func(x Event) bool { return x.acted == i }) {
				apt = i
			}
		}
		e.acted = first
		if apt >= 0 && (first < 0 || a.betweenOthers(events, k, first)) {
			e.acted = apt
		}
		if e.acted < 0 && k+1 < len(events) && events[k+1].acted >= 0 && *events[k+1].Noticed-*e.Noticed < together {
			e.acted = events[k+1].acted
			e.Acted = a.start(e.acted)
			continue
		}
		if e.acted >= 0 {
			taken[e.acted] = true
			e.Acted = a.start(e.acted)
		}
	}
}

// actsAtOnce reports whether the cue that names an event goes on to what is
// done: "so a tag, I leave it and tear it by hand".
func (a *analysis) actsAtOnce(e *Event) bool {
	for _, m := range a.talk.mentions[e.place] {
		if m.term == e.Term {
			rest := a.talk.words[e.place][m.to:]
			return len(rest) > 3 && containsAny(" "+strings.Join(rest, " ")+" ", doings)
		}
	}
	return false
}

// betweenOthers reports whether a later event was named before cue i.
func (a *analysis) betweenOthers(events []Event, k, i int) bool {
	for _, x := range events[k+1:] {
		if x.place < i {
			return true
		}
	}
	return false
}

// acting reports whether something is done in a cue.
func (a *analysis) acting(i int) bool {
	words := a.talk.words[i]
	head := firstOf(words)
	if len(words) == 0 || a.deciding(i) != notDecision && !containsAny(" "+strings.Join(words, " ")+" ", resolved) || containsAny(" "+strings.Join(words, " ")+" ", idle) || head < len(words) && (words[head] == "if" || words[head] == "do" || words[head] == "never" || words[head] == "no" || words[head] == "always") {
		return false
	}
	for _, m := range a.talk.mentions[i] {
		if t, _ := a.talk.v.Get(m.term); t.Kind == term.Action && (m.mood == told || m.mood == planned) {
			return true
		}
	}
	if moodOf(words, head, min(head+1, len(words))) == asked {
		return false
	}
	text := " " + strings.Join(words, " ") + " "
	if containsAny(text, doings) {
		return true
	}
	for k := head; k < min(len(words), head+3); k++ {
		if doing[words[k]] || did[words[k]] && k > 0 && (words[k-1] == "i" || words[k-1] == "we") {
			return true
		}
	}
	for k := 1; k < len(words); k++ { // "it has stopped growing so press"
		if (words[k-1] == "so" || words[k-1] == "and" && k > 2) && doing[words[k]] {
			return true
		}
	}
	return a.takesUp(i)
}

// takesUp reports whether a cue opens with something taken up or given:
// "phenylephrine into the chamber", "micro forceps and tear along the curve".
func (a *analysis) takesUp(i int) bool {
	head := firstOf(a.talk.words[i])
	return slices.ContainsFunc(a.talk.mentions[i], func(m mention) bool {
		t, _ := a.talk.v.Get(m.term)
		rest := a.talk.words[i][m.to:]
		return m.from == head && !hasWord(rest[:min(3, len(rest))], supposing) && (m.mood == told || m.mood == planned) && slices.Contains(given, t.Kind)
	})
}

// given are the kinds of what is taken up or given.
var given = []term.Kind{term.Instrument, term.Device, term.Material, term.Drug}

// answersTo reports whether a cue speaks of what the watch table has as the
// first move, or has ready, for this complication.
func (a *analysis) answersTo(e *Event, i int) bool {
	for _, r := range a.talk.v.WatchOf(e.Term) {
		if shared(texts(splitWords(r.FirstMove+" "+r.Ready)), a.talk.words[i]) >= 0.9 {
			return true
		}
	}
	return false
}
