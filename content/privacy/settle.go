package privacy

import (
	"cmp"
	"slices"
)

// add records a hit over tokens i to j, both included.
func (p *passage) add(rule ruleID, i, j int) {
	p.addBytes(rule, int(p.toks[i].a), int(p.toks[j].b))
}

// addLabelled records a labelled value; the shape rules leave its tokens alone.
func (p *passage) addLabelled(rule ruleID, i, j int) {
	for k := i; k <= j; k++ {
		p.toks[k].flag |= labelled
	}
	p.add(rule, i, j)
}

// addBytes records a hit over bytes a to b of the normalised copy.
func (p *passage) addBytes(rule ruleID, a, b int) {
	if a < b {
		p.hits = append(p.hits, hit{rule, int32(a), int32(b)})
	}
}

// settle turns hits into findings without overlaps: the longest span wins,
// then the earlier stage. A hit of another class that lies inside a longer one
// is dropped, unless the longer is only a guess and the shorter is none.
func (p *passage) settle(back offsets) []Finding {
	if len(p.hits) == 0 {
		return nil
	}
	slices.SortStableFunc(p.hits, func(x, y hit) int {
		return cmp.Or(cmp.Compare(guess(x), guess(y)), cmp.Compare(y.b-y.a, x.b-x.a),
			cmp.Compare(ruleTable[x.rule].stage, ruleTable[y.rule].stage), cmp.Compare(x.a, y.a), cmp.Compare(x.rule, y.rule))
	})
	kept := p.hits[:0:0]
	var taken spans
	for _, h := range p.hits {
		if !taken.overlap(h.a, h.b) {
			taken.add(h.a, h.b)
			kept = append(kept, h)
		}
	}
	slices.SortFunc(kept, func(x, y hit) int { return cmp.Compare(x.a, y.a) })
	out := make([]Finding, len(kept))
	for k, h := range kept {
		r := ruleTable[h.rule]
		out[k] = Finding{r.Class, back.start(int(h.a)), back.end(int(h.b)), r.Severity, r.ID}
	}
	return out
}

// guess ranks the surer stages alike, then byGuess, then byHunch.
func guess(h hit) stage { return max(ruleTable[h.rule].stage, byShape) }

// word is the text of token i, or "" outside the text.
func (p *passage) word(i int) string {
	if i < 0 || i >= len(p.toks) {
		return ""
	}
	return p.s[p.toks[i].a:p.toks[i].b]
}

// low is the lower-case text of token i.
func (p *passage) low(i int) string {
	w := p.word(i)
	for k := 0; k < len(w); k++ {
		if w[k] >= 0x80 || w[k] >= 'A' && w[k] <= 'Z' {
			return string(lower(nil, w))
		}
	}
	return w
}

// tok is token i, or an empty token outside the text.
func (p *passage) tok(i int) token {
	if i < 0 || i >= len(p.toks) {
		return token{}
	}
	return p.toks[i]
}

// gap is what stands before token i. At the ends of the text it is a line end,
// so that nothing runs over them.
func (p *passage) gap(i int) string {
	if i <= 0 || i >= len(p.toks) {
		return "\n"
	}
	return p.s[p.toks[i-1].b:p.toks[i].a]
}

// after is what stands after token i up to the next one or the end.
func (p *passage) after(i int) string {
	if i+1 < len(p.toks) {
		return p.s[p.toks[i].b:p.toks[i+1].a]
	}
	return p.s[p.toks[i].b:]
}

// is says whether token i is one of the words, in lower case.
func (p *passage) is(i int, words ...string) bool {
	if i < 0 || i >= len(p.toks) || !p.toks[i].is(hasLetter) {
		return false
	}
	w := p.word(i)
	for _, x := range words {
		if len(x) == len(w) && equalFold(w, x) {
			return true
		}
	}
	return false
}

// same says whether token i is this word, in lower case.
func (p *passage) same(i int, word string) bool {
	w := p.word(i)
	return len(w) == len(word) && equalFold(w, word) || p.tok(i).is(wide) && p.low(i) == word
}

// in says whether token i, in lower case, is one of the words.
func (p *passage) in(i int, words map[string]bool) bool {
	var buf [48]byte
	return words[string(lower(buf[:0], p.word(i)))]
}

// equalFold compares w with the lower-case x of equal length, ASCII case folded.
func equalFold(w, x string) bool {
	for k := 0; k < len(w); k++ {
		c := w[k]
		if c >= 'A' && c <= 'Z' {
			c += 32
		}
		if c != x[k] {
			return false
		}
	}
	return true
}

// number is the value of an all-digit token of at most nine digits, else -1.
func (p *passage) number(i int) int {
	if i < 0 || i >= len(p.toks) || !p.toks[i].digits() || p.toks[i].len() > 9 {
		return -1
	}
	n := 0
	for _, c := range []byte(p.word(i)) {
		n = n*10 + int(c-'0')
	}
	return n
}

// spans is a set of bytes as bits; a look-up costs the length of the hit, so
// that many hits cost no more than their sum.
type spans map[int32]uint64

func (s spans) overlap(a, b int32) bool {
	for k := a / 64; k <= (b-1)/64; k++ {
		if s[k]&span(k, a, b) != 0 {
			return true
		}
	}
	return false
}

func (s *spans) add(a, b int32) {
	if *s == nil {
		*s = spans{}
	}
	for k := a / 64; k <= (b-1)/64; k++ {
		(*s)[k] |= span(k, a, b)
	}
}

// span is the part of a to b that lies in the k-th 64 bytes.
func span(k, a, b int32) uint64 {
	lo, hi := max(a-k*64, 0), min(b-k*64, 64)
	return ^uint64(0) >> (64 - uint(hi-lo)) << uint(lo)
}
