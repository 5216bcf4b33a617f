package privacy

import "bytes"

// chunk is what stands between two lines that begin with the tag of a block:
// most lines of a page, and most of them stand in other pages too. What the
// lexer does with a chunk rests on its bytes alone where no zone is set and no
// heading open, but for the level of the references' heading, which goes into
// the sum. So a chunk that was read to its end, that changed none of this and
// in which nothing was found is passed over when it comes again.
type chunk struct {
	open  bool
	sum   uint64
	end   int // where the next begins
	found int // how many findings came before
	refs  int
}

// plainRules says whether a chunk may begin or end here.
func (m *markup) plainRules() bool { return len(m.scopes) == 0 && m.level == 0 }

// chunkAt ends the chunk before i and begins one there, if one may begin at
// the < at i. It returns where the tag begins that is to be read next: behind all
// chunks from i on that are known, or i.
func (m *markup) chunkAt(i int) int {
	if i == 0 || m.data[i-1] != '\n' || !m.plainRules() || !beginsBlock(m.data[i:]) {
		return i
	}
	m.end()
	silent := m.o.silent
	if c := m.chunk; c.open && c.end == i && c.refs == m.refs && c.found == len(m.found) {
		silent.add(c.sum)
	}
	for {
		end, last := m.nextBlock(i)
		if last {
			m.chunk.open = false
			return i
		}
		sum := silent.sum(m.data[i:end], chunkWay+uint64(m.refs))
		if !silent.has(sum) {
			m.chunk = chunk{true, sum, end, len(m.found), m.refs}
			return i
		}
		i = end
	}
}

// chunkWay sets the sums of chunks apart from those of texts.
const chunkWay = 0x9e3779b97f4a7c15

// nextBlock is where the first line after i begins that starts with the tag of
// a block; last says that there is none.
func (m *markup) nextBlock(i int) (end int, last bool) {
	for {
		k := bytes.IndexByte(m.data[i:], '\n')
		if k < 0 {
			return 0, true
		}
		if i += k + 1; beginsBlock(m.data[i:]) {
			return i, false
		}
	}
}

// beginsBlock says whether data begin with a tag that ends the text before it,
// whatever that is. The end of a heading does more.
func beginsBlock(data []byte) bool {
	n := 1
	if len(data) < 3 || data[0] != '<' {
		return false
	}
	closes := data[1] == '/'
	if closes {
		n = 2
	}
	if data[n] < 'a' || data[n] > 'z' {
		return false
	}
	kind := kindOf(data[n:nameEnd(data, n)])
	return kind != joinedTag && kind != breakTag && !(closes && kind.level() > 0)
}
