package content

import "slices"

// Course returns the course of an id.
func (b *Bank) Course(id string) (*Course, bool) {
	for _, c := range b.Courses {
		if c.ID.Value == id {
			return c, true
		}
	}
	return nil, false
}

// Part returns the bank reduced to one course: that course, the cases that its
// stations have read, and the shared decisions that those cases meet, that their
// stories link, or that are met at a step which a station practises. The logbook
// stays whole, since a rate is out of all operations; so does the vocabulary.
func (b *Bank) Part(course *Course) *Bank {
	part := b.Keep(func(c *Case) bool { return course.Reads(c.ID.Value) })
	part.Courses = []*Course{course}
	part.Decisions = slices.Clone(part.Decisions)
	part.Decisions = slices.DeleteFunc(part.Decisions, func(d *Decision) bool {
		return !course.practises(d) && !slices.ContainsFunc(part.Cases, func(c *Case) bool { return c.meets(d.ID.Value) })
	})
	part.index()
	return part
}

// Reads reports whether a station has a case read before it.
func (c *Course) Reads(id string) bool {
	return slices.ContainsFunc(c.Stations, func(s Station) bool {
		return slices.ContainsFunc(s.Cases, func(g Given[string]) bool { return g.Known() && g.Value == id })
	})
}

// practises reports whether a decision is met at a step that a station
// practises.
func (c *Course) practises(d *Decision) bool {
	return slices.ContainsFunc(d.Steps, func(step Given[string]) bool {
		return step.Known() && slices.ContainsFunc(c.Stations, func(s Station) bool {
			return slices.ContainsFunc(s.Steps, func(g Given[string]) bool { return g.Known() && g.Value == step.Value })
		})
	})
}

// meets reports whether a case met a shared decision or its story links it.
func (c *Case) meets(decision string) bool {
	for _, t := range c.Body.Targets {
		if t.Kind == ToDecision && t.ID == decision {
			return true
		}
	}
	return slices.ContainsFunc(c.Timeline.Entries, func(e Entry) bool {
		return e.Decision != nil && e.Decision.Point.Known() && e.Decision.Point.Value == decision
	})
}
