package decide

import (
	"errors"
	"math/big"

	"gonum.org/v1/gonum/stat/distuv"
)

// Information is the value of knowing the state before acting.
type Information struct {
	// Expected is each action's expected value, in the order given.
	Expected []*big.Rat
	// Perfect is Σ p·(the best action's value in each state).
	Perfect *big.Rat
	// Value is Perfect less the best Expected (turned round for costs); never
	// negative.
	Value *big.Rat
}

// PerfectInformation computes, for states with probabilities p and the values
// of each action in each state,
//
//	EVPI = Σ p(s)·max over actions of u - max over actions of Σ p(s)·u
//
// exactly; [Least] takes minima and turns the sign. There must be an action, each
// with a value in each state, and the probabilities must sum to 1 ([ErrSum]).
//
// Raiffa H, Schlaifer R. Applied Statistical Decision Theory, 1961 (from memory).
func PerfectInformation(p []*big.Rat, actions [][]*big.Rat, goal Goal) (Information, error) {
	sum := new(big.Rat)
	for _, v := range p {
		sum.Add(sum, v)
	}
	if sum.Cmp(big.NewRat(1, 1)) != 0 {
		return Information{}, ErrSum
	}
	if len(actions) == 0 {
		return Information{}, errors.New("no actions")
	}
	m := Model{goal: goal}
	var info Information
	info.Perfect = new(big.Rat)
	best := make([]*big.Rat, len(p))
	var top *big.Rat
	for _, values := range actions {
		if len(values) != len(p) {
			return Information{}, errors.New("an action without a value for each state")
		}
		expected := new(big.Rat)
		for s, v := range values {
			expected.Add(expected, new(big.Rat).Mul(p[s], v))
			if best[s] == nil || m.better(v, best[s]) {
				best[s] = v
			}
		}
		info.Expected = append(info.Expected, expected)
		if top == nil || m.better(expected, top) {
			top = expected
		}
	}
	for s, v := range best {
		info.Perfect.Add(info.Perfect, new(big.Rat).Mul(p[s], v))
	}
	info.Value = new(big.Rat).Sub(info.Perfect, top)
	info.Value.Abs(info.Value)
	return info, nil
}

// NewOption is the value of information on a new option whose gain over the
// standard one falls with an uncertain probability.
type NewOption struct {
	// Gain is the expected incremental benefit; Choose says that it is above 0.
	Gain   float64
	Choose bool
	// Perfect is the expected benefit with the probability known, Value what
	// knowing it is worth, never negative.
	Perfect, Value float64
}

// BetaInformation computes the value of knowing p ~ Beta(alpha, beta) where the
// new option's incremental benefit is k(t - p), k > 0:
//
//	E max(0, k(t-p)) = k(t·F(t; α, β) - α/(α+β)·F(t; α+1, β))
//
// with F the distribution function of the Beta. Domain alpha, beta > 0; others
// give the zero NewOption.
//
// Partial expectation of the Beta distribution; Raiffa H, Schlaifer R, 1961 (from
// memory).
func BetaInformation(alpha, beta, t, k float64) NewOption {
	if !(alpha > 0 && beta > 0) {
		return NewOption{}
	}
	average := alpha / (alpha + beta)
	below := distuv.Beta{Alpha: alpha, Beta: beta}.CDF(t)
	above := distuv.Beta{Alpha: alpha + 1, Beta: beta}.CDF(t)
	o := NewOption{Gain: k * (t - average), Perfect: k * (t*below - average*above)}
	o.Choose = o.Gain > 0
	o.Value = max(0, o.Perfect-max(0, o.Gain))
	return o
}
