package content_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"caseleaf/content"
)

const smallCourse = `course: lab
title: Lab
start: "09:00"
stations:
  - {id: wounds, title: Wounds, minutes: 30}
`

// readCourse reads one course in a bank of its own.
func readCourse(t *testing.T, text string) (*content.Course, []string) {
	t.Helper()
	bank, found, err := content.Read(fstest.MapFS{
		"bank.yaml":        {Data: []byte("title: Bank\nlanguage: en\ninvented: yes\n")},
		"courses/lab.yaml": {Data: []byte(text)},
	})
	if err != nil || len(bank.Courses) != 1 {
		t.Fatalf("%v, %d courses", err, len(bank.Courses))
	}
	var said []string
	for _, d := range found {
		if strings.HasPrefix(d.Span.File(), "courses/") {
			said = append(said, string(d.Code)+": "+d.Message)
		}
	}
	return bank.Courses[0], said
}

func TestLineup(t *testing.T) {
	for _, c := range []struct{ groups, want string }{
		{"[{name: A, size: 2}, {name: B, size: 3}]", "A2 B3"},
		{"[{count: 3, size: 2}]", "A2 B2 C2"},
		{"[{name: B, size: 4}, {count: 2, size: 3}, {count: 1, size: 2}]", "B4 A3 C3 D2"},
		{"[{count: 2, size: 2}, {name: Early, size: 1}]", "A2 B2 Early1"},
	} {
		course, said := readCourse(t, smallCourse+"groups: "+c.groups+"\n")
		var got []string
		for _, p := range course.Lineup() {
			got = append(got, p.Name+string(rune('0'+p.Size)))
		}
		if strings.Join(got, " ") != c.want || len(said) > 0 {
			t.Errorf("%s: got %q, want %q; %q", c.groups, strings.Join(got, " "), c.want, said)
		}
	}
}

// What a course gets wrong is said where it stands; the words are in the golden
// file of package diagnose.
func TestCourseFaults(t *testing.T) {
	for _, c := range []struct {
		name, lines string
		want        []string
	}{
		{"a room not listed", "rooms: [Blue]\ngroups: [{count: 1, size: 1}]\nstations: [{id: a, title: A, minutes: 5, room: Bleu}]\n", []string{"unknown-id"}},
		{"no such tutor", "tutors: [{role: fellow}]\ngroups: [{count: 1, size: 1}]\nstations: [{id: a, title: A, minutes: 5, tutor: felow}]\n", []string{"unknown-id"}},
		{"a group that is two things", "groups: [{name: A, count: 2, size: 1}]\n", []string{"bad-value"}},
		{"a group that is nothing", "groups: [{size: 1}]\n", []string{"missing-key"}},
		{"breaks that overlap", "groups: [{count: 1, size: 1}]\nbreaks: [{at: \"10:00\", minutes: 30}, {at: \"10:20\", minutes: 5}]\n", []string{"time-order"}},
		{"a break too early", "groups: [{count: 1, size: 1}]\nbreaks: [{at: \"08:00\", minutes: 30}]\n", []string{"time-order"}},
		{"waves in the wrong order", "groups: [{count: 1, size: 1}]\nwave_starts: [\"09:00\", \"08:00\"]\n", []string{"time-order"}},
		{"a first wave at another time", "groups: [{count: 1, size: 1}]\nwave_starts: [\"10:00\", \"12:00\"]\n", []string{"course-waves"}},
		{"a placement without a round", "groups: [{count: 2, size: 1}]\nplacements: [{group: A, station: wounds}]\n", []string{"course-placement"}},
		{"a letter that no group has", "groups: [{count: 2, size: 1}]\nforbidden: [{group: C, station: wounds, round: 1}]\n", []string{"unknown-id"}},
		{"a diluent for nothing", kitCourse("strength: 1 %, diluent: balanced-salt-solution"), []string{"course-dilution"}},
		{"a stock for no strength", kitCourse("stock: 1 %, volume: 1 mL"), []string{"course-dilution"}},
		{"no volume", kitCourse("stock: 1 %, strength: 0.1 %"), []string{"course-dilution"}},
		{"units from a weight", kitCourse("stock: 1 %, strength: 15 IU/mL, volume: 1 mL"), []string{"course-dilution"}},
		{"a vial of pieces", kitCourse("vial: 1 mL"), []string{"course-dilution"}},
		{"a volume that is none", kitCourse("volume: 1"), []string{"bad-value"}},
		{"thirteen stations", "groups: [{count: 1, size: 1}]\nstations:\n" + thirteen, []string{"course-size"}},
		{"all as it should be", kitCourse("stock: 1 %, strength: 0.1 %, volume: 1 mL, vial: 2 mL, diluent: balanced-salt-solution, carried: no"), nil},
	} {
		text := smallCourse
		if strings.Contains(c.lines, "stations:") {
			text, _, _ = strings.Cut(text, "stations:")
		}
		_, said := readCourse(t, text+c.lines)
		var codes []string
		for _, s := range said {
			code, _, _ := strings.Cut(s, ":")
			codes = append(codes, code)
		}
		if diff := cmp.Diff(c.want, codes); diff != "" {
			t.Errorf("%s: %q (-want +got)\n%s", c.name, said, diff)
		}
	}
}

