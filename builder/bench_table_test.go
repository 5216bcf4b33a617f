package builder_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"caseleaf/builder/spent"

	"github.com/yuin/goldmark"
	"gopkg.in/yaml.v3"
)

// BenchmarkTable prints what builds cost, as the command does them, against the
// least that any build could do:
//
//	go test ./builder -run '^$' -bench Table -benchtime 1x
//	CASELEAF_CASES=10000 go test ./builder -run '^$' -bench Table -benchtime 1x -timeout 1h
//
// The bank has 1,000 cases where CASELEAF_CASES says nothing else. The floor is
// taken in the same run on the same cores: yaml.v3 decodes every front matter,
// goldmark converts every story, and the bytes of the handout are written. Each
// row gives both ratios to it, by the clock and by processor time; on a machine
// that does other work besides, the second is the one to trust.
func BenchmarkTable(b *testing.B) {
	n := 1000
	if asked := os.Getenv("CASELEAF_CASES"); asked != "" {
		var err error
		if n, err = strconv.Atoi(asked); err != nil || n < 1 {
			b.Fatalf("CASELEAF_CASES=%s is no number of cases", asked)
		}
	}
	for b.Loop() {
		t := newTable(b, n)
		t.cost("full build", t.build(), 2)
		t.measureFloor()
		t.cost("nothing changed", t.build(), 0.3)
		t.edit("It is told again under", "It is said again under")
		t.cost("a story edited", t.build(), 0.35)
		t.edit("\n    sign: \"", "\n    sign: \"Seen late. ")
		t.cost("an event edited", t.build(), 0.35)
		t.saved = t.preview()
		t.print()
	}
}

// table is one run: a bank in a folder, its handout, and what was measured.
type table struct {
	b                  *testing.B
	cases              int
	program, bank, out string
	environment        []string
	floor              outlay
	rows               []row
	saved              time.Duration // from a save to its page in a preview
}

// outlay is what some work took.
type outlay struct {
	wall, cpu time.Duration
	memory    int64 // MB at most
}

type row struct {
	name string
	took outlay
	want float64 // the ratio to stay below
}

// newTable builds the program and lays the bank out.
func newTable(b *testing.B, n int) *table {
	b.Helper()
	folder := b.TempDir()
	t := &table{
		b: b, cases: n, program: filepath.Join(folder, "caseleaf"), bank: filepath.Join(folder, "bank"), out: filepath.Join(folder, "handout"),
		environment: append(os.Environ(), "CASELEAF_OFFLINE=true", "XDG_CACHE_HOME="+filepath.Join(folder, "cache"), "HOME="+filepath.Join(folder, "home")),
	}
	if said, err := exec.Command("go", "build", "-o", t.program, "caseleaf/cmd/caseleaf").CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, said)
	}
	if err := os.CopyFS(t.bank, benchBank(b, n)); err != nil {
		b.Fatal(err)
	}
	return t
}

// build runs the command as an author does.
func (t *table) build() outlay {
	t.b.Helper()
	command := exec.Command(t.program, "build", t.bank, "--out", t.out)
	command.Env = t.environment
	var said bytes.Buffer
	command.Stdout, command.Stderr = &said, &said
	started := time.Now()
	err := command.Run()
	took := time.Since(started)
	if err != nil {
		t.b.Fatalf("%v\n%s", err, last(said.String(), 2000))
	}
	return outlay{took, command.ProcessState.UserTime() + command.ProcessState.SystemTime(), spent.Peak(command.ProcessState)}
}

func last(text string, n int) string { return text[max(0, len(text)-n):] }

// cost adds a row.
func (t *table) cost(name string, took outlay, want float64) {
	t.rows = append(t.rows, row{name, took, want})
}

// edit changes the first place in the last case that reads so.
func (t *table) edit(from, to string) {
	t.b.Helper()
	data, err := os.ReadFile(t.aCase())
	if err != nil {
		t.b.Fatal(err)
	}
	changed := strings.Replace(string(data), from, to, 1)
	if changed == string(data) {
		t.b.Fatalf("%s has no %q to edit", t.aCase(), from)
	}
	if err := os.WriteFile(t.aCase(), []byte(changed), 0o644); err != nil {
		t.b.Fatal(err)
	}
}

