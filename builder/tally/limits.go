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
	var sum, size tallied
	for _, i := range t.unit {
		e, n := events(i), t.size(key{byUnit, i, 0})
		if t.units.names[i] == "" {
			continue
		}
		sum.add(e)
		size.add(n)
		rows = append(rows, LimitRow{
			Complication: Word(complication), Unit: t.units.names[i], Events: e, Operations: n, Rate: undefined,
			Target: undefined, Low95: undefined, High95: undefined, Low998: undefined, High998: undefined,
		})
	}
	if _, some := t.units.of[""]; !some { // then the named units are all there are
		if k, ok := t.complications.of[complication]; ok {
			sum.all(t.event(k, key{}))
		}
		size.all(t.size(key{}))
	} else if t.published {
		// A target would tell how many events are left for the others.
		sum.hidden = sum.hidden || t.otherUnitHidden(events)
	}
	for i := range rows {
		r := &rows[i]
		if !sum.hidden && !size.hidden && size.n > 0 && r.Operations.Hidden == Shown {
			r.hold(float64(sum.n) / float64(size.n))
		}
		if t.percentage(r.Events, r.Operations) {
			r.Rate = Number(float64(r.Events.N) / float64(r.Operations.N))
		}
	}
	return rows
}

// otherUnitHidden says whether the operations without a unit, or their events,
// are hidden.
func (t *sheet) otherUnitHidden(events func(i int) Count) bool {
	i := t.units.of[""]
	return events(i).Hidden != Shown || t.size(key{byUnit, i, 0}).Hidden != Shown
}

// tallied is a sum of counts, hidden when one of them is.
type tallied struct {
	n      int
	hidden bool
}

func (s *tallied) add(c Count) {
	s.n += c.N
	s.hidden = s.hidden || c.Hidden != Shown
}

// all takes a total that is shown in place of the sum.
func (s *tallied) all(c Count) {
	if c.Hidden == Shown {
		s.n, s.hidden = c.N, false
	}
}

// hold sets the limits about a target and says whether the unit is outside.
func (r *LimitRow) hold(target float64) {
	narrow := stat.ControlLimits(r.Operations.N, target, stat.Tail95)
	wide := stat.ControlLimits(r.Operations.N, target, stat.Tail998)
	r.Target = Number(target)
	r.Low95, r.High95 = Number(narrow.Low), Number(narrow.High)
	r.Low998, r.High998 = Number(wide.Low), Number(wide.High)
	if r.Events.Hidden == Shown {
		outside, outside998 := narrow.Outside(r.Events.N), wide.Outside(r.Events.N)
		r.Outside, r.Outside998 = &outside, &outside998
	}
}
