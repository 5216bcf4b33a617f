package builder_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"caseleaf/builder"
	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/content/diagnose"
	"caseleaf/themes"
)

// Sequences of random edits: after each, what a build makes with what the last
// one left is what a build makes from nothing, byte for byte. A few run by
// default; CASELEAF_EDITS=500 runs as many as it says:
//
//	CASELEAF_EDITS=500 go test ./builder -run TestEdits -timeout 3h
func TestEdits(t *testing.T) {
	sequences := 2
	if asked := os.Getenv("CASELEAF_EDITS"); asked != "" {
		var err error
		if sequences, err = strconv.Atoi(asked); err != nil {
			t.Fatal(err)
		}
	}
	carried, built := 0, 0
	for seed := range sequences {
		e := newEdited(t, uint64(seed))
		for step := range 6 {
			what := e.edit()
			if !e.build() {
				continue
			}
			built++
			carried += e.carried
			if differ := e.compare(); differ != "" {
				t.Fatalf("sequence %d, edit %d (%s): %s", seed, step, what, differ)
			}
		}
	}
	if built < 2*sequences || carried < 10*built {
		t.Errorf("%d builds carried %d files over; the sequences try too little", built, carried)
	}
}

// edited is a small bank that is edited again and again.
type edited struct {
	t           *testing.T
	seed        uint64
	r           *rand.Rand
	folder      string // of the bank
	out, beside string // of the handout, and of one made from nothing
	cache       string
	next        int // number of the next case that is added
	carried     int // files that the last build carried over
	undo        map[string][]byte
	memo        content.Memo
}

