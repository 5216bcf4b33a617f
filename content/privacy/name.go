package privacy

import "strings"

// honorificAt finds Mrs X, Dr X, Sister X. An honorific counts in its exact
// case only, since MS, MR, DR and "miss" are words of the trade; of those
// without capitals mr and mrs count, as dictated captions have them.
func (p *passage) honorificAt(i int) {
	t, w := p.toks[i], p.word(i)
	if t.is(inAuthors) {
		return
	}
	k := i + 1
	switch p.gap(k) {
	case " ", ". ", ".", "-", "_":
	default:
		return
	}
	next := p.tok(k)
	if !t.is(firstUp) {
		heard := p.zone == Caption && (w == "doctor" || w == "professor") && p.gap(k) == " " && !next.any(rLabel) && next.len() > 2
		if heard && next.word() && !next.any(notName&^rGiven) && !clinical(p.word(k)) {
			p.add(nameTitle, i, p.secondName(k))
		}
		if (w == "mr" || w == "mrs") && next.word() && !next.any(notName&^rGiven) {
			p.add(nameHonorific, i, p.secondName(k))
		}
		return
	}
	if t.is(allUp) && w != "MRS" && !(next.is(allUp) && next.len() > 3 && p.nameLike(k) && (w == "MR" || w == "MS" || w == "DR" || w == "MISS")) || t.any(rMonth) {
		return
	}
	for n := 0; n < 3 && next.any(rParticle) && !next.is(firstUp) && next.word(); n++ {
		k++
		next = p.tok(k)
	}
	if !next.capitalised() || strings.Contains(p.gap(k), "\n") || next.any(rHonorific|rTitle) && next.titleCase() {
		return
	}
	if p.widePlace(i) {
		return // Sri Lanka
	}
	hard := t.any(rHonorific | rTitle)
	if !hard && (next.any(notName&^(rGiven|rEponym)) || next.is(allUp) && next.len() < 4 || p.is(i-1, "the") && p.tradeFollows(k)) {
		return
	}
	if hard && next.is(allUp) && next.len() > 1 && next.any(rTrade) {
		return
	}
	rule := nameHonorific
	if t.any(rTitle) && !t.any(rHonorific) {
		rule = nameTitle
	}
	p.add(rule, i, p.nameEnd(k))
}

// relativeAt finds "her daughter X", "X, her daughter" and "daughter of X".
func (p *passage) relativeAt(i int) {
	if p.toks[i].is(inAuthors) {
		return
	}
	k := i + 1
	if p.is(k, "in") && p.is(k+1, "law") && p.gap(k) == "-" {
		k += 2
	}
	if p.is(k, "of") && p.gap(k) == " " {
		k++
		if p.nameLike(k) && p.gap(k) == " " && !p.eponym(k) {
			p.add(nameRelative, k, p.nameEnd(k))
		}
		return
	}
	t := p.tok(k)
	switch g := p.gap(k); {
	case g == " " && t.titleCase() && !t.any(rTrade|rNoun|rEponym|rMonth|rWeekday|rPlace|rCue|rHonorific|rTitle|rFacility|rGeneric) && !(t.any(rPlain) && p.toks[i].is(firstUp)) && t.len() > 1,
		(g == ", " || g == " (" || g == ": ") && p.nameLike(k) && !t.is(allUp):
		if !p.tradeFollows(k) {
			p.add(nameRelative, k, p.nameEnd(k))
			return
		}
	}
	if p.zone == Caption && p.gap(k) == " " && t.any(rGiven) && !t.any(rPlain|rTrade) { // dictated, without capitals
		p.add(nameRelative, k, k)
		return
	}
	j := i - 1
	if p.is(j, "s") && p.is(j-1, "patient") {
		j -= 2
	}
	if p.gap(i) != " " || !p.is(j, "her", "his", "the", "their", "a", "whose", "our") {
		return
	}
	if g := p.gap(j); (g == ", " || g == " (") && p.nameLike(j-1) && !p.eponym(j-1) {
		from := j - 1
		for from > 0 && p.gap(from) == " " && p.toks[from-1].titleCase() && !p.toks[from-1].any(notName&^rGiven) {
			from--
		}
		p.add(nameRelative, from, j-1)
	}
}

