package calendar_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/calendar"
)

// event is what a reader shows of an entry.
type event struct {
	uid, title, room, text string
	from, to               time.Time
	floating               bool
}

// readCalendar is a second reader of RFC 5545, written from its text and apart
// from the library that writes: lines unfolded (3.1), names apart from
// parameters with quoted values (3.1, 3.2), components nested (3.6), texts
// unescaped (3.3.11), moments of form 1 and 2 (3.3.5). It takes nothing that the
// RFC does not allow. Moments in UTC are shown by the clock of a zone.
func readCalendar(data []byte, zone *time.Location) ([]event, error) {
	text := string(data)
	if !strings.HasSuffix(text, "\r\n") || strings.Contains(strings.ReplaceAll(text, "\r\n", ""), "\n") {
		return nil, fmt.Errorf("a line does not end in CRLF")
	}
	text = strings.NewReplacer("\r\n ", "", "\r\n\t", "").Replace(text)
	var open []string
	var list []event
	for line := range strings.SplitSeq(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		name, value, err := property(line)
		if err != nil {
			return nil, err
		}
		switch {
		case name == "BEGIN":
			if open = append(open, value); value == "VEVENT" {
				list = append(list, event{})
			}
		case name == "END":
			if len(open) == 0 || open[len(open)-1] != value {
				return nil, fmt.Errorf("%s ends and had not begun", value)
			}
			open = open[:len(open)-1]
		case slices.Contains(open, "VEVENT"):
			if err := list[len(list)-1].take(name, value, zone); err != nil {
				return nil, err
			}
		}
	}
	if len(open) > 0 {
		return nil, fmt.Errorf("%v is never ended", open)
	}
	return list, nil
}

// property cuts a line at the first colon outside quotes and drops parameters.
func property(line string) (name, value string, err error) {
	quoted, end := false, -1
	for i, r := range line {
		switch {
		case r == '"':
			quoted = !quoted
		case quoted:
		case r == ';' && end < 0:
			end = i
		case r == ':':
			if end < 0 {
				end = i
			}
			return line[:end], line[i+1:], nil
		}
	}
	return "", "", fmt.Errorf("%q is no property", line)
}

func (e *event) take(name, value string, zone *time.Location) (err error) {
	switch name {
	case "UID":
		e.uid = value
	case "SUMMARY":
		e.title, err = unescaped(value)
	case "LOCATION":
		e.room, err = unescaped(value)
	case "DESCRIPTION":
		e.text, err = unescaped(value)
	case "DTSTART":
		e.from, e.floating, err = moment(value, zone)
	case "DTEND":
		e.to, e.floating, err = moment(value, zone)
	}
	return err
}

func unescaped(value string) (string, error) {
	var out strings.Builder
	for i := 0; i < len(value); i++ {
		switch {
		case value[i] == ',' || value[i] == ';':
			return "", fmt.Errorf("%q has a bare %c", value, value[i])
		case value[i] != '\\':
			out.WriteByte(value[i])
			continue
		case i+1 == len(value):
			return "", fmt.Errorf("%q ends in a backslash", value)
		}
		i++
		switch value[i] {
		case '\\', ',', ';':
			out.WriteByte(value[i])
		case 'n', 'N':
			out.WriteByte('\n')
		default:
			return "", fmt.Errorf("%q escapes %c", value, value[i])
		}
	}
	return out.String(), nil
}

func moment(value string, zone *time.Location) (at time.Time, floating bool, err error) {
	if utc, ok := strings.CutSuffix(value, "Z"); ok {
		at, err = time.Parse("20060102T150405", utc)
		return at.In(zone), false, err
	}
	at, err = time.ParseInLocation("20060102T150405", value, zone)
	return at, true, err
}

// What a second reader shows by the clock on the wall is what was planned, on
// both sides of the change to summer time on 28 March 2027 in London, and all
// texts come back as they were.
func TestSecondReader(t *testing.T) {
	london := zone(t, "Europe/London")
	for _, floats := range []bool{false, true} {
		c := lab(t, london, "2027-03-27", "2027-03-28", "2027-10-31")
		c.Entries[1].Title = `Back\slash, comma; colon: "quoted" ` + strings.Repeat("é", 60)
		if floats {
			c.Zone = nil
		}
		data, err := calendar.Write(c)
		if err != nil {
			t.Fatal(err)
		}
		events, err := readCalendar(data, london)
		if err != nil {
			t.Fatal(err)
		}
		var got, want []string
		ids := map[string]bool{}
		for _, e := range events {
			got = append(got, strings.Join([]string{e.from.Format("2006-01-02 15:04"), e.to.Format("15:04"), e.title, e.room, e.text}, " | "))
			if ids[e.uid] = true; e.floating != floats {
				t.Errorf("%s: floating %v", e.uid, e.floating)
			}
		}
		for _, e := range c.Entries {
			clock := func(m int) string { return fmt.Sprintf("%02d:%02d", m/60, m%60) }
			want = append(want, strings.Join([]string{e.Date.String() + " " + clock(e.From), clock(e.To), e.Title, e.Room, e.Text}, " | "))
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("floating %v (-planned +read):\n%s", floats, diff)
		}
		if len(ids) != len(c.Entries) {
			t.Errorf("%d ids for %d entries", len(ids), len(c.Entries))
		}
		if !floats {
			if day := events[2].from.Sub(events[0].from); day != 23*time.Hour {
				t.Errorf("from 08:30 on the 27th to 08:30 on the 28th are %v", day)
			}
		}
	}
}
