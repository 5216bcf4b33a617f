package builder

import (
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"caseleaf/content"
	"caseleaf/content/privacy"
	"caseleaf/content/term"
	"caseleaf/themes"
)

var (
	saidInCode  = regexp.MustCompile(`(?:say|look|text|list|add|moment|hide)\("([a-z0-9-]+)"[,)]`)
	saidInTable = regexp.MustCompile(`"(not-known|not-given|not-acted|recording-cut|count-[a-z]+|width|length|diameter|pupil|ex-[a-z0-9-]+|book-first|sure-[0-3])"`)
	drawnInCode = regexp.MustCompile(`"(draw-[a-z0-9-]+)"`)
	saidInPage  = regexp.MustCompile(`\.Word "([a-z0-9-]+)"`)
)

// madeKeys are the keys that code makes from a value, by their beginnings.
func madeKeys() map[string][]string {
	kinds := []string{}
	for _, k := range term.Kinds() {
		kinds = append(kinds, string(k))
	}
	grades := []string{}
	for _, g := range content.Grades() {
		grades = append(grades, string(g))
	}
	classes := []string{}
	for _, c := range privacy.Classes() {
		classes = append(classes, string(c))
	}
	return map[string][]string{
		"term-": kinds, "grade-": grades, "eye-": {"right", "left"}, "sex-": {"male", "female", "other"},
		"clock-frame-": {"surgeon", "anatomical"}, "kind-": {"step", "event", "finding", "decision"},
		"capsule-":   {"intact", "anterior-tear", "posterior-tear", "zonular-loss"},
		"lens-":      {"in-the-bag", "sulcus", "sulcus-captured", "anterior-chamber", "iris-fixated", "scleral-fixated", "none"},
		"per-":       {"station", "group", "participant"},
		"draw-kind-": {"step", "event", "finding", "decision"},
		"draw-":      {"cf-full", "hm-full", "lp-full", "nlp-full"},
		"draw-face-": {"right", "left", "right-superior", "left-superior", "right-temporal", "left-temporal",
			"surgeon-right", "surgeon-left"},
		"part-":   slices.Concat(caseParts, decisionParts),
		"pooled-": {"no-strata", "none-both", "no-events", "one-sided"},
		"class-":  classes,
		"prose-":  {"table", "notes", "note", "back"},
		"period-": {"hours", "days", "weeks", "months", "years"},
	}
}

// usedKeys are the keys that code and templates say.
func usedKeys(t *testing.T) map[string]bool {
	t.Helper()
	used := map[string]bool{}
	collect := func(fsys fs.FS, pattern string, forms ...*regexp.Regexp) {
		files, err := fs.Glob(fsys, pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %v, %d files", pattern, err, len(files))
		}
		for _, name := range files {
			data, err := fs.ReadFile(fsys, name)
			if err != nil {
				t.Fatal(err)
			}
			if strings.HasSuffix(name, "_test.go") || strings.HasPrefix(name, "words_") {
				continue
			}
			for _, form := range forms {
				for _, m := range form.FindAllStringSubmatch(string(data), -1) {
					used[m[1]] = true
				}
			}
		}
	}
	collect(os.DirFS("."), "*.go", saidInCode, saidInTable)
	collect(os.DirFS("figure"), "*.go", drawnInCode)
	for key := range used {
		if strings.HasSuffix(key, "-") { // the beginning of a made key
			delete(used, key)
		}
	}
	collect(themes.FS(), "layout.tmpl", saidInPage)
	collect(themes.FS(), "pages/*.tmpl", saidInPage)
	for beginning, ends := range madeKeys() {
		for _, end := range ends {
			used[beginning+end] = true
		}
	}
	return used
}

// Every key that is said has words in every language, and no words are left
// over that nothing says.
func TestWordsAreComplete(t *testing.T) {
	used := usedKeys(t)
	for language, w := range tables {
		for key := range used {
			if _, ok := w.phrases[key]; !ok {
				t.Errorf("%s: no words for %q", language, key)
			}
		}
		for key := range w.phrases {
			if !used[key] {
				t.Errorf("%s: nothing says %q", language, key)
			}
		}
	}
}

// Every phrase is well formed: saying it leaves no mark of a bad verb.
func TestWordsAreWellFormed(t *testing.T) {
	for language, w := range tables {
		for key := range w.phrases {
			for _, n := range []int{0, 1, 2, 5} {
				got := w.say(key, n, n, n, n, n, n)
				if strings.Contains(got, "%!") && !strings.Contains(got, "%!(EXTRA") && !strings.Contains(got, "%!s(int") {
					t.Errorf("%s: %s: %q", language, key, got)
				}
				if got == key && strings.Contains(key, "-") {
					t.Errorf("%s: %s says its own key", language, key)
				}
			}
		}
	}
}

func TestCounted(t *testing.T) {
	w := wordsIn("en-GB")
	for n, want := range map[int]string{1: "One event in the cases began so.", 2: "2 events in the cases began so."} {
		if got := w.say("began-here", n); got != want {
			t.Errorf("%d: got %q, want %q", n, got, want)
		}
	}
	if got, want := w.number(1500), "1,500"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if _, err := w.look("no-such-key"); err == nil {
		t.Error("an unknown key was not refused")
	}
	if wordsIn("xx") != wordsIn("en") || wordsIn("") != wordsIn("en") {
		t.Error("a language without a table does not get English")
	}
}
