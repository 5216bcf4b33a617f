package content_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/content"
	"caseleaf/content/diagnose"

	"github.com/google/go-cmp/cmp"
)

const attested = "release: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n"

// patientCase is a released case with what is given of its patient.
func patientCase(id, facts, body string) string {
	return fmt.Sprintf("---\ncase: %s\ntitle: About %s\nprocedure: phacoemulsification\ntechnique: divide-and-conquer\n"+
		"timeline: [{at: 0:10, step: paracentesis}]\n%s%s---\n%s\n", id, id, attested, facts, body)
}

// readCases reads a bank of the cases, in their order, and returns what was
// found with the given code, a line each.
func readCases(t *testing.T, settings, code string, cases ...string) []string {
	t.Helper()
	files := fstest.MapFS{"bank.yaml": {Data: []byte("title: Cases\n" + settings)}}
	for i, c := range cases {
		files[fmt.Sprintf("cases/c-%d.md", i+1)] = &fstest.MapFile{Data: []byte(c)}
	}
	return found(t, files, code)
}

func found(t *testing.T, files fstest.MapFS, code string) []string {
	t.Helper()
	_, all, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, d := range all {
		if string(d.Code) == code {
			lines = append(lines, fmt.Sprintf("%s:%d %s %s", d.Span.File(), d.Span.Line(), d.Severity, d.Message))
		}
	}
	return lines
}

const common = "eye: right\npatient: {age_band: 70-79, sex: male}\ncataract: {type: nuclear-cataract}\n"

