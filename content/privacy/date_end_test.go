package privacy

import "testing"

// A date ends with its own last sign and the time joined to it, whatever mark of
// another script follows.
func TestDateEnds(t *testing.T) {
	for text, want := range map[string]string{
		"من 2025-Q3، عدد":                     "2025-Q3",
		"في 2021-03-14، وبعد":                 "2021-03-14",
		"Seen 2021-03-14T10:05:00+01:00، end": "2021-03-14T10:05:00+01:00",
		"Seen 2021-03-14。":                    "2021-03-14",
	} {
		found := Scan(Body, text)
		if len(found) != 1 || text[found[0].Start:found[0].End] != want {
			t.Errorf("%q: got %v, want %q", text, found, want)
		}
	}
}
