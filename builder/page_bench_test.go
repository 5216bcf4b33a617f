package builder

import (
	"slices"
	"testing"
)

// What stands in for tissue or drugs at a bench is never among what to have ready for
// an operation, though it belongs to the same step.
func TestBenchOnlyIsNotMadeReady(t *testing.T) {
	site, _ := demoPages(t)
	term, ok := site.Bank.Vocabulary.Get("chalk-suspension")
	if !ok || !term.Bench || !slices.Contains(term.Steps, "anterior-vitrectomy") {
		t.Fatalf("the demonstration has no such thing: %+v", term)
	}
	kit := site.kitOf(site.met, "anterior-vitrectomy")
	if len(kit) == 0 || slices.ContainsFunc(kit, func(l Link) bool { return l.Text == term.Label }) {
		t.Errorf("to have ready: %v", kit)
	}
}
