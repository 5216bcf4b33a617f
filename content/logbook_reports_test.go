package content_test

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/content"
	"caseleaf/content/diagnose"

	"github.com/google/go-cmp/cmp"
)

// logbookOf reads a logbook with the settings of a small bank and gives its
// rows in short, what is said of it (notes left out, but for the count), and
// the bank.
func logbookOf(t *testing.T, csv string) (rows, said []string, book *content.Logbook) {
	t.Helper()
	bank, found, err := content.Read(fstest.MapFS{
		"bank.yaml":   {Data: []byte("title: T\nedition: \"2026\"\nstrata: [{id: low, label: Low}]\n")},
		"logbook.csv": {Data: []byte(csv)},
	})
	if err != nil {
		t.Fatal(err)
	}
	for op := range bank.Logbook.All() {
		row := fmt.Sprintf("%d %s %s %s %v", op.Line, op.Period, op.Technique, op.Surgeon, op.Complications)
		if op.Before.Known() || op.After.Known() {
			row += fmt.Sprintf(" %s %s", op.Before.Value, op.After.Value)
		}
		rows = append(rows, row)
	}
	for _, d := range found {
		if d.Severity != diagnose.Note || d.Code == "rows-left-out" || d.Code == "separator" {
			said = append(said, fmt.Sprintf("%s %d %s: %s", d.Severity, d.Span.Line(), d.Code, d.Message))
		}
	}
	return rows, said, bank.Logbook
}

// report reads a field report and fits its columns to the logbook's: the case's
// number gives way to a technique, "none" to an empty cell. The fault stays.
func report(t *testing.T, name string, fit ...string) string {
	t.Helper()
	data, err := os.ReadFile("../testdata/field-reports/" + name)
	if err != nil {
		t.Fatal(err)
	}
	text := regexp.MustCompile(`HB-\d+|phaco-chop`).ReplaceAllString(string(data), "stop-and-chop")
	for _, name := range [][2]string{
		{`\bnone\b`, ""}, {`\b(r|R)ole\b`, "surgeon"}, {`\b(c|C)omplication\b`, "complications"}, {"Before", "Acuity before"}, {"After", "Acuity after"},
	} {
		text = regexp.MustCompile(name[0]).ReplaceAllString(text, name[1])
	}
	for i := 0; i < len(fit); i += 2 {
		text = strings.ReplaceAll(text, fit[i], fit[i+1])
	}
	return text
}

func compareRows(t *testing.T, wantRows, wantSaid, rows, said []string) {
	t.Helper()
	if diff := cmp.Diff(wantRows, rows); diff != "" {
		t.Errorf("rows (-want +got):\n%s", diff)
	}
	if len(said) != len(wantSaid) {
		t.Fatalf("%d messages, want %d:\n%s", len(said), len(wantSaid), strings.Join(said, "\n"))
	}
	for i, want := range wantSaid {
		place, words, _ := strings.Cut(want, "|")
		if !strings.HasPrefix(said[i], place) || !strings.Contains(said[i], words) {
			t.Errorf("message %d is %q, want %q", i, said[i], want)
		}
	}
}

// FR-27: a month without operations is no row, and CF and HM are acuities. The
// role of assistant is none that the logbook has: the operation of April is
// another's. (Gaps and empty cells of charts are tested where they are drawn.)
func TestLogbookEmptyMonth(t *testing.T) {
	rows, said, _ := logbookOf(t, report(t, "fr-27-empty-month.csv", "assistant", "fellow"))
	compareRows(t, []string{
		"2 2026-Q1 stop-and-chop trainee [] 6/24 6/6", "3 2026-Q1 stop-and-chop trainee [posterior-capsule-tear] 6/60 6/9",
		"4 2026-Q1 stop-and-chop trainee [] 6/18 6/6", "5 2026-Q2 stop-and-chop fellow [] CF HM",
	}, []string{`warning 1 unknown-column|"case", "minutes" and "notes"`}, rows, said)
}

// FR-28: marks, separators, quoted heads, full stops in dates and decimal commas
// of a European spreadsheet.
func TestLogbookEuropean(t *testing.T) {
	want := []string{"2026-Q1 stop-and-chop trainee [] 6/24 6/6", "2026-Q1 stop-and-chop trainee [] 6/36 6/9", "2026-Q1 stop-and-chop trainee [iris-prolapse] 6/60 6/12"}
	for name, first := range map[string]int{"with-sep.csv": 3, "quoted-head.csv": 2} {
		csv := report(t, "fr-28-european/"+name, "Date;Case;", "Date;Technique;", `"Case"`, `"Technique"`)
		rows, said, _ := logbookOf(t, csv)
		lines := make([]string, len(want))
		for i, row := range want {
			lines[i] = fmt.Sprintf("%d %s", first+i, row)
		}
		compareRows(t, lines, []string{
			fmt.Sprintf("note %d separator|separator ; and decimal comma", first-1),
			fmt.Sprintf("warning %d unknown-column|", first-1),
		}, rows, said)
	}
	csv := strings.Replace(report(t, "fr-28-european/comma-with-one-semicolon.csv", "date,case,", "date,technique,"), "notes\n", "notes,complications\n", 1)
	csv = strings.NewReplacer("wash\"\n", "wash\",\n", "fine\n", "fine,\n").Replace(csv)
	rows, said, _ := logbookOf(t, csv)
	compareRows(t, []string{"2 2026-Q1 stop-and-chop  []", "3 2026-Q1 stop-and-chop  []"}, []string{"warning 1 unknown-column|notes"}, rows, said)
	rows, said, _ = logbookOf(t, "period;technique;complications;acuity_after\n2026-Q1;stop-and-chop;;0,5\n")
	compareRows(t, []string{"2 2026-Q1 stop-and-chop  []  0.5"}, []string{"note 1 separator|decimal comma"}, rows, said)
}

