package caption

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"caseleaf/content/term"
)

// The classes of what an author must still do, as they stand in a drafted
// case. A value that reads TODO draws a warning until it is filled in.
const (
	todoFact    = "TODO fact"    // known to the author only
	todoConfirm = "TODO confirm" // read from the narration: listen again
	todoChoice  = "TODO choice"  // a decision to word: question, options, choice
	todoRelease = "TODO release" // consent and the privacy reading
)

// WriteCase writes a commented Markdown case from a report. Every value read
// from the narration carries the time and number of its cue in a comment, so
// that the author can listen again. What must still be filled in is marked
// TODO with its class. The front matter is sound YAML with known terms only.
func WriteCase(r Report, v *term.Vocabulary) []byte {
	w := &caseWriter{r: &r, v: v, starts: make(map[int]float64)}
	for _, c := range r.Cues {
		w.starts[c.Index] = c.Start
	}
	w.head()
	w.timeline()
	w.tail()
	w.body()
	return []byte(w.b.String())
}

type caseWriter struct {
	b      strings.Builder
	r      *Report
	v      *term.Vocabulary
	starts map[int]float64
}

func (w *caseWriter) line(format string, args ...any) {
	fmt.Fprintf(&w.b, format, args...)
	w.b.WriteByte('\n')
}

// at is the comment that says where to listen again.
func (w *caseWriter) at(cue int) string {
	return fmt.Sprintf("# %s cue %d", clock(w.starts[cue]), cue)
}

func (w *caseWriter) head() {
	w.line("---")
	w.line("# Drafted from captions. Comments name the time and cue to listen to again.")
	w.line("# Left to do, by class: fact, confirm, choice, release. Search for TODO.")
	w.line("case: TODO            # %s: an id such as HB-007", todoFact)
	w.line("title: TODO           # %s: what happened, in a few words", todoFact)
	w.line("summary: TODO         # %s: what a resident should remember", todoFact)
	if w.r.Procedure == "" {
		w.line("procedure: TODO       # %s: no step was recognised", todoFact)
	} else {
		w.line("procedure: %s  # %s: from the steps found", w.r.Procedure, todoConfirm)
	}
	w.technique()
	w.line("# surgeon: trainee    # %s: trainee, fellow or consultant", todoFact)
	w.fact("eye", "eye")
	w.fact("anaesthesia", "anaesthesia")
	w.patient()
	w.kit()
}

// technique prefers a way of dividing or delivering the nucleus, which is what
// tables compare, and else the procedure.
func (w *caseWriter) technique() {
	for _, t := range w.r.Techniques {
		tm, _ := w.v.Get(t.Term)
		if slices.ContainsFunc(tm.Steps, func(s string) bool {
			return s == "cracking" || s == "quadrant-removal" || s == "nucleus-delivery" || s == "nucleus-expression"
		}) {
			w.line("technique: %s  %s, %s", t.Term, w.at(t.Cue), todoConfirm)
			return
		}
	}
	if w.r.Procedure != "" {
		w.line("technique: %s  # %s: nothing closer was named", w.r.Procedure, todoConfirm)
		return
	}
	w.line("technique: TODO       # %s", todoFact)
}

// fact writes the one value told for a key; with none or several, a comment.
func (w *caseWriter) fact(key, name string) {
	var values []PatientFact
	for _, p := range w.r.Patient {
		if p.Key == key {
			values = append(values, p)
		}
	}
	switch len(values) {
	case 0:
		w.line("# %s:  # %s", name, todoFact)
	case 1:
		w.line("%s: %s  %s, %s", name, values[0].Value, w.at(values[0].Cue), todoConfirm)
	default:
		for _, p := range values {
			w.line("# %s: %s  %s, %s: one of several named", name, p.Value, w.at(p.Cue), todoConfirm)
		}
	}
}

func (w *caseWriter) patient() {
	w.line("# patient: {age_band: 70-79, sex: female}  # %s: bands only", todoFact)
	var risks []string
	for _, p := range w.r.Patient {
		if p.Key == "risk" {
			risks = append(risks, p.Value)
			w.line("# risk %s  %s", p.Value, w.at(p.Cue))
		}
	}
	if len(risks) > 0 {
		w.line("patient: {risks: [%s]}  # %s", strings.Join(risks, ", "), todoConfirm)
	}
	for _, p := range w.r.Patient {
		if p.Key == "cataract" {
			w.line("cataract: {type: %s}  %s, %s", p.Value, w.at(p.Cue), todoConfirm)
			break
		}
	}
}

func (w *caseWriter) kit() {
	if len(w.r.Kit) == 0 {
		w.line("# kit:  # %s", todoFact)
		return
	}
	w.line("kit:  # %s: named in the narration", todoConfirm)
	for _, k := range w.r.Kit {
		extra := ""
		if k.strength != "" {
			extra += ", strength: " + k.strength
		}
		if !k.Used {
			extra += ", note: stood ready"
		}
		w.line("  - {item: %s%s}  %s", k.Term, extra, w.at(k.Cue))
	}
}

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

func (w *caseWriter) tail() {
	w.line("# outcome: {acuity: {before: 6/24, after: 6/6}, lens: in-the-bag, follow_up: 6 weeks}  # %s", todoFact)
	if len(w.r.Lessons) > 0 {
		w.line("# Sentences that teach, as said: keep one to four.  # %s", todoChoice)
		w.line("# lessons:")
		for _, l := range w.r.Lessons {
			w.line("#   - %s  %s", quote(l.Text), w.at(l.Cue))
		}
	}
	w.line("limits: One chosen case; says nothing about how often.")
	w.line("# release: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}  # %s: only after reading the case for what could identify somebody", todoRelease)
	w.line("---")
}

// body writes the cleaned narration, a heading for each step.
func (w *caseWriter) body() {
	step, open := "", false
	previous := ""
	for _, c := range w.r.Cues {
		text := tidy(c.Read)
		if c.Noise || text == "" || strings.EqualFold(text, previous) {
			continue
		}
		if c.Step != step || !open {
			if open {
				w.line("")
			}
			w.line("")
			if t, ok := w.v.Get(c.Step); ok {
				w.line("## %s", t.Label)
				w.line("")
			}
			fmt.Fprintf(&w.b, "[%s](time:%s)", clock(c.Start), clock(c.Start))
			step, open = c.Step, true
		}
		previous = text
		w.b.WriteString(" " + escape(upperFirst(text)) + stopOf(text))
	}
	w.line("")
}

// stopOf ends a cue as a sentence: captions have no punctuation.
func stopOf(text string) string {
	words := texts(splitWords(text))
	head := firstOf(words)
	if strings.HasSuffix(text, "?") || strings.HasSuffix(text, "!") {
		return ""
	}
	if head < len(words) && moodOf(words, head, head+1) == asked && len(words)-head > 2 {
		return "?"
	}
	return "."
}
