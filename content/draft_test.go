package content_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/content"
	"caseleaf/content/term"
)

// An empty case reads without error, is held back, and loses its comment marks
// to become a full one.
func TestDraftCase(t *testing.T) {
	draft := content.DraftCase("AB-001", term.Cataract())
	bank, found, err := content.Read(fstest.MapFS{
		"bank.yaml":       {Data: []byte("title: New\n")},
		"cases/ab-001.md": {Data: draft},
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := places(found); len(got) > 0 {
		var text strings.Builder
		_ = found.WriteText(&text)
		t.Fatalf("faults:\n%s\nin\n%s", &text, draft)
	}
	if c := bank.Cases[0]; c.Released() || c.ID.Value != "AB-001" {
		t.Errorf("case %q, released %v; want AB-001, held back", c.ID.Value, c.Released())
	}
	for _, key := range []string{"lessons", "release", "recording", "sign", "because", "present"} {
		if !strings.Contains(string(draft), key+":") {
			t.Errorf("the draft does not show %q", key)
		}
	}
}

// The bank that begin lays out reads without error or warning.
func TestBeginning(t *testing.T) {
	files := fstest.MapFS{}
	const title = "~ A bank: of \"our\" own\\ #1"
	for name, data := range content.Beginning(title) {
		files[name] = &fstest.MapFile{Data: data}
	}
	bank, found, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	if got := places(found); len(got) > 0 {
		var text strings.Builder
		_ = found.WriteText(&text)
		t.Errorf("faults:\n%s", &text)
	}
	if got := bank.Settings.Title.Value; got != title {
		t.Errorf("title %q", got)
	}
}
