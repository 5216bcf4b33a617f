package content_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/casebank"
	"caseleaf/content"

	"github.com/google/go-cmp/cmp"
)

// published are the items carried of each guideline, numbered as in its
// publication:
//   - CARE: checklist form of 2013, complete; its statement (J Med Case Rep
//     2013;7:223) has the same 13 items;
//   - SCARE 2023: table 2 of Int J Surg 2023;109:1136-1140, the rows seen;
//   - LAP-VEGaS: statements as numbered in the supplement that lists 29 of the
//     37 of Ann Surg 2018;268:920-926, the rows seen.
var published = map[string]string{
	"CARE":      "1 2 3a 3b 3c 3d 4 5a 5b 5c 5d 6 7 8a 8b 8c 8d 9a 9b 9c 10a 10b 10c 10d 11a 11b 11c 11d 12 13",
	"SCARE":     "1 2 3 4a 4b 4c 4d 4e 5a 5b",
	"LAP-VEGaS": "1 2 3 4 5 6 7 8 9 10 11 12",
}

// remembered are the items carried from memory; nobody has checked their
// numbers against the published lists, and each must be marked so.
var remembered = map[string]string{
	"SCARE":          "5c 6a 6b 6c 6d 7 8 9a 9b 9c 9d 10a 10b 10c 10d 10e 11a 11b 11c 11d 12a 12b 12c 13 14 15",
	"LAP-VEGaS-tool": "1 2 3 4 5 6 7 8 9",
}

func TestGuidelineNumbers(t *testing.T) {
	got, fromMemory := map[string]string{}, map[string]string{}
	for _, a := range content.Completeness(&content.Case{}) {
		if a.FromMemory {
			fromMemory[a.Guideline] = strings.TrimSpace(fromMemory[a.Guideline] + " " + a.Item)
			continue
		}
		got[a.Guideline] = strings.TrimSpace(got[a.Guideline] + " " + a.Item)
	}
	if diff := cmp.Diff(published, got); diff != "" {
		t.Errorf("items (-published +carried):\n%s", diff)
	}
	if diff := cmp.Diff(remembered, fromMemory); diff != "" {
		t.Errorf("items from memory (-listed +marked):\n%s", diff)
	}
	var order []string
	for _, g := range content.Guidelines() {
		order = append(order, g.ID)
		for _, part := range []string{g.Citation, g.DOI, g.Seen} {
			if part == "" || !strings.Contains(g.Source(), part) {
				t.Errorf("%s: source line %q lacks %q", g.ID, g.Source(), part)
			}
		}
	}
	if diff := cmp.Diff([]string{"CARE", "SCARE", "LAP-VEGaS", "LAP-VEGaS-tool"}, order); diff != "" {
		t.Errorf("order:\n%s", diff)
	}
	// What was not seen is said, not passed over in silence.
	for _, g := range content.Guidelines()[1:] {
		if !strings.Contains(g.Seen, "left out") && !strings.Contains(g.Seen, "from memory") {
			t.Errorf("%s does not say what is missing: %q", g.ID, g.Seen)
		}
	}
}

const minimalCase = `---
case: MN-001
title: Small pupil
procedure: phacoemulsification
technique: divide-and-conquer
timeline:
  - {at: 0:10, step: main-incision}
---
`

// fullCase answers every item that can apply.
const fullCase = `---
case: FL-001
title: Small pupil, a case report
summary: Ask about alpha-blockers before the list.
procedure: phacoemulsification
technique: divide-and-conquer
surgeon: trainee
experience: about 40
eye: right
anaesthesia: sub-tenon-block
position: Flat on the back, surgeon at the temple
patient: {age_band: 70-79, sex: male, risks: [small-pupil]}
cataract: {type: nuclear-cataract, grade: NO4}
measures: {axial-length: 23.4 mm}
plan: Divide and conquer, hooks ready
complaint: Glare at night; afraid of giving up driving
history: Tamsulosin for two years; no operation before
examination: Pupil 4.5 mm after drops
diagnosis: Macula looked at first, since the lens alone did not explain the acuity
kit:
  - {item: iris-hooks, count: 4, size: 6.0 mm}
recording: {ends: 9:00}
timeline:
  - {at: 0:10, step: main-incision, place: 9}
  - {at: 3:05, event: iris-prolapse, began: 2:58, noticed: 3:05, acted: 3:20, sign: iris billowing, action: Hooks placed, cause: Perhaps too short a tunnel}
  - at: 3:20
    decision: How would you control the iris now?
    options:
      - {id: hooks, text: Iris hooks}
      - {id: drug, text: A drug}
    chosen: hooks
    because: The pupil was shrinking
outcome: {acuity: {before: 6/24, after: 6/6}, pressure: {day_1: 16 mmHg}, told: yes, follow_up: 6 weeks}
tolerance: Pain 2 of 10 when asked in recovery
perspective: Was glad to have been told of the lights
lessons:
  - Ask before the list.
  - Read the pupil twice.
  - Place hooks before the tear.
limits: One chosen case
sources: [{text: A review of small pupils}]
interests: none
shown: none
release: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}
---
What happened, in words.
`

