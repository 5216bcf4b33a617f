package privacy

import "strings"

// shieldAll marks the numbers that have a shape of the trade, so that the
// shape rules leave them alone. Labels have been read before and are not held
// off by a shield. Most look-alikes (6/9, 10:32, NO4, 43.25 @ 90) need no
// shield, since no shape rule is wide enough to take them.
func (p *passage) shieldAll() {
	for i := range p.toks {
		if !p.timed {
			break
		}
		if p.toks[i].is(inTimes) {
			p.toks[i].flag |= shielded
		}
	}
	for _, i := range p.starts {
		i := int(i)
		t := &p.toks[i]
		switch {
		case t.is(inTimes):
		case t.roles&rLiterature != 0:
			p.shieldLiterature(i)
		case t.roles&rVersion != 0:
			p.shieldVersion(i)
		case t.mixed():
			p.shieldMixed(i)
		case t.digits():
			p.shieldNumber(i)
		case t.roles&(rUnit|rNoun) != 0 && i > 0:
			p.shieldUnit(i)
		}
	}
}

// isoNames are written in capitals; in lower case they are other words.
func (p *passage) shieldLiterature(i int) {
	if p.is(i, "iso", "iec", "en") && !p.toks[i].is(allUp) {
		return
	}
	j := i + 1
	for p.is(j, "no", "number", "id", "org", "10", "13") && len(p.gap(j)) <= 2 {
		j++
	}
	if !p.tok(j).is(hasDigit) || len(p.gap(j)) > 3 || strings.Contains(p.gap(j), "\n") {
		return
	}
	p.shieldRun(j)
	if p.is(i, "isbn") { // may be grouped by spaces
		for k := j + 1; k < j+6 && p.gap(k) == " " && p.tok(k).is(hasDigit); k++ {
			p.shieldRun(k)
		}
	}
}

// shieldRun shields token i and all that is joined to it without a blank.
func (p *passage) shieldRun(i int) {
	for {
		p.toks[i].flag |= shielded
		i++
		if i >= len(p.toks) || strings.ContainsAny(p.gap(i), " \n\"')]>") {
			return
		}
	}
}

// shieldVersion shields the dotted number after firmware, version, build …
func (p *passage) shieldVersion(i int) {
	j := i + 1
	for p.is(j, "no", "number", "version", "v", "is", "was", "at", "to") && len(p.gap(j)) <= 2 {
		j++
	}
	if g := p.gap(j); len(g) > 2 || strings.Contains(g, "\n") || !p.tok(j).is(hasDigit) {
		return
	}
	if p.gap(j+1) == "." && p.tok(j+2).len() != 4 {
		p.shieldRun(j)
	}
}

// literaturePrefix are register names written in one word with their number.
var literaturePrefix = []string{"NCT", "ISRCTN", "PMC", "PMID", "ACTRN", "DRKS", "UMIN", "ISBN", "ISSN", "RFC"}

// shieldMixed shields v3.11.21, NCT01234567 and the like.
func (p *passage) shieldMixed(i int) {
	w := p.word(i)
	if (w[0] == 'v' || w[0] == 'V') && p.gap(i+1) == "." && leadDigits(w[1:]) == len(w)-1 {
		p.shieldRun(i)
		return
	}
	for _, prefix := range literaturePrefix {
		if strings.HasPrefix(w, prefix) && leadDigits(w[len(prefix):]) > 3 {
			p.toks[i].flag |= shielded
			return
		}
	}
}

// shieldNumber shields a DOI without a label, a GTIN in brackets, and a number
// with a percent or degree sign.
func (p *passage) shieldNumber(i int) {
	switch next := p.after(i); {
	case p.word(i) == "10" && next == "." && p.tok(i+1).len() >= 4 && p.gap(i+2) == "/":
		p.shieldRun(i)
	case p.word(i) == "01" && next == ")" && p.tok(i+1).len() == 14 && strings.HasSuffix(p.gap(i), "("):
		p.toks[i+1].flag |= shielded
	case next == "°" && p.tok(i+1).digits(): // 48°52' is a place
	case strings.HasPrefix(next, "%") || strings.HasPrefix(next, "°") || strings.HasPrefix(next, " %") || strings.HasPrefix(next, "\""):
		p.shieldBack(i)
	}
}

// shieldUnit shields the numbers before a unit, or before a thing counted.
func (p *passage) shieldUnit(i int) {
	if g := p.gap(i); g != " " && g != "-" || !p.tok(i-1).digits() {
		return
	}
	if short := p.toks[i].len() == 1; short && p.tok(i-1).len() == 4 {
		return
	}
	p.shieldBack(i - 1)
}

// shieldBack shields the number that ends in token i with what is joined to
// its left, as in 10/12/14 mm. A part of four digits or more, as in a date or
// a telephone number, is not a measurement.
func (p *passage) shieldBack(i int) {
	first := i
	for n := 0; n < 4 && first > 0 && p.tok(first-1).digits() && strings.Contains("/.-,", p.gap(first)); n++ {
		first--
	}
	total := 0
	for k := first; k <= i; k++ {
		if total += p.toks[k].len(); p.toks[k].len() > 5 || p.toks[k].len() == 4 && i-first > 1 {
			return
		}
	}
	if total > 9 {
		return
	}
	for k := first; k <= i; k++ {
		p.toks[k].flag |= shielded
	}
}

// leadDigits counts the ASCII digits at the start of w.
func leadDigits(w string) int {
	n := 0
	for n < len(w) && w[n] >= '0' && w[n] <= '9' {
		n++
	}
	return n
}
