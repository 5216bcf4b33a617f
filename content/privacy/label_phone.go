package privacy

import "strings"

// phoneValue wants seven or more figures, as telephones group them, within a
// few words of the label.
func (p *passage) phoneValue(l labelPhrase, first, last int) bool {
	if l.value == vPhone && p.spokenValue(l, last) {
		return true
	}
	reach := 6
	if l.value == vDialed {
		reach = 2
	}
	if p.in(last, vaguePhones) && (strings.HasSuffix(p.gap(first), "-") || strings.HasPrefix(p.gap(last+1), "-")) {
		return false // endothelial-cell-density
	}
	for j := last + 1; j < len(p.toks) && j <= last+reach; j++ {
		if g := p.gap(j); strings.ContainsAny(g, "\n;?!") || len(g) > 4 || g == ". " && p.toks[j-1].len() > 3 || strings.Contains(g, ":") && j > last+3 {
			return false
		}
		if p.toks[j].any(rLabel) && (p.toks[j].is(allUp) || p.is(j, "fax", "telefax", "tel", "phone", "mobile")) {
			return false // the other label knows better
		}
		if !p.toks[j].digits() {
			continue
		}
		if t := p.toks[j]; l.value == vDialed && t.len() >= 3 && t.len() <= 6 && !p.unitAfter(j, j) {
			p.add(l.rule, j, j)
			return true
		}
		var buf [96]byte
		g := p.groupFrom(j, buf[:0], 7)
		for n := len(g.lens); n > 0; n-- {
			if text, end := g.part(j, n); p.in(last, vaguePhones) && g.lens[:n] == "dd" {
				return false
			} else if len(text) >= 7 && len(text) <= 15 {
				if _, rule, isDate := p.matchDate(j); isDate && rule == dateNumeric || p.unitAfter(end, end) {
					return false
				}
				p.addBytes(l.rule, p.plusBefore(j), int(p.toks[end].b))
				return true
			}
		}
		if l.value == vDialed || strings.HasPrefix(p.after(j), ":") {
			return false
		}
	}
	return false
}

// vaguePhones are labels that are words of the trade too; a range of two
// four-digit numbers after them is no telephone.
var vaguePhones = wordSet("cell ring rings rang call calls text contact portable handy dial reached called")

// plusBefore is the start of token j with a plus or an opening bracket.
func (p *passage) plusBefore(j int) int {
	a := int(p.toks[j].a)
	for a > 0 && (p.s[a-1] == '+' || p.s[a-1] == '(') {
		a--
	}
	return a
}
