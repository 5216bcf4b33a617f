package layout

import (
	"cmp"
	"reflect"
)

// function is one of those that every template has.
type function struct {
	apply func(s *state, dot reflect.Value, args []expression) reflect.Value
	args  []expression
}

func (f *function) value(s *state, dot reflect.Value) reflect.Value { return f.apply(s, dot, f.args) }

// functions are those that are known, for values of the kinds that pages have.
var functions = map[string]func(s *state, dot reflect.Value, args []expression) reflect.Value{
	"and": func(s *state, dot reflect.Value, args []expression) reflect.Value { return until(false, s, dot, args) },
	"or":  func(s *state, dot reflect.Value, args []expression) reflect.Value { return until(true, s, dot, args) },
	"not": func(s *state, dot reflect.Value, args []expression) reflect.Value {
		return reflect.ValueOf(!truth(take(s, dot, args, 1)[0]))
	},
	"eq": func(s *state, dot reflect.Value, args []expression) reflect.Value {
		return reflect.ValueOf(equal(take(s, dot, args, 2)))
	},
	"ne": func(s *state, dot reflect.Value, args []expression) reflect.Value {
		return reflect.ValueOf(!equal(take(s, dot, args, 2)))
	},
	"gt": func(s *state, dot reflect.Value, args []expression) reflect.Value {
		return reflect.ValueOf(compare(take(s, dot, args, 2)) > 0)
	},
	"len": func(s *state, dot reflect.Value, args []expression) reflect.Value {
		v, _ := indirect(take(s, dot, args, 1)[0]) // a nil has no length
		switch v.Kind() {
		case reflect.String, reflect.Slice, reflect.Array, reflect.Map:
			return reflect.ValueOf(v.Len())
		}
		panic(ErrStopped)
	},
}

// until works arguments out one after another, up to the first that has the truth.
func until(stop bool, s *state, dot reflect.Value, args []expression) reflect.Value {
	if len(args) == 0 {
		panic(ErrStopped)
	}
	var v reflect.Value
	for _, a := range args {
		if v = open(a.value(s, dot)); truth(v) == stop {
			break
		}
	}
	return v
}

// take works n arguments out.
func take(s *state, dot reflect.Value, args []expression, n int) [2]reflect.Value {
	if len(args) != n {
		panic(ErrStopped)
	}
	var out [2]reflect.Value
	for i, a := range args {
		out[i] = open(a.value(s, dot))
	}
	return out
}

// equal compares two texts, whole numbers or truths.
func equal(of [2]reflect.Value) bool {
	if of[0].Kind() == reflect.Bool && of[1].Kind() == reflect.Bool {
		return of[0].Bool() == of[1].Bool()
	}
	return compare(of) == 0
}

// compare puts two texts or whole numbers into their order.
func compare(of [2]reflect.Value) int {
	switch a, b := of[0], of[1]; {
	case a.Kind() == reflect.String && b.Kind() == reflect.String:
		return cmp.Compare(a.String(), b.String())
	case a.CanInt() && b.CanInt():
		return cmp.Compare(a.Int(), b.Int())
	}
	panic(ErrStopped)
}
