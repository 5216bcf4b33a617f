package builder

import (
	"fmt"
	"strings"

	"caseleaf/content"
)

// CoursePage is what pages/course.tmpl lays out: a wet lab at a glance.
type CoursePage struct {
	Heading
	Facts    []Fact
	Plenary  []string
	Breaks   []string
	Groups   []string
	Tutors   []string
	Stations []StationBlock
	Cautions []string
}

// StationBlock is one station.
type StationBlock struct {
	ID       string
	Title    string
	Facts    []Fact
	Tasks    []string
	Kit      []KitLine
	Setup    []string
	ClearUp  []string
	Checks   []string
	Cautions []string
}

// CoursesPage is what pages/courses.tmpl lays out.
type CoursesPage struct {
	Heading
	Lines []CourseLine
}

// CourseLine is one course in the list.
type CourseLine struct {
	Course   Link
	Period   string
	Stations int
}

// planCourses makes the page of every course and the list of them; a bank
// without courses has neither.
func planCourses(s *Site) []Page {
	if len(s.Bank.Courses) == 0 {
		return nil
	}
	m := s.met
	var pages []Page
	var headings []*Heading
	index := &CoursesPage{Heading: s.heading(coursesPage, s.words().say("courses"))}
	index.Summary = s.words().say("courses-summary")
	for _, c := range s.Bank.Courses {
		p := s.coursePage(m, c)
		path := coursePath(c.ID.Value)
		pages = append(pages, Page{Path: path, Template: "course", Data: p})
		headings = append(headings, &p.Heading)
		index.Lines = append(index.Lines, CourseLine{
			Course: Link{Text: p.Title, Path: path}, Period: c.Period.Value, Stations: len(c.Stations),
		})
	}
	turn(pages, headings)
	return append(pages, Page{Path: coursesPage, Template: "courses", Data: index})
}

func (s *Site) coursePage(m *met, c *content.Course) *CoursePage {
	w := s.words()
	h := s.headingBelow(coursesPage, c.Title.Or(c.ID.Value))
	h.Kicker, h.Protocol = w.say("course-kicker"), true
	h.Summary = w.say("course-summary", len(c.Stations))
	p := &CoursePage{Heading: h, Cautions: known(c.Cautions)}
	l := &factList{words: w}
	l.text("period", c.Period, false)
	l.text("edition", c.Edition, false)
	l.add("begins", c.Start.State, true, Link{Text: fmt.Sprint(c.Start.Value)})
	l.list("rooms", texts(known(c.Rooms)), false)
	l.add("changeover", c.Changeover.State, false, Link{Text: c.Changeover.Value.String()})
	p.Facts = l.facts
	for _, b := range c.Plenary {
		p.Plenary = append(p.Plenary, w.say("minutes-of", b.Minutes.Value, b.Text.Value))
	}
	for _, b := range c.Breaks {
		p.Breaks = append(p.Breaks, w.say("break-at", fmt.Sprint(b.At.Value), b.Minutes.Value, b.Text.Value))
	}
	for _, g := range c.Groups {
		p.Groups = append(p.Groups, w.say("group-of", g.Name.Value, g.Size.Value))
	}
	for _, t := range c.Tutors {
		p.Tutors = append(p.Tutors, fmt.Sprintf("%d × %s", t.Count.Value, t.Role.Value))
	}
	for i := range c.Stations {
		p.Stations = append(p.Stations, s.stationBlock(m, &c.Stations[i]))
	}
	return p
}

func texts(list []string) []Link {
	var links []Link
	for _, t := range list {
		links = append(links, Link{Text: t})
	}
	return links
}

func (s *Site) stationBlock(m *met, st *content.Station) StationBlock {
	w := s.words()
	l := &factList{words: w}
	l.add("minutes", st.Minutes.State, true, Link{Text: w.say("minutes-value", st.Minutes.Value)})
	l.text("room", st.Room, false)
	l.text("tutor", st.Tutor, false)
	l.list("steps", m.links(st.Steps), false)
	var cases []Link
	for _, id := range st.Cases {
		if c, ok := s.Bank.Case(id.Value); ok && id.Known() {
			cases = append(cases, caseLink(c))
		}
	}
	l.list("read-before", cases, false)
	return StationBlock{
		ID: "station-" + st.ID.Value, Title: st.Title.Or(st.ID.Value), Facts: l.facts,
		Tasks: known(st.Tasks), Kit: s.stationKit(m, st.Kit), Setup: known(st.Setup),
		ClearUp: known(st.ClearUp), Checks: known(st.Checks), Cautions: known(st.Cautions),
	}
}

func (s *Site) stationKit(m *met, kit []content.StationKit) []KitLine {
	var lines []KitLine
	for _, k := range kit {
		var amount []string
		if k.Count.Known() {
			amount = append(amount, s.words().say("per-"+k.Per.Or("station"), k.Count.Value))
		}
		if k.Strength.Known() {
			amount = append(amount, k.Strength.Value.String())
		}
		if k.Size.Known() {
			amount = append(amount, k.Size.Value)
		}
		lines = append(lines, KitLine{Item: m.link(k.Item.Value), Amount: strings.Join(amount, ", "), Note: k.Note.Value})
	}
	return lines
}
