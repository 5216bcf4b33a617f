package caption

import (
	"slices"
	"strings"
)

// blames are words with which a narrator, often at the end, says what an event
// came from.
var blames = []string{"made by", "caused by", "came from", "because i", "because of my", "happened because", "happened when", "from my", "my own", "that was me", "it was my", "was the", "should have", "shouldve"}

// damage are words for what happened; unnamed, it is the first thing.
var damage = wordSet("hole tear burn leak rent damage complication problem trouble mistake")

// explains reports whether a later cue says what an event came from: it blames
// something and names the event, its hint or a word of its name.
func (a *analysis) explains(i int, e *Event, first bool) bool {
	words := a.talk.words[i]
	if !containsAny(" "+strings.Join(words, " ")+" ", blames) {
		return false
	}
	if first && hasWord(words, damage) {
		return true
	}
	for _, m := range a.talk.mentions[i] {
		if m.term == e.Term {
			return true
		}
	}
	t, _ := a.talk.v.Get(e.Term)
	for _, n := range names(t) {
		if shared(n, words) >= 0.9 {
			return true
		}
	}
	return shared(a.talk.words[e.place], words) >= 0.8
}

// recalled looks for the earlier cue that the narrator refers to: "from when I
// pushed the last scroll". It shares at least two telling words with it.
func (a *analysis) recalled(e *Event, first bool) (int, bool) {
	near := a.lastNamed(e) + 3
	for i := e.place; i < len(a.talk.cues); i++ {
		words := a.talk.words[i]
		if i >= near && !a.explains(i, e, first) {
			continue
		}
		if i < near && !containsAny(" "+strings.Join(words, " ")+" ", after) {
			continue
		}
		best, top := -1, 1.9
		if i >= near {
			top = 0.79 // it says itself that something was to blame
		}
		when := clause(words)
		for k := e.noticed - 1; k >= 0; k-- {
			s := shared(words, a.talk.words[k]) + sameDeed(words, a.talk.words[k]) + a.sameThings(i, k)
			if slices.ContainsFunc(when, func(w string) bool { return shared([]string{w}, a.talk.words[k]) >= tellingWord }) {
				s += 1
			} else if *e.Noticed-a.talk.cues[k].Start >= lookBack {
				continue
			}
			if s > top {
				best, top = k, s
			}
		}
		if best >= 0 {
			return best, true
		}
	}
	return 0, false
}

// sameDeed weighs the verb after "when I", if it comes back.
func sameDeed(words, other []string) float64 {
	for k := 0; k+2 < len(words); k++ {
		if words[k] == "when" && (words[k+1] == "i" || words[k+1] == "we" || words[k+1] == "you") {
			return shared(words[k+2:k+3], other)
		}
	}
	return 0
}

// lastNamed returns the last cue that names an event while it is being found out:
// what was first shown by a sign is often named only then.
func (a *analysis) lastNamed(e *Event) int {
	last := e.place
	for i := e.place + 1; i < len(a.talk.cues) && a.talk.cues[i].Start-a.talk.cues[e.place].Start < 45; i++ {
		if slices.ContainsFunc(a.talk.mentions[i], func(m mention) bool { return m.term == e.Term && m.mood == told }) {
			last = i
		}
	}
	return last
}

// sameThings counts the instruments, drugs and the like that two cues name.
func (a *analysis) sameThings(i, k int) float64 {
	n := 0.0
	for _, m := range a.talk.mentions[i] {
		t, _ := a.talk.v.Get(m.term)
		if slices.Contains(given, t.Kind) && slices.ContainsFunc(a.talk.mentions[k], func(o mention) bool { return o.term == m.term }) {
			n++
		}
	}
	return n
}

// tellingWord is how much a word of a clause that says when must weigh, to find
// the cue that it points at by itself: one that is rare in plain English.
const tellingWord = 0.99

// clause returns the words after those that say when or with what something
// began: "began with that ache", "when I passed the silk".
func clause(words []string) []string {
	text := " " + strings.Join(words, " ") + " "
	for _, p := range whens {
		before, rest, ok := strings.Cut(text, " "+p+" ")
		if ok && !strings.HasSuffix(before, " look") {
			return strings.Fields(rest)
		}
	}
	return nil
}

var whens = []string{"began with", "started with", "began when", "started when", "began as", "begun as", "begun when", "came with", "it went at", "it went with", "at that", "from that", "with that", "from when", "when i", "when we", "when you", "when he", "when she", "when it"}

// shared weighs the content words two cues have in common, by their roots.
func shared(x, y []string) float64 {
	sum := 0.0
	var used []string
	for _, w := range x {
		n, _ := surprise(w)
		r := root(w)
		if n < 4 || len(r) < 3 || slices.Contains(used, r) {
			continue
		}
		if slices.ContainsFunc(y, func(o string) bool { return root(o) == r }) {
			used = append(used, r)
			sum += min(n, 7) / 6
		}
	}
	return sum
}

// root strips common endings.
func root(w string) string {
	for _, s := range []string{"ing", "ed", "es", "s", "er", "e"} {
		if r, ok := strings.CutSuffix(w, s); ok && len(r) >= 3 {
			return r
		}
	}
	return w
}
