package privacy_test

import (
	"encoding/json"
	"io/fs"
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"
)

// TestIdentifiersInDemonstrationCases puts made identifiers of every class at
// random places of the demonstration cases, four to a case and wherever authors
// write words: a value of the front matter, an item of a list, a paragraph, a
// heading. The whole bank is then read as a build reads it. 99 in 100 are to be
// found where they stand, with their class. The demonstration bank itself, read
// last, gives no finding.
func TestIdentifiersInDemonstrationCases(t *testing.T) {
	if testing.Short() {
		t.Skip("reads the demonstration bank many times")
	}
	r := rand.New(rand.NewPCG(11, 2026))
	const rounds, inEach = 12, 4
	put, found := map[privacy.Class]int{}, map[privacy.Class]int{}
	all, shown := 0, 0
	for range rounds {
		files := demonstration(t)
		var planted []plant
		for _, name := range slices.Sorted(maps.Keys(files)) {
			if !strings.HasPrefix(name, "cases/") {
				continue
			}
			taken := map[string]bool{}
			for range inEach {
				class := privacy.Classes()[all%len(privacy.Classes())]
				p := insertLine(r, name, files[name], class, taken)
				taken[p.written] = true
				planted = append(planted, p)
				all++
			}
		}
		told := readAll(t, files)
		for _, p := range planted {
			put[p.class]++
			line, column := place(files[p.file].Data, p)
			if told.has(p, line, column) {
				found[p.class]++
			} else if shown++; shown <= 20 {
				t.Logf("%s at %s:%d:%d: %q was not found", p.class, p.file, line, column, p.written)
			}
		}
	}
	missed := 0
	for _, class := range privacy.Classes() {
		t.Logf("%s: %d of %d", class, found[class], put[class])
		missed += put[class] - found[class]
	}
	if missed*100 > all {
		t.Errorf("%d of %d were not found", missed, all)
	}
	if alarms := readAll(t, demonstration(t)); len(alarms) > 0 {
		t.Errorf("the bank as it is: %v", alarms)
	}
}

// plant is an identifier in a file. The line it stands in is written once in the
// file, for its sentence is random.
type plant struct {
	file    string
	class   privacy.Class
	written string // the line as it stands in the file
	id      string // as it stands in the line
}

// prose is a line of front matter with words that the author chose; what goes
// before them is kept.
var (
	proseValue = regexp.MustCompile(`^(\s*(?:- )?(?:title|summary|plan|sign|cause|action|because|result|note|decision): )([^"'\[{|>].*)$`)
	proseItem  = regexp.MustCompile(`^(\s*- )([A-Z][^"':\[{|>]* [^:]*)$`)
)

// insertLine puts an identifier of the class at a random place of the file, in
// a line that isn't taken.
func insertLine(r *rand.Rand, name string, file *fstest.MapFile, class privacy.Class, taken map[string]bool) plant {
	lines := strings.Split(string(file.Data), "\n")
	for {
		k := r.IntN(len(lines))
		line := lines[k]
		if len(strings.Fields(line)) < 4 || taken[line] {
			continue
		}
		sentence, id := privacy.MadeIdentifier(r, class)
		p := plant{file: name, class: class, id: id}
		value := proseValue.FindStringSubmatch(line)
		if value == nil {
			value = proseItem.FindStringSubmatch(line)
		}
		switch front := k < frontLines(lines); {
		case front && value == nil:
			continue
		case front:
			p.id = strings.Trim(quoted(id), `"`)
			p.written = value[1] + quoted(amid(r, value[2], sentence))
		case strings.HasPrefix(line, "    ") || strings.HasPrefix(line, "```") || strings.HasPrefix(line, "|"):
			continue
		default:
			p.written = amid(r, line, sentence)
		}
		lines[k] = p.written
		file.Data = []byte(strings.Join(lines, "\n"))
		return p
	}
}

// quoted writes a text as a double-quoted scalar, which YAML and JSON share.
func quoted(s string) string {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	_ = e.Encode(s) // a string is always encoded
	return strings.TrimSpace(b.String())
}

// amid puts a sentence after one of the text's sentences, or at its end.
func amid(r *rand.Rand, text, sentence string) string {
	var ends []int
	for k := 0; k+2 < len(text); k++ {
		if text[k:k+2] == ". " {
			ends = append(ends, k+2)
		}
	}
	if len(ends) == 0 || r.IntN(3) == 0 {
		return strings.TrimRight(text, ". ") + ". " + sentence
	}
	k := ends[r.IntN(len(ends))]
	return text[:k] + sentence + " " + text[k:]
}

func frontLines(lines []string) int {
	for k := 1; k < len(lines); k++ {
		if lines[k] == "---" {
			return k
		}
	}
	return 0
}

// place is the line and column, from 1 and in characters, of what was planted.
func place(data []byte, p plant) (line, column int) {
	for k, l := range strings.Split(string(data), "\n") {
		if i := strings.Index(l, p.written); i >= 0 {
			at := i + strings.Index(p.written, p.id)
			return k + 1, len([]rune(l[:at])) + 1
		}
	}
	return 0, 0
}

// findings are the gate's diagnostics of a bank, by class and file.
type findings map[string][]*diagnose.Diagnostic

// has says whether a finding of the class lies over the identifier.
func (f findings) has(p plant, line, column int) bool {
	for _, d := range f[string(p.class)+" "+p.file] {
		if d.Span.Line() == line && d.Span.Column() < column+len([]rune(p.id)) && column < d.Span.Column()+d.Span.Length() {
			return true
		}
	}
	return false
}

// classOf reads the class out of the gate's message.
var classOf = regexp.MustCompile(`\(([a-z_]+), rule `)

func readAll(t *testing.T, bank fs.FS) findings {
	t.Helper()
	_, all, err := content.Read(bank)
	if err != nil {
		t.Fatal(err)
	}
	told := findings{}
	for _, d := range all {
		if d.Code == "identifying" {
			key := classOf.FindStringSubmatch(d.Message)[1] + " " + d.Span.File()
			told[key] = append(told[key], d)
		}
	}
	return told
}

// demonstration copies the demonstration bank without its logbook, which holds
// no words and would be read every time.
func demonstration(t *testing.T) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(casebank.FS(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || name == "logbook.csv" {
			return err
		}
		data, err := fs.ReadFile(casebank.FS(), name)
		files[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}
