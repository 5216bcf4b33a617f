package caption

import (
	"math"
	"slices"
	"strings"

	"caseleaf/content/term"
)

// weighDensity measures how much of the talk around each cue is of the trade.
// Only words that plain English hardly uses count, and listed mishearings of
// several words; neighbours count less the further off they are, and all of it
// less in a recording that has little of it anywhere.
func (h *listener) weighDensity() {
	own := make([]float64, len(h.cues))
	strong, spoken := 0, 0
	for i, words := range h.cues {
		own[i] = h.tradeTalk(words)
		if own[i] >= 0.8 {
			strong++
		}
		if len(words) > 0 {
			spoken++
		}
	}
	share := min(1, float64(strong)/max(1, tradeShare*float64(spoken)))
	h.density = make([]float64, len(own))
	for i := range own {
		sum := 0.0
		for d := -6; d <= 6; d++ {
			if k := i + d; k >= 0 && k < len(own) {
				sum += min(own[k], 2) * math.Pow(0.75, math.Abs(float64(d)))
			}
		}
		h.density[i] = share * (1 - math.Exp(-sum/1.6))
	}
}

// tradeShare is the share of cues with words of the trade at which a recording
// counts as being about it.
const tradeShare = 0.12

func (h *listener) tradeTalk(words []word) float64 {
	sum := 0.0
	for k, w := range words {
		if h.trade[stem(w.text)] {
			switch n, known := surprise(w.text); {
			case !known:
				sum++
			case n >= 7:
				sum += 0.35
			}
		}
		for n := 2; n <= maxStretch && k+n <= len(words); n++ {
			if f, ok := h.heard[strings.Join(texts(words[k:k+n]), " ")]; ok && h.forms[f[0]].source == listed {
				sum += 0.8
			}
		}
	}
	return sum
}

// wordPrice is the surprise of a word met as itself in this kind of talk.
func (l *lexicon) wordPrice(w string) float64 {
	n, _ := surprise(w)
	if n <= 4 {
		n -= 0.5 // speech leads to its small words
	}
	if len(w) == 1 && w != "a" && w != "i" {
		return 7
	}
	if l.trade[stem(w)] || l.trade[root(stem(w))] {
		return min(n, priceTradeWord)
	}
	return n
}

// addDomain gathers the words in which the vocabulary, its watch table and the
// tables of this package speak of the operation.
func (l *lexicon) addDomain() {
	l.domain = make(map[string]bool)
	add := func(text string) {
		for _, w := range splitWords(text) {
			l.domain[root(stem(w.text))] = true
		}
	}
	for _, t := range l.terms {
		add(t.Definition)
	}
	for _, r := range l.v.Watch() {
		add(r.FirstSign + " " + r.MisStep + " " + r.FirstMove + " " + r.Prevention + " " + r.Ready)
	}
	add(strings.NewReplacer("|", " ", "*", "").Replace(saysCSV + " " + hintsCSV))
}

// foreign reports whether a word is of ordinary life rather than of the
// operation: "people", "bottom" and "records" are less likely over an open eye
// than elsewhere.
func (l *lexicon) foreign(w string) bool {
	n, _ := surprise(w)
	r := root(stem(w))
	return n >= 5 && len(w) > 3 && !l.trade[stem(w)] && !l.trade[r] && !l.domain[r] && !isNumber(w)
}

// termPrice is what it costs to expect a term in a cue.
func (h *listener) termPrice(t, cue, from int) float64 {
	price := priceTerm - gainDense*h.density[cue]
	if h.stepAt != nil {
		price -= gainStep * h.fit(&h.terms[t], cue)
	}
	if announced(texts(h.cues[cue][:from])) {
		price -= gainAnnounced
	}
	if h.named[t] > 0 {
		price -= gainAgain
	}
	switch h.terms[t].Kind {
	case term.Outcome, term.Grade, term.Measure:
		price += 1.5
	case term.Procedure:
		price += 0.5
	}
	if steps := h.terms[t].Steps; len(steps) == 1 && steps[0] == "postop-review" {
		price++
	}
	return price
}

// announced reports whether the words before a stretch lead up to a name:
// "so that is a".
func announced(before []string) bool {
	n := len(before)
	for n > 0 && articles[before[n-1]] && before[n-1] != "that" {
		n--
	}
	if n < 2 {
		return false
	}
	return before[n-1] == "is" && (before[n-2] == "that" || before[n-2] == "this" || before[n-2] == "it") ||
		before[n-1] == "called"
}

// fit is how well a term's steps agree with the step the cue is in.
func (h *listener) fit(t *term.Term, cue int) float64 {
	best := 0.0
	for k, s := range h.steps {
		if t.ID == s || slices.Contains(t.Steps, s) {
			best = max(best, h.stepAt[cue][k])
		}
	}
	return best
}
