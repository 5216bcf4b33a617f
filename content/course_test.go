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
