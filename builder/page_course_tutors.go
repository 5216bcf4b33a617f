package builder

import (
	"slices"

	"caseleaf/content"
)

// CourseTutorsPage is what pages/course-tutors.tmpl lays out: for each station
// its tutor, who comes when, what to look for, and the answers to the questions
// of its cases.
type CourseTutorsPage struct {
	Heading
	Cautions []string
	Free     string // tutors without a station
	Stations []TutorSheet
}

// TutorSheet is one station for its tutor.
type TutorSheet struct {
	ID      string
	Title   string
	Tutor   string
	Turns   []string
	Minutes string // of the station, and of the round
	Setup   []string
	ClearUp []string
	Checks  []string
	Answers []CaseAnswer
}

// CaseAnswer is a question of a case and what was done.
type CaseAnswer struct {
	Case                      Link
	Question, Chosen, Because string
}

func (v *courseView) tutorsPage() *CourseTutorsPage {
	w := v.words
	p := &CourseTutorsPage{Heading: v.heading(w.say("course-tutors"), w.say("course-tutors-summary")), Cautions: known(v.c.Cautions)}
	names, free := v.tutors()
	p.Free = w.list(free)
	for i := range v.c.Stations {
		st := &v.c.Stations[i]
		t := TutorSheet{
			ID: stationAnchor(st), Title: v.stationName(i), Tutor: names[i], Turns: v.turns(i), Minutes: v.roundMinutes(st),
			Setup: known(st.Setup), ClearUp: known(st.ClearUp), Checks: known(st.Checks),
		}
		for _, c := range v.casesOf(st) {
			t.Answers = append(t.Answers, v.answers(c)...)
		}
		p.Stations = append(p.Stations, t)
	}
	return p
}

// roundMinutes says how long the station takes, and how long it is to the bell.
func (v *courseView) roundMinutes(st *content.Station) string {
	own := st.Minutes.Value
	longest := slices.Max(v.plan.minutes())
	if own == longest {
		return v.words.say("minutes-value", own)
	}
	return v.words.say("course-of-round", own, longest)
}

// tutors names the tutor of each station: tutors of a role are numbered as they
// are given out, from the first station on. Those left over walk round.
func (v *courseView) tutors() (names, free []string) {
	given := map[string]int{}
	for _, st := range v.c.Stations {
		role := st.Tutor.Value
		if role == "" {
			names = append(names, "")
			continue
		}
		given[role]++
		names = append(names, v.words.nth(role, given[role]))
	}
	for _, t := range v.c.Tutors {
		for n := given[t.Role.Value] + 1; n <= t.Count.Or(1); n++ {
			free = append(free, v.words.nth(t.Role.Value, n))
		}
	}
	return names, free
}

// answers are what was chosen at each decision point of a case, and why.
func (v *courseView) answers(c *content.Case) []CaseAnswer {
	var list []CaseAnswer
	for _, e := range c.Decisions() {
		d := e.Decision
		a := CaseAnswer{Case: caseLink(c), Question: d.Question.Value, Chosen: v.words.missing(d.Chosen.State), Because: d.Because.Value}
		for i, o := range d.Options {
			if d.Chosen.Known() && o.ID.Value == d.Chosen.Value {
				a.Chosen = letter(i) + ": " + o.Text.Value
			}
		}
		list = append(list, a)
	}
	return list
}
