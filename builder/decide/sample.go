package decide

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"caseleaf/builder/stat"
)

// Draws is what a probabilistic sensitivity analysis found.
type Draws struct {
	N int
	// Options are in the order of [Model.OptionIDs].
	Options []DrawnOption
	// PerfectInformation is the expected value of perfect information, in the
	// values' unit, never negative: what knowing every uncertain number
	// beforehand would gain over deciding by the expected values now.
	PerfectInformation float64
}

// DrawnOption is one option over all draws.
type DrawnOption struct {
	ID string
	// Mean, Low and High are the mean and the 2.5 % and 97.5 % quantiles of the
	// option's value, later decisions made as at rest.
	Mean, Low, High float64
	// BestIn is the share of draws in which the option is best, a tie being
	// shared equally; the shares sum to 1.
	BestIn float64
}

// Sample draws every uncertain number n times and folds back each draw.
// Probabilities with priors come from their Beta or Dirichlet distribution,
// values with a stated range from a triangular one with its peak at the stated
// value; fixed numbers stay. The same seed gives the same draws on every machine
// (a PCG source).
//
// With strategies d (an option and all later choices) and numbers θ,
//
//	EVPI = E max over d of U(d, θ) - max over d of E U(d, θ)
//
// where the numbers are drawn independently, so the second maximum is taken by
// the folded-back policy; each draw's own difference is averaged, which is never
// negative. n < 1 gives the zero Draws.
//
// Doubilet P et al. Med Decis Making 1985;5:157-177; Claxton K. J Health Econ
// 1999;18:341-364 (both from memory).
func (m *Model) Sample(n int, seed uint64) Draws {
	if n < 1 {
		return Draws{}
	}
	src := rand.NewPCG(seed, 0x9e3779b97f4a7c15)
	policy := m.policy()
	taken := make([][]float64, len(m.root.next))
	best := make([]float64, len(m.root.next))
	gain := 0.0
	s, ranges := m.rest(), m.ranges(src)
	for range n {
		m.draw(s, src, ranges)
		now := m.optionValues(s, policy)
		for i, v := range now {
			taken[i] = append(taken[i], v)
		}
		free := m.optionValues(s, nil)
		top := leaders(free, m.prefers)
		for _, i := range top {
			best[i] += 1 / float64(len(top))
		}
		gain += math.Abs(free[top[0]] - now[policy[m.root.id]])
	}
	d := Draws{N: n, PerfectInformation: gain / float64(n)}
	for i, id := range m.OptionIDs() {
		slices.Sort(taken[i])
		d.Options = append(d.Options, DrawnOption{
			ID: id, Mean: mean(taken[i]), BestIn: best[i] / float64(n),
			Low:  stat.Quantile(taken[i], 0.025, stat.Standard),
			High: stat.Quantile(taken[i], 0.975, stat.Standard),
		})
	}
	return d
}

// ranges are the distributions of the values with a stated range, in the order of
// the nodes; nil for the others.
func (m *Model) ranges(src rand.Source) []*distuv.Triangle {
	list := make([]*distuv.Triangle, len(m.nodes))
	for i, n := range m.nodes {
		if n.source.Kind != End || n.source.Low == nil || n.source.High == nil {
			continue
		}
		low, high, peak := float(n.source.Low), float(n.source.High), float(n.source.Value)
		if low < high && low <= peak && peak <= high {
			t := distuv.NewTriangle(low, high, peak, src)
			list[i] = &t
		}
	}
	return list
}

// draw sets the uncertain numbers of s anew.
func (m *Model) draw(s scenario, src rand.Source, ranges []*distuv.Triangle) {
	for i, n := range m.nodes {
		if n.counts != nil {
			sum := 0.0
			for j, c := range n.counts {
				s.p[i][j] = distuv.Gamma{Alpha: c, Beta: 1, Src: src}.Rand()
				sum += s.p[i][j]
			}
			for j := range s.p[i] {
				s.p[i][j] /= sum
			}
		}
		if ranges[i] != nil {
			s.v[i] = ranges[i].Rand()
		}
	}
}

// leaders are the places of the best values, more than one on a tie.
func leaders(values []float64, prefers func(a, b float64) bool) []int {
	best := []int{0}
	for i := 1; i < len(values); i++ {
		switch {
		case prefers(values[i], values[best[0]]):
			best = []int{i}
		case values[i] == values[best[0]]:
			best = append(best, i)
		}
	}
	return best
}

func mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}
