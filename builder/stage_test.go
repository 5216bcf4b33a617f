package builder

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

func tree(t *testing.T, folder string, files ...string) {
	t.Helper()
	for _, f := range files {
		name := filepath.Join(folder, f)
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(f), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// Folders that are not a handout are refused and left as they are.
func TestCheckOut(t *testing.T) {
	base := t.TempDir()
	tree(t, base, "foreign/letter.txt", "bank/bank.yaml", "ours/manifest.json", "ours/index.html", "file")
	if err := os.Mkdir(filepath.Join(base, "empty"), 0o755); err != nil {
		t.Fatal(err)
	}
	t.Setenv("HOME", filepath.Join(base, "home"))
	for out, refused := range map[string]bool{
		"new": false, "empty": false, "ours": false, // a handout, an empty folder and no folder yet
		"foreign": true, "bank": true, "file": true, "home": true,
	} {
		err := checkOut(filepath.Join(base, out))
		if got := errors.Is(err, ErrForeignFolder); got != refused {
			t.Errorf("%s: refused %v (%v), want %v", out, got, err, refused)
		}
	}
	if err := checkOut("/"); !errors.Is(err, ErrForeignFolder) {
		t.Errorf("the root was accepted: %v", err)
	}
}

// Where folders can't be exchanged in one step and the second step fails, the
// old handout is put back.
func TestExchangeByRename(t *testing.T) {
	base := t.TempDir()
	tree(t, base, "new/index.html", "handout/old.html")
	fresh, old := filepath.Join(base, "new"), filepath.Join(base, "handout")
	fails := func(from, to string) error {
		if from == fresh {
			return errors.New("disk full")
		}
		return os.Rename(from, to)
	}
	if err := exchangeByRename(fresh, old, fails); err == nil {
		t.Fatal("a failing rename was not reported")
	}
	if _, err := os.Stat(filepath.Join(old, "old.html")); err != nil {
		t.Errorf("the old handout is gone: %v", err)
	}
	if err := exchangeByRename(fresh, old, os.Rename); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(old, "index.html")); err != nil {
		t.Errorf("the new handout is not in place: %v", err)
	}
}

// File stems are safe on every file system and differ where ids do.
func TestFileStem(t *testing.T) {
	for id, want := range map[string]string{
		"HB-007": "hb-007", "1.10": "1.10", "CON": "con_", "aux.1": "aux.1_", "Com1": "com1_",
		"HB-021.": "hb-021_", "Étude-1": "_e9_tude-1", "007": "007", "12E4": "12e4", "comma": "comma",
	} {
		if got := fileStem(id); got != want {
			t.Errorf("fileStem(%q) = %q, want %q", id, got, want)
		}
	}
}
