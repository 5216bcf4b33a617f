package privacy

// notName are the roles that a capitalised word may have without being a
// person's or a place's name.
const notName = rPlain | rTrade | rNoun | rEponym | rPlace | rMonth | rWeekday | rSeason | rCue | rRole | rLiterature | rUnit | rVersion | rHonorific | rTitle | rFacility | rFacilityFirst | rNumber | rOrdinal | rGeneric

// nameLike says whether token j is a capitalised word that no list knows: it
// may be a name. Short abbreviations in capitals are not.
func (p *passage) nameLike(j int) bool {
	t := p.tok(j)
	return t.capitalised() && t.len() > 2 && !t.any(notName) && !(t.is(allUp) && t.len() < 4) && !clinical(p.word(j)) || t.titleCase() && t.any(rGiven)
}

// widePlace says whether tokens j and j+1 begin a country or state of more
// than one word.
func (p *passage) widePlace(j int) bool {
	if g := p.gap(j + 1); !p.tok(j).titleCase() || g != " " && g != "-" {
		return false
	}
	var one, two [48]byte
	words := append(lower(one[:0], p.word(j)), ' ')
	return widePlaces[string(append(words, lower(two[:0], p.word(j+1))...))]
}

// tradeFollows says whether a trade noun stands within two words after token j,
// which makes j an eponym. After a possessive, lens does not count: it is the
// patient's.
func (p *passage) tradeFollows(j int) bool {
	k, owned := j+1, false
	for p.gap(k) == "-" && p.tok(k).is(firstUp) {
		k++
	}
	if p.is(k, "s") && p.gap(k) == "'" {
		k, owned = k+1, true
	} else if p.gap(k) == "' " {
		owned = true
	}
	for n := 0; n < 2; n++ {
		g := p.gap(k)
		if g != " " && g != "-" && g != "' " && g != "\n" || p.tok(k).a == 0 {
			return false
		}
		if p.tok(k).any(rNoun) && !(owned && p.is(k, "lens", "lenses", "nucleus", "pupil")) {
			return true
		}
		if p.is(k, "and", "or", "was", "is", "had", "has", "came", "with", "in", "at", "on", "to", "of", "for", "from") {
			return false
		}
		k++
	}
	return false
}

// eponym says whether token j is an eponym of the trade here.
func (p *passage) eponym(j int) bool {
	return p.tok(j).any(rEponym) || p.tradeFollows(j) || p.tok(j+1).any(rEponym) && p.gap(j+1) == " " || p.tok(j).any(rEponymNoun) && p.powerFollows(j+1)
}

// powerFollows says whether token k begins a dioptre value, as after the name
// of a formula: Ellis 21.38 D.
func (p *passage) powerFollows(k int) bool {
	if !p.tok(k).digits() {
		return false
	}
	if p.gap(k+1) == "." {
		k++
	}
	return p.word(k+1) == "D" && p.gap(k+1) == " "
}

// nameEnd returns the last token of the name that begins at token j: it goes
// on over capitalised words, initials and particles.
func (p *passage) nameEnd(j int) int {
	end := j
	for k := j + 1; k < len(p.toks) && k <= j+6; k++ {
		t, g := p.toks[k], p.gap(k)
		switch {
		case g == " " || g == "-" || g == "'":
		case g == ". " || g == ".":
			if p.toks[k-1].len() > 1 {
				return end
			}
		case g == ", " && p.toks[k-1].is(allUp) && t.titleCase():
		default:
			return end
		}
		switch {
		case t.any(rParticle) && !t.is(firstUp) && p.tok(k+1).is(firstUp) && p.gap(k+1) == " ":
		case !t.capitalised() || g == " " && t.is(allUp) && !p.toks[j].is(allUp) && t.len() < 4 && t.len() > 1:
			return end
		case t.any(rTrade|rMonth|rWeekday|rNoun|rUnit|rFacility) && g == " " || t.any(rRole) && g == " " && k > j+1:
			return end
		default:
			end = k
		}
	}
	return end
}

// nameValue accepts the value of a label such as name, pt or surname.
func (p *passage) nameValue(l labelPhrase, first, j int, colon bool) bool {
	if !colon && p.is(j, "is", "was") && p.is(j-1, "name", "surname") && p.gap(j) == " " {
		j, colon = j+1, true
	}
	t := p.tok(j)
	g := p.gap(j)
	colon = colon || len(l.words) > 1 && g == " - " // pt name - OXTALLOW
	strong := len(l.words) > 1 || p.is(first, "surname", "forename", "nok", "nachname", "vorname", "apellido", "apellidos", "cognome", "prénom")
	if !colon && !(g == " (" || strong && g == " ") || t.a == 0 {
		return false
	}
	if t.any(rHonorific|rTitle) || t.any(rRole) && !p.tok(j+1).is(firstUp) {
		return false
	}
	end := p.nameEnd(j)
	if p.gap(j+1) == ", " && t.is(firstUp) && p.tok(j+1).titleCase() && p.nameLike(j) {
		end = p.nameEnd(j + 1)
	}
	known := p.nameLike(j)
	for k := j; k <= end; k++ {
		if p.toks[k].any(rTrade|rNoun|rRole|rMonth) && !p.toks[k].any(rGiven) {
			return false
		}
		known = known || p.nameLike(k)
	}
	switch {
	case !t.is(firstUp):
		return false
	case known, end > j && colon && (p.is(first, "name", "patient", "pt") || strong), strong && !t.any(rCue|rPlace) && t.is(firstUp) && p.zone != Body:
		p.add(l.rule, j, end)
		return true
	case p.is(j, "initials"):
		return false
	}
	return false
}
