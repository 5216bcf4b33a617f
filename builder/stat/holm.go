package stat

import (
	"cmp"
	"math"
	"slices"
)

// Holm adjusts m p values for multiple testing and gives them back in their
// order: sorted, the i-th smallest (from 0) is multiplied by m-i, the running
// maximum is taken, and 1 is the cap. A NaN (a comparison that could not be
// made) stays NaN and does not count towards m.
//
// Holm S. Scand J Stat 1979;6:65-70 (from memory).
func Holm(p []float64) []float64 {
	adjusted := make([]float64, len(p))
	order := make([]int, 0, len(p))
	for i, v := range p {
		adjusted[i] = math.NaN()
		if !math.IsNaN(v) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(p[i], p[j]) })
	running := 0.0
	for rank, i := range order {
		running = math.Max(running, math.Min(1, float64(len(order)-rank)*p[i]))
		adjusted[i] = running
	}
	return adjusted
}
