package layout

import (
	"reflect"
	"sync/atomic"
)

// Caller is data that calls methods of its own by their names, so that they are
// not looked for and called by reflection: for those that templates call most.
// Call is asked for methods only that the data have. It is not known that a method
// is called where the arguments are not of its types. The arguments must not be
// kept as a slice.
type Caller interface {
	Call(method string, args []any) (result any, known bool, err error)
}

var callerType = reflect.TypeFor[Caller]()

// expression is worked out of the data at a place of a page.
type expression interface {
	value(s *state, dot reflect.Value) reflect.Value
}

// constant is a literal.
type constant reflect.Value

func (c constant) value(*state, reflect.Value) reflect.Value { return reflect.Value(c) }

// dot is the data at hand.
type dot struct{}

func (dot) value(_ *state, dot reflect.Value) reflect.Value { return dot }

// variable is the slot of one.
type variable int

func (v variable) value(s *state, _ reflect.Value) reflect.Value { return s.vars[s.base+int(v)] }

// field is a field of a value, or a method called with arguments.
type field struct {
	of   expression
	name string
	args []expression
	last atomic.Pointer[access] // for the type that was read last
}

// access is how a field is read of a type.
type access struct {
	of     reflect.Type
	addr   bool  // of values that have an address: they have more methods
	method int   // in the type's list of methods, or its pointer's; -1 where it is a field
	caller bool  // a method that the value calls itself
	index  []int // of the field
}

func (f *field) value(s *state, dot reflect.Value) reflect.Value {
	v, isNil := indirect(f.of.value(s, dot))
	if isNil || !v.IsValid() {
		panic(ErrStopped)
	}
	how := f.last.Load()
	if how == nil || how.of != v.Type() || how.addr != v.CanAddr() {
		how = find(v, f.name)
		f.last.Store(how)
	}
	switch {
	case how.caller:
		return f.ask(s, dot, v)
	case how.method >= 0:
		if how.addr {
			v = v.Addr()
		}
		return f.call(s, dot, v.Method(how.method))
	case len(f.args) > 0:
		panic(ErrStopped)
	case len(how.index) == 1:
		return v.Field(how.index[0])
	}
	v, err := v.FieldByIndexErr(how.index)
	if err != nil {
		panic(ErrStopped)
	}
	return v
}

// find looks a method of a value up, or else a field.
func find(v reflect.Value, name string) *access {
	how := &access{of: v.Type(), addr: v.CanAddr(), method: -1}
	holder := how.of
	if how.addr {
		holder = reflect.PointerTo(holder)
	}
	if m, ok := holder.MethodByName(name); ok {
		how.method = m.Index
		how.caller = holder.Implements(callerType)
		return how
	}
	if how.of.Kind() != reflect.Struct {
		panic(ErrStopped)
	}
	field, ok := how.of.FieldByName(name)
	if !ok || !field.IsExported() {
		panic(ErrStopped)
	}
	how.index = field.Index
	return how
}

// ask has a value call its own method.
func (f *field) ask(s *state, dot, v reflect.Value) reflect.Value {
	from := len(s.args)
	for _, a := range f.args {
		var arg any
		if v := a.value(s, dot); v.IsValid() {
			arg = v.Interface()
		}
		s.args = append(s.args, arg)
	}
	if v.CanAddr() {
		v = v.Addr()
	}
	caller, ok := v.Interface().(Caller)
	if !ok {
		panic(ErrStopped)
	}
	result, known, err := caller.Call(f.name, s.args[from:])
	s.args = s.args[:from]
	if err != nil {
		panic(ErrStopped)
	}
	if !known {
		how := f.last.Load()
		return f.call(s, dot, v.Method(how.method))
	}
	return reflect.ValueOf(result)
}

// call calls a method that takes just these arguments and may return an error.
func (f *field) call(s *state, dot, method reflect.Value) reflect.Value {
	t := method.Type()
	if t.IsVariadic() || t.NumIn() != len(f.args) || t.NumOut() < 1 || t.NumOut() > 2 {
		panic(ErrStopped)
	}
	var args []reflect.Value
	for i, a := range f.args {
		arg := open(a.value(s, dot))
		if !arg.IsValid() || !arg.Type().AssignableTo(t.In(i)) {
			panic(ErrStopped)
		}
		args = append(args, arg)
	}
	out := method.Call(args)
	if len(out) == 2 && !out[1].IsNil() {
		panic(ErrStopped)
	}
	return out[0]
}

// open is what an empty interface holds.
func open(v reflect.Value) reflect.Value {
	if v.Kind() == reflect.Interface && v.NumMethod() == 0 {
		return v.Elem()
	}
	return v
}

// indirect follows pointers and interfaces to what they lead to, or to the nil at
// their end.
func indirect(v reflect.Value) (end reflect.Value, isNil bool) {
	for v.Kind() == reflect.Pointer || v.Kind() == reflect.Interface {
		if v.IsNil() {
			return v, true
		}
		v = v.Elem()
	}
	return v, false
}

// truth is whether a value is anything: no nil, zero, false or empty list.
func truth(v reflect.Value) bool {
	if v.Kind() == reflect.Interface {
		v = v.Elem()
	}
	switch v.Kind() {
	case reflect.Invalid:
		return false
	case reflect.Bool:
		return v.Bool()
	case reflect.String, reflect.Slice, reflect.Array, reflect.Map:
		return v.Len() > 0
	case reflect.Pointer, reflect.Func, reflect.Chan:
		return !v.IsNil()
	case reflect.Struct:
		return true
	}
	if v.CanInt() {
		return v.Int() != 0
	}
	panic(ErrStopped)
}
