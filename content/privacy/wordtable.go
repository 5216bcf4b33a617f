package privacy

import "strings"

// wordTable is a fixed hash table of lower-case words. Every word of every text
// is looked up in it once, which is the larger part of a scan, so it hashes and
// folds case in one pass instead of building a key for a map.
type wordTable struct {
	slots []wordSlot
	mask  uint32
}

type wordSlot struct {
	word  string
	roles role
}

// newWordTable copies a map, at a load of a quarter or less.
func newWordTable(m map[string]role) wordTable {
	size := uint32(16)
	for size < uint32(4*len(m)) {
		size *= 2
	}
	t := wordTable{make([]wordSlot, size), size - 1}
	for w, r := range m {
		i := hashWord(w) & t.mask
		for t.slots[i].word != "" {
			i = (i + 1) & t.mask
		}
		t.slots[i] = wordSlot{w, r}
	}
	return t
}

// hashWord is FNV-1a, 32 bits.
func hashWord(w string) uint32 {
	h := uint32(2166136261)
	for i := range len(w) {
		h = (h ^ uint32(w[i])) * 16777619
	}
	return h
}

// find returns the roles of a word in lower case.
func (t *wordTable) find(w []byte, h uint32) role {
	for i := h & t.mask; ; i = (i + 1) & t.mask {
		s := &t.slots[i]
		if s.word == "" {
			return 0
		}
		if s.word == string(w) {
			return s.roles
		}
	}
}

// lookup folds the case of word and returns its roles; a plural that is not in
// the table is read as its singular.
func (t *wordTable) lookup(word string) role {
	if len(word) > 40 {
		return 0
	}
	var buf [48]byte
	w := buf[:0]
	h := uint32(2166136261)
	for i := range len(word) {
		c := word[i]
		if c >= 0x80 {
			low := strings.ToLower(word)
			w = append(buf[:0], low...)
			h = hashWord(low)
			break
		}
		if c >= 'A' && c <= 'Z' {
			c += 32
		}
		w = append(w, c)
		h = (h ^ uint32(c)) * 16777619
	}
	r := t.find(w, h)
	if n := len(w); r == 0 && n > 4 && w[n-1] == 's' {
		r = t.find(w[:n-1], hashWord(string(w[:n-1]))) & (rPlain | rTrade | rNoun | rRole)
		if r == 0 && w[n-2] == 'e' {
			r = t.find(w[:n-2], hashWord(string(w[:n-2]))) & (rPlain | rTrade | rNoun)
		}
	}
	return r
}
