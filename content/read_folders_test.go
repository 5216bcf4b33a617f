package content

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

// A list of a folder is believed at the next reading only while the folder, and
// each below it, stands as it did long before it was listed.
func TestFolderListsAreRemembered(t *testing.T) {
	bank := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		full := filepath.Join(bank, name)
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(full, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	age := func(by time.Duration) {
		t.Helper()
		for _, folder := range []string{"cases", "cases/more"} {
			then := time.Now().Add(-by)
			if err := os.Chtimes(filepath.Join(bank, folder), then, then); err != nil {
				t.Fatal(err)
			}
		}
	}
	var memo Memo
	read := func() (cases int, listed *walked) {
		t.Helper()
		b, _, err := ReadWith(os.DirFS(bank), Options{Memo: &memo})
		if err != nil {
			t.Fatal(err)
		}
		return len(b.Cases), memo.lists["cases"]
	}
	write("bank.yaml", "title: A bank\n")
	write("cases/ab-1.md", "---\ncase: AB-1\n---\nOne.\n")
	write("cases/more/ab-2.md", "---\ncase: AB-2\n---\nTwo.\n")
	age(time.Hour)
	n, first := read()
	if n != 2 {
		t.Fatalf("%d cases, want 2", n)
	}
	if n, again := read(); n != 2 || again != first {
		t.Errorf("%d cases; the folder was listed again: %v", n, again != first)
	}
	write("cases/more/ab-3.md", "---\ncase: AB-3\n---\nThree.\n")
	n, third := read()
	if n != 3 {
		t.Errorf("%d cases after one was added below, want 3", n)
	}
	if _, again := read(); again == third {
		t.Error("the list of a folder that has just changed is believed")
	}
	age(time.Hour)
	read()
	if err := os.Remove(filepath.Join(bank, "cases/ab-1.md")); err != nil {
		t.Fatal(err)
	}
	if n, _ := read(); n != 2 {
		t.Errorf("%d cases after one was removed, want 2", n)
	}
}
