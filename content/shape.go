package content

import (
	"slices"

	"caseleaf/content/diagnose"
	"caseleaf/content/term"

	"gopkg.in/yaml.v3"
)

// kind is one form of value: how an author writes it, how it is read from a
// scalar, and how an editor may check it.
type kind[V any] struct {
	expect string // what was expected, for messages: "a length such as 2.4 mm"
	schema func(*term.Vocabulary) schemaObject
	read   func(r *reader, n *yaml.Node) (V, bool)
}

// shape describes a mapping: its fields in the order authors write them.
type shape[T any] struct {
	name    string // what the mapping is, with its article, for messages: "a kit item"
	doc     string
	example string // one such mapping as an author writes it, for messages; may be empty
	fields  []field[T]
	place   func(*T) *diagnose.Span // where the mapping's own place is kept; may be nil
	check   func(r *reader, n *yaml.Node, into *T)
}

// field is one key of a shape.
type field[T any] struct {
	key      string
	doc      string
	example  string // as an author writes it, for the empty draft
	required bool
	unknown  bool // may be the word unknown
	none     bool // may be the word none
	schema   func(*term.Vocabulary) schemaObject
	read     func(r *reader, key, value *yaml.Node, into *T)
	expect   string
	below    func() drafter // the shape of what stands below the key, if any
	list     bool           // what stands below is a list
}

// must marks a field without which the file can't be published.
func must[T any](f field[T]) field[T] {
	f.required = true
	return f
}

// like adds the example shown in drafts and schemas.
func like[T any](f field[T], example string) field[T] {
	f.example = example
	return f
}

// one is a field that holds a single value.
func one[T, V any](key, doc string, k kind[V], at func(*T) *Given[V], words ...State) field[T] {
	f := field[T]{key: key, doc: doc, schema: k.schema, expect: k.expect}
	f.unknown = slices.Contains(words, Unknown)
	f.none = slices.Contains(words, None)
	f.read = func(r *reader, key, n *yaml.Node, into *T) {
		*at(into) = readGiven(r, n, k, f.unknown, f.none)
	}
	return f
}

// leftToDo is what a draft writes for a value that only its author knows.
const leftToDo = "TODO"

// readGiven reads one value, or one of the words that stand for its absence.
func readGiven[V any](r *reader, n *yaml.Node, k kind[V], unknown, none bool) Given[V] {
	g := Given[V]{Span: r.span(n)}
	switch {
	case isEmpty(n):
	case n.Kind == yaml.ScalarNode && n.Value == leftToDo:
		r.bag.Warn("to-do", g.Span, "this is still to be filled in")
	case unknown && n.Kind == yaml.ScalarNode && n.Value == "unknown":
		g.State = Unknown
	case none && n.Kind == yaml.ScalarNode && n.Value == "none":
		g.State = None
	default:
		if v, ok := k.read(r, n); ok {
			g.Value, g.State = v, Known
		}
	}
	return g
}

// many is a field that holds a list of values; a single value counts as a list
// of one.
func many[T, V any](key, doc string, k kind[V], at func(*T) *[]Given[V]) field[T] {
	return field[T]{
		key: key, doc: doc, expect: "a list, each " + k.expect,
		schema: func(v *term.Vocabulary) schemaObject { return schemaList(k.schema(v)) },
		read: func(r *reader, key, n *yaml.Node, into *T) {
			for _, item := range listItems(n) {
				if g := readGiven(r, item, k, false, false); g.Known() {
					*at(into) = append(*at(into), g)
				}
			}
		},
	}
}

// asIn shows an example at the end of a message, where there is one.
func asIn(lead, example string) string {
	if example == "" {
		return ""
	}
	return ", like this: " + lead + example
}

func listItems(n *yaml.Node) []*yaml.Node {
	switch {
	case isEmpty(n):
		return nil
	case n.Kind == yaml.SequenceNode:
		return n.Content
	}
	return []*yaml.Node{n}
}

// group is a field that holds a mapping of another shape.
func group[T, U any](key, doc string, s func() *shape[U], at func(*T) *U) field[T] {
	return field[T]{
		key: key, doc: doc, expect: "keys and values below it", below: func() drafter { return s() },
		schema: func(v *term.Vocabulary) schemaObject { return s().object(v) },
		read: func(r *reader, key, n *yaml.Node, into *T) {
			if !isEmpty(n) {
				s().read(r, n, at(into))
			}
		},
	}
}

// optionalGroup is a group that stays nil when the key is absent.
func optionalGroup[T, U any](key, doc string, s func() *shape[U], at func(*T) **U) field[T] {
	f := group(key, doc, s, func(*T) *U { return nil })
	f.read = func(r *reader, key, n *yaml.Node, into *T) {
		if !isEmpty(n) {
			*at(into) = new(U)
			s().read(r, n, *at(into))
		}
	}
	return f
}

// groups is a field that holds a list of mappings of another shape.
func groups[T, U any](key, doc string, s func() *shape[U], at func(*T) *[]U) field[T] {
	return field[T]{
		key: key, doc: doc, expect: "a list", below: func() drafter { return s() }, list: true,
		schema: func(v *term.Vocabulary) schemaObject { return schemaList(s().object(v)) },
		read: func(r *reader, key, n *yaml.Node, into *T) {
			if n.Kind != yaml.SequenceNode && !isEmpty(n) {
				r.bag.Error("wrong-kind", r.span(n), "%q is a list: put a hyphen and a space before each entry%s", key.Value, asIn("- ", s().example))
				return
			}
			for _, item := range listItems(n) {
				var u U
				if s().read(r, item, &u) {
					*at(into) = append(*at(into), u)
				}
			}
		},
	}
}

// read fills into from a mapping and reports whether it was one. Every fault
// is reported; what could be read is kept.
func (s *shape[T]) read(r *reader, n *yaml.Node, into *T) bool {
	if n.Kind != yaml.MappingNode {
		r.bag.Error("wrong-kind", r.span(n), "expected %s with keys and values, found %s%s", s.name, kindWord(n), asIn("", s.example))
		return false
	}
	if s.place != nil {
		*s.place(into) = r.span(first(n))
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		f := s.field(key.Value)
		if f == nil {
			r.unknownKey(key, s.name, s.keys())
			continue
		}
		f.read(r, key, value, into)
	}
	for i := range s.fields {
		if f := &s.fields[i]; f.required && isEmpty(child(n, f.key)) {
			r.bag.Error("missing-key", r.span(keyOr(n, f.key)), "%s needs %q: %s", s.name, f.key, f.doc)
		}
	}
	if s.check != nil {
		s.check(r, n, into)
	}
	return true
}

func (s *shape[T]) field(key string) *field[T] {
	for i := range s.fields {
		if s.fields[i].key == key {
			return &s.fields[i]
		}
	}
	return nil
}

func (s *shape[T]) keys() []string {
	keys := make([]string, len(s.fields))
	for i, f := range s.fields {
		keys[i] = f.key
	}
	return keys
}
