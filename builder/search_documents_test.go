package builder

import (
	"io/fs"
	"testing"

	"caseleaf/builder/search"
	"caseleaf/casebank"
	"caseleaf/content"
)

// The index, words and postings together, is at most a quarter of the text that
// it covers. The texts that are kept to be shown repeat what pages show and
// count as text; how large they are is printed beside it.
func TestSearchIndexIsSmall(t *testing.T) {
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	_, stats := SearchFiles(bank, casebank.FS())
	t.Logf("%+v, index %.1f %% of the text", stats, 100*float64(stats.Index)/float64(stats.Covered))
	if 4*stats.Index > stats.Covered {
		t.Errorf("the index is %d bytes for %d of text", stats.Index, stats.Covered)
	}
}

// SearchFiles makes the index of a bank, and no page of it.
func SearchFiles(bank *content.Bank, files fs.FS) ([]search.File, search.Stats) {
	s := Plan(bank, Options{BankFiles: files})
	index := search.NewBuilder(bank.Vocabulary.All())
	s.eachDocument(index.Add)
	return index.Files()
}
