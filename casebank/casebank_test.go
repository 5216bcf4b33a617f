package casebank_test

import (
	"io/fs"
	"path"
	"testing"

	"caseleaf/casebank"
)

// TestFS checks that the embedded bank is rooted where a reader looks for it, that it
// holds what it promises, and nothing of the Go code beside it.
func TestFS(t *testing.T) {
	count := map[string]int{}
	err := fs.WalkDir(casebank.FS(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		if path.Ext(name) == ".go" {
			t.Errorf("%s is code, not part of the bank", name)
		}
		count[path.Dir(name)]++
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for folder, least := range map[string]int{".": 3, "cases": 1, "decisions": 5, "courses": 1} {
		if count[folder] < least {
			t.Errorf("%d files in %s, want at least %d", count[folder], folder, least)
		}
	}
}
