package calendar_test

import (
	"bytes"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zones below, wherever the test runs

	ics "github.com/arran4/golang-ical"
	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/calendar"
)

func zone(t *testing.T, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func date(t *testing.T, text string) calendar.Date {
	t.Helper()
	d, err := calendar.ParseDate(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// lab is the same morning on three days in a row.
func lab(t *testing.T, z *time.Location, days ...string) calendar.Calendar {
	c := calendar.Calendar{ID: "lab group A", Name: "Wet lab: group A", Zone: z}
	for _, d := range days {
		c.Entries = append(c.Entries,
			calendar.Entry{Date: date(t, d), From: 8*60 + 30, To: 9*60 + 10, Title: "Wounds, that close; and more", Room: "Skills room"},
			calendar.Entry{Date: date(t, d), From: 9*60 + 15, To: 10 * 60, Title: strings.Repeat("Prüfen ", 20), Text: "Read\nHB-001"})
	}
	return c
}

// starts reads a calendar back by the library's own reader.
func starts(t *testing.T, data []byte) (from, to []string) {
	t.Helper()
	back, err := ics.ParseCalendar(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range back.Events() {
		from = append(from, e.GetProperty(ics.ComponentPropertyDtStart).Value)
		to = append(to, e.GetProperty(ics.ComponentPropertyDtEnd).Value)
	}
	return from, to
}

// Summer time begins in Europe on the last Sunday of March at 01:00 UTC and ends
// on the last Sunday of October: 28 March and 31 October 2027. In New York it
// begins on 14 March 2027 (rules from memory; the zone data agree).
func TestAcrossSummerTime(t *testing.T) {
	for _, c := range []struct {
		zone string
		days []string
		want []string // starts of the first entry of each day
	}{
		{"Europe/London", []string{"2027-03-27", "2027-03-28"}, []string{"20270327T083000Z", "20270328T073000Z"}},
		{"Europe/Berlin", []string{"2027-10-30", "2027-10-31"}, []string{"20271030T063000Z", "20271031T073000Z"}},
		{"America/New_York", []string{"2027-03-13", "2027-03-14"}, []string{"20270313T133000Z", "20270314T123000Z"}},
		{"Asia/Kolkata", []string{"2027-03-27", "2027-03-28"}, []string{"20270327T030000Z", "20270328T030000Z"}},
		{"", []string{"2027-03-27", "2027-03-28"}, []string{"20270327T083000", "20270328T083000"}},
	} {
		var z *time.Location
		if c.zone != "" {
			z = zone(t, c.zone)
		}
		data, err := calendar.Write(lab(t, z, c.days...))
		if err != nil {
			t.Fatal(err)
		}
		from, to := starts(t, data)
		var got []string
		for i := 0; i < len(from); i += 2 {
			got = append(got, from[i])
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s (-want +got)\n%s", c.zone, diff)
		}
		if len(to) != 4 || len(to[0]) != len(from[0]) {
			t.Errorf("%s: ends %q", c.zone, to)
		}
	}
}

// An entry over the change itself lasts as long as its clock times say no more:
// from 00:30 to 03:30 on the night the clocks go forward is two hours.
func TestOverTheChange(t *testing.T) {
	c := calendar.Calendar{ID: "x", Name: "Night", Zone: zone(t, "Europe/London"),
		Entries: []calendar.Entry{{Date: date(t, "2027-03-28"), From: 30, To: 3*60 + 30, Title: "Night"}}}
	data, err := calendar.Write(c)
	if err != nil {
		t.Fatal(err)
	}
	from, to := starts(t, data)
	if from[0] != "20270328T003000Z" || to[0] != "20270328T023000Z" {
		t.Errorf("%s to %s", from[0], to[0])
	}
	c.Entries[0].From = 90 // 01:30 is skipped
	if _, err := calendar.Write(c); err == nil || !strings.Contains(err.Error(), "no 01:30") {
		t.Errorf("got %v", err)
	}
}

// The rules of RFC 5545 that readers stumble over: CRLF, lines of at most 75
// bytes that are never cut inside a character, escaped commas and line ends, a
// time stamp and an id of its own for every entry, and the same bytes again.
func TestForm(t *testing.T) {
	c := lab(t, nil, "2027-03-28")
	data, err := calendar.Write(c)
	if err != nil {
		t.Fatal(err)
	}
	if again, _ := calendar.Write(c); !bytes.Equal(data, again) {
		t.Error("not the same bytes twice")
	}
	text := string(data)
	if strings.Count(text, "\n") != strings.Count(text, "\r\n") || !strings.HasPrefix(text, "BEGIN:VCALENDAR\r\n") || !strings.HasSuffix(text, "END:VCALENDAR\r\n") {
		t.Errorf("line ends or frame are wrong: %q", text)
	}
	for _, line := range strings.Split(text, "\r\n") {
		if len(line) > 75 || strings.ToValidUTF8(line, "?") != line {
			t.Errorf("line of %d bytes: %q", len(line), line)
		}
	}
	unfolded := strings.ReplaceAll(text, "\r\n ", "")
	for _, want := range []string{"VERSION:2.0", "PRODID:", `SUMMARY:Wounds\, that close\; and more`, `DESCRIPTION:Read\nHB-001`, "LOCATION:Skills room", "DTSTAMP:20270328T000000Z"} {
		if !strings.Contains(unfolded, want) {
			t.Errorf("no %q in\n%s", want, unfolded)
		}
	}
	ids := map[string]bool{}
	for _, line := range strings.Split(unfolded, "\r\n") {
		if id, ok := strings.CutPrefix(line, "UID:"); ok {
			ids[id] = true
		}
	}
	if len(ids) != 2 {
		t.Errorf("%d ids for 2 entries", len(ids))
	}
}

func TestParseDate(t *testing.T) {
	for _, bad := range []string{"", "28.3.2027", "2027-02-29", "2027-13-01", "2027-3-1"} {
		if _, err := calendar.ParseDate(bad); err == nil {
			t.Errorf("%q was taken", bad)
		}
	}
	if d := date(t, "2028-02-29"); d.String() != "2028-02-29" || d.Basic() != "20280229" {
		t.Error(d)
	}
}
