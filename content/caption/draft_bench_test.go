package caption

import (
	"slices"
	"strings"
	"testing"

	"caseleaf/content/term"
)

// hour makes a recording of one hour out of the invented ones, one after the
// other. From the second round on the words of each cue are turned round by a
// place more, so that hardly a stretch comes twice and nothing can be remembered.
func hour(t testing.TB) Track {
	var long Track
	at := 0.0
	for n := 0; at < 3600; n++ {
		track, _ := Read("", readFile(t, scored[n%len(scored)]+formats[scored[n%len(scored)]]))
		for _, c := range track.Cues {
			c.Index = len(long.Cues) + 1
			c.Start += at
			c.End += at
			if words := strings.Fields(c.Text); len(words) > 1 {
				k := n / len(scored) % len(words)
				c.Text = strings.Join(slices.Concat(words[k:], words[:k]), " ")
			}
			long.Cues = append(long.Cues, c)
		}
		at = long.Cues[len(long.Cues)-1].End + 1
	}
	return long
}

var scored = []string{"msics-iris-prolapse", "posterior-polar", "pseudoexfoliation-small-pupil", "white-intumescent-run-out"}
var formats = map[string]string{"msics-iris-prolapse": ".srt", "posterior-polar": ".vtt", "pseudoexfoliation-small-pupil": ".vtt", "white-intumescent-run-out": ".srt"}

func BenchmarkOneHour(b *testing.B) {
	track := hour(b)
	v := term.Cataract()
	lexiconOf(v)
	for b.Loop() {
		Draft(track, v, Options{})
	}
}

func BenchmarkLexicon(b *testing.B) {
	for b.Loop() {
		newLexicon(term.Cataract())
	}
}
