package caption

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestNumberAt(t *testing.T) {
	for said, want := range map[string]struct {
		value float64
		words int
	}{
		"five millimetres":              {5, 1},
		"two point four":                {2.4, 3},
		"six and a half":                {6.5, 4},
		"six and a quarter millimetres": {6.25, 4},
		"one hundred and fifty":         {150, 4},
		"two hundred":                   {200, 2},
		"twenty two point nought":       {22, 4},
		"nought point nought six":       {0.06, 4},
		"minus point two five":          {-0.25, 4},
		"minus one point five":          {-1.5, 4},
		"point twenty five":             {0.25, 3},
		"seventy":                       {70, 1},
		"2.4 mm":                        {2.4, 1},
		"2,4 mm":                        {2.4, 1},
		"a bit":                         {0, 0},
		"point of entry":                {0, 0},
		"minus":                         {0, 0},
		"hundred":                       {100, 1},
		"":                              {0, 0},
	} {
		v, n := numberAt(strings.Fields(said), 0)
		if v != want.value || n != want.words {
			t.Errorf("%q: %v in %d words, want %v in %d", said, v, n, want.value, want.words)
		}
	}
}

// TestMood: how the words between the bars are meant.
func TestMood(t *testing.T) {
	for said, want := range map[string]mood{
		"that is a|vitreous loss":                         told,
		"so we have|an iris prolapse":                     told,
		"no|vitreous":                                     denied,
		"there is no sign of|vitreous loss":               denied,
		"we do not need to do a|vitrectomy":               denied,
		"|stop and chop| is not for today":                denied,
		"is that a|dialysis":                              asked,
		"should we put a|tension ring":                    asked,
		"would you|convert":                               asked,
		"do not pull or you lose it but here is|a tear":   told,
		"if you do that you will get a|wound burn":        supposed,
		"it could be a|tear":                              supposed,
		"in case of|vitreous loss":                        supposed,
		"the plan is|hydrodelineation":                    planned,
		"have the|vitrector":                              planned,
		"|sub-Tenon block| given before we came in":       past,
		"you always get a|small tear":                     general,
		"|rhexis too small| means the nucleus gets stuck": general,
		"no that is|a tear":                               told,
	} {
		parts := strings.Split(said+"|", "|")
		var words []string
		for _, p := range parts {
			words = append(words, texts(splitWords(p))...)
		}
		from := len(splitWords(parts[0]))
		to := from + len(splitWords(parts[1]))
		if got := moodOf(words, from, to); got != want {
			t.Errorf("%q: %d, want %d", said, got, want)
		}
	}
}

func TestSoundsAlike(t *testing.T) {
	for _, c := range []struct {
		heard, name string
		most        float64 // share of the name's weight that may be wrong
	}{
		{"parrot centesis", "paracentesis", 0.2},
		{"care at home", "keratome", 0.15},
		{"fit rector", "vitrector", 0.1},
		{"em sicks", "MSICS", 0.2},
		{"pseudo expo lation", "pseudoexfoliation", 0.2},
	} {
		a, b := sounds(strings.Fields(c.heard)), sounds([]string{strings.ToLower(c.name)})
		if d := unlike(a, b, 99) / b.weight(); d > c.most {
			t.Errorf("%q (%s) and %q (%s): %.2f apart", c.heard, a, c.name, b, d)
		}
	}
	for _, pair := range [][2]string{{"marmalade", "keratome"}, {"please read it", "capsulorhexis"}, {"left hand", "iris hooks"}} {
		a, b := sounds(strings.Fields(pair[0])), sounds(strings.Fields(pair[1]))
		if d := unlike(a, b, 99) / b.weight(); d < 0.4 {
			t.Errorf("%q and %q: %.2f apart", pair[0], pair[1], d)
		}
	}
	if a := sounds([]string{"iris"}); unlike(a, a, 1) != 0 {
		t.Error("a word is unlike itself")
	}
}

func TestTidy(t *testing.T) {
	for in, want := range map[string]string{
		"um so the the pupil uh is small": "so the pupil is small",
		"slowly slowly now.":              "slowly now",
		"":                                "",
	} {
		if got := tidy(in); got != want {
			t.Errorf("tidy(%q) = %q, want %q", in, got, want)
		}
	}
	if got := quote("a \"b\" \\ c\nd"); got != `"a \"b\" \\ c d"` {
		t.Errorf("quote: %s", got)
	}
	if diff := cmp.Diff("a \\[b\\] &lt;i>", escape("a [b] <i>")); diff != "" {
		t.Error(diff)
	}
}
