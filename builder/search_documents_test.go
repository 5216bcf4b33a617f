package builder

import (
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
	s := Plan(bank, Options{BankFiles: casebank.FS()})
	index := search.NewBuilder(bank.Vocabulary.All())
	s.eachDocument(index.Add)
	_, stats := index.Files()
	t.Logf("%+v, index %.1f %% of the text", stats, 100*float64(stats.Index)/float64(stats.Covered))
	if 4*stats.Index > stats.Covered {
		t.Errorf("the index is %d bytes for %d of text", stats.Index, stats.Covered)
	}
}
