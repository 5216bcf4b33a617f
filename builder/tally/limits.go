package tally

import "caseleaf/builder/stat"

// limitRows holds the units against their common rate, for any complication. A
// published sheet has none: beside the rows of single complications it could
// give a hidden count away.
func (t *sheet) limitRows() []LimitRow {
	if t.published {
		return nil
	}
	events := func(i int) Count { return count(at(t.any, i)) }
	return t.unitRows("", events)
}

// limitRowsByComplication does the same for each complication.
func (t *sheet) limitRowsByComplication() []LimitRow {
	var rows []LimitRow
	for _, k := range t.complication {
		events := func(i int) Count { return t.event(k, key{byUnit, i, 0}) }
		rows = append(rows, t.unitRows(t.complications.names[k], events)...)
	}
	return rows
}

// unitRows is one set of limits. The target is the rate of all units that are
// named; operations without a unit are in no row.
func (t *sheet) unitRows(complication string, events func(i int) Count) []LimitRow {
	var rows []LimitRow
	sum, size, known := 0, 0, true
	for _, i := range t.unit {
		e, n := events(i), t.size(key{byUnit, i, 0})
		// The sum over the named units says what is left for the others.
		known = known && e.Hidden == Shown && n.Hidden == Shown
		if t.units.names[i] == "" {
			continue
		}
		sum, size = sum+e.N, size+n.N
		rows = append(rows, LimitRow{
			Complication: Word(complication), Unit: t.units.names[i], Events: e, Operations: n, Rate: undefined,
			Target: undefined, Low95: undefined, High95: undefined, Low998: undefined, High998: undefined,
		})
	}
	if size == 0 {
		return rows
	}
	for i := range rows {
		if known {
			rows[i].hold(float64(sum) / float64(size))
		}
		if r := &rows[i]; t.percentage(r.Events, r.Operations) {
			r.Rate = Number(float64(r.Events.N) / float64(r.Operations.N))
		}
	}
	return rows
}

// hold sets the limits about a target and says whether the unit is outside.
func (r *LimitRow) hold(target float64) {
	narrow := stat.ControlLimits(r.Operations.N, target, stat.Tail95)
	wide := stat.ControlLimits(r.Operations.N, target, stat.Tail998)
	r.Target = Number(target)
	r.Low95, r.High95 = Number(narrow.Low), Number(narrow.High)
	r.Low998, r.High998 = Number(wide.Low), Number(wide.High)
	r.Outside, r.Outside998 = narrow.Outside(r.Events.N), wide.Outside(r.Events.N)
}
