package content_test

import (
	"testing"
	"testing/fstest"

	"caseleaf/content"
	"caseleaf/content/measure"

	"github.com/google/go-cmp/cmp"
)

const timingCase = `---
case: T-1
title: Times
procedure: phacoemulsification
technique: divide-and-conquer
recording: {ends: 9:00, cuts: [6:10]}
timeline:
  - {at: 0:40, step: main-incision}
  - {at: 2:10, step: capsulorhexis, until: 3:30}
  - {at: 3:05, event: rhexis-run-out, began: 2:58, noticed: 3:05, acted: 3:20}
  - {at: 4:00, step: hydrodissection}
  - {at: 5:00, event: iris-prolapse, began: unknown, noticed: 5:00, acted: none}
  - {at: 6:00, step: sculpting}
  - {at: 7:00, event: posterior-capsule-tear, began: 6:05, noticed: 7:00, acted: 7:04}
  - {at: 8:00, event: vitreous-loss, noticed: 8:00, acted: 8:30, during: cortex-removal}
---
`

func readTiming(t *testing.T) *content.Case {
	t.Helper()
	bank, found, err := content.Read(fstest.MapFS{
		"bank.yaml":    {Data: []byte("title: Times\n")},
		"cases/t-1.md": {Data: []byte(timingCase)},
	})
	if err != nil || found.Failed() {
		t.Fatal(err, places(found))
	}
	return bank.Cases[0]
}

// Durations worked by hand from the times above (common practice, no source).
func TestSteps(t *testing.T) {
	type span struct {
		Step    string
		Seconds measure.Duration
		Known   bool
	}
	var got []span
	for _, s := range readTiming(t).Steps() {
		d, ok := s.Duration()
		if !ok {
			d = 0
		}
		got = append(got, span{s.Term, d, ok})
	}
	want := []span{
		{"main-incision", 90, true},
		{"capsulorhexis", 80, true},    // its own until, not the next step
		{"hydrodissection", 120, true}, // 4:00 to 6:00
		{"sculpting", 0, false},        // cut at 6:10
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("steps (-want +got):\n%s", diff)
	}
}

// Delays and onsets worked by hand from the times above. What an author left
// unknown stays unknown: it is never taken from another time.
func TestDelays(t *testing.T) {
	c := readTiming(t)
	type delays struct {
		Event                string
		Noticed, Acted       measure.Duration
		HasNoticed, HasActed bool
		Onset                string
	}
	var got []delays
	for _, e := range c.Events() {
		var d delays
		d.Event = e.Event.Term.Value
		d.Noticed, d.HasNoticed = c.NoticeDelay(e.Event)
		d.Acted, d.HasActed = c.ActDelay(e.Event)
		d.Onset, _ = c.Onset(e.Event)
		got = append(got, d)
	}
	want := []delays{
		{"rhexis-run-out", 7, 15, true, true, "capsulorhexis"},
		{"iris-prolapse", 0, 0, false, false, ""},                  // began unknown, never acted on
		{"posterior-capsule-tear", 0, 4, false, true, "sculpting"}, // cut between 6:05 and 7:00
		{"vitreous-loss", 0, 30, false, true, "cortex-removal"},    // the author says in which step
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("delays (-want +got):\n%s", diff)
	}
}
