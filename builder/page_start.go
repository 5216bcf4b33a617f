package builder

// StartPage is what pages/start.tmpl lays out: where to begin and what is in
// this edition.
type StartPage struct {
	Heading
	Doors    []Door
	Contents []CaseLine // nil where the cases are too many for a page that every visit begins with
	Ways     []Link     // into the list of cases, where Contents is nil
	Counts   []Count
	Cautions []string
	Rate     *RateFigure // nil where no rate can be drawn
	Rates    *Link       // to all of them
}

// Door is one way into the handout.
type Door struct {
	Link Link
	Text string
}

// Count is one figure of what is in the edition.
type Count struct {
	N    string
	Text string // with the word in the right number, without the figure
}

// StratumLine is one risk stratum of the logbook.
type StratumLine struct{ Label, Definition string }

// planStart makes the first page, which lists the cases unless they are many.
func planStart(s *Site) []Page { return s.startPages(onOnePage) }

func (s *Site) startPages(most int) []Page {
	w, m, settings := s.words(), s.met, s.Bank.Settings
	h := s.heading(startPage, settings.Title.Value)
	h.Trail = nil
	h.Summary = settings.Notice.Value
	h.Protocol = true
	p := &StartPage{Heading: h, Cautions: known(settings.Cautions)}
	p.Doors = []Door{
		{Link{Text: w.say("door-step"), Path: stepsPage}, w.say("door-step-text")},
		{Link{Text: w.say("door-case"), Path: casesPage}, w.say("door-case-text")},
		{Link{Text: w.say("door-complication"), Path: complicationsPage}, w.say("door-complication-text")},
		{Link{Text: w.say("door-decision"), Path: decisionsPage}, w.say("door-decision-text")},
	}
	if course, ok := s.Bank.Course(s.Options.Course); ok {
		first := Door{Link{Text: course.Title.Or(course.ID.Value), Path: coursePath(course.ID.Value)}, w.say("door-course-text")}
		p.Doors = append([]Door{first}, p.Doors...)
	}
	if s.Options.Since != nil {
		p.Doors = append(p.Doors, Door{Link{Text: w.say("since"), Path: sincePage}, w.say("since-door")})
	}
	if len(s.Bank.Cases) <= most {
		p.Contents = s.caseLines(m, s.Bank.Cases)
	} else {
		p.Ways = s.waysToCases(m)
	}
	p.Counts = s.counts(m)
	p.Rate, p.Rates = s.rates().startFigure()
	return []Page{{Path: startPage, Template: "start", Data: p}}
}

// waysToCases leads to each way in which the page of cases sorts them.
func (s *Site) waysToCases(m *met) []Link {
	w := s.words()
	ways := []Link{{Text: w.say("all-cases"), Path: casesPage, Note: w.say("draw-n-cases", len(s.Bank.Cases))}}
	for _, g := range s.caseGroups(m) {
		if len(g.Sets) > 0 {
			ways = append(ways, Link{Text: g.Title, Path: casesPage + "#page-" + g.ID})
		}
	}
	return ways
}

// counts is what the edition holds.
func (s *Site) counts(m *met) []Count {
	w := s.words()
	events := 0
	for _, list := range m.events {
		events += len(list)
	}
	var counts []Count
	for _, c := range []struct {
		n   int
		key string
	}{
		{len(s.Bank.Cases), "count-cases"}, {events, "count-events"}, {len(s.Bank.Decisions), "count-decisions"},
		{len(s.Bank.Courses), "count-courses"}, {s.Bank.Logbook.Len(), "count-operations"},
	} {
		if c.n > 0 {
			counts = append(counts, Count{w.number(c.n), w.say(c.key, c.n)})
		}
	}
	return counts
}
