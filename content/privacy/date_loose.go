package privacy

import "strings"

// monthAlone warns of a month without day or year after in, since, early …
func (p *passage) monthAlone(i int) {
	t := p.toks[i]
	if !t.titleCase() && !(t.word() && !p.in(i, englishMonth) && len(p.word(i)) > 4) || t.len() < 4 && !p.is(i, "may", "mai") {
		return
	}
	if g := p.gap(i); g != " " && g != "-" {
		return
	}
	switch {
	case p.is(i-1, "in", "since", "early", "mid", "late", "until", "during", "last", "next", "by", "from", "im", "seit", "en", "enero", "through", "before", "after") && t.is(firstUp),
		p.is(i-1, "en", "im", "depuis", "desde") && !p.in(i, englishMonth),
		p.is(i-1, "of") && p.is(i-2, "end", "beginning", "start", "middle", "month", "week", "half", "part"):
		if p.word(i-1) == "May" || p.is(i-1, "after", "before", "from", "by", "next", "last") && t.any(rVague) && p.tok(i+1).any(rNoun|rTrade|rUnit) {
			return
		}
		p.add(dateMonth, i, i)
	}
}

// seasonAt warns of spring 2020, the winter of 2019/20, Q2 2024 and the second
// quarter of 2024.
func (p *passage) seasonAt(i int) {
	if p.toks[i].is(inRefs) {
		return
	}
	k := i + 1
	if p.is(k, "of", "in", "de", "von", "del") && p.gap(k) == " " {
		k++
	}
	if strings.HasSuffix(p.gap(k), " '") && p.tok(k).digits() && p.tok(k).len() == 2 {
		p.add(dateSeason, i, k) // summer '21
		return
	}
	if g := p.gap(k); !year(p.word(k)) || g != " " && g != "-" && g != ", " && g != "/" {
		return
	}
	from := i
	if p.is(i, "quarter") && p.tok(i-1).any(rOrdinal|rNumber) {
		from--
	}
	p.add(dateSeason, from, k)
}

// dayWords end the holidays that take two words.
var dayWords = wordSet("eve day monday sunday friday fitr adha holiday night year wednesday thursday")

// needsDay are first words that are no holiday alone.
var needsDay = wordSet("boxing new bank independence labour remembrance good burns bonfire valentine midsummer eid ascension")

// holidayAt finds a holiday and a year; the year may be a few words away.
func (p *passage) holidayAt(i int) {
	end := i
	for k := i + 1; k <= i+3 && (p.gap(k) == " " || p.gap(k) == "'" || p.gap(k) == "-"); k++ {
		if p.in(k, dayWords) {
			end = k
		}
	}
	if !p.toks[i].is(firstUp) || p.toks[i].is(inRefs) || end == i && p.in(i, needsDay) || p.is(i, "new") && !p.is(i+1, "year") {
		return
	}
	k := end + 1
	if p.is(k, "of", "in") {
		k++
	}
	if year(p.word(k)) && strings.Trim(p.gap(k), ", (") == "" {
		p.add(dateHoliday, i, k)
	}
}
