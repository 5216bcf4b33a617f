package caption

import "strings"

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
