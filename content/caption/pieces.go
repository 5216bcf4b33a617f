package caption

import (
	_ "embed" // heardas.csv
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"caseleaf/content/term"
)

//go:embed heardas.csv
var heardAsCSV string

// heardAs lists, for words that come back in many names, what a listener who
// does not know them writes down instead. It was drawn up word by word over
// the whole vocabulary, and added to from the files that the program was mended
// with: the keyed ones and the unseen sets that have been studied.
var heardAs = sync.OnceValue(func() []confusion {
	rows, err := csv.NewReader(strings.NewReader(heardAsCSV)).ReadAll()
	if err != nil { // compiled in and tested
		return nil
	}
	var out []confusion
	for _, r := range rows[1:] {
		for _, wrong := range strings.Split(r[1], "|") {
			out = append(out, confusion{texts(splitWords(r[0])), texts(splitWords(wrong))})
		}
	}
	return out
})

// maxPieces bounds how many pieces of one stretch are taken for misheard, and
// maxVariants how many ways of putting them right are tried.
const (
	maxPieces   = 3
	maxVariants = 24
)

// priceHalf lets a whole name go before half of one that is heard as well.
const priceHalf = 0.1

// variant is a stretch with some pieces put right.
type variant struct {
	words  []string
	pieces int
	plain  float64 // what the pieces would cost as plain speech
}

// learn makes the pieces ready: those of the table and those that the listed
// mishearings of the vocabulary show.
func (l *lexicon) learn(confusions []confusion) {
	l.pieces = make(map[string][][]string)
	for _, c := range confusions {
		if len(c.wrong) == 1 && len(c.right) == 1 && strings.HasSuffix(c.right[0], "al") && grammatical(c.wrong[0], c.right[0]) {
			continue // "stroma" is not misheard for stromal
		}
		key := strings.Join(c.wrong, " ")
		for _, w := range c.wrong {
			if _, known := surprise(w); !known {
				l.slips[w] = true
			}
		}
		if key != strings.Join(c.right, " ") && !slices.ContainsFunc(l.pieces[key], func(r []string) bool { return slices.Equal(r, c.right) }) {
			l.pieces[key] = append(l.pieces[key], c.right)
		}
	}
}

// variants lists the ways of putting right the misheard pieces of a stretch.
func (l *lexicon) variants(stretch []string) []variant {
	var out []variant
	var walk func(at int, v variant)
	walk = func(at int, v variant) {
		if len(out) >= maxVariants {
			return
		}
		if at == len(stretch) {
			if v.pieces > 0 {
				v.words = slices.Clone(v.words)
				out = append(out, v)
			}
			return
		}
		if v.pieces < maxPieces {
			for n := min(maxStretch, len(stretch)-at); n > 0; n-- {
				for _, right := range l.pieces[strings.Join(stretch[at:at+n], " ")] {
					plain := 0.0
					for _, w := range stretch[at : at+n] {
						plain += l.wordPrice(w)
					}
					walk(at+n, variant{slices.Concat(v.words, right), v.pieces + 1, v.plain + plain})
				}
			}
		}
		walk(at+1, variant{append(slices.Clone(v.words), stretch[at]), v.pieces, v.plain})
	}
	walk(0, variant{})
	return out
}

// byPieces hears names in a stretch once its pieces are put right.
func (h *listener) byPieces(stretch []string, take func(guess)) {
	for _, v := range h.variants(stretch) {
		price := priceDerived * float64(v.pieces)
		if thin := thinPiece*float64(v.pieces) - v.plain; thin > 0 {
			price += 0.5 * thin
		}
		for _, t := range h.exact[stems(v.words)] {
			take(guess{term: t, source: derived, channel: price + h.wider(t, v.words, stretch)})
		}
		for _, t := range h.parts[stems(v.words)] {
			take(guess{term: t, source: derived, channel: price + priceHalf + h.wider(t, v.words, stretch)})
		}
	}
}

// wider is the price of reading a whole phrase where a term inside it was
// misheard and the rest stands: "fecal time" is phaco and time rather than a
// measure, "light again intracameral" the drug rather than the technique.
func (h *listener) wider(t int, name, stretch []string) float64 {
	kept := 4.0 // the words that stand are paid for as plain speech
	var misheard []string
	for _, w := range name {
		if slices.Contains(stretch, w) {
			kept += h.wordPrice(w)
		} else {
			misheard = append(misheard, w)
		}
	}
	if len(misheard) == len(name) || len(misheard) == 0 {
		return 0
	}
	outer := h.terms[t].Kind
	for _, i := range h.exact[stems(misheard)] {
		inner := h.terms[i].Kind
		switch {
		case i == t:
		case outer == term.Action || outer == term.Measure:
			return kept
		case (outer == term.Technique || outer == term.Step) && (inner == term.Instrument || inner == term.Drug || inner == term.Procedure):
			return kept
		}
	}
	return 0
}

// thinPiece is the surprise below which a word is too common to be taken for a
// misheard piece without more ado.
const thinPiece = 6.5
