package sheet

import (
	"bytes"
	"encoding/csv"
	"io"
	"math/rand"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/content/diagnose"
)

func readAll(text string, options ...Options) (rows [][]string, table *Reader, ds diagnose.Diagnostics) {
	bag := diagnose.NewBag()
	table = NewReader(diagnose.NewSource("t.csv", []byte(text)), bag, options...)
	for row, more := table.Next(); more; row, more = table.Next() {
		cells := []string{}
		for i := range row.Len() {
			cells = append(cells, row.Cell(i))
		}
		rows = append(rows, cells)
	}
	return rows, table, bag.Sorted()
}

// TestForms lists tables as they are found, with what is read and said.
func TestForms(t *testing.T) {
	for _, test := range []struct {
		name, text string
		rows       [][]string
		said       []string
	}{
		{"empty file", "", nil, []string{"error 1:1 bad-table"}},
		{"only a head", "a,b\n", nil, nil},
		{"no line end at the end", "a,b\n1,2", [][]string{{"1", "2"}}, nil},
		{"old line ends", "a,b\r\n1,\"2\"\r\n", [][]string{{"1", "2"}}, nil},
		{"empty lines and rows", "\n\na,b\n\n1,2\n,\n , \n", [][]string{{"1", "2"}}, nil},
		{"empty columns at the end", "a,b,,\n1,2,,\n", [][]string{{"1", "2", "", ""}}, nil},
		{"more empty cells than columns", "a,b\n1,2,,\n", [][]string{{"1", "2"}}, nil},
		{"a tab", "a\tb\n1\t2\n", [][]string{{"1", "2"}}, []string{"note 1:1 separator"}},
		{"no separator", "a\n1\n", nil, []string{"error 1:1 separator"}},
		{"two separators", "a,b;c\n", nil, []string{"error 1:1 separator"}},
		{"a separator in a quoted name", "\"a;b;c\",d\n1,2\n", [][]string{{"1", "2"}}, nil},
		{"sep= with one column", "sep=;\na\n1,5\n", [][]string{{"1,5"}}, []string{"note 2:1 separator"}},
		{"a cell too many", "a,b\n1,2,3\n4,5\n", [][]string{{"4", "5"}}, []string{"error 2:5 cell-count"}},
		{"a cell too few", "a,b\n1\n4,5\n", [][]string{{"4", "5"}}, []string{"error 2:1 cell-count"}},
		{"a decimal comma among commas", "a,b\n22,5,1\n", nil, []string{"error 2:6 cell-count"}},
		{"a mark never closed", "a,b\n1,\"2\n3,4\n", [][]string{{"3", "4"}}, []string{"error 2:3 cell-quotes"}},
		{"closed by a later cell", "a,b\n\"1,2\n3,\"4\"\n", [][]string{{"3", "4"}}, []string{"error 2:1 cell-quotes"}},
		{"a mark inside", "a,b\n\"the 6\" ring\",2\n3,4\n", [][]string{{"3", "4"}}, []string{"error 2:7 cell-quotes"}},
		{"marks in the middle", "a,b\nthe \"old\" ring,2\n", [][]string{{`the "old" ring`, "2"}}, nil},
		{"blanks around marks", "a,b\n1, \"2,3\" \n", [][]string{{"1", "2,3"}}, nil},
		{"a column twice", "a,A\n1,2\n", [][]string{{"1", "2"}}, []string{"error 1:3 duplicate-column"}},
		{"columns in characters", "ä,b\nüü,\"x\"y\n", nil, []string{"error 2:6 cell-quotes"}},
		{"many tricks in a column", "a,b\n'6/6,1\n'6/9,2\n", [][]string{{"6/6", "1"}, {"6/9", "2"}}, []string{"warning 2:1 spreadsheet-text"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			rows, _, ds := readAll(test.text)
			if diff := cmp.Diff(test.rows, rows); diff != "" {
				t.Errorf("rows (-want +got):\n%s", diff)
			}
			if diff := cmp.Diff(test.said, lines(ds)); diff != "" {
				t.Errorf("messages (-want +got):\n%s", diff)
			}
		})
	}
}