// measureFloor does the least that a build can do: decode, convert, write.
func (t *table) measureFloor() {
	t.b.Helper()
	bank, out := os.DirFS(t.bank), filepath.Join(t.b.TempDir(), "floor")
	cases, err := fs.Glob(bank, "cases/*.md")
	if err != nil {
		t.b.Fatal(err)
	}
	var sources [][]byte
	for _, name := range cases {
		data, err := fs.ReadFile(bank, name)
		if err != nil {
			t.b.Fatal(err)
		}
		sources = append(sources, data)
	}
	t.timed(func() { onAll(t.b, sources, convert) })
	// Files are read a few hundred at a time, so that memory stays small; only
	// writing them is timed.
	var batch []written
	flush := func() {
		t.timed(func() { onAll(t.b, batch, func(w written) error { return w.write(out) }) })
		batch = batch[:0]
	}
	err = fs.WalkDir(os.DirFS(t.out), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(filepath.Join(t.out, name))
		if batch = append(batch, written{name, data}); len(batch) == 500 {
			flush()
		}
		return err
	})
	if err != nil {
		t.b.Fatal(err)
	}
	flush()
}

// timed adds what some work takes to the floor.
func (t *table) timed(work func()) {
	runtime.GC()
	started, cpu := time.Now(), spent.Time()
	work()
	t.floor.wall += time.Since(started)
	t.floor.cpu += spent.Time() - cpu
}

// onAll does the work for each item on all processors.
func onAll[T any](b *testing.B, items []T, work func(T) error) {
	var all sync.WaitGroup
	cores := runtime.GOMAXPROCS(0)
	for core := range cores {
		all.Go(func() {
			for i := core; i < len(items); i += cores {
				if err := work(items[i]); err != nil {
					b.Error(err)
				}
			}
		})
	}
	all.Wait()
}

// convert decodes a case's front matter and converts its story.
func convert(source []byte) error {
	front, story, _ := bytes.Cut(bytes.TrimPrefix(source, []byte("---\n")), []byte("\n---\n"))
	var root yaml.Node
	if err := yaml.Unmarshal(front, &root); err != nil {
		return err
	}
	var html bytes.Buffer
	return goldmark.Convert(story, &html)
}

// written is one file of the handout.
type written struct {
	name string
	data []byte
}

func (w written) write(folder string) error {
	full := filepath.Join(folder, filepath.FromSlash(w.name))
	if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
		return err
	}
	return os.WriteFile(full, w.data, 0o644)
}

func (t *table) print() {
	ratio := func(a, b time.Duration) float64 { return a.Seconds() / b.Seconds() }
	var out strings.Builder
	fmt.Fprintf(&out, "\n%d cases, %d processors; the floor: %.2f s by the clock, %.2f s of processor time\n\n",
		t.cases, runtime.GOMAXPROCS(0), t.floor.wall.Seconds(), t.floor.cpu.Seconds())
	fmt.Fprintf(&out, "| build | x floor, clock | x floor, processor | wanted | seconds | MB at most |\n|---|---|---|---|---|---|\n")
	for _, r := range t.rows {
		fmt.Fprintf(&out, "| %s | %.2f | %.2f | %.2f | %.2f | %d |\n", r.name, ratio(r.took.wall, t.floor.wall), ratio(r.took.cpu, t.floor.cpu),
			r.want, r.took.wall.Seconds(), r.took.memory)
	}
	fmt.Fprintf(&out, "\nPreview: %.0f ms from a save to its page, median of %d (wanted: 50 ms at 1,000 cases, 250 ms at 10,000)\n", 1000*t.saved.Seconds(), saves)
	fmt.Print(out.String())
	for _, r := range t.rows {
		t.b.ReportMetric(ratio(r.took.cpu, t.floor.cpu), strings.ReplaceAll(r.name, " ", "-")+"/floor")
	}
}
