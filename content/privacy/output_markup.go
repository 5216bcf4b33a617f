package privacy

import "strings"

// markup reads HTML or SVG and scans it block by block.
type markup struct {
	o      *Output
	data   []byte
	text   stitched // since the last block began
	value  stitched // of an attribute
	zone   Zone
	base   flag
	way    uint64 // sum of zone and base
	refs   int    // level of the References heading that is open, or 0
	level  int    // of the heading that is being read, or 0
	scopes []scope
	found  []Finding
	chunk  chunk
}

// scope is an element with data-zone that is open.
type scope struct {
	tag   string
	depth int // elements of the same name open inside it
	zone  Zone
	base  flag
}

// inScope says whether the innermost scope is an element of this name.
func (m *markup) inScope(tag string) bool {
	n := len(m.scopes)
	return n > 0 && m.scopes[n-1].tag == tag
}

// end scans the run of text that ends here.
func (m *markup) end() {
	if len(m.text.text) > 2 {
		m.scan(&m.text, m.level)
	}
	m.text.clear()
}

// scan scans a text; level is that of the heading that it is, or 0.
func (m *markup) scan(s *stitched, level int) {
	zone, way := m.zone, m.way
	if m.refs > 0 && level == 0 && zone == Body {
		zone = Reference
		way = m.o.silent.way(zone, m.base)
	}
	m.found = append(m.found, m.o.block(s, zone, m.base, way)...)
}

// rules sets by which rules the text is read from here on.
func (m *markup) rules(zone Zone, base flag) {
	m.zone, m.base, m.way = zone, base, m.o.silent.way(zone, base)
}

// open begins an element; n is where its name ends.
func (m *markup) open(name []byte, kind tagKind, n int) {
	switch kind {
	case breakTag:
		m.text.text = append(m.text.text, ' ')
		return
	case joinedTag:
	default:
		m.end()
		m.level = kind.level()
	}
	if len(m.scopes) > 0 && m.inScope(string(lowerName(name))) && !m.selfClosed(n) {
		m.scopes[len(m.scopes)-1].depth++
	}
}

// close ends an element.
func (m *markup) close(name []byte) {
	kind := kindOf(name)
	if level := kind.level(); level > 0 {
		title := strings.ToLower(strings.TrimSpace(string(m.text.text)))
		switch {
		case refHeadings[strings.TrimRight(title, ":")]:
			m.refs = level
		case m.refs > 0 && level <= m.refs:
			m.refs = 0
		}
		m.end()
		m.level = 0
		return
	}
	if kind != joinedTag {
		m.end()
	}
	if len(m.scopes) > 0 && m.inScope(string(lowerName(name))) {
		s := &m.scopes[len(m.scopes)-1]
		if s.depth > 0 {
			s.depth--
			return
		}
		m.end()
		m.rules(s.zone, s.base)
		m.scopes = m.scopes[:len(m.scopes)-1]
	}
}

// attr looks at one attribute of the tag that begins at tag: data-zone opens a
// scope, and those that hold words or addresses are scanned.
func (m *markup) attr(tag int, name, value []byte, from int) {
	if string(name) == "data-zone" {
		if n := nameEnd(m.data, tag+1); !m.selfClosed(n) {
			m.scope(string(lowerName(m.data[tag+1:n])), string(value))
			return
		}
	}
	if len(value) > 2 && (holdsWords(name, value) || holdsAddress(name, value)) {
		m.value.clear()
		m.value.addMarkup(value, from)
		m.scan(&m.value, 0)
	}
}

// scope begins an element whose text follows other rules.
func (m *markup) scope(tag, zone string) {
	m.end()
	if m.inScope(tag) {
		m.scopes[len(m.scopes)-1].depth-- // open counted this element for the scope around it
	}
	m.scopes = append(m.scopes, scope{tag: tag, zone: m.zone, base: m.base})
	switch zone {
	case "reference":
		m.rules(Reference, m.base)
	case "front-matter":
		m.rules(FrontMatter, m.base)
	case "authors":
		m.rules(m.zone, m.base|inAuthors)
	case "published":
		m.rules(m.zone, m.base|inDates)
	case "body":
		m.rules(Body, 0)
	}
}
