package caption

import (
	"strings"
	"testing"

	"caseleaf/content/term"
)

// plainTrack makes a track of the ordinary sentences, four seconds each.
func plainTrack(t testing.TB) Track {
	var track Track
	for i, s := range strings.Split(strings.TrimSpace(string(readFile(t, "plain-lecture.txt"))), "\n") {
		track.Cues = append(track.Cues, Cue{Index: i + 1, Line: i + 1, Start: 4 * float64(i), End: 4*float64(i) + 3.8, Text: s})
	}
	return track
}

// TestPlainEnglishStays: 300 sentences of ordinary lecture English, written for
// this test and never looked at while the word list was made, keep their words.
// Proposals count as false corrections too.
func TestPlainEnglishStays(t *testing.T) {
	track := plainTrack(t)
	if len(track.Cues) != 300 {
		t.Fatalf("%d sentences, want 300", len(track.Cues))
	}
	r := Draft(track, term.Cataract(), Options{})
	for _, c := range r.Corrections {
		t.Logf("cue %d: %q read as %s, %.2f, applied %v", c.Cue, c.Heard, c.Term, c.Confidence, c.Applied)
	}
	if n := len(r.Corrections); float64(n) > 0.01*float64(len(track.Cues)) {
		t.Errorf("%d false corrections in %d sentences", n, len(track.Cues))
	}
	if len(r.Events) > 0 {
		t.Errorf("events in plain English: %v", r.Events)
	}
}

// TestPlainEnglishAmongTheTrade: the same sentences said between the cues of an
// operation, where the vocabulary is expected. A few hold ordinary words that
// are listed as mishearings (disco, aisle, vortex), on purpose.
func TestPlainEnglishAmongTheTrade(t *testing.T) {
	plain := plainTrack(t)
	operation, _ := Read("", readFile(t, "white-intumescent-run-out.srt"))
	var track Track
	ours := make(map[int]bool)
	for i, c := range plain.Cues {
		c.Index = len(track.Cues) + 1
		c.Start = 10 * float64(i)
		c.End = c.Start + 4
		ours[c.Index] = true
		o := operation.Cues[i%len(operation.Cues)]
		o.Index, o.Start, o.End = c.Index+1, c.Start+5, c.Start+9
		track.Cues = append(track.Cues, c, o)
	}
	r := Draft(track, term.Cataract(), Options{})
	n := 0
	for _, c := range r.Corrections {
		if ours[c.Cue] && c.Applied {
			n++
			t.Logf("cue %d: %q read as %s, %.2f", c.Cue, c.Heard, c.Term, c.Confidence)
		}
	}
	if float64(n) > 0.03*float64(len(plain.Cues)) {
		t.Errorf("%d false corrections in %d sentences among the trade", n, len(plain.Cues))
	}
}
