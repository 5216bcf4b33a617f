package builder

import (
	"slices"

	"caseleaf/content"
)

// Booklets are cases as one document, in two copies. The participants' copy is
// planned from the case itself, field by field, so that nothing that was done,
// and nothing that came of it, can be in it; see page_booklet_participants.go.
// The tutors' copy is the case pages' own facts, without links; see
// page_booklet_tutors.go.

// bookletPlan is one booklet before it is laid out: of the bank, or of a course.
type bookletPlan struct {
	stem    string // path of both copies without their endings, such as booklets/all
	title   string
	edition string
	of      Link // what the booklet belongs to: above it in the trail
	cases   []*content.Case
	// cautions stand on the cover, before those of the bank.
	cautions []string
}

func (p bookletPlan) participants() string { return p.stem + "-participants.html" }
func (p bookletPlan) tutors() string       { return p.stem + "-tutors.html" }

// BookletPage is what the templates booklet-participants and booklet-tutors lay
// out. Only one of the two lists of cases is filled.
type BookletPage struct {
	Heading
	Name      string // of the booklet, without the copy's
	Copy      string // participants' or tutors'
	Edition   string
	Use       string // what this copy is for
	Counts    string
	Cautions  []string
	Contents  []BookletEntry
	Exercises []ExerciseCase // participants' copy
	Answered  []TutorCase    // tutors' copy
}

// BookletEntry is one line of the contents. Href leads to the case on the same
// page: browsers that can print the number of that page after it.
type BookletEntry struct {
	Number string // the case's id
	Text   string
	Points string // how many decision points
	Href   string
}

// BookletsPage is what pages/booklets.tmpl lays out: every booklet, both copies.
type BookletsPage struct {
	Heading
	Lines   []BookletLine
	TooMany bool // the bank has more cases than the booklet of all holds
}

// BookletLine is one booklet with its two copies.
type BookletLine struct {
	Name                 string
	Of                   *Link // the course
	Counts               string
	Participants, Tutors Link
}

const (
	bookletsPage = "booklets.html"
	// mostInBooklet is how many cases the booklet of all may have. A bank with
	// more chooses smaller ones in bank.yaml.
	mostInBooklet = 60
)

// planBooklets makes both copies of every booklet and the list of them.
func planBooklets(s *Site) []Page {
	w := s.words()
	index := &BookletsPage{Heading: s.headingBelow(casesPage, w.say("booklets"))}
	index.Summary = w.say("booklets-summary")
	var pages []Page
	for _, p := range slices.Concat(s.bankBooklets(), s.courseBooklets()) {
		pages = append(pages, s.booklet(p)...)
		line := BookletLine{
			Name: p.title, Counts: w.bookletCounts(p.cases),
			Participants: Link{Text: w.say("booklet-participants"), Path: p.participants()},
			Tutors:       Link{Text: w.say("booklet-tutors"), Path: p.tutors()},
		}
		if p.of.Path != bookletsPage {
			line.Of = &p.of
		}
		index.Lines = append(index.Lines, line)
	}
	index.TooMany = len(s.Bank.Settings.Booklets) == 0 && len(s.Bank.Cases) > mostInBooklet
	if len(s.Bank.Cases) == 0 {
		return nil
	}
	return append(pages, Page{Path: bookletsPage, Template: "booklets", Data: index})
}

// bankBooklets are the booklets that bank.yaml chooses; where it chooses none,
// one of every case, if they are not too many.
func (s *Site) bankBooklets() []bookletPlan {
	of := Link{Text: s.words().say("booklets"), Path: bookletsPage}
	edition := s.Bank.Settings.Edition.Value
	chosen := s.Bank.Settings.Booklets
	if n := len(s.Bank.Cases); len(chosen) == 0 && n > 0 && n <= mostInBooklet {
		return []bookletPlan{{stem: "booklets/all", title: s.words().say("booklet-all"), edition: edition, of: of, cases: s.Bank.Cases}}
	}
	var plans []bookletPlan
	for i := range chosen {
		b := &chosen[i]
		if cases := s.casesIn(b); len(cases) > 0 {
			plans = append(plans, bookletPlan{
				stem: "booklets/" + fileStem(b.ID.Value), title: b.Title.Value, edition: edition, of: of, cases: cases,
			})
		}
	}
	return plans
}

