package builder_test

import (
	"errors"
	"io/fs"
	"maps"
	"testing"
	"testing/fstest"

	"caseleaf/builder"
	"caseleaf/content"
)

// FuzzBuild reads a bank in which a case, a decision, the course, the settings,
// the terms or the logbook is whatever the fuzzer makes of those of the hostile
// bank, and where it is accepted lays out the pages that show them. A bank may be
// refused; nothing may panic or hang.
func FuzzBuild(f *testing.F) {
	good, _ := hostileBank()
	names := []string{"cases/ab-1.md", "decisions/way-out.md", "courses/lab.yaml", "bank.yaml", "terms.yaml", "logbook.csv"}
	for i, name := range names {
		f.Add(uint8(i), good[name].Data)
	}
	if _, found, err := content.Read(good); err != nil || found.Failed() {
		f.Fatalf("the bank to begin with is refused: %v", err)
	}
	f.Fuzz(func(t *testing.T, which uint8, data []byte) {
		files := maps.Clone(good)
		files[names[int(which)%len(names)]] = &fstest.MapFile{Data: data}
		bank, found, err := content.Read(files)
		if err != nil || found.Failed() {
			return
		}
		proof, err := builder.NewProof(bank, builder.Options{BankFiles: files, WithUnreleased: true})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []string{"index.html", "cases.html", "cases/ab-1.html", "decisions/way-out.html", "courses/lab.html",
			"courses/lab/stations.html", "frequencies.html", "chains.html", "booklets/all-participants.html", "glossary.html"} {
			var identifying *builder.IdentifyingError
			if _, err := proof.File(p); err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.As(err, &identifying) {
				t.Fatalf("%s: %v", p, err)
			}
		}
	})
}
