package caption

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"caseleaf/content/term"
)

// key is the answer key beside a caption file, written by hand with the
// invented recording; see the trade reference.
type key struct {
	File        string
	Procedure   string
	Corrections []struct {
		Cue          int
		Wrong, Right string
	}
	Steps []struct {
		ID    string
		Start float64
	}
	Events []struct {
		ID                    string
		Began, Noticed, Acted *float64
	}
	Decisions []struct {
		ID   string
		Time float64
	}
	Identifiers []struct{ Text string }
	Traps       []struct {
		Cue int
		Why string
	}

	dir string // where the key and its file lie
}

// heard reads the caption file of a key.
func (k key) heard(t testing.TB) []byte {
	data, err := os.ReadFile(filepath.Join(k.dir, k.File))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func readKeys(t testing.TB) []key { return readKeysIn(t, captionDir) }

// readKeysIn reads every key in a folder.
func readKeysIn(t testing.TB, dir string) []key {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(dir, "*.key.json"))
	if err != nil || len(names) == 0 {
		t.Fatalf("%d keys: %v", len(names), err)
	}
	var keys []key
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		var k key
		if err := json.Unmarshal(data, &k); err != nil {
			t.Fatalf("%s: %v", n, err)
		}
		k.dir = dir
		keys = append(keys, k)
	}
	return keys
}

// score is how far a draft agrees with a key.
type score struct {
	right, made, wanted  int // corrections: cue and term agree
	steps, stepsWanted   int
	off                  []float64 // of the starts of steps found, seconds
	events, eventsMade   int
	eventsWanted         int
	times, timesWanted   int // began, noticed, acted within ten seconds
	decisions, decWanted int // within 20 seconds
	decMade              int
	leaks                int
}

func (s *score) add(o score) {
	s.right, s.made, s.wanted = s.right+o.right, s.made+o.made, s.wanted+o.wanted
	s.steps, s.stepsWanted, s.off = s.steps+o.steps, s.stepsWanted+o.stepsWanted, append(s.off, o.off...)
	s.events, s.eventsMade, s.eventsWanted = s.events+o.events, s.eventsMade+o.eventsMade, s.eventsWanted+o.eventsWanted
	s.times, s.timesWanted = s.times+o.times, s.timesWanted+o.timesWanted
	s.decisions, s.decWanted, s.decMade = s.decisions+o.decisions, s.decWanted+o.decWanted, s.decMade+o.decMade
	s.leaks += o.leaks
}

func part(a, b int) float64 {
	if b == 0 {
		return 1
	}
	return float64(a) / float64(b)
}

func (s score) quantile(q float64) float64 {
	if len(s.off) == 0 {
		return math.Inf(1)
	}
	sorted := slices.Sorted(slices.Values(s.off))
	return sorted[int(math.Ceil(q*float64(len(sorted))))-1]
}

func (s score) String() string {
	return fmt.Sprintf("%4d/%-4d %.3f  %4d/%-4d %.3f  %3d/%-3d %5.1f %5.1f  %2d/%-2d (%d made)  %2d/%-2d  %2d/%-2d (%d made)  %d",
		s.right, s.made, part(s.right, s.made), s.right, s.wanted, part(s.right, s.wanted),
		s.steps, s.stepsWanted, s.quantile(0.5), s.quantile(0.9), s.events, s.eventsWanted, s.eventsMade,
		s.times, s.timesWanted, s.decisions, s.decWanted, s.decMade, s.leaks)
}

const scoreHead = "file                            precision       recall          steps   median p90   events         times   decisions      leaks"

// measure drafts from the file of a key and compares. Every correction counts
// as made, also one that is only proposed.
func measure(t testing.TB, k key, v *term.Vocabulary) score {
	r := File(k.File, k.heard(t), v, Options{})
	var s score
	s.corrections(k, r)
	s.compareSteps(k, r)
	s.compareEvents(k, r)
	for _, want := range k.Decisions {
		s.decWanted++
		if slices.ContainsFunc(r.Decisions, func(d Decision) bool { return math.Abs(d.Time-want.Time) <= 20 }) {
			s.decisions++
		}
	}
	s.decMade = len(r.Decisions)
	left := leaks(t, k, r, v)
	if s.leaks = len(left); s.leaks > 0 {
		t.Logf("%s: left in: %q", k.File, left)
	}
	return s
}

func (s *score) corrections(k key, r Report) {
	s.wanted = len(k.Corrections)
	s.made = len(r.Corrections)
	left := make(map[string]int)
	for _, c := range k.Corrections {
		left[fmt.Sprint(c.Cue, c.Right)]++
	}
	for _, c := range r.Corrections {
		id := fmt.Sprint(c.Cue, c.Term)
		if left[id] > 0 {
			left[id]--
			s.right++
		}
	}
}

