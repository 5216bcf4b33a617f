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

// decode runs Viterbi and forward-backward over the emissions, which are log
// likelihoods by cue and state; change is what each cue adds to the readiness
// to move on ("now the …", a pause).
func (m *model) decode(emit [][]float64, change []float64) decoding {
	n, k := len(emit), len(m.states)
	d := decoding{path: make([]int, n), posterior: make([][]float64, n)}
	if n == 0 {
		return d
	}
	price := make([][]float64, k)
	for a := range k {
		price[a] = make([]float64, k)
		for b := range k {
			price[a][b] = m.price(a, b)
		}
	}
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
	m.forwardBackward(emit, change, price, &d)
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

func (m *model) forwardBackward(emit [][]float64, change []float64, price [][]float64, d *decoding) {
	n, k := len(emit), len(m.states)
	ahead := make([][]float64, n)
	trans := make([][]float64, k)
	for a := range trans {
		trans[a] = make([]float64, k)
	}
	set := func(c float64) {
		for a := range k {
			for b := range k {
				trans[a][b] = math.Exp(move(price, a, b, c))
			}
		}
	}
	fwd := make([][]float64, n)
	for i := range n {
		fwd[i] = make([]float64, k)
		set(change[i])
		for b := range k {
			sum := math.Exp(move(price, 0, b, 0))
			if i > 0 {
				sum = 0
				for a := range k {
					sum += fwd[i-1][a] * trans[a][b]
				}
			}
			fwd[i][b] = sum * math.Exp(emit[i][b])
		}
		normalise(fwd[i])
	}
	for i := n - 1; i >= 0; i-- {
		ahead[i] = make([]float64, k)
		if i == n-1 {
			for a := range k {
				ahead[i][a] = 1
			}
		} else {
			set(change[i+1])
			for a := range k {
				for b := range k {
					ahead[i][a] += trans[a][b] * math.Exp(emit[i+1][b]) * ahead[i+1][b]
				}
			}
			normalise(ahead[i])
		}
		d.posterior[i] = make([]float64, k)
		for a := range k {
			d.posterior[i][a] = fwd[i][a] * ahead[i][a]
		}
		normalise(d.posterior[i])
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
