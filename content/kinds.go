package content

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"caseleaf/content/term"

	"gopkg.in/yaml.v3"
)

// text is free text, kept as typed.
var text = kind[string]{
	expect: "text",
	schema: always(schemaObject{"type": []string{"string", "number", "boolean"}}),
	read: func(r *reader, n *yaml.Node) (string, bool) {
		s, ok := r.scalar(n, "text")
		return strings.TrimSpace(s), ok
	},
}

var idForm = regexp.MustCompile(`^[\p{L}\p{N}][\p{L}\p{N}\p{M}.\-]*$`)

// identifier names a case, decision, option or branch: letters, digits, hyphens
// and full stops, kept exactly as typed.
var identifier = kind[string]{
	expect: "an id of letters, digits, hyphens and full stops",
	schema: always(schemaObject{"type": []string{"string", "number"}}),
	read: func(r *reader, n *yaml.Node) (string, bool) {
		s, ok := r.scalar(n, "an id")
		if !ok {
			return "", false
		}
		if !idForm.MatchString(s) {
			d := r.bad("bad-id", n, "%s", idFault(s))
			if near := strings.Join(strings.Fields(s), "-"); idForm.MatchString(near) {
				d.Suggest(near)
			}
			return "", false
		}
		return s, true
	},
}

// yesNo is yes or no.
var yesNo = kind[bool]{
	expect: "yes or no",
	schema: always(schemaObject{"enum": []any{"yes", "no", true, false}}),
	read: func(r *reader, n *yaml.Node) (bool, bool) {
		s, ok := r.scalar(n, "yes or no")
		if !ok {
			return false, false
		}
		switch strings.ToLower(s) {
		case "yes", "true":
			return true, true
		case "no", "false":
			return false, true
		}
		r.bad("bad-value", n, "expected yes or no, found %s", quoteShort(s))
		return false, false
	},
}

// whole is a whole number from low to high.
func whole(low, high int, what string) kind[int] {
	expect := fmt.Sprintf("%s from %d to %d", what, low, high)
	return kind[int]{
		expect: expect,
		schema: always(schemaObject{"type": "integer", "minimum": low, "maximum": high}),
		read: func(r *reader, n *yaml.Node) (int, bool) {
			s, ok := r.scalar(n, expect)
			if !ok {
				return 0, false
			}
			v, err := strconv.Atoi(s)
			if err != nil || v < low || v > high {
				r.bad("bad-value", n, "expected %s, found %s", expect, quoteShort(s))
				return 0, false
			}
			return v, true
		},
	}
}

// number is a number from low to high, with a point for decimals.
func number(low, high float64, what string) kind[float64] {
	expect := fmt.Sprintf("%s from %g to %g", what, low, high)
	return kind[float64]{
		expect: expect,
		schema: always(schemaObject{"type": "number", "minimum": low, "maximum": high}),
		read: func(r *reader, n *yaml.Node) (float64, bool) {
			s, ok := r.scalar(n, expect)
			if !ok {
				return 0, false
			}
			v, ok := parseNumber(s)
			if !ok || v < low || v > high {
				r.bad("bad-value", n, "expected %s, found %s", expect, quoteShort(s))
				return 0, false
			}
			return v, true
		},
	}
}

var numberForm = regexp.MustCompile(`^[+-]?\d+(\.\d+)?$`)

