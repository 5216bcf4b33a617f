package stat

import "math"

// Weights are what one operation adds to a CUSUM score.
type Weights struct {
	Event, NoEvent float64
}

// OddsWeights are the log-likelihood-ratio weights that test an odds ratio
// against 1 at in-control risk p, which may be each patient's own:
//
//	event ln(R/(1-p+Rp)),  no event ln(1/(1-p+Rp))
//
// R > 1 watches for worsening, R < 1 for improvement. Domain 0 <= p <= 1,
// R > 0; otherwise NaN.
//
// Steiner SH, Cook RJ, Farewell VT, Treasure T. Biostatistics 2000;1:441-452.
func OddsWeights(p, oddsRatio float64) Weights {
	if !(p >= 0 && p <= 1) || !(oddsRatio > 0) {
		return Weights{math.NaN(), math.NaN()}
	}
	base := math.Log1p(p * (oddsRatio - 1))
	return Weights{Event: math.Log(oddsRatio) - base, NoEvent: -base}
}

// RiskWeights are the weights that test risk p1 against p0: event ln(p1/p0), no
// event ln((1-p1)/(1-p0)). They are not those of an odds ratio of p1/p0. Domain
// 0 < p0, p1 < 1; otherwise NaN.
//
// Page ES. Biometrika 1954;41:100-115 (from memory).
func RiskWeights(p0, p1 float64) Weights {
	if !(p0 > 0 && p0 < 1) || !(p1 > 0 && p1 < 1) {
		return Weights{math.NaN(), math.NaN()}
	}
	return Weights{Event: math.Log(p1 / p0), NoEvent: math.Log1p(-p1) - math.Log1p(-p0)}
}

// CUSUMPath is a series drawn operation by operation.
type CUSUMPath struct {
	// Weights and Scores have one value an operation; a score that signalled
	// is shown before it is set back.
	Weights, Scores []float64
	// Signals are operations counted from 1.
	Signals []int
}

// CUSUM runs the one-sided score C = max(0, C + W) from 0 over events (did the
// operation have the event), with risk each operation's in-control risk, and
// signals where C >= limit; restart sets the score to 0 after a signal. A single
// risk stands for every operation. Weights are those of [OddsWeights]. Any other
// number of risks than 1 or len(events) gives an empty path.
//
// Steiner SH, Cook RJ, Farewell VT, Treasure T. Biostatistics 2000;1:441-452.
func CUSUM(events []bool, risk []float64, oddsRatio, limit float64, restart bool) CUSUMPath {
	var path CUSUMPath
	if len(risk) != 1 && len(risk) != len(events) {
		return path
	}
	score := 0.0
	for i, event := range events {
		w := OddsWeights(riskOf(risk, i), oddsRatio)
		weight := w.NoEvent
		if event {
			weight = w.Event
		}
		score = math.Max(0, score+weight)
		path.Weights = append(path.Weights, weight)
		path.Scores = append(path.Scores, score)
		if score >= limit {
			path.Signals = append(path.Signals, i+1)
			if restart {
				score = 0
			}
		}
	}
	return path
}

// riskOf is the risk of operation i when one may stand for all.
func riskOf(risk []float64, i int) float64 {
	if len(risk) == 1 {
		return risk[0]
	}
	return risk[i]
}

// Excess is the cumulative count of events above expectation.
type Excess struct {
	// ObservedMinusExpected rises with unexpected events; its negative is the
	// "lives saved" form. Label the direction beside the figure.
	ObservedMinusExpected []float64
	Observed              int
	Expected              float64
}

// ObservedMinusExpected sums events less risk, operation by operation. Risks as
// for [CUSUM]; a wrong number of them gives the zero Excess.
func ObservedMinusExpected(events []bool, risk []float64) Excess {
	var e Excess
	if len(risk) != 1 && len(risk) != len(events) {
		return e
	}
	for i, event := range events {
		if event {
			e.Observed++
		}
		e.Expected += riskOf(risk, i)
		e.ObservedMinusExpected = append(e.ObservedMinusExpected, float64(e.Observed)-e.Expected)
	}
	return e
}
