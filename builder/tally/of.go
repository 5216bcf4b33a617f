package tally

import "caseleaf/content"

// Of counts a bank's logbook and the given cases (those that may be shown),
// with nothing hidden: the author's own view. See [Result.Published].
func Of(bank *content.Bank, cases []*content.Case) *Result {
	c := &Counter{}
	for o := range bank.Logbook.All() {
		c.Add(&o)
	}
	settings := Settings{
		Reference: bank.Settings.ReferenceTechnique.Or(""),
		Threshold: bank.Settings.Threshold(),
	}
	for _, s := range bank.Settings.Strata {
		settings.Strata = append(settings.Strata, s.ID.Value)
	}
	r := c.Result(settings)
	if bank.Logbook != nil {
		r.Source.LeftOut = bank.Logbook.LeftOut
	}
	r.addCases(cases)
	for i := range r.Choices {
		if d, ok := bank.Decision(string(r.Choices[i].Decision)); ok {
			r.Choices[i].Question = d.Question.Or(r.Choices[i].Question)
		}
	}
	for i := range r.Decisions {
		if d, ok := bank.Decision(string(r.Decisions[i].Decision)); ok {
			r.Decisions[i].Question = d.Question.Or(r.Decisions[i].Question)
		}
	}
	return r
}

// Result makes the tables of what was counted, without any cases.
func (c *Counter) Result(settings Settings) *Result { return newSheet(c, settings).result() }

func (t *sheet) result() *Result {
	r := &Result{counter: t.Counter, settings: t.settings}
	r.Source = Source{
		Operations:      t.size(key{}),
		ReferenceStated: t.settings.Reference != "", Reference: Word(t.settings.Reference),
		Level: level, Threshold: t.settings.Threshold, Published: t.published, Methods: methods,
	}
	if t.reference >= 0 {
		r.Source.Reference = Word(t.techniques.names[t.reference])
	}
	if n := len(t.period); n > 0 {
		r.Source.From, r.Source.To = Word(t.periods.names[t.period[0]]), Word(t.periods.names[t.period[n-1]])
	}
	if j, ok := t.strata.of[""]; ok {
		r.Source.WithoutRisk = t.size(key{byStratum, j, 0})
	}
	r.Onsets, r.Delays, r.Durations = []OnsetRow{}, []DelayRow{}, []DurationRow{}
	r.Choices, r.Decisions, r.Acuity = []ChoiceRow{}, []OutcomeRow{}, []AcuityRow{}
	r.Complications = list(t.complicationRows())
	r.Overall = list(t.overallRows())
	r.Stratified = list(t.stratifiedRows())
	r.Limits, r.LimitsByComplication = list(t.limitRows()), list(t.limitRowsByComplication())
	r.ByStratum, r.ByGrade, r.ByPeriod = list(t.stratumRows()), list(t.gradeRows()), list(t.periodRows())
	return r
}

// list is rows, never nil: an empty table is [] in JSON.
func list[T any](rows []T) []T {
	if rows == nil {
		return []T{}
	}
	return rows
}
