package privacy

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// role is a set of things a word can be to the rules; see lexicon.go.
type role uint64

// flag is a set of facts about the shape and the place of a token.
type flag uint16

const (
	hasDigit  flag = 1 << iota // holds a digit
	hasLetter                  // holds a letter
	firstUp                    // begins with a capital letter
	allUp                      // two or more letters, all capital
	blockHead                  // first of a line or block
	sentHead                   // first of a sentence, or of a block
	shielded                   // a shape of the trade: not an identifier unless labelled
	inRefs                     // below a References heading, or under the key sources
	inAuthors                  // under authors, reviewers …
	inDates                    // under a key that may carry a full date
	inTimes                    // a timing line, or a time of a timeline
	inMatch                    // the match text of a reviewed exception
	inHeading                  // in a heading
	inURL                      // in a web address
	labelled                   // part of a labelled value already found
	wide                       // holds letters beyond ASCII
)

// token is a run of letters and digits; what lies between two is their gap.
type token struct {
	a, b  int32
	flag  flag
	roles role
}

func (t token) is(f flag) bool    { return t.flag&f != 0 }
func (t token) any(r role) bool   { return t.roles&r != 0 }
func (t token) digits() bool      { return t.flag&(hasDigit|hasLetter) == hasDigit }
func (t token) word() bool        { return t.flag&(hasDigit|hasLetter) == hasLetter }
func (t token) capitalised() bool { return t.flag&(hasDigit|hasLetter|firstUp) == hasLetter|firstUp }
func (t token) mixed() bool       { return t.flag&(hasDigit|hasLetter) == hasDigit|hasLetter }
func (t token) len() int          { return int(t.b - t.a) }
func (t token) titleCase() bool   { return t.capitalised() && !t.is(allUp) }

// byteKind sorts ASCII for the tokeniser.
var byteKind = func() (t [256]flag) {
	for c := '0'; c <= '9'; c++ {
		t[c] = hasDigit
	}
	for c := 'a'; c <= 'z'; c++ {
		t[c] = hasLetter
		t[c-32] = hasLetter | firstUp
	}
	return
}()

// readToken reads letters and digits from i on; marks belong to the letter
// before them.
func readToken(s string, i int) (token, int) {
	t := token{a: int32(i)}
	letters, capitals := 0, 0
	for i < len(s) {
		c := s[i]
		if c < utf8.RuneSelf {
			k := byteKind[c]
			if k == 0 {
				break
			}
			if k&hasLetter != 0 {
				letters++
				if k&firstUp != 0 {
					capitals++
					if letters == 1 {
						t.flag |= firstUp
					}
				}
			}
			t.flag |= k & (hasDigit | hasLetter)
			i++
			continue
		}
		r, size := utf8.DecodeRuneInString(s[i:])
		if !unicode.IsLetter(r) && (letters == 0 || !unicode.IsMark(r)) {
			if i == int(t.a) {
				return token{}, i + size
			}
			break
		}
		letters++
		if unicode.IsUpper(r) {
			capitals++
			if letters == 1 {
				t.flag |= firstUp
			}
		}
		t.flag |= hasLetter | wide
		i += size
	}
	if letters > 1 && capitals == letters {
		t.flag |= allUp
	}
	t.b = int32(i)
	return t, i
}

// headFlags says whether a token after this gap begins a block or a sentence.
func headFlags(gap string) flag {
	stop, blank, open := false, false, false
	for i := max(0, len(gap)-64); i < len(gap); i++ {
		switch gap[i] {
		case '\n', '|':
			return blockHead | sentHead
		case '.', '!', '?', ':':
			stop = true
		case ' ':
			blank = true
		case '"', '(', '[', ';':
			open = true
		}
	}
	if stop && blank || open {
		return sentHead
	}
	return 0
}

// lower appends the lower-case form of s to buf.
func lower(buf []byte, s string) []byte {
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c >= utf8.RuneSelf {
			return append(buf[:0], strings.ToLower(s)...)
		}
		if c >= 'A' && c <= 'Z' {
			c += 32
		}
		buf = append(buf, c)
	}
	return buf
}
