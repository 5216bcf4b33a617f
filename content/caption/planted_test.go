package caption

import (
	"encoding/json"
	"strings"
	"testing"

	"caseleaf/content/term"
)

// TestPlanted: identifiers that only the way of speaking gives away, many
// without a capital, a digit or a title, are nowhere in a draft.
func TestPlanted(t *testing.T) {
	v := term.Cataract()
	for line := range strings.Lines(string(readFile(t, "planted.txt"))) {
		said, words, ok := strings.Cut(strings.TrimSpace(line), "|")
		if !ok {
			continue
		}
		r := File("", []byte("[0:01] left eye side port with the fifteen degree blade\n[0:09] main incision two point four\n[0:20] "+said+"\n[0:30] capsulorhexis now\n"), v, Options{})
		data, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range strings.Split(strings.ToLower(words), ",") {
			if !strings.Contains(strings.ToLower(said), w) {
				t.Errorf("%q is not in %q", w, said)
			}
			if strings.Contains(strings.ToLower(string(data)), w) {
				t.Errorf("%q left in %q", w, r.Cues[2].Heard)
			}
		}
		if len(r.Removed) == 0 {
			t.Errorf("nothing reported for %q", said)
		}
	}
}

// TestPlainNamesNobody: ordinary lecture English loses no word to it but the
// month of a date.
func TestPlainNamesNobody(t *testing.T) {
	r := Draft(plainTrack(t), term.Cataract(), Options{})
	for _, x := range r.Removed {
		if x.Class == "date" {
			continue // "the second Friday of May"
		}
		t.Errorf("cue %d: %s taken out of %q", x.Cue, x.Class, r.Cues[x.Cue-1].Heard)
	}
}
