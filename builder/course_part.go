package builder

import (
	"fmt"

	"caseleaf/content"
)

// NoCourseError says that the bank has no course of an id, and which it has.
type NoCourseError struct {
	ID   string
	Have []string
}

func (e *NoCourseError) Error() string {
	if len(e.Have) == 0 {
		return fmt.Sprintf("there is no course %s: the bank has no courses", e.ID)
	}
	return fmt.Sprintf("there is no course %s; the bank has %s", e.ID, joinedAnd(e.Have))
}

func noCourse(bank *content.Bank, id string) *NoCourseError {
	e := &NoCourseError{ID: id}
	for _, c := range bank.Courses {
		e.Have = append(e.Have, c.ID.Value)
	}
	return e
}

// joinedAnd lists ids for a message.
func joinedAnd(list []string) string {
	text := list[0]
	for i, item := range list[1:] {
		if i == len(list)-2 {
			text += " and " + item
		} else {
			text += ", " + item
		}
	}
	return text
}

// coursePart reduces a bank to what one course needs and names the cases that
// its stations want read and that are not in the bank any more, since they are
// not released. An empty id gives the whole bank.
func coursePart(released *content.Bank, id string, heldBack []string) (*content.Bank, []string, error) {
	if id == "" {
		return released, heldBack, nil
	}
	course, ok := released.Course(id)
	if !ok {
		return nil, nil, noCourse(released, id)
	}
	var wanted []string
	for _, held := range heldBack {
		if course.Reads(held) {
			wanted = append(wanted, held)
		}
	}
	return released.Part(course), wanted, nil
}

// scope is the terms that have a page in a handout for one course: what its
// stations practise, what can start there, what its cases met and its decisions
// are about. Any other term is explained in the glossary, where links to it
// lead. A nil scope holds every term.
type scope map[string]bool

func newScope(part *content.Bank, courseID string) scope {
	course, ok := part.Course(courseID)
	if !ok {
		return nil
	}
	s := scope{}
	for i := range course.Stations {
		for _, step := range course.Stations[i].Steps {
			s.add(step)
			for _, w := range part.WatchFor(step.Value) {
				s[w.Complication] = true
			}
		}
	}
	for _, d := range part.Decisions {
		s.add(d.Steps...)
		s.add(d.Complications...)
		s.addStory(&d.Body)
	}
	for _, c := range part.Cases {
		s.addCase(c)
	}
	return s
}

func (s scope) add(terms ...content.Given[string]) {
	for _, t := range terms {
		if t.Known() {
			s[t.Value] = true
		}
	}
}

func (s scope) addStory(b *content.Body) {
	for _, t := range b.Targets {
		if t.Kind == content.ToTerm {
			s[t.ID] = true
		}
	}
}

func (s scope) addCase(c *content.Case) {
	s.add(c.Technique)
	s.add(c.Outcome.Later...)
	s.addStory(&c.Body)
	for _, e := range c.Timeline.Entries {
		switch {
		case e.Step != nil:
			s.add(e.Step.Term, e.Step.Detail().Technique)
		case e.Event != nil:
			s.add(e.Event.Term, e.Event.During)
		case e.Finding != nil:
			s.add(e.Finding.Term)
		}
	}
}

// holds reports whether a term may have a page of its own.
func (s scope) holds(id string) bool { return s == nil || s[id] }

// Packs tells by the name of a bank's file whether what it says goes into a
// handout that is passed on: of the whole bank, or of the course of an id. Cases
// that are held back do not, and of a course only what it needs. Files that every
// handout rests on, such as bank.yaml, always do.
func Packs(bank *content.Bank, courseID string) func(file string) bool {
	part, _ := releasedOnly(bank, false)
	if course, ok := part.Course(courseID); ok {
		part = part.Part(course)
	}
	stays := map[string]bool{}
	mark := func(b *content.Bank, stay bool) {
		for _, c := range b.Cases {
			stays[c.File] = stay
		}
		for _, d := range b.Decisions {
			stays[d.File] = stay
		}
		for _, c := range b.Courses {
			stays[c.File] = stay
		}
	}
	mark(bank, true)
	mark(part, false)
	return func(file string) bool { return !stays[file] }
}
