package stat

import "math"

// runLengthSteps bounds the work of RunLength; runLengthRest is the probability
// still wandering at which an excursion is taken as over.
const (
	runLengthSteps = 20_000_000
	runLengthRest  = 1e-17
)

// RunLength is the mean number of operations before a CUSUM that starts at 0
// signals (score >= limit), when each operation has the event with probability p
// independently. w are the score's weights, one upward and one downward.
//
// The scores form a Markov chain that begins anew whenever it is back at 0, so
//
//	L = (1/u + E) / S
//
// where u is the probability of the upward weight, E the mean length of an
// excursion that has begun and S the probability that an excursion ends in a
// signal. A score in an excursion is (ups · up - downs · down), so its
// distribution is carried forward step by step over the handful of reachable
// scores, exactly but for a last 1e-17 of probability. No grid is laid over the
// scores: a coarse one is 1 to 2 % off where a score falls just beside the limit.
//
// Weights of which none is above 0 never signal: +Inf. Domain 0 < p < 1, limit
// > 0 and not both weights above 0 (no likelihood ratio gives such); otherwise,
// or when an excursion outlasts 20 million steps, NaN.
//
// Brook D, Evans DA. Biometrika 1972;59:539-549 (the chain); Reynolds MR,
// Stoumbos ZG. J Qual Technol 1999;31:87-108 (both from memory).
func RunLength(w Weights, limit, p float64) float64 {
	if !(p > 0 && p < 1) || !(limit > 0) || math.IsNaN(w.Event+w.NoEvent) {
		return math.NaN()
	}
	up, down, chance := w.Event, -w.NoEvent, p
	if w.NoEvent > w.Event { // watching for improvement: events lead down
		up, down, chance = w.NoEvent, -w.Event, 1-p
	}
	if up <= 0 {
		return math.Inf(1)
	}
	if down < 0 {
		return math.NaN()
	}
	length, signal := excursion(up, down, chance, limit)
	return (1/chance + length) / signal
}

// excursion follows a score from its first upward step until it is back at 0 or
// has signalled; length counts the operations after that first step.
func excursion(up, down, chance, limit float64) (length, signal float64) {
	if up >= limit {
		return 0, 1
	}
	now := []float64{1} // probability by number of ups, from first on
	var spare []float64
	first, step := 1, 1
	score := func(ups, steps int) float64 { return float64(ups)*up - float64(steps-ups)*down }
	for alive := 1.0; alive > runLengthRest*math.Max(signal, 1e-290); {
		length += alive
		next := append(spare[:0], make([]float64, len(now)+1)...)
		for i, mass := range now {
			next[i] += mass * (1 - chance)
			next[i+1] += mass * chance
		}
		step++
		if step > runLengthSteps {
			return math.NaN(), math.NaN()
		}
		alive = 0
		from, to := len(next), 0
		for i, mass := range next {
			switch s := score(first+i, step); {
			case s >= limit:
				signal += mass
			case s > 0 && mass > 0:
				alive += mass
				from, to = min(from, i), i+1
			}
		}
		if from >= to {
			break
		}
		spare, now, first = now[:0:cap(now)], next[from:to], first+from
	}
	return length, signal
}
