package caption

import (
	"slices"
	"strings"
)

// watched finds the first sign that the watch table has for a complication in
// the step of a cue, all its telling words in one cue, when the narrator cries
// out or stops there or soon after. It is a hint like those of hints.csv, from
// the vocabulary itself.
func (a *analysis) watched(i int) []mention {
	if a.model == nil || !a.halts(i) && !a.crying(i) && (i == 0 || !a.crying(i-1)) {
		return nil
	}
	words := a.talk.words[i]
	for _, r := range a.talk.v.WatchFor(a.stepOf(i)) {
		for _, sign := range strings.FieldsFunc(strings.ReplaceAll(r.FirstSign, " or ", ","), func(c rune) bool { return c == ',' || c == ';' }) {
			from, to := allOf(telling(sign), words)
			if from < 0 || hasWord(words[:to], negations) {
				continue
			}
			if m := moodOf(words, from, to); m == told || m == past {
				return []mention{{cue: i, from: from, to: to, term: r.Complication, mood: m}}
			}
		}
	}
	return nil
}

// telling lists the roots of the words of a sign that say something.
func telling(sign string) []string {
	var out []string
	for _, w := range splitWords(sign) {
		if n, _ := surprise(w.text); n >= 4 && len(w.text) > 2 {
			out = append(out, root(stem(w.text)))
		}
	}
	return out
}

// allOf returns the stretch of words that holds all of two or more roots, or -1.
func allOf(roots, words []string) (from, to int) {
	if len(roots) < 2 {
		return -1, -1
	}
	from = len(words)
	for _, r := range roots {
		k := slices.IndexFunc(words, func(w string) bool { return root(stem(w)) == r })
		if k < 0 {
			return -1, -1
		}
		from, to = min(from, k), max(to, k+1)
	}
	return from, to
}
