package privacy

import "strings"

// markContexts gives tokens the flags that come from where they stand: below a
// References heading, under a front-matter key, on a caption's timing line.
func (p *passage) markContexts() {
	switch p.zone {
	case Reference:
		for i := range p.toks {
			p.toks[i].flag |= inRefs
		}
	case Body:
		p.markHeadings()
	case FrontMatter:
		p.markKeys()
	case Caption:
		p.eachLine(func(line string, at, from, to int) {
			if strings.Contains(line, "-->") {
				p.flagTokens(from, to, inTimes)
			}
		})
	}
}

// eachLine calls f for each line of the copy, with the offset of the line and
// the tokens from..to-1 that lie in it.
func (p *passage) eachLine(f func(line string, at, from, to int)) {
	i := 0
	for a := 0; a < len(p.s); {
		b := len(p.s)
		if k := strings.IndexByte(p.s[a:], '\n'); k >= 0 {
			b = a + k
		}
		from := i
		for i < len(p.toks) && int(p.toks[i].a) < b {
			i++
		}
		f(p.s[a:b], a, from, i)
		a = b + 1
	}
}

func (p *passage) flagTokens(from, to int, f flag) {
	for i := from; i < to; i++ {
		p.toks[i].flag |= f
	}
	p.timed = p.timed || f&inTimes != 0
}

// refHeadings are the headings below which a body holds literature.
var refHeadings = map[string]bool{
	"references": true, "bibliography": true, "further reading": true, "literature": true, "sources": true,
	"reading list": true, "works cited": true, "literatur": true, "références": true, "referencias": true, "bibliografia": true,
}

// markHeadings flags headings, and everything below a References heading up to
// the next heading of its level or above.
func (p *passage) markHeadings() {
	if p.signs&lineSign == 0 && !strings.HasPrefix(p.s, "#") {
		return // one line that is no heading
	}
	level := 0 // of the References heading that is open, or 0
	p.eachLine(func(line string, at, from, to int) {
		depth := 0
		for depth < len(line) && line[depth] == '#' {
			depth++
		}
		named := len(line) < 32 && refHeadings[strings.ToLower(strings.Trim(line, "# :"))]
		switch {
		case depth > 0:
			p.flagTokens(from, to, inHeading)
			if level > 0 && depth <= level {
				level = 0
			}
			if named && level == 0 {
				level = depth
			}
		case named:
			level = 7
		case level > 0:
			p.flagTokens(from, to, inRefs)
		}
	})
}

// keyFlags are the front-matter keys whose values, with all that is nested in
// them, keep to other rules.
var keyFlags = map[string]flag{
	"authors": inAuthors, "author": inAuthors, "reviewers": inAuthors, "editors": inAuthors, "editor": inAuthors,
	"contributors": inAuthors, "acknowledgements": inAuthors, "acknowledgments": inAuthors,
	"published": inDates, "updated": inDates, "reviewed": inDates, "reviewed_on": inDates, "accessed": inDates,
	"sources": inRefs, "references": inRefs, "bibliography": inRefs,
}

// yamlKey is a key that is open, by its indentation.
type yamlKey struct {
	indent int
	name   string
	flags  flag
}

// markKeys flags tokens by the keys they stand under. It reads indentation
// only, so that half-written YAML is read as well as can be.
func (p *passage) markKeys() {
	var open []yamlKey
	p.eachLine(func(line string, at, from, to int) {
		indent, key, rest := splitKey(line)
		if rest == "" && key == "" || strings.HasPrefix(strings.TrimLeft(line, " "), "#") {
			return
		}
		for len(open) > 0 && (open[len(open)-1].indent > indent || open[len(open)-1].indent == indent && key != "") {
			open = open[:len(open)-1]
		}
		var f flag
		excepted := false
		for _, k := range open {
			f |= k.flags
			excepted = excepted || k.name == "privacy_exceptions"
		}
		if key != "" {
			f |= keyFlags[key]
			if excepted && key == "match" {
				f |= inMatch
			}
			open = append(open, yamlKey{indent, key, f})
		}
		if cut := commentIn(line); cut >= 0 { // a comment may say anything
			for to > from && int(p.toks[to-1].a) >= at+cut {
				to--
			}
		}
		p.flagTokens(from, to, f)
	})
	p.markTimes()
	p.event = p.caseYear()
}

// timeKeys are the keys of a timeline that hold a time of the recording.
var timeKeys = []string{"at", "began", "noticed", "acted", "until"}

// markTimes flags the times of the recording, "at: 3:05" or "at: 1:03:05", and
// nothing beside them: whatever else a timeline says keeps to the usual rules.
func (p *passage) markTimes() {
	for _, i := range p.starts {
		i := int(i)
		if !p.toks[i].any(rSign) || !p.is(i, timeKeys...) || strings.TrimRight(p.gap(i+1), ` "'`) != ":" {
			continue
		}
		to := i + 1
		for p.tok(to).digits() && p.tok(to).len() <= 2 && (to == i+1 || p.gap(to) == ":") {
			to++
		}
		if to > i+2 {
			p.flagTokens(i+1, to, inTimes)
		}
	}
}

// splitKey takes a line of YAML apart: its indentation, where "- " counts as
// two, its key and the rest.
func splitKey(line string) (indent int, key, rest string) {
	for indent < len(line) && (line[indent] == ' ' || line[indent] == '-' && indent+1 < len(line) && line[indent+1] == ' ') {
		indent++
	}
	rest = strings.TrimRight(line[indent:], " \r")
	if k := strings.IndexByte(rest, ':'); k > 0 && k < 60 && (k+1 == len(rest) || rest[k+1] == ' ') {
		name := strings.ToLower(strings.Trim(rest[:k], `"'`))
		if plainKey(name) {
			return indent, name, rest[k+1:]
		}
	}
	return indent, "", rest
}

// plainKey says whether a name is one key and no part of a list in brackets.
func plainKey(name string) bool {
	for i := range len(name) {
		switch name[i] {
		case ' ', '{', '}', '[', ']', ',':
			return false
		}
	}
	return true
}

// commentIn is where a comment begins in a line of YAML, or -1.
func commentIn(line string) int {
	if strings.IndexByte(line, '#') < 0 {
		return -1
	}
	return strings.Index(line, " #")
}

// caseYear is the value of the key year, or 0.
func (p *passage) caseYear() int {
	for _, i := range p.starts {
		i := int(i)
		if p.toks[i].any(rSign) && p.is(i, "year") && p.toks[i].is(blockHead) && strings.HasPrefix(p.gap(i+1), ":") {
			if y := p.number(i + 1); y > 1900 && y < 2100 {
				return y
			}
		}
	}
	return 0
}
