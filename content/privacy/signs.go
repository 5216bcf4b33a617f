package privacy

import (
	"sort"
	"strings"
)

// scanSigns looks for what a sign gives away rather than a word: @ for e-mail,
// colons between hexadecimal digits.
func (p *passage) scanSigns() {
	if p.signs&atSign != 0 {
		p.scanMails()
	}
	p.scanSpelt()
}

// scanMails reads the e-mail address around every @.
func (p *passage) scanMails() {
	for k := 0; k < len(p.s); {
		n := strings.IndexByte(p.s[k:], '@')
		if n < 0 {
			break
		}
		p.emailAt(k + n)
		k += n + 1
	}
}

// scanSpelt finds addresses that the words at and dot or figures betray.
func (p *passage) scanSpelt() {
	for _, i := range p.starts {
		t := &p.toks[i]
		if t.any(rSign) && t.len() == 2 && !t.is(inURL|inMatch) && int(t.b) < len(p.s) {
			p.speltAt(int(i))
		}
	}
	if p.signs&linkedSign != 0 {
		p.scanLinked()
	}
}

// scanLinked finds the addresses of machines.
func (p *passage) scanLinked() {
	for i := range p.toks {
		t := &p.toks[i]
		if t.len() > 4 || t.is(inURL|inMatch) || int(t.b) >= len(p.s) {
			continue
		}
		if next := p.s[t.b]; (next == ':' || next == '-' && t.len() == 2) && isHex(p.word(i)) {
			p.hexAt(i)
		}
	}
}

// flagsAt are the flags of the token that holds byte a, or the first after it.
func (p *passage) flagsAt(a int) flag {
	return p.tok(p.tokenAt(a)).flag
}

// tokenAt is the token that holds byte a, or the first after it.
func (p *passage) tokenAt(a int) int {
	return sort.Search(len(p.toks), func(i int) bool { return int(p.toks[i].b) > a })
}

func isLocal(c byte) bool  { return isWordByte(c) || strings.IndexByte("._%+-", c) >= 0 }
func isDomain(c byte) bool { return isWordByte(c) || c == '.' || c == '-' }

// emailAt reads an address around the @ at byte k; one blank may stand on
// either side of it.
func (p *passage) emailAt(k int) {
	a, b := k, k+1
	if a > 0 && p.s[a-1] == ' ' && b < len(p.s) && p.s[b] == ' ' {
		a, b = a-1, b+1
	}
	from, to := a, b
	for from > 0 && a-from < 64 && isLocal(p.s[from-1]) {
		from--
	}
	for to < len(p.s) && to-b < 253 && isDomain(p.s[to]) {
		to++
	}
	host := strings.TrimRight(p.s[b:to], ".-")
	dot := strings.LastIndexByte(host, '.')
	if from == a || dot < 1 || len(host)-dot < 3 || leadDigits(host[dot+1:]) > 0 {
		return
	}
	if p.flagsAt(from)&(inAuthors|inMatch) == 0 {
		p.addBytes(emailShape, from, b+len(host))
	}
}

// speltAt finds name [at] host [dot] org around the word at in token i.
func (p *passage) speltAt(i int) {
	before, after := p.gap(i), p.gap(i+1)
	if i == 0 || len(before) > 3 || len(after) > 3 || strings.Contains(before, "\n") || strings.Contains(after, "\n") {
		return
	}
	bracket := before != " " && (strings.HasSuffix(strings.TrimRight(before, " "), "[") || strings.HasSuffix(before, "(") || strings.HasSuffix(before, "{") || strings.HasSuffix(before, "<") || before == "-" && after == "-" || before == "_" && after == "_")
	if !bracket && (before != " " || after != " ") {
		return
	}
	end, dots := i+1, 0
	for k := i + 2; k < len(p.toks) && k < i+12; k++ {
		g := p.gap(k)
		switch {
		case (p.is(k, "dot") || bracket && p.is(k, "punkt", "point", "punto")) && len(g) <= 3 && !strings.ContainsAny(g, ".,;\n"):
			dots++
			end = k + 1
			k++
		case g == "." || g == "-":
			end = k
			if g == "." && bracket {
				dots++
			}
		default:
			k = len(p.toks)
		}
	}
	if dots == 0 || end >= len(p.toks) || !p.toks[end].word() {
		return
	}
	from := i - 1
	for from > 0 && i-from < 8 {
		if g := p.gap(from); g == "." || g == "_" || g == "-" || g == "+" {
			from--
		} else if p.is(from-1, "dot", "underscore") && g == " " {
			from -= 2
		} else {
			break
		}
	}
	if p.toks[i].flag&(inAuthors|inMatch) == 0 && from >= 0 {
		p.add(emailSpelt, from, end)
	}
}
