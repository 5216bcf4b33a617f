package privacy

import "strings"

// group is a number written in groups: 943 476 5919, 4111-1111-1111-1111,
// GB33 BUKB 2020 …; text is what is left without the separators.
type group struct {
	text string
	lens string // length of each part as a letter: 'a' is 1
	seps string // one byte for each separator
	end  int    // last token
}

// maxGroup bounds the tokens and bytes of a group, and so the work for one
// number.
const maxGroup = 12

// groupFrom gathers the parts joined to token i by one blank, hyphen, dot or
// slash, or by brackets as telephones have them. A group of fewer than least figures comes back empty.
func (p *passage) groupFrom(i int, buf []byte, least int) group {
	g := group{end: i}
	var lens, seps [maxGroup]byte
	n := 0
	for k := i; k < len(p.toks) && n < maxGroup; k++ {
		t := p.toks[k]
		if t.len() > 30 || !t.digits() {
			break
		}
		if n > 0 {
			c := groupGap(p.gap(k))
			if c == 0 || t.is(shielded) && t.len() < 4 {
				break
			}
			seps[n-1] = c
		}
		buf = append(buf, p.word(k)...)
		lens[n] = byte('a' - 1 + t.len())
		n++
		g.end = k
	}
	if len(buf) < least {
		return group{end: i} // most numbers of the trade end here
	}
	g.text, g.lens, g.seps = string(buf), string(lens[:n]), string(seps[:max(n-1, 0)])
	return g
}

// groupGap names the separator: ' ', '-', '.', '/' or ')' for the forms with
// brackets; 0 for anything else.
func groupGap(gap string) byte {
	switch gap {
	case " ", "-", ".", "/":
		return gap[0]
	case ") ", ")", ")-", " (", ")(0", " - ", " (0) ", ") (", "-(":
		return ')'
	}
	return 0
}

func plainUpper(w string) bool {
	for i := range len(w) {
		if !isUpper(w[i]) && (w[i] < '0' || w[i] > '9') {
			return false
		}
	}
	return true
}

// part takes the first n parts of a group.
func (g group) part(i, n int) (string, int) {
	total := 0
	for _, c := range []byte(g.lens[:n]) {
		total += int(c - 'a' + 1)
	}
	return g.text[:total], i + n - 1
}

// groupedAt offers the number that starts at token i to the rules for grouped
// figures: addresses of machines and places, check digits, telephones.
func (p *passage) groupedAt(i int) {
	t := p.toks[i]
	if t.mixed() {
		p.mixedAt(i)
		return
	}
	if p.ipFourAt(i) || p.coordinatesAt(i) {
		return
	}
	if t.len() < 4 && groupGap(p.gap(i+1)) == 0 && p.tok(i+1).a > 0 {
		return
	}
	var buf [96]byte
	g := p.groupFrom(i, buf[:0], 8)
	switch {
	case g.text != "" && (p.ssnAt(i, g) || p.idsAt(i, g) || p.phoneAt(i, g)):
	case t.len() == 5:
		p.zipAt(i)
	}
	p.mbiAt(i)
	p.nationalMixed(i)
}

// mixedAt deals with parts that hold letters and figures.
func (p *passage) mixedAt(i int) {
	p.mixedDateAt(i)
	p.mbiAt(i)
	p.ibanAt(i)
	p.nationalMixed(i)
	p.postcodeAt(i)
}

// ssnAt finds ddd-dd-dddd where area, group and serial can be issued.
func (p *passage) ssnAt(i int, g group) bool {
	if g.lens != "cbd" || g.seps != "--" || !ssnValid(atoi(g.text[:3]), atoi(g.text[3:5]), atoi(g.text[5:])) {
		return false
	}
	p.add(ssnShape, i, g.end)
	return true
}

// checked are the bare numbers that a check digit gives away: the lengths of
// the parts (| between the ways to write it; cards are in cardParts), the check
// and its rule.
var checked = []struct {
	lens  string
	valid func(string) bool
	rule  ruleID
}{
	{"", cardValid, accountCard},
	{"ddd|l|ff", aadhaarValid, idCheck},
	{"abbbccb|abbbccab|o|mb", nirValid, idCheck},
	{"cccb", cpfValid, idCheck},
	{"ccc", sinValid, idCheck},
	{"fd", personnummerValid, idCheck},
}

