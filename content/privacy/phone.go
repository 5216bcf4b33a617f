package privacy

// phoneAt finds a telephone number by its shape: a country code, a leading 0
// with nine to thirteen digits, the North American plan, or five and five.
func (p *passage) phoneAt(i int, g group) bool {
	a := int(p.toks[i].a)
	plus := a > 0 && p.s[a-1] == '+' || a > 1 && p.s[a-1] == '(' && p.s[a-2] == '+' || a > 2 && p.s[a-3:a] == "(0)"
	for n := len(g.lens); n > 0; n-- {
		text, end := g.part(i, n)
		if len(text) > 15 || !plus && len(text) > 14 {
			continue
		}
		if len(text) < 8 {
			break
		}
		ok := false
		switch {
		case plus:
			ok = text[0] != '0'
		case text[0] == '0':
			ok = len(text) >= 9 && g.lens[0] > 'a' && !p.numberList(i, end)
		default:
			ok = northAmerican(text, g.lens[:n]) || g.lens[:n] == "ee" && text[0] >= '6' && g.seps[:1] == " "
		}
		if ok {
			p.addBytes(phoneShape, p.plusBefore(i), int(p.toks[end].b))
			return true
		}
	}
	return false
}

// numberList says whether the parts are a list of small numbers, each larger
// than the one before: 00 05 10 15 20.
func (p *passage) numberList(i, end int) bool {
	for k := i; k <= end; k++ {
		if p.toks[k].len() > 2 || k > i && p.number(k) <= p.number(k-1) {
			return false
		}
	}
	return end > i
}

// northAmerican knows 3-3-4, with or without a 1 before it: area and exchange
// begin with 2 to 9, so that an NHS number or a page range is not one.
func northAmerican(text, lens string) bool {
	switch lens {
	case "accd":
		if text[0] != '1' {
			return false
		}
		text = text[1:]
	case "ccd":
	default:
		return false
	}
	return text[0] >= '2' && text[3] >= '2'
}
