package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
	"caseleaf/content/term"

	"gopkg.in/yaml.v3"
)

// entry is a timeline entry of one sort while it is read.
type entry[T any] struct {
	At   Given[measure.Time]
	That *T
}

func atField[T any]() field[entry[T]] {
	return must(like(one("at", "time of the recording", videoTime, func(e *entry[T]) *Given[measure.Time] { return &e.At }), "3:05"))
}

var stepFields = &shape[entry[Step]]{
	name: "a step", doc: "A part of the operation that begins here.",
	fields: []field[entry[Step]]{
		atField[Step](),
		must(like(one("step", "the step", stepTerm, func(e *entry[Step]) *Given[string] { return &e.That.Term }), "capsulorhexis")),
		like(one("until", "when it stopped, if not at the next step", videoTime, func(e *entry[Step]) *Given[measure.Time] { return &e.That.Until }), "4:10"),
		like(one("width", "width of an incision", length, func(e *entry[Step]) *Given[measure.Length] { return &detailsOf(e).Width }), "2.4 mm"),
		like(one("length", "length of a tunnel", length, func(e *entry[Step]) *Given[measure.Length] { return &detailsOf(e).Length }), "2.0 mm"),
		like(one("diameter", "diameter of an opening", length, func(e *entry[Step]) *Given[measure.Length] { return &detailsOf(e).Diameter }), "5.0 mm"),
		like(one("pupil", "diameter of the pupil", length, func(e *entry[Step]) *Given[measure.Length] { return &detailsOf(e).Pupil }), "6.5 mm"),
		like(one("place", "clock hour", clockHour, func(e *entry[Step]) *Given[measure.ClockHour] { return &e.That.Place }), "11"),
		like(one("extent", "clock hours, clockwise", arc, func(e *entry[Step]) *Given[measure.Arc] { return &detailsOf(e).Extent }), "11-2"),
		like(one("by", "who operates from here on, if that changed", gradeWord, func(e *entry[Step]) *Given[Grade] { return &detailsOf(e).By }), "consultant"),
		like(one("technique", "technique of this step", termOf(term.Technique), func(e *entry[Step]) *Given[string] { return &detailsOf(e).Technique }), "divide-and-conquer"),
		many("using", "kit used", kitTerm, func(e *entry[Step]) *[]Given[string] { return &detailsOf(e).Using }),
		measuresField("values of this step, by measure term", func(e *entry[Step]) *[]Measured { return &detailsOf(e).Measures }),
		one("note", "anything else", text, func(e *entry[Step]) *Given[string] { return &e.That.Note }),
	},
}

// detailsOf makes room for the details of a step that gives one.
func detailsOf(e *entry[Step]) *StepDetails {
	if e.That.Details == nil {
		e.That.Details = new(StepDetails)
	}
	return e.That.Details
}

var eventFields = &shape[entry[Event]]{
	name: "an event", doc: "A complication: when it began, was noticed and was acted on.",
	fields: []field[entry[Event]]{
		atField[Event](),
		must(like(one("event", "the complication", eventTerm, func(e *entry[Event]) *Given[string] { return &e.That.Term }), "iris-prolapse")),
		like(one("began", "when it began", videoTime, func(e *entry[Event]) *Given[measure.Time] { return &e.That.Began }, Unknown), "2:58"),
		like(one("noticed", "when it was noticed", videoTime, func(e *entry[Event]) *Given[measure.Time] { return &e.That.Noticed }, Unknown), "3:05"),
		like(one("acted", "when something was done about it, or none", videoTime, func(e *entry[Event]) *Given[measure.Time] { return &e.That.Acted }, Unknown, None), "3:20"),
		one("during", "the step it began in, where the times don't tell", stepTerm, func(e *entry[Event]) *Given[string] { return &e.That.During }),
		like(one("sign", "the first sign: what was seen, without the diagnosis", text, func(e *entry[Event]) *Given[string] { return &e.That.Sign }), "iris billowing towards the main wound"),
		like(one("extent", "clock hours, clockwise; may wrap through 12", arc, func(e *entry[Event]) *Given[measure.Arc] { return &e.That.Extent }), "5-7"),
		groups("spread", "its extent at later times", func() *shape[Spread] { return spreadFields }, func(e *entry[Event]) *[]Spread { return &e.That.Spread }),
		one("cause", "the mis-step or cause, said to be uncertain where inferred", text, func(e *entry[Event]) *Given[string] { return &e.That.Cause }),
		one("action", "what was done about it", text, func(e *entry[Event]) *Given[string] { return &e.That.Action }),
		many("actions", "what was done about it, as terms", termOf(term.Action), func(e *entry[Event]) *[]Given[string] { return &e.That.Actions }),
		one("note", "anything else", text, func(e *entry[Event]) *Given[string] { return &e.That.Note }),
		one("ask", "whether readers are asked for the first sign before it is shown; ask_signs of bank.yaml where left out", yesNo, func(e *entry[Event]) *Given[bool] { return &e.That.Ask }),
	},
	check: checkEvent,
}

