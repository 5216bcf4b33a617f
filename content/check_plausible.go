package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
)

// checkPlausible asks about values outside the usual ranges of the trade and
// refuses those that are almost certainly a slip. A true eye can lie outside
// every range, so a note beside the value (in a case's examination, for its own
// measures) turns a refusal into a question.
func checkPlausible(c *Case, bag *diagnose.Bag) {
	p := plausibility{bag: bag, contexts: []string{c.Technique.Value, c.Procedure.Value}, noted: c.Examination.Known()}
	p.measures(c.Measures)
	if day1, ok := c.Outcome.Pressure.Day1.Get(); ok {
		visit := p
		visit.contexts = []string{"day-1"}
		visit.noted = c.Outcome.Note.Known() || len(c.Outcome.Later) > 0
		visit.value("intraocular-pressure", day1.Value, c.Outcome.Pressure.Day1.Span)
	}
	for i := range c.Kit {
		p.strength(&c.Kit[i])
	}
	for i := range c.Timeline.Entries {
		p.step(&c.Timeline.Entries[i])
	}
}

type plausibility struct {
	bag      *diagnose.Bag
	contexts []string // procedure, step or visit whose ranges come first
	noted    bool     // the author explains the value beside it
}

func (p plausibility) measures(list []Measured) {
	for _, m := range list {
		if v, ok := m.Value.Get(); ok {
			p.value(m.Term.Value, v.Value, m.Value.Span)
		}
	}
}

// step judges the values of a step; its keys for sizes stand for measures.
func (p plausibility) step(e *Entry) {
	s := e.Step
	if s == nil || s.Details == nil {
		return
	}
	p.contexts = append([]string{s.Term.Value}, p.contexts...)
	p.noted = s.Note.Known()
	for _, key := range []struct {
		measure string
		length  Given[measure.Length]
	}{
		{widthMeasure(s.Term.Value), s.Details.Width}, {"tunnel-length", s.Details.Length}, {"rhexis-diameter", s.Details.Diameter}, {"pupil-diameter", s.Details.Pupil},
	} {
		if v, ok := key.length.Get(); ok {
			p.value(key.measure, float64(v), key.length.Span)
		}
	}
	p.measures(s.Details.Measures)
}

// widthMeasure is the measure that the width of a step stands for; the first
// entry of a section that is enlarged later has none.
func widthMeasure(step string) string {
	if step == "chamber-entry" || step == "limbal-groove" {
		return ""
	}
	return "incision-width"
}

func (p plausibility) value(measureTerm string, v float64, at diagnose.Span) {
	r, ok := measure.Plausible(measureTerm, p.contexts...)
	if !ok {
		return
	}
	p.report(r.Judge(v), r, at)
}

func (p plausibility) strength(k *KitItem) {
	if !k.Strength.Known() {
		return
	}
	if verdict, r, ok := measure.JudgeStrength(k.Item.Value, k.Strength.Value); ok {
		p.noted = k.Note.Known()
		p.report(verdict, r, k.Strength.Span)
	}
}

func (p plausibility) report(verdict measure.Verdict, r measure.Range, at diagnose.Span) {
	switch {
	case verdict == measure.Accept:
	case verdict == measure.Refuse && !p.noted:
		p.bag.Error("impossible-value", at, "this is almost certainly a slip of unit, point or key (%s); if it is true, say why in a note", r.Words())
	case verdict == measure.Refuse || !p.noted:
		p.bag.Warn("implausible-value", at, "this is outside the plausible range (%s); is it right?", r.Words())
	}
}
