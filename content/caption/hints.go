package caption

import (
	_ "embed" // hints.csv
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"caseleaf/content/term"
)

//go:embed hints.csv
var hintsCSV string

// hint is a phrase by which narrators tell of a complication without naming it.
type hint struct {
	complication string
	stems        []string // in this order, with at most hintGap words between
	weak         bool     // says something only when the narrator then stops or waits
}

// hintGap is how many words may stand between two words of a hint: "the wound
// is going white".
const hintGap = 2

// hints are the phrases of hints.csv by their first stem.
var hints = sync.OnceValue(func() map[string][]hint {
	rows, err := csv.NewReader(strings.NewReader(hintsCSV)).ReadAll()
	if err != nil { // compiled in and tested
		return nil
	}
	out := make(map[string][]hint)
	for _, r := range rows[1:] {
		for _, p := range strings.Split(r[1], "|") {
			p, weak := strings.CutPrefix(p, "?")
			words := strings.Fields(p)
			for k, w := range words {
				words[k] = stem(w)
			}
			out[words[0]] = append(out[words[0]], hint{r[0], words, weak})
		}
	}
	return out
})

// hinted finds the hints in a cue that are told rather than denied, asked or
// supposed, in a step where the complication can start.
func (a *analysis) hinted(i int) []mention {
	stems := a.talk.stems[i]
	var out []mention
	for k, first := range stems {
		for _, h := range hints()[first] {
			end := gapped(stems, k, h.stems)
			if end < 0 || hasWord(a.talk.words[i][k:end], negations) || slices.ContainsFunc(out, func(m mention) bool { return m.term == h.complication }) {
				continue
			}
			if t, ok := a.talk.v.Get(h.complication); !ok || t.Kind != term.Complication || !a.fits(i, &t) {
				continue
			}
			if h.weak && !a.halts(i) {
				continue
			}
			m := mention{cue: i, from: k, to: end, term: h.complication, mood: moodOf(a.talk.words[i], k, end)}
			if m.mood == told || m.mood == past {
				out = append(out, m)
			}
		}
	}
	if len(out) == 0 {
		out = a.watched(i)
	}
	return out
}

// halts reports whether the narrator stops in one of the next cues.
func (a *analysis) halts(i int) bool {
	for k := i; k < min(i+4, len(a.talk.cues)); k++ {
		if hasWord(a.talk.words[k], halting) {
			return true
		}
	}
	return false
}

var halting = wordSet("stop wait hold careful enlarge extend")

// gapped returns where a hint that begins at k ends, or -1.
func gapped(stems []string, k int, phrase []string) int {
	at := k
	for _, p := range phrase[1:] {
		next := -1
		for j := at + 1; j < len(stems) && j <= at+1+hintGap; j++ {
			if stems[j] == p {
				next = j
				break
			}
		}
		if next < 0 {
			return -1
		}
		at = next
	}
	return at + 1
}

// fits reports whether a complication can start in the step of a cue or of
// those around it.
func (a *analysis) fits(i int, t *term.Term) bool {
	for k := max(0, i-3); k <= min(i+2, len(a.talk.cues)-1); k++ {
		if slices.Contains(t.Steps, a.stepOf(k)) || a.rescuing(k) {
			return true
		}
	}
	return false
}

// rescuing reports whether a cue is in a step that may come anywhere: what went
// wrong may be seen there first.
func (a *analysis) rescuing(i int) bool {
	return a.model != nil && i < len(a.steps.path) && a.model.rescue[a.steps.path[i]]
}

// hintedAt reports whether an event shows itself where it is noticed.
func (a *analysis) hintedAt(e *Event) bool {
	return slices.ContainsFunc(a.hinted(e.noticed), func(m mention) bool { return m.term == e.Term })
}

// progressive reports whether something is said to be going on: "I am
// entering", "it is waving".
func progressive(words []string) bool {
	for k := 1; k < len(words); k++ {
		if strings.HasSuffix(words[k], "ing") && len(words[k]) > 4 && being[words[k-1]] {
			return true
		}
	}
	return false
}

var being = wordSet("am is are its im thats shes hes theyre")

// tested reports whether something was found by looking for it: then when it
// began is not known.
func (a *analysis) tested(i int) bool {
	for k := max(0, i-2); k <= i; k++ {
		if containsAny(" "+strings.Join(a.talk.words[k], " ")+" ", checking) {
			return true
		}
	}
	return false
}

var checking = []string{"see if", "is it", "check", "press", "test", "look for", "checking", "let me see", "any leak"}
