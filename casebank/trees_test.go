package casebank_test

import (
	"math"
	"testing"

	"caseleaf/content"
)

// TestPagesSayWhatTheTreesGive holds the prose of the decision pages to their trees. The
// pages say which option comes out best and which are close; a new case or a changed
// figure may make that untrue. The fold-back here is worked apart from the builder's.
func TestPagesSayWhatTheTreesGive(t *testing.T) {
	bank := read(t)
	tests := []struct {
		decision string
		// The page says that best is ahead of second by at most close and at least far.
		best, second string
		far, close   float64
	}{
		{"small-pupil", "hooks", "ring", -3, 3}, // "close together"; neither is called better
		{"small-pupil", "ring", "drugs-only", 0, 10},
		{"rhexis-run-out", "pull-back", "restart-opposite", 3, 20},
		{"rhexis-run-out", "pull-back", "scissors-or-can-opener", 3, 20},
		{"pc-tear-early", "ovd-and-lift", "slow-phaco", 0, 5}, // "by little over slow phaco"
		{"pc-tear-early", "slow-phaco", "convert", 0, 10},
		{"vitreous-approach", "pars-plana", "anterior-limbal", 0, 6}, // "near each other"
		{"iol-capsular-support", "sulcus-captured", "sulcus", 3, 15}, // "stands clear of the rest"
		{"iol-capsular-support", "in-bag", "later-secondary", 0, 15}, // "the lowest of the four"
		{"zonular-support", "capsule-hooks", "tension-ring", 0, 5},   // "a little ahead"
		{"wound-burn", "new-incision", "suture-and-go-on", 3, 15},
		{"descemet-detachment", "air", "leave", 3, 20}, // leaving "loses on the spread"
		{"rhexis-run-out/decide", "manual-now", "gentle-phaco", 0, 2},
		{"pc-tear-early/decide", "late-convert", "close-and-refer", 0, 10},
	}
	values := map[string]map[string]float64{}
	for _, d := range bank.Decisions {
		f := folding{branches: observed(bank, d.ID.Value), name: d.ID.Value, values: values}
		f.options(d.Options, d.ID.Value)
	}
	for _, test := range tests {
		of := values[test.decision]
		gap := of[test.best] - of[test.second]
		if of[test.best] == 0 || of[test.second] == 0 || gap < test.far || gap > test.close {
			t.Errorf("%s: %s %.2f, %s %.2f; the page speaks of a gap from %g to %g",
				test.decision, test.best, of[test.best], test.second, of[test.second], test.far, test.close)
		}
	}
}

// observed counts the branches that the cases saw at one shared decision.
func observed(bank *content.Bank, decision string) map[string]float64 {
	seen := map[string]float64{}
	for _, c := range bank.Cases {
		for _, e := range c.Timeline.Entries {
			if e.Decision != nil && e.Decision.Point.Value == decision && e.Decision.CameOf.Known() {
				seen[e.Decision.CameOf.Value]++
			}
		}
	}
	return seen
}

// folding folds one tree back and keeps the value of every option, those of the inner
// square under name/decide.
type folding struct {
	branches map[string]float64
	name     string
	values   map[string]map[string]float64
}

// options returns the best value among the options.
func (f folding) options(options []content.TreeOption, at string) float64 {
	f.values[at] = map[string]float64{}
	best := math.Inf(-1)
	for _, o := range options {
		v := f.node(o.Then)
		f.values[at][o.ID.Value] = v
		best = max(best, v)
	}
	return best
}

// node is the value of an end, the best option of a square, or the mean of a circle's
// branches, weighed by prior plus observed, or by p with the rest to the one that is so
// marked.
func (f folding) node(n content.Node) float64 {
	if n.End.Known() {
		return n.End.Value
	}
	if n.Decide != nil {
		return f.options(n.Decide.Options, f.name+"/decide")
	}
	rest := 1.0
	for _, b := range n.Chance {
		rest -= b.P.Value.Value
	}
	sum, weights := 0.0, 0.0
	for _, b := range n.Chance {
		weight := b.Prior.Value + f.branches[b.ID.Value]
		if b.P.Known() {
			weight = b.P.Value.Value
			if b.P.Value.Rest {
				weight = rest
			}
		}
		sum, weights = sum+weight*f.node(b.Then), weights+weight
	}
	return sum / weights
}
