package content

import (
	"cmp"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"
	"unicode"

	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"
)

// veil takes identifiers out of everything that is printed about a bank,
// whatever check it comes from: no line that holds one is shown, no message
// repeats one, and a file whose name is one goes by its masked name. Files that
// could not be read as cases are looked at too before a line of them is shown.
type veil struct {
	scanner *privacy.Scanner
	cells   *privacy.Output // reads lines of tables

	mu    sync.Mutex
	files map[*diagnose.Source]*veiled
	names map[string]string // file names that identify, masked
}

// veiled is what must not be shown of one file.
type veiled struct {
	lines map[int]bool
	words []string // texts found, as they stand in the file
	table bool
}

func newVeil(scanner *privacy.Scanner) *veil {
	return &veil{
		scanner: scanner, cells: scanner.NewOutput(),
		files: map[*diagnose.Source]*veiled{}, names: map[string]string{},
	}
}

// scannedFile remembers what was found in a file and which lines hold it, and
// what its exceptions name.
func (v *veil) scannedFile(f *scanned) {
	hidden := &veiled{}
	for i, p := range f.parts {
		for _, x := range f.found[i] {
			hidden.words = append(hidden.words, p.text[x.Start:x.End])
			if p.at >= 0 {
				hidden.cover(f.src, p.at+x.Start, p.at+x.End)
			}
		}
		if p.zone == privacy.Filename && len(f.found[i]) > 0 {
			v.name(p.text, f.found[i])
		}
	}
	for _, e := range f.exceptions {
		if e.Match.Known() {
			hidden.words = append(hidden.words, e.Match.Value)
			hidden.line(e.Match.Span.Line())
			hidden.line(e.Span.Line())
		}
	}
	v.mu.Lock()
	v.files[f.src] = hidden
	v.mu.Unlock()
}

// cover hides the lines of a stretch of a file.
func (h *veiled) cover(src *diagnose.Source, from, to int) {
	for line := src.SpanAt(from, 0).Line(); line <= src.SpanAt(max(from, to-1), 0).Line(); line++ {
		h.line(line)
	}
}

func (h *veiled) line(n int) {
	if h.lines == nil {
		h.lines = map[int]bool{}
	}
	h.lines[n] = true
}

// name remembers a file name that identifies, by its path and alone.
func (v *veil) name(file string, found []privacy.Finding) {
	masked := maskedIn(file, found)
	v.mu.Lock()
	defer v.mu.Unlock()
	v.names[file] = masked
	if base := path.Base(file); !strings.HasSuffix(masked, base) {
		v.names[base] = path.Base(masked)
	}
}

// maskedIn is a text with what was found in it masked.
func maskedIn(text string, found []privacy.Finding) string {
	for i := len(found) - 1; i >= 0; i-- {
		x := found[i]
		text = text[:x.Start] + privacy.Mask(text[x.Start:x.End]) + text[x.End:]
	}
	return text
}

// hide goes over all that was found in the bank before it is printed.
func (v *veil) hide(found diagnose.Diagnostics) {
	masked := map[*diagnose.Source]*diagnose.Source{}
	for _, d := range found {
		d.Hidden = d.Hidden || v.hides(d)
		hidden := v.file(d.Span.Source)
		d.Message = v.clean(d.Message, hidden, d.Hidden && d.Code != "identifying")
		d.Span.Source = v.renamed(d.Span.Source, masked)
		for i := range d.Related {
			r := &d.Related[i]
			r.Message = v.clean(r.Message, v.file(r.Span.Source), d.Hidden)
			r.Span.Source = v.renamed(r.Span.Source, masked)
		}
	}
}

// hides says whether a line that would be shown holds an identifier.
func (v *veil) hides(d *diagnose.Diagnostic) bool {
	if v.hidesLine(d.Span) || len(v.scanner.Scan(privacy.Body, d.Suggestion)) > 0 {
		return true
	}
	return slices.ContainsFunc(d.Related, func(r diagnose.Related) bool { return v.hidesLine(r.Span) })
}

func (v *veil) hidesLine(at diagnose.Span) bool {
	if at.Source == nil || at.Line() == 0 {
		return false
	}
	line := at.Source.Line(at.Line())
	if isTable(at.Source) {
		return v.hidesRow(at.Source, at.Line())
	}
	if v.file(at.Source).lines[at.Line()] {
		return true
	}
	for name := range v.names {
		if strings.Contains(line, name) {
			return true
		}
	}
	return false
}

