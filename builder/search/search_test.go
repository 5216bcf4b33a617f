package search

import (
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"caseleaf/content/privacy"
	"caseleaf/content/term"

	"github.com/google/go-cmp/cmp"
)

// What a reader types and what an author wrote fold alike. From memory of the
// Unicode forms; the S-stemmer's exceptions are Harman's.
func TestWords(t *testing.T) {
	for _, c := range []struct {
		reason, text string
		want         []string
	}{
		{"case and accents", "Irís PROLÁPSE", []string{"iris", "prolapse"}},
		{"two spellings", "haemorrhage hemorrhage oedema edema", []string{"hemorrhage", "hemorrhage", "edema", "edema"}},
		{"plurals", "hooks iris pus class gas", []string{"hook", "iris", "pus", "class", "gas"}},
		{"signs part words", "side-port I/A 6/24", []string{"side", "port", "i", "a", "6", "24"}},
		{"full width and ligatures", "ＰＣＲ ﬁbre", []string{"pcr", "fibre"}},
		{"letters without parts", "Straße Øre Łódź", []string{"strasse", "ore", "lodz"}},
		{"Greek", "ΦΑΚΟΣ φακός", []string{"φακοσ", "φακοσ"}},
		{"Cyrillic", "ещё ЕЩЕ", []string{"еще", "еще"}},
		{"Arabic", "تمزّق المحفظة أُدخلت", []string{"تمزق", "المحفظه", "ادخلت"}},
		{"Hebrew", "קֶרַע ם", []string{"קרע", "מ"}},
		{"Han in pairs", "后囊破裂", []string{"后囊", "囊破", "破裂"}},
		{"one letter of a script without spaces", "囊", []string{"囊"}},
		{"two scripts in a run", "IOL度数", []string{"iol", "度数"}},
		{"kana keep their marks", "ガラス", []string{"ガラ", "ラス"}},
		{"Hangul", "파열", []string{"파열"}},
		{"nothing", " —… ", nil},
	} {
		if diff := cmp.Diff(c.want, Words(c.text)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.reason, diff)
		}
	}
}

// decode is the script's way of reading numbers.
func decode(text string) []int {
	var out []int
	lead := 0
	for i := range len(text) {
		v := strings.IndexByte(symbols, text[i])
		if v >= stoppers {
			lead = lead*continues + v - stoppers + 1
			continue
		}
		out = append(out, lead*stoppers+v)
		lead = 0
	}
	return out
}

func TestNumbers(t *testing.T) {
	var want []int
	var text []byte
	for _, n := range []int{0, 1, 31, 32, 33, 351, 352, 353, 5000, 70000, 1 << 30} {
		want = append(want, n)
		text = appendNumber(text, n)
	}
	for n := range 20000 {
		want = append(want, n)
		text = appendNumber(text, n)
	}
	if diff := cmp.Diff(want, decode(string(text))); diff != "" {
		t.Error(diff)
	}
}

// Nothing that is coded can look like a name, a number or an address to the
// last look at the written files.
func TestSymbolsLookLikeNobody(t *testing.T) {
	scan := privacy.New(privacy.Options{}).NewOutput()
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		var text strings.Builder
		for range 10000 {
			text.WriteByte(symbols[r.IntN(len(symbols))])
		}
		if found := scan.Scan("search/found-0.js", call("found", 0, text.String())); len(found) > 0 {
			t.Fatalf("%+v", found[0])
		}
	}
}

// The same documents give the same bytes, every file is one call with data that
// JSON reads, and what is hidden is in no text.
func TestFiles(t *testing.T) {
	make := func() []File {
		b := NewBuilder(term.Cataract().All())
		b.Add(Document{Path: "a.html", Title: "Posterior capsule tear", Term: "posterior-capsule-tear", Passages: []Passage{
			{Field: Sign, Text: "A bright line \u2028 </script> \xff", Anchor: "t-1"}, {Field: Text, Text: "Secretly done", Hidden: true},
		}})
		b.Add(Document{Path: "b.html", Title: "IFIS", Tags: []string{"floppy-iris-syndrome", "no-such-term"}})
		files, stats := b.Files()
		if want := int64(len("Posterior capsule tear") + len("A bright line \u2028 </script> \xff") + len("Secretly done") + len("IFIS")); stats.Covered != want {
			t.Errorf("covered %d, want %d", stats.Covered, want)
		}
		return files
	}
	files := make()
	if diff := cmp.Diff(files, make()); diff != "" {
		t.Error(diff)
	}
	for _, f := range files {
		args, ok := strings.CutPrefix(strings.TrimSuffix(string(f.Data), ")\n"), "handoutSearch(")
		if !ok || !json.Valid([]byte("["+args+"]")) {
			t.Errorf("%s is no call: %.60s", f.Path, f.Data)
		}
		if strings.HasPrefix(f.Path, Folder+"text-") && strings.Contains(args, "Secretly") {
			t.Errorf("%s shows what is hidden", f.Path)
		}
	}
}
