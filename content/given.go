package content

import "caseleaf/content/diagnose"

// State says how much an author gave of a value.
type State uint8

const (
	// Absent: the key is not in the file, or stands there without a value.
	Absent State = iota
	// Known: a value of the right form.
	Known
	// Unknown: the author wrote unknown; it is shown so and never filled in.
	Unknown
	// None: the author wrote none; it did not happen.
	None
)

// Given is a value as an author gave it, with its place. Value means something
// only when State is Known.
type Given[V any] struct {
	Value V
	State State
	Span  diagnose.Span
}

// Known reports whether the author gave a value.
func (g Given[V]) Known() bool { return g.State == Known }

// Get returns the value and whether there is one.
func (g Given[V]) Get() (V, bool) { return g.Value, g.State == Known }

// Or returns the value, or other when none is known.
func (g Given[V]) Or(other V) V {
	if g.State == Known {
		return g.Value
	}
	return other
}
