package main

import (
	"fmt"
	"io"
	"strings"

	"caseleaf/content"
)

// writeGuidelines lists, case by case, which items of the reporting guidelines
// are answered, and what would answer the rest. Cases go by their ids: a title
// may hold what the privacy check hides.
func writeGuidelines(w io.Writer, bank *content.Bank) {
	fmt.Fprintln(w, "Reporting guidelines. Each number is an item as published; the words are ours. Answered means that the")
	fmt.Fprintln(w, "keys are filled in; whether they say enough is for a reader to judge. Before each item not answered stand")
	fmt.Fprintln(w, "the keys that would answer it; where a semicolon parts them, all are needed. Items marked * are numbered and")
	fmt.Fprintln(w, "described from memory and were not checked against the published list.")
	for _, g := range content.Guidelines() {
		fmt.Fprintf(w, "- %s\n", g.Source())
	}
	bank.Completeness(func(c content.CaseAnswers) {
		fmt.Fprintf(w, "\n%s\n", c.Case.ID.Value)
		for _, g := range content.Guidelines() {
			writeGuideline(w, g, c)
		}
	})
	fmt.Fprintln(w)
}

func writeGuideline(w io.Writer, g content.Guideline, c content.CaseAnswers) {
	answered, applies := c.Tally(g.ID)
	fmt.Fprintf(w, "  %s: answered %d of %d that apply\n", g.Name, answered, applies)
	var done []string
	for _, a := range c.Answers {
		if a.Guideline == g.ID && a.Status == content.Answered {
			done = append(done, itemNumber(a))
		}
	}
	if len(done) > 0 {
		fmt.Fprintf(w, "    answered: %s\n", strings.Join(done, ", "))
	}
	for _, status := range []content.Fulfilment{content.NotAnswered, content.DoesNotApply} {
		for _, a := range c.Answers {
			if a.Guideline != g.ID || a.Status != status {
				continue
			}
			if status == content.DoesNotApply {
				fmt.Fprintf(w, "    %-4s does not apply: %s\n", itemNumber(a), a.Why)
			} else {
				fmt.Fprintf(w, "    %-4s %s: %s\n", itemNumber(a), a.Key, a.Asks)
			}
		}
	}
}

// itemNumber is an item's number, with a star where it is from memory.
func itemNumber(a content.Answer) string {
	if a.FromMemory {
		return a.Item + "*"
	}
	return a.Item
}
