package privacy

import "strings"

// connectors may stand between a label and its value.
var connectors = wordSet("no number num nr id is was are reads read reading code card ref reference numbers n nos of in ending ends with the whose this that number's")

// numberWords say that a number follows; without one a year is a year.
var numberWords = wordSet("no number num nr id code ref reference mrn ssn dob")

// labelValue looks for the value of label l, whose words are tokens first to
// last, and records a hit.
func (p *passage) labelValue(l labelPhrase, first, last int) bool {
	switch l.value {
	case vName, vAgent, vPlace, vHouse, vAddress, vDegrees, vDate:
		return p.valueAfterColon(l, first, last)
	case vPlate:
		return p.plateValue(l, first, last)
	case vPhone, vDialed:
		return p.phoneValue(l, first, last)
	case vShort:
		if l.rule == geoZip && (!p.colonOrCode(last+1) || p.is(first, "pin") && p.tok(last+1).len() != 6 && len(l.words) == 1) {
			return false
		}
	}
	if p.spokenValue(l, last) {
		return true
	}
	j, skipped := last+1, 0
	marked := len(l.words) > 1
	numbered := numberWords[l.words[len(l.words)-1]]
	for ; j < len(p.toks) && j <= last+7; j++ {
		g := p.gap(j)
		if strings.Contains(g, "\n") || strings.ContainsAny(g, ";?!") || len(g) > 4 {
			return false
		}
		if g == ". " && !p.in(j-1, connectors) && !p.is(j-1, "ser", "s", "b", "acc", "mrn", "sn", "reg", "gmc", "npi", "acct") {
			return false
		}
		marked = marked || strings.ContainsAny(g, ":=#") || p.in(j, connectors)
		numbered = numbered || strings.ContainsAny(g, ":=#") || p.in(j, numberWords)
		if p.toks[j].is(hasDigit) || p.codeStart(j) {
			break
		}
		if !p.in(j, connectors) {
			if skipped++; !l.loose || skipped > 4 || !marked && !strongLabel(l) || p.toks[j].is(firstUp) && !p.toks[j].any(rPlain) {
				return false
			}
		}
	}
	end, ok := p.codeEnd(l, j)
	if !marked && !strongLabel(l) && (j > last+1 || !ok || year(p.word(j)) || p.figures(j, end) < 6) {
		return false
	}
	if !ok || skipped > 0 && !p.longCode(j, end) || !numbered && j == end && year(p.word(j)) {
		return false
	}
	if _, _, date := p.matchDate(j); date && skipped > 0 {
		return false // an account of the operation, 22.06.2020
	}
	p.addLabelled(l.rule, j, end)
	return true
}

// weakLabels are also ordinary words: they need a colon, a hash or "number".
var weakLabels = wordSet("ss policy pt chart serial account invoice receipt sin insurance medicaid rut nie nir konto charge accession nhs chi episode biometric cpr fingerprints")

// strongLabel says whether a label of one word is no other word.
func strongLabel(l labelPhrase) bool {
	return len(l.words) > 1 || !weakLabels[l.words[0]]
}

// figures counts the digits in tokens j to end.
func (p *passage) figures(j, end int) int {
	n := 0
	for k := int(p.toks[j].a); k < int(p.toks[end].b); k++ {
		if c := p.s[k]; c >= '0' && c <= '9' {
			n++
		}
	}
	return n
}

// colonOrCode says whether the next token follows a colon or has figures.
func (p *passage) colonOrCode(j int) bool {
	return strings.ContainsAny(p.gap(j), ":=") || p.tok(j).is(hasDigit)
}

// codeStart says whether token j is the letters a code begins with, as in
// OXTAL 509141 or UK.FCL.44170.
func (p *passage) codeStart(j int) bool {
	if p.in(j, connectors) {
		return false
	}
	for k := j; k < j+3 && p.tok(k).word() && plainUpper(p.word(k)); k++ {
		g := p.gap(k + 1)
		if g != " " && g != "-" && g != "/" && g != "." {
			return false
		}
		if p.tok(k + 1).is(hasDigit) {
			return true
		}
	}
	return false
}

// codeEnd returns the last token of the code that starts at token j, and
// whether it is one the label accepts.
func (p *passage) codeEnd(l labelPhrase, j int) (int, bool) {
	if j >= len(p.toks) {
		return 0, false
	}
	end, chars, figures := j, 0, 0
	most := 16 // figures after which a blank ends the code
	if l.rule == mrnLabel || l.rule == deviceLabel {
		most = 7
	}
	for k := j; k < len(p.toks) && k < j+9; k++ {
		t, w := p.toks[k], p.word(k)
		if k > j {
			g := p.gap(k)
			if g != " " && g != "-" && g != "/" && g != "_" && g != "." {
				break
			}
			if g == " " && (chars >= most+5 && figures > 0 || p.gap(k+1) == " " && p.tok(k+1).any(rUnit|rNoun) && t.digits() && t.len() < 5 || figures == chars && t.word() && t.len() != 1 && t.len() != 3 || t.digits() && figures == chars && chars >= most) {
				break
			}
			if (g == "." || g == "/") && figures >= 4 && !t.digits() {
				break
			}
		}
		if t.len() > 34 || !t.is(hasDigit) && !plainUpper(w) {
			break
		}
		chars += t.len()
		for _, c := range []byte(w) {
			if c >= '0' && c <= '9' {
				figures++
			}
		}
		if t.is(hasDigit) || p.gap(k) == "-" || l.rule == licenceLabel {
			end = k
		}
	}
	least := 4
	switch {
	case l.value == vShort:
		least = 3
	case l.rule == ssnLabel:
		return end, figures >= 4
	case l.rule == idLabel:
		least = 6
	}
	if l.rule == deviceLot && end == j && p.tok(j).digits() && figures < 5 {
		return 0, false // a batch of 1200
	}
	if l.rule == mrnLabel && p.tok(j).digits() && figures < 4 || p.unitAfter(j, end) {
		return 0, false
	}
	return end, chars >= least && figures > 0
}