// calledAt finds "called X", "named X", "known (to all) as X".
func (p *passage) calledAt(i int) {
	k := i + 1
	if p.is(i, "known") {
		for n := 0; n < 4 && !p.is(k, "as") && p.gap(k) == " "; n++ {
			k++
		}
		if !p.is(k, "as") {
			return
		}
		k++
	}
	if g := p.gap(k); g != " " && g != ` "` && g != " '" || !p.nameLike(k) || p.tok(k).is(allUp) || p.eponym(k) || p.toks[i].is(inAuthors) {
		return
	}
	p.add(nameCalled, k, p.nameEnd(k))
}

// capitalAt runs the rules that a capital letter starts.
func (p *passage) capitalAt(i int) {
	t := p.toks[i]
	if t.is(inAuthors) {
		return
	}
	if !t.is(inRefs) {
		p.fromAt(i)
		p.germanStreetAt(i)
	}
	p.initialsAt(i)
	if t.is(hasDigit) {
		return
	}
	if t.is(inRefs) {
		return
	}
	p.letterAt(i)
	if p.zone == Filename {
		p.fileWordAt(i)
	}
	if t.titleCase() && p.nameLike(i) {
		p.possessiveAt(i)
		p.givenAt(i)
		p.pairAt(i)
	} else if t.titleCase() && t.any(rPlain) && !t.is(sentHead|inHeading) && !t.any(notName&^rPlain) {
		p.possessiveAt(i) // a surname that is also a word, inside a sentence
	}
}

// possessiveAt finds X's eye, X's left lens.
func (p *passage) possessiveAt(i int) {
	k := i + 1
	switch {
	case p.is(k, "s") && p.gap(k) == "'":
		k++
	case p.gap(k) == "' " && strings.HasSuffix(p.word(i), "s"):
	default:
		return
	}
	if p.gap(k) != " " && p.gap(k) != "' " || p.eponym(i) {
		return
	}
	if p.tok(k).any(rBody) || p.tok(k+1).any(rBody) && p.gap(k+1) == " " && !p.tok(k).any(rNoun) {
		p.add(namePossessive, i, i)
	}
}

// givenAt finds a common given name, and widens it over the surname.
func (p *passage) givenAt(i int) {
	t := p.toks[i]
	if !t.any(rGiven) || t.any(rPlain|rTrade|rPlace|rEponym|rMonth) || p.eponym(i) || t.is(inHeading) && p.tok(i+1).any(rPlain|rTrade) {
		return
	}
	if p.gap(i) == "-" || p.gap(i+1) == "-" && !p.tok(i+1).is(firstUp) {
		return
	}
	p.add(nameGiven, i, p.nameEnd(i))
}

// pairAt warns of two capitalised words that no list knows, and of one before
// an initial and an age.
func (p *passage) pairAt(i int) {
	if p.gap(i+1) != " " || p.gap(i) == "-" || p.zone == Filename || i > 0 && p.gap(i) == " " && p.toks[i-1].titleCase() && !p.toks[i-1].any(rPlain|rCue) {
		return
	}
	if p.toks[i].is(inHeading) || p.widePlace(i) {
		return
	}
	next := p.tok(i + 1)
	switch {
	case next.len() == 1 && next.is(firstUp) && strings.HasPrefix(p.after(i+1), ".") && p.ageFollows(i+2):
		p.add(nameInitials, i, i+1)
	case next.titleCase() && p.nameLike(i+1) && !p.eponym(i) && !p.eponym(i+1) && !p.tok(i+2).any(rFacility|rSettlement|rStreet):
		p.add(namePair, i, p.nameEnd(i))
	}
}

// initialsAt finds T.B.Q. and TBQ beside an age, or after patient or initials.
func (p *passage) initialsAt(i int) {
	t := p.toks[i]
	end := i
	switch {
	case t.len() == 1 && p.gap(i+1) == "." && !(i > 0 && p.gap(i) == "." && p.toks[i-1].len() == 1):
		for end-i < 4 && (p.gap(end+1) == "." || p.gap(end+1) == ". ") && p.tok(end+1).len() == 1 && p.tok(end+1).is(firstUp) {
			end++
		}
		if end == i || p.toks[end].b >= int32(len(p.s)) || p.s[p.toks[end].b] != '.' {
			return
		}
	case t.is(allUp) && t.len() >= 2 && t.len() <= 4 && !t.any(rTrade|rLiterature):
	default:
		return
	}
	cued := p.is(i-1, "initials", "initialled") || p.is(i-2, "initials") && p.in(i-1, connectors)
	if end > i {
		cued = cued || p.is(i-1, "patient", "pt") && p.gap(i) == " "
	}
	if end > i && strings.HasSuffix(p.gap(i), "(") {
		cued = cued || p.near(i, 6, "old", "yo", "patient", "aged")
	}
	if cued || (end > i || t.is(sentHead) || p.is(i-1, "patient", "pt")) && p.ageFollows(end+1) {
		b := int(p.toks[end].b)
		if end > i {
			b++ // the last full stop
		}
		p.addBytes(nameInitials, int(t.a), b)
	}
}

