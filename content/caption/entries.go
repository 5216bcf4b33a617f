package caption

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// row is one timeline entry with what sorts it.
type row struct {
	time  float64
	order int // steps before findings before events before decisions of one second
	text  string
}

func (w *caseWriter) timeline() {
	var rows []row
	for _, s := range w.r.Steps {
		rows = append(rows, row{s.Start, 0, w.step(s)})
	}
	for _, f := range w.r.Findings {
		rows = append(rows, row{f.Time, 1, fmt.Sprintf("  - {at: %s, finding: %s, present: %s}  %s", clock(f.Time), f.Term, yesNo(f.Present), w.at(f.Cue))})
	}
	for _, e := range w.r.Events {
		rows = append(rows, row{*e.Noticed, 2, w.event(e)})
	}
	for _, d := range w.r.Decisions {
		rows = append(rows, row{d.Time, 3, w.decision(d)})
	}
	for _, h := range w.r.Operator {
		rows = append(rows, row{h.Time, 4, fmt.Sprintf("  # %s another surgeon takes over: put `by:` on the next step  %s, %s", clock(h.Time), w.at(h.Cue), todoFact)})
	}
	slices.SortStableFunc(rows, func(a, b row) int {
		if x, y := math.Floor(a.time), math.Floor(b.time); x != y {
			return int(x - y)
		}
		return a.order - b.order
	})
	w.line("timeline:")
	if len(rows) == 0 {
		w.line("  - {at: 0:00, step: TODO}  # %s: no step was recognised", todoFact)
	}
	for _, r := range rows {
		w.line("%s", r.text)
	}
}

// stepKeys are the measures a step has keys for, all lengths.
var stepKeys = []string{"width", "length", "diameter", "pupil"}

func (w *caseWriter) step(s StepStart) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  - {at: %s, step: %s", clock(s.Start), s.Term)
	var comments []string
	used := make(map[string]bool)
	for _, m := range w.r.Measures {
		if m.Step != s.Term || m.place < s.place || w.laterRun(s, m.place) {
			continue
		}
		value := strings.TrimSpace(number(m.Value) + " " + m.Unit)
		switch {
		case slices.Contains(stepKeys, m.Name) && m.Unit == "mm" && !used[m.Name]:
			used[m.Name] = true
			fmt.Fprintf(&b, ", %s: %s", m.Name, value)
			comments = append(comments, fmt.Sprintf("%s %s", m.Name, w.at(m.Cue)[2:]))
		case m.Name == "place" && !used["place"] && m.Value >= 1 && m.Value <= 12:
			used["place"] = true
			fmt.Fprintf(&b, ", place: %s", number(m.Value))
			comments = append(comments, "place "+w.at(m.Cue)[2:])
		default:
			comments = append(comments, fmt.Sprintf("%s %s, %s", m.Name, value, w.at(m.Cue)[2:]))
		}
	}
	fmt.Fprintf(&b, "}  %s, sure to %.0f %%", w.at(s.Cue), 100*s.Confidence)
	if s.Confidence < unsure {
		b.WriteString(", " + todoConfirm)
	}
	for _, c := range comments {
		b.WriteString("\n    # " + c)
	}
	return b.String()
}

// laterRun reports whether a later visit to the same step comes before place.
func (w *caseWriter) laterRun(s StepStart, place int) bool {
	return slices.ContainsFunc(w.r.Steps, func(o StepStart) bool {
		return o.Term == s.Term && o.place > s.place && o.place <= place
	})
}

func (w *caseWriter) event(e Event) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  - at: %s  %s, %s", clock(*e.Noticed), w.at(e.Cue), todoConfirm)
	fmt.Fprintf(&b, "\n    event: %s", e.Term)
	began := e.Basis
	if began == "" {
		began = "the narration does not say"
	}
	fmt.Fprintf(&b, "\n    began: %s  # %s", timeOr(e.Began), began)
	fmt.Fprintf(&b, "\n    noticed: %s", timeOr(e.Noticed))
	fmt.Fprintf(&b, "\n    acted: %s", timeOr(e.Acted))
	if e.Step != "" && e.Began == nil {
		fmt.Fprintf(&b, "\n    during: %s", e.Step)
	}
	if e.sign >= 0 && e.sign < len(w.r.Cues) {
		c := w.r.Cues[e.sign]
		fmt.Fprintf(&b, "\n    sign: %s  %s", quote(tidy(c.Read)), w.at(c.Index))
	}
	if e.acted >= 0 && e.acted < len(w.r.Cues) {
		c := w.r.Cues[e.acted]
		fmt.Fprintf(&b, "\n    action: %s  %s", quote(tidy(c.Read)), w.at(c.Index))
	}
	return b.String()
}

func (w *caseWriter) decision(d Decision) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  - at: %s  %s", clock(d.Time), w.at(d.Cue))
	question, note := quote(d.Question), todoConfirm
	if d.Question == "" {
		question, note = "TODO", todoChoice+": the question as it stood then"
		if t, ok := w.v.Get(d.event); ok {
			question, note = quote(t.Label+": what now?"), todoChoice
		}
	}
	fmt.Fprintf(&b, "\n    decision: %s  # %s", question, note)
	b.WriteString("\n    options:")
	for i, o := range d.Options {
		fmt.Fprintf(&b, "\n      - {id: %c, text: %s}", 'a'+rune(i%26), quote(upperFirst(o)))
	}
	for i := len(d.Options); i < 2; i++ {
		fmt.Fprintf(&b, "\n      - {id: %c, text: TODO}  # %s", 'a'+rune(i), todoChoice)
	}
	b.WriteString("\n    chosen: unknown  # " + todoChoice)
	if d.Chosen != "" {
		b.WriteString(": said: " + strings.ReplaceAll(d.Chosen, "\n", " "))
	}
	if d.Because != "" {
		fmt.Fprintf(&b, "\n    because: %s  # %s", quote(upperFirst(d.Because)), todoConfirm)
	}
	return b.String()
}
