package builder

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"caseleaf/content"
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
		{"other=2027-03-27", "there is no course other; the bank has"},
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

// A case that is held back is in no calendar either: neither as what a group
// reads before a station nor as what its tutor does.
func TestCalendarsHoldBack(t *testing.T) {
	files := fstest.MapFS{
		"bank.yaml":        {Data: []byte("title: Bank\ninvented: yes\ncautions: [Follow your local protocol.]\n")},
		"courses/lab.yaml": {Data: []byte(strings.Replace(strings.Replace(twoWaves, "waves: 2\n", "", 1), "minutes: 20}", "minutes: 20, tutor: fellow, cases: [AB-1, AB-2]}", 1))},
	}
	for id, release := range map[string]string{
		"AB-1": "release: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n", "AB-2": "",
	} {
		files["cases/"+strings.ToLower(id)+".md"] = &fstest.MapFile{Data: []byte("---\ncase: " + id + "\ntitle: A case\nprocedure: phacoemulsification\n" +
			"technique: divide-and-conquer\ntimeline: [{at: 0:10, step: paracentesis}]\n" + release + "---\nA plain story.\n")}
	}
	bank, found, err := content.Read(files)
	if err != nil || found.Failed() {
		t.Fatal(err, found)
	}
	date, err := ParseCourseDate("lab=2027-03-28")
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "handout")
	if _, err := Build(bank, Options{Out: out, BankFiles: files, CourseDates: []CourseDate{date}}); err != nil {
		t.Fatal(err)
	}
	names, err := filepath.Glob(filepath.Join(out, "courses", "lab", "*.ics"))
	if err != nil || len(names) != 4 { // two groups, two tutors
		t.Fatalf("calendars: %v %v", names, err)
	}
	told := 0
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if told += strings.Count(string(data), "AB-1"); strings.Contains(string(data), "AB-2") {
			t.Errorf("%s names the case that is held back", filepath.Base(name))
		}
	}
	if told != 4 { // each group once, its tutor for each group
		t.Errorf("the released case is named %d times", told)
	}
}
