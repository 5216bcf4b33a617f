package content

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"
)

// What a case publishes of its patient: values of its keys, and what its texts
// say more exactly than those.

// trait is one published fact of a patient and where it stands.
type trait struct {
	privacy.Trait
	part       int // index of the file's part: 0 front matter, 1 body
	start, end int // in the part's text
}

// alwaysRare are built-in terms that 5 in 10,000 people or fewer have. Lenses
// displaced from birth: 0.6 in 10,000 (from memory); a bank's list adds to them.
var alwaysRare = []string{"subluxated-lens"}

// exactForms are what texts say of somebody that a band or nothing would serve.
// A year counts only after a word that dates something to it, so that years of
// trials pass. A text holds a form only where it is marked: that is looked for
// first, in the text in lower case. Of the letters, s has a second lower case.
var exactForms = []exactForm{
	{"the year in the text", yearMarked, regexp.MustCompile(`(?i)\b(?:in|since|during|until|from) ((?:19|20)\d\d)\b`)},
	{"the age in the text", marked("aged ", "age of ", "year"), regexp.MustCompile(`(?i)\b(?:aged |age of )([1-9]\d?)\b(?:[^-–\d]|$)|\b([1-9]\d?)[- ]years?[- ]old\b (?:man|woman|male|female|patient|person|lady|gentleman|boy|girl|child)`)},
	{"the occupation in the text", marked("works a", "workſ a", "worked a", "working a", "retired ", "by tr", "by prof"), regexp.MustCompile(`(?i)\b(?:works|worked|working) as (?:an?|the) (\p{L}+)|\b(?:a|the) retired (\p{L}+)|\b(\p{L}+) by (?:trade|profession)\b`)},
}

// marked reports texts that hold one of some marks.
func marked(marks ...string) func(lower string) bool {
	return func(lower string) bool {
		return slices.ContainsFunc(marks, func(mark string) bool { return strings.Contains(lower, mark) })
	}
}

// yearMarked reports texts that hold the beginning of a year, as far as the third
// figure.
func yearMarked(lower string) bool {
	for _, century := range []string{" 19", " 20"} {
		for rest := lower; ; {
			i := strings.Index(rest, century)
			if i < 0 {
				break
			}
			if rest = rest[i+len(century):]; rest != "" && rest[0] >= '0' && rest[0] <= '9' {
				return true
			}
		}
	}
	return false
}

type exactForm struct {
	field  string
	marked func(lower string) bool
	form   *regexp.Regexp // its first group is the value
}

// traits lists what a case can publish, in the order in which coarsening is
// tried: year, age, side, sex, kind of cataract, rare conditions.
func (g *gate) traits(c *Case, f *scanned) []trait {
	exact := exactTraits(c, f)
	given := func(t privacy.Trait, at diagnose.Span) trait { return f.place(t, at) }
	withheld := []string{""}
	all := exact[:1:1]
	all = append(all,
		given(privacy.Trait{Field: "patient.age_band", Value: c.Patient.AgeBand.Or(""), Coarser: coarserBand(c.Patient.AgeBand.Or(""))}, c.Patient.AgeBand.Span))
	all = append(all, exact[1:]...)
	return append(all,
		given(privacy.Trait{Field: "eye", Value: c.Eye.Or(""), Coarser: withheld}, c.Eye.Span),
		given(privacy.Trait{Field: "patient.sex", Value: c.Patient.Sex.Or(""), Coarser: withheld}, c.Patient.Sex.Span),
		given(g.cataract(c), c.Cataract.Type.Span),
		g.rareRisks(c, f))
}

// place finds a value of front matter in the text of its part.
func (f *scanned) place(t privacy.Trait, at diagnose.Span) trait {
	if t.Value == "" || at.Source == nil {
		return trait{Trait: t}
	}
	start := f.src.Offset(at.Line(), at.Column()) - f.parts[0].at
	end := f.src.Offset(at.Line(), at.Column()+at.Length()) - f.parts[0].at
	return trait{t, 0, start, end}
}

// cataract is the kind of cataract with the broader kind that may stand for it.
func (g *gate) cataract(c *Case) privacy.Trait {
	t := privacy.Trait{Field: "cataract.type", Value: c.Cataract.Type.Or(""), Coarser: []string{""}}
	if parent := g.bank.Term(t.Value).Parent; parent != "" {
		t.Coarser = []string{parent, ""}
	}
	t.Rare = t.Value != "" && g.isRare(t.Value)
	return t
}

