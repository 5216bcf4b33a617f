package term

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestWithTakesGoodTerms(t *testing.T) {
	v, problems := Cataract().With([]Term{
		{ID: "night-list", Kind: RiskFactor, Label: "Night list"},
		{ID: "iris-hooks", Synonyms: []string{"pupil hooks"}, Mishearings: []string{"i rest hooks"}, Steps: []string{"capsulorhexis"}},
		{ID: "unit-wash", Kind: Step, Label: "Unit wash", Parent: "unit-round"},
		{ID: "unit-round", Kind: Procedure, Label: "Unit round", Parent: "cataract-surgery"},
		{ID: "unit-look", Kind: Step, Label: "Unit look", Parent: "unit-round"},
	})
	if len(problems) != 0 {
		t.Fatalf("problems: %v", problems)
	}
	if n := len(v.All()); n != count+4 {
		t.Errorf("%d terms", n)
	}
	if got, _ := v.Get("night-list"); !got.Local {
		t.Error("night-list is not marked local")
	}
	if got, _ := v.Get("iris-hooks"); got.Local || got.Label != "Iris hooks" {
		t.Errorf("iris-hooks = %+v", got)
	}
	for _, text := range []string{"pupil hooks", "iris retractors"} {
		if diff := cmp.Diff([]string{"iris-hooks"}, ids(v.Find(text))); diff != "" {
			t.Errorf("Find(%q) (-want +got):\n%s", text, diff)
		}
	}
	if len(Cataract().Find("pupil hooks")) != 0 {
		t.Error("With changed the built-in vocabulary")
	}
	if diff := cmp.Diff([]string{"unit-wash", "unit-look"}, v.Sequence("unit-round")); diff != "" {
		t.Errorf("local order (-want +got):\n%s", diff)
	}
	if len(v.WatchFor("capsulorhexis")) == 0 || len(v.Sequence("msics")) == 0 {
		t.Error("With lost the watch table or the orders")
	}
}

func TestAnotherSpecialty(t *testing.T) {
	v, problems := Empty().With([]Term{
		{ID: "tendon-repair", Kind: Procedure, Label: "Tendon repair", Steps: []string{"opening", "core-stitch", "closing"}},
		{ID: "closing", Kind: Step, Label: "Closing"},
		{ID: "core-stitch", Kind: Step, Label: "Core stitch", Synonyms: []string{"core suture"}},
		{ID: "opening", Kind: Step, Label: "Opening"},
		{ID: "four-strand", Kind: Technique, Label: "Four-strand", Parent: "core-stitch"},
	})
	if len(problems) != 0 {
		t.Fatalf("problems: %v", problems)
	}
	want := []string{"opening", "core-stitch", "closing"}
	for _, id := range []string{"tendon-repair", "four-strand"} {
		if diff := cmp.Diff(want, v.Sequence(id)); diff != "" {
			t.Errorf("Sequence(%q) (-want +got):\n%s", id, diff)
		}
	}
	if id, _ := v.Suggest("core suchure", Step); id != "core-stitch" {
		t.Errorf("Suggest = %q", id)
	}
	if v.Watch() != nil {
		t.Error("a watch table out of nowhere")
	}
}

func TestWithReportsProblems(t *testing.T) {
	v, problems := Cataract().With([]Term{
		0:  {ID: "Night List", Kind: RiskFactor, Label: "Night list"},
		1:  {ID: "iris-hooks", Kind: Device, Label: "Iris hooks"},
		2:  {ID: "night-list", Kind: "risk-facter", Label: "Night list"},
		3:  {ID: "late-list", Kind: RiskFactor},
		4:  {ID: "soft-light", Kind: Instrument, Label: "Soft light", Parent: "microscop", Steps: []string{"capsulorexis", "sculpting"}},
		5:  {ID: "soft-light", Kind: Instrument, Label: "Soft light"},
		6:  {ID: "hen", Kind: Device, Label: "Hen", Parent: "egg"},
		7:  {ID: "egg", Kind: Device, Label: "Egg", Parent: "hen"},
		8:  {ID: "my-tear", Kind: Complication, Label: "My tear", Synonyms: []string{"PC rent", "own tear"}, Abbreviation: "PCR"},
		9:  {ID: "iris-prolapse", Synonyms: []string{"vitreous prolapse", "iris slip"}, Definition: "Something else."},
		10: {ID: "dark-room", Kind: Device, Label: "Dark room", Steps: []string{"sculpting"}},
		11: {},
	})
	want := []Problem{
		{0, "id", `bad id "Night List": use lower-case words joined by hyphens, 64 characters at most`, "night-list"},
		{1, "id", "iris-hooks is built in; to add synonyms to it, give neither kind nor label", ""},
		{2, "kind", `unknown kind "risk-facter" of night-list`, "risk-factor"},
		{3, "label", "late-list has no label", ""},
		{4, "parent", `unknown parent "microscop" of soft-light`, "operating-microscope"},
		{4, "steps", `unknown step "capsulorexis" of soft-light`, "capsulorhexis"},
		{5, "id", "soft-light is defined twice in this bank", ""},
		{6, "parent", "the parents of hen lead back to it", ""},
		{8, "abbreviation", `"PCR" of my-tear already names posterior-capsule-tear`, ""},
		{8, "synonyms", `"PC rent" of my-tear already names posterior-capsule-tear`, ""},
		{9, "id", "iris-prolapse is built in; its parent and definition stay as they are", ""},
		{9, "synonyms", `"vitreous prolapse" of iris-prolapse already names vitreous-loss`, ""},
		{11, "id", `bad id "": use lower-case words joined by hyphens, 64 characters at most`, ""},
	}
	if diff := cmp.Diff(want, problems); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
	// Terms with a lesser fault are taken without the faulty part.
	for id, want := range map[string]Term{
		"soft-light": {ID: "soft-light", Kind: Instrument, Label: "Soft light", Steps: []string{"sculpting"}, Local: true},
		"my-tear":    {ID: "my-tear", Kind: Complication, Label: "My tear", Synonyms: []string{"own tear"}, Local: true},
		"dark-room":  {ID: "dark-room", Kind: Device, Label: "Dark room", Steps: []string{"sculpting"}, Local: true},
	} {
		got, _ := v.Get(id)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", id, diff)
		}
	}
	if n := len(v.All()); n != count+5 {
		t.Errorf("%d terms, want %d", n, count+5)
	}
	if diff := cmp.Diff([]string{"iris-prolapse"}, ids(v.Find("iris slip"))); diff != "" {
		t.Errorf("iris slip (-want +got):\n%s", diff)
	}
}