var spreadFields = &shape[Spread]{
	name: "a spread", doc: "The extent of an event at a later time.",
	fields: []field[Spread]{
		must(one("at", "time of the recording", videoTime, func(s *Spread) *Given[measure.Time] { return &s.At })),
		must(one("extent", "clock hours, clockwise", arc, func(s *Spread) *Given[measure.Arc] { return &s.Extent })),
	},
	place: place(func(s *Spread) *diagnose.Span { return &s.Span }),
}

var findingFields = &shape[entry[Finding]]{
	name: "a finding", doc: "Something looked for, there or not.",
	fields: []field[entry[Finding]]{
		atField[Finding](),
		must(like(one("finding", "what was looked for", anyTerm(), func(e *entry[Finding]) *Given[string] { return &e.That.Term }), "vitreous-strand")),
		must(like(one("present", "whether it was there", yesNo, func(e *entry[Finding]) *Given[bool] { return &e.That.Present }), "no")),
		one("place", "clock hour", clockHour, func(e *entry[Finding]) *Given[measure.ClockHour] { return &e.That.Place }),
		one("extent", "clock hours, clockwise", arc, func(e *entry[Finding]) *Given[measure.Arc] { return &e.That.Extent }),
		one("note", "anything else", text, func(e *entry[Finding]) *Given[string] { return &e.That.Note }),
	},
}

var decisionPointFields = &shape[entry[DecisionPoint]]{
	name: "a decision", doc: "A choice as it stood at one moment.",
	fields: []field[entry[DecisionPoint]]{
		atField[DecisionPoint](),
		must(like(one("decision", "the question as it stood then", text, func(e *entry[DecisionPoint]) *Given[string] { return &e.That.Question }), "How would you control the iris now?")),
		like(one("point", "the shared decision, where there is one", identifier, func(e *entry[DecisionPoint]) *Given[string] { return &e.That.Point }), "small-pupil"),
		must(groups("options", "the choices", func() *shape[Option] { return optionFields }, func(e *entry[DecisionPoint]) *[]Option { return &e.That.Options })),
		like(one("chosen", "id of the option that was chosen", identifier, func(e *entry[DecisionPoint]) *Given[string] { return &e.That.Chosen }, Unknown), "hooks"),
		like(one("because", "why", text, func(e *entry[DecisionPoint]) *Given[string] { return &e.That.Because }), "Pupil under 5 mm and getting smaller"),
		like(one("came_of", "branch of the shared decision that followed", identifier, func(e *entry[DecisionPoint]) *Given[string] { return &e.That.CameOf }, Unknown), "pupil-held"),
		one("result", "what came of it, in words", text, func(e *entry[DecisionPoint]) *Given[string] { return &e.That.Result }),
	},
	check: checkDecisionPoint,
}

var optionFields = &shape[Option]{
	name: "an option", doc: "One of the choices at a decision point.",
	fields: []field[Option]{
		must(like(one("id", "short id", identifier, func(o *Option) *Given[string] { return &o.ID }), "hooks")),
		must(like(one("text", "the choice", text, func(o *Option) *Given[string] { return &o.Text }), "Iris hooks")),
		like(one("for", "what speaks for it", text, func(o *Option) *Given[string] { return &o.For }), "Works at any size"),
		like(one("against", "what speaks against it", text, func(o *Option) *Given[string] { return &o.Against }), "Takes minutes"),
	},
	place: place(func(o *Option) *diagnose.Span { return &o.Span }),
}

