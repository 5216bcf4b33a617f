package privacy

import (
	"strings"
	"unicode/utf8"
)

// numberAt offers a number to the rules for figures. A number joined to one
// before it is part of that one's shape and starts none of its own.
func (p *passage) numberAt(i int) {
	p.ageNumberAt(i)
	if p.toks[i].is(shielded|labelled) || !p.startsNumber(i) {
		return
	}
	if p.weekAt(i) || p.clockAt(i) || p.dateNumericAt(i) {
		return
	}
	p.groupedAt(i)
}

// weekAt finds week 12 of 2021 and KW 12/2021.
func (p *passage) weekAt(i int) bool {
	if n := p.number(i); n < 1 || n > 53 || !p.is(i-1, "week", "kw", "wk", "woche", "semaine") || p.toks[i].is(inRefs) {
		return false
	}
	k := i + 1
	if p.is(k, "of", "in") {
		k++
	}
	if g := p.gap(k); !year(p.word(k)) || g != " " && g != "/" && g != ", " {
		return false
	}
	p.add(dateWeek, i-1, k)
	return true
}

// clockAt says whether token i starts a time of day written with full stops:
// 10.15.30 AM, or after "at" in a file name.
func (p *passage) clockAt(i int) bool {
	if p.gap(i+1) != "." || p.gap(i+2) != "." || p.number(i) > 23 || p.number(i+1) > 59 || p.number(i+2) > 59 {
		return false
	}
	return p.is(i+3, "am", "pm") || p.zone == Filename && p.is(i-1, "at")
}

// startsNumber says whether token i is not the later part of a longer number.
func (p *passage) startsNumber(i int) bool {
	if i == 0 || !p.toks[i-1].is(hasDigit) {
		return true
	}
	switch p.gap(i) {
	case ".", "-", "/", ",", ":":
		return p.tok(i-1).mixed() && p.gap(i) == ":"
	}
	return true
}

// dateNumericAt finds 2021-03-14, 14/03/2021, 14.03.21, 20210314, 14.III.2021,
// 03/2021, 2021-W11 and time stamps. It says whether token i starts a date,
// an allowed one included.
func (p *passage) dateNumericAt(i int) bool {
	end, rule, ok := p.matchDate(i)
	if !ok {
		return false
	}
	if p.zone == Filename && p.toks[i].len() <= 2 && p.tok(end).len() <= 2 && p.tok(end+1).any(rUnit) {
		return false // ring-04-12-10-mm
	}
	if !p.dateAllowed(i) && !(p.toks[i].is(inRefs) && rule != dateNumeric) {
		p.addBytes(rule, int(p.toks[i].a), p.clockEnd(end))
	}
	return true
}

// matchDate returns the last token of the date that starts at token i.
func (p *passage) matchDate(i int) (end int, rule ruleID, ok bool) {
	t := p.toks[i]
	lead := leadDigits(p.word(i))
	switch {
	case lead == 8 || t.digits() && (lead == 14 || lead == 12):
		if rest := p.word(i)[lead:]; (rest == "" || rest[0] == 'T' || rest[0] == 't') && compactDate(p.word(i)[:8]) {
			return i, dateNumeric, true
		}
	case lead == 4 && p.cjkDate(i):
		return i, dateNumeric, true
	case !t.digits():
	case lead == 4:
		return p.yearFirst(i)
	case lead <= 2:
		return p.dayFirst(i)
	}
	return 0, 0, false
}

// cjkDate knows 2021年3月14日.
func (p *passage) cjkDate(i int) bool {
	w := p.word(i)
	return year(p.word(i)[:4]) && strings.HasPrefix(w[4:], "年") && strings.Contains(w, "月")
}

// dateGap returns the separator before token i: one of - . / or, for figures
// set apart by blanks, a space.
func (p *passage) dateGap(i int) byte {
	g := p.gap(i)
	if g == " " {
		return ' '
	}
	if g = strings.Trim(g, " "); g == "-" || g == "." || g == "/" {
		return g[0]
	}
	return 0
}

// yearFirst reads 2021-03-14, 2021-03, 2021-W11, 2021-Q1 and 2021 Mar 14 (the
// last is left to monthAt).
func (p *passage) yearFirst(i int) (int, ruleID, bool) {
	g := p.dateGap(i + 1)
	second := p.word(i + 1)
	if g == ' ' && year(p.word(i)) && len(second) == 2 && second[0] == 'Q' && second[1] >= '1' && second[1] <= '4' {
		return i + 1, dateSeason, true // 2024 Q2
	}
	if !year(p.word(i)) || g == 0 || g == ' ' {
		return 0, 0, false
	}
	if len(second) == 3 && (second[0] == 'W' || second[0] == 'w') && leadDigits(second[1:]) == 2 {
		if p.gap(i+2) == "-" && p.tok(i+2).digits() && p.tok(i+2).len() == 1 {
			return i + 2, dateWeek, true
		}
		return i + 1, dateWeek, true
	}
	if len(second) == 2 && (second[0] == 'Q' || second[0] == 'q') && second[1] >= '1' && second[1] <= '4' {
		return i + 1, dateSeason, true
	}
	m := p.number(i + 1)
	if m < 1 || m > 12 || len(second) > 2 {
		return 0, 0, false
	}
	if third := p.word(i + 2); p.dateGap(i+2) == g && leadDigits(third) >= 1 && leadDigits(third) <= 2 {
		if d := atoi(third[:leadDigits(third)]); d >= 1 && d <= 31 && !p.goesOn(i+2, g) {
			return i + 2, dateNumeric, true
		}
		return 0, 0, false
	}
	// 2011-12 may be two years; 2021-03 cannot.
	if len(second) == 2 && (g == '-' || g == '/') && m <= atoi(p.word(i)[2:]) && !p.goesOn(i+1, g) && m != atoi(p.word(i)[2:])+1 {
		return i + 1, dateMonthYear, true
	}
	return 0, 0, false
}

