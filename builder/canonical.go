package builder

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"reflect"
	"slices"
	"strings"

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
		s.say(fmt.Sprint(i), reflect.ValueOf(v))
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
)

// say adds what a value says.
func (s *sayings) say(name string, v reflect.Value) {
	t := v.Type()
	if t == spanType || t == sourceType {
		return
	}
	switch {
	case t.Implements(stringerType):
		s.plain(name, v)
	case v.Kind() == reflect.Struct:
		if state := v.FieldByName("State"); state.IsValid() && state.Type() == stateType {
			s.given(name, content.State(state.Uint()), v.FieldByName("Value"))
			return
		}
		for _, f := range reflect.VisibleFields(t) {
			if f.IsExported() && !f.Anonymous {
				s.say(name+"."+f.Name, v.FieldByIndex(f.Index))
			}
		}
	case v.Kind() == reflect.Slice || v.Kind() == reflect.Array:
		for i := range v.Len() {
			s.say(fmt.Sprintf("%s.%d", name, i), v.Index(i))
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
		*s = append(*s, fmt.Sprintf("%s=%q", name, fmt.Sprint(v.Interface())))
	}
}

// given adds a value that an author gave, or that it is unknown or none.
func (s *sayings) given(name string, state content.State, v reflect.Value) {
	switch {
	case state == content.Absent:
	case state == content.Known && v.IsZero(): // no, 0 and 0:00 are answers
		*s = append(*s, fmt.Sprintf("%s=%q", name, fmt.Sprint(v.Interface())))
	case state == content.Known:
		s.say(name, v)
	default:
		*s = append(*s, fmt.Sprintf("%s is %d", name, state))
	}
}
