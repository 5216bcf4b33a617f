package caption

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"caseleaf/content/term"

	"gopkg.in/yaml.v3"
)

// written is as much of a case as this test compares: what stands in its
// timeline and when.
type written struct {
	Procedure string
	Timeline  []struct {
		At, Step, Event, Finding, Decision, Noticed, Acted string
		Present                                            string
	}
}

// TestDemoCase drafts the captions of a demonstration case again. The case was
// finished by hand from such a draft, so what it says of steps, event and
// decision is the answer; the names and the date planted in the captions must
// be nowhere in what is written.
func TestDemoCase(t *testing.T) {
	v := term.Cataract()
	heard := readFile(t, "hb-033.srt")
	report := File("", heard, v, Options{})
	draft := WriteCase(report, v)
	finished, err := os.ReadFile(filepath.Join("..", "..", "casebank", "cases", "hb-033.md"))
	if err != nil {
		t.Fatal(err)
	}
	want, got := timelineOf(t, finished), timelineOf(t, draft)
	if got.Procedure != want.Procedure {
		t.Errorf("procedure %q, the finished case has %q", got.Procedure, want.Procedure)
	}
	// Bounds in seconds: those asked of the scored recordings.
	counts := make(map[string]int)
	for _, w := range want.Timeline {
		near := func(kind string, within float64, same func(i int) bool) {
			counts[kind]++
			for i, g := range got.Timeline {
				if same(i) && math.Abs(seconds(t, g.At)-seconds(t, w.At)) <= within {
					return
				}
			}
			t.Errorf("no %s like %+v within %v s in the draft", kind, w, within)
		}
		switch {
		case w.Step != "":
			near("step", 20, func(i int) bool { return got.Timeline[i].Step == w.Step })
		case w.Event != "":
			near("event", 10, func(i int) bool {
				g := got.Timeline[i]
				return g.Event == w.Event && apart(t, g.Noticed, w.Noticed) <= 10 && apart(t, g.Acted, w.Acted) <= 10
			})
		case w.Decision != "":
			near("decision", 20, func(i int) bool { return got.Timeline[i].Decision != "" && got.Timeline[i].Decision != "TODO" })
		case w.Finding == "hyphaema":
			near("finding", 10, func(i int) bool {
				return got.Timeline[i].Finding == w.Finding && got.Timeline[i].Present == w.Present
			})
		}
	}
	if counts["step"] < 10 || counts["event"] != 1 || counts["decision"] != 1 || counts["finding"] != 1 {
		t.Errorf("the finished case has %v", counts)
	}
	planted(t, heard, draft, report, v)
}

// planted looks for the invented name and date of the captions in everything
// that is written from them.
func planted(t *testing.T, heard, draft []byte, report Report, v *term.Vocabulary) {
	t.Helper()
	var text, page bytes.Buffer
	if err := WriteText(&text, report, v); err != nil {
		t.Fatal(err)
	}
	if err := WriteReview(&page, report, v); err != nil {
		t.Fatal(err)
	}
	list, err := json.Marshal(report)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{"case": draft, "report": text.Bytes(), "page": page.Bytes(), "JSON": list}
	for _, word := range []string{"wetherby", "fourteenth", "march", "twenty four"} {
		if !bytes.Contains(bytes.ToLower(bytes.ReplaceAll(heard, []byte("\n"), []byte(" "))), []byte(word)) {
			t.Errorf("%q is not in the captions", word)
		}
		for name, data := range out {
			if bytes.Contains(bytes.ToLower(data), []byte(word)) {
				t.Errorf("%q is in the %s", word, name)
			}
		}
	}
}

// timelineOf reads the front matter of a case with a plain YAML reader.
func timelineOf(t *testing.T, data []byte) written {
	t.Helper()
	parts := strings.SplitN(string(data), "---\n", 3)
	if len(parts) < 3 {
		t.Fatal("no front matter")
	}
	var w written
	if err := yaml.Unmarshal([]byte(parts[1]), &w); err != nil {
		t.Fatal(err)
	}
	return w
}

// apart is how far two times are from each other in seconds.
func apart(t *testing.T, a, b string) float64 {
	t.Helper()
	return math.Abs(seconds(t, a) - seconds(t, b))
}

// seconds reads m:ss; what is no time is far from everything.
func seconds(t *testing.T, s string) float64 {
	t.Helper()
	m, rest, ok := strings.Cut(s, ":")
	minutes, err1 := strconv.Atoi(m)
	secs, err2 := strconv.Atoi(rest)
	if !ok || err1 != nil || err2 != nil {
		return math.Inf(1)
	}
	return float64(60*minutes + secs)
}
