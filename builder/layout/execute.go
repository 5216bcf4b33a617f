package layout

import (
	"bytes"
	"errors"
	"io"
	"reflect"
)

// ErrStopped says that a page could not be laid out: html/template lays it out, or
// says what is wrong.
var ErrStopped = errors.New("layout: a template stopped")

// deepest is how many templates may be inside one another.
const deepest = 1000

// state is a page while it is laid out.
type state struct {
	out   io.Writer
	vars  []reflect.Value // of all templates that are being executed, one after another
	base  int             // where those of the last begin
	depth int
	args  []any        // of methods being called
	room  bytes.Buffer // for text while it is escaped
}

// Execute lays data out. After an error, part of the page may have been written.
func (t *Template) Execute(out io.Writer, data any) (err error) {
	defer func() {
		switch fault := recover(); fault {
		case nil:
		case ErrStopped:
			err = ErrStopped
		default:
			panic(fault)
		}
	}()
	s := &state{out: out}
	s.call(t.main, reflect.ValueOf(data))
	return nil
}

// call executes a template with a dot and variables of its own.
func (s *state) call(b *body, data reflect.Value) {
	if s.depth++; s.depth > deepest {
		panic(ErrStopped)
	}
	base, end := s.base, len(s.vars)
	s.base = end
	for range b.slots {
		s.vars = append(s.vars, reflect.Value{})
	}
	s.vars[s.base] = data
	s.steps(b.steps, data)
	s.vars, s.base = s.vars[:end], base
	s.depth--
}

func (s *state) steps(list []step, dot reflect.Value) {
	for _, n := range list {
		n.run(s, dot)
	}
}

func (s *state) write(data []byte) {
	if _, err := s.out.Write(data); err != nil {
		panic(ErrStopped)
	}
}

// text is written as it stands.
type text []byte

func (t text) run(s *state, _ reflect.Value) { s.write(t) }

// print writes a value that an escaper has made safe.
type print struct {
	value  expression
	escape *escaper
}

func (p *print) run(s *state, dot reflect.Value) { p.escape.write(s, open(p.value.value(s, dot))) }

// set gives a value a name.
type set struct {
	slot  int
	value expression
}

func (v *set) run(s *state, dot reflect.Value) { s.vars[s.base+v.slot] = open(v.value.value(s, dot)) }

// branch is if or with.
type branch struct {
	value           expression
	slot            int // of its variable; -1 for none
	with            bool
	then, otherwise []step
}

func (b *branch) run(s *state, dot reflect.Value) {
	v := open(b.value.value(s, dot))
	if b.slot >= 0 {
		s.vars[s.base+b.slot] = v
	}
	switch {
	case !truth(v):
		s.steps(b.otherwise, dot)
	case b.with:
		s.steps(b.then, v)
	default:
		s.steps(b.then, dot)
	}
}

// loop is range over a list.
type loop struct {
	value           expression
	index, element  int // slots of variables; -1 for none
	then, otherwise []step
}

func (l *loop) run(s *state, dot reflect.Value) {
	list, _ := indirect(l.value.value(s, dot))
	switch list.Kind() {
	case reflect.Slice, reflect.Array:
	case reflect.Invalid:
		s.steps(l.otherwise, dot)
		return
	default:
		panic(ErrStopped)
	}
	for i := range list.Len() {
		v := list.Index(i)
		if l.element >= 0 {
			s.vars[s.base+l.element] = v
		}
		if l.index >= 0 {
			s.vars[s.base+l.index] = reflect.ValueOf(i)
		}
		s.steps(l.then, v)
	}
	if list.Len() == 0 {
		s.steps(l.otherwise, dot)
	}
}

// call executes another template.
type call struct {
	data expression // nil for none
	body *body
}

func (c *call) run(s *state, dot reflect.Value) {
	var data reflect.Value
	if c.data != nil {
		data = open(c.data.value(s, dot))
	}
	s.call(c.body, data)
}
