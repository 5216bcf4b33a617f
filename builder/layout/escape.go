package layout

import (
	"bytes"
	"html/template"
	"reflect"
	"strconv"
	"strings"
	"text/template/parse"
)

// escaper makes values safe for one sort of place: between tags, in an attribute,
// in an address.
type escaper struct {
	// short writes a plain text as html/template would, or reports that it can't.
	short func(room *bytes.Buffer, text string) bool
	// markup is set where a template.HTML is written as it stands.
	markup bool
	// whole has html/template print its data at such a place, between before and
	// after.
	whole         *template.Template
	before, after string
}

// escapers are known by the functions that html/template puts behind a value, in
// their order.
var escapers = map[string]*escaper{
	"_html_template_htmlescaper":   newEscaper("<p>", "</p>", true, escapeText),
	"_html_template_rcdataescaper": newEscaper("<title>", "</title>", false, escapeText),
	"_html_template_attrescaper":   newEscaper(`<p title="`, `">`, false, escapeText),
	"_html_template_urlfilter _html_template_urlnormalizer _html_template_attrescaper": newEscaper(`<a href="`, `">`, false, plainAddress),
	"_html_template_urlnormalizer _html_template_attrescaper":                          newEscaper(`<a href="/`, `">`, false, plainAddress),
	"_html_template_urlescaper _html_template_attrescaper":                             newEscaper(`<a href="/?`, `">`, false, plainPart),
}

func newEscaper(before, after string, markup bool, short func(*bytes.Buffer, string) bool) *escaper {
	return &escaper{short, markup, template.Must(template.New("").Parse(before + "{{.}}" + after)), before, after}
}

// chain is what html/template puts behind the value that the escaper's template
// prints: a test holds it against the name in the table.
func (e *escaper) chain() string {
	_ = e.whole.Execute(refuse{}, nil)
	var names []string
	for _, n := range e.whole.Tree.Root.Nodes {
		if action, ok := n.(*parse.ActionNode); ok {
			for _, command := range action.Pipe.Cmds[1:] {
				names = append(names, command.String())
			}
		}
	}
	return strings.Join(names, " ")
}

var (
	stringType = reflect.TypeFor[string]()
	htmlType   = reflect.TypeFor[template.HTML]()
	intType    = reflect.TypeFor[int]()
)

// write writes a value: texts and whole numbers by short work, all else by
// html/template.
func (e *escaper) write(s *state, v reflect.Value) {
	if !v.IsValid() {
		panic(ErrStopped)
	}
	s.room.Reset()
	done := false
	switch v.Type() {
	case stringType:
		done = e.short(&s.room, v.String())
	case htmlType:
		if done = e.markup; done {
			s.room.WriteString(v.String())
		}
	case intType:
		s.room.Write(strconv.AppendInt(s.room.AvailableBuffer(), v.Int(), 10))
		done = true
	}
	if !done {
		s.room.Reset()
		if err := e.whole.Execute(&s.room, v.Interface()); err != nil {
			panic(ErrStopped)
		}
		s.write(s.room.Bytes()[len(e.before) : s.room.Len()-len(e.after)])
		return
	}
	s.write(s.room.Bytes())
}

// escapeText writes a text so that no character of it is taken for markup, between
// tags or inside a quoted attribute.
func escapeText(room *bytes.Buffer, text string) bool {
	from := 0
	for i := range len(text) {
		safe := references[text[i]]
		if safe == "" {
			continue
		}
		room.WriteString(text[from:i])
		room.WriteString(safe)
		from = i + 1
	}
	room.WriteString(text[from:])
	return true
}

// references stand for characters that could be taken for markup.
var references = [256]string{0: "\uFFFD", '"': "&#34;", '&': "&amp;", '\'': "&#39;", '+': "&#43;", '<': "&lt;", '>': "&gt;"}

// plainAddress writes an address that is nothing but unreserved characters, steps
// of a path and fragments, which stand for themselves everywhere.
func plainAddress(room *bytes.Buffer, text string) bool { return only(&inPath, room, text) }

// plainPart writes a part of an address, such as a fragment, that is nothing but
// unreserved characters.
func plainPart(room *bytes.Buffer, text string) bool { return only(&unreserved, room, text) }

func only(set *[256]bool, room *bytes.Buffer, text string) bool {
	for i := range len(text) {
		if !set[text[i]] {
			return false
		}
	}
	room.WriteString(text)
	return true
}

const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._"

var unreserved, inPath = setOf(letters), setOf(letters + "/#")

func setOf(characters string) (set [256]bool) {
	for i := range len(characters) {
		set[characters[i]] = true
	}
	return set
}
