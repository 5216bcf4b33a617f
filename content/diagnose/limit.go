package diagnose

import (
	"fmt"
	"io"
	"strings"
)

// Limit keeps at most n diagnostics and returns the others as left out, both in
// the order of the list. Half of the places, rounded up, are kept for errors, so
// that a flood of warnings hides none of the first; what one kind does not use
// goes to the other.
func (ds Diagnostics) Limit(n int) (kept, left Diagnostics) {
	if n < 0 || len(ds) <= n {
		return ds, nil
	}
	errors := ds.Count(Error)
	others := len(ds) - errors
	forErrors := min(errors, max(n-others, (n+1)/2))
	forOthers := n - forErrors
	for _, d := range ds {
		room := &forOthers
		if d.Severity == Error {
			room = &forErrors
		}
		if *room > 0 {
			*room--
			kept = append(kept, d)
		} else {
			left = append(left, d)
		}
	}
	return kept, left
}

// WriteTextLimit prints at most n diagnostics and ends, where some are left out,
// with their count.
func (ds Diagnostics) WriteTextLimit(w io.Writer, n int) error {
	kept, left := ds.Limit(n)
	if err := kept.WriteText(w); err != nil || len(left) == 0 {
		return err
	}
	_, err := fmt.Fprintf(w, "… and %s more\n", left.Summary())
	return err
}

// Summary counts in words: "2 errors, 1 warning", or "nothing to report".
func (ds Diagnostics) Summary() string {
	var parts []string
	for _, s := range []Severity{Error, Warning, Note} {
		switch n := ds.Count(s); {
		case n == 1:
			parts = append(parts, "1 "+s.String())
		case n > 1:
			parts = append(parts, fmt.Sprintf("%d %ss", n, s))
		}
	}
	if parts == nil {
		return "nothing to report"
	}
	return strings.Join(parts, ", ")
}
