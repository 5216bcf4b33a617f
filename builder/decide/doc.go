// Package decide computes decision trees: which option has the best expected
// value, by how much, and what would have to be otherwise for another to be
// preferred. It computes; it does not advise.
//
// A one-minute tour. A [Tree] is what an author states: decision nodes with
// options, chance nodes with branches, end nodes with values. [Compile] checks
// it and resolves its probabilities (fixed, a Beta or Dirichlet prior updated by
// the branches seen in cases, or the rest) into a [Model], which answers:
//
//	m, err := decide.Compile(tree)
//	v := m.FoldBack()          // expected values, best options, margin
//	s := m.OneWay()            // each parameter over its range, with thresholds
//	w := m.TwoWay(p, q, 41)    // preferred option over two parameters
//	d := m.Sample(10000, 1)    // how sure: draws, shares, value of information
//
// [Observe] makes the Tree of a content.Decision and counts its branches in the
// bank's cases. [Thresholds] and [Revise] are the textbook formulas for a test
// before a treatment.
//
// Expected values are exact rationals, because two options may tie exactly and
// binary fractions break ties; sampling and drawing use float64. Sources: Raiffa
// H. Decision Analysis, 1968; Hunink M et al. Decision Making in Health and
// Medicine (both from memory).
package decide