// goesOn says whether another figure is joined to token i by g, as in a
// version or an address of four parts.
func (p *passage) goesOn(i int, g byte) bool {
	if p.zone == Filename && p.tok(i+1).len() >= 4 {
		return false // a time or a number of the camera's
	}
	return p.dateGap(i+1) == g && g != ' ' && len(p.gap(i+1)) == 1 && p.tok(i+1).is(hasDigit)
}

// dayFirst reads 14/03/2021, 03/21/2021, 14.03.21, 14.III.2021, 03/2021 and,
// after a cue, 14/03.
func (p *passage) dayFirst(i int) (int, ruleID, bool) {
	g := p.dateGap(i + 1)
	if g == 0 {
		return 0, 0, false
	}
	a, b := p.number(i), p.number(i+1)
	if b < 0 {
		if g == ' ' {
			return 0, 0, false
		}
		if b = romanMonth(p.word(i + 1)); b == 0 {
			return 0, 0, false
		}
	}
	third := p.word(i + 2)
	lead := leadDigits(third)
	if p.dateGap(i+2) == g && lead > 0 && (lead == 4 && year(third[:4]) || lead == 2) && dayMonth(a, b) && !p.goesOn(i+2, g) {
		two := p.toks[i].len() == 2 && p.tok(i+1).len() == 2
		if lead == 4 && (g != ' ' || two) || lead == 2 && len(third) == 2 && g != ' ' && (two || p.dateCue(i)) {
			return i + 2, dateNumeric, true
		}
		return 0, 0, false
	}
	if b > 1900 && b < 2100 && a >= 1 && a <= 12 && (g == '/' || g == '.' && p.toks[i].len() == 2 && p.dateCue(i)) && !p.goesOn(i+1, g) && p.startsNumber(i) {
		return i + 1, dateMonthYear, true
	}
	if g == '.' && a >= 1 && a <= 31 && b >= 1 && b <= 12 && p.is(i-1, "am", "vom", "zum") && strings.HasPrefix(p.after(i+1), ".") {
		return i + 1, dateNumeric, true // am 14.3.
	}
	if g != ' ' && p.toks[i].len() == 2 && p.tok(i+1).len() == 2 && dayMonth(a, b) && p.nearCue(i) && p.dateGap(i+2) != g {
		return i + 1, dateNumeric, true
	}
	return 0, 0, false
}

// dateCues are the words after which figures with a two-digit year, or with no
// year, are a date.
var dateCues = wordSet("on dated date dob born since until till geb geboren né née nacida nacido nata nato am vom le el il del seen admitted discharged admission discharge visit operated died reviewed surgery birth birthday by from til expires exp listed")

func wordSet(text string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(text) {
		m[w] = true
	}
	return m
}

func (p *passage) dateCue(i int) bool {
	return i > 0 && p.in(i-1, dateCues) || i > 1 && p.toks[i-1].len() <= 3 && p.in(i-2, dateCues)
}

// nearCue is the stricter set for a day and month without a year.
func (p *passage) nearCue(i int) bool {
	return p.is(i-1, "on", "dated", "dob", "since", "until", "born", "date", "am", "vom") && !strings.Contains(p.gap(i), "\n")
}

// clockEnd widens a date that ends in token i over a time of day and zone that
// is joined to it, and returns the end in bytes.
func (p *passage) clockEnd(i int) int {
	end := int(p.toks[i].b)
	for k := end; k < len(p.s) && k < end+24; k++ {
		c := p.s[k]
		if c >= utf8.RuneSelf || !isWordByte(c) && !strings.ContainsRune(":.+-", rune(c)) {
			break
		}
		if isWordByte(c) {
			end = k + 1
		}
	}
	return end
}

// dateAllowed says whether a full date may stand here: under a publication
// key, or in a reference after Epub, accessed … or before volume and pages.
func (p *passage) dateAllowed(i int) bool {
	if p.toks[i].is(inDates) {
		return true
	}
	if p.zone == FrontMatter || p.toks[i].is(inRefs) {
		for k := i - 1; k >= 0 && k >= i-5 && !strings.Contains(p.gap(k+1), "\n"); k-- {
			if p.in(k, publicationCues) && (p.zone != FrontMatter || p.toks[i].is(inRefs) || k >= i-2 && strings.Contains(p.gap(i), ":")) {
				return true
			}
		}
	}
	return false
}

var publicationCues = wordSet("epub published publication accessed cited retrieved updated online available posted reviewed received accepted revised version release released")

func year(s string) bool {
	return len(s) == 4 && (s[0] == '1' && s[1] == '9' || s[0] == '2' && s[1] == '0') && leadDigits(s) == 4
}

func dayMonth(a, b int) bool {
	return a >= 1 && b >= 1 && (a <= 31 && b <= 12 || a <= 12 && b <= 31)
}

// compactDate knows yyyymmdd.
func compactDate(s string) bool {
	m, d := atoi(s[4:6]), atoi(s[6:8])
	return year(s[:4]) && m >= 1 && m <= 12 && d >= 1 && d <= 31
}

func romanMonth(w string) int {
	for k, r := range [...]string{"I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X", "XI", "XII"} {
		if r == w {
			return k + 1
		}
	}
	return 0
}

// atoi reads ASCII digits.
func atoi(s string) int {
	n := 0
	for i := 0; i < len(s) && i < 9; i++ {
		n = n*10 + int(s[i]-'0')
	}
	return n
}
