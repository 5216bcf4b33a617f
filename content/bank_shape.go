package content

import (
	"strings"

	"caseleaf/content/diagnose"
	"caseleaf/content/term"

	"gopkg.in/yaml.v3"
)

var settingsFields = &shape[Settings]{
	name: "bank.yaml", doc: "What holds for the whole bank.",
	fields: []field[Settings]{
		must(one("title", "title of the handout", text, func(s *Settings) *Given[string] { return &s.Title })),
		like(one("edition", "name of the edition", text, func(s *Settings) *Given[string] { return &s.Edition }), "2026"),
		like(one("language", "language of the pages, as a BCP 47 tag", languageTag, func(s *Settings) *Given[string] { return &s.Language }), "en"),
		one("invented", "whether every page says that the data are invented", yesNo, func(s *Settings) *Given[bool] { return &s.Invented }),
		one("notice", "a sentence for the foot of every page", text, func(s *Settings) *Given[string] { return &s.Notice }),
		like(one("reference_technique", "technique that the others are compared with", techniqueTerm, func(s *Settings) *Given[string] { return &s.ReferenceTechnique }), "divide-and-conquer"),
		one("vocabulary", "built-in vocabulary to start from", oneOf("cataract", "none"), func(s *Settings) *Given[string] { return &s.Vocabulary }),
		groups("strata", "risk strata of the logbook", func() *shape[Stratum] { return stratumFields }, func(s *Settings) *[]Stratum { return &s.Strata }),
		group("small_count", "rule by which small counts are hidden", func() *shape[SmallCount] { return smallCountFields }, func(s *Settings) *SmallCount { return &s.SmallCount }),
		one("rare_combination", "warn where fewer cases than this share a combination of published facts", whole(1, 1000, "a count"), func(s *Settings) *Given[int] { return &s.RareCombination }),
		like(many("rare", "risk factors and kinds of cataract met in 5 of 10,000 people or fewer", termOf(term.RiskFactor, term.CataractType), func(s *Settings) *[]Given[string] { return &s.Rare }), "subluxated-lens"),
		many("cautions", "cautions printed in front", text, func(s *Settings) *[]Given[string] { return &s.Cautions }),
		groups("booklets", "cases to print as one document, for participants and for tutors; left out, one booklet holds every case", func() *shape[Booklet] { return bookletFields }, func(s *Settings) *[]Booklet { return &s.Booklets }),
		one("show_source", "whether case pages show their source", yesNo, func(s *Settings) *Given[bool] { return &s.ShowSource }),
		one("ask_signs", "whether readers are asked for the first sign before it is shown", yesNo, func(s *Settings) *Given[bool] { return &s.AskSigns }),
		one("theme", "folder of the bank laid over the built-in theme", text, func(s *Settings) *Given[string] { return &s.Theme }),
		group("privacy", "what the privacy check is told about the bank", func() *shape[PrivacySettings] { return privacyFields }, func(s *Settings) *PrivacySettings { return &s.Privacy }),
		exceptionsField(func(s *Settings) *[]PrivacyException { return &s.Exceptions }),
	},
	place: place(func(s *Settings) *diagnose.Span { return &s.Span }),
	check: func(r *reader, _ *yaml.Node, s *Settings) {
		uniqueIDs(r, s.Booklets, "booklet", func(b *Booklet) Given[string] {
			id := b.ID
			id.Value = strings.ToLower(id.Value) // files are named after it
			return id
		})
	},
}

var bookletFields = &shape[Booklet]{
	name: "a booklet", doc: "Cases to print as one document. Those that any of the lists chooses are in it; without a list, all are.",
	fields: []field[Booklet]{
		must(like(one("id", "names its files", identifier, func(b *Booklet) *Given[string] { return &b.ID }), "capsule")),
		must(like(one("title", "printed on the cover", text, func(b *Booklet) *Given[string] { return &b.Title }), "When the capsule tears")),
		like(many("cases", "cases, in the order of printing", identifier, func(b *Booklet) *[]Given[string] { return &b.Cases }), "HB-001"),
		many("steps", "cases in which an event began, or a decision was met, in one of these steps", termOf(term.Step), func(b *Booklet) *[]Given[string] { return &b.Steps }),
		many("complications", "cases that met one of these complications", termOf(term.Complication), func(b *Booklet) *[]Given[string] { return &b.Complications }),
		many("techniques", "cases operated by one of these techniques", techniqueTerm, func(b *Booklet) *[]Given[string] { return &b.Techniques }),
	},
	place: place(func(b *Booklet) *diagnose.Span { return &b.Span }),
}

