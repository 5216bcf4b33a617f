package builder

import (
	"fmt"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message/catalog"
)

var placeholder = regexp.MustCompile(`%(\[\d\])?[a-z]`)

// forms gives the texts of a phrase, by the plural form where it has several.
func forms(m catalog.Message) map[plural.Form]string {
	v := reflect.ValueOf(m)
	if v.Kind() == reflect.String {
		return map[plural.Form]string{plural.Other: v.String()}
	}
	out := map[plural.Form]string{}
	cases := v.Elem().FieldByName("cases")
	for i := 0; i+1 < cases.Len(); i += 2 {
		out[plural.Form(cases.Index(i).Elem().Uint())] = cases.Index(i + 1).Elem().String()
	}
	return out
}

// placeholders lists what a phrase fills in, over all its forms.
func placeholders(m catalog.Message) []string {
	found := map[string]bool{}
	for _, text := range forms(m) {
		for _, p := range placeholder.FindAllString(strings.ReplaceAll(text, "%%", ""), -1) {
			found[p] = true
		}
	}
	return slices.Sorted(maps.Keys(found))
}

// Every language has the keys of English, no more and no fewer, and fills in the same. A
// phrase that counts may name its number in a language in which English does not have to.
func TestLanguagesSayTheSame(t *testing.T) {
	english := tables["en"].phrases
	for name, w := range tables {
		for key, m := range english {
			other, ok := w.phrases[key]
			if !ok {
				t.Errorf("%s: no words for %q", name, key)
				continue
			}
			want, got := placeholders(m), placeholders(other)
			if len(forms(other)) > 1 {
				want, got = without(want, "%[1]d"), without(got, "%[1]d")
			}
			if !slices.Equal(got, want) {
				t.Errorf("%s: %q fills in %v, English %v", name, key, got, want)
			}
		}
		for key := range w.phrases {
			if _, ok := english[key]; !ok {
				t.Errorf("%s: %q is not a key of English", name, key)
			}
		}
	}
}

func without(list []string, item string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(s string) bool { return s == item })
}

// A phrase that counts has every plural form of its language (CLDR plural rules, cardinal:
// English one and other; Arabic zero, one, two, few, many, other), and each form speaks of
// its number: one whose nouns would need another form does not say it.
func TestPluralForms(t *testing.T) {
	want := map[string][]plural.Form{
		"en": {plural.Other, plural.One},
		"ar": {plural.Other, plural.Zero, plural.One, plural.Two, plural.Few, plural.Many},
	}
	for name, w := range tables {
		counted := 0
		for key, m := range w.phrases {
			f := forms(m)
			if len(f) == 1 {
				if _, inEnglish := forms(tables["en"].phrases[key])[plural.One]; inEnglish && strings.Contains(f[plural.Other], "%[1]d") && !strings.Contains(f[plural.Other], ": %[1]d") {
					t.Errorf("%s: %q counts and has one form", name, key)
				}
				continue
			}
			counted++
			if got := slices.Sorted(maps.Keys(f)); !slices.Equal(got, want[name]) {
				t.Errorf("%s: %q has the forms %v, want %v", name, key, got, want[name])
			}
			for form, text := range f {
				if strings.TrimSpace(text) == "" || strings.Contains(text, "{}") {
					t.Errorf("%s: %q has no words for form %d: %q", name, key, form, text)
				}
			}
		}
		if counted < 30 {
			t.Errorf("%s: only %d phrases count", name, counted)
		}
	}
}

// What Arabic counts agrees with its number. The forms are those of the school grammar: the
// singular and the dual without a number, the plural from 3 to 10, the accusative singular
// from 11 to 99, the genitive singular after a hundred. From memory.
func TestArabicCounts(t *testing.T) {
	w := wordsIn("ar-EG")
	for n, want := range map[int]string{
		0: "0 حدث", 1: "حدث واحد", 2: "حدثان", 3: "3 أحداث", 10: "10 أحداث", 11: "11 حدثًا", 99: "99 حدثًا",
		100: "100 حدث", 103: "103 أحداث", 111: "111 حدثًا",
	} {
		if got := w.say("draw-n-events", n); got != want {
			t.Errorf("%d: got %q, want %q", n, got, want)
		}
	}
	if got, want := w.number(12345), "12,345"; got != want {
		t.Errorf("got %q, want the digits of the rest of the page: %q", got, want)
	}
	for n := range 130 {
		for key := range w.phrases {
			if got := w.say(key, n, "ا", "ا", "ا", "ا", "ا"); strings.ContainsAny(got, "٠١٢٣٤٥٦٧٨٩") {
				t.Fatalf("%s with %d: %q has digits that the page does not use", key, n, got)
			}
		}
	}
}

// The direction of a language is that of its script, by x/text.
func TestDirections(t *testing.T) {
	for name, w := range tables {
		script, _ := language.Make(name).Script()
		right := slices.Contains([]string{"Arab", "Hebr", "Syrc", "Thaa", "Nkoo"}, script.String())
		if got := w.direction; got != map[bool]string{true: "rtl", false: "ltr"}[right] {
			t.Errorf("%s is written in %s and has direction %s", name, script, got)
		}
	}
}

// No phrase of Arabic is left in English: Latin letters stand only in names, abbreviations,
// symbols and file names.
func TestArabicIsArabic(t *testing.T) {
	latin := regexp.MustCompile(`[A-Za-z][A-Za-z.]*`)
	stays := strings.Fields("n mm m p s min logMAR CF HM LP NLP CSV SVG EPUB zip html index.html index manifest.json bank.yaml search Escape " +
		"Windows macOS SHA caseleaf check Wilson Newcombe Mantel Haenszel Sato Robins Breslow Greenland Spiegelhalter Beta Dirichlet " +
		"Hyndman and Fan Am Stat")
	for key, m := range tables["ar"].phrases {
		for _, text := range forms(m) {
			for _, word := range latin.FindAllString(placeholder.ReplaceAllString(text, ""), -1) {
				if !slices.Contains(stays, strings.Trim(word, ".")) && !slices.Contains(stays, word) {
					t.Errorf("%s: %q in %q", key, word, text)
				}
			}
		}
	}
}

// Every note that a table of comparisons can hold has words on the page.
func TestPooledNotesHaveWords(t *testing.T) {
	for text, key := range pooledKeys {
		if got := tables["en"].say(key); got != text {
			t.Errorf("%s says %q, the table %q", key, got, text)
		}
		if got := tables["ar"].note(text); got == text || got == key {
			t.Errorf("%s: %q is not translated", key, text)
		}
	}
	if got := fmt.Sprint(tables["ar"].note("another")); got != "another" {
		t.Errorf("an unknown note became %q", got)
	}
}