// What an organiser typed who had read nothing but an example, and what the
// message then has to say, so that it can be mended without a manual.
func TestFirstTimeCourse(t *testing.T) {
	for _, c := range []struct{ lines, want string }{
		{"groups: 4\n", "put a hyphen and a space before each entry, like this: - {count: 4, size: 3}"},
		{"groups: [3, 3]\n", "expected a group with keys and values, found the text \"3\", like this: {count: 4, size: 3}"},
		{"groups: [{size: 3}]\n", "like this: {name: A, size: 3}; or write {count: 4, size: 3}"},
		{"groups: [{count: 1, size: 1}]\ntutors: 2\n", "like this: - {role: consultant, count: 2}"},
		{"groups: [{count: 1, size: 1}]\nbreaks: 10:30\n", `like this: - {at: "10:30", minutes: 15, text: Coffee}`},
		{"groups: [{count: 1, size: 1}]\nbreaks: [{at: 10:30, minutes: half an hour}]\n", "expected minutes from 1 to 600, such as 40"},
		{"groups: [{count: 1, size: 1}]\nbreaks: [{at: 10:30, minutes: 90 s}]\n", "expected minutes from 1 to 600, such as 40"},
		{"groups: [{count: 1, size: 1}]\nbreaks: [{at: 10:30, minutes: 601}]\n", "expected minutes from 1 to 600, such as 40"},
		{"groups: [{count: 1, size: 1}]\nchangeover: short\n", "expected a duration"},
	} {
		_, said := readCourse(t, smallCourse+c.lines)
		if !strings.Contains(strings.Join(said, "\n"), c.want) {
			t.Errorf("%q: no %q in %q", c.lines, c.want, said)
		}
	}
}

// Times in the day of a course are minutes, with or without the unit.
func TestCourseMinutes(t *testing.T) {
	for text, want := range map[string]int{"5": 5, "5 min": 5, "5 minutes": 5, "0": 0, "1 h": 60} {
		c, said := readCourse(t, smallCourse+"groups: [{count: 1, size: 1}]\nchangeover: "+text+"\n")
		if len(said) > 0 || !c.Changeover.Known() || c.Changeover.Value.Seconds() != want*60 {
			t.Errorf("changeover: %s: got %v, want %d min; %q", text, c.Changeover.Value, want, said)
		}
	}
	for text, want := range map[string]int{"40": 40, "40 min": 40, "40 minutes": 40, "1 h 5 min": 65} {
		c, said := readCourse(t, strings.Replace(smallCourse, "minutes: 30", "minutes: "+text, 1)+"groups: [{count: 1, size: 1}]\n")
		if len(said) > 0 || c.Stations[0].Minutes.Value != want {
			t.Errorf("minutes: %s: got %d, want %d; %q", text, c.Stations[0].Minutes.Value, want, said)
		}
	}
}

// A warning of kit ends with the line that says it is meant so: copied into the
// course, it is the end of the warning.
func TestKitWarningIsItsOwnRemedy(t *testing.T) {
	course := "course: lab\ntitle: Lab\nstart: \"09:00\"\ngroups: [{count: 1, size: 1}]\nstations:\n" +
		"  - {id: a, title: A, minutes: 5, cases: [EX-1, EX-2], kit: [{item: chopper, count: 1}, {item: keratome, count: 1}]}\n"
	warned := func(text string) (remedies, notes []string) {
		_, found, err := content.Read(fstest.MapFS{
			"bank.yaml":        {Data: []byte("title: Bank\nlanguage: en\ninvented: yes\n")},
			"courses/lab.yaml": {Data: []byte(text)},
			"cases/ex-1.md":    {Data: []byte(caseWithKit("EX-1", "iris-hooks", "trypan-blue", "keratome"))},
			"cases/ex-2.md":    {Data: []byte(caseWithKit("EX-2", "wire-vectis"))},
		})
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range found {
			if d.Code != "course-kit" {
				continue
			}
			_, remedy, _ := strings.Cut(d.Message, "meant so, ")
			remedies = append(remedies, remedy)
			for _, r := range d.Related {
				notes = append(notes, r.Message)
			}
		}
		return remedies, notes
	}
	remedies, notes := warned(course)
	if diff := cmp.Diff([]string{"write left_out: [iris-hooks, trypan-blue, wire-vectis]", "write bench_only: [chopper]"}, remedies); diff != "" {
		t.Fatalf("(-want +got)\n%s", diff)
	}
	if diff := cmp.Diff([]string{"EX-1 has iris-hooks, trypan-blue", "EX-2 has wire-vectis"}, notes); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	for _, r := range remedies {
		course += strings.TrimPrefix(r, "write ") + "\n"
	}
	if again, _ := warned(course); len(again) > 0 {
		t.Errorf("with what the warnings said to write: %q", again)
	}
}

func caseWithKit(id string, items ...string) string {
	text := "---\ncase: " + id + "\ntitle: A case\nprocedure: phacoemulsification\ntechnique: divide-and-conquer\nkit:\n"
	for _, item := range items {
		text += "  - {item: " + item + "}\n"
	}
	return text + "timeline:\n  - {at: 0:10, step: main-incision}\n---\nText.\n"
}

var thirteen = func() string {
	var out strings.Builder
	for _, letter := range "abcdefghijklm" {
		fmt.Fprintf(&out, "  - {id: %[1]c, title: Station %[1]c, minutes: 5}\n", letter)
	}
	return out.String()
}()

func kitCourse(line string) string {
	return "groups: [{count: 1, size: 1}]\nstations: [{id: a, title: A, minutes: 5, kit: [{item: lidocaine, count: 1, " + line + "}]}]\n"
}
