// Package calendar writes the day of a group or a tutor as iCalendar (RFC 5545),
// for the calendar of a phone.
//
// Enter: a [Calendar]: a date for each entry, times of day, and a time zone or none.
// Leave: the bytes of an .ics file, the same for the same calendar.
//
// Without a zone the times float: 08:30 is 08:30 wherever the phone is, which is
// what a room with a clock on its wall wants. With a zone each time is worked out
// by that zone's rules for its own date and written in UTC, so that an entry
// stands at the right moment for readers elsewhere, on either side of a change to
// or from summer time, and no reader needs to know the zone.
//
// No entry takes its date from anywhere but the caller, and the time stamp that
// the format asks for is the entry's own date: nothing here looks at a clock.
package calendar

import (
	"crypto/sha256"
	"fmt"
	"time"

	ics "github.com/arran4/golang-ical"
)

// Date is a day of the calendar.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// ParseDate reads 2027-03-28.
func ParseDate(text string) (Date, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return Date{}, fmt.Errorf("%q is no date such as 2027-03-28", text)
	}
	return Date{t.Year(), t.Month(), t.Day()}, nil
}

// String writes 2027-03-28.
func (d Date) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// Basic writes 20270328, as the format does.
func (d Date) Basic() string { return fmt.Sprintf("%04d%02d%02d", d.Year, d.Month, d.Day) }

// Calendar is a list of entries under one name.
type Calendar struct {
	ID      string // what sets its entries apart from those of every other calendar
	Name    string
	Zone    *time.Location // nil lets the times float
	Entries []Entry
}

// Entry is one part of a day. From and To are minutes after midnight.
type Entry struct {
	Date     Date
	From, To int
	Title    string
	Room     string
	Text     string
}

// Write gives the calendar as a file. It fails for a time that its zone skips on
// that date, as clocks do when summer time begins.
func Write(c Calendar) ([]byte, error) {
	out := ics.NewCalendarFor("caseleaf")
	out.SetMethod(ics.MethodPublish)
	out.SetName(c.Name)
	out.SetXWRCalName(c.Name) // the name before RFC 7986, which more phones read
	for i, e := range c.Entries {
		from, err := c.moment(e.Date, e.From)
		if err != nil {
			return nil, err
		}
		to, err := c.moment(e.Date, e.To)
		if err != nil {
			return nil, err
		}
		v := out.AddEvent(uid(c.ID, i, e))
		v.SetProperty(ics.ComponentPropertyDtstamp, e.Date.Basic()+"T000000Z")
		v.SetProperty(ics.ComponentPropertyDtStart, from)
		v.SetProperty(ics.ComponentPropertyDtEnd, to)
		v.SetSummary(e.Title)
		if e.Room != "" {
			v.SetLocation(e.Room)
		}
		if e.Text != "" {
			v.SetDescription(e.Text)
		}
	}
	return []byte(out.Serialize(ics.WithNewLine("\r\n"))), nil
}

// moment writes a time of a day: floating, or in UTC.
func (c Calendar) moment(d Date, minute int) (string, error) {
	if c.Zone == nil {
		t := time.Date(d.Year, d.Month, d.Day, 0, minute, 0, 0, time.UTC)
		return t.Format("20060102T150405"), nil
	}
	t := time.Date(d.Year, d.Month, d.Day, minute/60, minute%60, 0, 0, c.Zone)
	if wall := t.Hour()*60 + t.Minute(); wall != minute%(24*60) {
		return "", fmt.Errorf("on %s there is no %02d:%02d in %s: the clocks go forward over it", d, minute/60, minute%60, c.Zone)
	}
	return t.UTC().Format("20060102T150405Z"), nil
}

// uid is the same for the same entry, so that a calendar that is read in again
// takes the place of the one before.
func uid(id string, i int, e Entry) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\x00%d\x00%s", id, i, e.Date))
	letters := make([]byte, 0, 24) // no digits: nothing here is anybody's number
	for _, b := range sum[:12] {
		letters = append(letters, 'a'+b>>4, 'a'+b&15)
	}
	return "caseleaf-" + string(letters)
}