// TestDecimal checks that only whole numbers of a decimal comma file change.
func TestDecimal(t *testing.T) {
	bag := diagnose.NewBag()
	table := NewReader(diagnose.NewSource("t.csv", []byte("a;b;c\n0,5;6/24;one, two\n10-Dec;x;1,5\n")), bag)
	row, _ := table.Next()
	if got := row.Decimal(0) + " " + row.Decimal(1) + " " + row.Decimal(2); got != "0.5 6/24 one, two" {
		t.Errorf("decimals %q", got)
	}
	row, _ = table.Next()
	if !row.Damaged(0) || row.Damaged(1) || row.Damaged(2) {
		t.Error("damage is not told from whole cells")
	}
	if ds := bag.Sorted(); len(ds) != 2 || ds[1].Message[:9] != "column a:" || ds[1].Span.Line() != 3 {
		t.Errorf("messages %v", lines(ds))
	}
}

// TestManyFaults checks that a table of nothing but faults gives a bounded list.
func TestManyFaults(t *testing.T) {
	_, table, ds := readAll("a,b\n" + strings.Repeat("1\n", 5000))
	if len(ds) != maxFaults+1 || table.LeftOut() != 5000 || !strings.Contains(ds[maxFaults].Message, "4900 more rows") {
		t.Errorf("%d messages, %d rows left out", len(ds), table.LeftOut())
	}
}

// TestQuarter lists dates as they are written. Expected values: the calendar.
func TestQuarter(t *testing.T) {
	for date, want := range map[string]string{
		"2026-03-05": "2026-Q1", "2026-12-31": "2026-Q4", "2026-3": "2026-Q1", "2026": "2026", "2026-Q2": "2026-Q2", "2026Q2": "2026-Q2",
		"05.03.2026": "2026-Q1", "5.10.2026": "2026-Q4", "05.03.2026 14:30": "2026-Q1", "2026-03-05T14:30:00": "2026-Q1",
		"25/03/2026": "2026-Q1", "03/25/2026": "2026-Q1", "05/06/2026": "2026-Q2", "29.02.2024": "2024-Q1",
		"03/04/2026": "", "29.02.2026": "", "31.04.2026": "", "2026-13-01": "", "05.03.26": "", "46086": "", "Mar-26": "",
		"########": "", "": "", "yesterday": "", "0.0.2026": "",
	} {
		got, err := Quarter(date)
		if got != want || (err == nil) != (want != "") {
			t.Errorf("Quarter(%q) = %q, %v; want %q", date, got, err, want)
		}
		if err != nil && strings.Contains(err.Error(), "05.03.26") {
			t.Errorf("the fault %q repeats the date", err)
		}
	}
}

// TestDamage keeps what looks like damage from what is whole.
func TestDamage(t *testing.T) {
	for _, cell := range []string{
		"Jun-24", "24-Jun", "6-Dez", "1. Mär", "10-Dec", "06/06/2026", "6.6.26", "2026-06-06", "2026-06-06 00:00", "46086", "1.2E+05",
		"1,2E+05", "1E-3", "##", "########", "#DIV/0!", "#N/A", "#NAME?", "#WERT!", "#BEZUG!", "Dec 10",
	} {
		if Damage(cell) == "" {
			t.Errorf("Damage(%q) found nothing", cell)
		}
	}
	for _, cell := range []string{
		"", "6/24", "20/200", "0.5", "CF", "HM", "12E4", "HB-007", "#", "may", "mar", "march-1999x", "2026-Q1", "2026", "10-2", "5-7",
		"phaco-chop", "6/6", "1:02:03", "A", "12", "#3", "jun-jul", "100000",
	} {
		if words := Damage(cell); words != "" {
			t.Errorf("Damage(%q) = %q", cell, words)
		}
	}
}