func parseNumber(s string) (float64, bool) {
	if !numberForm.MatchString(s) {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil
}

// oneOf is one word of a list.
func oneOf[V ~string](words ...V) kind[V] {
	list := make([]string, len(words))
	for i, w := range words {
		list[i] = string(w)
	}
	expect := "one of " + listWords(list)
	return kind[V]{
		expect: expect,
		schema: always(schemaObject{"enum": list}),
		read: func(r *reader, n *yaml.Node) (V, bool) {
			s, ok := r.scalar(n, expect)
			if !ok {
				return "", false
			}
			if slices.Contains(list, s) {
				return V(s), true
			}
			d := r.bad("bad-value", n, "expected %s, found %s", expect, quoteShort(s))
			if near, ok := term.Nearest(s, list); ok {
				d.Suggest(near)
			}
			return "", false
		},
	}
}

// termOf is the id of a term of one of the kinds.
func termOf(kinds ...term.Kind) kind[string] {
	words := make([]string, len(kinds))
	for i, k := range kinds {
		words[i] = kindLabel(k)
	}
	what := strings.Join(words, " or ")
	expect := "the id of a " + what
	return kind[string]{
		expect: expect,
		schema: func(v *term.Vocabulary) schemaObject { return schemaObject{"enum": idsOf(v, kinds)} },
		read: func(r *reader, n *yaml.Node) (string, bool) {
			s, ok := r.scalar(n, expect)
			if !ok {
				return "", false
			}
			return s, r.term(n, s, what, kinds)
		},
	}
}

// anyTerm is the id of a term of any kind.
func anyTerm() kind[string] { return termOf(term.Kinds()...) }

func idsOf(v *term.Vocabulary, kinds []term.Kind) []string {
	ids := []string{}
	for _, t := range v.Of(kinds...) {
		ids = append(ids, t.ID)
	}
	return ids
}

// term checks that id is a term of one of the kinds.
func (r *reader) term(n *yaml.Node, id, what string, kinds []term.Kind) bool {
	t, ok := r.vocab.Get(id)
	if ok && slices.Contains(kinds, t.Kind) {
		return true
	}
	if len(kinds) == len(term.Kinds()) {
		what = "term"
	}
	near, close := r.vocab.Suggest(id, kinds...)
	if other := r.vocab.Find(id); !ok && !close && len(other) > 0 {
		t, ok = other[0], true // a name of a term of another kind
	}
	if ok {
		d := r.bad("wrong-term-kind", n, "%s is %s; %s is needed here%s", quoteShort(id), article(kindLabel(t.Kind)), article(what), whereSigns(t.Kind, kinds))
		if near == "" && slices.Contains(kinds, term.Step) && len(t.Steps) > 0 {
			near = t.Steps[0] // the step that the thing belongs to
		}
		d.Suggest(near)
		return false
	}
	message := "unknown %s %s"
	if !close {
		message += "; the glossary of every handout lists what is known"
	}
	r.bad("unknown-term", n, message, what, quoteShort(id)).Suggest(near)
	return false
}

// article puts a or an before a word.
func article(word string) string {
	if strings.ContainsRune("aeiou", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}

// whereSigns says where a sign goes that was given as a complication.
func whereSigns(found term.Kind, needed []term.Kind) string {
	if found == term.Sign && slices.Equal(needed, []term.Kind{term.Complication}) {
		return "; what was looked for or seen is a finding entry, or the sign of an event"
	}
	return ""
}

func kindLabel(k term.Kind) string { return strings.ReplaceAll(string(k), "-", " ") }

// parsed makes a kind from a parser that explains its errors.
func parsed[V any](code string, expect string, schema schemaObject, parse func(string) (V, error)) kind[V] {
	return kind[V]{
		expect: expect,
		schema: always(schema),
		read: func(r *reader, n *yaml.Node) (V, bool) {
			var zero V
			s, ok := r.scalar(n, expect)
			if !ok {
				return zero, false
			}
			v, err := parse(s)
			if err != nil {
				r.badParse(code, n, err)
				return zero, false
			}
			return v, true
		},
	}
}

func always(o schemaObject) func(*term.Vocabulary) schemaObject {
	return func(*term.Vocabulary) schemaObject { return o }
}

// CheckID says what is wrong with an id of a case, or returns nil.
func CheckID(id string) error {
	if idForm.MatchString(id) {
		return nil
	}
	return errors.New(idFault(id))
}

// idFault says what is wrong with an id. Blanks at its ends are shown: they are
// what cannot be seen.
func idFault(id string) string {
	if trimmed := strings.TrimSpace(id); trimmed != id && idForm.MatchString(trimmed) {
		return fmt.Sprintf("%q can't be an id: it begins or ends with a blank; take that away", id)
	}
	return quoteShort(id) + " can't be an id: use letters, digits, hyphens and full stops, no spaces"
}
