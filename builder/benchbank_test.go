package builder_test

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/content/term"
)

// benchBank makes a bank of n invented cases of about 6 KB each, with the
// settings, terms, decisions and logbook of the demonstration bank. The same n
// gives the same bytes. Sentences are put together from parts with numbers of
// their own, so that no two cases share a paragraph and nothing is cheaper for
// having been seen before.
func benchBank(t testing.TB, n int) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(casebank.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasPrefix(name, "cases/") || strings.HasPrefix(name, "courses/") {
			return err
		}
		data, err := fs.ReadFile(casebank.FS(), name)
		files[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	v := newBenchWords()
	for i := range n {
		id := fmt.Sprintf("GB-%05d", i+1)
		c := &benchCase{benchWords: v, r: rand.New(rand.NewPCG(uint64(i+1), 20260101))}
		c.write(id)
		files["cases/"+strings.ToLower(id)+".md"] = &fstest.MapFile{Data: []byte(c.out.String())}
	}
	return files
}

// benchWords are the terms that cases are made of.
type benchWords struct {
	vocabulary                                     *term.Vocabulary
	steps, events, risks, techniques, types, tools []string
}

func newBenchWords() benchWords {
	v := term.Cataract()
	ids := func(k term.Kind) []string {
		var list []string
		for _, t := range v.Of(k) {
			list = append(list, t.ID)
		}
		return list
	}
	return benchWords{
		vocabulary: v, steps: ids(term.Step), events: ids(term.Complication), risks: ids(term.RiskFactor),
		techniques: []string{"divide-and-conquer", "stop-and-chop", "horizontal-chop", "vertical-chop"},
		types:      ids(term.CataractType), tools: ids(term.Instrument),
	}
}

// benchCase is one case while it is made.
type benchCase struct {
	benchWords
	r   *rand.Rand
	out strings.Builder
	at  int // seconds of the recording
}

func (c *benchCase) pick(list []string) string { return list[c.r.IntN(len(list))] }

func (c *benchCase) line(format string, args ...any) { fmt.Fprintf(&c.out, format+"\n", args...) }

// time goes on by some seconds.
func (c *benchCase) time() string {
	c.at += 5 + c.r.IntN(50)
	return clock(c.at)
}

func clock(seconds int) string { return fmt.Sprintf("%d:%02d", seconds/60, seconds%60) }

func (c *benchCase) write(id string) {
	c.line("---\ncase: %s\ntitle: %s\nsummary: %s", id, strings.TrimSuffix(c.sentence(), "."), c.sentence())
	c.line("procedure: phacoemulsification\ntechnique: %s\nsurgeon: %s\neye: %s\nanaesthesia: sub-tenon-block",
		c.pick(c.techniques), c.pick([]string{"trainee", "fellow", "consultant"}), c.pick([]string{"right", "left"}))
	c.line("patient: {age_band: %d0-%[1]d9, sex: %s, risks: [%s]}", 5+c.r.IntN(4), c.pick([]string{"male", "female"}), c.pick(c.risks))
	c.line("cataract: {type: %s, grade: NO%d}", c.pick(c.types), 1+c.r.IntN(6))
	c.line("measures: {axial-length: %d.%02d mm, pupil-diameter: %d.5 mm}", 22+c.r.IntN(3), c.r.IntN(100), 4+c.r.IntN(4))
	c.line("plan: %s\nexamination: %s\nkit:", c.sentence(), c.sentence())
	for range 2 {
		c.line("  - {item: %s, note: %q}", c.pick(c.tools), c.sentence())
	}
	c.timeline()
	c.line("outcome:\n  acuity: {before: 6/%d, after: 6/%d}\n  capsule: intact\n  lens: in-the-bag\n  follow_up: %d weeks",
		[]int{18, 24, 36, 60}[c.r.IntN(4)], []int{6, 9, 12}[c.r.IntN(3)], 4+c.r.IntN(8))
	c.line("lessons:\n  - %s\n  - %s", c.sentence(), c.sentence())
	c.line("sources: [{text: Common practice; no source}]")
	c.line("release: {consent: not-required, reason: Made by a generator and describes no patient, reviewed_by: consultant, " +
		"reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n---")
	for i := range 4 {
		if i > 0 {
			c.line("## %s\n", strings.TrimSuffix(c.sentence(), "."))
		}
		for range 2 {
			c.line("%s %s [%s](term:%s).", c.sentence(), "It is told again under", c.pick(c.steps), c.pick(c.steps))
		}
		c.line("")
	}
}

// timeline is twelve steps, two events and two decisions.
func (c *benchCase) timeline() {
	c.line("timeline:")
	for i := range 12 {
		if i%4 > 0 {
			c.line("  - {at: %s, step: %s, place: %d}", c.time(), c.pick(c.steps), 1+c.r.IntN(12))
		} else {
			c.line("  - {at: %s, step: %s, note: %q}", c.time(), c.pick(c.steps), c.sentence())
		}
		switch i {
		case 4, 8:
			began := c.at + 2
			noticed, acted := began+3+c.r.IntN(20), began+30+c.r.IntN(20)
			c.line("  - at: %s\n    event: %s\n    began: %s\n    noticed: %s\n    acted: %s\n    sign: %q\n    action: %q",
				clock(noticed), c.pick(c.events), clock(began), clock(noticed), clock(acted), c.sentence(), c.sentence())
			c.at = acted
		case 5, 9:
			c.line("  - at: %s\n    decision: %s What now?\n    options:\n      - {id: go-on, text: %q, for: %q}\n      - {id: stop, text: %q, against: %q}\n    chosen: go-on\n    because: %q",
				c.time(), c.sentence(), c.sentence(), c.sentence(), c.sentence(), c.sentence(), c.sentence())
		}
	}
}

var (
	benchSubjects = []string{"the capsule", "the iris", "the last quadrant", "the rim", "the chamber", "the wound", "the bag", "the cortex", "the pupil", "the edge of the tear"}
	benchVerbs    = []string{"lay still at", "came up towards", "gave way at", "was held from", "turned slowly past", "stayed round near", "moved under", "was seen again at"}
	benchTails    = []string{"with the flow at %d mL/min", "under %d mmHg", "after %d s of work", "with %d mm of room left", "and the bottle at %d cm", "at a power of %d %%"}
)

// sentence is one with a clock hour and a number of its own. It begins with a
// capital and holds neither a colon nor a quotation mark.
func (c *benchCase) sentence() string {
	s := fmt.Sprintf("%s %s %d o'clock, %s, as %s %s %d o'clock", c.pick(benchSubjects), c.pick(benchVerbs), 1+c.r.IntN(12),
		fmt.Sprintf(c.pick(benchTails), 2+c.r.IntN(60)), c.pick(benchSubjects), c.pick(benchVerbs), 1+c.r.IntN(12))
	return strings.ToUpper(s[:1]) + s[1:] + "."
}

// The generated bank has nothing to mend, its cases are as long as is said, and
// it comes out the same each time.
func TestBenchBank(t *testing.T) {
	files := benchBank(t, 20)
	bank, found, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	if found.Count(0)+found.Count(1) > 0 || len(bank.Cases) != 20 {
		var text strings.Builder
		_ = found.WriteTextLimit(&text, 20)
		t.Errorf("%d cases\n%s", len(bank.Cases), &text)
	}
	again := benchBank(t, 20)
	size := 0
	for _, c := range bank.Cases {
		size += len(c.Source.Data)
		if string(again[c.File].Data) != string(files[c.File].Data) {
			t.Errorf("%s differs", c.File)
		}
	}
	if mean := size / 20; mean < 5500 || mean > 6500 {
		t.Errorf("a case has %d bytes on average; want about 6,000", mean)
	}
}
