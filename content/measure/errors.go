package measure

import (
	"fmt"
	"strings"
)

// Error is a value that could not be read. It is addressed to the author of a case.
type Error struct {
	Text string // what was typed
	Want string // what was expected: "a time of the recording, m:ss or h:mm:ss"
	Why  string // what is wrong with it: "seconds over 59"
	Hint string // the right writing, only where it is certain or asked as a question
}

// Error puts the parts into one sentence: `"4.12" is not a time …: write 4:12`.
func (e *Error) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%q is not %s", e.Text, e.Want)
	if e.Why != "" {
		b.WriteString(": " + e.Why)
	}
	if e.Hint != "" {
		b.WriteString("; " + e.Hint)
	}
	return b.String()
}

// refuse builds an Error; why and hint may be empty.
func refuse(text, want, why, hint string) error {
	return &Error{Text: text, Want: want, Why: why, Hint: hint}
}
