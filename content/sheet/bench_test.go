package sheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"testing"

	"caseleaf/content/diagnose"
)

// logbook makes a table such as a logbook, rows long.
func logbook(rows int) []byte {
	var b bytes.Buffer
	b.WriteString("period,technique,surgeon,risk,complications,unit,step,acuity_before,acuity_after\n")
	for i := range rows {
		fmt.Fprintf(&b, "2024-Q%d,divide-and-conquer,trainee,low,%s,A,postop-review,6/%d,6/6\n",
			i%4+1, []string{"", "corneal-oedema", "raised-pressure wound-leak"}[i%3], 9+i%50)
	}
	return b.Bytes()
}

// BenchmarkReader reads a logbook of 100 000 rows and touches every cell.
func BenchmarkReader(b *testing.B) {
	data := logbook(100_000)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		table := NewReader(diagnose.NewSource("logbook.csv", data), diagnose.NewBag())
		total := 0
		for row, more := table.Next(); more; row, more = table.Next() {
			for i := range row.Len() {
				total += len(row.Cell(i))
			}
		}
		if total == 0 {
			b.Fatal("nothing read")
		}
	}
}

// BenchmarkEncodingCSV is the yardstick: the same with encoding/csv.
func BenchmarkEncodingCSV(b *testing.B) {
	data := logbook(100_000)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		table := csv.NewReader(bytes.NewReader(data))
		table.ReuseRecord = true
		total := 0
		for {
			row, err := table.Read()
			if errors.Is(err, io.EOF) {
				break
			}
			for _, cell := range row {
				total += len(cell)
			}
		}
		if total == 0 {
			b.Fatal("nothing read")
		}
	}
}
