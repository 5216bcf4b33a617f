package content

import (
	"math/big"
	"slices"
	"strings"

	"caseleaf/content/diagnose"

	"gopkg.in/yaml.v3"
)

// checkStationKit holds a line that is made up from a stock to what makes that
// possible: a volume, and a stock that is stronger, told in the same way.
func checkStationKit(r *reader, n *yaml.Node, k *StationKit) {
	if !k.Stock.Known() {
		if k.Diluent.Known() {
			r.bag.Error("course-dilution", k.Diluent.Span, "a diluent is for a stock that is diluted, and there is no stock")
		}
		if k.Vial.Known() && !k.Volume.Known() {
			r.bag.Error("course-dilution", k.Vial.Span, "vial counts what is bought by volume, so the line needs volume: how much of it each gets")
		}
		return
	}
	if !k.Strength.Known() {
		r.bag.Error("course-dilution", k.Stock.Span, "a stock of %s needs strength: what it is diluted to", k.Stock.Value)
		return
	}
	times, ok := k.Stock.Value.Times(k.Strength.Value)
	switch {
	case !ok:
		r.bag.Error("course-dilution", k.Strength.Span, "%s can't be made from %s: one is not told by weight in a volume as the other is", k.Strength.Value, k.Stock.Value).
			Also(k.Stock.Span, "the stock")
	case times.Cmp(big.NewRat(1, 1)) < 0:
		r.bag.Error("course-dilution", k.Strength.Span, "%s is stronger than the stock of %s it is to be made from", k.Strength.Value, k.Stock.Value).
			Also(k.Stock.Span, "the stock")
	case !k.Volume.Known() || k.Volume.Value == 0:
		r.bag.Error("course-dilution", k.Stock.Span, "without a volume there is nothing to work out: say how much of %s each gets, such as volume: 0.5 mL", k.Strength.Value)
	}
}

// checkCourseKit warns of kit that the cases of a course have and no station
// has, and the other way round, unless the course says that it is meant so.
func checkCourseKit(b *Bank, bag *diagnose.Bag, c *Course) {
	atStation, inCase := kitAtStations(c), kitInCases(b, c)
	if len(atStation) == 0 || len(inCase) == 0 {
		return // no list to compare with
	}
	warnApart(bag, missingFrom(atStation, inCase, c.LeftOut), "no station has some kit of the cases", "left_out", c.LeftOut)
	warnApart(bag, missingFrom(inCase, atStation, c.BenchOnly), "no case has some kit of the stations", "bench_only", c.BenchOnly)
}

// kitPlace is a term of kit and where it stands first: at a station its own
// place, for a case that of the case's id in the course.
type kitPlace struct {
	id, from string // from is the case; empty at a station
	span     diagnose.Span
}

func kitAtStations(c *Course) []kitPlace {
	var list []kitPlace
	for _, s := range c.Stations {
		for _, k := range s.Kit {
			list = addKit(list, k.Item, "", k.Item.Span)
		}
	}
	return list
}

func kitInCases(b *Bank, c *Course) []kitPlace {
	var list []kitPlace
	for _, s := range c.Stations {
		for _, id := range s.Cases {
			if read, ok := b.Case(id.Value); ok {
				for _, k := range read.Kit {
					list = addKit(list, k.Item, read.ID.Value, id.Span)
				}
			}
		}
	}
	return list
}

func addKit(list []kitPlace, item Given[string], from string, at diagnose.Span) []kitPlace {
	if !item.Known() || hasKit(list, item.Value) {
		return list
	}
	return append(list, kitPlace{item.Value, from, at})
}

func hasKit(list []kitPlace, id string) bool {
	return slices.ContainsFunc(list, func(k kitPlace) bool { return k.id == id })
}

// missingFrom lists what is in one list, not in the other and not excused.
func missingFrom(other, list []kitPlace, excused []Given[string]) []kitPlace {
	return slices.DeleteFunc(slices.Clone(list), func(k kitPlace) bool { return hasKit(other, k.id) || names(excused, k.id) })
}

// warnApart gives one warning for all that is missing. It ends with the line
// that would excuse it, to be copied; notes say which case has what.
func warnApart(bag *diagnose.Bag, missing []kitPlace, what, key string, excused []Given[string]) {
	if len(missing) == 0 {
		return
	}
	var ids []string
	for _, k := range missing {
		ids = append(ids, k.id)
	}
	verb := "write"
	if len(excused) > 0 {
		verb = "add to"
	}
	d := bag.Warn("course-kit", missing[0].span, "%s; where that is meant so, %s %s: [%s]", what, verb, key, strings.Join(ids, ", "))
	for len(missing) > 0 {
		from := missing[0]
		var own []string
		missing = slices.DeleteFunc(missing, func(k kitPlace) bool {
			if k.from != from.from {
				return false
			}
			own = append(own, k.id)
			return true
		})
		if from.from != "" {
			d.Also(from.span, from.from+" has "+strings.Join(own, ", "))
		}
	}
}

func names(list []Given[string], id string) bool {
	return slices.ContainsFunc(list, func(g Given[string]) bool { return g.Known() && g.Value == id })
}
