package content_test

import (
	"testing"

	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/content/measure"

	"github.com/google/go-cmp/cmp"
)

// unknown stands for a duration that can't be computed.
const unknown measure.Duration = -1

// Durations and delays of three demonstration cases, in seconds, worked by hand
// from the times in their files (common practice, no source).
var worked = map[string]struct {
	steps  map[string]measure.Duration
	delays map[string][2]measure.Duration // began to noticed, noticed to acted
}{
	"HB-003": {
		steps: map[string]measure.Duration{
			"paracentesis": 35, "ovd-fill": 30, "main-incision": 45, "capsulorhexis": 230, "hydrodissection": 80,
			"nucleus-rotation": 55, "sculpting": 245, "cracking": 110, "quadrant-removal": 230, "epinucleus-removal": 70,
			"cortex-removal": 220, "iol-insertion": 110, "ovd-removal": 65, "wound-closure": 60, "final-check": 45,
		},
		delays: map[string][2]measure.Duration{"rhexis-run-out": {6, 2}},
	},
	"HB-014": {
		steps: map[string]measure.Duration{
			"safety-check": 50, "laser-docking": 85, "laser-imaging": 50, "laser-capsulotomy": 8, "laser-fragmentation": 62,
			"bed-transfer": unknown, // the recording was cut at 5:20
			"paracentesis": 25, "incision-opening": 40, "ovd-fill": 30, "capsule-disc-removal": 35, "hydrodissection": 95,
			"conversion": 800, "nucleus-delivery": 130, "anterior-vitrectomy": 510, "cortex-removal": 320,
			"wound-closure": 240, "conjunctival-closure": 115, "final-check": 115,
		},
		delays: map[string][2]measure.Duration{
			"capsular-block": {6, unknown}, "posterior-capsule-tear": {1, 2}, "vitreous-loss": {unknown, 2},
		},
	},
	"HB-020": {
		steps: map[string]measure.Duration{
			"paracentesis": 20, "ovd-fill": 20, "main-incision": 25, "capsulorhexis": 65, "hydrodissection": 35,
			"nucleus-rotation": 20, "cracking": 75, "quadrant-removal": 160, "cortex-removal": 105, "wound-suturing": 185,
			"wound-closure": 130, "final-check": 90,
		},
		delays: map[string][2]measure.Duration{"shallow-chamber": {12, 4}, "suprachoroidal-haemorrhage": {unknown, 2}},
	},
}

func TestDemonstrationTiming(t *testing.T) {
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range worked {
		c, ok := bank.Case(id)
		if !ok {
			t.Errorf("no case %s", id)
			continue
		}
		steps := map[string]measure.Duration{}
		for _, s := range c.Steps() {
			steps[s.Term] = orUnknown(s.Duration())
		}
		if diff := cmp.Diff(want.steps, steps); diff != "" {
			t.Errorf("%s: steps (-worked +computed):\n%s", id, diff)
		}
		delays := map[string][2]measure.Duration{}
		for _, e := range c.Events() {
			delays[e.Event.Term.Value] = [2]measure.Duration{orUnknown(c.NoticeDelay(e.Event)), orUnknown(c.ActDelay(e.Event))}
		}
		if diff := cmp.Diff(want.delays, delays); diff != "" {
			t.Errorf("%s: delays (-worked +computed):\n%s", id, diff)
		}
	}
}

func orUnknown(d measure.Duration, ok bool) measure.Duration {
	if !ok {
		return unknown
	}
	return d
}
