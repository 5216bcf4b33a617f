package privacy

import "strings"

// monthAt finds dates with the month, season or holiday as a word.
func (p *passage) monthAt(i int) {
	t := p.toks[i]
	if p.dateAllowed(i) {
		return
	}
	if t.any(rHoliday) {
		p.holidayAt(i)
	}
	if t.any(rSeason) {
		p.seasonAt(i)
	}
	if !t.any(rMonth) || t.is(allUp) && p.is(i, "oct", "mar", "dec", "jan", "may", "set") && !p.dayBeside(i) {
		return
	}
	from, day := p.dayBefore(i)
	to, dayAfter := i, false
	if !day {
		to, dayAfter = p.dayAfter(i)
	}
	to, hasYear := p.yearAfter(to, day || dayAfter)
	if !hasYear && from > 0 && !dayAfter && year(p.word(from-1)) && p.shortGap(from) { // 2021 March
		from, hasYear = from-1, true
		to, dayAfter = p.dayAfter(i)
	}
	small := !t.is(firstUp)
	foreign := small && !p.in(i, englishMonth)
	switch {
	case day || dayAfter:
		if small && t.any(rVague) && !hasYear && !(foreign && p.is(i-1, "de", "di", "of")) {
			return
		}
		if p.citation(from, to) {
			return
		}
		if spelt := p.toks[from].word() && from < i; spelt {
			p.add(dateSpelled, from, to)
			return
		}
		p.addBytes(dateNamed, int(p.toks[from].a), p.weekday(to))
	case hasYear && !p.toks[i].is(inRefs) && !(small && p.is(i, "may", "march", "mar") && p.zone != Filename && !p.is(i-1, "in", "since", "of", "late", "early")):
		p.add(dateMonthYear, from, to)
	case !hasYear && !p.toks[i].is(inRefs):
		p.monthAlone(i)
	}
}

var englishMonth = wordSet("january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec")

// shortGap accepts what may stand between the parts of a written date.
func (p *passage) shortGap(i int) bool {
	switch p.gap(i) {
	case " ", "-", ".", ". ", "/", ", ", ",", "'", " '", " - ", ".'":
		return true
	}
	return false
}

func (p *passage) dayBeside(i int) bool {
	_, before := p.dayBefore(i)
	_, after := p.dayAfter(i)
	return before || after && p.gap(i+1) == "-"
}

// isDay knows 14, 14th, 1er and first to thirty-first; n is how many tokens
// the day takes, counted backwards from i.
func (p *passage) isDay(i int) (n int, ok bool) {
	t := p.tok(i)
	w := p.low(i)
	lead := leadDigits(w)
	switch {
	case t.digits():
		d := p.number(i)
		ok = d >= 1 && d <= 31 && t.len() <= 2 && !t.is(shielded)
		return 1, ok && !strings.Contains("./,:", p.gap(i)) || ok && p.gap(i) == "."
	case t.mixed() && lead > 0 && lead <= 2:
		switch w[lead:] {
		case "st", "nd", "rd", "th", "er", "e", "º", "ª", "ème":
			return 1, atoi(w[:lead]) >= 1 && atoi(w[:lead]) <= 31
		}
	case t.any(rOrdinal):
		if p.is(i-1, "twenty", "thirty") && (p.gap(i) == "-" || p.gap(i) == " ") {
			return 2, true
		}
		return 1, !p.is(i, "hundredth", "ninetieth")
	}
	return 0, false
}

// dayBefore looks for a day before the month at i: 14 March, 14th of March,
// 3 de octubre. It returns the first token of the date.
func (p *passage) dayBefore(i int) (int, bool) {
	k := i - 1
	if p.is(k, "of", "de", "del", "di", "d", "do") && len(p.gap(i)) <= 1 {
		k--
	} else if g := p.gap(i); g != " " && g != "-" && g != "." && g != ". " && g != "/" && g != " - " {
		return i, false
	} else if g == ". " && p.is(i, "may", "march", "mar") && !year(p.word(i+1)) {
		return i, false // "type 2. May need …"
	}
	n, ok := p.isDay(k)
	if !ok || k < i-1 && p.gap(k+1) != " " {
		return i, false
	}
	if p.toks[k].any(rOrdinal) && k == i-1 && !p.toks[i].is(firstUp) {
		return i, false // "the second may"
	}
	return k - n + 1, true
}

