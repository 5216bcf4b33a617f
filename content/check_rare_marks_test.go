package content

import (
	"slices"
	"strings"
	"testing"
)

// Whatever a form matches holds one of its marks.
func TestExactFormsHaveMarks(t *testing.T) {
	for field, texts := range map[string][]string{
		"the year in the text":       {"in 1999", "Since 2011", "DURING 2003", "until 1987", "from 2020."},
		"the age in the text":        {"aged 71", "Aged 8.", "AGE OF 90", "a 71-year-old woman", "71 years old person", "8 YEARS-OLD boy", "71 yearſ old patient"},
		"the occupation in the text": {"works as a baker", "WORKED AS AN actor", "WorKing aſ the mayor", "He workſ as an actor", "WORKED AS a cook", "a retired judge", "The Retired baker", "a baker by trade", "mason BY PROFESSION"},
	} {
		e := exactForms[slices.IndexFunc(exactForms, func(e exactForm) bool { return e.field == field })]
		for _, text := range texts {
			lower := strings.ToLower(text)
			if !e.form.MatchString(text) {
				t.Errorf("%s: %q does not match", field, text)
			}
			if !e.marked(lower) {
				t.Errorf("%s: %q has no mark", field, text)
			}
		}
	}
}
