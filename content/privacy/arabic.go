package privacy

import (
	_ "embed"
	"strings"
)

// Arabic has no capitals, so that a name is known by a list, or by the title before
// it. Numbers, dates in figures and addresses are found by the rules of all
// languages, since figures are folded.

//go:embed words/arabic.txt
var arabicText string

// arabicKind is a set of what an Arabic word can be to the rules.
type arabicKind uint16

const (
	arabicMonth arabicKind = 1 << iota
	arabicMonthWithYear
	arabicTitle
	arabicName
	arabicNameAfterTitle
	arabicHospital
	arabicHospitalPlain
	arabicSettlement
	arabicSettlementPlain
)

var arabicHeadings = map[string]arabicKind{
	"months": arabicMonth, "months-with-year": arabicMonthWithYear, "titles": arabicTitle, "names": arabicName,
	"names-after-title": arabicNameAfterTitle, "hospitals": arabicHospital, "hospitals-plain": arabicHospitalPlain,
	"settlements": arabicSettlement, "settlements-plain": arabicSettlementPlain,
}

// arabicWords are the words of words/arabic.txt in every form.
var arabicWords = func() map[string]arabicKind {
	m := map[string]arabicKind{}
	var kind arabicKind
	for _, w := range strings.Fields(withoutNotes(arabicText)) {
		if k := arabicHeadings[w]; k != 0 {
			kind = k
			continue
		}
		for _, form := range arabicForms(w) {
			m[form] |= kind
		}
	}
	return m
}()

// withoutHamza writes the forms of alif as one, as many people do.
var withoutHamza = strings.NewReplacer("أ", "ا", "إ", "ا", "آ", "ا")

// arabicForms are a word with the prefixes that are written as one with it: and,
// so, in, for, as, and the contraction of for and the article.
func arabicForms(w string) (forms []string) {
	for _, base := range []string{w, withoutHamza.Replace(w)} {
		forms = append(forms, base)
		for _, prefix := range []string{"و", "ف", "ب", "ل", "ك", "وب", "ول"} {
			forms = append(forms, prefix+base)
		}
		if rest, ok := strings.CutPrefix(base, "ال"); ok {
			forms = append(forms, "لل"+rest, "ولل"+rest)
		}
	}
	return forms
}

// isArabic says whether token i is a word of a kind.
func (p *passage) isArabic(i int, kind arabicKind) bool {
	return p.tok(i).any(rArabic) && arabicWords[p.word(i)]&kind != 0
}

// arabicAt runs the rules that an Arabic word starts.
func (p *passage) arabicAt(i int) {
	switch kind := arabicWords[p.word(i)]; {
	case kind&(arabicMonth|arabicMonthWithYear) != 0:
		p.arabicMonthAt(i)
	case p.toks[i].is(inAuthors | inRefs):
	case kind&arabicTitle != 0 && p.gap(i+1) == " " && p.isArabic(i+1, arabicName|arabicNameAfterTitle):
		p.add(nameTitle, i, p.arabicNameEnd(i+1))
	case kind&arabicName != 0 && !p.isArabic(i-1, arabicTitle|arabicName|arabicNameAfterTitle|arabicHospital):
		p.add(nameGiven, i, p.arabicNameEnd(i))
	case kind&arabicHospital != 0 && p.arabicNamed(i, arabicHospitalPlain):
		p.add(facilityNamed, i, i+1)
	case kind&arabicSettlement != 0 && p.arabicNamed(i, arabicSettlementPlain):
		p.add(geoSettlement, i, i+1)
	}
}

// arabicNamed says whether the word after a noun tells which one is meant: it is
// none of those that only say what kind it is, and no term.
func (p *passage) arabicNamed(i int, plain arabicKind) bool {
	t := p.tok(i + 1)
	return p.gap(i+1) == " " && t.word() && t.is(wide) && t.len() > 3 && !t.any(rTrade) && !p.isArabic(i+1, plain)
}

// arabicNameEnd is the last token of a name: names follow one another.
func (p *passage) arabicNameEnd(i int) int {
	for p.gap(i+1) == " " && p.isArabic(i+1, arabicName|arabicNameAfterTitle) {
		i++
	}
	return i
}

// arabicMonthAt finds a month as a word with a day or a year, as in 14 from March
// 2021, also in the calendar of the hijra; the second word of the months that have
// two is passed over.
func (p *passage) arabicMonthAt(i int) {
	if p.dateAllowed(i) {
		return
	}
	from, to := i, i
	if p.gap(i+1) == " " && p.is(i+1, "الأول", "الاول", "الثاني", "الآخر", "الاخر", "الأولى", "الاولى", "الآخرة", "الاخرة", "الثانية") {
		to++
	}
	if p.is(from-1, "ذو", "ذي") && p.gap(from) == " " {
		from--
	}
	for n := 0; n < 2 && p.is(from-1, "من", "شهر") && p.gap(from) == " "; n++ {
		from--
	}
	n, day := p.isDay(from - 1)
	if g := p.gap(from); day && (g == " " || g == "-" || g == "/") {
		from -= n
	} else {
		from, day = i, false
	}
	last := to
	for n := 0; n < 2 && p.is(last+1, "من", "عام", "سنة", "لعام", "لسنة") && p.gap(last+1) == " "; n++ {
		last++
	}
	hasYear := p.shortGap(last+1) && arabicYear(p.word(last+1))
	if hasYear {
		to = last + 1
	}
	switch {
	case day && (hasYear || p.isArabic(i, arabicMonth)):
		p.add(dateNamed, from, to)
	case hasYear && !p.toks[i].is(inRefs):
		p.add(dateMonthYear, from, to)
	}
}

// arabicYear knows the years that a reader may have seen, by either calendar.
func arabicYear(w string) bool {
	return year(w) || len(w) == 4 && leadDigits(w) == 4 && (w[:2] == "13" || w[:2] == "14")
}
