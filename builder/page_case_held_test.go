package builder

import (
	"testing"

	"caseleaf/content"
)

// No row above a decision point tells how long a step went on that was under way
// when the decision was made: a short one tells that it was given up. The
// overview, which tells everything, has it.
func TestLengthOfStepWaitsForItsDecision(t *testing.T) {
	site, _ := demoPages(t)
	waiting := 0
	for _, c := range site.Bank.Cases {
		p := casePageOf(t, site, c.ID.Value)
		under := map[string]content.StepSpan{}
		anchors := anchorsOf(c)
		for _, span := range c.Steps() {
			for i := range c.Timeline.Entries {
				if &c.Timeline.Entries[i] == span.Entry {
					under[anchors.rows[i]] = span
				}
			}
		}
		stops := c.Decisions()
		for i, s := range p.Stretches {
			if s.Stop == nil || !stops[i].At.Known() {
				continue
			}
			for _, r := range s.Rows {
				span, ok := under[r.ID]
				if !ok || !span.Ended || span.To < stops[i].At.Value {
					continue
				}
				waiting++
				if r.Name.Note != "" || len(r.Moments) > 0 {
					t.Errorf("%s, %s: %q %v is told before decision %d", c.ID.Value, r.ID, r.Name.Note, r.Moments, s.Stop.Number)
				}
				told := false
				for _, m := range p.Overview {
					told = told || m.ID == r.ID && m.Note == site.words().lasted(span)
				}
				if !told {
					t.Errorf("%s, %s: the overview does not tell how long it lasted", c.ID.Value, r.ID)
				}
			}
		}
	}
	if waiting < 10 {
		t.Errorf("only %d steps were under way at a decision", waiting)
	}
}

// An end that the author wrote down is told where it is no longer an answer.
func TestEndOfStepIsTold(t *testing.T) {
	site, _ := demoPages(t)
	for _, c := range site.Bank.Cases {
		p := casePageOf(t, site, c.ID.Value)
		var ends, told int
		for i := range c.Timeline.Entries {
			if s := c.Timeline.Entries[i].Step; s != nil && s.Until.Known() {
				ends++
			}
		}
		for _, s := range p.Stretches {
			for _, r := range s.Rows {
				if r.Kind == "step" {
					told += len(r.Moments)
				}
			}
		}
		if ends != told {
			t.Errorf("%s: %d ends of steps are told, want %d", c.ID.Value, told, ends)
		}
	}
}