// ageFollows says whether an age stands at token k: ", a 71-year-old", ", 68 F",
// "(aged 70)".
func (p *passage) ageFollows(k int) bool {
	g := p.gap(k)
	if g == "/" || strings.HasSuffix(g, "(") {
		n := p.number(k)
		return n > 0 && n <= 120 && (g == "/" && p.gap(k+1) == "/" && p.is(k+1, "f", "m") || g != "/" && (strings.HasPrefix(p.after(k), ")") || p.is(k+1, "f", "m", "female", "male")))
	}
	if strings.Contains(g, "\n") || !strings.ContainsAny(g, ",( ") || len(g) > 4 {
		return false
	}
	for n := 0; n < 3 && p.is(k, "a", "an", "the", "aged", "age", "was", "is", "who", "then", "now"); n++ {
		k++
	}
	if p.is(k-1, "aged", "age") && p.tok(k).digits() {
		return true
	}
	n := p.number(k)
	if n < 1 || n > 120 {
		return leadDigits(p.word(k)) > 0 && p.tok(k).mixed() && p.tok(k).len() <= 4 && (strings.HasSuffix(p.low(k), "f") || strings.HasSuffix(p.low(k), "m") || strings.HasSuffix(p.low(k), "yo")) ||
			p.tok(k).any(rNumber) && p.oldAfter(k+1) > k+1
	}
	return p.oldAfter(k) > k || p.is(k+1, "year", "f", "m", "male", "female", "man", "woman", "yo") || strings.HasSuffix(p.gap(k), ", ") && (strings.HasPrefix(p.after(k), ")") || strings.HasPrefix(p.after(k), ", "))
}

// letterAt finds the opening and the close of a letter.
func (p *passage) letterAt(i int) {
	switch {
	case p.is(i, "dear") && p.gap(i+1) == " " && p.nameLike(i+1):
		p.add(nameDear, i+1, p.nameEnd(i+1))
	case p.is(i-1, "sincerely", "faithfully", "regards", "wishes", "truly") && strings.HasPrefix(p.gap(i), ",") && p.nameLike(i):
		p.add(nameDear, i, p.nameEnd(i))
	}
}

// speakerAt finds a caption's speaker who is no role: <v X> and X: at the
// start of a cue.
func (p *passage) speakerAt(i int) {
	j := i
	if p.word(i) == "v" && strings.HasSuffix(p.gap(i), "<") || i == 0 && p.word(i) == "v" && strings.HasPrefix(p.s, "<v") {
		for j++; p.gap(j) == "."; j++ {
		}
		end := j
		for end+1 < len(p.toks) && p.gap(end+1) == " " && end < j+3 {
			end++
		}
		for k := j; k <= end && k < len(p.toks); k++ {
			if t := p.toks[k]; t.is(hasDigit) || t.any(notName&^rGiven) {
				return
			}
		}
		if j < len(p.toks) {
			p.add(nameSpeaker, j, end)
		}
		return
	}
	for end := i; end < i+3 && end < len(p.toks); end++ {
		t := p.toks[end]
		if !t.capitalised() || t.any(notName&^rGiven|rLabel) || t.len() < 2 || t.is(allUp) && t.len() < 3 {
			return
		}
		switch g := p.gap(end + 1); {
		case strings.HasPrefix(g, ": ") || g == ":\n" || strings.HasPrefix(g, "]"):
			p.add(nameSpeaker, i, end)
			return
		case g != " ":
			return
		}
	}
}

// secondName returns the token after k where it goes on with a name that began
// at k, of whatever case, as dictation has them; else k.
func (p *passage) secondName(k int) int {
	if g := p.tok(k + 1); p.gap(k+1) == " " && g.word() && !g.any(notName) {
		return k + 1
	}
	return k
}
