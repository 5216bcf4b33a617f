package term

import (
	"cmp"
	"math/bits"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/antzucaro/matchr"
)

// cutoff is the greatest distance at which a name of n folded letters still
// counts as a misspelling: short words must match closely, or "left" would be
// offered for "lens".
func cutoff(n int) int {
	switch {
	case n < 3:
		return 0
	case n <= 4:
		return 1
	case n <= 8:
		return 2
	case n <= 12:
		return 3
	}
	return 4
}

// distance is the optimal string alignment distance (insertions, deletions,
// substitutions and swaps of neighbours) of two folded keys, and whether it is
// at most limit and within the cut-off of the shorter.
func distance(a, b string, limit int) (int, bool) {
	na, nb := utf8.RuneCountInString(a), utf8.RuneCountInString(b)
	limit = min(limit, cutoff(min(na, nb)))
	if max(na, nb)-min(na, nb) > limit {
		return 0, false
	}
	d := matchr.OSA(a, b)
	return d, d <= limit
}

// Suggest returns the id an author most likely meant by word, among terms of
// the given kinds (none means all). A right name gives its id at once. Else a
// near miss (see [Nearest]) of any name counts, then an id that word contains
// or that word begins or ends, when only one does: "nuclear" for
// nuclear-cataract, "phaco-divide-and-conquer" for divide-and-conquer. Ties go
// to the smaller distance, then to an id before a label, abbreviation or
// synonym, then to vocabulary order. The answer never depends on anything else.
func (v *Vocabulary) Suggest(word string, kinds ...Kind) (id string, ok bool) {
	for _, i := range v.find(word) {
		if t := v.terms[i]; wanted(t.Kind, kinds) {
			return t.ID, true
		}
	}
	key := fold(word)
	near, d := v.nearest(key, kinds)
	if near != "" && d <= max(1, len(key)/8) {
		return near, true
	}
	if part := v.partOf(words(word), kinds); part != "" {
		return part, true
	}
	return near, near != ""
}

// nearest returns the id and distance of the best near miss, or "".
func (v *Vocabulary) nearest(key string, kinds []Kind) (string, int) {
	best, bestDistance, bestRank := "", 0, 0
	limit := cutoff(utf8.RuneCountInString(key))
	letters := letterSet(key)
	for _, n := range v.names {
		t := &v.terms[n.term]
		// One edit changes at most two members of the set of letters used.
		if bits.OnesCount32(letters^n.letters) > 2*limit || !wanted(t.Kind, kinds) {
			continue
		}
		d, ok := distance(key, n.key, limit)
		if ok && (best == "" || d < bestDistance || n.rank < bestRank) {
			best, bestDistance, bestRank = t.ID, d, n.rank
			limit = d // from here on only as near or nearer will do
		}
	}
	return best, bestDistance
}

// partOf returns the only id of which word is the first or last part, or the
// longest id that word contains and that makes up at least half of it.
func (v *Vocabulary) partOf(word []string, kinds []Kind) string {
	size := len(strings.Join(word, ""))
	if size < 4 {
		return ""
	}
	whole, wholes, part := "", 0, ""
	for i, id := range v.idWords {
		t := &v.terms[i]
		if !wanted(t.Kind, kinds) {
			continue
		}
		switch {
		case len(id) > len(word) && (slices.Equal(id[:len(word)], word) || slices.Equal(id[len(id)-len(word):], word)):
			whole = t.ID
			wholes++
		case len(id) < len(word) && contains(word, id) && len(t.ID) > len(part) && 2*len(strings.Join(id, "")) >= size:
			part = t.ID
		}
	}
	if wholes == 1 {
		return whole
	}
	return part
}

// contains reports whether part occurs in word as a run of whole words.
func contains(word, part []string) bool {
	for i := 0; i+len(part) <= len(word); i++ {
		if slices.Equal(word[i:i+len(part)], part) {
			return true
		}
	}
	return false
}

func wanted(k Kind, kinds []Kind) bool { return len(kinds) == 0 || slices.Contains(kinds, k) }

// Nearest returns the candidate (a key, an enumeration's word) that word most
// likely means: equal after folding, else the one at the smallest distance
// within the cut-off that [Vocabulary.Suggest] uses. Ties go to the candidate
// that sorts first, whatever the order they are given in.
func Nearest(word string, candidates []string) (string, bool) {
	key := fold(word)
	best, bestDistance := "", 0
	for _, c := range candidates {
		k := fold(c)
		d, ok := 0, k == key && key != ""
		if !ok {
			d, ok = distance(key, k, len(key))
		}
		if ok && (best == "" || cmp.Or(cmp.Compare(d, bestDistance), cmp.Compare(c, best)) < 0) {
			best, bestDistance = c, d
		}
	}
	return best, best != ""
}
