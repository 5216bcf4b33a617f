package tally_test

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"testing"
	"time"

	"caseleaf/builder/spent"
	"caseleaf/builder/tally"
	"caseleaf/content"
)

// operations is the size of the logbook of the benchmark.
const operations = 1_000_000

// writeBank writes a bank with nothing but settings and a long logbook.
func writeBank(b *testing.B, folder string, rows int) {
	b.Helper()
	settings := "title: A long logbook\nedition: \"1\"\nreference_technique: divide-and-conquer\nstrata:\n" +
		"  - {id: low, label: Low}\n  - {id: medium, label: Medium}\n  - {id: high, label: High}\n"
	if err := os.WriteFile(filepath.Join(folder, "bank.yaml"), []byte(settings), 0o644); err != nil {
		b.Fatal(err)
	}
	f, err := os.Create(filepath.Join(folder, "logbook.csv"))
	if err != nil {
		b.Fatal(err)
	}
	w := bufio.NewWriter(f)
	r := rand.New(rand.NewPCG(1, 1))
	pick := func(of ...string) string { return of[r.IntN(len(of))] }
	fmt.Fprintln(w, "period,technique,surgeon,risk,complications,unit,step,acuity_before,acuity_after")
	for i := range rows {
		complications, step := "", ""
		if r.IntN(12) == 0 {
			complications, step = pick("iris-prolapse", "corneal-oedema", "raised-pressure", "iris-prolapse corneal-oedema"), "quadrant-removal"
		}
		fmt.Fprintf(w, "%d-Q%d,%s,%s,%s,%s,%s,%s,%s,%s\n", 2010+i*15/rows, 1+i%4, pick("divide-and-conquer", "stop-and-chop", "horizontal-chop"),
			pick("trainee", "fellow", "consultant"), pick("low", "medium", "high"), complications, pick("A", "B", "C", "D"), step,
			pick("6/18", "6/24", "6/60", "CF"), pick("6/5", "6/6", "6/9", "6/12"))
	}
	if err := errors.Join(w.Flush(), f.Close()); err != nil {
		b.Fatal(err)
	}
}

// bareRead reads the file by encoding/csv alone, one record after the other.
func bareRead(b *testing.B, file string) time.Duration {
	b.Helper()
	f, err := os.Open(file)
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	begin := spent.Time()
	r := csv.NewReader(bufio.NewReader(f))
	for {
		if _, err := r.Read(); errors.Is(err, io.EOF) {
			return spent.Time() - begin
		} else if err != nil {
			b.Fatal(err)
		}
	}
}

// peak samples the memory that the program holds until stopped.
func peak() (stop func() uint64) {
	done, result := make(chan struct{}), make(chan uint64)
	go func() {
		var most uint64
		var m runtime.MemStats
		for {
			runtime.ReadMemStats(&m)
			most = max(most, m.HeapInuse+m.StackInuse)
			select {
			case <-done:
				result <- most
				return
			case <-time.After(5 * time.Millisecond):
			}
		}
	}()
	return func() uint64 { close(done); return <-result }
}

// rounds is how often a run of the benchmark takes either time. It keeps the best of each, and
// takes processor time where it can, so that other work on the computer tells neither for nor
// against.
const rounds = 3

// BenchmarkMillionOperations tallies a logbook of a million operations from its
// file, and reads the same file by encoding/csv alone in the same run, by turns:
// the ratio of the best times is to be at most 2.0, the peak at most 200 MB.
//
//	go test ./builder/tally -run '^$' -bench MillionOperations -benchtime 1x
func BenchmarkMillionOperations(b *testing.B) {
	folder := b.TempDir()
	writeBank(b, folder, operations)
	const never = time.Duration(math.MaxInt64)
	bare, whole, counting := never, never, never
	var most uint64
	for b.Loop() {
		for range rounds {
			debug.FreeOSMemory()
			bare = min(bare, bareRead(b, filepath.Join(folder, "logbook.csv")))
			debug.FreeOSMemory()
			stop := peak()
			all, after := tallied(b, folder)
			whole, counting = min(whole, all), min(counting, after)
			most = max(most, stop())
		}
	}
	b.ReportMetric(float64(whole)/float64(bare), "x_bare_csv")
	b.ReportMetric(float64(counting)/float64(bare), "x_bare_csv(counting)")
	b.ReportMetric(float64(most)/1e6, "MB_peak")
}

// tallied reads and tallies the bank; it gives the time of both and of the second.
func tallied(b *testing.B, folder string) (whole, counting time.Duration) {
	b.Helper()
	begin := spent.Time()
	bank, found, err := content.Read(os.DirFS(folder))
	if err != nil || bank.Logbook.Len() != operations {
		b.Fatal(bank.Logbook.Len(), " operations read: ", err, found)
	}
	read := spent.Time()
	r := tally.Of(bank, nil)
	if r.Source.Operations.N != operations {
		b.Fatal(r.Source)
	}
	end := spent.Time()
	return end - begin, end - read
}

// BenchmarkCounter counts a million operations that are already read.
func BenchmarkCounter(b *testing.B) {
	r := rand.New(rand.NewPCG(2, 2))
	rows := make([]content.Operation, 10_000)
	for i := range rows {
		rows[i] = content.Operation{
			Period: fmt.Sprintf("%d-Q%d", 2010+i*15/len(rows), 1+i/100%4), Technique: fmt.Sprint("technique-", r.IntN(6)),
			Surgeon: content.Grades()[r.IntN(3)], Risk: fmt.Sprint("risk-", r.IntN(3)), Unit: fmt.Sprint("U", r.IntN(4)),
		}
		if r.IntN(12) == 0 {
			rows[i].Complications = []string{"iris-prolapse"}
		}
	}
	for b.Loop() {
		c := &tally.Counter{}
		for i := range operations {
			c.Add(&rows[i%len(rows)])
		}
	}
}
