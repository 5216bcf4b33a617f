package content

import (
	"fmt"
	"slices"
	"strings"

	"caseleaf/content/term"
)

// drafter writes an empty form of itself.
type drafter interface {
	draft(d *drafting, indent string, live bool)
}

// drafting is the text of an empty case while it is written. What a case needs
// is written live, with an example to change; the rest stands commented out.
type drafting struct {
	out   strings.Builder
	vocab *term.Vocabulary
	given map[string]string // values of top-level keys known already
}

// noteColumn is where the explanations of a draft begin.
const noteColumn = 44

func (d *drafting) line(indent string, live bool, text, note string) {
	line := indent + text
	if !live {
		line = "# " + line
	}
	if note != "" {
		line = fmt.Sprintf("%-*s  # %s", noteColumn, line, note)
	}
	d.out.WriteString(strings.TrimRight(line, " ") + "\n")
}

// draft writes every field of the shape.
func (s *shape[T]) draft(d *drafting, indent string, live bool) {
	for i := range s.fields {
		s.fields[i].draft(d, indent, live)
	}
}

func (f *field[T]) draft(d *drafting, indent string, live bool) {
	live = live && f.required
	note := f.doc
	if f.unknown {
		note += "; unknown is an answer"
	}
	if f.below == nil {
		d.line(indent, live, f.key+": "+d.example(f.key, f.example, f.schema), note)
		return
	}
	d.line(indent, live, f.key+":", note)
	if !f.list {
		f.below().draft(d, indent+"  ", live)
		return
	}
	d.item(f.below(), indent, live)
	if m, ok := f.below().(interface{ more() []drafter }); ok {
		for _, sort := range m.more() {
			d.item(sort, indent, false)
		}
	}
}

// item writes one entry of a list; its own optional keys are commented out
// even where the entry is live.
func (d *drafting) item(of drafter, indent string, live bool) {
	item := drafting{vocab: d.vocab}
	of.draft(&item, "", true)
	lead := "  - "
	for line := range strings.Lines(item.out.String()) {
		text, commented := strings.CutPrefix(line, "# ")
		text, note, _ := strings.Cut(strings.TrimSuffix(text, "\n"), "  # ")
		d.line(indent+lead, live && !commented, strings.TrimRight(text, " "), note)
		lead = "    "
	}
}

// example is a value to start from: the one given, the field's example, or
// the first term that may stand there.
func (d *drafting) example(key, example string, schema func(*term.Vocabulary) schemaObject) string {
	if v, ok := d.given[key]; ok {
		return v
	}
	ids, ok := schema(d.vocab)["enum"].([]string)
	if !ok || slices.Contains(ids, example) || len(ids) == 0 {
		return quoteIfNeeded(example)
	}
	return ids[0]
}

// quoteIfNeeded puts straight quotation marks round text that YAML would
// otherwise read as something else.
func quoteIfNeeded(s string) string {
	if strings.Contains(s, ": ") || strings.Contains(s, " #") || (s != "" && strings.ContainsAny(s[:1], "#{}[]\"'&*!|>%@`,?-")) {
		return `"` + strings.ReplaceAll(s, `"`, `\"`) + `"`
	}
	return s
}

// timelineDraft is a live first step and one of each sort of entry.
type timelineDraft struct{}

func (timelineDraft) draft(d *drafting, indent string, live bool) {
	d.line(indent, true, "at: 0:00", "time of the recording; entries stand in its order")
	d.line(indent, true, "step: "+d.example("step", "main-incision", stepTerm.schema), "each entry is a step, an event, a finding or a decision")
}

func (timelineDraft) more() []drafter {
	return []drafter{stepFields, eventFields, findingFields, decisionPointFields}
}

// DraftCase returns a commented empty case that reads without error: what a
// case needs has an example value to change, all else stands commented out with
// its meaning. It carries no release, so it is held back until one is written.
func DraftCase(id string, v *term.Vocabulary) []byte {
	d := &drafting{vocab: v, given: map[string]string{"case": id, "title": "Untitled"}}
	d.out.WriteString("---\n")
	caseFields.draft(d, "", true)
	d.out.WriteString("---\n\nWhat happened, in plain words. [A term](term:" + firstTerm(v) + ") links its page, [a moment](time:0:00) the strip.\n")
	return []byte(d.out.String())
}

func firstTerm(v *term.Vocabulary) string {
	if steps := v.Of(term.Step); len(steps) > 0 {
		return steps[0].ID
	}
	return "term"
}