// FR-29: each cell that a spreadsheet has changed is named, and nothing is
// guessed back.
func TestLogbookSpreadsheetDamage(t *testing.T) {
	csv := report(t, "fr-29-spreadsheet-damage.csv", "date,case,", "date,technique,", "minutes", "unit", ",22,", ",A,", ",19,", ",A,", ",31,", ",A,",
		",00:24:00,", ",A,", ",7,", ",stop-and-chop,", "notes\n", "notes,complications\n")
	csv = regexp.MustCompile(`(?m)(.)$`).ReplaceAllString(csv, "$1,")
	csv = strings.Replace(csv, "complications,", "complications", 1)
	rows, said, book := logbookOf(t, csv)
	compareRows(t, []string{"6 2026-Q1 stop-and-chop trainee [] 6/18 6/6"}, []string{
		"note 1 rows-left-out|1 operations are counted; 5 rows",
		"warning 1 unknown-column|notes",
		"error 2 spreadsheet-damage|acuity_before: a spreadsheet has probably turned this into a date (Jun-24)",
		"error 2 spreadsheet-damage|acuity_after: a spreadsheet has probably turned this into a date (06-Dec)",
		"error 3 bad-value|a spreadsheet has probably turned this date into a number (46086)",
		"error 3 spreadsheet-damage|acuity_before: a spreadsheet has probably turned this into a date (06/06/2026)",
		"error 3 spreadsheet-damage|acuity_after: a spreadsheet has probably turned this into a date (10-Dec)",
		"error 4 spreadsheet-damage|technique: a spreadsheet has probably turned this into a number (1.2E+05)",
		"error 5 spreadsheet-damage|acuity_after: ########: the column was too narrow",
		"warning 6 spreadsheet-text|",
		"warning 6 spreadsheet-text|",
		"error 7 spreadsheet-damage|unit: #DIV/0! is an error",
	}, rows, said)
	if book.LeftOut != 5 {
		t.Errorf("%d rows left out, want 5", book.LeftOut)
	}
}

// FR-30: cells that a spreadsheet would run are text, and refused where a term
// or a code is asked for; the rest of the file is read.
func TestLogbookFormulas(t *testing.T) {
	rows, said, _ := logbookOf(t, report(t, "fr-30-formulas.csv", "date,case,", "date,technique,"))
	want := make([]string, 5)
	for i := range want {
		want[i] = fmt.Sprintf("%d 2026-Q1 stop-and-chop trainee []", i+2)
	}
	compareRows(t, want, []string{"note 1 rows-left-out|5 operations", "warning 1 unknown-column|minutes", `error 7 unknown-term|"=1+1"`}, rows, said)
}

// TestLogbookRows lists further rows and what is made of them.
func TestLogbookRows(t *testing.T) {
	for _, test := range []struct {
		name, csv  string
		rows, said []string
	}{
		{"period and date that agree", "period,date,technique,complications\n2026-Q1,2026-03-05,stop-and-chop,\n2026,2026-03-05,stop-and-chop,\n",
			[]string{"2 2026-Q1 stop-and-chop  []", "3 2026 stop-and-chop  []"}, nil},
		{"one or the other", "period,date,technique,complications\n2026-Q1,,stop-and-chop,\n,2026-04-05,stop-and-chop,\n",
			[]string{"2 2026-Q1 stop-and-chop  []", "3 2026-Q2 stop-and-chop  []"}, nil},
		{"neither", "date,technique,complications\n,stop-and-chop,\n", nil, []string{"note 1 rows-left-out|", "error 2 missing-key|no period"}},
		{"period and date that differ", "period,date,technique,complications\n2026-Q1,2026-05-05,stop-and-chop,\n", nil,
			[]string{"note 1 rows-left-out|", "error 2 bad-value|falls into 2026-Q2"}},
		{"a cell too many is left out and counted", "period,technique,complications\n2026-Q1,stop-and-chop,,x\n2026-Q1,stop-and-chop,\n",
			[]string{"3 2026-Q1 stop-and-chop  []"}, []string{"note 1 rows-left-out|1 operations are counted; 1 rows", "error 2 cell-count|"}},
		{"no technique", "period,technique,complications\n2026-Q1,,\n", nil, []string{"note 1 rows-left-out|", "error 2 missing-key|technique"}},
		{"a date finer than a quarter as period", "period,technique,complications\n2026-03-05,stop-and-chop,\n", nil,
			[]string{"note 1 rows-left-out|", "error 2 bad-value|anything finer"}},
		{"complications twice", "period,technique,complications\n2026-Q1,stop-and-chop,iris-prolapse iris-prolapse\n", nil,
			[]string{"note 1 rows-left-out|", "error 2 duplicate-id|"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			rows, said, _ := logbookOf(t, test.csv)
			compareRows(t, test.rows, test.said, rows, said)
		})
	}
}

// A column of nothing but faults gives a list that can be read.
func TestLogbookManyFaults(t *testing.T) {
	_, said, book := logbookOf(t, "period,technique,complications\n"+strings.Repeat("2026-Q1,stopp-and-chopp,Jun-24\n", 3000))
	if book.LeftOut != 3000 || len(said) > 210 {
		t.Errorf("%d rows left out, %d messages", book.LeftOut, len(said))
	}
	if last := said[len(said)-1]; !strings.Contains(last, "2900 more rows") {
		t.Errorf("the last message is %q", last)
	}
}
