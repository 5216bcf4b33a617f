package front

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/content/diagnose"
)

// TestFences lists files whose fences are missing, misspelt or misplaced.
func TestFences(t *testing.T) {
	const front = "case: HB-001\ntitle: Small pupil\n"
	for _, test := range []struct {
		name, text string
		ok         bool
		want       []place
	}{
		{"as it should be", "---\n" + front + "---\nStory.\n", true, nil},
		{"no story", "---\n" + front + "---", true, nil},
		{"blanks after the dashes", "--- \n" + front + "---\t\nStory.\n", true, nil},
		{"empty lines first", "\n\n---\n" + front + "---\n", true, nil},
		{"empty file", "", false, []place{{"error", 1, 1, "no-front-matter"}}},
		{"only a story", "# A story\n", false, []place{{"error", 1, 1, "no-front-matter"}}},
		{"four dashes first", "----\n" + front + "---\n", false, []place{{"error", 1, 1, "no-front-matter"}}},
		{"a dash of a word processor", "—\n" + front + "---\n", false, []place{{"error", 1, 1, "no-front-matter"}}},
		{"not closed", "---\n" + front + "\nThe iris billowed at once.\n", false, []place{{"error", 1, 1, "fence-not-closed"}}},
		{"closed by two dashes", "---\n" + front + "--\nStory.\n", false, []place{{"error", 1, 1, "fence-not-closed"}}},
		{"closed by full stops", "---\n" + front + "...\nStory.\n", false, []place{{"error", 1, 1, "fence-not-closed"}}},
		{"not closed, with a divider in the story", "---\n" + front + "\nThe iris billowed at once.\n\n---\n\nMore.\n", false, []place{{"error", 1, 1, "fence-not-closed"}}},
		{"closed by two dashes, with a divider", "---\n" + front + "--\n\nThe iris.\n\n---\n", false, []place{{"error", 1, 1, "fence-not-closed"}}},
		{"a comment between empty lines", "---\n" + front + "\n# What was used and what stood ready\n\nplan: x\n---\n", true, nil},
		{"two cases in one file", "---\n" + front + "---\nStory.\n\n---\ncase: HB-002\n---\n", true, []place{{"warning", 8, 1, "documents"}}},
		{"a case in a code block", "---\n" + front + "---\n```yaml\n---\ncase: HB-002\n---\n```\n", true, nil},
		{"dividers in the story", "---\n" + front + "---\n\nOne.\n\n---\n\nTwo.\n", true, nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			bag := diagnose.NewBag()
			src, ok := Normalise("case.md", []byte(test.text), bag)
			if ok {
				_, ok = Split(src, bag)
			}
			if ok != test.ok {
				t.Errorf("ok = %v, want %v", ok, test.ok)
			}
			if diff := cmp.Diff(test.want, places(bag.Sorted())); diff != "" {
				t.Errorf("messages (-want +got):\n%s", diff)
			}
		})
	}
}
