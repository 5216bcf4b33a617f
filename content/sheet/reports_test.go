package sheet

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/content/diagnose"
)

const reports = "../../testdata/field-reports/"

// open reads a report as package front hands it on: line ends settled.
func open(t *testing.T, name string) (*Reader, *diagnose.Bag) {
	t.Helper()
	bag := diagnose.NewBag()
	return NewReader(diagnose.NewSource(name, bytes.ReplaceAll(readReport(t, name), []byte("\r\n"), []byte("\n"))), bag), bag
}

func column(t *testing.T, r *Reader, name string) int {
	t.Helper()
	for i, c := range r.Head() {
		if strings.EqualFold(c.Name, name) {
			return i
		}
	}
	t.Fatalf("no column %q in %v", name, r.Head())
	return -1
}

// lines gives messages in short: severity, place, code.
func lines(ds diagnose.Diagnostics) []string {
	var out []string
	for _, d := range ds {
		out = append(out, fmt.Sprintf("%s %d:%d %s", d.Severity, d.Span.Line(), d.Span.Column(), d.Code))
	}
	return out
}

// TestEmptyMonth reads FR-27: empty cells are there and empty, CF and HM are
// whole, dates come out as quarters only.
func TestEmptyMonth(t *testing.T) {
	table, bag := open(t, "fr-27-empty-month.csv")
	var got []string
	for row, more := table.Next(); more; row, more = table.Next() {
		quarter, err := Quarter(row.Cell(column(t, table, "date")))
		if err != nil {
			t.Error(err)
		}
		for i := range row.Len() {
			if words := Damage(row.Cell(i)); words != "" && i > 0 {
				t.Errorf("line %d: %s", row.Line(), words)
			}
		}
		got = append(got, fmt.Sprint(row.Line(), " ", quarter, " ", row.Cell(column(t, table, "minutes")), " ", row.Cell(column(t, table, "acuity_after"))))
	}
	want := []string{"2 2026-Q1 22 6/6", "3 2026-Q1 25 6/9", "4 2026-Q1  6/6", "5 2026-Q2 30 HM"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("rows (-want +got):\n%s", diff)
	}
	if ds := bag.Sorted(); len(ds) > 0 {
		t.Errorf("messages: %v", lines(ds))
	}
}

// TestEuropean reads FR-28: separator, decimal comma, day first, line breaks in
// cells, and lines of the file. The one note says what was found out.
func TestEuropean(t *testing.T) {
	want := []string{
		`22.5 12.75 2026-Q1 6/6 "chop; then peel"`,
		`19 8.1 2026-Q1 6/9 "said \"easy\""`,
		`31.25 - 2026-Q1 6/12 "two\nlines"`,
	}
	for name, first := range map[string]int{"with-sep.csv": 3, "quoted-head.csv": 2} {
		table, bag := open(t, "fr-28-european/"+name)
		var got []string
		line := first
		for row, more := table.Next(); more; row, more = table.Next() {
			if row.Line() != line {
				t.Errorf("%s: row begins on line %d, want %d", name, row.Line(), line)
			}
			line++
			got = append(got, european(t, table, row))
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: rows (-want +got):\n%s", name, diff)
		}
		ds := bag.Sorted()
		if len(ds) != 1 || ds[0].Severity != diagnose.Note || !strings.Contains(ds[0].Message, "separator ;") || ds[0].Span.Line() != first-1 {
			t.Errorf("%s: messages %v, want one note", name, lines(ds))
		}
	}
}

func european(t *testing.T, table *Reader, row Row) string {
	t.Helper()
	number := func(name string, read func(string) (float64, error)) string {
		cell := row.Cell(column(t, table, name))
		if cell == "" {
			return "-"
		}
		value, err := read(cell)
		if err != nil {
			t.Error(err)
		}
		return fmt.Sprint(value)
	}
	quarter, err := Quarter(row.Cell(column(t, table, "date")))
	if err != nil {
		t.Error(err)
	}
	return fmt.Sprintf("%s %s %s %s %q", number("minutes", table.Minutes), number("power", table.Number), quarter,
		row.Cell(column(t, table, "after")), row.Cell(column(t, table, "notes")))
}

// TestSemicolonsInANote reads the third file of FR-28.
func TestSemicolonsInANote(t *testing.T) {
	table, bag := open(t, "fr-28-european/comma-with-one-semicolon.csv")
	var got []string
	for row, more := table.Next(); more; row, more = table.Next() {
		got = append(got, row.Cell(2))
	}
	if diff := cmp.Diff([]string{"chop; then peel; then wash", "fine"}, got); diff != "" {
		t.Errorf("notes (-want +got):\n%s", diff)
	}
	if ds := bag.Sorted(); len(ds) > 0 || table.Separator() != ',' {
		t.Errorf("separator %q, messages %v", table.Separator(), lines(ds))
	}
}

