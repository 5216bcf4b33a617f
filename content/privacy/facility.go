package privacy

// everydayFacility are facility words that are ordinary words of a teaching
// text too; they need a name that no list knows before them.
var everydayFacility = wordSet("practice surgery trust unit institute institution department school home college mill factory ward nursery centre center university academy hospitals clinics prison barracks")

// facilityAt finds Saint Orsolya District Hospital, Klinikum Weidenau,
// Hospital of Quillby.
func (p *passage) facilityAt(i int) {
	t := p.toks[i]
	if t.any(rFacilityFirst) && t.is(firstUp) && p.facilityFirst(i) {
		return
	}
	if !t.any(rFacility) {
		return
	}
	if p.gap(i) == " " && (p.facilityBefore(i) || p.zone == Caption && p.facilityHeard(i)) {
		return
	}
	if k := i + 2; t.is(firstUp) && p.is(i+1, "of", "at", "in") && p.gap(i+1) == " " && p.gap(k) == " " && p.nameLike(k) && p.tok(k).titleCase() && !p.eponym(k) {
		p.addFacility(i, p.nameEnd(k))
	}
}

// facilityFirst reads the names that follow their noun.
func (p *passage) facilityFirst(i int) bool {
	k := i + 1
	for n := 0; n < 3 && p.is(k, "de", "la", "le", "du", "des", "di", "der", "den", "del", "am", "im", "zu", "st", "sankt", "san", "santa", "saint", "sainte") && (p.gap(k) == " " || p.gap(k) == ". "); n++ {
		k++
	}
	t := p.tok(k)
	if len(p.gap(k)) != 1 && p.gap(k) != ". " || !t.titleCase() || t.any(rPlain|rTrade|rGeneric|rCue|rNoun) || p.gap(k) == "\n" {
		return false
	}
	p.addFacility(i, p.nameEnd(k))
	return true
}

// facilityBefore walks back over the words before the noun in token i and
// wants one among them that is not generic.
func (p *passage) facilityBefore(i int) bool {
	noun := p.toks[i]
	lowered := !noun.is(firstUp)
	strict := lowered || p.in(i, everydayFacility)
	if lowered && p.in(i, everydayFacility) {
		return false
	}
	first := -1
	for k := i - 1; k >= 0 && k >= i-7; k-- {
		t := p.toks[k]
		possessive := p.word(k) == "s" && p.gap(k) == "'"
		if !t.capitalised() && !possessive && !(t.any(rParticle|rGeneric) && !lowered && p.tok(k-1).is(firstUp)) {
			break
		}
		if specific := t.titleCase() && !t.any(rGeneric|rCue|rTrade|rNoun|rEponym|rPlace|rMonth|rWeekday|rRole|rHonorific); specific && !(strict && t.any(rPlain)) && !(t.any(rPlain) && (t.is(sentHead) || t.is(inHeading))) {
			first = k
		}
		if g := p.gap(k); g != " " && g != "'" && !(g == ". " && p.tok(k-1).len() <= 2) && g != "-" {
			break
		}
	}
	if first < 0 {
		return false
	}
	end := i
	for p.gap(end+1) == " " && p.tok(end+1).titleCase() && p.tok(end+1).any(rFacility|rGeneric) {
		end++
	}
	p.addFacility(first, end)
	return true
}

// addFacility records a named facility; an author's affiliation only warns.
func (p *passage) addFacility(i, j int) {
	rule := facilityNamed
	if p.toks[i].is(inAuthors) {
		rule = facilityAuthors
	}
	p.add(rule, i, j)
}

// facilityHeard finds a named facility in a dictated caption, which has no
// capitals: a word that no list knows among those before the noun.
func (p *passage) facilityHeard(i int) bool {
	if p.in(i, everydayFacility) {
		return false
	}
	first := -1
	for k := i - 1; k >= 0 && k >= i-5 && p.gap(k+1) == " "; k-- {
		t := p.toks[k]
		if !t.word() || t.any(rCue|rHome|rRole) || p.is(k, "here") {
			break
		}
		if !t.any(notName) && t.len() > 3 {
			first = k
		}
	}
	if first >= 0 {
		p.addFacility(first, i)
	}
	return first >= 0
}
