package caption

import (
	"fmt"
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
