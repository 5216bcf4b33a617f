package builder

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

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
