package caption

import (
	"slices"
	"testing"

	"caseleaf/content/term"
)

// without leaves out each listed mishearing with probability share, seeded.
func without(v *term.Vocabulary, share float64, seed uint32) []term.Term {
	x := seed
	var terms []term.Term
	for _, tm := range v.All() {
		var kept []string
		for _, m := range tm.Mishearings {
			x = x*1664525 + 1013904223 // a linear congruential generator; the draw only has to be fixed
			if float64(x>>8)/(1<<24) >= share {
				kept = append(kept, m)
			}
		}
		tm.Mishearings = kept
		terms = append(terms, tm)
	}
	return terms
}

// fewer leaves out the same share of the table of pieces.
func fewer(share float64, seed uint32) []confusion {
	x := seed
	return slices.DeleteFunc(slices.Clone(heardAs()), func(confusion) bool {
		x = x*1664525 + 1013904223
		return float64(x>>8)/(1<<24) < share
	})
}

// TestFewerMishearings: with three in ten listed mishearings taken away, recall
// falls by no more than 0.10.
func TestFewerMishearings(t *testing.T) {
	v := term.Cataract()
	recall := func(l *lexicon) (float64, float64) {
		var sum score
		for _, k := range readKeys(t) {
			track, _ := Read("", readFile(t, k.File))
			cues, _ := l.redact(track.Cues, nil)
			var s score
			s.corrections(k, Report{Corrections: analyse(l, cues, "", nil).corrections})
			sum.add(s)
		}
		return part(sum.right, sum.wanted), part(sum.right, sum.made)
	}
	whole, _ := recall(newLexicon(v))
	for seed := uint32(1); seed <= 3; seed++ {
		got, precision := recall(lexiconFrom(v, without(v, 0.3, seed), fewer(0.3, seed)))
		t.Logf("seed %d: recall %.3f of %.3f, precision %.3f", seed, got, whole, precision)
		if whole-got > 0.10 {
			t.Errorf("seed %d: recall falls by %.3f", seed, whole-got)
		}
	}
	got, precision := recall(lexiconFrom(v, without(v, 1, 1), nil))
	t.Logf("none listed: recall %.3f, precision %.3f", got, precision)
}
