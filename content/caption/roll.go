package caption

import (
	"slices"
	"strings"
)

// rollShare is the share of cues that must repeat lines of the cue before for
// a file to count as rolling captions. Below it a repeated line is speech:
// surgeons do say things twice.
const rollShare = 0.25

// flash is the longest time, in seconds, that a rolling file shows a finished
// line by itself between two cues.
const flash = 0.1

// unroll takes away what rolling captions repeat: the last lines of the cue
// before on top of the new line, a cue shown again for an instant, or a line
// that grows word by word. What each cue adds is left.
func unroll(cues []rawCue) {
	if len(cues) < 2 {
		return
	}
	rolled, grown := 0, 0
	for i := 1; i < len(cues); i++ {
		if follows(cues[i-1], cues[i]) {
			if repeated(cues[i-1].lines, cues[i].lines) > 0 {
				rolled++
			}
			if growth(cues[i-1].lines, cues[i].lines) > 0 {
				grown++
			}
		}
	}
	n := float64(len(cues) - 1)
	rolls, grows := float64(rolled) > rollShare*n, float64(grown) > rollShare*n
	if !rolls && !grows {
		return
	}
	before := cues[0].lines
	for i := 1; i < len(cues); i++ {
		whole := cues[i].lines
		switch k := repeated(before, whole); {
		case rolls && cues[i].end-cues[i].start < flash && same(before, whole):
			cues[i].lines = nil
		case rolls && k > 0 && follows(cues[i-1], cues[i]):
			cues[i].lines = whole[k:]
		case grows && follows(cues[i-1], cues[i]):
			if g := growth(before, whole); g > 0 {
				fields := strings.Fields(strings.Join(whole, " "))
				cues[i].lines = []string{strings.Join(fields[g:], " ")}
			}
		}
		before = whole
	}
}

// same reports whether next shows nothing but the end of before again.
func same(before, next []string) bool {
	before, next = full(before), full(next)
	return len(next) > 0 && len(next) <= len(before) && slices.Equal(before[len(before)-len(next):], next)
}

// follows reports whether b comes on screen as a leaves it or while it stands.
func follows(a, b rawCue) bool { return b.start >= a.start && b.start-a.end < 2.5 }

// repeated counts the first lines of next that are the last lines of before.
// A cue of one line that repeats the whole cue before only counts when there
// is more than one line to compare or nothing new would be lost.
func repeated(before, next []string) int {
	before, next = full(before), full(next)
	for k := min(len(before), len(next)); k > 0; k-- {
		if k == len(next) && len(next) == 1 && len(before) == 1 {
			continue // a sentence said twice
		}
		if slices.Equal(before[len(before)-k:], next[:k]) {
			return k
		}
	}
	return 0
}

// growth counts the words of before when next is the same words and more.
func growth(before, next []string) int {
	b := strings.Fields(strings.Join(before, " "))
	n := strings.Fields(strings.Join(next, " "))
	if len(b) == 0 || len(n) <= len(b) {
		return 0
	}
	for i := range b {
		if b[i] != n[i] {
			return 0
		}
	}
	return len(b)
}

// full drops empty lines.
func full(lines []string) []string {
	var out []string
	for _, l := range lines {
		if l != "" {
			out = append(out, l)
		}
	}
	return out
}
