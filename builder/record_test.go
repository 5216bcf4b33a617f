package builder

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/content"

	"github.com/google/go-cmp/cmp"
)

const recordCase = "---\ncase: AB-1\ntitle: About a case\nprocedure: phacoemulsification\ntechnique: divide-and-conquer\n" +
	"timeline: [{at: 0:10, step: paracentesis}]\nrelease: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n" +
	"---\nThe story.\n"

// recorded gives the parts of the one case of a bank.
func recorded(t *testing.T, text string) map[string]string {
	t.Helper()
	bank, found, err := content.Read(fstest.MapFS{
		"bank.yaml": {Data: []byte("title: One case\n")}, "cases/ab-1.md": {Data: []byte(text)},
	})
	if err != nil || found.Failed() {
		var faults strings.Builder
		_ = found.WriteText(&faults)
		t.Fatalf("%v\n%s", err, &faults)
	}
	return Plan(bank, Options{}).record().Cases[0].Parts
}

// Each part of a case is seen to change, and no other with it.
func TestRecordParts(t *testing.T) {
	old := recorded(t, recordCase)
	for part, edit := range map[string][2]string{
		"before": {"release:", "history: Seen twice before.\nrelease:"}, "kit": {"release:", "kit: [{item: iris-hooks, count: 4}]\nrelease:"},
		"outcome": {"release:", "outcome: {told: no}\nrelease:"}, "limits": {"release:", "limits: One case.\nrelease:"},
		"alternatives": {"release:", "alternatives: [Stop and close.]\nrelease:"}, "sources": {"release:", "sources: [{text: Common practice; no source}]\nrelease:"},
		"lessons": {"release:", "lessons: [Look twice.]\nrelease:"}, "timeline": {"0:10", "0:00"}, "story": {"The story.", "The *other* story."},
		"release": {"reviewed: 2026", "reviewed: 2025"},
		"choices": {"paracentesis}]", "paracentesis}, {at: 0:20, decision: The way to go, options: [{id: a, text: One}, {id: b, text: Two}], chosen: a, because: It was nearer}]"},
	} {
		now := recorded(t, strings.Replace(recordCase, edit[0], edit[1], 1))
		var changed []string
		for _, name := range caseParts {
			if old[name] != now[name] {
				changed = append(changed, name)
			}
		}
		if diff := cmp.Diff([]string{part}, changed); diff != "" {
			t.Errorf("%s (-want +got):\n%s", part, diff)
		}
	}
	for name := range old {
		if !slices.Contains(caseParts, name) {
			t.Errorf("the part %s has no words", name)
		}
	}
}

// Moving lines, remarks, the order of keys and how a text is marked up change no
// part.
func TestRecordIgnoresLayout(t *testing.T) {
	moved := strings.Replace(recordCase, "title: About a case\n", "", 1)
	moved = strings.Replace(moved, "timeline:", "# A remark.\n\ntitle:   About a case\ntimeline:", 1)
	moved = strings.Replace(moved, "The story.", "The\n**story**.", 1)
	if diff := cmp.Diff(recorded(t, recordCase), recorded(t, moved)); diff != "" {
		t.Errorf("parts (-want +got):\n%s", diff)
	}
}

// What an author left out, what he does not know, none, no and nought differ.
func TestDigest(t *testing.T) {
	type form struct {
		A content.Given[bool]
		B content.Given[int]
	}
	seen := map[string]string{}
	for name, f := range map[string]form{
		"no": {A: content.Given[bool]{State: content.Known}}, "yes": {A: content.Given[bool]{Value: true, State: content.Known}},
		"unknown": {A: content.Given[bool]{State: content.Unknown}}, "none": {A: content.Given[bool]{State: content.None}},
		"nought": {B: content.Given[int]{State: content.Known}}, "absent": {},
	} {
		sum := digest(f)
		if (sum == "") != (name == "absent") {
			t.Errorf("%s gives %q", name, sum)
		}
		if other, clash := seen[sum]; clash {
			t.Errorf("%s and %s give one digest", name, other)
		}
		seen[sum] = name
	}
	if digest([]string{"a", "b"}) == digest([]string{"b", "a"}) || digest("a", "b") == digest("ab") {
		t.Error("an order or a border is not seen")
	}
}
