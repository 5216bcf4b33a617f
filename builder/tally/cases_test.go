package tally_test

import (
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/tally"
	"caseleaf/content"
	"caseleaf/content/measure"
)

func known[V any](v V) content.Given[V] { return content.Given[V]{Value: v, State: content.Known} }

// clock reads m:ss for a test's own entries.
func clock(t *testing.T, text string) content.Given[measure.Time] {
	t.Helper()
	if text == "" {
		return content.Given[measure.Time]{State: content.Unknown}
	}
	v, err := measure.ParseTime(text)
	if err != nil {
		t.Fatal(err)
	}
	return known(v)
}

func step(t *testing.T, at, id string) content.Entry {
	return content.Entry{At: clock(t, at), Step: &content.Step{Term: known(id)}}
}

func event(t *testing.T, at, id, began, noticed, acted string) content.Entry {
	return content.Entry{At: clock(t, at), Event: &content.Event{
		Term: known(id), Began: clock(t, began), Noticed: clock(t, noticed), Acted: clock(t, acted),
	}}
}

func acuityOf(t *testing.T, text string) content.Given[measure.Acuity] {
	t.Helper()
	a, err := measure.ParseAcuity(text)
	if err != nil {
		t.Fatal(err)
	}
	return known(a)
}

// threeCases have delays, durations and choices that were worked by hand.
func threeCases(t *testing.T) []*content.Case {
	choose := func(at, chosen, came string) content.Entry {
		d := &content.DecisionPoint{Point: known("small-pupil"), Question: known("How?"), Chosen: known(chosen),
			Options: []content.Option{{ID: known("hooks")}, {ID: known("ring")}}}
		if came != "" {
			d.CameOf = known(came)
		}
		return content.Entry{At: clock(t, at), Decision: d}
	}
	first := &content.Case{ID: known("A"), Technique: known("chop"), Recording: content.Recording{Ends: clock(t, "10:00")}}
	first.Timeline.Entries = []content.Entry{
		step(t, "0:30", "main-incision"), step(t, "1:10", "capsulorhexis"),
		event(t, "3:05", "iris-prolapse", "2:58", "3:05", "3:20"), choose("3:20", "hooks", "held"),
	}
	first.Outcome.Acuity = content.AcuityChange{Before: acuityOf(t, "6/24"), After: acuityOf(t, "6/6")}
	second := &content.Case{ID: known("B"), Technique: known("chop"), Recording: content.Recording{Cuts: []content.Given[measure.Time]{clock(t, "5:00")}}}
	second.Timeline.Entries = []content.Entry{
		step(t, "0:20", "main-incision"), step(t, "1:20", "capsulorhexis"),
		event(t, "4:00", "iris-prolapse", "4:00", "4:30", "5:30"), // the recording is cut between the last two
		choose("5:30", "hooks", ""),
	}
	second.Outcome.Acuity = content.AcuityChange{Before: acuityOf(t, "CF"), After: acuityOf(t, "6/12")}
	third := &content.Case{ID: known("C"), Technique: known("divide-and-conquer")}
	third.Timeline.Entries = []content.Entry{
		step(t, "1:00", "capsulorhexis"), event(t, "2:00", "iris-prolapse", "", "2:00", "2:10"),
	}
	return []*content.Case{first, second, third}
}