// idsAt tries the check digits on the whole group and then on its first parts.
func (p *passage) idsAt(i int, g group) bool {
	if strings.ContainsAny(g.seps, "/)") && !strings.HasPrefix(g.lens, "l") {
		g.lens, g.seps = g.lens[:1], ""
	}
	for n := len(g.lens); n > 0; n-- {
		text, end := g.part(i, n)
		if len(text) < 9 || len(text) > 19 {
			continue
		}
		if len(text) == 10 && strings.Trim(g.seps[:n-1], " -") == "" && p.nhsAt(i, end, g.lens[:n], text) {
			return true
		}
		for _, c := range checked {
			fits := oneOf(c.lens, g.lens[:n]) || c.rule == accountCard && cardParts(g.lens[:n])
			if fits && sameSeps(g.seps[:n-1]) && c.valid(text) {
				p.add(c.rule, i, end)
				return true
			}
		}
	}
	return false
}

func oneOf(list, s string) bool {
	for x := range strings.SplitSeq(list, "|") {
		if x == s {
			return true
		}
	}
	return false
}

// cardParts knows 4-4-4-4, 4-6-5, 4-6-4 and one run of figures.
func cardParts(lens string) bool {
	return oneOf("dddd|dfe|dfd|n|o|p|q|r|s|ddddc|hh", lens)
}

func sameSeps(seps string) bool {
	return seps == "" || strings.Trim(seps, seps[:1]) == "" || strings.Trim(seps, ".-") == ""
}

// nhsAt weighs ten digits that pass the NHS check: 3-3-4 or one run, in a
// range in use or beginning like a CHI number, is an identifier; any other
// pass may be chance.
func (p *passage) nhsAt(i, end int, lens, text string) bool {
	if lens != "ccd" && lens != "j" && lens != "fd" || !nhsValid(text) || text[0] == '0' && lens == "j" && !p.near(i, 8, "chi") || lens == "ccd" && text[3:6] == "555" {
		return false
	}
	switch {
	case nhsIssued(text) || lens != "ccd" && chiDate(text) && p.near(i, 8, "chi"):
		p.add(idCheck, i, end)
	case lens == "fd" && !chiDate(text):
		return false
	default:
		p.add(idChance, i, end)
	}
	return true
}

// near says whether one of the words stands within n tokens before token i.
func (p *passage) near(i, n int, words ...string) bool {
	for k := i - 1; k >= 0 && k >= i-n; k-- {
		if p.is(k, words...) {
			return true
		}
	}
	return false
}

// joined is the text of tokens i.. without separators as long as they hold
// capitals and figures, up to want characters; it returns the last token.
func (p *passage) joined(i, want int, buf []byte) (string, int) {
	for k := i; k < len(p.toks) && k < i+maxGroup; k++ {
		if k > i && p.gap(k) != " " && p.gap(k) != "-" {
			break
		}
		w := p.word(k)
		if !plainUpper(w) || len(buf)+len(w) > want {
			break
		}
		if buf = append(buf, w...); len(buf) == want {
			return string(buf), k
		}
	}
	return "", i
}

// mbiAt finds a Medicare beneficiary identifier.
func (p *passage) mbiAt(i int) {
	var buf [16]byte
	if w := p.word(i); len(w) != 4 && len(w) != 11 || w[0] < '1' || w[0] > '9' {
		return
	}
	if s, end := p.joined(i, 11, buf[:0]); s != "" && mbiShape(s) {
		p.add(planMBI, i, end)
	}
}

// ibanAt finds an IBAN, which begins with two letters and two figures.
func (p *passage) ibanAt(i int) {
	w := p.word(i)
	if len(w) < 4 || !isUpper(w[0]) || !isUpper(w[1]) || leadDigits(w[2:4]) != 2 {
		return
	}
	buf := append(make([]byte, 0, 40), w...)
	best := -1
	for k := i; ; {
		if ibanValid(string(buf)) {
			best = k
		}
		k++
		if k >= len(p.toks) || p.gap(k) != " " && p.gap(k) != "-" || !plainUpper(p.word(k)) || len(buf)+p.toks[k].len() > 34 {
			break
		}
		buf = append(buf, p.word(k)...)
	}
	if best >= 0 {
		p.add(accountIBAN, i, best)
	}
}

// nationalMixed finds the national numbers that hold letters: DNI, NIE, PPS,
// codice fiscale, National Insurance.
func (p *passage) nationalMixed(i int) {
	if n, g := p.toks[i].len(), p.gap(i+1); n != 8 && n != 9 && n != 16 && (g != " " && g != "-" || !plainUpper(p.word(i+1))) {
		return // as long as it stays by itself it is none
	}
	var buf [16]byte
	for _, c := range [...]struct {
		n     int
		valid func(string) bool
	}{{9, dniValid}, {8, ppsValid}, {9, ppsValid}, {16, codiceShape}, {9, ninoShape}} {
		if s, end := p.joined(i, c.n, buf[:0]); s != "" && c.valid(s) && (end == i || p.tok(end).b-p.tok(i).a < int32(c.n)+5) {
			p.add(idCheck, i, end)
			return
		}
	}
}
