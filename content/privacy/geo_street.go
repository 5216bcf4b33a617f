package privacy

import "strings"

// sureStreets need no number before the name.
var sureStreets = wordSet("street road avenue lane crescent terrace mews boulevard")

// streetAt finds 12 Thimble Row and, for the sure words, Thimble Street.
func (p *passage) streetAt(i int) {
	t := p.toks[i]
	if !t.is(firstUp) || p.gap(i) != " " || t.is(allUp) && t.len() > 2 && !p.tok(i-1).is(allUp) {
		return
	}
	k, known := i-1, false
	for n := 0; n < 3 && k >= 0 && p.toks[k].capitalised() && !p.toks[k].any(rMonth|rCue|rUnit); n++ {
		known = known || p.nameLike(k)
		if p.toks[k].any(rTrade) && (p.toks[k].any(rNoun) || !p.in(i, sureStreets)) {
			return
		}
		k--
		if p.gap(k+1) == "'" && k > 0 {
			continue
		}
		if p.gap(k+1) != " " {
			break
		}
	}
	if k == i-1 {
		return
	}
	numbered := k >= 0 && (p.gap(k+1) == " " || p.gap(k+1) == ", ") && p.houseNumber(k)
	switch {
	case numbered && !(p.toks[i].is(inHeading) && !known):
		p.add(geoStreet, k, i)
	case known && p.in(i, sureStreets) && !(p.gap(i+1) == " " && p.tok(i+1).any(rFacility) && p.tok(i+1).is(firstUp)):
		p.add(geoStreet, k+1, i)
	}
}

// houseNumber says whether token k is 12, 12a or 118B.
func (p *passage) houseNumber(k int) bool {
	w := p.word(k)
	lead := leadDigits(w)
	return lead > 0 && lead <= 5 && (len(w) == lead || len(w) == lead+1) && !p.toks[k].is(shielded)
}

// streetFirstAt finds 12 rue des Tilleuls, calle Mayor 3, via Roma 12.
func (p *passage) streetFirstAt(i int) {
	k := i + 1
	for n := 0; n < 3 && p.is(k, "de", "la", "le", "les", "des", "du", "del", "los", "las", "d", "l", "della", "dei", "do", "da") && len(p.gap(k)) == 1; n++ {
		k++
	}
	if !p.tok(k).capitalised() || len(p.gap(k)) != 1 || p.tok(k).any(rTrade|rNoun) {
		return
	}
	end := p.nameEnd(k)
	before := p.houseNumber(i-1) && (p.gap(i) == " " || p.gap(i) == ", ")
	after := p.houseNumber(end+1) && (p.gap(end+1) == " " || p.gap(end+1) == ", ")
	switch {
	case before:
		p.add(geoStreet, i-1, end)
	case after && !p.tok(end+1).is(shielded):
		p.add(geoStreet, i, end+1)
	case p.is(i, "rue", "calle", "avenida", "viale", "piazza", "chemin", "impasse") && p.nameLike(k):
		p.add(geoStreet, i, end)
	}
}

var germanStreets = []string{"straße", "strasse", "str", "weg", "gasse", "platz", "allee", "ufer", "damm", "steig", "laan", "straat", "gatan", "vägen"}

// germanStreetAt finds Lindenstraße 14 and its like, where name and street are
// one word.
func (p *passage) germanStreetAt(i int) {
	t := p.toks[i]
	if !t.titleCase() || t.len() < 6 || t.any(rTrade) || !p.houseNumber(i+1) || p.gap(i+1) != " " && p.gap(i+1) != ". " {
		return
	}
	for _, s := range germanStreets {
		if w := p.low(i); strings.HasSuffix(w, s) && len(w) > len(s)+2 && !(s == "str" && p.gap(i+1) != ". ") {
			p.add(geoStreet, i, i+1)
			return
		}
	}
}
