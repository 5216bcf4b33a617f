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

// outputGate scans the files of a handout as they are written. It is the last
// look: whatever way a text took through templates and tables, it is seen as
// readers will see it.
type outputGate struct {
	scan       *privacy.Output
	exceptions []privacy.Exception
	pinned     map[string]bool // paths of files known byte for byte, which no author wrote
	mu         sync.Mutex
	places     []Place
}

func newOutputGate(bank *content.Bank) *outputGate {
	return &outputGate{scan: bank.Privacy().NewOutput(), exceptions: bank.Exceptions()}
}

// look scans one file and remembers what blocks.
func (g *outputGate) look(path string, data []byte) {
	if g.pinned[path] {
		return
	}
	var blocked []privacy.Finding
	for _, f := range g.scan.Scan(path, data) {
		if f.Severity == privacy.Block {
			blocked = append(blocked, f)
		}
	}
	if len(blocked) == 0 {
		return
	}
	for _, f := range privacy.Excepted(blocked, data, g.exceptions) {
		g.mu.Lock()
		g.places = append(g.places, Place{path, f.Class, f.Rule})
		g.mu.Unlock()
	}
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