// One warning a case at most, with the value to coarsen; the class sizes are
// counted by hand.
func TestRareCombination(t *testing.T) {
	old := strings.Replace(common, "70-79", "60-69", 1)
	left := strings.Replace(common, "right", "left", 1)
	four := []string{patientCase("C-1", common, "A."), patientCase("C-2", common, "B."), patientCase("C-3", common, "C."), patientCase("C-4", old, "D.")}
	for name, c := range map[string]struct {
		settings string
		cases    []string
		want     []string
	}{
		"enough of each": {"rare_combination: 3\n", four[:3], nil},
		"a wider band brings four together": {"rare_combination: 4\n", four, []string{
			"cases/c-1.md:9 warning 3 of 4 released cases, this one included, publish its patient.age_band, eye, patient.sex and cataract.type together; 4 should: write 60-79 for the 70-79 of patient.age_band (4)",
			"cases/c-2.md:9 warning 3 of 4 released cases, this one included, publish its patient.age_band, eye, patient.sex and cataract.type together; 4 should: write 60-79 for the 70-79 of patient.age_band (4)",
			"cases/c-3.md:9 warning 3 of 4 released cases, this one included, publish its patient.age_band, eye, patient.sex and cataract.type together; 4 should: write 60-79 for the 70-79 of patient.age_band (4)",
			"cases/c-4.md:9 warning 1 of 4 released cases, this one included, publish its patient.age_band, eye, patient.sex and cataract.type together; 4 should: write 60-79 for the 60-69 of patient.age_band (4)",
		}},
		"the eye is the one to leave out": {"rare_combination: 2\n", []string{four[0], patientCase("C-2", left, "B.")}, []string{
			"cases/c-1.md:8 warning 1 of 2 released cases, this one included, publish its patient.age_band, eye, patient.sex and cataract.type together; 2 should: leave out eye (2)",
			"cases/c-2.md:8 warning 1 of 2 released cases, this one included, publish its patient.age_band, eye, patient.sex and cataract.type together; 2 should: leave out eye (2)",
		}},
		"invented": {"invented: yes\nrare_combination: 4\n", four, []string{
			"bank.yaml:2 note 4 of 4 released cases publish facts of the patient that fewer than 4 share; as the bank is invented, nobody can be found by them",
		}},
		"nothing published":    {"", []string{patientCase("C-1", "", "A.")}, nil},
		"not released":         {"", []string{strings.Replace(four[0], attested, "", 1)}, nil},
		"k of one never warns": {"rare_combination: 1\n", four, nil},
	} {
		t.Run(name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, readCases(t, c.settings, "rare-combination", c.cases...)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// A rare condition beside two exact values stops the build; beside one it does
// not, and in an invented bank nobody is there to be found.
func TestRareConditionBesideExactValues(t *testing.T) {
	rare := "patient: {age_band: 40-49, sex: female, risks: [high-myopia]}\n"
	settings := "rare_combination: 1\nrare: [high-myopia]\n"
	two := patientCase("C-1", rare, "A 43-year-old woman who works as a baker was operated on in 2021.")
	got := readCases(t, settings, "rare-combination", two)
	if len(got) != 1 || !strings.Contains(got[0], "error a rare condition (high-myopia) stands beside the year in the text, the age in the text and the occupation in the text") {
		t.Errorf("two exact values beside a rare condition: %q", got)
	}
	for name, c := range map[string][2]string{
		"one exact value": {settings, patientCase("C-1", rare, "A 43-year-old woman was operated on.")},
		"a common risk":   {"rare_combination: 1\n", two},
		"years of trials": {settings, patientCase("C-1", rare, "The trials of 2019 and 2020 say little (Eye 2021;35:1). She was aged 40-49.")},
	} {
		if got := readCases(t, c[0], "rare-combination", c[1]); got != nil {
			t.Errorf("%s: %q", name, got)
		}
	}
	if got := readCases(t, settings+"invented: yes\n", "rare-combination", two); len(got) != 1 || !strings.Contains(got[0], " note ") {
		t.Errorf("invented: %q", got)
	}
}

// A reviewed exception of class other at the place of the warning covers it.
func TestRareCombinationExcepted(t *testing.T) {
	exception := "privacy_exceptions:\n  - {class: other, where: front-matter, match: 70-79, count: 1, kind: reviewed, " +
		"reason: Three more of the kind are in last year's edition, reviewed_by: consultant, reviewed: 2026}\n"
	if got := readCases(t, "", "rare-combination", patientCase("C-1", common+exception, "A.")); got != nil {
		t.Errorf("excepted and still there: %q", got)
	}
	if got := readCases(t, "", "privacy-exception", patientCase("C-1", common+exception, "A.")); len(got) != 1 {
		t.Errorf("the exception is not listed: %q", got)
	}
	if got := readCases(t, "rare_combination: 1\n", "bad-exception", patientCase("C-1", common+exception, "A.")); len(got) != 1 {
		t.Errorf("a stale exception passed: %q", got)
	}
}

// What is missing from an attestation is listed; three answers are errors.
func TestReleases(t *testing.T) {
	whole := "consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no"
	for name, c := range map[string]struct {
		release  string
		released bool
		begins   string // the one message: severity and code
		ends     string // and a part of its words
	}{
		"whole":               {whole, true, "", ""},
		"no reason":           {strings.Replace(whole, "recorded", "not-required", 1), false, "warning held-back", "reason"},
		"a reason":            {strings.Replace(whole, "recorded", "not-required, reason: The local board asks for none", 1), true, "", ""},
		"consent alone":       {"consent: recorded", false, "warning held-back", "reviewed_by, reviewed, face, text_in_pictures, sound and otherwise_findable"},
		"no year":             {strings.Replace(whole, ", reviewed: 2026", "", 1), false, "warning held-back", "reviewed"},
		"nothing of sound":    {strings.Replace(whole, ", sound: none", "", 1), false, "warning held-back", "sound"},
		"a face":              {strings.Replace(whole, "face: no", "face: yes", 1), false, "error unfit-release", "a face"},
		"text in a picture":   {strings.Replace(whole, "pictures: no", "pictures: yes", 1), false, "error unfit-release", "readable text"},
		"otherwise findable":  {strings.Replace(whole, "findable: no", "findable: yes", 1), false, "error unfit-release", "another way"},
		"sound was looked at": {strings.Replace(whole, "none", "reviewed", 1), true, "", ""},
	} {
		text := strings.Replace(patientCase("C-1", "", "A."), attested, "release: {"+c.release+"}\n", 1)
		bank, all, err := content.Read(fstest.MapFS{"bank.yaml": {Data: []byte("title: Cases\n")}, "cases/c-1.md": {Data: []byte(text)}})
		if err != nil {
			t.Fatal(err)
		}
		if got := bank.Cases[0].Released(); got != c.released {
			t.Errorf("%s: released %v", name, got)
		}
		var said []string
		for _, d := range all {
			if d.Code == "held-back" || d.Code == "unfit-release" {
				said = append(said, fmt.Sprintf("%s %s %s", d.Severity, d.Code, d.Message))
			}
		}
		if c.begins == "" && said == nil {
			continue
		}
		if len(said) != 1 || c.begins == "" || !strings.HasPrefix(said[0], c.begins) || !strings.Contains(said[0], c.ends) {
			t.Errorf("%s: said %q, want %s … %s", name, said, c.begins, c.ends)
		}
	}
}

// A course that has a held-back case read says so at the case's id.
func TestReadingHeldBack(t *testing.T) {
	_, all, err := content.Read(fstest.MapFS{
		"bank.yaml":    {Data: []byte("title: Cases\n")},
		"cases/c-1.md": {Data: []byte(strings.Replace(patientCase("C-1", "", "A."), attested, "", 1))},
		"courses/lab.yaml": {Data: []byte("course: lab\ntitle: A lab\nperiod: \"2026\"\nstart: \"09:00\"\ngroups: [{name: A, size: 2}]\n" +
			"stations: [{id: a, title: Hooks, minutes: 30, cases: [C-1]}]\n")},
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range all {
		if d.Code == "held-back" && d.Span.File() == "courses/lab.yaml" && d.Span.Line() == 6 {
			return
		}
	}
	t.Errorf("nothing was said: %v", all)
}

// Text in a drawing goes through the exceptions with where: media, and the
// sound of a clip through its own.
func TestMediaExceptions(t *testing.T) {
	svg := `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><text>Mrs Oxtallow</text></svg>`
	files := func(exception string) fstest.MapFS {
		return fstest.MapFS{
			"bank.yaml":      {Data: []byte("title: Cases\n")},
			"cases/c-1.md":   {Data: []byte(patientCase("C-1", exception, "![A plan](plan.svg)"))},
			"cases/plan.svg": {Data: []byte(svg)},
		}
	}
	got := found(t, files(""), "identifying")
	if len(got) != 1 || !strings.Contains(got[0], "c-1.md:9 error text in the picture: Mrs O•") || strings.Contains(got[0], "Oxtallow") {
		t.Errorf("a name in a drawing: %q", got)
	}
	exception := "privacy_exceptions:\n  - {class: name, where: media, match: Mrs Oxtallow, count: 1, kind: consented, consent: held-locally, " +
		"reason: The relative agreed to be in the drawing, reviewed_by: consultant, reviewed: 2026}\n"
	if got := found(t, files(exception), "identifying"); got != nil {
		t.Errorf("excepted and still there: %q", got)
	}
	if got := found(t, files(exception), "bad-exception"); got != nil {
		t.Errorf("called stale: %q", got)
	}
}

// No line of a table is shown that may hold a record number, wherever the fault
// in it is, and no message repeats one.
func TestHiddenLinesOfTables(t *testing.T) {
	files := fstest.MapFS{
		"bank.yaml": {Data: []byte("title: Cases\n")},
		"logbook.csv": {Data: []byte("period,technique,complications,record,surname\n" +
			"2026-Q1,divide-and-conqueror,,4471902,Oxtallow\n2026-Q1,Mrs Oxtallow,,4471902,x\n")},
	}
	_, all, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	if err := all.WriteText(&text); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(text.String(), "4471902") || strings.Contains(text.String(), "Oxtallow") {
		t.Errorf("an identifier is shown:\n%s", &text)
	}
	if !strings.Contains(text.String(), "divide-and-conqueror") || !strings.Contains(text.String(), "period,technique") {
		t.Errorf("too much is hidden:\n%s", &text)
	}
	if all.Count(diagnose.Error) < 2 {
		t.Errorf("the faults are not told:\n%s", &text)
	}
}