// TestCasesAreCounted: every figure is worked by hand from threeCases.
func TestCasesAreCounted(t *testing.T) {
	r := tally.Of(&content.Bank{}, threeCases(t))
	if diff := cmp.Diff([]tally.OnsetRow{
		{Step: "capsulorhexis", Complication: "iris-prolapse", Count: 2},
		{Step: "", Complication: "iris-prolapse", Count: 1}, // nobody knows when it began in C
	}, r.Onsets); diff != "" {
		t.Error(diff)
	}
	d := r.Delays[0]
	// began to noticed: 7 s and 30 s; noticed to acted: 15 s and 10 s (B is cut)
	if d.Events != 3 || d.BeganNoticed.N != 2 || d.BeganNoticed.Median != 18.5 || d.BeganNoticed.Lower != 12.75 ||
		d.NoticedActed.N != 2 || d.NoticedActed.Median != 12.5 || d.NoticedActed.Most != 15 {
		t.Errorf("%+v", d)
	}
	var text string
	for _, row := range r.Durations {
		text += fmt.Sprintf("%s %s n=%d median=%s untold=%d\n", row.Step, row.Technique, row.N, row.Median.Text(), row.Untold)
	}
	want := "capsulorhexis chop n=1 median=530 untold=1\n" + // 1:10 to the end at 10:00; B has no end
		"capsulorhexis divide-and-conquer n=0 median= untold=1\n" +
		"main-incision chop n=2 median=50 untold=0\n" // 40 s and 60 s
	if diff := cmp.Diff(want, text); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]tally.ChoiceRow{
		{Decision: "small-pupil", Question: "How?", Option: "hooks", Chosen: 2, Met: 2},
		{Decision: "small-pupil", Question: "How?", Option: "ring", Chosen: 0, Met: 2},
	}, r.Choices); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]tally.OutcomeRow{
		{Decision: "small-pupil", Question: "How?", Option: "hooks", CameOf: "", Count: 1},
		{Decision: "small-pupil", Question: "How?", Option: "hooks", CameOf: "held", Count: 1},
	}, r.Decisions); diff != "" {
		t.Error(diff)
	}
	if a := r.Acuity[0]; a.Before != "6/24" || a.BeforeLogMAR.Text()[:6] != "0.6020" || a.AfterLogMAR != 0 || a.Change != -a.BeforeLogMAR {
		t.Errorf("%+v", a)
	}
	if a := r.Acuity[1]; a.Before != "CF" || a.BeforeLogMAR.Defined() || a.Change.Defined() {
		t.Errorf("counting fingers became a number: %+v", a)
	}
	if p := r.Published(); !cmp.Equal(p.Onsets, r.Onsets) || p.Source.Cases != 3 {
		t.Error("what the cases tell is not published as it is")
	}
}

// TestTwoQuestionsOfOneCaseStayTwo: inline decisions are told apart by question.
func TestTwoQuestionsOfOneCaseStayTwo(t *testing.T) {
	c := &content.Case{ID: known("A")}
	for _, q := range []string{"Now?", "And now?"} {
		c.Timeline.Entries = append(c.Timeline.Entries, content.Entry{Decision: &content.DecisionPoint{
			Question: known(q), Chosen: known("stop"), Options: []content.Option{{ID: known("stop")}},
		}})
	}
	r := tally.Of(&content.Bank{}, []*content.Case{c})
	if len(r.Choices) != 2 || r.Choices[0].Question == r.Choices[1].Question || r.Choices[0].Met != 1 || r.Choices[0].Case != "A" {
		t.Errorf("%+v", r.Choices)
	}
}

// TestDemonstrationBankIsTallied reads the demonstration bank end to end.
func TestDemonstrationBankIsTallied(t *testing.T) {
	bank, _, err := content.Read(os.DirFS("../../casebank"))
	if err != nil {
		t.Fatal(err)
	}
	r := tally.Of(bank, bank.Cases)
	if r.Source.Operations.N != bank.Logbook.Len() || r.Source.Operations.N < 1000 || len(r.Onsets) == 0 {
		t.Fatalf("%+v", r.Source)
	}
	operations := map[string]int{}
	for _, row := range r.Complications {
		operations[row.Technique] = row.Operations.N
	}
	sum := 0
	for _, n := range operations {
		sum += n
	}
	if sum != r.Source.Operations.N {
		t.Errorf("techniques add up to %d of %d operations", sum, r.Source.Operations.N)
	}
	first, err := json.Marshal(r.Published())
	if err != nil {
		t.Fatal(err)
	}
	second, _ := json.Marshal(tally.Of(bank, bank.Cases).Published())
	if diff := cmp.Diff(string(first), string(second)); diff != "" {
		t.Error("two tallies of one bank differ")
	}
}
