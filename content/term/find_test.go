package term

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The pairs are ordinary spelling variants; common practice, no source.
func TestFold(t *testing.T) {
	for _, pair := range [][2]string{
		{"haemorrhage", "hemorrhage"},
		{"Corneal oedema", "corneal edema"},
		{"anaesthesia", "ANESTHESIA"},
		{"hyphaema", "hyphema"},
		{"calliper", "caliper"},
		{"dialling hook", "dialing hook"},
		{"sulphur hexafluoride", "sulfur hexafluoride"},
		{"theatre", "theater"},
		{"zonular fibres", "zonular fibers"},
		{"colour", "color"},
		{"side-port", "sideport"},
		{"side port", "side\u2011port"}, // non-breaking hyphen
		{"I/A", "i.a."},
		{"Sub-Tenon's", "sub Tenon\u2019s"},
		{"Sömmering", "Sommering"},
		{"naïve", "naive"},
	} {
		if a, b := fold(pair[0]), fold(pair[1]); a != b {
			t.Errorf("%q folds to %q, %q to %q", pair[0], a, pair[1], b)
		}
	}
	for _, pair := range [][2]string{{"paracentesis", "parenthesis"}, {"optic", "haptic"}, {"CTR", "CTS"}} {
		if fold(pair[0]) == fold(pair[1]) {
			t.Errorf("%q and %q fold alike", pair[0], pair[1])
		}
	}
}

func ids(terms []Term) []string {
	var out []string
	for _, t := range terms {
		out = append(out, t.ID)
	}
	return out
}

func TestFind(t *testing.T) {
	for text, want := range map[string][]string{
		"iris-prolapse":               {"iris-prolapse"},
		"Iris prolapse":               {"iris-prolapse"},
		"Iris-Prolapses":              {"iris-prolapse"},
		"PCR":                         {"posterior-capsule-tear"},
		"posterior capsule rupture":   {"posterior-capsule-tear"},
		"suprachoroidal hemorrhage":   {"suprachoroidal-haemorrhage"},
		"cystoid macular edema":       {"cystoid-macular-oedema"},
		"capsulorrhexis":              {"capsulorhexis"},
		"sideport":                    {"paracentesis"},
		"iris hook":                   {"iris-hooks"},
		"phaco":                       {"phacoemulsification", "sculpting", "cracking", "quadrant-removal"},
		"hydro":                       {"hydrodissection", "hydrodelineation"},
		"groove":                      {"scleral-groove", "limbal-groove", "sculpting"},
		"":                            nil,
		" - ":                         nil,
		"s":                           nil,
		"parsley":                     nil,
		"Sömmering ring":              {"soemmering-ring"},
		"posterior capsulotomy laser": nil,
	} {
		if diff := cmp.Diff(want, ids(Cataract().Find(text))); diff != "" {
			t.Errorf("Find(%q) (-want +got):\n%s", text, diff)
		}
	}
}

func TestEveryNameIsFound(t *testing.T) {
	v := Cataract()
	for _, term := range v.All() {
		term.names(func(text string, _ int) {
			found := false
			for _, f := range v.Find(text) {
				found = found || f.ID == term.ID
			}
			if !found {
				t.Errorf("%q does not find %s", text, term.ID)
			}
		})
		if id, ok := v.Suggest(term.ID); !ok || id != term.ID {
			t.Errorf("Suggest(%q) = %q", term.ID, id)
		}
	}
}

