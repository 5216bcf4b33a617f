package privacy

import "strings"

// wordTable is a fixed hash table of lower-case words. Every word of every text
// is looked up in it once, which is a large part of a scan, so a word of up to
// sixteen bytes is read, folded and compared as two numbers.
type wordTable struct {
	slots []wordSlot
	mask  uint64
	long  map[string]role // words of more bytes
}

// packed is a word of up to sixteen bytes; the rest of them are 0.
type packed struct{ lo, hi uint64 }

type wordSlot struct {
	word  packed
	roles role
}

// newWordTable copies a map, at a load of a half or less.
func newWordTable(m map[string]role) wordTable {
	size := 16
	for size < 2*len(m) {
		size *= 2
	}
	t := wordTable{slots: make([]wordSlot, size), mask: uint64(size - 1), long: map[string]role{}}
	for w, r := range m {
		if len(w) > 16 {
			t.long[w] = r
			continue
		}
		word := pack(w, 0, len(w))
		i := word.place()
		for t.slots[i&t.mask].word != (packed{}) {
			i++
		}
		t.slots[i&t.mask] = wordSlot{word, r}
	}
	return t
}

// pack reads the n bytes of s from a on, one to sixteen.
func pack(s string, a, n int) packed {
	if n > 8 {
		return packed{eight(s, a), eight(s, a+8) & first(n-8)}
	}
	return packed{eight(s, a) & first(n), 0}
}

// eight reads eight bytes, or those that are left.
func eight(s string, a int) (v uint64) {
	if a+8 <= len(s) {
		b := s[a : a+8]
		return uint64(b[0]) | uint64(b[1])<<8 | uint64(b[2])<<16 | uint64(b[3])<<24 | uint64(b[4])<<32 | uint64(b[5])<<40 | uint64(b[6])<<48 | uint64(b[7])<<56
	}
	for k := a; k < len(s); k++ {
		v |= uint64(s[k]) << (8 * (k - a))
	}
	return v
}

// first has the bits of the first n bytes, n up to eight.
func first(n int) uint64 { return 1<<(8*n) - 1 }

// smallLetters is the bit in which ASCII letters differ from their capitals, and
// which all figures have.
const smallLetters = 0x2020202020202020

// folded is a word of n ASCII letters and figures in small letters.
func (w packed) folded(n int) packed {
	return packed{w.lo | smallLetters&first(min(n, 8)), w.hi | smallLetters&first(max(n-8, 0))}
}

// cut is a word without what stands behind its first n bytes.
func (w packed) cut(n int) packed {
	return packed{w.lo & first(min(n, 8)), w.hi & first(max(n-8, 0))}
}

// place is where the search for a word begins.
func (w packed) place() uint64 {
	return (w.lo ^ w.hi*0x9e3779b97f4a7c15) * 0xd6e8feb86659fd93 >> 32
}

// find returns the roles of a word in small letters.
func (t *wordTable) find(w packed) role {
	for i := w.place(); ; i++ {
		switch s := &t.slots[i&t.mask]; s.word {
		case w:
			return s.roles
		case packed{}:
			return 0
		}
	}
}

// lookup returns the roles of the token's word, of whatever case; a plural that
// is not in the table is read as its singular.
func (t *wordTable) lookup(s string, tok token) role {
	n := tok.len()
	if n > 16 || tok.is(wide) {
		return t.lookupLong(s[tok.a:tok.b])
	}
	return t.singularOf(pack(s, int(tok.a), n).folded(n), n)
}

// singularOf returns the roles of a word of n bytes in small letters, or those of
// its singular.
func (t *wordTable) singularOf(w packed, n int) role {
	if r := t.find(w); r != 0 {
		return r
	}
	if n > 4 && w.ends('s', n) {
		if r := t.find(w.cut(n-1)) & singular; r != 0 {
			return r
		}
		if w.cut(n-1).ends('e', n-1) {
			return t.find(w.cut(n-2)) & (singular &^ rRole)
		}
	}
	return 0
}

// singular are the roles that a plural has of its singular; one in -es has no
// rRole.
const singular = rPlain | rTrade | rNoun | rRole

// ends says whether the last of a word's n bytes is c.
func (w packed) ends(c byte, n int) bool {
	if n > 8 {
		return byte(w.hi>>(8*(n-9))) == c
	}
	return byte(w.lo>>(8*(n-1))) == c
}

// lookupLong is lookup for words of more than sixteen bytes or beyond ASCII.
func (t *wordTable) lookupLong(word string) role {
	if len(word) > 40 {
		return 0
	}
	low := strings.ToLower(word)
	if r := t.findLong(low); r != 0 {
		return r
	}
	if stem, ok := strings.CutSuffix(low, "s"); ok && len(low) > 4 {
		if r := t.findLong(stem) & singular; r != 0 {
			return r
		}
		if stem, ok = strings.CutSuffix(stem, "e"); ok {
			return t.findLong(stem) & (singular &^ rRole)
		}
	}
	return 0
}

func (t *wordTable) findLong(low string) role {
	if n := len(low); n <= 16 {
		return t.find(pack(low, 0, n))
	}
	return t.long[low]
}
