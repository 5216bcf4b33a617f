package builder

import (
	"fmt"
	"strings"

	"caseleaf/content"
	"caseleaf/content/measure"
)

// factList gathers facts in the order they are printed.
type factList struct {
	words *words
	facts []Fact
}

// add prints a fact; always says so where it is missing.
func (l *factList) add(label string, state content.State, always bool, values ...Link) {
	if state == content.Known && len(values) > 0 {
		l.facts = append(l.facts, Fact{Label: l.words.say(label), Values: values})
		return
	}
	if always || state == content.Unknown || state == content.None {
		l.facts = append(l.facts, Fact{
			Label: l.words.say(label), Missing: true, Values: []Link{{Text: l.words.missing(state)}},
		})
	}
}

func (l *factList) text(label string, g content.Given[string], always bool) {
	l.add(label, g.State, always, Link{Text: g.Value})
}

func (l *factList) list(label string, values []Link, always bool) {
	state := content.Absent
	if len(values) > 0 {
		state = content.Known
	}
	l.add(label, state, always, values...)
}

// facts is what was known before the operation.
func (v *caseView) facts() []Fact {
	c, w := v.c, v.words
	l := &factList{words: w}
	l.add("procedure", c.Procedure.State, true, v.met.link(c.Procedure.Value))
	l.add("technique", c.Technique.State, true, v.met.link(c.Technique.Value))
	l.add("surgeon", c.Surgeon.State, true, Link{Text: w.grade(c.Surgeon.Value)})
	l.add("eye", c.Eye.State, true, Link{Text: w.say("eye-" + c.Eye.Or("right"))})
	l.add("anaesthesia", c.Anaesthesia.State, true, v.met.link(c.Anaesthesia.Value))
	l.list("patient", v.patient(), true)
	l.list("risk-factors", v.met.links(c.Patient.Risks), true)
	l.list("cataract", v.cataract(), true)
	l.list("measures", v.measured(c.Measures), false)
	l.text("history", c.History, false)
	l.text("examination", c.Examination, false)
	l.text("plan", c.Plan, true)
	l.text("backup-plan", c.BackupPlan, true)
	if c.ClockFrame.Known() {
		l.add("clock-frame", content.Known, false, Link{Text: w.say("clock-frame-" + c.ClockFrame.Value)})
	}
	return l.facts
}

func (v *caseView) patient() []Link {
	p, w := v.c.Patient, v.words
	var values []Link
	if p.AgeBand.Known() {
		values = append(values, Link{Text: w.say("aged", strings.Replace(p.AgeBand.Value, "-", "–", 1))})
	}
	if p.Sex.Known() {
		values = append(values, Link{Text: w.say("sex-" + p.Sex.Value)})
	}
	return values
}

func (v *caseView) cataract() []Link {
	var values []Link
	if t := v.c.Cataract.Type; t.Known() {
		values = append(values, v.met.link(t.Value))
	}
	for _, g := range v.c.Cataract.Grades {
		if g.Known() {
			values = append(values, Link{Text: g.Value.String()})
		}
	}
	return values
}

func (v *caseView) measured(list []content.Measured) []Link {
	var values []Link
	for _, m := range list {
		if m.Term.Known() && m.Value.Known() {
			link := v.met.link(m.Term.Value)
			link.Note = m.Value.Value.Text
			values = append(values, link)
		}
	}
	return values
}

// outcome is what came of the operation.
func (v *caseView) outcome() []Fact {
	o, w := v.c.Outcome, v.words
	l := &factList{words: w}
	l.add("acuity-before", o.Acuity.Before.State, true, Link{Text: acuityText(w, o.Acuity.Before.Value)})
	l.add("acuity-after", o.Acuity.After.State, true, Link{Text: acuityText(w, o.Acuity.After.Value)})
	l.add("follow-up", o.FollowUp.State, true, Link{Text: w.period(o.FollowUp.Value)})
	l.add("lens", o.Lens.State, true, Link{Text: w.say("lens-" + o.Lens.Or("none"))})
	l.add("capsule", o.Capsule.State, true, Link{Text: w.say("capsule-" + o.Capsule.Or("intact"))})
	l.add("pressure-day-1", o.Pressure.Day1.State, false, Link{Text: o.Pressure.Day1.Value.Text})
	l.list("later", v.met.links(o.Later), false)
	if o.FurtherSurgery.State == content.None {
		l.add("further-surgery", content.Known, true, Link{Text: w.say("none")})
	} else {
		l.text("further-surgery", o.FurtherSurgery, true)
	}
	l.add("told", o.Told.State, true, Link{Text: w.yesNo(o.Told.Value)})
	l.text("note", o.Note, false)
	return l.facts
}

// acuityText writes an acuity as its author did, with its logMAR where it has
// one: 6/24 (logMAR 0.60).
func acuityText(w *words, a measure.Acuity) string {
	value, ok := a.LogMAR()
	if !ok || a.Kind == measure.LogMARAcuity {
		return w.acuity(a)
	}
	return w.say("acuity-logmar", w.acuity(a), strings.Replace(fmt.Sprintf("%.2f", value), "-", "−", 1))
}
