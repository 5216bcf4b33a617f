package content

import (
	"strings"
	"testing"

	"caseleaf/content/term"
)

// Every name in items.csv is known, every known name is used, and every key
// that is asked for is a key of a case.
func TestGuidelineTables(t *testing.T) {
	names := map[string]bool{}
	for _, g := range Guidelines() {
		names[g.ID] = true
	}
	keys := string(DraftCase("AB-001", term.Cataract()))
	usedFacts, usedConditions, seen := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, it := range guidelines().items {
		at := it.Guideline + " " + it.Item
		if !names[it.Guideline] {
			t.Errorf("%s: no such guideline in sources.csv", at)
		}
		if seen[at] {
			t.Errorf("%s stands twice", at)
		}
		seen[at] = true
		if it.Topic == "" || it.Asks == "" {
			t.Errorf("%s has no topic or does not say what it asks", at)
		}
		if _, ok := conditions[it.applies]; !ok && it.applies != "" {
			t.Errorf("%s: no condition %q", at, it.applies)
		}
		usedConditions[it.applies] = true
		if len(it.needs) == 0 && it.applies != "unnamed" && it.applies != "watched" {
			t.Errorf("%s names no key", at)
		}
		for _, alternatives := range it.needs {
			for _, name := range alternatives {
				usedFacts[name] = true
				if facts[name] == nil {
					t.Errorf("%s: no fact %q", at, name)
				}
				key := factKey(name)
				if last := key[strings.LastIndex(key, ".")+1:]; key != "narrative" && !strings.Contains(keys, last+":") {
					t.Errorf("%s: %s is no key of a case", at, key)
				}
			}
		}
	}
	for name := range facts {
		if !usedFacts[name] {
			t.Errorf("nothing asks for the fact %q", name)
		}
	}
	for name := range conditions {
		if !usedConditions[name] {
			t.Errorf("nothing uses the condition %q", name)
		}
	}
}
