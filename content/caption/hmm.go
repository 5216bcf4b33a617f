package caption

import "math"

// model is a hidden Markov model whose states are the steps of one procedure,
// left to right, with state 0 for talk before the first step. It allows for
// steps left out, for going back, and for rescue steps that may come anywhere.
type model struct {
	procedure string
	states    []string  // "" first, then step ids
	optional  []bool    // leaving this step out costs nothing
	rescue    []bool    // may come at any place
	enter     []float64 // extra price of entering each state
}

// Prices of moving between states from one cue to the next, in nats.
const (
	stayGain  = 0.0
	nextPrice = 1.4  // to any later step
	skipPrice = 0.15 // for each usual step passed over
	backPrice = 2.4  // to an earlier step: neighbours change places easily
	backEach  = 0.7  // for each step gone back
	backMost  = 6.5
	sidePrice = 3.2 // to and from a rescue step
)

func (m *model) price(from, to int) float64 {
	if from == to {
		return stayGain
	}
	if m.rescue[to] || m.rescue[from] {
		return sidePrice + m.enter[to]
	}
	if to > from {
		skipped := 0.0
		for s := from + 1; s < to; s++ {
			if !m.optional[s] && !m.rescue[s] {
				skipped++
			}
		}
		return nextPrice + skipPrice*min(skipped, 10) + m.enter[to]
	}
	return min(backPrice+backEach*float64(from-to), backMost) + m.enter[to]
}

// decoding is what a model makes of a recording.
type decoding struct {
	path      []int       // the likeliest state of each cue
	posterior [][]float64 // by cue and state
	score     float64     // log likelihood of the best path
}

// prices tabulates price.
func (m *model) prices() [][]float64 {
	k := len(m.states)
	price := make([][]float64, k)
	for a := range k {
		price[a] = make([]float64, k)
		for b := range k {
			price[a][b] = m.price(a, b)
		}
	}
	return price
}

// decode runs Viterbi over the emissions, which are log likelihoods by cue and
// state; change is what each cue adds to the readiness to move on ("now the …",
// a pause). It leaves the posterior to weigh.
func (m *model) decode(emit [][]float64, change []float64) decoding {
	n, k := len(emit), len(m.states)
	d := decoding{path: make([]int, n)}
	if n == 0 {
		return d
	}
	price := m.prices()
	best, back := m.viterbi(emit, change, price)
	last := n - 1
	for s := range k {
		if best[last][s] > best[last][d.path[last]] {
			d.path[last] = s
		}
	}
	d.score = best[last][d.path[last]]
	for i := last; i > 0; i-- {
		d.path[i-1] = back[i][d.path[i]]
	}
	return d
}

// move is the log probability of going from a to b at a cue.
func move(price [][]float64, a, b int, change float64) float64 {
	if a == b {
		return 0
	}
	return -max(0.3, price[a][b]-change)
}

func (m *model) viterbi(emit [][]float64, change []float64, price [][]float64) (best [][]float64, back [][]int) {
	n, k := len(emit), len(m.states)
	best, back = make([][]float64, n), make([][]int, n)
	for i := range n {
		best[i], back[i] = make([]float64, k), make([]int, k)
		for b := range k {
			if i == 0 {
				best[i][b] = move(price, 0, b, 0) + emit[0][b]
				continue
			}
			from, top := b, best[i-1][b] // staying wins a tie
			for a := range k {
				if p := best[i-1][a] + move(price, a, b, change[i]); p > top {
					from, top = a, p
				}
			}
			best[i][b], back[i][b] = top+emit[i][b], from
		}
	}
	return best, back
}

// weigh fills in the posterior by forward-backward.
func (m *model) weigh(emit [][]float64, change []float64, d *decoding) {
	n, k := len(emit), len(m.states)
	price := m.prices()
	tables := make(map[float64][][]float64) // few cues differ in change
	table := func(c float64) [][]float64 {
		if t := tables[c]; t != nil {
			return t
		}
		t := make([][]float64, k)
		for a := range k {
			t[a] = make([]float64, k)
			for b := range k {
				t[a][b] = math.Exp(move(price, a, b, c))
			}
		}
		tables[c] = t
		return t
	}
	likelihood := make([][]float64, n)
	for i := range n {
		likelihood[i] = make([]float64, k)
		for b := range k {
			likelihood[i][b] = math.Exp(emit[i][b])
		}
	}
	d.posterior = make([][]float64, n)
	forward(table, price, likelihood, change, d.posterior)
	backward(table, likelihood, change, d.posterior)
}

// forward leaves the filtered probabilities in out.
func forward(table func(float64) [][]float64, price, likelihood [][]float64, change []float64, out [][]float64) {
	for i := range likelihood {
		k := len(likelihood[i])
		out[i] = make([]float64, k)
		t := table(change[i])
		for b := range k {
			sum := math.Exp(move(price, 0, b, 0))
			if i > 0 {
				sum = 0
				for a := range k {
					sum += out[i-1][a] * t[a][b]
				}
			}
			out[i][b] = sum * likelihood[i][b]
		}
		normalise(out[i])
	}
}

// backward turns filtered probabilities into posteriors.
func backward(table func(float64) [][]float64, likelihood [][]float64, change []float64, out [][]float64) {
	n := len(likelihood)
	var ahead []float64
	for i := n - 1; i >= 0; i-- {
		k := len(likelihood[i])
		here := make([]float64, k)
		for a := range k {
			if i == n-1 {
				here[a] = 1
				continue
			}
			t := table(change[i+1])
			for b := range k {
				here[a] += t[a][b] * likelihood[i+1][b] * ahead[b]
			}
		}
		normalise(here)
		ahead = here
		for a := range k {
			out[i][a] *= here[a]
		}
		normalise(out[i])
	}
}

func normalise(p []float64) {
	sum := 0.0
	for _, x := range p {
		sum += x
	}
	if sum == 0 {
		return
	}
	for i := range p {
		p[i] /= sum
	}
}
