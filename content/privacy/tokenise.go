package privacy

import (
	"math/bits"
	"strings"
	"unicode/utf8"
)

// sign is a set of what stands between words.
type sign uint8

const (
	atSign     sign = 1 << iota
	slashSign       // /
	colonSign       // :
	openSign        // (
	lineSign        // a line end
	linkedSign      // colons or hyphens follow one another as in addresses of machines
	foldedSign      // the normaliser may have something to do here
)

// signOf sorts what is no letter or figure.
var signOf = func() (t [256]sign) {
	t['@'], t['/'], t[':'], t['('], t['\n'] = atSign, slashSign, colonSign, openSign, lineSign
	for c := range t {
		if unusual[c] {
			t[c] |= foldedSign
		}
	}
	return
}()

// tokenise splits the text and gives each word its roles. It lists the tokens
// that any rule begins with, which are few in most sentences. When asIs is set
// the text has not been normalised: at the first place where that may change it
// the work ends, and the answer is no.
func (p *passage) tokenise(asIs bool) bool {
	s, toks, starts, signs := p.s, p.toks[:0], p.starts[:0], sign(0)
	end, run, spaced := 0, 0, false // of the token before
	for i := 0; i < len(s); {
		if c := s[i]; byteKind[c] == 0 {
			if sign := signOf[c]; sign != 0 {
				if asIs && sign&foldedSign != 0 && changes(s, i) {
					return false
				}
				signs |= sign
			}
			if c < utf8.RuneSelf {
				i++
				continue
			}
		}
		t, next := p.readWord(s, i)
		switch {
		case asIs && t.is(wide):
			return false
		case t.b == t.a:
			i = next
			continue
		case spaced: // one blank and no more before it, as before most words
			run = 0
		case len(toks) == 0:
			t.flag |= blockHead | sentHead
		default:
			gap := s[end:t.a]
			t.flag |= headFlags(gap)
			if run = linked(gap, run); run > 4 {
				signs |= linkedSign
			}
		}
		if t.roles&startRoles != 0 || t.is(hasDigit|firstUp) {
			starts = append(starts, int32(len(toks)))
		}
		toks = append(toks, t)
		i, end = next, next
		if spaced = next+1 < len(s) && s[next] == ' ' && byteKind[s[next+1]] != 0; spaced {
			i++
		}
	}
	p.toks, p.starts, p.signs = toks, starts, signs
	return true
}

// linked counts the gaps in a row that are one colon or hyphen, as in addresses
// of machines: there were run before this one. Two colons count as many.
func linked(gap string, run int) int {
	switch gap {
	case ":", "-":
		return run + 1
	case "::":
		return 5
	}
	return 0
}

// readWord is readToken with the roles of the word. A word in small letters, or
// with one capital before them, is read eight bytes at a time.
func (p *passage) readWord(s string, i int) (token, int) {
	w := packed{lo: eight(s, i)}
	f := hasLetter
	if c := byte(w.lo); c >= 'A' && c <= 'Z' {
		f = hasLetter | firstUp
		w.lo |= 0x20
	}
	n := smalls(w.lo)
	if n == 8 && i+8 < len(s) {
		w.hi = eight(s, i+8)
		n += smalls(w.hi)
	}
	if k := i + n; n == 0 || n == 16 || k < len(s) && (byteKind[s[k]] != 0 || s[k] >= utf8.RuneSelf) {
		t, next := readToken(s, i)
		if t.is(hasLetter) {
			t.roles = p.sc.table.lookup(s, t)
		}
		return t, next
	}
	return token{a: int32(i), b: int32(i + n), flag: f, roles: p.sc.table.singularOf(w.cut(n), n)}, i + n
}

// smalls counts the small letters at the start of eight bytes.
func smalls(v uint64) int {
	const high, ones = 0x8080808080808080, 0x0101010101010101
	low := v &^ high
	small := (low + (0x80-'a')*ones) &^ (low + (0x80-'z'-1)*ones) &^ v & high
	return bits.TrailingZeros64(^small&high) / 8
}

// changes says whether normalising may change the unusual byte at i of a text
// that it has not changed before. It may say yes too often.
func changes(s string, i int) bool {
	switch s[i] {
	case ' ':
		return i+1 < len(s) && blankBytes[s[i+1]]
	case '%':
		return strings.HasPrefix(s[i:], "%20")
	case '[':
		return strings.HasPrefix(s[i:], "[.]")
	case '_':
		return i == 0 || i+1 == len(s) || !isWordByte(s[i-1]) || !isWordByte(s[i+1])
	}
	return true
}