// readOneCase reads a bank of one case and fails on any fault in it.
func readOneCase(t *testing.T, text string) *content.Case {
	t.Helper()
	name := strings.ToLower(strings.TrimPrefix(strings.Split(text, "\n")[1], "case: "))
	bank, found, err := content.Read(fstest.MapFS{
		"bank.yaml":             {Data: []byte("title: One\n")},
		"cases/" + name + ".md": {Data: []byte(text)},
	})
	if err != nil || len(bank.Cases) != 1 || found.Failed() {
		var faults strings.Builder
		_ = found.WriteText(&faults)
		t.Fatalf("read %d cases, error %v\n%s", len(bank.Cases), err, &faults)
	}
	return bank.Cases[0]
}

// standing lists the items of a status, each with its key or reason.
func standing(c *content.Case, status content.Fulfilment) []string {
	var out []string
	for _, a := range content.Completeness(c) {
		if a.Status == status {
			out = append(out, a.Guideline+" "+a.Item+": "+a.Key+a.Why)
		}
	}
	return out
}

// What a case holds, and how it then stands: our reading of the items (common
// practice, no source).
func TestCompletenessMinimal(t *testing.T) {
	c := readOneCase(t, minimalCase)
	want := []string{"CARE 2: procedure; technique", "CARE 7: timeline", "SCARE 8: timeline", "LAP-VEGaS-tool 4: timeline"}
	if diff := cmp.Diff(want, standing(c, content.Answered)); diff != "" {
		t.Errorf("answered (-want +got):\n%s", diff)
	}
	want = []string{
		"CARE 9c: neither a complication nor a decision is recorded",
		"CARE 10d: no complication is recorded",
		"SCARE 10e: neither a complication nor a decision is recorded",
		"SCARE 11d: no complication is recorded",
		"LAP-VEGaS 1: a handout names no people, places or dates",
		"LAP-VEGaS-tool 9: only who watches the recording can say; a case holds its words",
	}
	if diff := cmp.Diff(want, standing(c, content.DoesNotApply)); diff != "" {
		t.Errorf("does not apply (-want +got):\n%s", diff)
	}
	missing := strings.Join(standing(c, content.NotAnswered), "\n")
	for _, line := range []string{
		"CARE 3b: complaint; examination or cataract.grade",
		"CARE 3c: cataract.type or diagnosis; outcome",
		"SCARE 5a: narrative",
		"LAP-VEGaS 5: experience", // no grade is named, so a trainee may have operated
		"LAP-VEGaS 9: patient.age_band; patient.sex; complaint; history",
	} {
		if !strings.Contains(missing+"\n", line+"\n") {
			t.Errorf("%q is not among the unanswered:\n%s", line, missing)
		}
	}
}

func TestCompletenessFull(t *testing.T) {
	c := readOneCase(t, fullCase)
	want := []string{"LAP-VEGaS-tool 7: narrative"} // a case in one text has no picture beside it
	if diff := cmp.Diff(want, standing(c, content.NotAnswered)); diff != "" {
		t.Errorf("not answered (-want +got):\n%s", diff)
	}
	want = []string{
		"LAP-VEGaS 1: a handout names no people, places or dates",
		"LAP-VEGaS-tool 9: only who watches the recording can say; a case holds its words",
	}
	if diff := cmp.Diff(want, standing(c, content.DoesNotApply)); diff != "" {
		t.Errorf("does not apply (-want +got):\n%s", diff)
	}
}

