package builder

import (
	"fmt"
	"maps"
	"strings"
	"sync"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/message/catalog"

	"caseleaf/content"
	"caseleaf/content/measure"
)

// phrases is the interface of one language: every word on a page that is
// neither an author's nor the vocabulary's. words_en.go is the first; another
// language is another table with the same keys.
type phrases map[string]catalog.Message

// words is the interface in one language.
type words struct {
	direction string // ltr or rtl
	phrases   phrases
	printer   *message.Printer
	fast      *quickWords
}

// counted is a phrase whose first argument is a number, in two forms.
func counted(one, other string) catalog.Message {
	return plural.Selectf(1, "%d", plural.One, one, plural.Other, other)
}

// tables are the languages the interface has. A handout in another language
// gets English. What the terminal says is English in every language.
var tables = map[string]*words{
	"en": newWords(language.BritishEnglish, "ltr", english, englishFrequencies, englishDecisions, englishFigures, englishPaper, englishPack, englishExercise, englishSearch, englishCourses, englishClasses),
	// Digits 0 to 9 in Arabic too, and not the tag's own choice: see words_ar.go.
	"ar": newWords(language.MustParse("ar-u-nu-latn"), "rtl", arabic, arabicHandout, arabicFrequencies, arabicDecisions, arabicFigures, arabicPaper, arabicPack, arabicExercise, arabicSearch, arabicCourses, arabicClasses),
}

func newWords(tag language.Tag, direction string, parts ...phrases) *words {
	book := catalog.NewBuilder(catalog.Fallback(tag))
	p := phrases{}
	for _, part := range parts {
		maps.Copy(p, part)
	}
	for key, m := range p {
		if err := book.Set(tag, key, m); err != nil {
			// Only a malformed plural can fail; a test says every phrase of every table.
			continue
		}
	}
	return &words{direction: direction, phrases: p, printer: message.NewPrinter(tag, message.Catalog(book)), fast: newQuickWords(p)}
}

// wordsIn returns the interface in a language, by the tag of bank.yaml.
func wordsIn(tag string) *words {
	if w, ok := wordsAsked.Load(tag); ok {
		if known, ok := w.(*words); ok {
			return known
		}
	}
	w := tables["en"]
	base, _ := language.Make(tag).Base()
	if own, ok := tables[base.String()]; ok {
		w = own
	}
	wordsAsked.Store(tag, w)
	return w
}

// wordsAsked keeps answers of wordsIn: taking a tag apart costs more than most
// phrases, and a page asks for hundreds. A program meets few tags.
var wordsAsked sync.Map // tag to *words

func (s *Site) words() *words { return wordsIn(s.Bank.Settings.Language.Or("en")) }

// look returns the phrase for a key with its arguments filled in.
func (w *words) look(key string, args ...any) (string, error) {
	if _, ok := w.phrases[key]; !ok {
		return "", fmt.Errorf("no words for %q", key)
	}
	if text, ok := w.quick(key, args); ok {
		return text, nil
	}
	return w.printer.Sprintf(message.Key(key, key), args...), nil
}

// say is look for keys that are in the code: a test holds every one of them to
// the tables, so a missing key shows as itself and stops nothing.
func (w *words) say(key string, args ...any) string {
	text, err := w.look(key, args...)
	if err != nil {
		return key
	}
	return text
}

// list joins the items of a list.
func (w *words) list(items []string) string { return strings.Join(items, w.say("list-comma")) }

// clauses joins the items of a list that may hold commas themselves.
func (w *words) clauses(items []string) string {
	return strings.Join(items, w.say("list-semicolon"))
}

// number writes a whole number with its thousands parted.
func (w *words) number(n int) string { return w.printer.Sprint(n) }

// missing says why there is no value: not known, none, or not given.
func (w *words) missing(state content.State) string {
	switch state {
	case content.Unknown:
		return w.say("not-known")
	case content.None:
		return w.say("none")
	}
	return w.say("not-given")
}

// given is a text as its author gave it, or why there is none.
func (w *words) given(g content.Given[string]) string {
	if g.Known() {
		return g.Value
	}
	return w.missing(g.State)
}

// time is a time of the recording, or that it is not known. A time that was
// left out is no better known than one called unknown.
func (w *words) time(t content.Given[measure.Time]) string {
	switch t.State {
	case content.Known:
		return t.Value.String()
	case content.None:
		return w.say("not-acted")
	}
	return w.say("not-known")
}

// delay is a delay in words, or why it cannot be told.
func (w *words) delay(d delay) string {
	if d.Why != "" {
		return w.say(d.Why)
	}
	return d.Value.String()
}

// lasted says how long a step took, or why that cannot be told.
func (w *words) lasted(p content.StepSpan) string {
	d, ok := p.Duration()
	switch {
	case ok:
		return w.say("lasted", d.String())
	case p.Cut:
		return w.say("lasted-cut")
	}
	return w.say("lasted-unknown")
}

func (w *words) grade(g content.Grade) string {
	if g == "" {
		return w.say("not-given")
	}
	return w.say("grade-" + string(g))
}

func (w *words) yesNo(yes bool) string {
	if yes {
		return w.say("yes")
	}
	return w.say("no")
}
