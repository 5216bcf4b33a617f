package builder

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/net/html"

	"caseleaf/content"
)

// The day of the demonstration course, worked by hand from its file: start
// 08:30, a plenary of 15 min, 5 min to change, rounds as long as the longest
// station (50 min), breaks at 10:40 (15 min) and 12:40 (45 min).
var demoDay = []string{
	"08:30–08:45", "08:50–09:40", "09:45–10:35", "10:40–10:55", "10:55–11:45", "11:50–12:40",
	"12:40–13:25", "13:25–14:15", "14:20–15:10",
}

func TestCourseTimetable(t *testing.T) {
	_, pages := demoPages(t)
	root := pages["courses/wet-lab.html"]
	table := all(root, ".Table--day")
	if len(table) != 1 {
		t.Fatalf("%d timetables", len(table))
	}
	var times []string
	met := map[string]map[int]int{} // group, station
	for _, tr := range all(table[0], "tr")[1:] {
		cells := all(tr, "td")
		times = append(times, textOf(all(tr, "th")[0]))
		if len(cells) == 1 {
			continue // for everyone
		}
		here := strings.Split(textOf(cells[len(cells)-1]), ", ") // who rests
		for s, c := range cells[1 : len(cells)-1] {
			group := textOf(c)
			if met[group] == nil {
				met[group] = map[int]int{}
			}
			met[group][s]++
			here = append(here, group)
		}
		if len(here) != 6 {
			t.Errorf("%s: %d groups are somewhere, want 6: %v", times[len(times)-1], len(here), here)
		}
	}
	if diff := cmp.Diff(demoDay, times); diff != "" {
		t.Errorf("times (-want +got)\n%s", diff)
	}
	for _, g := range []string{"A", "B", "C", "D", "E", "F"} {
		for s := range 4 {
			if met[g][s] != 1 {
				t.Errorf("group %s meets station %d %d times", g, s+1, met[g][s])
			}
		}
	}
}

// The cautions come before everything else of a course, and local rules first.
func TestCourseCautionsFirst(t *testing.T) {
	_, pages := demoPages(t)
	for _, p := range []string{"courses/wet-lab.html", "courses/wet-lab/stations.html", "courses/wet-lab/tutors.html"} {
		text := textOf(all(pages[p], "main")[0])
		local, sharps := strings.Index(text, "Local rules and licensed practice come first."), strings.Index(text, "Sharps:")
		kit := strings.Index(text, "Setting up")
		if local < 0 || sharps < local || kit >= 0 && kit < sharps {
			t.Errorf("%s: local rules at %d, sharps at %d, setting up at %d", p, local, sharps, kit)
		}
	}
}

// The reading list asks and does not answer; the tutors' sheets answer.
func TestReadingHasNoAnswers(t *testing.T) {
	site, pages := demoPages(t)
	reading, tutors := textOf(pages["courses/wet-lab/reading.html"]), textOf(pages["courses/wet-lab/tutors.html"])
	questions := 0
	for _, st := range site.Bank.Courses[0].Stations {
		for _, id := range known(st.Cases) {
			c, ok := site.Bank.Case(id)
			if !ok {
				t.Fatalf("no case %s", id)
			}
			for _, e := range c.Decisions() {
				questions++
				if !strings.Contains(reading, squeezed(e.Decision.Question.Value)) {
					t.Errorf("%s: the reading list lacks %q", id, e.Decision.Question.Value)
				}
				because := squeezed(e.Decision.Because.Value)
				if because != "" && (strings.Contains(reading, because) || !strings.Contains(tutors, because)) {
					t.Errorf("%s: %q is on the reading list, or not with the tutors", id, because)
				}
			}
		}
	}
	if questions < 8 {
		t.Errorf("only %d questions", questions)
	}
}

func squeezed(text string) string { return strings.Join(strings.Fields(text), " ") }

// Every group has a card that sends it where the timetable does.
func TestGroupCards(t *testing.T) {
	_, pages := demoPages(t)
	cards := all(pages["courses/wet-lab/groups.html"], ".Day")
	if len(cards) != 6 {
		t.Fatalf("%d cards", len(cards))
	}
	for _, card := range cards {
		stations := 0
		for _, li := range all(card, "li") {
			if !hasClass(li, "Quiet") {
				stations++
			}
		}
		if lines := len(all(card, "li")); lines != len(demoDay) || stations != 4 {
			t.Errorf("%s: %d lines, %d stations", textOf(all(card, "h2")[0]), lines, stations)
		}
	}
}

// labBank is a bank of one course.
func labBank(t testing.TB, course string) *content.Bank {
	t.Helper()
	bank, found, err := content.Read(fstest.MapFS{
		"bank.yaml":        {Data: []byte("title: Bank\nlanguage: en\ninvented: yes\ncautions: [Follow your local protocol.]\n")},
		"courses/lab.yaml": {Data: []byte(course)},
	})
	if err != nil || found.Failed() {
		var out bytes.Buffer
		_ = found.WriteText(&out)
		t.Fatalf("%v\n%s", err, out.String())
	}
	return bank
}

const twoWaves = `course: lab
title: Lab
start: "09:00"
waves: 2
groups: [{count: 2, size: 2}]
stations:
  - {id: wounds, title: "=Wounds", minutes: 30, tutor: fellow, kit: [{item: chopper, count: 1, note: "-1 spare"}]}
  - {id: capsule, title: Capsule, minutes: 20}
`

// A table that a spreadsheet opens runs nothing.
func TestTablesHoldNoFormula(t *testing.T) {
	site := Plan(labBank(t, twoWaves), Options{})
	rows, err := csv.NewReader(bytes.NewReader(site.files["courses/lab/bench.csv"])).ReadAll()
	if err != nil || len(rows) != 2 {
		t.Fatalf("%v, %d rows", err, len(rows))
	}
	for _, cell := range rows[1] {
		if strings.HasPrefix(cell, "=") || strings.HasPrefix(cell, "-") {
			t.Errorf("%q is a formula", cell)
		}
	}
}

// A course that cannot be still has its pages, and says what it lacks.
func TestCourseWithoutRotation(t *testing.T) {
	bank := labBank(t, strings.Replace(twoWaves, "waves: 2\n", "forbidden: [{group: A, station: wounds}]\n", 1))
	if found := CourseFindings(bank); !found.Failed() {
		t.Error("the conflict is not told")
	}
	site := Plan(bank, Options{})
	render, err := newRenderer(site.theme(), site.Masthead)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range site.Pages {
		data, err := render.render(p)
		if err != nil {
			t.Fatal(err)
		}
		root, err := html.Parse(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		if p.Path == "courses/lab.html" && !strings.Contains(textOf(root), "There is no timetable") {
			t.Error("the page does not say that there is no timetable")
		}
		if strings.HasSuffix(p.Path, groupsSheet) {
			t.Errorf("%s: cards for no rotation", p.Path)
		}
	}
}
