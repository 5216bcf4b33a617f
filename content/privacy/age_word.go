package privacy

// ageWordAt finds ages over 89 in words: ninety-two-year-old, at ninety-four,
// aged one hundred, a centenarian, her ninety-fifth birthday. The words for
// the whole group (nonagenarian, in her nineties) warn.
func (p *passage) ageWordAt(i int) {
	switch p.low(i) {
	case "centenarian", "centenarians", "supercentenarian":
		p.add(ageWord, i, i)
		return
	case "nonagenarian", "nonagenarians":
		p.add(ageNineties, i, i)
		return
	case "nineties":
		for k := i - 1; k >= i-2; k-- {
			if p.is(k, "her", "his", "their") {
				p.add(ageNineties, max(k-1, 0), i)
				return
			}
		}
		return
	}
	end, ok := p.ninetyOrMore(i)
	if !ok || p.tok(i-1).any(rNumber) && p.gap(i) != "\n" && !p.is(i-1, "one") {
		return
	}
	if p.toks[end].any(rOrdinal) {
		if p.is(end+1, "birthday", "year") {
			p.add(ageWord, i, end+1)
		}
		return
	}
	if to := p.oldAfter(end); to > end {
		if !p.grouped(to) && !p.thing(i, to) {
			p.add(ageWord, i, to)
		}
		return
	}
	if p.tok(end+1).any(rUnit|rNoun|rTrade) && p.gap(end+1) == " " || p.is(end+1, "percent", "per", "million", "thousand") || p.grouped(end) {
		return
	}
	switch {
	case p.is(i-1, "aged", "age", "turned", "turning"),
		p.is(i-1, "of") && p.is(i-2, "woman", "man", "lady", "gentleman", "patient", "widow", "widower"),
		p.is(i-1, "at") && p.gap(i) == " " && (p.personAfter(end) || end > i && !p.setting(i-2)),
		p.is(i-1, "is", "was", "nearly", "almost", "now") && p.is(i-2, "he", "she", "patient", "is", "was", "lady", "mother", "father"):
		p.add(ageWord, i, end)
	}
}

// setting says whether token j is what a machine or an eye is set at a number
// of: a bottle at ninety-five. In captions, where the machine is what is
// spoken of, anything but a person is.
func (p *passage) setting(j int) bool {
	if t := p.tok(j); j < 0 || t.any(rRole) || p.is(j, "he", "she", "they", "him", "her", "who") {
		return false
	}
	return p.zone == Caption || p.tok(j).any(rNoun|rTrade|rUnit) || p.is(j, "bottle", "set", "stays", "flow", "vacuum", "runs", "height", "power")
}

// ninetyOrMore reads ninety, ninety-one to ninety-nine, (one or a) hundred (and
// n), ninety-fifth; it returns the last token.
func (p *passage) ninetyOrMore(i int) (int, bool) {
	switch {
	case p.is(i, "ninety"):
		if t := p.tok(i + 1); (p.gap(i+1) == "-" || p.gap(i+1) == " ") && t.any(rNumber|rOrdinal) && !p.is(i+1, "first") || p.gap(i+1) == "-" && p.is(i+1, "first") {
			return i + 1, !p.is(i+1, "hundred", "thousand")
		}
		return i, true
	case p.is(i, "ninetieth", "hundredth"):
		return i, true
	case p.is(i, "hundred") || p.is(i, "one") && p.is(i+1, "hundred"):
		end := i
		if p.is(i, "one") {
			end++
		}
		if p.is(end+1, "and") && p.tok(end+2).any(rNumber) {
			return end + 2, true
		}
		return end, true
	}
	return i, false
}