var stratumFields = &shape[Stratum]{
	name: "a stratum", doc: "One risk stratum of the logbook.",
	fields: []field[Stratum]{
		must(one("id", "as in the logbook's risk column", identifier, func(s *Stratum) *Given[string] { return &s.ID })),
		must(one("label", "as printed", text, func(s *Stratum) *Given[string] { return &s.Label })),
		one("definition", "who belongs to it", text, func(s *Stratum) *Given[string] { return &s.Definition }),
	},
	place: place(func(s *Stratum) *diagnose.Span { return &s.Span }),
}

var smallCountFields = &shape[SmallCount]{
	name: "small_count", doc: "Rule by which small counts are hidden.",
	fields: []field[SmallCount]{
		must(one("threshold", "counts from 1 to one less than this are hidden", whole(1, 100, "a count"), func(s *SmallCount) *Given[int] { return &s.Threshold })),
	},
}

var privacyFields = &shape[PrivacySettings]{
	name: "privacy", doc: "What the privacy check is told about the bank.",
	fields: []field[PrivacySettings]{
		many("eponyms", "surnames of the dead that the trade uses as words, one word each", eponym, func(p *PrivacySettings) *[]Given[string] { return &p.Eponyms }),
		like(many("url_allow", "hosts that stories may link to without a warning", hostName, func(p *PrivacySettings) *[]Given[string] { return &p.URLAllow }), "guidance.example.org"),
	},
}

// localTerms is terms.yaml.
type localTerms struct {
	Terms      []localTerm
	Watch      []localWatch
	Exceptions []PrivacyException
}

type localTerm struct {
	Span                                              diagnose.Span
	ID, Kind, Label, Abbreviation, Parent, Definition Given[string]
	Synonyms, Mishearings, Steps                      []Given[string]
	Bench                                             Given[bool]
}

type localWatch struct {
	Span                                                                 diagnose.Span
	Step, Complication, FirstSign, MisStep, FirstMove, Prevention, Ready Given[string]
}

var termsFields = &shape[localTerms]{
	name: "terms.yaml", doc: "Local additions to the vocabulary.",
	fields: []field[localTerms]{
		groups("terms", "local terms", func() *shape[localTerm] { return localTermFields }, func(t *localTerms) *[]localTerm { return &t.Terms }),
		groups("watch", "what can start in which step", func() *shape[localWatch] { return localWatchFields }, func(t *localTerms) *[]localWatch { return &t.Watch }),
		exceptionsField(func(t *localTerms) *[]PrivacyException { return &t.Exceptions }),
	},
}

var localTermFields = &shape[localTerm]{
	name: "a term", doc: "One term of the bank's own.",
	fields: []field[localTerm]{
		must(one("id", "lower-case words joined by hyphens", identifier, func(t *localTerm) *Given[string] { return &t.ID })),
		one("kind", "kind of term; left out where a built-in term is extended", oneOf(kindWords()...), func(t *localTerm) *Given[string] { return &t.Kind }),
		one("label", "as printed", text, func(t *localTerm) *Given[string] { return &t.Label }),
		many("synonyms", "other names", text, func(t *localTerm) *[]Given[string] { return &t.Synonyms }),
		one("abbreviation", "short form", text, func(t *localTerm) *Given[string] { return &t.Abbreviation }),
		many("mishearings", "what captions make of it", text, func(t *localTerm) *[]Given[string] { return &t.Mishearings }),
		one("parent", "term it belongs to", identifier, func(t *localTerm) *Given[string] { return &t.Parent }),
		one("definition", "in one sentence", text, func(t *localTerm) *Given[string] { return &t.Definition }),
		many("steps", "steps in which it can begin", identifier, func(t *localTerm) *[]Given[string] { return &t.Steps }),
		one("bench", "yes for what is used at the bench only and never in a patient: it is not listed among what to have ready", yesNo, func(t *localTerm) *Given[bool] { return &t.Bench }),
	},
	place: place(func(t *localTerm) *diagnose.Span { return &t.Span }),
}

var localWatchFields = &shape[localWatch]{
	name: "a watch row", doc: "What can start in a step, and its first sign.",
	fields: []field[localWatch]{
		must(one("step", "step", identifier, func(w *localWatch) *Given[string] { return &w.Step })),
		must(one("complication", "complication", identifier, func(w *localWatch) *Given[string] { return &w.Complication })),
		must(one("first_sign", "what is seen first", text, func(w *localWatch) *Given[string] { return &w.FirstSign })),
		one("misstep", "what usually sets it off", text, func(w *localWatch) *Given[string] { return &w.MisStep }),
		one("first_move", "what is generally done first", text, func(w *localWatch) *Given[string] { return &w.FirstMove }),
		one("prevention", "what prevents it", text, func(w *localWatch) *Given[string] { return &w.Prevention }),
		one("ready", "what to have ready", text, func(w *localWatch) *Given[string] { return &w.Ready }),
	},
	place: place(func(w *localWatch) *diagnose.Span { return &w.Span }),
}

func kindWords() []string {
	var words []string
	for _, k := range term.Kinds() {
		words = append(words, string(k))
	}
	return words
}
