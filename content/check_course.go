package content

import (
	"caseleaf/content/diagnose"

	"gopkg.in/yaml.v3"
)

// checkCourse holds the names in a course unique and its placements to groups
// and stations that exist.
func checkCourse(r *reader, n *yaml.Node, c *Course) {
	groups := uniqueIDs(r, c.Groups, "group", func(g *Group) Given[string] { return g.Name })
	stations := uniqueIDs(r, c.Stations, "station", func(s *Station) Given[string] { return s.ID })
	for _, list := range [][]Placement{c.Placements, c.Forbidden} {
		for _, p := range list {
			if p.Group.Known() {
				r.known(p.Group, groups, "group")
			}
			if p.Station.Known() {
				r.known(p.Station, stations, "station")
			}
		}
	}
	for _, b := range c.Breaks {
		if b.At.Known() && c.Start.Known() && b.At.Value < c.Start.Value {
			r.bag.Error("time-order", b.At.Span, "the break at %s is before the start at %s", b.At.Value, c.Start.Value)
		}
	}
}

func uniqueIDs[T any](r *reader, items []T, what string, id func(*T) Given[string]) []string {
	seen := map[string]diagnose.Span{}
	var ids []string
	for i := range items {
		g := id(&items[i])
		if !g.Known() {
			continue
		}
		if earlier, ok := seen[g.Value]; ok {
			r.bag.Error("duplicate-id", g.Span, "%s %q stands twice", what, g.Value).Also(earlier, "the first one")
			continue
		}
		seen[g.Value] = g.Span
		ids = append(ids, g.Value)
	}
	return ids
}
