package builder

import (
	"bytes"
	"encoding/csv"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/net/html"

	"caseleaf/casebank"
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
func labBank(t *testing.T, course string) *content.Bank {
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

// Calendars are written only with a date, one for each group of each wave and
// each tutor; the date stands in them and nowhere else; the same build gives
// the same bytes; and the last look at the files lets them pass.
func TestCalendars(t *testing.T) {
	bank := labBank(t, twoWaves)
	date, err := ParseCourseDate("lab=2027-03-27,2027-03-28@Europe/London")
	if err != nil {
		t.Fatal(err)
	}
	read := func(dates ...CourseDate) map[string]string {
		out := filepath.Join(t.TempDir(), "handout")
		if _, err := Build(bank, Options{Out: out, CourseDates: dates}); err != nil {
			t.Fatal(err)
		}
		files := map[string]string{}
		err := fs.WalkDir(os.DirFS(out), ".", func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			data, err := os.ReadFile(filepath.Join(out, filepath.FromSlash(name)))
			files[name] = string(data)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		return files
	}
	var names []string
	dated := read(date)
	for name, text := range dated {
		if strings.HasSuffix(name, ".ics") {
			names = append(names, filepath.Base(name))
		} else if strings.Contains(text, "2027") && name != "manifest.json" {
			t.Errorf("%s holds the year of the date", name)
		}
	}
	if len(names) != 5 || dated["courses/lab/tutor-wounds.ics"] == "" {
		t.Errorf("calendars: %v", names)
	}
	// 09:00 in London is 09:00 UTC on 27 March 2027 and 08:00 on the 28th, when
	// summer time begins (rules from memory).
	for name, want := range map[string]string{"wave-1-group-a": "DTSTART:20270327T090000Z", "wave-2-group-a": "DTSTART:20270328T080000Z"} {
		if !strings.Contains(dated["courses/lab/"+name+".ics"], want) {
			t.Errorf("%s has no %s", name, want)
		}
	}
	if diff := cmp.Diff(dated, read(date)); diff != "" {
		t.Errorf("not the same twice:\n%s", diff)
	}
	for name := range read() {
		if strings.HasSuffix(name, ".ics") {
			t.Errorf("%s was written without a date", name)
		}
	}
}

// Only the moments of the dates that were told are excused from the last look.
func TestOnlyCourseDatesAreExcused(t *testing.T) {
	date, err := ParseCourseDate("lab=2027-03-28")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		line  string
		taken bool
	}{
		{"DTSTART:20270328T083000", true}, {"DTEND:20270328T083000Z", true}, {"DTSTAMP:20270328T000000Z", true},
		{"DTSTART:20270327T233000Z", true}, // the day before, in UTC
		{"DTSTART:20270326T083000", false}, {"DTSTART:20270328", false}, {"SUMMARY:20270328T083000", false}, {"DESCRIPTION:operated 28.03.2027", false},
	} {
		got := withoutCourseDates([]byte("BEGIN:VEVENT\r\n"+c.line+"\r\nEND:VEVENT\r\n"), []CourseDate{date})
		if _, value, _ := strings.Cut(c.line, ":"); bytes.Contains(got, []byte(value)) == c.taken {
			t.Errorf("%s: got %q", c.line, got)
		}
	}
}

func TestCourseDatesAreChecked(t *testing.T) {
	bank := labBank(t, twoWaves)
	for _, c := range []struct{ date, want string }{
		{"lab=2027-03-27,2027-03-28", ""},
		{"lab=2027-03-27", "needs 2 dates"},
		{"other=2027-03-27", "no course"},
	} {
		d, err := ParseCourseDate(c.date)
		if err != nil {
			t.Fatal(err)
		}
		err = CheckCourseDates(bank, []CourseDate{d})
		if got := err != nil; got != (c.want != "") || got && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %q", c.date, err, c.want)
		}
	}
	for _, bad := range []string{"", "lab", "=2027-03-28", "lab=28.3.2027", "lab=2027-02-30", "lab=2027-03-28@", "lab=2027-03-28@Local", "lab=2027-03-28@Moon"} {
		if _, err := ParseCourseDate(bad); err == nil {
			t.Errorf("%q was taken", bad)
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

// Planning the demonstration course, rotation and all, from nothing.
func BenchmarkPlanCourse(b *testing.B) {
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		solutions.Lock()
		clear(solutions.of)
		solutions.Unlock()
		if p := planCourse(bank.Courses[0]); p.err != nil {
			b.Fatal(p.err)
		}
	}
}