// TestLikeEncodingCSV compares with the library on random tables that it
// accepts: the same rows, so far as this reader gives rows.
func TestLikeEncodingCSV(t *testing.T) {
	random := rand.New(rand.NewSource(11))
	parts := []string{"a", "6/6", "ü", ",", ",", "\n", `"`, `""`, "\"x,y\"", "\"p\nq\"", " ", "é", ",\"\","}
	compared := 0
	for range 20_000 {
		text := "h1,h2,h3\n"
		for range random.Intn(14) {
			text += parts[random.Intn(len(parts))]
		}
		library := csv.NewReader(strings.NewReader(text))
		want, err := library.ReadAll()
		if err != nil {
			continue // it stops; this reader goes on
		}
		rows, _, ds := readAll(text)
		if ds.Failed() {
			t.Fatalf("%q: the library reads it, this reader says %v", text, lines(ds))
		}
		var full [][]string
		for _, row := range want[1:] {
			if strings.TrimSpace(strings.Join(row, "")) != "" {
				full = append(full, row)
			}
		}
		if diff := cmp.Diff(full, rows); diff != "" {
			t.Fatalf("%q (-library +ours):\n%s", text, diff)
		}
		compared++
	}
	if compared < 1000 {
		t.Fatalf("only %d tables compared", compared)
	}
}

// FuzzSheet reads arbitrary bytes: no panic, every place inside the file, every
// row as wide as the head; and what is written is read again as it was.
func FuzzSheet(f *testing.F) {
	for _, name := range []string{
		"fr-27-empty-month.csv", "fr-28-european/with-sep.csv", "fr-28-european/quoted-head.csv",
		"fr-28-european/comma-with-one-semicolon.csv", "fr-29-spreadsheet-damage.csv", "fr-30-formulas.csv",
	} {
		f.Add(readReport(f, name))
	}
	f.Add([]byte("a,b\n\"1\n"))
	f.Add([]byte("a;b\n'=1;\"'\n'-\"\n"))
	f.Add([]byte(",,0\n0\"" + strings.Repeat("\r", longestCell+1) + ",A,\n")) // more lines than a quoted cell may have
	f.Fuzz(func(t *testing.T, data []byte) {
		bag := diagnose.NewBag()
		src := diagnose.NewSource("t.csv", data)
		table := NewReader(src, bag)
		var out bytes.Buffer
		w := NewWriter(&out)
		var rows [][]string
		for row, more := table.Next(); more; row, more = table.Next() {
			if row.Len() != len(table.Head()) {
				t.Fatalf("a row of %d cells under %d columns", row.Len(), len(table.Head()))
			}
			cells := []string{"."} // so that no row is empty
			for i := range row.Len() {
				inside(t, src, row.Span(i))
				cells = append(cells, strings.ReplaceAll(row.Cell(i), "\r", "\n"))
				if strings.Count(cells[i+1], "\n") > longestCell {
					return // taken for a quotation mark without an end when it is read again
				}
				Damage(row.Cell(i))
				Quarter(row.Cell(i))
				table.Minutes(row.Cell(i))
			}
			rows = append(rows, cells)
		}
		for _, d := range bag.Sorted() {
			inside(t, src, d.Span)
		}
		if len(rows) == 0 || bytes.IndexByte(data, 0) >= 0 {
			return
		}
		again(t, w, &out, rows)
	})
}

// again writes rows and reads them back. Cells whose blanks or apostrophes the
// reader itself takes for a spreadsheet's are left as they come out.
func again(t *testing.T, w *Writer, out *bytes.Buffer, rows [][]string) {
	head := make([]string, len(rows[0]))
	for i := range head {
		head[i] = "c" + strings.Repeat("x", i)
	}
	for _, cells := range append([][]string{head}, rows...) {
		if err := w.Write(cells...); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil && err != io.EOF {
		t.Fatal(err)
	}
	got, _, _ := readAll(out.String())
	want := make([][]string, 0, len(rows))
	for _, cells := range rows {
		line := make([]string, len(cells))
		for i, cell := range cells {
			line[i] = untricked(cell)
		}
		want = append(want, line)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Fatalf("written and read again (-want +got):\n%s", diff)
	}
}

// untricked is what the reader makes of a cell such as '6/6.
func untricked(cell string) string {
	if len(cell) > 1 && cell[0] == '\'' && isDigit(cell[1]) && strings.IndexByte(cell[1:], '\'') < 0 {
		return cell[1:]
	}
	return cell
}

func inside(t *testing.T, src *diagnose.Source, p diagnose.Span) {
	t.Helper()
	if p.Line() < 1 || p.Line() > src.Lines() || p.Column() < 1 || p.Column()+p.Length()-1 > len([]rune(src.Line(p.Line())))+1 {
		t.Errorf("%d:%d, %d long, lies outside the file", p.Line(), p.Column(), p.Length())
	}
}
