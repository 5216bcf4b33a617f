package caption

import (
	"slices"
	"testing"

	"caseleaf/content/term"
)

// TestWatched: the first sign in the watch table of what can start in a step is
// a hint when the narrator stops at it, and none when it is only talked of,
// denied, or seen in a step that has no such row.
func TestWatched(t *testing.T) {
	track, _ := Read("", readFile(t, "white-intumescent-run-out.srt"))
	const rhexis, later = 30, 80 // cues of capsulorhexis and of lens insertion
	for _, c := range []struct {
		place int
		said  string
		want  bool
	}{
		{rhexis, "wait the lens edge shows there", true},
		{rhexis, "there is no lens edge showing wait", false},
		{rhexis, "if the lens edge shows you stop", false},
		{later, "wait the lens edge shows there", false},
	} {
		cues := slices.Clone(track.Cues)
		cues[c.place].Text = c.said
		a := analyse(lexiconOf(term.Cataract()), cues, "", nil)
		found := slices.ContainsFunc(a.watched(c.place), func(m mention) bool { return m.term == "zonular-dialysis" })
		if found != c.want {
			t.Errorf("%q in %s: %v, want %v", c.said, a.stepOf(c.place), found, c.want)
		}
	}
}
