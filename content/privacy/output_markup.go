package privacy

import (
	"bytes"
	"strings"
)

// markup reads HTML or SVG and scans it block by block.
type markup struct {
	o      *Output
	text   stitched
	zone   Zone
	base   flag
	refs   int // level of the References heading that is open, or 0
	level  int // of the heading that is being read, or 0
	scopes []scope
	found  []Finding
}

// scope is an element with data-zone that is open.
type scope struct {
	tag   string
	depth int // elements of the same name open inside it
	zone  Zone
	base  flag
}

// joinedTags stand inside a run of text.
var joinedTags = wordSet("a b i em strong span sup sub mark small u s code abbr time q cite kbd var dfn tspan wbr ins del samp font bdi bdo data label")

// writtenAttributes hold words that people write, or addresses.
var writtenAttributes = wordSet("alt title aria-label aria-description aria-roledescription content placeholder value label summary download cite srcdoc poster")

// raw reads the contents of scripts and styles for strings.
func (m *markup) raw(tag string, b []byte, from int) {
	switch tag {
	case "script":
		m.found = append(m.found, m.o.scanStrings(b, from, true)...)
	case "style":
		m.found = append(m.found, m.o.scanStrings(b, from, false)...)
	}
}

// end scans the run of text that ends here.
func (m *markup) end() {
	if len(m.text.text) == 0 {
		return
	}
	zone := m.zone
	if m.refs > 0 && m.level == 0 && zone == Body {
		zone = Reference
	}
	m.found = append(m.found, m.o.block(&m.text, zone, m.base)...)
	m.text.text, m.text.parts = m.text.text[:0], m.text.parts[:0]
}

func headingLevel(tag string) int {
	if len(tag) == 2 && tag[0] == 'h' && tag[1] >= '1' && tag[1] <= '6' {
		return int(tag[1] - '0')
	}
	return 0
}

func (m *markup) open(tag string, nests bool) {
	if tag == "br" {
		m.text.text = append(m.text.text, ' ')
		return
	}
	if !joinedTags[tag] {
		m.end()
		m.level = headingLevel(tag)
	}
	if n := len(m.scopes); n > 0 && nests && m.scopes[n-1].tag == tag {
		m.scopes[n-1].depth++
	}
}

func (m *markup) close(tag string) {
	if level := headingLevel(tag); level > 0 {
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
	if !joinedTags[tag] {
		m.end()
	}
	if n := len(m.scopes); n > 0 && m.scopes[n-1].tag == tag {
		if s := &m.scopes[n-1]; s.depth > 0 {
			s.depth--
			return
		}
		m.end()
		m.zone, m.base = m.scopes[n-1].zone, m.scopes[n-1].base
		m.scopes = m.scopes[:n-1]
	}
}

// attr looks at one attribute: data-zone opens a scope, and those that hold
// words or addresses are scanned.
func (m *markup) attr(tag string, name, value []byte, from int, nests bool) {
	switch {
	case string(name) == "data-zone" && nests:
		m.scope(tag, string(value))
	case len(value) < 3:
	case writtenAttributes[string(name)], bytes.HasPrefix(name, []byte("data-")) && bytes.ContainsAny(value, " @"):
		m.attribute(value, from)
	case string(name) == "href", string(name) == "src", string(name) == "xlink:href", string(name) == "action", string(name) == "srcset":
		if bytes.Contains(value, []byte("://")) || bytes.HasPrefix(value, []byte("mailto:")) || bytes.HasPrefix(value, []byte("tel:")) {
			m.attribute(value, from)
		}
	}
}

// attribute scans one value apart from the running text.
func (m *markup) attribute(value []byte, from int) {
	var s stitched
	s.addMarkup(value, from)
	zone := m.zone
	if m.refs > 0 && zone == Body {
		zone = Reference
	}
	m.found = append(m.found, m.o.block(&s, zone, m.base)...)
}

// scope begins an element whose text follows other rules.
func (m *markup) scope(tag, zone string) {
	m.end()
	if n := len(m.scopes); n > 0 && m.scopes[n-1].tag == tag {
		m.scopes[n-1].depth-- // open counted this element for the scope around it
	}
	m.scopes = append(m.scopes, scope{tag: tag, zone: m.zone, base: m.base})
	switch zone {
	case "reference":
		m.zone = Reference
	case "front-matter":
		m.zone = FrontMatter
	case "authors":
		m.base |= inAuthors
	case "published":
		m.base |= inDates
	case "body":
		m.zone, m.base = Body, 0
	}
}