// dayAfter looks for a day after the month at i: March 14th, March the 14th.
func (p *passage) dayAfter(i int) (int, bool) {
	k := i + 1
	if p.is(k, "the") && p.gap(k) == " " {
		k++
	}
	if g := p.gap(k); g != " " && g != "-" && g != ". " && g != "." && g != ", " && g != "/" {
		return i, false
	}
	if p.tok(k).any(rNumber) && p.tok(k+1).any(rOrdinal) && p.gap(k+1) == "-" {
		return k + 1, true
	}
	if _, ok := p.isDay(k); !ok {
		return i, false
	}
	if d := p.toks[k].digits(); d && (p.tok(k+1).any(rUnit|rNoun|rBody) || strings.HasPrefix(p.after(k), ":") || strings.HasPrefix(p.after(k), "%")) {
		return i, false
	}
	if p.toks[k].any(rOrdinal) && !p.toks[i].is(firstUp) {
		return i, false
	}
	if p.toks[k].any(rOrdinal) && p.toks[i].any(rVague) && k == i+1 {
		return i, false // "May first need"
	}
	return k, true
}

// yearAfter looks for a year after token i: 2021, '21, or 21 after a day, in
// figures or in words.
func (p *passage) yearAfter(i int, day bool) (int, bool) {
	k := i + 1
	if p.is(k, "of", "de", "del", "in") && p.gap(k) == " " {
		k++
	}
	if !p.shortGap(k) && p.gap(k) != ", '" {
		return i, false
	}
	w := p.word(k)
	lead := leadDigits(w)
	switch {
	case lead == 4 && year(w[:4]) && (len(w) == 4 || w[4] == 'T'):
		return k, true
	case lead == 2 && len(w) == 2 && strings.HasSuffix(p.gap(k), "'"):
		return k, true
	case lead == 2 && len(w) == 2 && day && (p.gap(k) == "-" || p.gap(k) == "/" || p.gap(k) == " " && !p.toks[k].is(shielded) && !p.tok(k+1).any(rUnit)):
		return k, true
	}
	if end, ok := p.spokenYear(k); ok {
		return end, true
	}
	return i, false
}

// spokenYear reads two thousand (and) twenty-one, twenty twenty, nineteen
// fifty-one; it returns the last token.
func (p *passage) spokenYear(k int) (int, bool) {
	if !p.is(k, "two", "twenty", "nineteen") || !p.tok(k+1).any(rNumber) || p.gap(k+1) != " " && p.gap(k+1) != "-" {
		return k, false
	}
	if p.is(k, "two") && !p.is(k+1, "thousand") {
		return k, false
	}
	end := k + 1
	for n := 0; n < 4; n++ {
		next := end + 1
		if p.is(next, "and") && p.gap(next) == " " {
			next++
		}
		if g := p.gap(next); !p.tok(next).any(rNumber) || g != " " && g != "-" {
			break
		}
		end = next
	}
	return end, true
}

// weekday widens a date that ends in token i over the time joined to it.
func (p *passage) weekday(i int) int {
	if strings.HasPrefix(p.after(i), "T") {
		return p.clockEnd(i)
	}
	return int(p.toks[i].b)
}

// citation says whether a date in a reference is the issue of a journal: year,
// month and day before volume and pages.
func (p *passage) citation(from, to int) bool {
	if !p.toks[from].is(inRefs) {
		return false
	}
	next := p.after(to)
	return strings.HasPrefix(next, ";") || strings.HasPrefix(next, "(") || strings.HasPrefix(next, ":")
}
