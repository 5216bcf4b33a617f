package search

import (
	"slices"

	"caseleaf/content/term"
)

// Builder takes documents in and gives the files of an index out. It is for one
// goroutine. A document's place in the order of adding breaks ties in ranking,
// so what should come first among equals is added first.
type Builder struct {
	lexicon  *lexicon
	concepts *concepts
	titles   [][]string // of each document: title, kind and path
	texts    textShards
	lengths  []lengths
	words    [][]posting // by word number
	terms    [][]posting // by concept

	seenWords, seenTerms tallySheet
	buffer               []int32
	covered              int64
}

// posting says how often a word stands in the fields of a document.
type posting struct {
	doc    int32
	counts counts
}

// NewBuilder makes a builder that knows the names of these terms.
func NewBuilder(terms []term.Term) *Builder {
	l := newLexicon()
	c := newConcepts(terms, l)
	return &Builder{lexicon: l, concepts: c, terms: make([][]posting, len(c.names))}
}

// Add counts one document and lays out its passages; it keeps nothing else of it.
func (b *Builder) Add(d Document) {
	doc := int32(len(b.titles))
	var length lengths
	b.count(Title, d.Title, &length)
	b.countID(d.ID)
	if c, ok := b.concepts.byID[d.Term]; ok {
		b.seenTerms.add(c, Title)
	}
	for _, id := range d.Tags {
		if c, ok := b.concepts.byID[id]; ok {
			b.seenTerms.add(c, Named)
		}
	}
	for _, p := range d.Passages {
		b.count(p.Field, p.Text, &length)
	}
	b.words = b.seenWords.flush(doc, b.words)
	b.terms = b.seenTerms.flush(doc, b.terms)
	b.titles = append(b.titles, []string{d.Title, d.Kind, d.Path})
	b.texts.add(d.Passages)
	b.lengths = append(b.lengths, length)
}

func (b *Builder) count(f Field, text string, length *lengths) {
	b.covered += int64(len(text))
	words := b.lexicon.of(text, b.buffer[:0])
	b.buffer = words
	length[f] += uint32(len(words))
	for _, w := range words {
		if !b.lexicon.skip[w] {
			b.seenWords.add(w, f)
		}
	}
	b.concepts.in(words, func(c int32) { b.seenTerms.add(c, f) })
}

// countID files a document under its id as one word: HB-007 is hb007, which the
// script also makes of what a reader types with a hyphen or a space.
func (b *Builder) countID(id string) {
	joined := ""
	for _, w := range Words(id) {
		joined += w
	}
	if joined != "" && !isNumber(joined) {
		b.seenWords.add(b.lexicon.word(cut(joined)), Title)
	}
}

// common is the part of all documents beyond which a word is too common for its
// place in a story to say anything: it is then kept only where it stands in a
// title, a name, a sign or a lesson.
const common = 1.0 / 8

// told keeps of a list what is worth a posting.
func (b *Builder) told(list []posting) []posting {
	if float64(len(list)) <= common*float64(len(b.titles)) {
		return list
	}
	return slices.DeleteFunc(slices.Clone(list), func(p posting) bool {
		p.counts[Text] = 0
		return p.counts == counts{}
	})
}

// tallySheet counts what one document holds, by number.
type tallySheet struct {
	counts  []counts
	touched []int32
}

func (s *tallySheet) add(id int32, f Field) {
	for int(id) >= len(s.counts) {
		s.counts = append(s.counts, make([]counts, len(s.counts)+64)...)
	}
	c := &s.counts[id]
	if *c == (counts{}) {
		s.touched = append(s.touched, id)
	}
	if c[f] < 255 {
		c[f]++
	}
}

// flush moves the counts of a document into the lists and clears the sheet.
func (s *tallySheet) flush(doc int32, lists [][]posting) [][]posting {
	for _, id := range s.touched {
		for int(id) >= len(lists) {
			lists = append(lists, nil)
		}
		lists[id] = append(lists[id], posting{doc, s.counts[id]})
		s.counts[id] = counts{}
	}
	s.touched = s.touched[:0]
	return lists
}
