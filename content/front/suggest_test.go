package front

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestSuggestions looks at what is proposed for slips that a first-time author
// made, where the nearest repair would change what is said.
func TestSuggestions(t *testing.T) {
	type told struct{ code, suggestion string }
	for name, test := range map[string]struct {
		front string
		want  told
	}{
		"a key with a blank":                 {"a:\n  lens: b\n  follow up: 4 weeks\n", told{"colon-in-text", "follow_up: 4 weeks"}},
		"the same among entries":             {"a:\n  - b: c\n    age band: 60-69\n", told{"colon-in-text", "age_band: 60-69"}},
		"a sentence in a key's place":        {"a: b\nNow wait: it may dilate\n", told{"colon-in-text", `"Now wait: it may dilate"`}},
		"a long one":                         {"a: b\nso we waited then: it dilated\n", told{"colon-in-text", `"so we waited then: it dilated"`}},
		"curly quotes round all":             {"a: “one: two”\n", told{"curly-quotes", `"one: two"`}},
		"curly quotes round a part":          {"a: “one” and: two\n", told{"curly-quotes", `'"one" and: two'`}},
		"curly quotes round two parts":       {"a: “one” or “two”: three\n", told{"curly-quotes", `'"one" or "two": three'`}},
		"a comma in a text, then a key word": {"c: d\na: {b: One, c and more of it can be seen}\n", told{"comma-in-text", `"One, c and more of it can be seen"`}},
		"a colon lost after a key":           {"c: d\na: {b: one, c two}\n", told{"missing-colon", "c: two"}},
	} {
		t.Run(name, func(t *testing.T) {
			_, _, ds := readText(test.front)
			if len(ds) != 1 {
				t.Fatalf("%d messages: %+v", len(ds), ds)
			}
			got := told{string(ds[0].Code), ds[0].Suggestion}
			if diff := cmp.Diff(test.want, got, cmp.AllowUnexported(told{})); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}
