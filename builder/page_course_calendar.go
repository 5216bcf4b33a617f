package builder

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"
	_ "time/tzdata" // a computer without zone data must not lose the calendars

	"caseleaf/builder/calendar"
	"caseleaf/builder/rotation"
	"caseleaf/content"
)

// CourseDate is when a course is held, as its organiser tells a build. It is
// written into the calendars of that course and nowhere else.
type CourseDate struct {
	Course string
	Dates  []calendar.Date // one, or one for each wave
	Zone   *time.Location  // nil lets the times float
}

// ParseCourseDate reads COURSE=DATE, with further dates after commas where each
// wave has its own, and a time zone after an @ sign:
//
//	wet-lab=2027-03-28
//	wet-lab=2027-03-28,2027-04-04@Europe/London
func ParseCourseDate(text string) (CourseDate, error) {
	course, rest, ok := strings.Cut(text, "=")
	if !ok || course == "" {
		return CourseDate{}, fmt.Errorf("%q is no course with its date: write COURSE=2027-03-28", text)
	}
	d := CourseDate{Course: course}
	dates, zone, zoned := strings.Cut(rest, "@")
	for _, one := range strings.Split(dates, ",") {
		date, err := calendar.ParseDate(strings.TrimSpace(one))
		if err != nil {
			return CourseDate{}, err
		}
		d.Dates = append(d.Dates, date)
	}
	if zoned {
		z, err := time.LoadLocation(zone)
		if err != nil || zone == "" || zone == "Local" {
			return CourseDate{}, fmt.Errorf("%q is no time zone such as Europe/London", zone)
		}
		d.Zone = z
	}
	return d, nil
}

