package caption

import (
	"slices"
	"strings"

	"caseleaf/content/term"
)

// noticedAt goes back from the cue that names an event over what led to the
// name: cries may lie further back than questions and signs. An event named in
// a step where it cannot start was noticed in one where it can, at a cry.
func (a *analysis) noticedAt(place int, t *term.Term, earlier []Event) int {
	noticed, quiet := place, 0
	shown := a.signOf(t, place)
	for i := place - 1; i >= 0 && quiet <= longQuiet && a.talk.cues[place].Start-a.talk.cues[i].Start < 45; i-- {
		if slices.ContainsFunc(earlier, func(e Event) bool { return e.place == i }) {
			break
		}
		near := quiet <= 2 && a.talk.cues[place].Start-a.talk.cues[i].Start < 30 && a.talk.cues[noticed].Start-a.talk.cues[i].Start < leading
		if near && a.alarming(i) || a.crying(i) && (noticed == place && !shown || a.talk.cues[noticed].Start-a.talk.cues[i].Start < leading) {
			noticed, quiet = i, 0
			continue
		}
		quiet++
	}
	if noticed == place && !a.fits(place, t) {
		for i := place - 1; i >= 0; i-- {
			if a.crying(i) && slices.Contains(t.Steps, a.stepOf(i)) && !slices.ContainsFunc(earlier, func(e Event) bool { return i >= e.noticed && i <= e.place }) {
				return i
			}
		}
	}
	return noticed
}

// signOf reports whether a cue shows a sign that the watch table has for a
// complication, or one of the phrases by which it is told of without its name.
func (a *analysis) signOf(t *term.Term, i int) bool {
	for _, m := range a.talk.mentions[i] {
		if m.mood != told {
			continue
		}
		sign, _ := a.talk.v.Get(m.term)
		if sign.Kind == term.Sign && slices.ContainsFunc(a.talk.v.WatchOf(t.ID), func(r term.WatchRow) bool {
			return shared(texts(splitWords(r.FirstSign)), texts(splitWords(sign.Label))) >= 0.9
		}) {
			return true
		}
	}
	return slices.ContainsFunc(a.hinted(i), func(m mention) bool { return m.term == t.ID })
}

// leading is how many seconds before a cry or a sign another may have been of the
// same thing.
const leading = 13.0

// longQuiet is how many cues may stand between a cry and the name of what it was
// for.
const longQuiet = 7

// sought reports whether what is named at from is only looked for: "check for
// leaks".
func sought(words []string, from int) bool {
	for k := max(1, from-3); k < from; k++ {
		if words[k] == "for" && looking[root(words[k-1])] {
			return true
		}
	}
	return false
}

var looking = wordSet("check look test search feel watch")

// unsaid reports whether the narrator says that nobody knows when it began.
func (a *analysis) unsaid(e *Event) bool {
	for i := e.noticed; i < min(e.place+4, len(a.talk.cues)); i++ {
		words := a.talk.words[i]
		if slices.Contains(words, "when") && containsAny(" "+strings.Join(words, " ")+" ", unknowing) {
			return true
		}
	}
	return false
}

var unknowing = []string{"cant say", "cannot say", "can not say", "dont know", "do not know", "no idea", "not sure", "hard to say", "could not say", "couldnt say", "impossible to say", "could not tell", "couldnt tell", "cannot tell", "cant tell", "not able to tell"}

// crying reports whether a cue opens with a cry.
func (a *analysis) crying(i int) bool {
	words := a.talk.words[i]
	head := firstOf(words)
	for k := 0; k < min(len(words), head+2); k++ {
		if cries[words[k]] && !timed(words, k) && !a.within(i, k) {
			return true
		}
		if words[k] == "hold" && k+1 < len(words) && words[k+1] == "on" {
			return true
		}
	}
	return false
}

// timed reports whether the word at k is told to last: "wait thirty seconds".
func timed(words []string, k int) bool {
	if k+1 == len(words) {
		return false
	}
	_, last := numberAt(words, k+1)
	return last > k+1 || words[k+1] == "for" || words[k+1] == "until"
}

// within reports whether the word at k of a cue belongs to a name: "stop and
// chop" is no cry.
func (a *analysis) within(i, k int) bool {
	return slices.ContainsFunc(a.talk.mentions[i], func(m mention) bool { return m.from <= k && k < m.to })
}

// alarming reports whether a cue shows that something is seen to go wrong.
func (a *analysis) alarming(i int) bool {
	words := a.talk.words[i]
	if a.crying(i) {
		return true
	}
	for _, m := range a.talk.mentions[i] {
		if t, _ := a.talk.v.Get(m.term); t.Kind == term.Sign && (m.mood == told || m.mood == asked) {
			return true
		}
	}
	text := " " + strings.Join(words, " ") + " "
	return containsAny(text, seeing) && !hasWord(words, negations) && !containsAny(text, []string{"go look at", "to look at", "gonna look at"})
}

// findSign takes the sign between noticing and naming: a sign of the
// vocabulary, else the narrator's own words.
func (a *analysis) findSign(e *Event) {
	for i := e.noticed; i <= e.place; i++ {
		for _, m := range a.talk.mentions[i] {
			if t, _ := a.talk.v.Get(m.term); t.Kind == term.Sign && m.mood != denied {
				e.Sign, e.sign = m.term, i
				return
			}
		}
	}
	for i := e.noticed; i < e.place; i++ {
		if len(a.talk.words[i]) > 2 {
			e.sign = i
			return
		}
	}
}