// casesIn lists the cases of a booklet: those it names, in its own order, then
// those that its lists of terms choose; all where it has no list. Cases that are
// not released are in none.
func (s *Site) casesIn(b *content.Booklet) []*content.Case {
	var list []*content.Case
	add := func(cases ...*content.Case) {
		for _, c := range cases {
			if !slices.Contains(list, c) {
				list = append(list, c)
			}
		}
	}
	if len(b.Cases)+len(b.Steps)+len(b.Complications)+len(b.Techniques) == 0 {
		return s.Bank.Cases
	}
	for _, id := range b.Cases {
		if c, ok := s.Bank.Case(id.Value); ok {
			add(c)
		}
	}
	for _, id := range known(b.Steps) {
		add(casesOf(s.met.onsets[id], s.met.inStep[id])...)
	}
	for _, id := range known(b.Complications) {
		add(casesOf(s.met.events[id])...)
		add(s.met.later[id]...)
	}
	for _, id := range known(b.Techniques) {
		add(s.met.techniques[id]...)
	}
	return list
}

// courseBooklets are the booklets of the courses: the cases that their stations
// have read before, in the stations' order.
func (s *Site) courseBooklets() []bookletPlan {
	var plans []bookletPlan
	for _, c := range s.Bank.Courses {
		if p := s.courseBooklet(c); len(p.cases) > 0 {
			plans = append(plans, p)
		}
	}
	return plans
}

// courseBooklet is the booklet of one course; a course that names no case has
// none, which its empty list of cases tells.
func (s *Site) courseBooklet(c *content.Course) bookletPlan {
	title := c.Title.Or(c.ID.Value)
	p := bookletPlan{
		stem: "courses/" + fileStem(c.ID.Value) + "/booklet", title: s.words().say("booklet-of-course") + ": " + title,
		edition: c.Edition.Or(s.Bank.Settings.Edition.Value), of: Link{Text: title, Path: coursePath(c.ID.Value)},
		cautions: known(c.Cautions),
	}
	for _, st := range c.Stations {
		for _, id := range st.Cases {
			if found, ok := s.Bank.Case(id.Value); ok && !slices.Contains(p.cases, found) {
				p.cases = append(p.cases, found)
			}
		}
	}
	return p
}

// booklet makes both copies of a booklet.
func (s *Site) booklet(p bookletPlan) []Page {
	w := s.words()
	participants := s.bookletCopy(p, w.say("booklet-participants"), w.say("booklet-for-write"))
	tutors := s.bookletCopy(p, w.say("booklet-tutors"), w.say("booklet-for-tutors"))
	for _, c := range p.cases {
		participants.Contents = append(participants.Contents, s.exerciseEntry(c))
		participants.Exercises = append(participants.Exercises, s.exercise(c))
		tutors.Contents = append(tutors.Contents, s.tutorEntry(c))
		tutors.Answered = append(tutors.Answered, s.tutorCase(c, p))
	}
	return []Page{
		{Path: p.participants(), Template: "booklet-participants", Data: participants},
		{Path: p.tutors(), Template: "booklet-tutors", Data: tutors},
	}
}

// bookletCopy is one copy with its cover.
func (s *Site) bookletCopy(p bookletPlan, name, use string) *BookletPage {
	w := s.words()
	h := s.headingBelow(casesPage, w.say("booklet-name", p.title, name))
	if p.of.Path != bookletsPage {
		h = s.headingBelow(coursesPage, h.Title)
	}
	h.Trail = append(h.Trail, p.of)
	b := &BookletPage{Heading: h, Name: p.title, Copy: name, Edition: p.edition, Use: use, Counts: w.bookletCounts(p.cases)}
	b.Summary = use
	b.Cautions = append(b.Cautions, p.cautions...)
	for _, c := range known(s.Bank.Settings.Cautions) {
		if !slices.Contains(b.Cautions, c) {
			b.Cautions = append(b.Cautions, c)
		}
	}
	return b
}

// bookletCounts says how many cases and decision points a booklet has.
func (w *words) bookletCounts(cases []*content.Case) string {
	points := 0
	for _, c := range cases {
		points += len(c.Decisions())
	}
	return w.say("booklet-cases", len(cases), points)
}

// points says how many decision points a case has.
func (w *words) points(c *content.Case) string {
	n := len(c.Decisions())
	if n == 0 {
		return w.say("booklet-no-points")
	}
	return w.say("booklet-points", n)
}

// bookletID begins every id of a case in a booklet.
func bookletID(c *content.Case) string { return "c-" + fileStem(c.ID.Value) }
