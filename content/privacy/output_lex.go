package privacy

import (
	"bytes"
	"strings"
)

// scanMarkup walks the text, tags and comments of a page. It is a plain lexer
// and not a parser, since the gate may cost little of a build; a test holds it
// against x/net/html.
func (o *Output) scanMarkup(data []byte) []Finding {
	m := markup{o: o, zone: Body}
	for i := 0; i < len(data); {
		k := bytes.IndexByte(data[i:], '<')
		if k < 0 {
			k = len(data) - i
		}
		if k > 0 {
			m.text.addMarkup(data[i:i+k], i)
			i += k
			continue
		}
		i = m.tag(data, i)
	}
	m.end()
	return m.found
}

// tag reads what begins with the < at i and returns where it ends.
func (m *markup) tag(data []byte, i int) int {
	rest := data[i:]
	if n := m.plainSpan(rest); n > 0 {
		return i + n
	}
	switch {
	case bytes.HasPrefix(rest, []byte("<!--")):
		end := bytes.Index(rest[4:], []byte("-->"))
		if end < 0 {
			end = len(rest) - 4
		}
		m.end()
		m.text.add(rest[4:4+end], i+4)
		m.end()
		return min(len(data), i+4+end+3)
	case len(rest) > 2 && rest[1] == '/' && byteKind[rest[2]]&hasLetter != 0:
		n := 2
		for n < len(rest) && isTagByte(rest[n]) {
			n++
		}
		m.close(tagName(rest[2:n]))
		return after(data, i+n, '>')
	case len(rest) > 1 && (rest[1] == '!' || rest[1] == '?' || rest[1] == '/'):
		return after(data, i+1, '>')
	case len(rest) > 1 && byteKind[rest[1]]&hasLetter != 0:
		return m.startTag(data, i)
	}
	m.text.add(rest[:1], i)
	return i + 1
}

// plainSpan is the length of a span's tag that holds at most a class; coloured
// source is full of them, and they change nothing.
func (m *markup) plainSpan(rest []byte) int {
	if k := len(m.scopes); k > 0 && m.scopes[k-1].tag == "span" {
		return 0
	}
	const class = `<span class="`
	switch {
	case bytes.HasPrefix(rest, []byte("</span>")):
		return len("</span>")
	case bytes.HasPrefix(rest, []byte(class)):
		if end := bytes.IndexByte(rest[len(class):], '"'); end >= 0 && len(class)+end+1 < len(rest) && rest[len(class)+end+1] == '>' {
			return len(class) + end + 2
		}
	}
	return 0
}

// startTag reads a start tag with its attributes, and what scripts and styles
// hold.
func (m *markup) startTag(data []byte, i int) int {
	n := i + 1
	for n < len(data) && isTagByte(data[n]) {
		n++
	}
	tag := tagName(data[i+1 : n])
	closed := false
	if end := bytes.IndexByte(data[n:], '>'); end >= 0 {
		closed = end > 0 && data[n+end-1] == '/'
	}
	m.open(tag, !closed)
	for n < len(data) && data[n] != '>' {
		if isBlank(data[n]) || data[n] == '/' {
			n++
			continue
		}
		n = m.oneAttribute(data, n, tag, !closed)
	}
	n = min(n+1, len(data))
	if tag == "script" || tag == "style" {
		end := bytes.Index(data[n:], []byte("</"+tag))
		if end < 0 {
			end = len(data) - n
		}
		m.raw(tag, data[n:n+end], n)
		n += end
	}
	return n
}

// oneAttribute reads name="value" at n and returns where it ends.
func (m *markup) oneAttribute(data []byte, n int, tag string, nests bool) int {
	from := n
	for n < len(data) && data[n] != '=' && data[n] != '>' && data[n] != '/' && !isBlank(data[n]) {
		n++
	}
	name := data[from:n]
	if n == from {
		return n + 1
	}
	for n < len(data) && isBlank(data[n]) {
		n++
	}
	if n >= len(data) || data[n] != '=' {
		return n
	}
	n++
	for n < len(data) && isBlank(data[n]) {
		n++
	}
	if n >= len(data) {
		return n
	}
	start, end := n, n
	if q := data[n]; q == '"' || q == '\'' {
		start = n + 1
		end = after(data, start, q)
		n = end
		if end > start && data[end-1] == q {
			end--
		}
	} else {
		for end < len(data) && data[end] != '>' && !isBlank(data[end]) {
			end++
		}
		n = end
	}
	m.attr(tag, name, data[start:end], start, nests)
	return n
}

// after is the offset after the next c, or the end.
func after(data []byte, i int, c byte) int {
	if k := bytes.IndexByte(data[i:], c); k >= 0 {
		return i + k + 1
	}
	return len(data)
}

func isBlank(c byte) bool   { return c == ' ' || c == '\n' || c == '\t' || c == '\r' || c == '\f' }
func isTagByte(c byte) bool { return c != '>' && c != '/' && !isBlank(c) }

// knownTags saves making a string for every tag of a page.
var knownTags = func() map[string]string {
	m := map[string]string{}
	for _, tag := range strings.Fields("div p a span li ul ol td tr th table tbody thead h1 h2 h3 h4 h5 h6 b i em strong code pre g path line rect circle text tspan svg title desc section article nav header footer main figure figcaption details summary dl dt dd time abbr sup sub mark small br img link meta script style html head body button input label form option select") {
		m[tag] = tag
	}
	return m
}()

// tagName is the name in lower case.
func tagName(b []byte) string {
	if tag, ok := knownTags[string(b)]; ok {
		return tag
	}
	return strings.ToLower(string(b))
}
