package privacy

import "strings"

// placeLike says whether token j can be the name of a settlement. After a sure
// cue an ordinary word with a capital will do, as in "lives in Bath".
func (p *passage) placeLike(j int, sure bool) bool {
	t := p.tok(j)
	if p.widePlace(j) {
		return false
	}
	if t.titleCase() && t.any(rTrade|rPlain) && p.gap(j+1) == " " && p.tok(j+1).titleCase() && p.nameLike(j+1) && !p.eponym(j+1) {
		return true // Port Quenby
	}
	if !t.titleCase() || t.len() < 3 || t.any(rPlace|rMonth|rWeekday|rSeason|rTrade|rNoun|rEponym|rUnit|rCue|rHonorific|rTitle|rFacilityFirst) {
		return false
	}
	if !sure && t.any(notName) {
		return false
	}
	if next := p.tok(j + 1); p.gap(j+1) == " " && next.any(rPlace) && next.titleCase() {
		return false // Northern India
	}
	if p.tok(j+1).digits() && p.gap(j+1) == " " && t.any(rPlain) {
		return false // a resident in Year 2
	}
	return !p.eponym(j)
}

// settlementAt finds "village of X", "X village", "lives in X", "born near X".
func (p *passage) settlementAt(i int) {
	t := p.toks[i]
	if t.any(rSettlement) {
		if k := i + 2; p.is(i+1, "of", "called", "named") && p.gap(i+1) == " " && p.gap(k) == " " && p.placeLike(k, true) {
			p.add(geoSettlement, k, p.nameEnd(k))
			return
		}
		if k := i - 1; p.gap(i) == " " && p.nameLike(k) && !p.tok(k).any(rEponym) && p.tok(k).titleCase() {
			for k > 0 && p.gap(k) == " " && p.toks[k-1].titleCase() && !p.toks[k].is(sentHead) && !p.toks[k-1].any(rCue) {
				k--
			}
			p.add(geoSettlement, k, i)
		}
	}
	if !t.any(rHome) {
		return
	}
	sure := p.is(i, "lives", "lived", "live", "living", "resides", "resided", "residing", "resident", "born", "home", "raised", "grew", "wohnhaft", "wohnt", "habite", "vive", "abita", "native", "dwells", "hometown", "inhabitant", "domiciled")
	for k := i + 1; k <= i+6 && k < len(p.toks); k++ {
		if strings.ContainsAny(p.gap(k), ".;:!?\n") {
			return
		}
		if p.toks[k].titleCase() && !p.is(k-1, "in", "at", "near", "outside", "from", "of", "to", "around", "by", "on", "en", "à", "a", "aus", "bei", "between", "beyond", "above", "below") {
			return
		}
		if p.toks[k].titleCase() && p.gap(k) == " " {
			if p.placeLike(k, sure) {
				p.add(geoHome, k, p.nameEnd(k))
			}
			return
		}
	}
}

// workWords come before "at" or "for" and the name of an employer.
var workWords = wordSet("works worked working employed employee teaches taught apprentice apprenticed foreman manager clerk cleaner porter guard driver nurse")

// fromAt warns of "from X" and "works at X", and knows counties by their
// ending.
func (p *passage) fromAt(i int) {
	t := p.toks[i]
	if !t.titleCase() {
		return
	}
	w := p.word(i)
	if len(w) > 7 && strings.HasSuffix(w, "shire") && !p.is(i-1, "new") && !t.any(notName) {
		p.add(geoSettlement, i, i)
		return
	}
	if p.gap(i) != " " {
		return
	}
	switch {
	case p.is(i-1, "from", "near", "nearby", "outside") && p.placeLike(i, false) && !(p.is(i-1, "outside", "near", "nearby") && !p.nameLike(i)):
		p.add(geoFrom, i, p.nameEnd(i))
	case p.is(i-1, "at", "for", "by", "of", "in") && i > 1 && p.in(i-2, workWords) && p.nameLike(i) && !p.eponym(i):
		p.add(facilityWork, i, p.nameEnd(i))
	}
}

// coordinatesAt finds a pair of decimal degrees, and degrees with minutes and a
// hemisphere. Keratometry has three decimals at most; a bare pair needs four.
func (p *passage) coordinatesAt(i int) bool {
	if p.number(i) > 180 || p.toks[i].len() > 3 {
		return false
	}
	if strings.HasPrefix(p.gap(i+1), "°") {
		return p.degreesAt(i)
	}
	if p.gap(i+1) != "." {
		return false
	}
	first := leadDigits(p.word(i + 1))
	if first < 2 {
		return false
	}
	j, hemisphere := i+2, p.tok(i+1).mixed() && isHemisphere(p.word(i + 1)[first:])
	if isHemisphere(p.word(j)) {
		hemisphere, j = true, j+1
	}
	if hemisphere && first >= 4 {
		p.add(geoCoordinates, i, j-1)
	}
	if strings.Trim(p.gap(j), " ,;/+-°'\"()") != "" || !p.tok(j).digits() || p.tok(j).len() > 3 || p.gap(j+1) != "." || leadDigits(p.word(j+1)) < 2 {
		return hemisphere && first >= 4
	}
	if !hemisphere && (first < 4 || leadDigits(p.word(j+1)) < 4) {
		return false
	}
	p.add(geoCoordinates, i, j+1)
	return true
}

// degreesAt finds 48°52'36"N.
func (p *passage) degreesAt(i int) bool {
	if !p.tok(i+1).is(hasDigit) || !strings.HasPrefix(p.after(i+1), "'") && p.gap(i+2) != "." {
		return false
	}
	for k := i + 2; k <= i+4; k++ {
		if isHemisphere(p.word(k)) {
			p.add(geoCoordinates, i, k)
			return true
		}
	}
	return false
}

func isHemisphere(w string) bool { return w == "N" || w == "S" || w == "E" || w == "W" }
