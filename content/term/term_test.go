package term

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// count is the size of the trade reference's vocabulary.
const count = 447

func TestBuiltInIsWhole(t *testing.T) {
	for _, decode := range []func() error{
		func() error { _, err := decodeTerms(cataractCSV); return err },
		func() error { _, err := decodeOrder(orderCSV); return err },
		func() error { _, err := decodeWatch(watchCSV); return err },
	} {
		if err := decode(); err != nil {
			t.Error(err)
		}
	}
	if n := len(Cataract().All()); n != count {
		t.Errorf("%d terms, want %d", n, count)
	}
	if n := len(Cataract().Of(Kinds()...)); n != count {
		t.Errorf("%d terms have a known kind, want %d", n, count)
	}
	if Empty().All() != nil || Empty().Watch() != nil || Empty().Sequence("msics") != nil {
		t.Error("the empty vocabulary is not empty")
	}
}

func TestBuiltInTermsAreSound(t *testing.T) {
	v := Cataract()
	seen := make(map[string]bool)
	for _, term := range v.All() {
		if seen[term.ID] {
			t.Errorf("%s: id twice", term.ID)
		}
		seen[term.ID] = true
		if !idForm.MatchString(term.ID) || len(term.ID) > maxID {
			t.Errorf("%s: bad id form", term.ID)
		}
		if term.Label == "" || !strings.HasSuffix(term.Definition, ".") || strings.Contains(term.Definition, "percent") {
			t.Errorf("%s: label %q, definition %q", term.ID, term.Label, term.Definition)
		}
		if _, ok := v.Get(term.Parent); !ok && term.Parent != "" {
			t.Errorf("%s: unknown parent %s", term.ID, term.Parent)
		}
		if v.within(term.ID, term.ID) {
			t.Errorf("%s is its own ancestor", term.ID)
		}
		for _, s := range term.Steps {
			if step, _ := v.Get(s); step.Kind != Step {
				t.Errorf("%s: %s is no step", term.ID, s)
			}
		}
		if got, ok := v.Get(term.ID); !ok || got.ID != term.ID || term.Local {
			t.Errorf("%s: not found by its id, or marked local", term.ID)
		}
	}
}

// TestNamesAreClear: a name means one thing within a kind unless the ambiguous
// table says otherwise, and a mishearing never equals another term's name.
func TestNamesAreClear(t *testing.T) {
	v := Cataract()
	known := make(map[string]bool)
	for _, a := range ambiguous {
		known[fold(a.word)] = true
		if len(v.Find(a.word)) < 2 {
			t.Errorf("%q is listed as ambiguous but has one reading", a.word)
		}
		for _, id := range a.ids {
			if _, ok := v.Get(id); !ok {
				t.Errorf("ambiguous %q: unknown id %s", a.word, id)
			}
		}
	}
	for key, places := range v.byKey {
		kinds := make(map[Kind]string)
		for _, i := range places {
			term := v.terms[i]
			if other := kinds[term.Kind]; other != "" && !known[key] {
				t.Errorf("%q names both %s and %s", key, other, term.ID)
			}
			kinds[term.Kind] = term.ID
		}
	}
	heard := make(map[string]string)
	for _, term := range v.All() {
		for _, m := range term.Mishearings {
			key := strings.ToLower(m)
			if heard[key] != "" {
				t.Errorf("%q is a mishearing of both %s and %s", m, heard[key], term.ID)
			}
			heard[key] = term.ID
			for _, found := range v.byKey[fold(m)] {
				if v.terms[found].ID != term.ID {
					t.Errorf("mishearing %q of %s is a name of %s", m, term.ID, v.terms[found].ID)
				}
			}
		}
	}
}

func TestOf(t *testing.T) {
	v := Cataract()
	var got []string
	for _, s := range v.Of(Step)[:4] {
		got = append(got, s.ID)
	}
	want := []string{"safety-check", "laser-planning", "anaesthesia", "laser-docking"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("first steps (-want +got):\n%s", diff)
	}
	if n := len(v.Of(Complication, Sign)); n != 77+26 {
		t.Errorf("%d complications and signs, want 103", n)
	}
	if v.Of("no-such-kind") != nil {
		t.Error("terms of an unknown kind")
	}
	// The caller's changes must not reach the vocabulary.
	v.Of(Step)[0].Label = "changed"
	v.All()[0].Label = "changed"
	slices.Reverse(v.Watch())
	if again := v.Of(Step)[0].Label; again == "changed" {
		t.Error("Of shares its terms with the caller")
	}
}

func TestAllocations(t *testing.T) {
	v := Cataract()
	if n := testing.AllocsPerRun(100, func() { v.Get("iris-prolapse") }); n != 0 {
		t.Errorf("Get makes %v allocations", n)
	}
	if n := testing.AllocsPerRun(100, func() { v.Of(Complication, Sign) }); n > 1 {
		t.Errorf("Of makes %v allocations", n)
	}
}
