package caption

import (
	"slices"
	"strings"
)

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
	x := aligner{a: sound, rest: sound.remains()}
	reach := func(s *silhouette) float64 {
		r := min(limit, (1-alike)*max(weight, s.weight))
		if s.strict {
			r = min(r, (1-leastAlikeForm)*s.weight)
		}
		return r
	}
	h.candidates(sound, limit, reach, func(s *silhouette, top float64) {
		cost := x.unlike(s.sound, s.rest, top)
		if cost > top {
			return
		}
		form := &h.forms[s.form]
		if inflected(stretch, form.text) || h.conjugated(stretch, form.term) {
			return
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
		similar := 1 - cost/max(weight, form.weight)
		whole := form.source == named && len(stretch) > 1 && (similar >= leastWhole || similar >= leastWholeOdd && h.oddBeside(stretch, form.term))
		take(guess{term: form.term, source: named, channel: channel, plain: form.plain, whole: whole})
	})
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

// oddBeside reports whether a word that is no English, or hardly said, stands
// beside a right name of the term in a stretch: in "hydro this ection" it is
// what became of the rest of a longer name.
func (l *lexicon) oddBeside(stretch []string, t int) bool {
	odd := false
	for _, w := range stretch {
		n, _ := surprise(w)
		odd = odd || n >= 7 && len(w) > 3 && !l.trade[stem(w)] && !slices.Contains(l.exact[stem(w)], t)
	}
	return odd
}
