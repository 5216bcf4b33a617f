package search

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
)

// Sizes at which a shard is closed, in bytes. A browser spends as long on the
// mere loading of a script as on 100 KB of it. Postings are all loaded, a shard at
// a time so that none keeps an old machine for long; texts only with the hits that
// they belong to, so a shard of them holds little else.
const (
	foundShard = 128 << 10
	textShard  = 24 << 10
)

// Folder is where the files lie in a handout.
const Folder = "search/"

// File is one file of the index.
type File struct {
	Path string // below the handout
	Data []byte
}

// Stats says how large an index is, in bytes.
type Stats struct {
	Covered int64 // text that can be found: titles and passages, UTF-8
	Index   int64 // words, names and postings
	Texts   int64 // titles and passages again, kept to be shown
}

// Files writes the index, once all documents are added. The first file is the one
// that is loaded first.
func (b *Builder) Files() ([]File, Stats) {
	order := b.order()
	found := b.foundShards(order)
	b.texts.end()
	texts := b.texts.shards
	titles := call("titles", b.titles)
	words := wordsFile{Docs: len(b.titles), Terms: len(b.terms), Found: found.starts, Texts: texts.starts}
	b.encodeWords(&words, order)
	files := []File{{Folder + "words.js", call("words", words)}, {Folder + "titles.js", titles}}
	stats := Stats{Covered: b.covered, Index: int64(len(files[0].Data)), Texts: int64(len(titles))}
	for i, data := range found.data {
		files = append(files, File{fmt.Sprintf("%sfound-%d.js", Folder, i), data})
		stats.Index += int64(len(data))
	}
	for i, data := range texts.data {
		files = append(files, File{fmt.Sprintf("%stext-%d.js", Folder, i), data})
		stats.Texts += int64(len(data))
	}
	return files, stats
}

// wordsFile is what words.js hands over.
type wordsFile struct {
	Docs  int    `json:"docs"`  // how many documents there are
	Terms int    `json:"terms"` // how many terms
	Words string `json:"words"` // every word, sorted and front-coded
	Sizes string `json:"sizes"` // how many documents hold each word, then each term
	Names string `json:"names"` // of each term how many names; of each how many words; their places
	Found []int  `json:"found"` // first word or term of every shard of postings
	Texts []int  `json:"texts"` // first document of every shard of texts
}

// order lists the numbers of the words that the index keeps, as they are sorted:
// those that some document holds or some name is made of, and function words,
// which a query must know to be none.
func (b *Builder) order() []int32 {
	kept := make([]bool, len(b.lexicon.words))
	for id := range b.words {
		kept[id] = len(b.postings(int32(id))) > 0
	}
	for _, names := range b.concepts.names {
		for _, name := range names {
			for _, w := range name {
				kept[w] = true
			}
		}
	}
	for w := range functionWords {
		if id, met := b.lexicon.byWord[w]; met {
			kept[id] = true
		}
	}
	var order []int32
	for id, keep := range kept {
		if keep {
			order = append(order, int32(id))
		}
	}
	slices.SortFunc(order, func(x, y int32) int { return compareUnits(b.lexicon.words[x], b.lexicon.words[y]) })
	return order
}

func (b *Builder) postings(word int32) []posting {
	if int(word) < len(b.words) {
		return b.told(b.words[word])
	}
	return nil
}

func (b *Builder) encodeWords(f *wordsFile, order []int32) {
	place := make([]int, len(b.lexicon.words))
	words := make([]string, len(order))
	var sizes, names []byte
	for i, id := range order {
		place[id] = i
		words[i] = b.lexicon.words[id]
		sizes = appendNumber(sizes, len(b.postings(id)))
	}
	for c, list := range b.concepts.names {
		sizes = appendNumber(sizes, len(b.terms[c]))
		names = appendNumber(names, len(list))
		for _, name := range list {
			names = appendNumber(names, len(name))
			for _, w := range name {
				names = appendNumber(names, place[w])
			}
		}
	}
	f.Words, f.Sizes, f.Names = string(appendWords(nil, words)), string(sizes), string(names)
}

// shards are files of one sort, with the number of the first thing in each.
type shards struct {
	starts []int
	data   [][]byte
}

func (b *Builder) foundShards(order []int32) shards {
	means := meanLengths(b.lengths)
	level := func(p posting) int { return means.level(p.counts, b.lengths[p.doc]) }
	var s shards
	var open []byte
	first := 0
	add := func(i int, list []posting) {
		if open = appendList(open, list, level); len(open) >= foundShard {
			s.close("found", first, string(open))
			open, first = open[:0], i+1
		}
	}
	for i, id := range order {
		add(i, b.postings(id))
	}
	for c, list := range b.terms {
		add(len(order)+c, list)
	}
	if len(open) > 0 {
		s.close("found", first, string(open))
	}
	return s
}

// textShards lay out the passages of documents: for every place of a page a list
// of the fragment and the passages there that are not hidden.
type textShards struct {
	shards
	open  [][][]string // of the documents of the shard that is not closed
	size  int          // of their passages, in bytes
	first int          // number of the first of them
}

// add lays out the passages of the next document.
func (s *textShards) add(passages []Passage) {
	entry := [][]string{}
	var place []string
	for _, p := range passages {
		if p.Hidden {
			continue
		}
		if place == nil || place[0] != p.Anchor {
			entry, place = appendPlace(entry, place), []string{p.Anchor}
		}
		text := p.shown()
		place = append(place, text)
		s.size += len(text)
	}
	s.open = append(s.open, appendPlace(entry, place))
	if s.size >= textShard {
		s.end()
	}
}

// end closes the shard that is open.
func (s *textShards) end() {
	if len(s.open) > 0 {
		s.close("text", s.first, s.open)
		s.open, s.size, s.first = nil, 0, s.first+len(s.open)
	}
}

// shown is a passage as a hit has it.
func (p Passage) shown() string {
	if p.Terms == "" || p.Text == "" {
		return p.Terms + p.Text
	}
	return p.Terms + " · " + p.Text
}

func appendPlace(entry [][]string, place []string) [][]string {
	if place == nil {
		return entry
	}
	return append(entry, place)
}

func (s *shards) close(kind string, first int, data any) {
	n := len(s.data)
	s.starts = append(s.starts, first)
	s.data = append(s.data, call(kind, n, data))
}

// call is a script of one statement, which hands data to the page's own script.
func call(kind string, args ...any) []byte {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false) // a file of its own, which no page holds
	fmt.Fprintf(&out, "handoutSearch(%q", kind)
	for _, a := range args {
		out.WriteByte(',')
		if err := e.Encode(a); err != nil {
			panic(err) // strings and numbers always encode
		}
		out.Truncate(out.Len() - 1) // the encoder's line end
	}
	out.WriteString(")\n")
	return bytes.Clone(out.Bytes()) // without the room that the buffer grew
}