// rareRisks are the rare ones among the risk factors; the common ones are what
// most cases have in some mixture and are left out of the comparison.
func (g *gate) rareRisks(c *Case, f *scanned) trait {
	var ids []string
	var at diagnose.Span
	for _, r := range c.Patient.Risks {
		if r.Known() && g.isRare(r.Value) {
			ids, at = append(ids, r.Value), r.Span
		}
	}
	slices.Sort(ids)
	return f.place(privacy.Trait{Field: "patient.risks", Value: strings.Join(ids, " "), Rare: true, Coarser: []string{""}}, at)
}

func (g *gate) isRare(id string) bool {
	return slices.Contains(alwaysRare, id) ||
		slices.ContainsFunc(g.bank.Settings.Rare, func(r Given[string]) bool { return r.Known() && r.Value == id })
}

// exactTraits finds what the texts of a case say exactly, one trait for each
// form, and what the scanner found that may single the patient out.
func exactTraits(c *Case, f *scanned) []trait {
	var all []trait
	texts := stretches(c, f)
	for _, e := range exactForms {
		t := trait{Trait: privacy.Trait{Field: e.field, Exact: true, Coarser: []string{""}}}
		for _, s := range texts {
			if !e.marked(s.lower) {
				continue
			}
			if m := e.form.FindStringSubmatchIndex(s.text); m != nil {
				t.Value = firstGroup(s.text, m)
				t.part, t.start, t.end = s.part, s.at+m[0], s.at+m[1]
				if s.part == 0 { // a value may be quoted or folded: its whole first line is the place
					t.start, t.end = s.at, s.at+s.length
				}
				break
			}
		}
		if e.field == "the year in the text" && t.Value != "" {
			t.Coarser = coarserYear(t.Value)
		}
		all = append(all, t)
	}
	return append(all, singledOut(f))
}

// singledOut is a finding of class other, unless the file has exceptions of
// that class: somebody has looked.
func singledOut(f *scanned) trait {
	t := trait{Trait: privacy.Trait{Field: "something that may single the patient out", Exact: true, Coarser: []string{""}}}
	if slices.ContainsFunc(f.exceptions, func(e PrivacyException) bool { return e.Class.Value == string(privacy.Other) }) {
		return t
	}
	for part, found := range f.found[:2] {
		for _, x := range found {
			if x.Class == privacy.Other {
				t.Value, t.part, t.start, t.end = "yes", part, x.Start, x.End
				return t
			}
		}
	}
	return t
}

// stretch is a text of a case that speaks of the patient.
type stretch struct {
	text, lower      string
	part, at, length int
}

func stretches(c *Case, f *scanned) []stretch {
	all := []stretch{{f.parts[1].text, strings.ToLower(f.parts[1].text), 1, 0, 0}}
	for _, g := range []Given[string]{c.Title, c.Summary, c.Complaint, c.History, c.Examination, c.Diagnosis, c.Tolerance, c.Perspective} {
		if g.Known() {
			t := f.place(privacy.Trait{Value: g.Value}, g.Span)
			all = append(all, stretch{g.Value, strings.ToLower(g.Value), 0, t.start, t.end - t.start})
		}
	}
	return all
}

// firstGroup is the first group that took part in a match, in lower case.
func firstGroup(text string, match []int) string {
	for i := 2; i+1 < len(match); i += 2 {
		if match[i] >= 0 {
			return strings.ToLower(text[match[i]:match[i+1]])
		}
	}
	return ""
}

// coarserBand gives what may stand for an age band: twenty years, then nothing.
func coarserBand(band string) []string {
	switch wider := privacy.CoarserAge(band); {
	case band == "80-89" || band == "90+":
		return []string{"80+", ""}
	case wider[0] == band:
		return []string{""}
	default:
		return wider
	}
}

// coarserYear gives what may stand for a year: its five years, then nothing.
func coarserYear(year string) []string {
	n, err := strconv.Atoi(year)
	if err != nil {
		return []string{""}
	}
	return privacy.CoarserYear(n)
}
