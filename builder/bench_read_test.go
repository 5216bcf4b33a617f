package builder_test

import (
	"bytes"
	"runtime"
	"testing"
	"time"

	"caseleaf/builder/spent"
	"caseleaf/content"

	"github.com/yuin/goldmark"
	"gopkg.in/yaml.v3"
)

// BenchmarkRead: read/floor is the processor time of reading and checking a bank,
// over that of decoding the same front matter and converting the same stories;
// KB-kept/case is what a bank that was read keeps alive, a case.
func BenchmarkRead(b *testing.B) {
	onOne(b)
	const n = 1000
	files := benchBank(b, n)
	var reading, least outgo
	var kept uint64
	for b.Loop() {
		before := alive()
		var bank *content.Bank
		reading.add(func() {
			var err error
			if bank, _, err = content.Read(files); err != nil {
				b.Fatal(err)
			}
		})
		kept += alive() - before
		least.add(func() {
			for _, c := range bank.Cases {
				if err := decodeAndConvert(c); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	per := func(v float64) float64 { return v / float64(b.N) / n }
	b.ReportMetric(reading.time.Seconds()/least.time.Seconds(), "read/floor")
	b.ReportMetric(1e3*per(reading.time.Seconds()), "ms/case")
	b.ReportMetric(per(float64(kept))/1e3, "KB-kept/case")
	b.ReportMetric(per(float64(reading.allocations)), "allocs/case")
	b.ReportMetric(per(float64(least.allocations)), "floor-allocs/case")
}

// outgo is what some work took of the processor and of the heap.
type outgo struct {
	time        time.Duration
	allocations uint64
}

func (o *outgo) add(work func()) {
	runtime.GC()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	started := spent.Time()
	work()
	o.time += spent.Time() - started
	runtime.ReadMemStats(&after)
	o.allocations += after.Mallocs - before.Mallocs
}

// alive is how many bytes of the heap are in use.
func alive() uint64 {
	runtime.GC()
	runtime.GC() // what a finalizer or a pool let go of at the first
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// decodeAndConvert does with a case the least that any reader of it must do.
func decodeAndConvert(c *content.Case) error {
	data := c.Source.Data
	front := bytes.TrimSuffix(bytes.TrimPrefix(data[:len(data)-len(c.Body.Markdown)], []byte("---\n")), []byte("---\n"))
	var root yaml.Node
	if err := yaml.Unmarshal(front, &root); err != nil {
		return err
	}
	var html bytes.Buffer
	return goldmark.Convert(c.Body.Markdown, &html)
}
