package stat

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// The tails beyond the two pairs of control limits that are drawn.
const (
	Tail95  = 0.025 // 95 % limits
	Tail998 = 0.001 // 99.8 % limits
)

// NoSignal stands for "no count would signal".
const NoSignal = -1

// Limits are the control limits of one unit at one tail level, as proportions,
// and the counts that signal.
type Limits struct {
	// Low and High are the lines in the published form.
	Low, High float64
	// HighMirror is the upper line by the rule of the lower one, turned round:
	// 1/n above High before clamping. A unit strictly above it has an exact
	// tail within the level; one above High only need not.
	HighMirror float64
	// LowRank, HighRank (r) and LowShare, HighShare (α) are the parts of the
	// interpolation: a line is (r - α)/n.
	LowRank, HighRank   int
	LowShare, HighShare float64
	// SignalFrom is the smallest count with P(R >= x) <= tail, SignalTo the
	// largest with P(R <= x) <= tail; [NoSignal] where there is none.
	SignalFrom, SignalTo int
}

// Outside says whether x events signal. It asks the exact tail counts and never
// the drawn line, which for small n lies below a count that is not unusual.
func (l Limits) Outside(x int) bool {
	return l.SignalFrom != NoSignal && x >= l.SignalFrom || l.SignalTo != NoSignal && x <= l.SignalTo
}

// ControlLimits are exact binomial limits about a target for n operations, with
// tail the probability beyond each side ([Tail95], [Tail998]). With F the
// Binomial(n, target) distribution function and p = tail or 1-tail:
//
//	r = smallest integer with F(r) >= p
//	α = (F(r) - p)/(F(r) - F(r-1)),  limit = (r - α)/n, clamped to [0, 1]
//
// A target of 0 or 1 has no spread and both limits equal it; the shares are then
// NaN. Domain n >= 1, 0 <= target <= 1, 0 < tail < 0.5; otherwise the limits are
// NaN and no count signals.
//
// Spiegelhalter DJ. Stat Med 2005;24:1185-1202, appendix A.1.1 (as coded by
// others who cite it).
func ControlLimits(n int, target, tail float64) Limits {
	nan := math.NaN()
	if n < 1 || !(target >= 0 && target <= 1) || !(tail > 0 && tail < 0.5) {
		return Limits{nan, nan, nan, 0, 0, nan, nan, NoSignal, NoSignal}
	}
	l := Limits{SignalFrom: signalFrom(n, target, tail), SignalTo: signalTo(n, target, tail)}
	if target == 0 || target == 1 {
		l.Low, l.High, l.HighMirror = target, target, target
		l.LowRank, l.HighRank = int(target)*n, int(target)*n
		l.LowShare, l.HighShare = nan, nan
		return l
	}
	l.LowRank, l.LowShare = interpolation(n, target, tail)
	l.HighRank, l.HighShare = interpolation(n, target, 1-tail)
	l.Low = clamped((float64(l.LowRank) - l.LowShare) / float64(n))
	l.High = clamped((float64(l.HighRank) - l.HighShare) / float64(n))
	rank, share := interpolation(n, 1-target, tail)
	l.HighMirror = clamped(1 - (float64(rank)-share)/float64(n))
	return l
}

func clamped(p float64) float64 { return math.Min(1, math.Max(0, p)) }

// interpolation finds r and α of ControlLimits for 0 < target < 1.
func interpolation(n int, target, p float64) (rank int, share float64) {
	low, high := 0, n
	for low < high {
		middle := (low + high) / 2
		if binomialBelow(n, target, middle) >= p {
			high = middle
		} else {
			low = middle + 1
		}
	}
	mass := distuv.Binomial{N: float64(n), P: target}.Prob(float64(low))
	return low, (binomialBelow(n, target, low) - p) / mass
}

// signalFrom is the smallest count whose upper tail is within the level.
func signalFrom(n int, target, tail float64) int {
	if binomialAbove(n, target, n) > tail {
		return NoSignal
	}
	low, high := 0, n
	for low < high {
		middle := (low + high) / 2
		if binomialAbove(n, target, middle) <= tail {
			high = middle
		} else {
			low = middle + 1
		}
	}
	return low
}

// signalTo is the largest count whose lower tail is within the level.
func signalTo(n int, target, tail float64) int {
	if binomialBelow(n, target, 0) > tail {
		return NoSignal
	}
	low, high := 0, n
	for low < high {
		middle := (low + high + 1) / 2
		if binomialBelow(n, target, middle) <= tail {
			low = middle
		} else {
			high = middle - 1
		}
	}
	return low
}

// binomialBelow is P(R <= k), binomialAbove P(R >= k), each taken directly from
// the incomplete beta function so that neither tail is a difference from 1.
func binomialBelow(n int, p float64, k int) float64 {
	switch {
	case k < 0:
		return 0
	case k >= n || p == 0:
		return 1
	case p == 1:
		return 0
	}
	return mathext.RegIncBeta(float64(n-k), float64(k+1), 1-p)
}

func binomialAbove(n int, p float64, k int) float64 {
	switch {
	case k <= 0:
		return 1
	case k > n || p == 0:
		return 0
	case p == 1:
		return 1
	}
	return mathext.RegIncBeta(float64(k), float64(n-k+1), p)
}

// NormalLimits are target ± z√(target(1-target)/n), clamped to [0, 1]: for
// comparison only, for at a target of some per cent they flag far too much.
// Domain as for [ControlLimits]; otherwise NaN.
//
// Spiegelhalter DJ. Stat Med 2005;24:1185-1202.
func NormalLimits(n int, target, tail float64) (low, high float64) {
	if n < 1 || !(target >= 0 && target <= 1) || !(tail > 0 && tail < 0.5) {
		return math.NaN(), math.NaN()
	}
	half := normalQuantile(1-2*tail) * math.Sqrt(target*(1-target)/float64(n))
	return clamped(target - half), clamped(target + half)
}
