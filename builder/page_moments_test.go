package builder

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/content"
	"caseleaf/content/measure"
	"caseleaf/content/term"
)

func given[V any](v V) content.Given[V] { return content.Given[V]{Value: v, State: content.Known} }

func at(seconds int) content.Given[measure.Time] { return given(measure.Time(seconds)) }

// sampleCase has two entries at one second, an entry without a time, an event
// whose beginning nobody knows, and a cut.
func sampleCase() *content.Case {
	return &content.Case{
		ID:        given("HB-900"),
		Recording: content.Recording{Ends: at(600), Cuts: []content.Given[measure.Time]{at(300)}},
		Timeline: content.Timeline{Entries: []content.Entry{
			{At: at(40), Step: &content.Step{Term: given("main-incision"), Until: at(70)}},
			{At: at(185), Step: &content.Step{Term: given("capsulorhexis")}},
			{At: at(185), Event: &content.Event{
				Term: given("iris-prolapse"), Began: at(178), Noticed: at(185), Acted: at(200),
			}},
			{Finding: &content.Finding{Term: given("phacodonesis"), Present: given(false)}},
			{At: at(290), Event: &content.Event{
				Term:  given("iris-prolapse"),
				Began: content.Given[measure.Time]{State: content.Unknown}, Noticed: at(290),
				Acted: content.Given[measure.Time]{State: content.None},
			}},
			{At: at(310), Event: &content.Event{Term: given("iris-prolapse"), Began: at(295), Noticed: at(310), Acted: at(311)}},
		}},
	}
}

func TestAnchors(t *testing.T) {
	got := anchorsOf(sampleCase()).rows
	want := []string{"t-40", "t-185", "t-185-2", "t-entry-4", "t-290", "t-310"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

// A time that only the narrative names gets an id at the entry before it.
func TestAnchorsOfNarrative(t *testing.T) {
	c := sampleCase()
	c.Body.Targets = []content.Target{
		{Kind: content.ToTime, Time: 178}, // inside the first event
		{Kind: content.ToTime, Time: 250},
		{Kind: content.ToTime, Time: 5},
	}
	got := anchorsOf(c).extra
	want := [][]string{{"t-5"}, nil, {"t-250"}, nil, nil, nil}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

// Delays by hand: 3:05 - 2:58 = 7 s, 3:20 - 3:05 = 15 s. The cut at 5:00 lies
// between 4:55 and 5:10 and not between 5:10 and 5:11.
func TestDelays(t *testing.T) {
	c := sampleCase()
	w := wordsIn("en")
	events := c.Events()
	for i, want := range [][2]string{
		{"7 s", "15 s"},
		{"not known", "nothing was done"},
		{"not computed: the recording was cut", "1 s"},
	} {
		e := events[i].Event
		got := [2]string{w.delay(noticeDelay(c, e)), w.delay(actDelay(c, e))}
		if got != want {
			t.Errorf("event %d: got %q, want %q", i+1, got, want)
		}
	}
}

// Nothing is guessed: an event whose beginning is not known is counted under no
// step, and one that began between steps neither (2:58 lies behind the end of
// the incision at 1:10 and before the capsulorhexis at 3:05).
func TestUnknownStaysUnknown(t *testing.T) {
	m := newMet(&content.Bank{Vocabulary: term.Cataract(), Cases: []*content.Case{sampleCase()}})
	if n := len(m.onsets["capsulorhexis"]); n != 1 {
		t.Errorf("%d events began in the capsulorhexis, want 1", n)
	}
	if n := len(m.noticed["capsulorhexis"]); n != 2 {
		t.Errorf("%d events were noticed there and began nobody knows where, want 2", n)
	}
	if n := len(m.onsets["main-incision"]); n != 0 {
		t.Errorf("%d events began in the incision, want none", n)
	}
}

// durationRow by hand: the type-7 quartiles of 10, 20, 30, 40, 50 s are 20 and
// 40 s; of fewer than four values no quartiles are printed.
func TestDurationRow(t *testing.T) {
	got := durationRow(Link{Text: "Step"}, []float64{50, 10, 40, 20, 30})
	want := DurationRow{Name: Link{Text: "Step"}, N: 5, Median: "30 s", Lower: "20 s", Upper: "40 s", Least: "10 s", Most: "50 s"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	few := durationRow(Link{}, []float64{60, 90})
	if few.Lower != "" || few.Upper != "" || few.Median != "1 min 15 s" {
		t.Errorf("two values: %+v", few)
	}
}