func said(t *testing.T, found diagnose.Diagnostics) string {
	t.Helper()
	var out strings.Builder
	if err := found.WriteText(&out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func newEdited(t *testing.T, seed uint64) *edited {
	t.Helper()
	folder := t.TempDir()
	e := &edited{
		t: t, seed: seed, r: rand.New(rand.NewPCG(seed, 500)), folder: filepath.Join(folder, "bank"),
		out: filepath.Join(folder, "handout"), beside: filepath.Join(folder, "beside"), cache: filepath.Join(folder, "cache"), next: 7,
	}
	for name, f := range benchBank(t, 6) {
		if !strings.HasPrefix(name, "decisions/") && name != "logbook.csv" {
			e.write(name, string(f.Data))
		}
	}
	e.write("logbook.csv", strings.Join(e.rows(60), "\n")+"\n")
	e.write("decisions/small-pupil.md", e.demo("decisions/small-pupil.md"))
	if !e.build() {
		t.Fatal("the bank has errors before it is edited")
	}
	return e
}

func (e *edited) demo(name string) string {
	data, err := fs.ReadFile(casebank.FS(), name)
	if err != nil {
		e.t.Fatal(err)
	}
	return string(data)
}

// rows are the first of the demonstration logbook.
func (e *edited) rows(n int) []string { return strings.Split(e.demo("logbook.csv"), "\n")[:n] }

func (e *edited) write(name, text string) {
	e.t.Helper()
	full := filepath.Join(e.folder, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
		e.t.Fatal(err)
	}
	e.overwrite(full, []byte(text))
}

// overwrite writes a file; one that was there keeps its time now and then, as some
// programs leave it.
func (e *edited) overwrite(name string, data []byte) {
	e.t.Helper()
	info, err := os.Stat(name)
	if err := os.WriteFile(name, data, 0o644); err != nil {
		e.t.Fatal(err)
	}
	if err == nil && e.r.IntN(2) == 0 {
		if err := os.Chtimes(name, info.ModTime(), info.ModTime()); err != nil {
			e.t.Fatal(err)
		}
	}
}

func (e *edited) read(name string) string {
	e.t.Helper()
	data, err := os.ReadFile(filepath.Join(e.folder, filepath.FromSlash(name)))
	if err != nil {
		e.t.Fatal(err)
	}
	return string(data)
}

func (e *edited) remove(name string) {
	_ = os.Remove(filepath.Join(e.folder, filepath.FromSlash(name)))
}

// aCase is the name of one of the cases.
func (e *edited) aCase() string {
	names, err := fs.Glob(os.DirFS(e.folder), "cases/*.md")
	if err != nil || len(names) == 0 {
		e.t.Fatal("there is no case left", err)
	}
	return names[e.r.IntN(len(names))]
}

// replace changes the first of a text in one of the cases.
func (e *edited) replace(from, to string) string {
	name := e.aCase()
	e.write(name, strings.Replace(e.read(name), from, to, 1))
	return fmt.Sprintf("%s: %q for %q", name, to, from)
}

// edit makes one change, chosen by chance, and says which.
func (e *edited) edit() string {
	e.undo = filesOf(e.t, e.folder)
	n := e.r.IntN(1000)
	edits := []func() string{
		func() string {
			return e.replace("It is told again under", fmt.Sprintf("It is told once more, at %d mm, under", n))
		},
		func() string {
			return e.replace("It is told again under", "It is like [another]("+filepath.Base(e.aCase())+"), see")
		},
		func() string {
			return e.replace("It is told again under", "See [a moment](time:0:30) and [a choice](../decisions/small-pupil.md), and")
		},
		func() string { return e.replace("title: ", fmt.Sprintf("title: Again %d, ", n)) },
		func() string { return e.replace("summary: ", fmt.Sprintf("summary: Of %d mm. ", n%9)) },
		func() string { return e.replace("    event: ", "    during: sculpting\n    event: ") },
		func() string { return e.replace("surgeon: trainee", "surgeon: fellow") },
		func() string { return e.replace("technique: stop-and-chop", "technique: msics") },
		func() string { return e.replace("    chosen: go-on\n", "    point: small-pupil\n") },
		func() string { return e.replace("release: {", "unreleased: {") },
		func() string { return e.replace("consent: not-required", "consent: recorded") },
		e.addCase, e.deleteCase, e.renameCase, e.renumberCase,
		func() string {
			e.write("terms.yaml", strings.Replace(e.read("terms.yaml"), "label: ", fmt.Sprintf("label: New %d ", n), 1))
			return "a term's label"
		},
		func() string { e.write("logbook.csv", strings.Join(e.rows(50+n%30), "\n")+"\n"); return "the logbook" },
		func() string {
			e.write("decisions/small-pupil.md", strings.Replace(e.demo("decisions/small-pupil.md"), "title: ", fmt.Sprintf("title: No. %d. ", n), 1))
			return "a decision"
		},
		func() string {
			e.write("decisions/wound-burn.md", e.demo("decisions/wound-burn.md"))
			return "a decision more"
		},
		func() string { e.remove("decisions/wound-burn.md"); return "a decision less" },
		func() string {
			e.write("bank.yaml", strings.Replace(e.read("bank.yaml"), "show_source: yes", "show_source: no", 1))
			return "no sources"
		},
		func() string {
			e.write("bank.yaml", strings.Replace(e.read("bank.yaml"), "title: \"", fmt.Sprintf("title: \"Edition %d: ", n), 1)) // figures alone, in a row, would be somebody's number
			return "the bank's title"
		},
		func() string { e.remove("theme/pages/case.tmpl"); return "the theme's own page" },
		e.addTheme, e.damageHandout, e.damageCache,
	}
	return edits[e.r.IntN(len(edits))]()
}

func (e *edited) addCase() string {
	id := fmt.Sprintf("GB-%05d", e.next)
	e.next++
	c := &benchCase{benchWords: newBenchWords(), r: e.r}
	c.write(id)
	e.write("cases/"+strings.ToLower(id)+".md", c.out.String())
	return "add " + id
}

func (e *edited) deleteCase() string {
	name := e.aCase()
	e.remove(name)
	return "delete " + name
}

func (e *edited) renameCase() string {
	name := e.aCase()
	text := e.read(name)
	e.remove(name)
	e.write(strings.TrimSuffix(name, ".md")+"x.md", text)
	return "rename " + name
}

func (e *edited) renumberCase() string {
	e.next++
	return e.replace("case: GB-", fmt.Sprintf("case: GC-%d", e.next))
}

func (e *edited) addTheme() string {
	page, err := fs.ReadFile(themes.FS(), "pages/case.tmpl")
	if err != nil {
		e.t.Fatal(err)
	}
	settings := e.read("bank.yaml")
	if !strings.Contains(settings, "\ntheme: ") {
		e.write("bank.yaml", settings+"\ntheme: theme\n")
	}
	e.write("theme/pages/case.tmpl", string(page))
	e.write("theme/styles/99-own.css", fmt.Sprintf("main { max-width: %dem }\n", 30+e.r.IntN(20)))
	return "a theme"
}

// damageHandout changes bytes of one of the pages and keeps their number.
func (e *edited) damageHandout() string {
	pages, err := filepath.Glob(filepath.Join(e.out, "cases", "*.html"))
	if err != nil || len(pages) == 0 {
		e.t.Fatal("no pages", err)
	}
	name := pages[e.r.IntN(len(pages))]
	data, err := os.ReadFile(name)
	if err != nil {
		e.t.Fatal(err)
	}
	e.overwrite(name, bytes.ToUpper(data))
	return "damage " + name
}

func (e *edited) damageCache() string {
	files, err := filepath.Glob(filepath.Join(e.cache, "*"))
	if err != nil || len(files) == 0 {
		e.t.Fatal("no cache", err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			e.t.Fatal(err)
		}
		data[e.r.IntN(len(data))] ^= 0xff
		if err := os.WriteFile(name, data, 0o600); err != nil {
			e.t.Fatal(err)
		}
	}
	return "damage the cache"
}

// build builds with what the last build left; false where the edit made an error
// in the bank, which is then undone.
func (e *edited) build() bool {
	e.t.Helper()
	files := os.DirFS(e.folder)
	options := builder.Options{Out: e.out, BankFiles: files}
	options.Memory = builder.OpenMemory(e.cache, e.folder, options)
	e.carried = 0
	if _, unchanged := options.Memory.Unchanged(); unchanged {
		return true
	}
	bank, found, err := content.ReadWith(files, content.Options{Memo: &e.memo})
	if err != nil {
		e.t.Fatal(err)
	}
	_, afresh, err := content.Read(files)
	if err != nil {
		e.t.Fatal(err)
	}
	if got, want := said(e.t, found), said(e.t, afresh); got != want {
		e.t.Errorf("reading with what the last reading found says\n%s\nand reading afresh\n%s", got, want)
	}
	if found.Failed() {
		e.restore()
		return false
	}
	summary, err := builder.Build(bank, options)
	if err != nil {
		e.t.Fatalf("sequence %d: %v", e.seed, err)
	}
	e.carried = summary.Carried
	options.Memory.Keep(builder.Past{Summary: summary})
	return true
}

func (e *edited) restore() {
	for name := range filesOf(e.t, e.folder) {
		if _, was := e.undo[name]; !was {
			e.remove(name)
		}
	}
	for name, data := range e.undo {
		e.write(name, string(data))
	}
}

// compare builds from nothing and says how the two handouts differ.
func (e *edited) compare() string {
	e.t.Helper()
	build(e.t, os.DirFS(e.folder), e.beside)
	got, want := filesOf(e.t, e.out), filesOf(e.t, e.beside)
	for name, data := range want {
		if !bytes.Equal(got[name], data) {
			return fmt.Sprintf("%s is not what a build from nothing makes", name)
		}
	}
	if len(got) != len(want) {
		return fmt.Sprintf("%d files, %d by a build from nothing", len(got), len(want))
	}
	return ""
}
