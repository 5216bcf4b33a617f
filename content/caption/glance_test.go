package caption

import (
	"math"
	"strings"
	"testing"

	"caseleaf/content/term"
)

// slowUnlike is the textbook alignment, every cell of it: what the quick one
// must agree with wherever the cost is within its limit.
func slowUnlike(a, b phones) float64 {
	prev := make([]float32, len(b)+1)
	for j := range len(b) {
		prev[j+1] = prev[j] + gap[b[j]]
	}
	for i := range len(a) {
		next := make([]float32, len(b)+1)
		next[0] = prev[0] + gap[a[i]]
		for j := range len(b) {
			next[j+1] = min(prev[j]+change[a[i]][b[j]], prev[j+1]+gap[a[i]], next[j]+gap[b[j]])
		}
		prev = next
	}
	return float64(prev[len(b)])
}

// TestGlance: over names of the vocabulary and stretches of plain English, the
// quick alignment gives what the textbook one does, and neither the outlines
// nor the weights promise a cost above the true one.
func TestGlance(t *testing.T) {
	var all []phones
	for i, tm := range term.Cataract().All() {
		if i%5 == 0 {
			all = append(all, sounds(names(tm)[0]))
		}
	}
	for i, c := range plainTrack(t).Cues {
		if words := texts(splitWords(c.Text)); i%5 == 0 && len(words) > 5 {
			all = append(all, sounds(words[1:4]), sounds(words[4:5]))
		}
	}
	within := 0
	for i, a := range all {
		shape := a.outline()
		for _, b := range all[i:] {
			want := slowUnlike(a, b)
			for _, limit := range []float64{0.8, 2.6, 99} {
				switch got := unlike(a, b, limit); {
				case want <= limit && math.Abs(got-want) > 1e-5:
					t.Fatalf("%s and %s, at most %.1f: %.3f, want %.3f", a, b, limit, got, want)
				case want > limit+1e-3 && got <= limit:
					t.Fatalf("%s and %s: %.3f within %.1f, want %.3f", a, b, got, limit, want)
				case want <= limit && limit < 3:
					within++
				}
			}
			o := b.outline()
			if _, surely := shape.leastCost(&o); surely > want+1e-5 {
				t.Errorf("%s and %s: at least %.3f by outline, but %.3f apart", a, b, surely, want)
			}
			if w := leastPerWeight * math.Abs(a.weight()-b.weight()); w > want+1e-5 {
				t.Errorf("%s and %s: at least %.3f by weight, but %.3f apart", a, b, w, want)
			}
		}
	}
	if within < len(all) {
		t.Errorf("only %d pairs within a limit", within)
	}
}

// TestVerbStays: a verb is not its noun, though the small word after it makes
// it sound so; nor is one word of the trade another for what follows it.
func TestVerbStays(t *testing.T) {
	track, _ := Read("", readFile(t, "posterior-polar.vtt"))
	for _, said := range []string{"never hydrodissect in a posterior polar", "we never hydrodissect in these eyes because the capsule goes", "you never hydro dissect in these cases"} {
		track.Cues[25].Text = said
		r := Draft(track, term.Cataract(), Options{})
		if read := r.Cues[25].Read; strings.Contains(read, "hydrodissection") {
			t.Errorf("%q read as %q", said, read)
		}
	}
	r := File("", readFile(t, "floppy-iris-hooks.txt"), term.Cataract(), Options{})
	if read := r.Cues[23].Read; !strings.Contains(read, "check for leaks") {
		t.Errorf("leaks read as %q", read)
	}
}