// unitAfter says whether the value is a measurement or a year in a sentence.
func (p *passage) unitAfter(j, end int) bool {
	return j == end && p.toks[j].digits() && (p.tok(end+1).any(rUnit) && p.gap(end+1) == " " || strings.HasPrefix(p.after(end), "%"))
}

// longCode wants a value that cannot be a year or a count, for values that do
// not stand right after their label.
func (p *passage) longCode(j, end int) bool {
	return end > j || p.toks[j].mixed() && p.toks[j].len() > 3 || p.toks[j].len() > 4 || p.toks[j].len() == 4 && !year(p.word(j))
}

// plateValue wants capitals and figures after a cue: QX99 QQZ, M-AB 1234, or a
// VIN of seventeen.
func (p *passage) plateValue(l labelPhrase, first, last int) bool {
	j := last + 1
	for p.in(j, connectors) && len(p.gap(j)) <= 3 {
		j++
	}
	if g := p.gap(j); len(g) > 3 || strings.ContainsAny(g, "\n.;") && g != ". " {
		return false
	}
	chars, figures, end := 0, 0, -1
	for k := j; k < len(p.toks) && k < j+4 && chars < 17; k++ {
		if k > j && p.gap(k) != " " && p.gap(k) != "-" || !plainUpper(p.word(k)) || chars > 0 && chars+p.toks[k].len() > 9 {
			break
		}
		chars += p.toks[k].len()
		for _, c := range []byte(p.word(k)) {
			if c >= '0' && c <= '9' {
				figures++
			}
		}
		end = k
	}
	if end < 0 || figures == 0 || figures == chars && len(l.words) < 2 || chars < 4 || chars > 9 && chars != 17 {
		return false
	}
	p.add(l.rule, j, end)
	return true
}

// valueAfterColon reads the value of labels that are ordinary words too, and
// so need a colon, an equals sign or a front-matter key before the value.
func (p *passage) valueAfterColon(l labelPhrase, first, last int) bool {
	j := last + 1
	g := p.gap(j)
	colon := strings.ContainsAny(g, ":=") && !strings.Contains(g, "\n") && len(g) <= 5
	t := p.tok(j)
	switch l.value {
	case vDate:
		return p.dateValue(l, j, colon)
	case vDegrees:
		if (colon || p.is(last, "lat", "gps", "latitude", "longitude")) && len(g) <= 5 && t.digits() && p.gap(j+1) == "." && leadDigits(p.word(j+1)) >= 1 && t.len() <= 3 {
			p.add(l.rule, j, j+1)
			return true
		}
		return false
	}
	if t.is(inAuthors) && l.value != vHouse || t.is(inRefs) && l.value != vName {
		return false
	}
	switch l.value {
	case vAddress:
		if (colon || len(l.words) > 1 && g == " ") && (t.is(firstUp) || t.is(hasDigit)) && !p.looksIP(j) {
			p.add(l.rule, j, p.lineWords(j, 8))
			return true
		}
	case vPlace:
		if colon && t.is(firstUp) && !t.any(rPlace|rTrade) && !p.widePlace(j) && !p.tok(j+1).any(rPlace) && !(t.any(rPlain) && p.zone == Body) {
			p.add(l.rule, j, p.nameEnd(j))
			return true
		}
	case vHouse:
		if colon && t.is(firstUp) && !t.any(rPlace|rTrade|rGeneric|rCue) && p.nameEnd(j)-j < 6 && (!t.any(rPlain) || p.tok(j+1).is(firstUp)) {
			p.add(l.rule, j, p.nameEnd(j))
			return true
		}
	case vAgent:
		if (colon || len(l.words) > 1 && g == " ") && p.nameLike(j) && !t.any(rRole|rPlain|rHonorific|rTitle) {
			p.add(l.rule, j, p.nameEnd(j))
			return true
		}
	case vName:
		return p.nameValue(l, first, j, colon)
	}
	return false
}

func (p *passage) looksIP(j int) bool {
	return p.gap(j+1) == "." && p.gap(j+2) == "." && p.gap(j+3) == "."
}

// lineWords returns the last of at most n tokens that stand on one line and in
// one sentence.
func (p *passage) lineWords(j, n int) int {
	for n > 1 && j+1 < len(p.toks) && !strings.ContainsAny(p.gap(j+1), "\n;") && p.gap(j+1) != ". " {
		if t := p.toks[j+1]; !t.is(firstUp) && !t.is(hasDigit) {
			break
		}
		j, n = j+1, n-1
	}
	return j
}

// dateValue reads figures of a date after a label, however they are grouped.
func (p *passage) dateValue(l labelPhrase, j int, colon bool) bool {
	if p.is(j, "is", "was", "on") {
		j++
	}
	if g := p.gap(j); len(g) > 4 || strings.Contains(g, "\n") || !p.tok(j).digits() || p.is(j-1, "date") && !colon || p.toks[j].is(inDates) {
		return false
	}
	if _, _, ok := p.matchDate(j); ok && p.is(j-1, "date") {
		return false // dateNumericAt says the same with a better rule
	}
	n, k := p.toks[j].len(), j
	for k+1 < len(p.toks) && k < j+2 && p.dateGap(k+1) != 0 && p.toks[k+1].digits() {
		k++
		n += p.toks[k].len()
	}
	if k == j && n != 6 && n != 8 || n < 3 || n > 8 {
		return false
	}
	p.add(l.rule, j, k)
	return true
}
