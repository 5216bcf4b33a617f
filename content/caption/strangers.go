package caption

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"caseleaf/content/privacy"
)

// After hearing, some words are left that are neither English nor of the trade
// nor heard as anything. Where such a stranger stands as a person or a place
// does, it is taken for a name although no title announces it.

var (
	// beforeName are words that people and places come after.
	beforeName = wordSet("with and thanks thank you hi hello hey ok okay right so now this dear call tell ask asked told for is by yes no today from in at near to of says said bring send get let show meet")
	// beforePlace are those of them that will do without anything after.
	beforePlace = wordSet("from in at near saint outside towards")
	// partOfPlace may stand between: "from lower thrapsley".
	partOfPlace = wordSet("upper lower nether over great little north south east west old new saint mount port lake royal high")
	// afterName is what people do.
	afterName = wordSet("you is was has had will would says said asked asks told tells please could can and here there today who came comes drove lives works walked goes does did wants from i your now likes thinks took gave gives taught prefers inside outside over with")
	speaking  = wordSet("speaking signing narrating")
)

// strangers lists what to take out of each cue.
func (a *analysis) strangers() ([][]span, bool) {
	spans := make([][]span, len(a.talk.cues))
	any := false
	heard := make([]map[int]bool, len(spans))
	for _, c := range a.corrections {
		if heard[c.place] == nil {
			heard[c.place] = make(map[int]bool)
		}
		for k := c.from; k < c.to; k++ {
			heard[c.place][k] = true
		}
	}
	small := smallLetters(a.talk.cues)
	for i, c := range a.talk.cues {
		if c.Noise {
			continue
		}
		s := &spoken{lexicon: a.lex, text: c.Text, words: splitWords(c.Text)}
		odd := func(k int) bool {
			return k >= 0 && k < len(s.words) && len(s.words[k].text) > 3 && !english(s.words[k].text) && s.strange(k) && !a.lex.nearTrade(s.words[k].text)
		}
		stranger := func(k int) bool { return odd(k) && !heard[i][k] }
		for k := range s.words {
			if odd(k) && s.surelyName(k) || stranger(k) && s.likeName(k, stranger, small) {
				spans[i] = append(spans[i], span{s.words[k].start, s.words[k].end, string(privacy.Name)})
				any = true
			}
		}
	}
	return spans, any
}

// at is the word at i, or "".
func (s *spoken) at(i int) string {
	if i < 0 || i >= len(s.words) {
		return ""
	}
	return s.words[i].text
}

// surelyName reports whether the place alone tells a name, whatever the word
// sounds like: after "I'm", an initial or a colon, before "speaking".
func (s *spoken) surelyName(k int) bool {
	before, after := s.at(k-1), s.at(k+1)
	switch {
	case before == "im" || before == "am", speaking[after] || speaking[s.at(k+2)], before == "of" && s.at(k-2) == "removed":
		return true
	case k > 0 && strings.Contains(s.text[s.words[k-1].end:s.words[k].start], ":"): // "Circulating: Petra"
		return true
	}
	return len(before) == 1 && before != "a" && before != "i" && s.capital(k-1) || k == 1 && len(before) == 1 && before >= "b" && before != "i"
}

// likeName reports whether a stranger stands where a name would.
func (s *spoken) likeName(k int, stranger func(int) bool, small bool) bool {
	if stranger(k-1) || stranger(k+1) || !small && s.capital(k) {
		return true
	}
	before, after := s.at(k-1), s.at(k+1)
	if beforePlace[before] || (partOfPlace[before] || articles[before]) && beforePlace[s.at(k-2)] {
		return true
	}
	return (before == "" || beforeName[before]) && (after == "" && before != "" || afterName[after])
}

// nearTrade reports whether a word is all but one of the trade's: misspelt or
// inflected rather than a name.
func (l *lexicon) nearTrade(w string) bool {
	sound := sounds([]string{w})
	most := 0.16 * sound.weight()
	for k := range l.tradeSounds {
		t := &l.tradeSounds[k]
		if t.initial == w[0] && unlike(sound, t.sound, most) < most {
			return true
		}
	}
	return false
}

// tradeSound is how a longer word of the trade is said.
type tradeSound struct {
	initial byte
	sound   phones
}

// addTradeSounds makes the words of the trade ready for nearTrade.
func (l *lexicon) addTradeSounds() {
	for w := range l.trade { // in any order: only whether one is near counts
		if len(w) > 4 {
			l.tradeSounds = append(l.tradeSounds, tradeSound{w[0], sounds([]string{w})})
		}
	}
}

// smallLetters reports whether a recording's cues are set without capitals, or
// each with one at its beginning only as a matter of course, so that a capital
// within a cue means little.
func smallLetters(cues []Cue) bool {
	capitals, words := 0, 0
	for _, c := range cues {
		for k, w := range splitWords(c.Text) {
			r, _ := utf8.DecodeRuneInString(c.Text[w.start:])
			if k > 0 && len(w.text) > 1 && !w.pause {
				words++
				if unicode.IsUpper(r) && strings.ToUpper(c.Text[w.start:w.end]) != c.Text[w.start:w.end] {
					capitals++
				}
			}
		}
	}
	return capitals*5 > words // capitals everywhere
}
