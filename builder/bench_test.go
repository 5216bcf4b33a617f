package builder_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"caseleaf/builder"
	"caseleaf/builder/spent"
	"caseleaf/content"
	"caseleaf/content/privacy"

	"github.com/yuin/goldmark"
	"gopkg.in/yaml.v3"
)

// The benchmarks print ratios of things measured in one run, on one processor,
// so that a busy machine moves both sides alike:
//
//	go test ./builder -run '^$' -bench . -benchtime 1x
//
// BenchmarkGate: gate/full is the processor time the privacy gate takes in reading
// and in writing, of a full build's. BenchmarkBuild: full/floor is a full build's time
// over that of decoding the same front matter, converting the same stories and
// writing the same bytes.

// onOne keeps a benchmark on one processor, so that times add up.
func onOne(b *testing.B) {
	before := runtime.GOMAXPROCS(1)
	b.Cleanup(func() { runtime.GOMAXPROCS(before) })
}

// built is one full build, timed, and what it wrote.
type built struct {
	bank  *content.Bank
	took  time.Duration
	spent time.Duration // processor time
	files map[string][]byte
}

func fullBuild(b *testing.B, n int) built {
	b.Helper()
	files := benchBank(b, n)
	out := filepath.Join(b.TempDir(), "handout")
	runtime.GC()
	started, used := time.Now(), spent.Time()
	bank, found, err := content.Read(files)
	if err != nil || found.Failed() {
		b.Fatal(err, found.Summary())
	}
	if _, err := builder.Build(bank, builder.Options{Out: out, BankFiles: files}); err != nil {
		b.Fatal(err)
	}
	return built{bank, time.Since(started), spent.Time() - used, filesOf(b, out)}
}

func BenchmarkGate(b *testing.B) {
	for _, n := range []int{100, 1000} {
		b.Run(fmt.Sprintf("cases=%d", n), func(b *testing.B) {
			onOne(b)
			var full, reading, writing time.Duration
			for b.Loop() {
				f := fullBuild(b, n)
				full += f.spent
				reading += scanSources(f.bank)
				writing += scanWritten(f)
			}
			ratio := func(d time.Duration) float64 { return d.Seconds() / full.Seconds() }
			b.ReportMetric(ratio(reading+writing), "gate/full")
			b.ReportMetric(ratio(reading), "reading/full")
			b.ReportMetric(ratio(writing), "writing/full")
		})
	}
}

// scanSources scans what the gate scans while a bank is read.
func scanSources(bank *content.Bank) time.Duration {
	scanner := bank.Privacy()
	runtime.GC()
	started := spent.Time()
	scan := func(file string, data, body []byte) {
		front := data[:len(data)-len(body)]
		scanner.Scan(privacy.FrontMatter, string(front))
		scanner.Scan(privacy.Body, string(body))
		scanner.Scan(privacy.Filename, file)
	}
	for _, c := range bank.Cases {
		scan(c.File, c.Source.Data, c.Body.Markdown)
	}
	for _, d := range bank.Decisions {
		scan(d.File, d.Source.Data, d.Body.Markdown)
	}
	return spent.Time() - started
}

// scanWritten scans what the gate scans while a handout is written.
func scanWritten(f built) time.Duration {
	scanner := f.bank.Privacy()
	output := scanner.NewOutput()
	runtime.GC()
	started := spent.Time()
	for name, data := range f.files {
		output.Scan(name, data)
		scanner.Scan(privacy.Filename, name)
	}
	return spent.Time() - started
}

func BenchmarkBuild(b *testing.B) {
	for _, n := range []int{100, 1000} {
		b.Run(fmt.Sprintf("cases=%d", n), func(b *testing.B) {
			onOne(b)
			var full, least time.Duration
			var written int
			for b.Loop() {
				f := fullBuild(b, n)
				full += f.took
				least += floor(b, f)
				for _, data := range f.files {
					written += len(data)
				}
			}
			b.ReportMetric(full.Seconds()/least.Seconds(), "full/floor")
			b.ReportMetric(float64(written)/float64(n)/float64(b.N)/1e3, "kB/case")
		})
	}
}

// floor does the least that a build can do: decode, convert, write.
func floor(b *testing.B, f built) time.Duration {
	b.Helper()
	out := b.TempDir()
	runtime.GC()
	started := time.Now()
	for _, c := range f.bank.Cases {
		data := c.Source.Data
		front := bytes.TrimSuffix(bytes.TrimPrefix(data[:len(data)-len(c.Body.Markdown)], []byte("---\n")), []byte("---\n"))
		var root yaml.Node
		if err := yaml.Unmarshal(front, &root); err != nil {
			b.Fatal(err)
		}
		var html bytes.Buffer
		if err := goldmark.Convert(c.Body.Markdown, &html); err != nil {
			b.Fatal(err)
		}
	}
	for name, data := range f.files {
		full := filepath.Join(out, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			b.Fatal(err)
		}
		if err := os.WriteFile(full, data, 0o644); err != nil {
			b.Fatal(err)
		}
	}
	return time.Since(started)
}