// file returns what must not be shown of a file. One that did not come through
// the gate, because it could not be read, is scanned now, by the rules of front
// matter and of prose.
func (v *veil) file(src *diagnose.Source) *veiled {
	hidden, known := v.files[src]
	if known {
		return hidden
	}
	hidden = &veiled{table: src != nil && isTable(src)}
	if src != nil && !hidden.table {
		text := string(src.Data)
		for _, zone := range []privacy.Zone{privacy.FrontMatter, privacy.Body} {
			for _, x := range v.scanner.Scan(zone, text) {
				hidden.words = append(hidden.words, text[x.Start:x.End])
				hidden.cover(src, x.Start, x.End)
			}
		}
		if found := v.scanner.Scan(privacy.Filename, src.Name); len(found) > 0 {
			v.name(src.Name, found)
		}
	}
	v.files[src] = hidden
	return hidden
}

func isTable(src *diagnose.Source) bool { return strings.EqualFold(path.Ext(src.Name), ".csv") }

// hidesRow says whether a line of a logbook holds more than a logbook may. Days
// are its own: it may have a column for them, of which only the quarter is kept.
// Below the head of a column that it may not have nothing in a line says what a
// number is, so that no line is shown.
func (v *veil) hidesRow(src *diagnose.Source, line int) bool {
	head := 1
	if strings.HasPrefix(strings.ToLower(src.Line(1)), "sep=") {
		head = 2
	}
	if line > head && hasForeignColumn(src.Line(head)) {
		return true
	}
	return len(withoutDates(v.cells.Scan(src.Name, []byte(src.Line(line))))) > 0
}

func withoutDates(found []privacy.Finding) []privacy.Finding {
	return slices.DeleteFunc(found, func(f privacy.Finding) bool { return f.Class == privacy.Date })
}

// hasForeignColumn reports a head with a column that a logbook does not have.
func hasForeignColumn(head string) bool {
	for _, cell := range strings.FieldsFunc(head, func(r rune) bool { return r == ',' || r == ';' || r == '\t' || r == '"' }) {
		name := strings.ToLower(strings.ReplaceAll(strings.TrimSpace(cell), " ", "_"))
		ours := slices.ContainsFunc(logbookColumns, func(c logbookColumn) bool { return c.key == name })
		if name != "" && name != complicationsColumn && !ours {
			return true
		}
	}
	return false
}

// clean takes out of a message the texts that were found in its file, file
// names that identify, and where its line is hidden whatever reads like an
// identifier by itself and every name or number of what was found.
func (v *veil) clean(message string, hidden *veiled, line bool) string {
	// Longest first: a path before the name at its end.
	for _, name := range slices.SortedFunc(maps.Keys(v.names), func(a, b string) int {
		return cmp.Or(cmp.Compare(len(b), len(a)), cmp.Compare(a, b))
	}) {
		message = strings.ReplaceAll(message, name, v.names[name])
	}
	for _, word := range hidden.words {
		if strings.TrimSpace(word) == "" {
			continue
		}
		message = strings.ReplaceAll(message, word, privacy.Mask(word))
		if !line {
			continue
		}
		for _, piece := range strings.FieldsFunc(word, isBetweenWords) {
			if len(piece) > 2 && strings.ContainsFunc(piece, isTelling) {
				message = strings.ReplaceAll(message, piece, privacy.Mask(piece))
			}
		}
	}
	if line {
		found := v.scanner.Scan(privacy.Body, message)
		if hidden.table {
			found = withoutDates(found)
		}
		message = maskedIn(message, found)
	}
	return message
}

func isBetweenWords(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }

// isTelling reports the capitals and digits that names and numbers have.
func isTelling(r rune) bool { return unicode.IsUpper(r) || unicode.IsDigit(r) }

// renamed is a source under its masked name, where its own identifies.
func (v *veil) renamed(src *diagnose.Source, masked map[*diagnose.Source]*diagnose.Source) *diagnose.Source {
	if src == nil {
		return nil
	}
	name, identifies := v.names[src.Name]
	if !identifies {
		return src
	}
	if masked[src] == nil {
		other := *src
		other.Name = name
		masked[src] = &other
	}
	return masked[src]
}
