package privacy

import (
	"bytes"
	"encoding/xml"
	"strings"
)

// write writes the kept tokens.
func (s *svgClean) write() error {
	style := false
	first := true
	for _, t := range s.tokens {
		switch tok := t.token.(type) {
		case xml.StartElement:
			style = tok.Name.Local == "style"
			if err := s.writeStart(tok, t.from, first); err != nil {
				return err
			}
			first = false
		case xml.EndElement:
			style = false
			s.out.WriteString("</" + tok.Name.Local + ">")
		case xml.CharData:
			text := []byte(tok)
			switch {
			case style:
				css, err := s.css(string(tok))
				if err != nil {
					return err
				}
				text = []byte(css)
			case s.hit(t.from, t.to):
				continue
			}
			if err := xml.EscapeText(&s.out, text); err != nil {
				return err
			}
		}
	}
	return nil
}

// hit says whether a finding lies in the source bytes.
func (s *svgClean) hit(from, to int) bool {
	for _, f := range s.findings {
		if f.Start < to && f.End > from {
			return true
		}
	}
	return false
}

// writeStart writes a start tag with the attributes that are on the list.
func (s *svgClean) writeStart(t xml.StartElement, from int, root bool) error {
	s.out.WriteString("<" + t.Name.Local)
	if root {
		s.out.WriteString(` xmlns="` + svgSpace + `"`)
	}
	linked := false
	for _, a := range t.Attr {
		name, value, err := s.attr(t, a, from)
		if err != nil {
			return err
		}
		if name == "" || name == "href" && linked {
			continue
		}
		linked = linked || name == "href"
		var b bytes.Buffer
		if err := xml.EscapeText(&b, []byte(value)); err != nil {
			return err
		}
		s.out.WriteString(" " + name + `="` + b.String() + `"`)
	}
	s.out.WriteString(">")
	return nil
}

// attr cleans one attribute; an empty name means that it goes.
func (s *svgClean) attr(t xml.StartElement, a xml.Attr, from int) (name, value string, err error) {
	name, value = a.Name.Local, a.Value
	switch {
	case name == "href" && (a.Name.Space == "" || a.Name.Space == xlinkSpace):
		if strings.HasPrefix(value, "data:") {
			if t.Name.Local != "image" {
				return "", "", refuse("it holds a data address outside an image")
			}
			value, err = s.picture(value)
			return "href", value, err
		}
		return "href", "#" + s.ids[value], nil
	case a.Name.Space == "xmlns" || name == "xmlns":
		return "", "", nil
	case a.Name.Space != "":
		if a.Name.Space != "http://www.w3.org/XML/1998/namespace" {
			s.removed = append(s.removed, Removed{"an editor's own data", "attribute", len(value)})
		}
		return "", "", nil
	case name == "id":
		return "id", s.ids["#"+value], nil
	case name == "class":
		var classes []string
		for _, c := range strings.Fields(value) {
			classes = append(classes, s.ids["."+c])
		}
		return "class", strings.Join(classes, " "), nil
	case name == "style":
		value, err = s.declarations(value)
		return "style", value, err
	case name == "aria-label":
		if s.hit(from, from+1) || len(Scan(Body, value)) > 0 {
			return "", "", nil
		}
		return name, value, nil
	case name == "aria-labelledby" || name == "aria-describedby":
		var ids []string
		for _, id := range strings.Fields(value) {
			if n := s.ids["#"+id]; n != "" {
				ids = append(ids, n)
			}
		}
		return name, strings.Join(ids, " "), nil
	case svgAttributes[name]:
		value, err = s.references(value)
		if err == nil && len(value) < 200 && (name == "font-family" || name == "role") && len(Scan(Body, value)) > 0 {
			return "", "", nil
		}
		return name, value, err
	}
	s.removed = append(s.removed, Removed{"unknown data", "attribute", len(value)})
	return "", "", nil
}

// references renames url(#id) and refuses every other address.
func (s *svgClean) references(value string) (string, error) {
	low := strings.ToLower(value)
	if strings.Contains(low, "javascript:") || strings.Contains(low, "data:") || strings.Contains(low, "expression(") || strings.Contains(value, "\\") {
		return "", refuse("a value in it may run or load something")
	}
	var b strings.Builder
	for {
		k := strings.Index(strings.ToLower(value), "url(")
		if k < 0 {
			b.WriteString(value)
			return b.String(), nil
		}
		end := strings.IndexByte(value[k:], ')')
		if end < 0 {
			return "", refuse("a value in it is damaged")
		}
		ref := strings.Trim(value[k+4:k+end], ` "'`)
		if !strings.HasPrefix(ref, "#") {
			return "", refuse("it refers to something outside (url)")
		}
		b.WriteString(value[:k] + "url(#" + s.ids[ref] + ")")
		value = value[k+end+1:]
	}
}

// declarations keeps the declarations whose property is on the list.
func (s *svgClean) declarations(style string) (string, error) {
	var kept []string
	for d := range strings.SplitSeq(style, ";") {
		property, value, ok := strings.Cut(d, ":")
		property = strings.TrimSpace(property)
		if !ok || !svgAttributes[property] {
			continue
		}
		value, err := s.references(strings.TrimSpace(value))
		if err != nil {
			return "", err
		}
		kept = append(kept, property+":"+value)
	}
	return strings.Join(kept, ";"), nil
}

// css cleans a style sheet: comments go, classes and ids are renamed, rules
// with @ are dropped, and declarations keep to the list.
func (s *svgClean) css(sheet string) (string, error) {
	for {
		k := strings.Index(sheet, "/*")
		if k < 0 {
			break
		}
		end := strings.Index(sheet[k+2:], "*/")
		if end < 0 {
			sheet = sheet[:k]
			break
		}
		sheet = sheet[:k] + " " + sheet[k+2+end+2:]
	}
	if strings.Contains(sheet, "@") || strings.ContainsAny(sheet, "\\<") {
		return "", refuse("its style sheet holds an @ rule or an escape")
	}
	var b strings.Builder
	for rule := range strings.SplitSeq(sheet, "}") {
		selector, body, ok := strings.Cut(rule, "{")
		if !ok {
			continue
		}
		body, err := s.declarations(body)
		if err != nil {
			return "", err
		}
		if selector, ok = s.selector(selector); ok {
			b.WriteString(selector + "{" + body + "}")
		}
	}
	return b.String(), nil
}

// selector renames the classes and ids of a selector; one that names unknown
// ones, or holds attribute tests, goes.
func (s *svgClean) selector(text string) (string, bool) {
	if strings.ContainsAny(text, "[]:()\"'") {
		return "", false
	}
	var b strings.Builder
	text = strings.TrimSpace(text)
	for i := 0; i < len(text); {
		if c := text[i]; c != '#' && c != '.' {
			b.WriteByte(c)
			i++
			continue
		}
		j := i + 1
		for j < len(text) && (isWordByte(text[j]) || text[j] == '-' || text[j] == '_') {
			j++
		}
		name := s.ids[text[i:j]]
		if name == "" {
			return "", false
		}
		b.WriteString(text[i:i+1] + name)
		i = j
	}
	return b.String(), true
}
