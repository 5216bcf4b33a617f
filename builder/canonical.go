package builder

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"caseleaf/content"
	"caseleaf/content/diagnose"
)

// digest is a short name for what values say: 32 hexadecimal digits of the
// SHA-256 of their text, "" when they say nothing. Places in files do not count,
// nor does the order in which fields are declared, and a field that says nothing
// counts as one that is not there: neither moving a line nor a new key in a later
// caseleaf makes an old case look changed.
func digest(values ...any) string {
	var s sayings
	for i, v := range values {
		s.say(strconv.Itoa(i), reflect.ValueOf(v))
	}
	if len(s) == 0 {
		return ""
	}
	slices.Sort(s)
	sum := sha256.Sum256([]byte(strings.Join(s, "\n")))
	return hex.EncodeToString(sum[:16])
}

// sayings are lines of what values say, each behind its name.
type sayings []string

var (
	spanType     = reflect.TypeFor[diagnose.Span]()
	sourceType   = reflect.TypeFor[*diagnose.Source]()
	stringerType = reflect.TypeFor[fmt.Stringer]()
	stateType    = reflect.TypeFor[content.State]()
	detailsType  = reflect.TypeFor[*content.StepDetails]()
)

// sortOf a type is how a value of it says what it says.
type sortOf struct {
	silent bool // a place in a file
	plain  bool // it is printed
	given  bool // it may be unknown or none
	state  int  // where a given value has its state, and its value
	value  int
	fields []fieldOf
}

type fieldOf struct {
	name  string
	index []int
}

var sortsOf sync.Map // reflect.Type to *sortOf, since it takes long to look one up

func sortOfType(t reflect.Type) *sortOf {
	if known, ok := sortsOf.Load(t); ok {
		if sort, ok := known.(*sortOf); ok {
			return sort
		}
	}
	sort := newSortOf(t)
	sortsOf.Store(t, sort)
	return sort
}

func newSortOf(t reflect.Type) *sortOf {
	s := &sortOf{silent: t == spanType || t == sourceType, plain: t.Implements(stringerType)}
	if t.Kind() != reflect.Struct {
		return s
	}
	if state, ok := t.FieldByName("State"); ok && state.Type == stateType && len(state.Index) == 1 {
		value, _ := t.FieldByName("Value")
		s.given, s.state, s.value = true, state.Index[0], value.Index[0]
		return s
	}
	for _, f := range reflect.VisibleFields(t) {
		if f.IsExported() && !f.Anonymous {
			name := "." + f.Name
			if f.Type == detailsType { // its fields count as the step's own
				name = ""
			}
			s.fields = append(s.fields, fieldOf{name, f.Index})
		}
	}
	return s
}

// say adds what a value says.
func (s *sayings) say(name string, v reflect.Value) {
	switch sort := sortOfType(v.Type()); {
	case sort.silent:
	case sort.plain:
		s.plain(name, v)
	case sort.given:
		s.given(name, content.State(v.Field(sort.state).Uint()), v.Field(sort.value))
	case v.Kind() == reflect.Struct:
		for _, f := range sort.fields {
			s.say(name+f.name, v.FieldByIndex(f.index))
		}
	case v.Kind() == reflect.Slice || v.Kind() == reflect.Array:
		for i := range v.Len() {
			s.say(name+"."+strconv.Itoa(i), v.Index(i))
		}
	case v.Kind() == reflect.Pointer:
		if !v.IsNil() {
			s.say(name, v.Elem())
		}
	default:
		s.plain(name, v)
	}
}

// plain adds a value as it is printed, unless it is empty.
func (s *sayings) plain(name string, v reflect.Value) {
	if !v.IsZero() {
		s.add(name, v)
	}
}

func (s *sayings) add(name string, v reflect.Value) {
	var text string
	if v.Type() == reflect.TypeFor[string]() {
		text = v.String()
	} else {
		text = fmt.Sprint(v.Interface())
	}
	*s = append(*s, name+"="+strconv.Quote(text))
}

// given adds a value that an author gave, or that it is unknown or none.
func (s *sayings) given(name string, state content.State, v reflect.Value) {
	switch {
	case state == content.Absent:
	case state == content.Known && v.IsZero(): // no, 0 and 0:00 are answers
		s.add(name, v)
	case state == content.Known:
		s.say(name, v)
	default:
		*s = append(*s, fmt.Sprintf("%s is %d", name, state))
	}
}
