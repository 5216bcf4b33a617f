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
}

// match is a right name found in a cue.
type match struct {
	from, to int
	terms    []int
}

// listen prepares the hearing of cues. What an earlier listener guessed of cues
// that have not changed since is taken over; before may be nil.
func listen(l *lexicon, cues []Cue, before *listener) *listener {
	h := &listener{lexicon: l, named: make(map[int]int), said: cues}
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

// joints are words a misheard term hardly begins with, and joinsOn words it
// hardly ends with; listed mishearings may do either.
var (
	joints  = wordSet("a an the and or but so is are was were i we you it they he she if not no my our the there here just now then when with from of at by be that because while do does did have has had can could would should will may might what where who how which very quite really about into than")
	joinsOn = wordSet("the a and or of is are was were to with for from at by my our your we it if but so because that not no this these i you they be very")
)

func wordSet(words string) map[string]bool {
	m := make(map[string]bool)
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

// worthHearing leaves out stretches without a content word, and those cut at
// the joints of a sentence unless a word that is no English stands in them.
func worthHearing(stretch []string) bool {
	letters := true // spelt out: only an exact or a listed spelling will do
	content, odd := false, false
	for _, w := range stretch {
		n, known := surprise(w)
		content = content || n > 4
		odd = odd || !known && len(w) > 3
		letters = letters && len(w) == 1
	}
	if !odd && (joints[stretch[0]] || joinsOn[stretch[len(stretch)-1]]) {
		return false
	}
	return content && !letters
}

func (h *listener) bySound(stretch []string, take func(guess)) {
	sound := sounds(stretch)
	if len(sound) < 4 || len(sound) > 40 {
		return
	}
	plain := 0.0
	for _, w := range stretch {
		plain += h.wordPrice(w)
		if h.foreign(w) {
			plain += gainForeign
		}
	}
	weight := sound.weight()
	most := (plain - priceMishear - priceTerm + gainDense + gainStep + gainAgain + 1) / pricePerSound
	english := ordinary(stretch)
	alike := leastAlikeOdd
	if english {
		alike = leastAlike
	}
	limit := min(most, (1-alike)*weight/alike, mostUnlike)
	if limit <= 0 || english && len(stretch) == 1 && len(sound) < 6 {
		return // a short plain word is misheard only as listed
	}
	fluent := len(stretch) >= 3 && english
	shape, n := sound.outline()
	first, last := sound.ends()
	slack := int((limit + outlineSlack) / weakIndel)
	for size := n - slack; size <= n+slack; size++ {
		for _, f := range h.bySize[size] {
			form := &h.forms[f]
			if form.first != first && form.last != last || math.Abs(weight-form.weight) > limit+weightSlack || shape.leastCost(&form.outline) > limit+outlineSlack {
				continue
			}
			top := min(limit, (1-alike)*max(weight, form.weight))
			cost := unlike(sound, form.sound, top)
			if form.source == listed || form.source == derived || form.initial {
				top = min(top, (1-leastAlikeForm)*form.weight)
			}
			if cost > top || inflected(stretch, form.text) {
				continue
			}
			channel := priceMishear + pricePerSound*cost + remainder(stretch, form.words) + h.wider(form.term, form.words, stretch)
			if fluent {
				channel += priceFluent * max(0, leastFluent-(1-cost/max(weight, form.weight)))
			}
			if form.source == partial {
				channel += pricePart
			} else if form.source != named {
				channel += priceNearForm
			} else if h.anchored(stretch, form.words) {
				channel -= gainAnchor
			}
			whole := form.source == named && 1-cost/max(weight, form.weight) >= leastWhole && len(stretch) > 1
			take(guess{term: form.term, source: named, channel: channel, plain: form.plain, whole: whole})
		}
	}
}

// anchored reports whether stretch and name begin or end with the same word of
// the trade, one that is no name by itself: "golden" waits for its ring.
func (h *listener) anchored(stretch, name []string) bool {
	if len(stretch) < 2 || len(name) < 2 {
		return false
	}
	for _, pair := range [][2]string{{stretch[0], name[0]}, {stretch[len(stretch)-1], name[len(name)-1]}} {
		if n, _ := surprise(pair[0]); pair[0] == pair[1] && n >= 6 && len(h.exact[stem(pair[0])]) == 0 {
			return true
		}
	}
	return false
}

// remainder is the price of what is left once the words that stretch and name
// have in common at either end are set aside: the rest must sound alike by
// itself, the more so when the words do not match in number.
func remainder(stretch, name []string) float64 {
	c := differing(name, stretch)
	if len(c.right) == len(name) && len(c.wrong) == len(stretch) {
		return 0
	}
	a, b := sounds(c.right), sounds(c.wrong)
	w := max(a.weight(), b.weight())
	if w == 0 {
		return 0
	}
	alike := 1 - unlike(a, b, w)/w
	want := 0.55
	if len(c.right) != len(c.wrong) {
		want = 0.66
	}
	price := 18 * max(0, want-alike)
	if kept := len(name) - len(c.right); kept > 0 && joined(name) {
		price += 9 // the words in common are a phrase around another term
	}
	return price
}

// inflected reports whether a stretch is the name itself in another form of
// grammar, a part of it, or has the whole name in it: nothing misheard.
func inflected(stretch []string, name string) bool {
	heard := strings.Join(stretch, " ")
	if strings.Contains(" "+heard+" ", " "+name+" ") || strings.Contains(" "+name+" ", " "+heard+" ") || rooted(stretch) == rooted(strings.Fields(name)) {
		return true
	}
	if !strings.Contains(name, " ") && slices.ContainsFunc(stretch, func(w string) bool { return len(w) > 5 && grammatical(w, name) }) {
		return true // "hydrodissect in"
	}
	a, b := heard, name
	if len(a) > len(b) {
		a, b = b, a
	}
	return len(stretch) == strings.Count(name, " ")+1 && len(a) >= 4 && len(b)-len(a) <= 3 && strings.HasPrefix(b, a[:len(a)-1]) && grammatical(a, b)
}

// rooted joins the roots of the words that carry meaning.
func rooted(words []string) string {
	var out []string
	for _, w := range words {
		if n, _ := surprise(w); n >= 4 {
			r := root(w)
			if k := len(r); k > 3 && r[k-1] == r[k-2] {
				r = r[:k-1] // prepped
			}
			out = append(out, strings.TrimSuffix(r, "e"))
		}
	}
	return strings.Join(out, " ")
}

// holds reports whether a right name of the term stands within the stretch:
// then it was heard well.
func (l *lexicon) holds(stretch []string, t int) bool {
	for i := range stretch {
		for k := i + 1; k <= len(stretch) && k-i < len(stretch); k++ {
			if len(stretch[i]) > 2 && slices.Contains(l.exact[stems(stretch[i:k])], t) {
				return true
			}
		}
	}
	return false
}

// grammatical reports whether a and b differ by an ordinary ending.
func grammatical(a, b string) bool {
	for _, pair := range [][2]string{{"", "s"}, {"", "es"}, {"", "ed"}, {"", "d"}, {"", "ing"}, {"e", "ing"}, {"e", "ed"}, {"", "al"}, {"is", "es"}, {"y", "ies"}, {"ion", "ing"}, {"e", "ion"}, {"", "ion"}, {"a", "al"}} {
		if x, ok := strings.CutSuffix(a, pair[0]); ok && b == x+pair[1] {
			return true
		}
		if x, ok := strings.CutSuffix(b, pair[0]); ok && a == x+pair[1] {
			return true
		}
	}
	return false
}
