package privacy

import "bytes"

// scanMarkup walks the text, tags and comments of a page. It is a plain lexer
// and not a parser, since the gate may cost little of a build; a test holds it
// against x/net/html.
func (o *Output) scanMarkup(data []byte) []Finding {
	m := markup{o: o, data: data, zone: Body}
	m.way = o.silent.way(m.zone, m.base)
	for i := 0; i < len(data); {
		if data[i] != '<' {
			k := bytes.IndexByte(data[i:], '<')
			if k < 0 {
				k = len(data) - i
			}
			m.text.addMarkup(data[i:i+k], i)
			i += k
			continue
		}
		i = m.tag(m.chunkAt(i))
	}
	m.end()
	return m.found
}

// tag reads what begins with the < at i and returns where it ends.
func (m *markup) tag(i int) int {
	rest := m.data[i:]
	if len(rest) > 1 && byteKind[rest[1]]&hasLetter != 0 {
		if n := m.plainSpan(rest); n > 0 {
			return i + n
		}
		return m.startTag(i)
	}
	switch {
	case len(rest) > 2 && rest[1] == '/' && byteKind[rest[2]]&hasLetter != 0:
		n := nameEnd(m.data, i+2)
		m.close(m.data[i+2 : n])
		return after(m.data, n, '>')
	case bytes.HasPrefix(rest, []byte("<!--")):
		end := bytes.Index(rest[4:], []byte("-->"))
		if end < 0 {
			end = len(rest) - 4
		}
		m.end()
		m.text.add(rest[4:4+end], i+4)
		m.end()
		return min(len(m.data), i+4+end+3)
	case len(rest) > 1 && (rest[1] == '!' || rest[1] == '?' || rest[1] == '/'):
		return after(m.data, i+1, '>')
	}
	m.text.add(rest[:1], i)
	return i + 1
}

// plainSpan is the length of a span's tag that holds at most a class; coloured
// source is full of them, and they change nothing.
func (m *markup) plainSpan(rest []byte) int {
	const class = `<span class="`
	if rest[1] != 's' || !bytes.HasPrefix(rest, []byte(class)) || m.inScope("span") {
		return 0
	}
	if end := bytes.IndexByte(rest[len(class):], '"'); end >= 0 && len(class)+end+1 < len(rest) && rest[len(class)+end+1] == '>' {
		return len(class) + end + 2
	}
	return 0
}

// startTag reads a start tag with its attributes, and what scripts and styles
// hold.
func (m *markup) startTag(i int) int {
	n := nameEnd(m.data, i+1)
	name := m.data[i+1 : n]
	kind := kindOf(name)
	m.open(name, kind, n)
	for n < len(m.data) && m.data[n] != '>' {
		if isBlank(m.data[n]) || m.data[n] == '/' {
			n++
			continue
		}
		n = m.oneAttribute(i, n)
	}
	n = min(n+1, len(m.data))
	switch kind {
	case scriptTag:
		return m.code(n, "</script", true)
	case styleTag:
		return m.code(n, "</style", false)
	}
	return n
}

// code scans the strings and comments from n up to the end tag, and returns
// where that begins.
func (m *markup) code(n int, endTag string, script bool) int {
	end := bytes.Index(m.data[n:], []byte(endTag))
	if end < 0 {
		end = len(m.data) - n
	}
	m.found = append(m.found, m.o.scanStrings(m.data[n:n+end], n, script)...)
	return n + end
}

// selfClosed says whether the tag whose name ends at n closes itself: <br/>.
func (m *markup) selfClosed(n int) bool {
	end := bytes.IndexByte(m.data[n:], '>')
	return end > 0 && m.data[n+end-1] == '/'
}

// oneAttribute reads name="value" at n, in the tag that begins at tag, and
// returns where it ends.
func (m *markup) oneAttribute(tag, n int) int {
	data, from := m.data, n
	for n < len(data) && nameBytes[data[n]] {
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
	m.attr(tag, name, data[start:end], start)
	return n
}

// after is the offset after the next c, or the end.
func after(data []byte, i int, c byte) int {
	if k := bytes.IndexByte(data[i:], c); k >= 0 {
		return i + k + 1
	}
	return len(data)
}

func isBlank(c byte) bool { return c == ' ' || c == '\n' || c == '\t' || c == '\r' || c == '\f' }

// tagBytes may stand in the name of a tag, and nameBytes in that of an attribute.
var tagBytes, nameBytes = func() (tags, names [256]bool) {
	for c := range 256 {
		tags[c] = c != '>' && c != '/' && !isBlank(byte(c))
		names[c] = tags[c] && c != '='
	}
	return
}()

// nameEnd is where the tag's name that begins at n ends.
func nameEnd(data []byte, n int) int {
	for n < len(data) && tagBytes[data[n]] {
		n++
	}
	return n
}
