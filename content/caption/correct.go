package caption

import (
	"math"
)

// Bounds of confidence: at or above upper a correction is applied, at or above
// lower it is proposed, below it is left alone.
const (
	upper = 0.6
	lower = 0.55

	overwhelming = 0.95 // of a reading that would leave one word of the trade
)

// reading is a chosen correction in one cue.
type reading struct {
	guess
	confidence float64
	plainly    bool // to be left as heard
}

// decide chooses, for one cue, the readings that together explain its words at
// the least price, and weighs each against the best explanation without it.
func (h *listener) decide(cue int) []reading {
	n := len(h.cues[cue])
	words := h.cues[cue]
	ahead := h.plainAhead(cue)   // price of words i.. as plain speech
	before := h.plainBefore(cue) // price of words ..i
	type step struct {
		price float64
		back  int
		by    *guess
	}
	best := make([]step, n+1)
	for i := 1; i <= n; i++ {
		best[i] = step{price: math.Inf(1)}
	}
	byStart := make([][]*guess, n+1)
	for k := range h.guesses[cue] {
		g := &h.guesses[cue][k]
		byStart[g.from] = append(byStart[g.from], g)
	}
	exact := make([]*match, n+1)
	for k := range h.exacts[cue] {
		exact[h.exacts[cue][k].from] = &h.exacts[cue][k]
	}
	relax := func(from, to int, price float64, by *guess) {
		if p := best[from].price + price; p < best[to].price {
			best[to] = step{p, from, by}
		}
	}
	for i := range n {
		relax(i, i+1, h.wordPrice(words[i].text)+h.oddPair(words, i), nil)
		if m := exact[i]; m != nil {
			relax(i, m.to, h.exactPrice(m, cue), nil)
		}
		for _, g := range byStart[i] {
			relax(i, g.to, h.guessPrice(g, cue), g)
		}
	}
	var out []reading
	for i := n; i > 0; i = best[i].back {
		g := best[i].by
		if g == nil {
			continue
		}
		z := before[n] - (before[g.from] + h.guessPrice(g, cue) + ahead[g.to])
		if c := 1 / (1 + math.Exp(-z)); c >= lower {
			out = append([]reading{{guess: *g, confidence: c}}, out...)
		}
	}
	return out
}

func (h *listener) guessPrice(g *guess, cue int) float64 {
	price := g.channel + h.termPrice(g.term, cue, g.from)
	if g.plain {
		price += pricePlainForm
	}
	if g.source == named && g.to > g.from+1 {
		for _, w := range h.cues[cue][g.from:g.to] {
			if h.foreign(w.text) {
				price -= gainForeign * h.density[cue]
			}
		}
	}
	if g.source == named { // joints of a sentence are rarely part of a name
		if n := h.edge(cue, g.from); n {
			price += 1
		}
		if n := h.edge(cue, g.to-1); n {
			price += 1
		}
	}
	return price
}

// edge reports whether a word is a function word.
func (h *listener) edge(cue, i int) bool {
	n, _ := surprise(h.cues[cue][i].text)
	return n <= 3
}

// exactPrice is what a right name costs: its words, or the term as a whole
// when that is easier to expect.
func (h *listener) exactPrice(m *match, cue int) float64 {
	sum := 0.0
	for _, w := range h.cues[cue][m.from:m.to] {
		sum += h.wordPrice(w.text)
	}
	for _, t := range m.terms {
		sum = min(sum, max(4, h.termPrice(t, cue, m.from)-1))
	}
	return sum
}

// priceOddPair is what it costs that a word which ends the names of
// complications follows a word of the trade it never goes with: "iris collapse"
// may be a prolapse.
const priceOddPair = 2.8

func (h *listener) oddPair(words []word, i int) float64 {
	if i == 0 {
		return 0
	}
	a, b := stem(words[i-1].text), stem(words[i].text)
	if _, known := surprise(words[i-1].text); h.heads[b] && h.trade[a] && !known && !h.pairs[a+" "+b] {
		return priceOddPair
	}
	return 0
}

func (h *listener) plainBefore(cue int) []float64 {
	words := h.cues[cue]
	out := make([]float64, len(words)+1)
	for i := range words {
		out[i+1] = math.Inf(1)
	}
	at := 0
	for i := range words {
		out[i+1] = min(out[i+1], out[i]+h.wordPrice(words[i].text)+h.oddPair(words, i))
		for ; at < len(h.exacts[cue]) && h.exacts[cue][at].from <= i; at++ {
			m := &h.exacts[cue][at]
			out[m.to] = min(out[m.to], out[m.from]+h.exactPrice(m, cue))
		}
	}
	return out
}

func (h *listener) plainAhead(cue int) []float64 {
	words := h.cues[cue]
	out := make([]float64, len(words)+1)
	at := len(h.exacts[cue]) - 1
	for i := len(words) - 1; i >= 0; i-- {
		out[i] = out[i+1] + h.wordPrice(words[i].text) + h.oddPair(words, i)
		for ; at >= 0 && h.exacts[cue][at].from >= i; at-- {
			m := &h.exacts[cue][at]
			if m.from == i {
				out[i] = min(out[i], out[m.to]+h.exactPrice(m, cue))
			}
		}
	}
	return out
}