// TestSpreadsheetDamage reads FR-29: one finding a damaged cell, with its line
// and column; tricks are read and warned of.
func TestSpreadsheetDamage(t *testing.T) {
	table, bag := open(t, "fr-29-spreadsheet-damage.csv")
	var got []string
	whole, tricks := 0, ""
	for row, more := table.Next(); more; row, more = table.Next() {
		good := true
		for i, c := range table.Head() {
			words := ""
			switch c.Name {
			case "notes":
				continue
			case "date":
				if _, err := Quarter(row.Cell(i)); err != nil {
					words = err.Error()
				}
			case "minutes":
				if _, err := table.Minutes(row.Cell(i)); err != nil {
					words = err.Error()
				}
			default:
				words = Damage(row.Cell(i))
			}
			if words == "" {
				continue
			}
			good = false
			kind := "error"
			for _, word := range []string{"number", "date", "too narrow"} {
				if strings.Contains(words, "turned this into a "+word) || word == "too narrow" && strings.Contains(words, word) {
					kind = word
				}
			}
			if strings.Contains(words, "turned this date into a number") {
				kind = "number"
			}
			got = append(got, fmt.Sprintf("%d:%d %s %s %s", row.Line(), row.Span(i).Column(), c.Name, row.Cell(i), kind))
		}
		if good {
			whole++
		}
		if row.Line() == 6 {
			tricks = row.Cell(4) + " " + row.Cell(5)
		}
		if row.Line() == 5 {
			if minutes, err := table.Minutes(row.Cell(3)); err != nil || minutes != 24 {
				t.Errorf("00:24:00 is %v minutes, %v", minutes, err)
			}
		}
	}
	want := []string{
		"2:30 acuity_before Jun-24 date", "2:37 acuity_after 06-Dec date",
		"3:1 date 46086 number", "3:25 acuity_before 06/06/2026 date", "3:36 acuity_after 10-Dec date",
		"4:12 case 1.2E+05 number", "5:35 acuity_after ######## too narrow", "7:27 minutes #DIV/0! error",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("damage (-want +got):\n%s", diff)
	}
	if tricks != "6/18 6/6" || whole != 1 {
		t.Errorf("tricks read as %q, %d whole rows; want 6/18 6/6 and 1", tricks, whole)
	}
	if diff := cmp.Diff([]string{"warning 6:30 spreadsheet-text", "warning 6:38 spreadsheet-text"}, lines(bag.Sorted())); diff != "" {
		t.Errorf("messages (-want +got):\n%s", diff)
	}
}

// TestFormulas reads FR-30, writes it, and reads what was written: the same
// notes and numbers, and no cell that a spreadsheet would run.
func TestFormulas(t *testing.T) {
	table, bag := open(t, "fr-30-formulas.csv")
	read := func(table *Reader) [][]string {
		var rows [][]string
		for row, more := table.Next(); more; row, more = table.Next() {
			var cells []string
			for i := range row.Len() {
				cells = append(cells, strings.Clone(row.Cell(i)))
			}
			rows = append(rows, cells)
		}
		return rows
	}
	rows := read(table)
	var targets, notes []string
	for _, cells := range rows {
		value, err := table.Number(cells[4])
		if err != nil {
			targets = append(targets, "error")
		} else {
			targets = append(targets, fmt.Sprintf("%.2f", value))
		}
		notes = append(notes, cells[6])
	}
	if diff := cmp.Diff([]string{"-0.50", "0.25", "-1.00", "0.00", "error", "0.00"}, targets); diff != "" {
		t.Errorf("targets (-want +got):\n%s", diff)
	}
	wantNotes := []string{`=HYPERLINK("https://example.org","click")`, "@trainer please look", "-- see film", `=cmd|'/c calc'!A1`, "\ttab first", "-2+3"}
	if diff := cmp.Diff(wantNotes, notes); diff != "" {
		t.Errorf("notes (-want +got):\n%s", diff)
	}
	if ds := bag.Sorted(); len(ds) > 0 {
		t.Errorf("messages: %v", lines(ds))
	}
	comma := NewReader(diagnose.NewSource("x.csv", []byte("a\n")), diagnose.NewBag(), Options{Separator: ',', DecimalComma: true})
	if value, err := comma.Number("-0,75"); err != nil || value != -0.75 {
		t.Errorf("with the decimal comma set -0,75 is %v, %v", value, err)
	}

	var out bytes.Buffer
	w := NewWriter(&out)
	head := []string{"date", "case", "role", "minutes", "target", "complication", "notes"}
	for _, cells := range append([][]string{head}, rows...) {
		if err := w.Write(cells...); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	again := NewReader(diagnose.NewSource("again.csv", out.Bytes()), diagnose.NewBag())
	if diff := cmp.Diff(rows, read(again)); diff != "" {
		t.Errorf("written and read again (-want +got):\n%s", diff)
	}
	for _, line := range strings.Split(out.String(), "\n")[1:] {
		for _, cell := range strings.Split(line, ",") {
			cell = strings.TrimPrefix(cell, `"`)
			if cell != "" && strings.ContainsAny(cell[:1], "=@\t") || strings.HasPrefix(cell, "-2+") || strings.HasPrefix(cell, "--") {
				t.Errorf("a spreadsheet would run %q", cell)
			}
		}
	}
	if !strings.Contains(out.String(), ",-0.50,") {
		t.Error("an honest negative number was changed")
	}
}

func readReport(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(reports + name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