// CheckCourseDates holds dates to the courses of a bank: each names one, once,
// and has a date for each of its waves, or one where all are on one day.
func CheckCourseDates(bank *content.Bank, dates []CourseDate) error {
	var errs []error
	seen := map[string]bool{}
	for _, d := range dates {
		at := slices.IndexFunc(bank.Courses, func(c *content.Course) bool { return c.ID.Value == d.Course })
		switch {
		case at < 0:
			errs = append(errs, noCourse(bank, d.Course))
			continue
		case seen[d.Course]:
			errs = append(errs, fmt.Errorf("course %q is given a date twice; dates of several waves are parted by commas", d.Course))
		}
		seen[d.Course] = true
		c := bank.Courses[at]
		want := c.WaveCount()
		if len(c.WaveStarts) > 0 {
			want = 1
		}
		if len(d.Dates) != want {
			errs = append(errs, fmt.Errorf("course %q needs %d dates, one for each wave, and got %d", d.Course, want, len(d.Dates)))
			continue
		}
		if _, err := planCourse(c).calendars(d, wordsIn(bank.Settings.Language.Or("en")), nil, make([][]string, len(c.Stations))); err != nil {
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}

// calendarFile is one calendar of a course.
type calendarFile struct {
	name  string // of the file
	title string
	data  []byte
}

// calendars writes the calendars of a course for which the build has a date,
// and links to them.
func (v *courseView) calendars() []Link {
	at := slices.IndexFunc(v.site.Options.CourseDates, func(d CourseDate) bool { return d.Course == v.c.ID.Value })
	if at < 0 || v.plan.err != nil {
		return nil
	}
	names, _ := v.tutors()
	files, err := v.plan.calendars(v.site.Options.CourseDates[at], v.words, names, v.toRead())
	if err != nil {
		v.site.faults = append(v.site.faults, err)
		return nil
	}
	var links []Link
	for _, f := range files {
		v.site.file(v.folder+f.name, f.data)
		links = append(links, Link{Text: f.title, Path: v.folder + f.name})
	}
	return links
}

// toRead lists for each station the cases to read before it that readers have: a
// case that is held back is nowhere, in a calendar neither.
func (v *courseView) toRead() [][]string {
	list := make([][]string, len(v.c.Stations))
	for s := range v.c.Stations {
		for _, c := range v.casesOf(&v.c.Stations[s]) {
			list[s] = append(list[s], c.ID.Value)
		}
	}
	return list
}

// calendars makes one calendar for each group of each wave, and one for the
// tutor of each station that tutors names. read are the cases to read before
// each station.
func (p *coursePlan) calendars(d CourseDate, w *words, tutors []string, read [][]string) ([]calendarFile, error) {
	var files []calendarFile
	add := func(name, title string, entries []calendar.Entry) error {
		data, err := calendar.Write(calendar.Calendar{
			ID: p.course.ID.Value + " " + name, Name: p.course.Title.Value + ": " + title, Zone: d.Zone, Entries: entries,
		})
		files = append(files, calendarFile{name + ".ics", title, data})
		return err
	}
	var errs []error
	for wave := range p.days {
		for g, party := range p.parties {
			name, title := "group-"+fileStem(party.Name), w.say("course-group", party.Name)
			if len(p.days) > 1 {
				name, title = fmt.Sprintf("wave-%d-%s", wave+1, name), w.list([]string{w.say("course-wave", wave+1), title})
			}
			errs = append(errs, add(name, title, p.entries(d, wave, w, read, func(round int) int { return p.rotation.Waves[wave][g][round] })))
		}
	}
	for s, tutor := range tutors {
		if tutor == "" {
			continue
		}
		var entries []calendar.Entry
		for wave, table := range p.rotation.Waves {
			entries = append(entries, p.entries(d, wave, w, read, func(round int) int {
				if table.At(s, round) == rotation.Rest {
					return rotation.Rest
				}
				return s
			})...)
		}
		errs = append(errs, add("tutor-"+fileStem(p.course.Stations[s].ID.Value), w.say("course-tutor-at", tutor, p.course.Stations[s].Title.Value), entries))
	}
	return files, errors.Join(errs...)
}

// entries are the parts of a wave for somebody who is at station at(round).
func (p *coursePlan) entries(d CourseDate, wave int, w *words, read [][]string, at func(round int) int) []calendar.Entry {
	date := d.Dates[min(wave, len(d.Dates)-1)]
	var list []calendar.Entry
	for _, slot := range p.days[wave] {
		e := calendar.Entry{Date: date, From: slot.From, To: slot.To}
		switch slot.Kind {
		case rotation.Plenary:
			e.Title = p.course.Plenary[slot.Index].Text.Value
		case rotation.Pause:
			e.Title = p.course.Breaks[slot.Index].Text.Or(w.say("course-break"))
		default:
			s := at(slot.Index)
			if s == rotation.Rest {
				e.Title = w.say("course-resting")
				break
			}
			st := &p.course.Stations[s]
			e.Title, e.Room, e.To = st.Title.Value, st.Room.Value, slot.From+st.Minutes.Value
			if len(read[s]) > 0 {
				e.Text = w.say("read-before") + ": " + w.list(read[s])
			}
		}
		list = append(list, e)
	}
	return list
}

// stampedLine is a line of a calendar that holds a moment.
var stampedLine = regexp.MustCompile(`(?m)^(DTSTAMP|DTSTART|DTEND):(\d{8})T\d{6}Z?\r?$`)

// withoutCourseDates takes the moments of a course's dates out of a calendar
// before the last privacy check looks at it. A date finer than a year is a
// finding anywhere else; here it is the organiser's, told on the command line.
// Other dates stay and are found: only the dates given, and the days beside
// them that a time zone can make of them, are taken out.
func withoutCourseDates(data []byte, dates []CourseDate) []byte {
	told := map[string]bool{}
	for _, d := range dates {
		for _, date := range d.Dates {
			for _, shift := range []int{-1, 0, 1} {
				told[time.Date(date.Year, date.Month, date.Day+shift, 0, 0, 0, 0, time.UTC).Format("20060102")] = true
			}
		}
	}
	return stampedLine.ReplaceAllFunc(data, func(line []byte) []byte {
		if m := stampedLine.FindSubmatch(line); told[string(m[2])] {
			return m[1]
		}
		return line
	})
}
