package search

import (
	"strings"
	"unicode/utf8"
)

// lexicon numbers index words in the order in which they are met, and remembers
// into which words each run of letters folds, so that a run is folded once.
type lexicon struct {
	byWord map[string]int32
	words  []string
	single []bool // one letter or figure of a script that has spaces
	skip   []bool // numbers, single letters, function words: no posting is kept for them
	runs   map[string][]int32
}

func newLexicon() *lexicon {
	return &lexicon{byWord: map[string]int32{}, runs: map[string][]int32{}}
}

// word is the number of an index word.
func (l *lexicon) word(w string) int32 {
	id, ok := l.byWord[w]
	if !ok {
		id = int32(len(l.words))
		l.byWord[w] = id
		first, size := utf8.DecodeRuneInString(w)
		single := size == len(w) && !isUnspaced(first)
		l.words = append(l.words, w)
		l.single = append(l.single, single)
		l.skip = append(l.skip, single || isNumber(w) || functionWords[w])
	}
	return id
}

// of returns the numbers of the index words of a text, in buf.
func (l *lexicon) of(text string, buf []int32) []int32 {
	eachRun(text, func(run string) {
		ids, known := l.runs[run]
		if !known {
			for _, w := range foldRun(run) {
				ids = append(ids, l.word(w))
			}
			l.runs[run] = ids
		}
		buf = append(buf, ids...)
	})
	return buf
}

// functionWords are English words that say how others hang together; common
// practice, no source. They are left out in every language: there they are
// either no words at all or as common.
var functionWords = func() map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(`
		about after again all also although an and any are as at be because been before being both but by can could
		did do does done during each for from had has have he her here his how if in into is it its itself just may
		might more most must no nor not of off on once only or other our out over own same she should so some such than
		that the their them then there these they this those through to too until up upon very was we were what when
		where which while who whose why will with within without would you your`) {
		set[stem(fold(w))] = true
	}
	return set
}()
