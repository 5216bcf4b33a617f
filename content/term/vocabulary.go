package term

import (
	"cmp"
	"slices"
)

// Vocabulary is a set of terms with its indexes. It never changes after it is
// made and is safe for concurrent use.
type Vocabulary struct {
	terms  []Term            // in vocabulary order
	byID   map[string]int    // id to place in terms
	byKind map[Kind][]Term   // each in vocabulary order
	byKey  map[string][]int  // folded name to places in terms, best first
	names  []name            // every distinct folded name, for Suggest
	order  []orderRow        // usual steps of the built-in procedures
	watch  []WatchRow        // the watch table
	rank   map[[2]string]int // (folded name, id) to the rank of that name

	idWords [][]string // the folded words of each id, by place in terms
}

// name is one folded name of one term.
type name struct {
	key     string
	letters uint32 // which letters occur in key; see letterSet
	term    int    // place in Vocabulary.terms
	rank    int    // see Term.names
}

// build indexes terms that are already known to be sound.
func build(terms []Term, order []orderRow, watch []WatchRow) *Vocabulary {
	v := &Vocabulary{
		terms: terms, order: order, watch: watch,
		byID:   make(map[string]int, len(terms)),
		byKind: make(map[Kind][]Term),
		byKey:  make(map[string][]int, 4*len(terms)),
		rank:   make(map[[2]string]int, 4*len(terms)),
	}
	for i, t := range terms {
		v.byID[t.ID] = i
		v.idWords = append(v.idWords, words(t.ID))
		v.byKind[t.Kind] = append(v.byKind[t.Kind], t)
		t.names(func(text string, rank int) { v.addName(fold(text), i, rank) })
	}
	v.addAmbiguous()
	for key, places := range v.byKey {
		slices.SortStableFunc(places, func(a, b int) int {
			return cmp.Or(
				cmp.Compare(v.rank[[2]string{key, terms[a].ID}], v.rank[[2]string{key, terms[b].ID}]),
				cmp.Compare(a, b))
		})
	}
	slices.SortFunc(v.names, func(a, b name) int {
		return cmp.Or(cmp.Compare(a.term, b.term), cmp.Compare(a.rank, b.rank), cmp.Compare(a.key, b.key))
	})
	return v
}

// addName records that key names the term at place i; a second, weaker claim
// of the same term to the same key is dropped.
func (v *Vocabulary) addName(key string, i, rank int) {
	if key == "" {
		return
	}
	claim := [2]string{key, v.terms[i].ID}
	if _, taken := v.rank[claim]; taken {
		return
	}
	v.rank[claim] = rank
	v.byKey[key] = append(v.byKey[key], i)
	v.names = append(v.names, name{key: key, letters: letterSet(key), term: i, rank: rank})
}

// Get returns the term with this id, spelt exactly so.
func (v *Vocabulary) Get(id string) (Term, bool) {
	i, ok := v.byID[id]
	if !ok {
		return Term{}, false
	}
	return v.terms[i], true
}

// All returns every term in vocabulary order.
func (v *Vocabulary) All() []Term { return slices.Clone(v.terms) }

// Of returns the terms of the given kinds, kind after kind as asked, each in
// vocabulary order; for steps that is the order of an operation, the steps of
// all procedures merged. It makes one allocation.
func (v *Vocabulary) Of(kinds ...Kind) []Term {
	n := 0
	for _, k := range kinds {
		n += len(v.byKind[k])
	}
	if n == 0 {
		return nil
	}
	terms := make([]Term, 0, n)
	for _, k := range kinds {
		terms = append(terms, v.byKind[k]...)
	}
	return terms
}