// compareSteps pairs each step of the key with the nearest of the same term.
func (s *score) compareSteps(k key, r Report) {
	taken := make([]bool, len(r.Steps))
	for _, want := range k.Steps {
		s.stepsWanted++
		best := -1
		for i, got := range r.Steps {
			if got.Term == want.ID && !taken[i] && (best < 0 || math.Abs(got.Start-want.Start) < math.Abs(r.Steps[best].Start-want.Start)) {
				best = i
			}
		}
		if best >= 0 {
			taken[best] = true
			s.steps++
			s.off = append(s.off, math.Abs(r.Steps[best].Start-want.Start))
		}
	}
}

func (s *score) compareEvents(k key, r Report) {
	s.eventsMade = len(r.Events)
	taken := make(map[int]bool)
	for _, want := range k.Events {
		s.eventsWanted++
		i := slices.IndexFunc(r.Events, func(e Event) bool { return e.Term == want.ID })
		for n, e := range r.Events { // one complication may come twice, in order
			if e.Term == want.ID && !taken[n] {
				i = n
				break
			}
		}
		if i >= 0 && !taken[i] {
			s.events++
			taken[i] = true
		}
		for n, w := range []*float64{want.Began, want.Noticed, want.Acted} {
			s.timesWanted++
			if i < 0 {
				continue
			}
			got := []*float64{r.Events[i].Began, r.Events[i].Noticed, r.Events[i].Acted}[n]
			if w == nil && got == nil || w != nil && got != nil && math.Abs(*w-*got) <= 10 {
				s.times++
			}
		}
	}
}

// leaks lists the words of planted identifiers that are anywhere in what is
// written.
func leaks(t testing.TB, k key, r Report, v *term.Vocabulary) []string {
	data, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	var page, text strings.Builder
	if err := WriteReview(&page, r, v); err != nil {
		t.Fatal(err)
	}
	if err := WriteText(&text, r, v); err != nil {
		t.Fatal(err)
	}
	inNames := make(map[string]bool) // a file called "wound burn two" leaves the talk of wound burns
	for _, t := range v.All() {
		for _, n := range names(t) {
			for _, w := range n {
				inNames[w] = true
			}
		}
	}
	all := strings.ToLower(string(data) + string(WriteCase(r, v)) + page.String() + text.String())
	var out []string
	for _, id := range k.Identifiers {
		if strings.Contains(all, strings.ToLower(id.Text)) {
			out = append(out, id.Text)
		}
		for _, w := range strings.Fields(strings.ToLower(id.Text)) {
			_, plain := surprise(w)
			if told := titles[w] || numberCues[w] || inNames[w]; !plain && !told && len(w) > 3 && regexp.MustCompile(`\b`+regexp.QuoteMeta(w)+`\b`).MatchString(all) {
				out = append(out, w)
			}
		}
	}
	return out
}

// figure is one of the figures the project asks for.
type figure struct {
	name       string
	got, least float64
}

// figures sets a score beside what is asked; times are negative, so that more
// is better in every row.
func (s score) figures() []figure {
	return []figure{
		{"precision of corrections", part(s.right, s.made), 0.95},
		{"recall of corrections", part(s.right, s.wanted), 0.85},
		{"steps found", part(s.steps, s.stepsWanted), 0.85},
		{"median start error (5 s at most)", -s.quantile(0.5), -5},
		{"90th percentile of it (20 s at most)", -s.quantile(0.9), -20},
		{"events found", part(s.events, s.eventsWanted), 0.9},
		{"times of events within 10 s", part(s.times, s.timesWanted), 0.7},
		{"decisions found", part(s.decisions, s.decWanted), 0.75},
		{"identifiers left (none)", -float64(s.leaks), 0},
	}
}

// scoreFolder prints the table of a folder of keyed files.
func scoreFolder(t *testing.T, dir string) score {
	var sum score
	t.Log(scoreHead)
	for _, k := range readKeysIn(t, dir) {
		s := measure(t, k, term.Cataract())
		t.Logf("%-30s %v", strings.TrimSuffix(k.File, filepath.Ext(k.File)), s)
		sum.add(s)
	}
	t.Logf("%-30s %v", "together", sum)
	return sum
}

// TestKeyedFiles prints and holds the figures the project asks for, over every
// file in testdata that has a key.
func TestKeyedFiles(t *testing.T) {
	for _, f := range scoreFolder(t, captionDir).figures() {
		if f.got < f.least {
			t.Errorf("%s: %.3f, want %.3f", f.name, f.got, f.least)
		}
	}
}

// TestTraps: nothing that is denied, supposed or asked becomes an event.
func TestTraps(t *testing.T) {
	for _, k := range readKeys(t) {
		r := File(k.File, readFile(t, k.File), term.Cataract(), Options{})
		for _, e := range r.Events {
			if !slices.ContainsFunc(k.Events, func(w struct {
				ID                    string
				Began, Noticed, Acted *float64
			}) bool {
				return w.ID == e.Term
			}) {
				t.Errorf("%s: event %s from cue %d is not in the key", k.File, e.Term, e.Cue)
			}
		}
	}
}