// entryForms are the four sorts of timeline entry by the key that tells them
// apart.
var entryForms = []struct {
	key    string
	read   func(r *reader, n *yaml.Node) (Entry, bool)
	schema func(*term.Vocabulary) schemaObject
}{
	{"step", readEntry(stepFields, func(e *Entry, s *Step) { e.Step = s }), stepFields.object},
	{"event", readEntry(eventFields, func(e *Entry, v *Event) { e.Event = v }), eventFields.object},
	{"finding", readEntry(findingFields, func(e *Entry, f *Finding) { e.Finding = f }), findingFields.object},
	{"decision", readEntry(decisionPointFields, func(e *Entry, d *DecisionPoint) { e.Decision = d }), decisionPointFields.object},
}

func readEntry[T any](s *shape[entry[T]], put func(*Entry, *T)) func(*reader, *yaml.Node) (Entry, bool) {
	return func(r *reader, n *yaml.Node) (Entry, bool) {
		read := entry[T]{That: new(T)}
		if !s.read(r, n, &read) {
			return Entry{}, false
		}
		e := Entry{Span: r.span(first(n)), At: read.At}
		put(&e, read.That)
		return e, true
	}
}

func timelineField() field[Case] {
	return field[Case]{
		key: "timeline", doc: "what happened, in the order of the recording: steps, events, findings and decisions", required: true,
		expect: "a list of steps, events, findings and decisions", below: func() drafter { return timelineDraft{} }, list: true,
		schema: func(v *term.Vocabulary) schemaObject {
			var forms []any
			for _, f := range entryForms {
				forms = append(forms, f.schema(v))
			}
			return schemaObject{"type": "array", "items": schemaObject{"oneOf": forms}}
		},
		read: readTimeline,
	}
}

func readTimeline(r *reader, key, n *yaml.Node, c *Case) {
	if n.Kind != yaml.SequenceNode {
		if !isEmpty(n) {
			r.bad("wrong-kind", n, "the timeline is a list: put a hyphen and a space before each entry")
		}
		return
	}
	if c.Timeline.Entries == nil {
		c.Timeline.Entries = make([]Entry, 0, len(n.Content))
	}
	for _, item := range n.Content {
		if e, ok := readOneEntry(r, item); ok {
			c.Timeline.Entries = append(c.Timeline.Entries, e)
		}
	}
}

// readOneEntry reads an entry by the one key that says what it is.
func readOneEntry(r *reader, n *yaml.Node) (Entry, bool) {
	if n.Kind != yaml.MappingNode {
		r.bad("wrong-kind", n, "expected a timeline entry with keys and values, found %s", kindWord(n))
		return Entry{}, false
	}
	first, second := -1, -1
	for i, form := range entryForms {
		switch {
		case child(n, form.key) == nil:
		case first < 0:
			first = i
		case second < 0:
			second = i
		}
	}
	switch {
	case first < 0:
		return Entry{}, r.noEntryKind(n)
	case second < 0:
		return entryForms[first].read(r, n)
	}
	other := keyOr(n, entryForms[second].key)
	r.bad("entry-kind", other, "an entry is a step, an event, a finding or a decision, exactly one; this one has %q and %q",
		entryForms[first].key, other.Value)
	return Entry{}, false
}

// noEntryKind reports an entry that says neither what it is; a misspelt key is
// offered its right spelling.
func (r *reader) noEntryKind(n *yaml.Node) bool {
	words := []string{"step", "event", "finding", "decision"}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		if key.Value == "at" {
			continue
		}
		if near, ok := term.Nearest(key.Value, words); ok {
			r.bad("unknown-key", key, "unknown key %q in a timeline entry", key.Value).Suggest(near)
			return false
		}
	}
	r.bad("entry-kind", first(n), "an entry needs one of step, event, finding and decision to say what it is")
	return false
}