// One change to the full case, and the items that stand differently for it.
func TestCompletenessChanges(t *testing.T) {
	event := "  - {at: 3:05, event: iris-prolapse, began: 2:58, noticed: 3:05, acted: 3:20, sign: iris billowing, action: Hooks placed, cause: Perhaps too short a tunnel}\n"
	decision := fullCase[strings.Index(fullCase, "  - at: 3:20"):strings.Index(fullCase, "outcome:")]
	for _, tt := range []struct {
		name     string
		old, new string
		want     []string // items no longer answered, and how
	}{
		{"title without the words", "Small pupil, a case report", "Small pupil",
			[]string{"CARE 1 not answered: title", "SCARE 1 not answered: title"}},
		{"a case series is no case report", "a case report", "a case reporter's view",
			[]string{"CARE 1 not answered: title", "SCARE 1 not answered: title"}},
		{"no event", event, "", []string{"CARE 10d does not apply: no complication is recorded", "SCARE 11d does not apply: no complication is recorded",
			"LAP-VEGaS-tool 5 not answered: timeline.event.sign or timeline.finding"}},
		{"an event and what was done not said", "acted: 3:20, sign: iris billowing, action: Hooks placed, ", "sign: iris billowing, ",
			[]string{"CARE 10d not answered: timeline.event.action or outcome.later", "SCARE 11d not answered: timeline.event.action or outcome.later"}},
		{"nothing was done, and said so", "acted: 3:20, sign: iris billowing, action: Hooks placed, ", "acted: none, sign: iris billowing, ", nil},
		{"a complication only later", event, "", []string{"LAP-VEGaS-tool 5 not answered: timeline.event.sign or timeline.finding"}}, // with outcome.later, below
		{"no decision", decision, "", nil}, // the event's action and cause answer instead
		{"a decision without its reason", "    because: The pupil was shrinking\n", "", nil},
		{"two lessons", "  - Read the pupil twice.\n", "",
			[]string{"SCARE 3 not answered: lessons", "SCARE 4e not answered: lessons"}},
		{"nothing cited", "A review of small pupils", "Common practice; no source", []string{
			"CARE 4 not answered: sources", "CARE 11b not answered: sources", "SCARE 4b not answered: sources",
			"SCARE 4d not answered: sources", "SCARE 5b not answered: sources", "SCARE 5c not answered: sources", "SCARE 12b not answered: sources"}},
		{"a consultant operated", "surgeon: trainee", "surgeon: consultant",
			[]string{"LAP-VEGaS 5 does not apply: no surgeon in training operated"}},
		{"a consultant, then a trainee", "surgeon: trainee", "surgeon: consultant", nil}, // with by, below
		{"consent is not required", "consent: recorded", "consent: not-required, reason: Invented", []string{
			"CARE 13 does not apply: consent is recorded as not required", "SCARE 14 does not apply: consent is recorded as not required",
			"LAP-VEGaS 6 does not apply: consent is recorded as not required"}},
		{"acuity unknown is no answer", "after: 6/6", "after: unknown",
			[]string{"CARE 3c not answered: outcome", "CARE 10a not answered: outcome.acuity.after or outcome.further_surgery",
				"SCARE 4c not answered: outcome", "SCARE 11c not answered: outcome", "LAP-VEGaS-tool 6 not answered: outcome"}},
		{"no further surgery is a result", "after: 6/6}", "after: unknown}, further_surgery: none", nil},
		{"interests not declared", "interests: none\n", "", []string{"SCARE 15 not answered: interests", "LAP-VEGaS 7 not answered: interests"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			text := strings.Replace(fullCase, tt.old, tt.new, 1)
			switch tt.name {
			case "a complication only later":
				text = strings.Replace(text, "told: yes", "told: yes, later: [cystoid-macular-oedema]", 1)
			case "a consultant, then a trainee":
				text = strings.Replace(text, "step: main-incision", "step: main-incision, by: trainee", 1)
			}
			if text == fullCase {
				t.Fatal("the change changes nothing")
			}
			got := changes(readOneCase(t, text))
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// openInFullCase are the items that no text of a case answers: names that a
// handout never holds, a picture beside the case, and how clear a recording is.
var openInFullCase = map[string]bool{"LAP-VEGaS 1": true, "LAP-VEGaS-tool 7": true, "LAP-VEGaS-tool 9": true}

// changes lists what the full case answers and this one does not.
func changes(c *content.Case) []string {
	var out []string
	for _, a := range content.Completeness(c) {
		if a.Status != content.Answered && !openInFullCase[a.Guideline+" "+a.Item] {
			out = append(out, a.Guideline+" "+a.Item+" "+string(a.Status)+": "+a.Key+a.Why)
		}
	}
	return out
}

// Every demonstration case answers most of CARE, none answers what only a
// patient can say, and the bank's counts are those of its cases.
func TestCompletenessDemonstration(t *testing.T) {
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	var cases []content.CaseAnswers
	items := bank.Completeness(func(c content.CaseAnswers) { cases = append(cases, c) })
	for _, c := range cases {
		if answered, applies := c.Tally("CARE"); 2*answered < applies || answered >= applies {
			t.Errorf("%s answers %d of %d items of CARE", c.Case.ID.Value, answered, applies)
		}
		for _, a := range c.Answers {
			isEvent := a.Guideline == "CARE" && a.Item == "10d"
			eventful := len(c.Case.Events()) > 0 || len(c.Case.Outcome.Later) > 0
			if isEvent && (a.Status == content.DoesNotApply) == eventful {
				t.Errorf("%s: item 10d %s, with %d events", c.Case.ID.Value, a.Status, len(c.Case.Events()))
			}
			if (a.Status == content.DoesNotApply) != (a.Why != "") || (a.Status == content.DoesNotApply) == (a.Key != "") {
				t.Errorf("%s: %s %s is %s with key %q, reason %q", c.Case.ID.Value, a.Guideline, a.Item, a.Status, a.Key, a.Why)
			}
		}
	}
	for i, it := range items {
		answered, applies := 0, 0
		for _, c := range cases {
			switch c.Answers[i].Status {
			case content.Answered:
				answered, applies = answered+1, applies+1
			case content.NotAnswered:
				applies++
			}
		}
		if it.Answered != answered || it.Applies != applies || len(it.Missing) != applies-answered {
			t.Errorf("%s %s: %d of %d with %d missing, counted %d of %d",
				it.Guideline, it.Item, it.Answered, it.Applies, len(it.Missing), answered, applies)
		}
	}
}
