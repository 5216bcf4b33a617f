package builder

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"caseleaf/content"
	"caseleaf/content/privacy"
)

// IdentifyingError says that written files hold what may identify somebody.
// Nothing was published. Its text names files and classes, never what was
// found.
type IdentifyingError struct{ Places []Place }

// Place is one finding in one written file.
type Place struct {
	File  string
	Class privacy.Class
	Rule  string
}

// Error lists the places, a line each.
func (e *IdentifyingError) Error() string {
	var out strings.Builder
	fmt.Fprintf(&out, "the written files were scanned again, and %d of their texts may identify somebody; nothing was published", len(e.Places))
	for _, p := range e.Places {
		fmt.Fprintf(&out, "\n  %s: looks like %s (%s, rule %s)", p.File, p.Class.Noun(), p.Class, p.Rule)
	}
	return out.String()
}

// outputGate scans the files of a handout and their names as they are written.
// It is the last look: whatever way a text took through templates and tables, it
// is seen as readers will see it.
type outputGate struct {
	names      *privacy.Scanner
	scan       *privacy.Output
	exceptions []privacy.Exception
	pinned     map[string]bool // paths of files known byte for byte, which no author wrote
	mu         sync.Mutex
	places     []Place
}

func newOutputGate(bank *content.Bank) *outputGate {
	scanner := bank.Privacy()
	return &outputGate{names: scanner, scan: scanner.NewOutput(), exceptions: bank.Exceptions()}
}

// look scans one file and remembers what blocks.
func (g *outputGate) look(path string, data []byte) {
	inName := blocking(g.names.Scan(privacy.Filename, path))
	g.remember(masked(path, inName), privacy.Excepted(inName, []byte(path), g.exceptions))
	if g.pinned[path] {
		return
	}
	if found := blocking(g.scan.Scan(path, data)); len(found) > 0 {
		g.remember(masked(path, inName), privacy.Excepted(found, data, g.exceptions))
	}
}

func (g *outputGate) remember(file string, found []privacy.Finding) {
	g.mu.Lock()
	defer g.mu.Unlock()
	for _, f := range found {
		g.places = append(g.places, Place{file, f.Class, f.Rule})
	}
}

// blocking keeps the findings that block; authors have been warned of the rest
// where they wrote it.
func blocking(found []privacy.Finding) []privacy.Finding {
	return slices.DeleteFunc(found, func(f privacy.Finding) bool { return f.Severity != privacy.Block })
}

// masked is a file's name with what was found in it masked.
func masked(path string, found []privacy.Finding) string {
	for _, f := range slices.Backward(found) {
		path = path[:f.Start] + privacy.Mask(path[f.Start:f.End]) + path[f.End:]
	}
	return path
}

// verdict returns an IdentifyingError when anything was found.
func (g *outputGate) verdict() error {
	if len(g.places) == 0 {
		return nil
	}
	slices.SortFunc(g.places, func(a, b Place) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Class, b.Class), cmp.Compare(a.Rule, b.Rule))
	})
	return &IdentifyingError{slices.Compact(g.places)}
}
