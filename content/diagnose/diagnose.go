// Package diagnose holds what caseleaf says about a bank: a diagnostic is a
// value with a place, a stable code, words and, where one is near, the right
// spelling. Reading never stops at the first fault; everything found goes into
// a [Bag], which is sorted and printed once.
//
// Enter: a [Source] (a file's bytes with its lines) and places in it.
// Leave: [Diagnostics], printed for people by [Diagnostics.WriteText].
// Read [Diagnostic] first.
//
//	bag := diagnose.NewBag()
//	src := diagnose.NewSource("cases/hb-007.md", data)
//	bag.Error("unknown-term", src.Span(12, 9, 12), `unknown complication "iris-prolaps"`).
//		Suggest("iris-prolapse")
//
// Lines and columns count from 1; a column counts characters, not bytes.
package diagnose

import (
	"cmp"
	"fmt"
	"slices"
	"sync"
)

// Severity says what a diagnostic does to a build.
type Severity int

const (
	// Error stops the build; nothing is written.
	Error Severity = iota
	// Warning is listed and counted; the build goes on.
	Warning
	// Note tells the author something and asks for nothing.
	Note
)

// String gives the word printed after the place: error, warning or note.
func (s Severity) String() string {
	switch s {
	case Error:
		return "error"
	case Warning:
		return "warning"
	default:
		return "note"
	}
}

// Code names a kind of diagnostic; it stays the same when wording improves.
type Code string

// Related points from a diagnostic to a second place, such as an earlier
// duplicate.
type Related struct {
	Span    Span
	Message string
}

// Diagnostic is one thing found in a bank.
type Diagnostic struct {
	Severity   Severity
	Code       Code
	Message    string // one line, no full stop; what is wrong and what was expected
	Span       Span
	Suggestion string // the nearest right spelling, ready to type; empty when none is near
	Related    []Related
	Hidden     bool // the line holds what may identify somebody, so it is never printed
}

// Suggest records the nearest right spelling and returns d for chaining.
func (d *Diagnostic) Suggest(right string) *Diagnostic {
	d.Suggestion = right
	return d
}

// Also adds a second place and returns d for chaining.
func (d *Diagnostic) Also(span Span, message string) *Diagnostic {
	d.Related = append(d.Related, Related{span, message})
	return d
}

// Diagnostics is a list in the order of files and places.
type Diagnostics []*Diagnostic

// Count returns how many have the given severity.
func (ds Diagnostics) Count(s Severity) int {
	n := 0
	for _, d := range ds {
		if d.Severity == s {
			n++
		}
	}
	return n
}

// Failed reports whether any is an error.
func (ds Diagnostics) Failed() bool { return ds.Count(Error) > 0 }

// And returns the diagnostics of two lists in one order; neither is changed.
func (ds Diagnostics) And(more Diagnostics) Diagnostics {
	out := slices.Concat(ds, more)
	slices.SortStableFunc(out, compare)
	return out
}

// Bag collects diagnostics from several readers at once. It is safe for
// concurrent use; the order of arrival does not show in the result.
type Bag struct {
	mu   sync.Mutex
	list Diagnostics
}

// NewBag returns an empty bag.
func NewBag() *Bag { return &Bag{} }

// Error adds an error; the format works as in fmt.Sprintf.
func (b *Bag) Error(code Code, span Span, format string, args ...any) *Diagnostic {
	return b.add(Error, code, span, format, args)
}

// Warn adds a warning.
func (b *Bag) Warn(code Code, span Span, format string, args ...any) *Diagnostic {
	return b.add(Warning, code, span, format, args)
}

// Note adds a note.
func (b *Bag) Note(code Code, span Span, format string, args ...any) *Diagnostic {
	return b.add(Note, code, span, format, args)
}

// Take adds copies of what another bag held.
func (b *Bag) Take(found Diagnostics) {
	if len(found) == 0 {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, d := range found {
		own := *d
		own.Related = slices.Clone(d.Related)
		b.list = append(b.list, &own)
	}
}

func (b *Bag) add(s Severity, code Code, span Span, format string, args []any) *Diagnostic {
	message := format
	if len(args) > 0 {
		message = fmt.Sprintf(format, args...)
	}
	d := &Diagnostic{Severity: s, Code: code, Message: message, Span: span}
	b.mu.Lock()
	b.list = append(b.list, d)
	b.mu.Unlock()
	return d
}

// Sorted returns everything in the bag by file, line, column, code and words.
func (b *Bag) Sorted() Diagnostics {
	b.mu.Lock()
	out := slices.Clone(b.list)
	b.mu.Unlock()
	slices.SortStableFunc(out, compare)
	return out
}

func compare(a, b *Diagnostic) int {
	return cmp.Or(
		cmp.Compare(a.Span.File(), b.Span.File()),
		cmp.Compare(a.Span.Line(), b.Span.Line()),
		cmp.Compare(a.Span.Column(), b.Span.Column()),
		cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(a.Code, b.Code),
		cmp.Compare(a.Message, b.Message),
	)
}
