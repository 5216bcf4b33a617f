package builder

import (
	"fmt"

	"caseleaf/builder/rotation"
	"caseleaf/content"
)

// CoursePage is what pages/course.tmpl lays out: a wet lab at a glance, its
// cautions first, and the way to its sheets.
type CoursePage struct {
	Heading
	Cautions []string
	Sheets   []Link // everything to print, with a word on each
	Tables   []Link // the same to take away
	Facts    []Fact
	Plenary  []string
	Breaks   []string
	Groups   []string
	Tutors   []string
	Waves    []WaveBlock
	Fairness []string
	Missing  string // why there is no timetable; "" where there is one
	Stations []StationLine
	// Calendars are files for phones; empty where the build was given no date.
	Calendars []Link
}

// StationLine is one station in the overview.
type StationLine struct {
	Number int
	Sheet  Link
	Facts  []Fact
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

// planCourses makes the pages of every course and the list of them; a bank
// without courses has neither.
func planCourses(s *Site) []Page {
	if len(s.Bank.Courses) == 0 {
		return nil
	}
	var pages, sheets []Page
	var headings []*Heading
	index := &CoursesPage{Heading: s.heading(coursesPage, s.words().say("courses"))}
	index.Summary = s.words().say("courses-summary")
	for _, c := range s.Bank.Courses {
		v := s.courseView(c)
		p := v.page()
		path := coursePath(c.ID.Value)
		pages = append(pages, Page{Path: path, Template: "course", Data: p})
		headings = append(headings, &p.Heading)
		index.Lines = append(index.Lines, CourseLine{
			Course: Link{Text: p.Title, Path: path}, Period: c.Period.Value, Stations: len(c.Stations),
		})
		sheets = append(sheets, v.sheets()...)
	}
	turn(pages, headings)
	return append(append(pages, sheets...), Page{Path: coursesPage, Template: "courses", Data: index})
}

// courseView is a course seen from its site: what all its pages are planned
// from.
type courseView struct {
	site   *Site
	met    *met
	words  *words
	c      *content.Course
	plan   *coursePlan
	folder string // of its sheets, with a slash behind it
	title  string
}

func (s *Site) courseView(c *content.Course) *courseView {
	return &courseView{
		site: s, met: s.met, words: s.words(), c: c, plan: planCourse(c),
		folder: "courses/" + fileStem(c.ID.Value) + "/", title: c.Title.Or(c.ID.Value),
	}
}

// heading is the heading of one of the course's sheets.
func (v *courseView) heading(title, summary string) Heading {
	h := v.site.headingBelow(coursesPage, title)
	h.Trail = append(h.Trail, Link{Text: v.title, Path: coursePath(v.c.ID.Value)})
	h.Kicker, h.Summary, h.Protocol = v.title, summary, true
	return h
}

// sheets are the pages below the course's own, in the order of its list.
func (v *courseView) sheets() []Page {
	pages := []Page{
		{Path: v.folder + stationsSheet, Template: "course-stations", Data: v.stationsPage()},
		{Path: v.folder + groupsSheet, Template: "course-groups", Data: v.groupsPage()},
		{Path: v.folder + kitSheet, Template: "course-kit", Data: v.kitPage()},
		{Path: v.folder + readingSheet, Template: "course-reading", Data: v.readingPage()},
		{Path: v.folder + tutorSheet, Template: "course-tutors", Data: v.tutorsPage()},
	}
	if v.plan.err != nil {
		return append(pages[:1:1], pages[2:]...) // without a rotation there is nothing for a group's card
	}
	return pages
}

// Names of the sheets in the course's folder.
const (
	stationsSheet = "stations.html"
	groupsSheet   = "groups.html"
	kitSheet      = "kit.html"
	readingSheet  = "reading.html"
	tutorSheet    = "tutors.html"
	shoppingTable = "shopping.csv"
	benchTable    = "bench.csv"
)

func (v *courseView) page() *CoursePage {
	c, w := v.c, v.words
	h := v.site.headingBelow(coursesPage, v.title)
	h.Kicker, h.Protocol = w.say("course-kicker"), true
	h.Summary = w.say("course-counts", len(c.Stations), len(v.plan.parties), c.Participants())
	p := &CoursePage{Heading: h, Cautions: known(c.Cautions), Facts: v.facts(), Calendars: v.calendars()}
	p.Sheets, p.Tables = v.links()
	for _, b := range c.Plenary {
		p.Plenary = append(p.Plenary, w.say("minutes-of", b.Minutes.Value, b.Text.Value))
	}
	for _, b := range c.Breaks {
		p.Breaks = append(p.Breaks, w.say("break-at", fmt.Sprint(b.At.Value), b.Minutes.Value, b.Text.Value))
	}
	for _, g := range v.plan.parties {
		p.Groups = append(p.Groups, w.say("group-of", g.Name, g.Size))
	}
	for _, t := range c.Tutors {
		p.Tutors = append(p.Tutors, fmt.Sprintf("%d × %s", t.Count.Or(1), w.role(t.Role.Value)))
	}
	if v.plan.err != nil {
		p.Missing = w.say("course-no-rotation")
	} else {
		p.Waves, p.Fairness = v.waves(), v.fairness()
	}
	for i := range c.Stations {
		p.Stations = append(p.Stations, v.stationLine(i))
	}
	return p
}

func (v *courseView) facts() []Fact {
	c := v.c
	l := &factList{words: v.words}
	l.text("period", c.Period, false)
	l.text("edition", c.Edition, false)
	l.add("begins", c.Start.State, true, Link{Text: fmt.Sprint(c.Start.Value)})
	if v.plan.err == nil {
		l.add("course-ends", content.Known, true, Link{Text: content.DayTime(v.plan.end(0)).String()})
	}
	l.list("rooms", texts(known(c.Rooms)), false)
	l.add("changeover", c.Changeover.State, false, Link{Text: c.Changeover.Value.String()})
	if n := c.WaveCount(); n > 1 {
		l.add("course-waves", content.Known, true, Link{Text: v.words.number(n)})
	}
	return l.facts
}

// links lead to what is printed and what is taken away.
func (v *courseView) links() (sheets, tables []Link) {
	w := v.words
	sheets = []Link{{Text: w.say("course-stations"), Path: v.folder + stationsSheet, Note: w.say("course-stations-note")}}
	if v.plan.err == nil {
		sheets = append(sheets, Link{Text: w.say("course-groups"), Path: v.folder + groupsSheet, Note: w.say("course-groups-note")})
	}
	sheets = append(sheets,
		Link{Text: w.say("course-kit"), Path: v.folder + kitSheet, Note: w.say("course-kit-note")},
		Link{Text: w.say("course-reading"), Path: v.folder + readingSheet, Note: w.say("course-reading-note")},
		Link{Text: w.say("course-tutors"), Path: v.folder + tutorSheet, Note: w.say("course-tutors-note")},
	)
	if b := v.site.courseBooklet(v.c); len(b.cases) > 0 {
		sheets = append(sheets,
			Link{Text: w.say("booklet-participants"), Path: b.participants(), Note: w.say("booklet-of-course")},
			Link{Text: w.say("booklet-tutors"), Path: b.tutors(), Note: w.say("booklet-of-course")})
	}
	tables = []Link{
		{Text: w.say("course-csv", w.say("course-shopping")), Path: v.folder + shoppingTable},
		{Text: w.say("course-csv", w.say("course-bench")), Path: v.folder + benchTable},
	}
	return sheets, tables
}

func (v *courseView) stationLine(i int) StationLine {
	st := &v.c.Stations[i]
	return StationLine{Number: i + 1, Sheet: v.stationLink(i), Facts: v.stationFacts(st)}
}

// stationLink leads to a station's sheet.
func (v *courseView) stationLink(i int) Link {
	st := &v.c.Stations[i]
	return Link{Text: st.Title.Or(st.ID.Value), Path: v.folder + stationsSheet + "#" + stationAnchor(st)}
}

func stationAnchor(st *content.Station) string { return "station-" + fileStem(st.ID.Value) }

// stationFacts are where, how long, by whom and what for.
func (v *courseView) stationFacts(st *content.Station) []Fact {
	w := v.words
	l := &factList{words: w}
	l.add("minutes", st.Minutes.State, true, Link{Text: w.say("minutes-value", st.Minutes.Value)})
	l.text("room", st.Room, false)
	l.add("tutor", st.Tutor.State, false, Link{Text: w.role(st.Tutor.Value)})
	l.list("steps", v.met.links(st.Steps), false)
	var cases []Link
	for _, c := range v.casesOf(st) {
		cases = append(cases, caseLink(c))
	}
	l.list("read-before", cases, false)
	return l.facts
}

// casesOf are the cases of a station that this handout shows.
func (v *courseView) casesOf(st *content.Station) []*content.Case {
	var list []*content.Case
	for _, id := range known(st.Cases) {
		if c, ok := v.site.Bank.Case(id); ok {
			list = append(list, c)
		}
	}
	return list
}

func texts(list []string) []Link {
	var links []Link
	for _, t := range list {
		links = append(links, Link{Text: t})
	}
	return links
}

// fairness says what the rotation is like.
func (v *courseView) fairness() []string {
	f, w := v.plan.rotation.Fairness, v.words
	list := []string{w.say("course-rounds", f.Rounds)}
	switch {
	case f.Rests > 1:
		list = append(list, w.say("course-rests", f.Rests, f.RestsApart))
	case f.Rests == 1:
		list = append(list, w.say("course-rest"))
	case f.Empty > 0:
		list = append(list, w.say("course-empty", f.Empty))
	}
	if f.Pairs > 0 {
		if f.Balanced() {
			list = append(list, w.say("course-balanced", f.MostFollows))
		} else {
			list = append(list, w.say("course-follows", f.LeastFollows, f.MostFollows))
		}
		if f.OneWay > 0 {
			list = append(list, w.say("course-one-way", f.OneWay, f.Pairs))
		}
	}
	switch v.plan.rotation.Quality {
	case rotation.Level:
		return append(list, w.say("course-level"))
	case rotation.Optimal:
		return append(list, w.say("course-optimal"))
	}
	return append(list, w.say("course-best-found", v.plan.rotation.Nodes))
}
