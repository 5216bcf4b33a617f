package caption

import (
	"math"
	"runtime"
	"slices"
	"strings"
	"sync"
)

// The noisy channel. A stretch of heard words is explained either as plain
// speech, at the price of each word's surprise, or as a term misheard, at the
// price of meeting that term here, of a mishearing at all, and of each sound
// that went wrong. All prices are in nats (-log of a probability); the
// difference gives the odds. The constants are judgements, kept round.
const (
	pricePerSound  = 3.4 // of a full sound gone wrong
	priceMishear   = 2.0 // of a mishearing nobody has listed
	priceDerived   = 1.2 // of a mishearing seen in another phrase
	priceListed    = 0.6 // of a listed mishearing
	priceTerm      = 8.5 // of a term out of the blue
	gainDense      = 2.6 // talk of the trade all round
	gainStep       = 1.4 // the step we are in uses it
	gainAnchor     = 1.3 // one word of the name is there already
	gainAnnounced  = 1.2 // "so that is a"
	gainAgain      = 0.7 // the term was named elsewhere in the recording
	pricePlainForm = 2.5 // a name made of ordinary words
	gainForeign    = 1.0 // a word of ordinary life stands where the trade is talked
	priceTradeWord = 5.5 // a word of the trade met as itself
	leastAlike     = 0.72
	leastWhole     = 0.88 // at which "hydro die section" is more than the "hydro" in it
	leastWholeOdd  = 0.72 // the same where "hydro this ection" holds a word that is no English
	leastFluent    = 0.84
	leastAlikeOdd  = 0.64 // where a word that is no English was heard
	leastAlikeForm = 0.84 // of what is only near a known mishearing, or spelt out
	priceNearForm  = 0.7
	pricePart      = 0.6  // of a name cut short to its one telling word
	pricePause     = 2.5  // of a comma or stop in the midst of it
	priceFluent    = 50.0 // of each part of likeness below that when the words heard are good English
	keepPerStretch = 5
	mostUnlike     = 2.6  // sounds gone wrong beyond which nobody would recognise a name, however long
	weightSlack    = 0.6  // sounds of different weight may still be taken for one another
	outlineSlack   = 0.25 // r-coloured vowels are not in an outline
)

// guess is one reading of a stretch of a cue.
type guess struct {
	from, to int // words
	term     int
	source   int     // of the form, see named
	channel  float64 // price of the mishearing
	plain    bool    // the name is made of ordinary words
	whole    bool    // the whole of a name is there, not only a part of it that is a name too
}

// listener holds what is known of each cue while the vocabulary is heard in it.
type listener struct {
	*lexicon
	said    []Cue
	cues    [][]word
	guesses [][]guess
	exacts  [][]match   // right names in each cue
	density []float64   // 0 to 1: talk of the trade around each cue, itself included
	stepAt  [][]float64 // by cue: how well each step of steps fits, 0 to 1; nil before the first decoding
	steps   []string
	named   map[int]int // how often each term is named in the recording
	right   map[int][]rightName
}

// match is a right name found in a cue.
type match struct {
	from, to int
	terms    []int
}

// listen prepares the hearing of cues. What an earlier listener guessed of cues
// that have not changed since is taken over; before may be nil.
func listen(l *lexicon, cues []Cue, before *listener) *listener {
	h := &listener{lexicon: l, named: make(map[int]int), right: make(map[int][]rightName), said: cues}
	for _, c := range cues {
		words := splitWords(c.Text)
		if c.Noise {
			words = nil
		}
		h.cues = append(h.cues, words)
		found := l.matches(words)
		h.exacts = append(h.exacts, found)
		for _, m := range found {
			for _, t := range m.terms {
				h.named[t]++
			}
		}
	}
	h.weighDensity()
	h.guesses = make([][]guess, len(h.cues))
	var wait sync.WaitGroup
	workers := max(1, min(runtime.GOMAXPROCS(0), len(h.cues)/50))
	for w := range workers { // each cue by itself: the result does not depend on how many work
		wait.Add(1)
		go func() {
			defer wait.Done()
			cache := make(map[string][]guess)
			for i := w; i < len(h.cues); i += workers {
				if before != nil && before.said[i].Text == cues[i].Text {
					h.guesses[i] = before.guesses[i]
					continue
				}
				h.guesses[i] = h.guessAll(h.cues[i], cache)
			}
		}()
	}
	wait.Wait()
	return h
}

// matches finds the right names in words, longest first at each place.
func (l *lexicon) matches(words []word) []match {
	var out []match
	stemmed := make([]string, len(words))
	for i, w := range words {
		stemmed[i] = stem(w.text)
	}
	for i := 0; i < len(words); {
		n := 0
		for k := min(l.longest, len(words)-i); k > 0; k-- {
			terms := l.exact[strings.Join(stemmed[i:i+k], " ")]
			if len(terms) == 0 || k == 1 && len(words[i].text) < 3 {
				continue
			}
			out = append(out, match{i, i + k, terms})
			n = k
			break
		}
		i += max(n, 1)
	}
	return out
}

// guessAll lists the readings worth weighing for each stretch of a cue.
func (h *listener) guessAll(words []word, cache map[string][]guess) []guess {
	var out []guess
	for i := range words {
		for n := 1; n <= maxStretch && i+n <= len(words); n++ {
			stretch := texts(words[i : i+n])
			key := strings.Join(stretch, " ")
			found, ok := cache[key]
			if !ok {
				found = h.guessStretch(stretch, key)
				cache[key] = found
			}
			pauses := 0.0
			for _, w := range words[i+1 : i+n] {
				if w.pause {
					pauses++
				}
			}
			for _, g := range found {
				g.from, g.to = i, i+n
				if g.channel += pricePause * pauses; g.source == listed {
					g.channel -= 0.7 * pricePause * pauses
				}
				out = append(out, g)
			}
		}
	}
	return out
}

// guessStretch compares one stretch with every form that could be meant.
func (h *listener) guessStretch(stretch []string, key string) []guess {
	if len(h.exact[stems(stretch)]) > 0 && len(h.heard[key]) == 0 {
		return nil // a right name
	}
	best := make(map[int]guess)
	take := func(g guess) {
		if old, ok := best[g.term]; !ok || g.channel < old.channel {
			best[g.term] = g
		}
	}
	for _, f := range h.heard[key] {
		form := &h.forms[f]
		price := priceListed
		if form.source == derived {
			price = priceDerived
		}
		take(guess{term: form.term, source: form.source, channel: price})
	}
	h.byPieces(stretch, take)
	if worthHearing(stretch) {
		h.bySound(stretch, take)
	}
	out := make([]guess, 0, len(best))
	for _, g := range best {
		if g.source != named || g.whole || !h.holds(stretch, g.term) {
			out = append(out, g)
		}
	}
	slices.SortFunc(out, func(a, b guess) int {
		if a.channel != b.channel {
			return int(math.Copysign(1, a.channel-b.channel))
		}
		return a.term - b.term
	})
	return out[:min(len(out), keepPerStretch)]
}
