package search

import (
	"slices"
	"strings"

	"caseleaf/content/term"
)

// concepts are the terms of a vocabulary as searching sees them: each with its
// names as lists of index words, by their numbers in a lexicon.
type concepts struct {
	lexicon *lexicon
	byID    map[string]int32
	names   [][][]int32 // of each concept, in the order of the vocabulary
	// starts files every name under its first word, the longest first. Words
	// that begin no name, and those met later, lie beyond its end or have none.
	starts [][]conceptName
}

type conceptName struct {
	words   []int32
	concept int32
}

// newConcepts reads the right names of every term: label, abbreviation and
// synonyms. Mishearings are nobody's right name and are left out.
func newConcepts(terms []term.Term, l *lexicon) *concepts {
	c := &concepts{lexicon: l, byID: map[string]int32{}}
	for i, t := range terms {
		c.byID[t.ID] = int32(i)
		c.names = append(c.names, nil)
		for _, name := range append([]string{t.Label, t.Abbreviation}, t.Synonyms...) {
			c.add(int32(i), Words(name))
		}
	}
	for _, list := range c.starts {
		slices.SortStableFunc(list, func(a, b conceptName) int { return len(b.words) - len(a.words) })
	}
	return c
}

// add files one name. A short name that is written in parts, such as I/A, is
// also filed as one word.
func (c *concepts) add(concept int32, words []string) {
	var ids []int32
	for _, w := range words {
		ids = append(ids, c.lexicon.word(w))
	}
	if len(ids) == 0 || slices.ContainsFunc(c.names[concept], func(n []int32) bool { return slices.Equal(n, ids) }) {
		return
	}
	c.names[concept] = append(c.names[concept], ids)
	for len(c.starts) <= int(ids[0]) {
		c.starts = append(c.starts, nil)
	}
	c.starts[ids[0]] = append(c.starts[ids[0]], conceptName{ids, concept})
	if joined := strings.Join(words, ""); len(words) > 1 && len(joined) <= 5 {
		c.add(concept, []string{joined})
	}
}

// in calls yield with every concept that a run of words names; of names that
// overlap the longest counts. A single letter names nothing in running text.
func (c *concepts) in(words []int32, yield func(concept int32)) {
	for i := 0; i < len(words); {
		taken := 1
		if int(words[i]) < len(c.starts) {
			for _, n := range c.starts[words[i]] {
				if len(n.words) < taken || !beginsWith(words[i:], n.words) || len(n.words) == 1 && c.lexicon.single[words[i]] {
					continue
				}
				taken = len(n.words)
				yield(n.concept)
			}
		}
		i += taken
	}
}

func beginsWith(words, name []int32) bool {
	return len(words) >= len(name) && slices.Equal(words[:len(name)], name)
}
