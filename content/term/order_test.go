package term

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestSequence(t *testing.T) {
	v := Cataract()
	// Lengths and ends are those of the trade reference's tables of steps.
	for _, c := range []struct {
		procedure, first, last string
		steps                  int
	}{
		{"phacoemulsification", "safety-check", "postop-review", 23},
		{"msics", "safety-check", "postop-review", 23},
		{"ecce", "safety-check", "postop-review", 20},
		{"flacs", "safety-check", "postop-review", 27},
		{"divide-and-conquer", "safety-check", "postop-review", 23},
		{"iol-exchange", "iol-insertion", "postop-review", 2},
	} {
		s := v.Sequence(c.procedure)
		if len(s) != c.steps || s[0] != c.first || s[len(s)-1] != c.last {
			t.Errorf("Sequence(%q) has %d steps: %v", c.procedure, len(s), s)
		}
		for i, id := range s {
			if term, _ := v.Get(id); term.Kind != Step || slices.Contains(s[:i], id) {
				t.Errorf("Sequence(%q): %s is no step or comes twice", c.procedure, id)
			}
		}
	}
	for id, want := range map[string]string{
		"cataract-surgery":       "phacoemulsification",
		"stop-and-chop":          "phacoemulsification",
		"sub-tenon-block":        "phacoemulsification",
		"frown-incision":         "msics",
		"can-opener-capsulotomy": "msics",
		"sandwich-technique":     "msics",
		"peripheral-iridectomy":  "phacoemulsification",
		"flacs":                  "flacs",
	} {
		if got, ok := v.ProcedureOf(id); got != want || !ok {
			t.Errorf("ProcedureOf(%q) = %q, %v, want %q", id, got, ok, want)
		}
	}
	for _, id := range []string{"", "iris-prolapse", "no-such-thing", "icce"} {
		if s := v.Sequence(id); s != nil {
			t.Errorf("Sequence(%q) = %v, want none", id, s)
		}
	}
	if diff := cmp.Diff([]string{"anterior-vitrectomy", "conversion"}, v.Rescue("divide-and-conquer")); diff != "" {
		t.Errorf("rescue steps (-want +got):\n%s", diff)
	}
}

// TestStepTime: the seconds are common practice from the trade reference.
func TestStepTime(t *testing.T) {
	v := Cataract()
	for _, c := range []struct {
		procedure, step string
		want            Range
	}{
		{"phacoemulsification", "capsulorhexis", Range{Span{25, 90}, Span{90, 360}}},
		{"stop-and-chop", "capsulorhexis", Range{Span{25, 90}, Span{90, 360}}},
		{"msics", "capsule-staining", Range{Span{20, 60}, Span{40, 120}}},
		{"ecce", "wound-suturing", Range{Span{60, 420}, Span{120, 1200}}}, // both visits
		{"flacs", "bed-transfer", Range{Span{120, 1800}, Span{120, 1800}}},
		{"ecce", "anterior-vitrectomy", Range{Span{120, 900}, Span{120, 900}}},
		{"msics", "conversion", Range{Span{300, 1200}, Span{300, 1200}}}, // phacoemulsification's
	} {
		got, ok := v.StepTime(c.procedure, c.step)
		if diff := cmp.Diff(c.want, got); diff != "" || !ok {
			t.Errorf("StepTime(%q, %q) (-want +got):\n%s", c.procedure, c.step, diff)
		}
	}
	if w := (Range{Span{25, 90}, Span{90, 360}}).Widest(); w != (Span{25, 360}) {
		t.Errorf("Widest = %v", w)
	}
	for _, c := range [][2]string{{"phacoemulsification", "postop-review"}, {"msics", "sculpting"}, {"no-such-thing", "capsulorhexis"}} {
		if r, ok := v.StepTime(c[0], c[1]); ok {
			t.Errorf("StepTime(%q, %q) = %v", c[0], c[1], r)
		}
	}
	for _, r := range v.order {
		if p, ok := v.Get(r.procedure); !ok || p.Kind != Procedure {
			t.Errorf("order.csv: %s is no procedure", r.procedure)
		}
		if s, ok := v.Get(r.step); !ok || s.Kind != Step {
			t.Errorf("order.csv: %s is no step", r.step)
		}
		for _, s := range []Span{r.time.Experienced, r.time.Trainee} {
			if s.Min > s.Max {
				t.Errorf("order.csv: %s %s: %v", r.procedure, r.step, s)
			}
		}
	}
}

func TestWatch(t *testing.T) {
	v := Cataract()
	pairs := make(map[[2]string]bool)
	for _, r := range v.Watch() {
		pair := [2]string{r.Step, r.Complication}
		if pairs[pair] {
			t.Errorf("%s %s: two rows", r.Step, r.Complication)
		}
		pairs[pair] = true
		if s, _ := v.Get(r.Step); s.Kind != Step {
			t.Errorf("%s is no step", r.Step)
		}
		if c, _ := v.Get(r.Complication); c.Kind != Complication {
			t.Errorf("%s is no complication", r.Complication)
		}
		for _, cell := range []string{r.FirstSign, r.MisStep, r.FirstMove, r.Prevention, r.Ready} {
			if cell == "" || len(cell) > 110 {
				t.Errorf("%s %s: empty or over-long cell %q", r.Step, r.Complication, cell)
			}
		}
	}
	for _, s := range v.Of(Step) {
		if len(v.WatchFor(s.ID)) == 0 {
			t.Errorf("nothing to watch for in %s", s.ID)
		}
	}
	for _, c := range v.Of(Complication) {
		if len(v.WatchOf(c.ID)) == 0 {
			t.Errorf("%s is in no watch row", c.ID)
		}
		// A complication's steps are where it can start: the same pairs.
		for _, s := range c.Steps {
			if !pairs[[2]string{s, c.ID}] {
				t.Errorf("%s lists %s, the watch table does not", c.ID, s)
			}
			delete(pairs, [2]string{s, c.ID})
		}
	}
	for pair := range pairs {
		t.Errorf("watch row %s %s is not in the term's steps", pair[0], pair[1])
	}
}
