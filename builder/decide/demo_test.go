package decide_test

import (
	"math"
	"os"
	"testing"

	"caseleaf/builder/decide"
	"caseleaf/content"
)

// TestDemonstrationTreesCompute: every decision of the demonstration bank folds
// back, and its analyses hold only finite numbers.
func TestDemonstrationTreesCompute(t *testing.T) {
	bank, _, err := content.Read(os.DirFS("../../casebank"))
	if err != nil {
		t.Fatal(err)
	}
	if len(bank.Decisions) < 5 {
		t.Fatalf("%d decisions, want at least 5", len(bank.Decisions))
	}
	for _, d := range bank.Decisions {
		tree, _ := decide.Observe(d, bank.Cases)
		m, err := decide.Compile(tree)
		if err != nil {
			t.Errorf("%s: %v", d.File, err)
			continue
		}
		v := m.FoldBack()
		if v.Value < 0 || v.Value > 100 || len(v.Best) == 0 {
			t.Errorf("%s: value %v, best %v", d.File, v.Value, v.Best)
		}
		for _, s := range m.OneWay() {
			if math.IsNaN(s.Value) || s.Ranged() && math.IsNaN(s.Swing) {
				t.Errorf("%s: %+v", d.File, s)
			}
		}
		if draws := m.Sample(500, 1); draws.PerfectInformation < 0 {
			t.Errorf("%s: value of information %v", d.File, draws.PerfectInformation)
		}
	}
}

// BenchmarkDecision measures all that a decision page computes.
func BenchmarkDecision(b *testing.B) {
	bank, _, err := content.Read(os.DirFS("../../casebank"))
	if err != nil || len(bank.Decisions) == 0 {
		b.Fatal("no decisions")
	}
	for b.Loop() {
		tree, _ := decide.Observe(bank.Decisions[0], bank.Cases)
		m, err := decide.Compile(tree)
		if err != nil {
			b.Fatal(err)
		}
		m.FoldBack()
		m.Sample(10000, 1)
		if x, y, ok := m.MostInfluential(); ok {
			m.TwoWay(x, y, 41)
		}
	}
}
