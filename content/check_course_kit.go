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
	atStation, inCase := map[string]diagnose.Span{}, map[string]string{}
	var stationOrder, caseOrder []string
	var first diagnose.Span
	for _, s := range c.Stations {
		for _, k := range s.Kit {
			if id := k.Item.Value; k.Item.Known() {
				if _, ok := atStation[id]; !ok {
					stationOrder, atStation[id] = append(stationOrder, id), k.Item.Span
				}
			}
		}
		for _, id := range s.Cases {
			read, ok := b.Case(id.Value)
			if !ok {
				continue
			}
			if len(caseOrder) == 0 {
				first = id.Span
			}
			for _, k := range read.Kit {
				if _, ok := inCase[k.Item.Value]; !ok && k.Item.Known() {
					caseOrder, inCase[k.Item.Value] = append(caseOrder, k.Item.Value), read.ID.Value
				}
			}
		}
	}
	if len(stationOrder) == 0 || len(caseOrder) == 0 {
		return // no list to compare with
	}
	warnApart(bag, first, "kit of the cases that no station has", "left_out", caseOrder, c.LeftOut, func(id string) (bool, string) {
		_, there := atStation[id]
		return there, id + " (" + inCase[id] + ")"
	})
	lonely := slices.IndexFunc(stationOrder, func(id string) bool { return inCase[id] == "" && !names(c.BenchOnly, id) })
	if lonely >= 0 {
		warnApart(bag, atStation[stationOrder[lonely]], "kit at a station that no case has", "bench_only", stationOrder, c.BenchOnly, func(id string) (bool, string) {
			return inCase[id] != "", id
		})
	}
}

// warnApart lists the ids that are not there and not excused, in one warning.
func warnApart(bag *diagnose.Bag, at diagnose.Span, what, key string, ids []string, excused []Given[string], there func(id string) (bool, string)) {
	var list []string
	for _, id := range ids {
		if is, words := there(id); !is && !names(excused, id) {
			list = append(list, words)
		}
	}
	if len(list) > 0 {
		bag.Warn("course-kit", at, "%s: %s; where that is meant so, list it under %s", what, strings.Join(list, ", "), key)
	}
}

func names(list []Given[string], id string) bool {
	return slices.ContainsFunc(list, func(g Given[string]) bool { return g.Known() && g.Value == id })
}
