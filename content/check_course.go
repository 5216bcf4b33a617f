package content

import (
	"fmt"

	"caseleaf/content/diagnose"

	"gopkg.in/yaml.v3"
)

// MostGroups and MostStations are how many a rotation is found for.
const (
	MostGroups   = 12
	MostStations = 12
)

// checkCourse holds a course to itself: names that exist and stand once,
// placements that mean something, breaks after the start, tutors for every
// station.
func checkCourse(r *reader, n *yaml.Node, c *Course) {
	stations := uniqueIDs(r, c.Stations, "station", func(s *Station) Given[string] { return s.ID })
	checkCourseSize(r, c)
	var groups []string
	for _, g := range c.Lineup() {
		groups = append(groups, g.Name)
	}
	uniqueIDs(r, c.Groups, "group", func(g *Group) Given[string] { return g.Name })
	for _, list := range [][]Placement{c.Placements, c.Forbidden} {
		for i := range list {
			checkPlacement(r, &list[i], groups, stations)
		}
	}
	for i := range c.Placements {
		if p := &c.Placements[i]; p.Round.State == Absent && p.Group.Known() {
			r.bag.Warn("course-placement", p.Span, "without a round this says nothing: every group meets every station")
		}
	}
	checkBreaks(r, c)
	checkWaves(r, c)
	checkRooms(r, c)
	checkTutors(r, c)
}

func checkCourseSize(r *reader, c *Course) {
	if n := len(c.Lineup()); n > MostGroups {
		r.bag.Error("course-size", c.Lineup()[MostGroups].Span, "%d groups; a rotation is found for %d at most, so make it two waves", n, MostGroups)
	}
	if n := len(c.Stations); n > MostStations {
		r.bag.Error("course-size", c.Stations[MostStations].Span, "%d stations; a rotation is found for %d at most", n, MostStations)
	}
}

// checkPlacement holds the names and the round of a placement to those of the
// course.
func checkPlacement(r *reader, p *Placement, groups, stations []string) {
	if p.Group.Known() {
		r.known(p.Group, groups, "group")
	}
	if p.Station.Known() {
		r.known(p.Station, stations, "station")
	}
	rounds := max(len(groups), len(stations))
	if p.Round.Known() && p.Round.Value > rounds {
		r.bag.Error("course-placement", p.Round.Span, "there is no round %d: %d groups and %d stations need %d rounds",
			p.Round.Value, len(groups), len(stations), rounds)
	}
}

// checkBreaks holds breaks after the start, in order and apart.
func checkBreaks(r *reader, c *Course) {
	for i, b := range c.Breaks {
		if !b.At.Known() {
			continue
		}
		if c.Start.Known() && b.At.Value < c.Start.Value {
			r.bag.Error("time-order", b.At.Span, "the break at %s is before the start at %s", b.At.Value, c.Start.Value)
		}
		if i == 0 || !c.Breaks[i-1].At.Known() {
			continue
		}
		before := c.Breaks[i-1]
		if end := before.At.Value + DayTime(before.Minutes.Or(0)); b.At.Value < end {
			r.bag.Error("time-order", b.At.Span, "the break at %s begins before the one at %s is over at %s; list breaks in the order of the day",
				b.At.Value, before.At.Value, end).Also(before.Span, "the earlier one")
		}
	}
}

func checkWaves(r *reader, c *Course) {
	if n := len(c.WaveStarts); n > 0 && c.Waves.Known() && c.Waves.Value != n {
		r.bag.Error("course-waves", c.Waves.Span, "%d waves, but %d times at which a wave starts", c.Waves.Value, n).
			Also(c.WaveStarts[0].Span, "the times")
	}
	for i, at := range c.WaveStarts {
		switch {
		case i == 0 && c.Start.Known() && at.Value != c.Start.Value:
			r.bag.Error("course-waves", at.Span, "the first wave starts at %s, but the course at %s", at.Value, c.Start.Value)
		case i > 0 && at.Value <= c.WaveStarts[i-1].Value:
			r.bag.Error("time-order", at.Span, "wave %d starts no later than the one before it", i+1)
		}
	}
}

// checkRooms holds the room of a station to the rooms of the course, where it
// lists any.
func checkRooms(r *reader, c *Course) {
	var rooms []string
	for _, room := range c.Rooms {
		rooms = append(rooms, room.Value)
	}
	for _, s := range c.Stations {
		if s.Room.Known() && len(rooms) > 0 {
			r.known(s.Room, rooms, "room")
		}
	}
}

// checkTutors warns of a station whose tutor is not there: all stations run at
// the same time.
func checkTutors(r *reader, c *Course) {
	if len(c.Tutors) == 0 {
		return
	}
	there := map[string]int{}
	var roles []string
	for _, t := range c.Tutors {
		if t.Role.Known() {
			there[t.Role.Value] += t.Count.Or(1)
			roles = append(roles, t.Role.Value)
		}
	}
	asked := map[string]int{}
	for _, s := range c.Stations {
		if !s.Tutor.Known() || !r.known(s.Tutor, roles, "tutor") {
			continue
		}
		role := s.Tutor.Value
		if asked[role]++; asked[role] == there[role]+1 && len(c.Lineup()) > there[role] {
			r.bag.Warn("course-tutors", s.Tutor.Span, "this is station %d for a %s, and %s: stations run at the same time", asked[role], role, thereIs(there[role]))
		}
	}
}

func thereIs(n int) string {
	if n == 1 {
		return "there is only one"
	}
	return fmt.Sprintf("there are only %d", n)
}

// checkGroup holds a group to a name or a number of groups.
func checkGroup(r *reader, n *yaml.Node, g *Group) {
	switch {
	case g.Name.Span.Line() == 0 && g.Count.Span.Line() == 0: // neither key stands there
		r.bag.Error("missing-key", g.Span, "a group needs a name, like this: {name: A, size: 3}; or write {count: 4, size: 3} for four groups named by letters")
	case g.Name.Known() && g.Count.Known():
		r.bag.Error("bad-value", g.Count.Span, "a group with a name is one group; leave out the name for a number of groups")
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
