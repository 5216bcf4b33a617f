package builder

import (
	"cmp"
	"fmt"
	"iter"
	"regexp"
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

// Place is one finding in one written file. The file's name is masked where it
// is itself what was found.
type Place struct {
	File  string
	Class privacy.Class
	Rule  string
}

// String says in words what the place looks like, never what stands there.
func (p Place) String() string {
	return fmt.Sprintf("%s: looks like %s (%s, rule %s)", p.File, p.Class.Noun(), p.Class, p.Rule)
}

// Error lists the places, a line each.
func (e *IdentifyingError) Error() string {
	var out strings.Builder
	fmt.Fprintf(&out, "the written files were scanned again, and %d of their texts may identify somebody; nothing was published", len(e.Places))
	for _, p := range e.Places {
		fmt.Fprintf(&out, "\n  %s", p)
	}
	return out.String()
}

// Look is what a scan of written files found and no reviewed exception of the
// bank covers, sorted, each once.
type Look struct {
	Blocks   []Place // nothing may be published
	Warnings []Place // may be built, and must not leave the house
}

// Err is an IdentifyingError when anything blocks, else nil.
func (l Look) Err() error {
	if len(l.Blocks) == 0 {
		return nil
	}
	return &IdentifyingError{l.Blocks}
}

// LeaveErr is an IdentifyingError when anything blocks or warns, else nil: what
// leaves the house is stopped by both.
func (l Look) LeaveErr() error {
	if len(l.Blocks)+len(l.Warnings) == 0 {
		return nil
	}
	return &IdentifyingError{sortedPlaces(slices.Concat(l.Blocks, l.Warnings))}
}

// ScanFiles looks at files that are about to be shown or handed out, and at
// their names, by the rules that build uses: for a zip before it is written, or
// for pages before they are served. files gives slash-separated paths and their
// bytes, as maps.All does. Files in known (nil for none) were not written by an
// author and are pinned byte for byte; only their names are looked at. Without
// a bank the built-in words are used, and no exception is known.
func ScanFiles(bank *content.Bank, files iter.Seq2[string, []byte], known map[string]bool) Look {
	g := newOutputGate(bank)
	g.pinned = known
	for path, data := range files {
		g.look(path, data)
	}
	return g.result()
}

// outputGate scans the files of a handout and their names as they are written.
// It is the last look: whatever way a text took through templates and tables, it
// is seen as readers will see it.
type outputGate struct {
	names      *privacy.Scanner
	scan       *privacy.Output
	exceptions []privacy.Exception
	pinned     map[string]bool // paths of files known byte for byte, which no author wrote
	dates      []CourseDate    // taken out of calendars before they are looked at
	periods    map[string]bool // of courses and of the logbook's tables, which say nothing of one patient
	mu         sync.Mutex
	seen       Look
}

func newOutputGate(bank *content.Bank) *outputGate {
	if bank == nil {
		scanner := privacy.New(privacy.Options{})
		return &outputGate{names: scanner, scan: scanner.NewOutput()}
	}
	scanner := bank.Privacy()
	g := &outputGate{names: scanner, scan: scanner.NewOutput(), exceptions: bank.Exceptions(), periods: map[string]bool{}}
	for _, c := range bank.Courses {
		g.periods[plainPeriod(c.Period.Value)] = true
	}
	for _, p := range bank.Logbook.Periods() {
		g.periods[plainPeriod(p)] = true
	}
	return g
}

// ofTables says whether a finding is a quarter of the logbook or that in which a
// course is held. One that an author typed into a case has been warned of there.
func (g *outputGate) ofTables(f privacy.Finding, data []byte) bool {
	return f.Class == privacy.Date && f.Severity == privacy.Warn && g.periods[plainPeriod(string(data[f.Start:f.End]))]
}

// quarterForm is a quarter as pages may show it: 2026-Q1, 2026 Q1, Q1 2026.
var quarterForm = regexp.MustCompile(`^(\d{4})\W*Q([1-4])$|^Q([1-4])\W*(\d{4})$`)

// plainPeriod brings the forms of a quarter to one.
func plainPeriod(text string) string {
	m := quarterForm.FindStringSubmatch(text)
	if m == nil {
		return text
	}
	return m[1] + m[4] + "-Q" + m[2] + m[3]
}

// fresh is a gate with the same rules that has seen nothing yet.
func (g *outputGate) fresh() *outputGate {
	return &outputGate{names: g.names, scan: g.scan, exceptions: g.exceptions, pinned: g.pinned, dates: g.dates, periods: g.periods}
}

// look scans one file and remembers what was found. It is silent where nothing
// was found that no exception covers.
func (g *outputGate) look(path string, data []byte) (silent bool) {
	inName := g.names.Scan(privacy.Filename, path)
	shown := masked(path, inName)
	left := privacy.Excepted(inName, []byte(path), g.exceptions)
	g.remember(shown, left)
	if g.pinned[path] {
		return len(left) == 0
	}
	if strings.HasSuffix(path, ".ics") {
		data = withoutCourseDates(data, g.dates)
	}
	if found := g.scan.Scan(path, data); len(found) > 0 {
		found = slices.DeleteFunc(found, func(f privacy.Finding) bool { return g.ofTables(f, data) })
		inText := privacy.Excepted(found, data, g.exceptions)
		g.remember(shown, inText)
		left = append(left, inText...)
	}
	return len(left) == 0
}

func (g *outputGate) remember(file string, found []privacy.Finding) {
	g.mu.Lock()
	defer g.mu.Unlock()
	for _, f := range found {
		p := Place{file, f.Class, f.Rule}
		if f.Severity == privacy.Block {
			g.seen.Blocks = append(g.seen.Blocks, p)
		} else {
			g.seen.Warnings = append(g.seen.Warnings, p)
		}
	}
}

// masked is a file's name with what was found in it masked.
func masked(path string, found []privacy.Finding) string {
	for _, f := range slices.Backward(found) {
		path = path[:f.Start] + privacy.Mask(path[f.Start:f.End]) + path[f.End:]
	}
	return path
}

// result is what was seen so far.
func (g *outputGate) result() Look {
	g.mu.Lock()
	defer g.mu.Unlock()
	return Look{sortedPlaces(g.seen.Blocks), sortedPlaces(g.seen.Warnings)}
}

func sortedPlaces(places []Place) []Place {
	places = slices.Clone(places)
	slices.SortFunc(places, func(a, b Place) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Class, b.Class), cmp.Compare(a.Rule, b.Rule))
	})
	return slices.Compact(places)
}
