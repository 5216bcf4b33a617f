package figure

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"caseleaf/content/measure"
)

// Expected places in this file are worked by hand (common practice, no source).

func near(a, b Px) bool { return math.Abs(float64(a-b)) < 1e-6 }

// TestFacePlaces: a face of 12 mm drawn with a radius of 60 has 10 px to the millimetre.
func TestFacePlaces(t *testing.T) {
	for _, c := range []struct {
		eye  measure.Eye
		seat measure.Seat
		hour measure.ClockHour
		x, y Px
	}{
		{measure.RightEye, measure.UnknownSeat, 12, 0, -60},
		{measure.RightEye, measure.UnknownSeat, 3, 60, 0},
		{measure.RightEye, measure.SuperiorSeat, 12, 0, 60},
		{measure.RightEye, measure.SuperiorSeat, 9, 60, 0},
		{measure.RightEye, measure.TemporalSeat, 9, 0, 60},
		{measure.LeftEye, measure.TemporalSeat, 3, 0, 60},
		{measure.LeftEye, measure.TemporalSeat, 12, 60, 0},
	} {
		f := newFace(ClockFace{Eye: c.eye, Seat: c.seat}, FaceMoment{WhiteToWhite: 12}, Point{}, 60)
		if !near(f.mm, 10) {
			t.Fatalf("scale %v px/mm, want 10", f.mm)
		}
		if p := f.point(c.hour, 60); !near(p.X, c.x) || !near(p.Y, c.y) {
			t.Errorf("%v eye from %v: %v o'clock at %v, want %v,%v", c.eye, c.seat, c.hour, p, c.x, c.y)
		}
	}
}

// TestFaceArc: 4 to 6 is 60 degrees, drawn clockwise by the short way; 7 to 6 goes the long way.
func TestFaceArc(t *testing.T) {
	for arc, large := range map[measure.Arc]bool{{From: 4, To: 6}: false, {From: 7, To: 6}: true, {From: 11, To: 2}: false} {
		d := &Drawing{}
		newFace(ClockFace{Eye: measure.RightEye}, FaceMoment{WhiteToWhite: 12}, Point{}, 60).arc(d, arc, 50, false)
		p, ok := d.marks[0].(*path)
		if !ok || len(p.d) != 2 || p.d[1].large != large || !p.d[1].sweep {
			t.Errorf("%v: %+v", arc, d.marks)
		}
	}
}

// TestSectionDistances: with a chamber of 3.0 mm and a lens of 4.0 mm, a tip 1.2 mm from the
// endothelium is 5.8 mm from the posterior capsule.
func TestSectionDistances(t *testing.T) {
	s := Section{Words: english, Depth: 3, Lens: 4, Cornea: 0.5}
	tool := SectionTool{Label: "tip", FromEndothelium: mm(1.2)}
	if got := tool.words(s, s.sizes()); !strings.Contains(got, "5.8 mm from the posterior capsule (computed)") {
		t.Error(got)
	}
	if depth, ok := tool.depth(s.sizes()); !ok || math.Abs(depth-1.7) > 1e-12 {
		t.Errorf("tip at %v, want 1.7 mm below the front of the cornea", depth)
	}
	s.Lens = 0 // a standard value: nothing may be computed from it
	if got := tool.words(s, s.sizes()); strings.Contains(got, "computed") {
		t.Error(got)
	}
}

// TestOverlapSaid: the opening of 5.5 mm, 0.5 mm off under an optic of 6 mm, leaves 111.5
// degrees bare (reference values, rhexis-05): 3.7 clock hours.
func TestOverlapSaid(t *testing.T) {
	for want, m := range map[string]FaceMoment{
		"bare over 3.7 clock hours":   {Opening: 5.5, Optic: 6, Offset: 0.5},
		"by 0.5 mm all round":         {Opening: 5, Optic: 6},
		"all round, by 0.2 to 0.8 mm": {Opening: 5, Optic: 6, Offset: 0.3},
		"just meets the optic’s edge": {Opening: 5.5, Optic: 6, Offset: 0.25},
	} {
		if got := m.overlapWords(english); !strings.Contains(got, want) {
			t.Errorf("%+v: %q doesn't say %q", m, got, want)
		}
	}
}

