package caption

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"caseleaf/content/term"

	"github.com/google/go-cmp/cmp"
	"gopkg.in/yaml.v3"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// TestGolden keeps what is written for one recording as it is, to be looked at
// when it changes.
func TestGolden(t *testing.T) {
	v := term.Cataract()
	r := File("", readFile(t, "msics-iris-prolapse.srt"), v, Options{})
	var text, page bytes.Buffer
	if err := WriteText(&text, r, v); err != nil {
		t.Fatal(err)
	}
	if err := WriteReview(&page, r, v); err != nil {
		t.Fatal(err)
	}
	for name, got := range map[string][]byte{"msics.md": WriteCase(r, v), "msics.txt": text.Bytes(), "msics.html": page.Bytes()} {
		path := filepath.Join("testdata", name)
		if *update {
			if err := os.MkdirAll("testdata", 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), string(got)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// TestReportShape: the keys of the JSON are those the command promises, and
// lists are lists even when empty.
func TestReportShape(t *testing.T) {
	data, err := json.Marshal(File("", []byte("[0:01] hello"), term.Cataract(), Options{}))
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(data, []byte("null")) {
		t.Errorf("null in %s", data)
	}
	r := File("", readFile(t, "white-intumescent-run-out.srt"), term.Cataract(), Options{})
	data, _ = json.Marshal(r)
	var m map[string][]map[string]any
	_ = json.Unmarshal(data, &m) // procedure is a string and stays out
	for list, keys := range map[string]string{
		"cues":        "index start end heard read",
		"corrections": "cue heard read term confidence applied",
		"steps":       "term start cue confidence",
		"events":      "term step began noticed acted cue",
		"findings":    "term present time cue",
		"decisions":   "time cue question options chosen because",
		"measures":    "step name value unit cue",
	} {
		if len(m[list]) == 0 {
			t.Errorf("no %s", list)
			continue
		}
		for _, k := range strings.Fields(keys) {
			if _, ok := m[list][0][k]; !ok {
				t.Errorf("%s lacks %s", list, k)
			}
		}
	}
}

// TestSameDraft: the number of processors makes no difference.
func TestSameDraft(t *testing.T) {
	track := hour(t)
	track.Cues = track.Cues[:300]
	draft := func(n int) string {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(n))
		data, _ := json.Marshal(Draft(track, term.Cataract(), Options{}))
		return string(data)
	}
	one := draft(1)
	if two := draft(2); one != two {
		t.Error("one and two processors draft differently")
	}
}

// caseParts splits a drafted case into front matter and body.
func caseParts(t testing.TB, text []byte) (map[string]any, string) {
	t.Helper()
	parts := strings.SplitN(string(text), "---\n", 3)
	if len(parts) != 3 || parts[0] != "" {
		t.Fatalf("no front matter in %.200s", text)
	}
	var m map[string]any
	if err := yaml.Unmarshal([]byte(parts[1]), &m); err != nil {
		t.Fatalf("front matter: %v\n%s", err, parts[1])
	}
	return m, parts[2]
}

// TestDraftedCases: sound YAML, times that never fall, known terms only, and
// every cue's time beside what was read from it.
func TestDraftedCases(t *testing.T) {
	v := term.Cataract()
	kindOf := map[string]term.Kind{"step": term.Step, "event": term.Complication}
	for _, k := range readKeys(t) {
		text := WriteCase(File("", readFile(t, k.File), v, Options{}), v)
		front, body := caseParts(t, text)
		if front["procedure"] != k.Procedure {
			t.Errorf("%s: procedure %v, want %s", k.File, front["procedure"], k.Procedure)
		}
		if !strings.Contains(body, "](time:") || !strings.Contains(body, "## ") {
			t.Errorf("%s: no narration by step", k.File)
		}
		for _, e := range front["timeline"].([]any) {
			entry := e.(map[string]any)
			for key, kind := range kindOf {
				if id, ok := entry[key].(string); ok {
					if tm, found := v.Get(id); !found || tm.Kind != kind {
						t.Errorf("%s: %s %q", k.File, key, id)
					}
				}
			}
		}
		last := -1.0
		for _, m := range regexp.MustCompile(`(?m)^  - (?:\{at|at): ([0-9:]+)`).FindAllStringSubmatch(string(text), -1) {
			s, ok := parseTime(m[1])
			if !ok || s < last {
				t.Errorf("%s: time %s after %s", k.File, m[1], clock(last))
			}
			last = s
		}
	}
}

// TestHandover: a change of operator is seen and a drug laid ready is not used.
func TestHandover(t *testing.T) {
	r := File("", readFile(t, "white-intumescent-run-out.srt"), term.Cataract(), Options{})
	if len(r.Operator) != 1 || r.Operator[0].Cue != 45 {
		t.Errorf("operator changes: %v", r.Operator)
	}
	r = File("", []byte("[0:01] drape and speculum in\n[0:08] have the vitrector in the room\n[0:12] side port with the blade"), term.Cataract(), Options{})
	for _, k := range r.Kit {
		if k.Term == "vitrector" && k.Used {
			t.Error("what stands ready counts as used")
		}
	}
}

// TestAnotherVocabulary: without a word of the trade nothing is made up, and a
// vocabulary of another operation is heard and followed.
func TestAnotherVocabulary(t *testing.T) {
	r := File("", readFile(t, "white-intumescent-run-out.srt"), term.Empty(), Options{})
	if len(r.Steps)+len(r.Events)+len(r.Corrections) > 0 {
		t.Errorf("%d steps, %d events, %d corrections out of nothing", len(r.Steps), len(r.Events), len(r.Corrections))
	}
	v, problems := term.Empty().With([]term.Term{
		{ID: "tendon-repair", Kind: term.Procedure, Label: "Tendon repair", Steps: []string{"tourniquet", "exploration", "core-suture", "skin-closure"}},
		{ID: "tourniquet", Kind: term.Step, Label: "Tourniquet", Mishearings: []string{"turn a key"}},
		{ID: "exploration", Kind: term.Step, Label: "Exploration"},
		{ID: "core-suture", Kind: term.Step, Label: "Core suture"},
		{ID: "skin-closure", Kind: term.Step, Label: "Skin closure"},
		{ID: "pulley-rupture", Kind: term.Complication, Label: "Pulley rupture", Steps: []string{"exploration"}},
	})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	r = File("", []byte("[0:01] turn a key up\n[0:20] exploration through the wound\n[0:40] oh that is a pulley rupture\n[0:50] core suture now\n[1:20] skin closure"), v, Options{})
	var steps []string
	for _, s := range r.Steps {
		steps = append(steps, s.Term)
	}
	if diff := cmp.Diff([]string{"tourniquet", "exploration", "core-suture", "skin-closure"}, steps); diff != "" {
		t.Errorf("steps (-want +got):\n%s", diff)
	}
	if len(r.Events) != 1 || r.Events[0].Term != "pulley-rupture" {
		t.Errorf("events: %v", r.Events)
	}
}

// TestMeetingDraft: of the names, paths and dates of field report FR-31 nothing
// is anywhere in what is written, and the report says that names were removed.
func TestMeetingDraft(t *testing.T) {
	v := term.Cataract()
	r := File("Example_John_1950.vtt", readFile(t, "fr-31-meeting.vtt"), v, Options{})
	var text, page bytes.Buffer
	_, _ = WriteText(&text, r, v), WriteReview(&page, r, v)
	data, _ := json.Marshal(r)
	all := string(data) + string(WriteCase(r, v)) + text.String() + page.String()
	for _, word := range []string{"Jane", "Sam", "Sample", "Example", "Users", "1950", "Theatre 3", "6f1d2c34", "align:start", "cue(v"} {
		if strings.Contains(all, word) {
			t.Errorf("%q is in the draft", word)
		}
	}
	if len(r.Removed) != 2 || r.Removed[0].Class != "name" {
		t.Errorf("removed: %v", r.Removed)
	}
}

// TestNameAcrossCues: a name cut by the end of a cue, and its return misheard.
func TestNameAcrossCues(t *testing.T) {
	in := "[0:01] today we have mrs edna\n[0:03] thorley for a cataract\n[0:09] side port\n[0:15] well done mrs thor lee"
	r := File("", []byte(in), term.Cataract(), Options{})
	for _, c := range r.Cues {
		for _, w := range []string{"edna", "thorley", "thor lee"} {
			if strings.Contains(c.Heard+c.Read, w) {
				t.Errorf("cue %d: %q", c.Index, w)
			}
		}
	}
}

func FuzzFile(f *testing.F) {
	for _, name := range []string{"fr-31-meeting.vtt", "fr-32-odd.srt"} {
		f.Add(readFile(f, name))
	}
	f.Add([]byte("[0:01] so that is a iris collapse two point four millimetres ten seconds ago\n[0:02] do we fix it or leave it because of x"))
	f.Add([]byte("[0:01] ] [ \" \\ # : - {a: b} | > ' \u2028 \x85"))
	v := smallVocabulary(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 2000 {
			return
		}
		r := File("x", data, v, Options{})
		caseParts(t, WriteCase(r, v))
		if _, err := json.Marshal(r); err != nil {
			t.Fatal(err)
		}
		for _, c := range r.Corrections {
			if _, ok := v.Get(c.Term); !ok || c.Confidence < lower || c.Confidence > 1 {
				t.Fatalf("correction %+v", c)
			}
		}
	})
}

// smallVocabulary is quick to listen with: the steps of one operation and a
// tenth of the rest.
func smallVocabulary(t testing.TB) *term.Vocabulary {
	steps := term.Cataract().Of(term.Step)
	var sequence []string
	for _, s := range steps {
		sequence = append(sequence, s.ID)
	}
	terms := []term.Term{{ID: "surgery", Kind: term.Procedure, Label: "Surgery", Steps: sequence}}
	for _, s := range steps {
		s.Parent = ""
		terms = append(terms, s)
	}
	for i, tm := range term.Cataract().All() {
		if tm.Kind != term.Step && i%10 == 0 {
			tm.Parent = ""
			terms = append(terms, tm)
		}
	}
	v, problems := term.Empty().With(terms)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return v
}
