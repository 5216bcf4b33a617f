package stat

import "math"

// Table is one 2 x 2 table: events and operations without event (others) of
// two groups. All counts >= 0.
type Table struct {
	Events1, Others1, Events2, Others2 int
}

// Of gives the table of x1 events in n1 operations against x2 in n2.
func Of(x1, n1, x2, n2 int) Table { return Table{x1, n1 - x1, x2, n2 - x2} }

// size1 and size2 are the operations of each group.
func (t Table) size1() int { return t.Events1 + t.Others1 }
func (t Table) size2() int { return t.Events2 + t.Others2 }

// BothGroups says whether each group has an operation, without which a stratum
// compares nothing.
func (t Table) BothGroups() bool { return t.size1() > 0 && t.size2() > 0 }

// informative says whether all four margins are positive, without which a
// stratum adds nothing to an odds ratio or to a test.
func (t Table) informative() bool {
	return t.BothGroups() && t.Events1+t.Events2 > 0 && t.Others1+t.Others2 > 0
}

// floats gives a, b, c, d and their sum n.
func (t Table) floats() (a, b, c, d, n float64) {
	a, b, c, d = float64(t.Events1), float64(t.Others1), float64(t.Events2), float64(t.Others2)
	return a, b, c, d, a + b + c + d
}

// valid says that no count is negative.
func (t Table) valid() bool {
	return t.Events1 >= 0 && t.Others1 >= 0 && t.Events2 >= 0 && t.Others2 >= 0
}

// Risks gives the proportion of events in each group, NaN for an empty one.
func (t Table) Risks() (risk1, risk2 float64) {
	a, b, c, d, _ := t.floats()
	return a / (a + b), c / (c + d)
}

// Odds gives the odds ratio ad/bc, +Inf where only bc is 0, NaN where both are.
func (t Table) Odds() float64 {
	a, b, c, d, _ := t.floats()
	return a * d / (b * c)
}

// StrataSummary sets the strata beside the table that ignores them.
type StrataSummary struct {
	// Risk1, Risk2 and OddsRatio have one value a stratum, NaN where undefined.
	Risk1, Risk2, OddsRatio []float64
	Crude                   Table
	CrudeOddsRatio          float64
	CrudeRiskRatio          float64
	CrudeRiskDifference     float64
	// Reversal is Simpson's paradox: the crude and the pooled risk difference
	// point in opposite ways, so the case mix makes the crude one.
	Reversal bool
}

// CompareStrata sums the strata into the crude table and says whether the
// pooled (Mantel-Haenszel) risk difference reverses it. A difference of exactly
// 0 points nowhere and so reverses nothing.
//
// Simpson EH. J R Stat Soc B 1951;13:238-241 (from memory); Julious SA, Mullee
// MA. BMJ 1994;309:1480-1481.
func CompareStrata(strata []Table) StrataSummary {
	var s StrataSummary
	for _, t := range strata {
		r1, r2 := t.Risks()
		s.Risk1 = append(s.Risk1, r1)
		s.Risk2 = append(s.Risk2, r2)
		s.OddsRatio = append(s.OddsRatio, t.Odds())
		s.Crude.Events1 += t.Events1
		s.Crude.Others1 += t.Others1
		s.Crude.Events2 += t.Events2
		s.Crude.Others2 += t.Others2
	}
	r1, r2 := s.Crude.Risks()
	s.CrudeOddsRatio, s.CrudeRiskRatio, s.CrudeRiskDifference = s.Crude.Odds(), r1/r2, r1-r2
	pooled := MantelHaenszelRiskDifference(strata, 0.95).Value
	// Rounding leaves a pooled difference of 0 at some 1e-17.
	s.Reversal = math.Abs(pooled) > 1e-12 && crudeSign(s.Crude)*pooled < 0
	return s
}

// crudeSign is the sign of the crude risk difference, told by whole numbers so
// that equal risks are equal.
func crudeSign(t Table) float64 {
	left, right := t.Events1*t.size2(), t.Events2*t.size1()
	switch {
	case left > right:
		return 1
	case left < right:
		return -1
	}
	return 0
}