func TestSpread(t *testing.T) {
	for _, c := range []struct {
		wants, heights []Px
		low, high      Px
		want           string
	}{
		{[]Px{10, 50}, []Px{10, 10}, 0, 100, "[10 50]"},
		{[]Px{50, 50}, []Px{10, 10}, 0, 100, "[45 55]"},
		{[]Px{0, 2}, []Px{10, 10}, 0, 100, "[5 15]"},
		{[]Px{99, 100}, []Px{10, 10}, 0, 100, "[85 95]"},
		{[]Px{20, 21, 22, 80}, []Px{10, 10, 10, 10}, 0, 100, "[11 21 31 80]"},
	} {
		if got := fmt.Sprint(spread(c.wants, c.heights, c.low, c.high)); got != c.want {
			t.Errorf("spread(%v) = %v, want %v", c.wants, got, c.want)
		}
	}
}

// TestInsets: three moments within 15 s of an hour's recording are drawn again; the same
// three over 40 minutes are not.
func TestInsets(t *testing.T) {
	crowd := Strip{Ends: 3600, Events: []StripEvent{{Label: "a", At: 600, Began: at(595), Noticed: at(600), Acted: at(610)}},
		Decisions: []StripDecision{{Label: "b", At: 605}}}
	x := scale{0, 3600, 14, 666}
	got := insets(crowd.entries(), x)
	if len(got) != 1 || got[0].from != 595 || got[0].to != 610 || len(got[0].entries) != 2 {
		t.Errorf("crowded: %+v", got)
	}
	apart := Strip{Ends: 3600, Events: []StripEvent{{Label: "a", At: 600}}, Decisions: []StripDecision{{Label: "b", At: 1800}, {Label: "c", At: 3000}}}
	if got := insets(apart.entries(), x); len(got) != 0 {
		t.Errorf("apart: %+v", got)
	}
}

// TestChainInOrder links by turns and keeps what was given.
func TestChainInOrder(t *testing.T) {
	s := Strip{Events: []StripEvent{{Label: "tear", At: 10}, {Label: "vitreous", At: 30}},
		Decisions: []StripDecision{{Label: "stop?", At: 20}, {Label: "cut?", At: 40, Follows: "given"}}}.ChainInOrder()
	got := []string{s.Events[0].Follows, s.Decisions[0].Follows, s.Events[1].Follows, s.Decisions[1].Follows}
	if fmt.Sprint(got) != "[ event-0 decision-0 given]" {
		t.Errorf("links %q", got)
	}
}

// TestSmallCountsStayHidden: nothing of a hidden row may be found in the drawing or its table.
func TestSmallCountsStayHidden(t *testing.T) {
	f := Forest{Words: english, IDPrefix: "f", Title: "t", Rows: []ForestRow{{Label: "A", Events: 3, Operations: 4321, Value: 0.0777, Low: 0.0666, High: 0.0888, Hidden: true}}}
	for _, secret := range []string{"3/4321", "4321", "7.77", "7.8", "6.66", "8.88"} {
		if strings.Contains(string(SVG(f)), ">"+secret) || strings.Contains(fmt.Sprint(f.Table()), secret) || strings.Contains(f.Caption(), secret) {
			t.Errorf("a hidden row shows %s", secret)
		}
	}
	if strings.Contains(f.Draw(Wide).Record(), "drawn accent") {
		t.Error("a hidden row has a mark")
	}
}

// TestFewOperationsGiveNoPercentage keeps the rule for fewer than 30 operations.
func TestFewOperationsGiveNoPercentage(t *testing.T) {
	row := ForestRow{Label: "A", Events: 2, Operations: 29, Value: 2.0 / 29, Low: 0.02, High: 0.22}
	f := Forest{Words: english, Rows: []ForestRow{row}}
	if got := f.value(row); got != "2/29" {
		t.Errorf("29 operations: %q", got)
	}
	row.Operations = 30
	if got := f.value(row); !strings.Contains(got, "%") {
		t.Errorf("30 operations: %q", got)
	}
}

func TestPercent(t *testing.T) {
	for v, want := range map[float64]string{0: "0 %", 0.07: "7 %", 0.019: "1.9 %", 0.0061: "0.61 %", 0.005: "0.5 %", 0.1546: "15 %", 1: "100 %"} {
		if got := percent(v); got != want {
			t.Errorf("percent(%v) = %q, want %q", v, got, want)
		}
	}
}

func TestTreeParts(t *testing.T) {
	big, ok := bigTree().(Tree)
	if !ok || big.Ends() != 40 {
		t.Fatalf("%d ends", big.Ends())
	}
	parts := big.Parts(20)
	total := 0
	for _, p := range parts {
		total += p.Ends()
	}
	if len(parts) != 5 || total != 40 || len(big.Parts(40)) != 1 {
		t.Errorf("%d parts with %d ends", len(parts), total)
	}
}
