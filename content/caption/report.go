package caption

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"caseleaf/content/term"
)

// WriteText writes a report for reading in a terminal: what was changed, what
// was found when, what is unsure, and what was taken out.
func WriteText(out io.Writer, r Report, v *term.Vocabulary) error {
	w := bufio.NewWriter(out)
	p := func(format string, args ...any) { fmt.Fprintf(w, format, args...) }
	p("%d cues, procedure %s\n", len(r.Cues), orUnknown(label(v, r.Procedure)))
	for _, n := range r.Notes {
		p("line %d: %s\n", n.Line, strings.TrimSuffix(n.Message+": "+n.Text, ": "))
	}
	p("\nCorrections\n")
	for _, c := range r.Corrections {
		state := "applied"
		if !c.Applied {
			state = "proposed"
		}
		p("  cue %4d  %-8s %3.0f %%  %s -> %s (%s)\n", c.Cue, state, 100*c.Confidence, c.Heard, c.Read, c.Term)
	}
	p("\nSteps\n")
	for _, s := range r.Steps {
		doubt := ""
		if s.Confidence < unsure {
			doubt = "  unsure: listen again"
		}
		p("  %8s  cue %4d  %3.0f %%  %s%s\n", clock(s.Start), s.Cue, 100*s.Confidence, label(v, s.Term), doubt)
	}
	writeHappenings(p, r, v)
	p("\nTaken out\n")
	for _, c := range removedByClass(r.Removed) {
		p("  %d x %s, cues %s\n", c.Count, c.Class, strings.Trim(fmt.Sprint(c.Cues), "[]"))
	}
	if len(r.Removed) == 0 {
		p("  nothing was recognised; read the draft for names all the same\n")
	}
	return w.Flush()
}

func writeHappenings(p func(string, ...any), r Report, v *term.Vocabulary) {
	p("\nEvents (began, noticed, acted)\n")
	for _, e := range r.Events {
		p("  %s: %s, %s, %s  in %s, cue %d\n", label(v, e.Term), timeOr(e.Began), timeOr(e.Noticed), timeOr(e.Acted), orUnknown(label(v, e.Step)), e.Cue)
	}
	p("\nFindings\n")
	for _, f := range r.Findings {
		p("  %8s  cue %4d  %s: %s\n", clock(f.Time), f.Cue, label(v, f.Term), yesNo(f.Present))
	}
	p("\nDecisions\n")
	for _, d := range r.Decisions {
		p("  %8s  cue %4d  %s\n", clock(d.Time), d.Cue, strings.TrimSpace(d.Question+" "+d.Chosen))
	}
	p("\nMeasures\n")
	for _, m := range r.Measures {
		p("  cue %4d  %s %s %s in %s\n", m.Cue, m.Name, number(m.Value), m.Unit, orUnknown(label(v, m.Step)))
	}
	if len(r.Candidates) > 0 {
		p("\nWords to consider for the vocabulary\n")
		for _, c := range r.Candidates {
			p("  %s, %d times\n", c.Word, c.Count)
		}
	}
}

func orUnknown(s string) string {
	if s == "" {
		return "unknown"
	}
	return s
}
