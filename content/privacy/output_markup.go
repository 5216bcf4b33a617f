package privacy

import (
	"bytes"
	"strings"

	"golang.org/x/net/html"
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

// scanMarkup walks the tokens of a page.
func (o *Output) scanMarkup(data []byte) []Finding {
	m := markup{o: o, zone: Body}
	z := html.NewTokenizer(bytes.NewReader(data))
	at, raw := 0, ""
	for {
		kind := z.Next()
		from := at
		at += len(z.Raw())
		switch kind {
		case html.ErrorToken:
			m.end()
			return m.found
		case html.TextToken:
			m.chars(z.Raw(), from, raw)
		case html.CommentToken:
			m.end()
			m.text.add(z.Raw(), from)
			m.end()
		case html.StartTagToken, html.SelfClosingTagToken:
			name, more := z.TagName()
			tag := string(name)
			raw = ""
			if kind == html.StartTagToken && (tag == "script" || tag == "style") {
				raw = tag
			}
			m.open(tag, kind == html.StartTagToken)
			if more {
				m.attributes(z, tag, data[from:at], from, kind == html.StartTagToken)
			}
		case html.EndTagToken:
			name, _ := z.TagName()
			raw = ""
			m.close(string(name))
		}
	}
}

// chars adds text; the contents of scripts and styles are read for strings.
func (m *markup) chars(b []byte, from int, raw string) {
	switch raw {
	case "script":
		m.found = append(m.found, m.o.scanStrings(b, from, true)...)
	case "style":
		m.found = append(m.found, m.o.scanStrings(b, from, false)...)
	default:
		m.text.add(b, from)
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

// attributes scans the attributes that hold words or addresses and opens a
// scope for data-zone.
func (m *markup) attributes(z *html.Tokenizer, tag string, raw []byte, from int, nests bool) {
	for {
		key, value, more := z.TagAttr()
		name := string(key)
		switch {
		case name == "data-zone" && nests:
			m.scope(tag, string(value))
		case len(value) < 3:
		case writtenAttributes[name], strings.HasPrefix(name, "data-") && bytes.ContainsAny(value, " @"),
			(name == "href" || name == "src" || name == "xlink:href" || name == "action") && (bytes.Contains(value, []byte("://")) || bytes.HasPrefix(value, []byte("mailto:")) || bytes.HasPrefix(value, []byte("tel:"))):
			m.attribute(value, raw, from)
		}
		if !more {
			return
		}
	}
}

// attribute scans one value apart from the running text.
func (m *markup) attribute(value, raw []byte, from int) {
	var s stitched
	s.add(value, from+max(0, bytes.Index(raw, value)))
	zone := m.zone
	if m.refs > 0 && zone == Body {
		zone = Reference
	}
	for _, f := range m.o.block(&s, zone, m.base) {
		f.End = min(f.End, from+len(raw))
		f.Start = min(f.Start, f.End-1)
		m.found = append(m.found, f)
	}
}

// scope begins an element whose text follows other rules.
func (m *markup) scope(tag, zone string) {
	m.end()
	m.scopes = append(m.scopes, scope{tag: tag, zone: m.zone, base: m.base})
	switch zone {
	case "reference":
		m.zone = Reference
	case "authors":
		m.base |= inAuthors
	case "published":
		m.base |= inDates
	case "body":
		m.zone, m.base = Body, 0
	}
}
