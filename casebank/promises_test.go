package casebank_test

import (
	"testing"

	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/content/diagnose"
)

// read reads the demonstration bank and fails on anything that a reader of banks has
// to say about it, warnings included.
func read(t *testing.T) *content.Bank {
	t.Helper()
	bank, found, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range found {
		if d.Severity == diagnose.Note {
			continue // such as: the bank is invented, so nobody can be found by a rare combination
		}
		t.Errorf("%s:%d:%d: %s: %s", d.Span.Source.Name, d.Span.Line(), d.Span.Column(), d.Severity, d.Message)
	}
	return bank
}

// TestBreadth holds the bank to the breadth that makes it worth opening.
func TestBreadth(t *testing.T) {
	bank := read(t)
	seen := map[string]map[string]bool{}
	note := func(what, value string) {
		if seen[what] == nil {
			seen[what] = map[string]bool{}
		}
		seen[what][value] = true
	}
	for _, c := range bank.Cases {
		id := c.ID.Value
		note("cases", id)
		note("techniques", c.Technique.Value)
		note("surgeons", string(c.Surgeon.Value))
		note("eyes", c.Eye.Value)
		complications := 0
		for _, e := range c.Timeline.Entries {
			if e.Event != nil {
				complications++
				note("complications", e.Event.Term.Value)
			}
			if e.Finding != nil && e.Finding.Present.Known() && !e.Finding.Present.Value {
				note("cases with a negative finding", id)
			}
		}
		for _, later := range c.Outcome.Later {
			complications++
			note("complications", later.Value)
		}
		if complications == 0 {
			note("cases without a complication", id)
		}
		if chained(c.Timeline.Entries) {
			note("cases with a chain", id)
		}
	}
	for _, d := range bank.Decisions {
		note("decisions", d.ID.Value)
	}
	for _, c := range bank.Courses {
		note("courses", c.ID.Value)
	}
	for what, least := range map[string]int{
		"cases": 24, "techniques": 5, "complications": 15, "surgeons": 3, "eyes": 2,
		"cases without a complication": 4, "cases with a chain": 3, "cases with a negative finding": 3,
		"decisions": 8, "courses": 1,
	} {
		if len(seen[what]) < least {
			t.Errorf("%d %s, want at least %d", len(seen[what]), what, least)
		}
	}
}

// chained reports whether an event led to a decision, that to an event or a finding,
// and that to a second decision.
func chained(entries []content.Entry) bool {
	stage := 0
	for _, e := range entries {
		switch {
		case stage == 0 && e.Event != nil, stage == 1 && e.Decision != nil,
			stage == 2 && (e.Event != nil || e.Finding != nil), stage == 3 && e.Decision != nil:
			stage++
		}
	}
	return stage == 4
}

// TestLogbookIsRead checks that every row of the logbook is counted.
func TestLogbookIsRead(t *testing.T) {
	bank := read(t)
	if got := bank.Logbook.Len(); got != 1500 {
		t.Errorf("%d operations are counted, want 1500", got)
	}
}

// TestEveryDecisionIsMet checks that no tree stands without a case that came to it, so
// that each page has something to show beside its made-up figures.
func TestEveryDecisionIsMet(t *testing.T) {
	bank := read(t)
	met := map[string]int{}
	for _, c := range bank.Cases {
		for _, e := range c.Timeline.Entries {
			if e.Decision != nil && e.Decision.Point.Known() {
				met[e.Decision.Point.Value]++
			}
		}
	}
	for _, d := range bank.Decisions {
		if met[d.ID.Value] == 0 {
			t.Errorf("no case meets the decision %s", d.ID.Value)
		}
	}
}