func TestSuggest(t *testing.T) {
	for _, c := range []struct {
		word  string
		kinds []Kind
		want  string // empty: nothing near enough
	}{
		{"iris-prolaps", nil, "iris-prolapse"},
		{"iris-porlapse", []Kind{Complication}, "iris-prolapse"},
		{"posterior capsule rupture", nil, "posterior-capsule-tear"},
		{"posterior-capsular-tear", []Kind{Complication}, "posterior-capsule-tear"},
		{"zonular dialisys", nil, "zonular-dialysis"},
		{"capsularhexis", []Kind{Step}, "capsulorhexis"},
		{"capsulorexis", nil, "capsulorhexis"},
		{"hydrodisection", nil, "hydrodissection"},
		{"vitreous-lose", nil, "vitreous-loss"},
		{"suprachoroidal-hemorrage", nil, "suprachoroidal-haemorrhage"},
		{"phaco-divide-and-conquer", []Kind{Technique}, "divide-and-conquer"},
		{"nuclear", []Kind{CataractType}, "nuclear-cataract"},
		{"alpha-blocker", []Kind{RiskFactor}, "alpha-blocker-use"},
		{"alpha-blockers", []Kind{RiskFactor}, "alpha-blocker-use"},
		{"endophthalmitus", nil, "endophthalmitis"},
		{"tripan blue", []Kind{Material}, "trypan-blue"},
		{"PRC", nil, "posterior-capsule-tear"},
		{"posterior", []Kind{Complication}, ""}, // begins several ids
		{"", nil, ""},
		{"x", nil, ""},
		{"marmalade", nil, ""},
		{"iris-prolaps", []Kind{Drug}, ""},
		{"Ирис", nil, ""},
	} {
		got, ok := Cataract().Suggest(c.word, c.kinds...)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("Suggest(%q, %v) = %q, %v, want %q", c.word, c.kinds, got, ok, c.want)
		}
	}
}

func TestNearest(t *testing.T) {
	for _, c := range []struct {
		word       string
		candidates []string
		want       string
	}{
		{"timline", []string{"title", "timeline", "outcome"}, "timeline"},
		{"Follow-Up", []string{"follow_up", "fellow"}, "follow_up"},
		{"trainees", []string{"trainee", "fellow", "consultant"}, "trainee"},
		{"rihgt", []string{"left", "right"}, "right"},
		{"both", []string{"left", "right"}, ""},
		{"cat", []string{"bat", "rat", "hat"}, "bat"}, // a tie: the one that sorts first
		{"cat", []string{"rat", "hat", "bat"}, "bat"},
		{"a", []string{"b"}, ""},
		{"", []string{"", "x"}, ""},
		{"step", nil, ""},
	} {
		got, ok := Nearest(c.word, c.candidates)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("Nearest(%q, %q) = %q, %v, want %q", c.word, c.candidates, got, ok, c.want)
		}
	}
}

// FuzzLookUp: any text may be asked for; answers are ids that exist, the same
// each time, and an exact find is what Suggest gives.
func FuzzLookUp(f *testing.F) {
	for _, s := range []string{"iris-prolapse", "I/A", "Sömmering", "\xff\xfe", "haemorrhage", "aeoeaeoe", "phaco-divide-and-conquer", "\u0301", "İris"} {
		f.Add(s)
	}
	v := Cataract()
	f.Fuzz(func(t *testing.T, s string) {
		if len(s) > 200 {
			return
		}
		found := v.Find(s)
		id, ok := v.Suggest(s)
		again, _ := v.Suggest(s)
		if id != again {
			t.Fatalf("Suggest(%q) gave %q, then %q", s, id, again)
		}
		if _, exists := v.Get(id); ok != exists {
			t.Fatalf("Suggest(%q) = %q, %v", s, id, ok)
		}
		if len(found) > 0 && found[0].ID != id {
			t.Fatalf("Find(%q) says %s, Suggest %s", s, found[0].ID, id)
		}
	})
}

func BenchmarkSuggestNear(b *testing.B) {
	for b.Loop() {
		Cataract().Suggest("posterior-capsulle-teer")
	}
}

func BenchmarkSuggestFar(b *testing.B) {
	for b.Loop() {
		Cataract().Suggest("no such thing at all")
	}
}

func BenchmarkFind(b *testing.B) {
	for b.Loop() {
		Cataract().Find("Posterior capsular rupture")
	}
}
