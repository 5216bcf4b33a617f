package privacy

import (
	"sort"
	"strings"
)

// scanAddresses finds web addresses and takes their tokens out of the reach of
// all other rules: an address is a finding as a whole or is let stand as a
// whole.
func (p *passage) scanAddresses() {
	for k := 0; k < len(p.s); {
		n := strings.Index(p.s[k:], "://")
		if n < 0 {
			break
		}
		k = p.urlAt(k+n, 3)
	}
	for i := range p.toks {
		t := &p.toks[i]
		if int(t.b) >= len(p.s) || t.is(inURL) {
			continue
		}
		switch next := p.s[t.b]; {
		case t.len() == 3 && next == '.' && p.is(i, "www"):
			p.urlAt(int(t.a), 0)
		case next == '/' && t.a > 0 && p.s[t.a-1] == '.' && topLevel[p.low(i)]:
			p.bareURL(i)
		}
	}
}

// scanSigns looks for what a sign gives away rather than a word: @ for e-mail,
// colons between hexadecimal digits.
func (p *passage) scanSigns() {
	for k := 0; k < len(p.s); {
		n := strings.IndexByte(p.s[k:], '@')
		if n < 0 {
			break
		}
		p.emailAt(k + n)
		k += n + 1
	}
	for i := range p.toks {
		t := &p.toks[i]
		if t.is(inURL|inMatch) || int(t.b) >= len(p.s) {
			continue
		}
		switch next := p.s[t.b]; {
		case t.len() == 2 && p.is(i, "at"):
			p.speltAt(i)
		case t.len() <= 4 && (next == ':' || next == '-' && t.len() == 2) && isHex(p.word(i)):
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
	bracket := strings.HasSuffix(strings.TrimRight(before, " "), "[") || strings.HasSuffix(before, "(") || strings.HasSuffix(before, "{") || strings.HasSuffix(before, "<") || before == "-" && after == "-" || before == "_" && after == "_"
	if i == 0 || !bracket && (before != " " || after != " ") || len(before) > 3 || len(after) > 3 || strings.Contains(before+after, "\n") {
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

var topLevel = wordSet("com org net edu gov int info io co uk de fr es it eu us ca au in ie nl ch at se no dk nz za example test app dev me tv link online site cloud health photos")

// bareURL finds host.org/path without a scheme.
func (p *passage) bareURL(i int) {
	a := int(p.toks[i].a)
	for a > 0 && int(p.toks[i].a)-a < 200 && isDomain(p.s[a-1]) {
		a--
	}
	if a > 0 && (p.s[a-1] == '/' || p.s[a-1] == '@') || int(p.toks[i].b)+1 >= len(p.s) || !isWordByte(p.s[p.toks[i].b+1]) {
		return
	}
	p.urlAt(a, 0)
}

// urlAt reads the address whose host begins skip bytes after k; a scheme may
// stand before k. It returns where the address ends.
func (p *passage) urlAt(k, skip int) int {
	a := k
	if skip > 0 {
		for a > 0 && k-a < 12 && (byteKind[p.s[a-1]]&hasLetter != 0 || p.s[a-1] == '+' || p.s[a-1] == '-') {
			a--
		}
	}
	if skip > 0 && a == k {
		return k + skip
	}
	b := k + skip
	for b < len(p.s) && b-k < 2048 && p.s[b] > ' ' && strings.IndexByte("<>\"'`{}|\\^", p.s[b]) < 0 {
		b++
	}
	for b > k+skip && strings.IndexByte(".,;:!?)]", p.s[b-1]) >= 0 {
		b--
	}
	if b <= k+skip {
		return k + skip + 1
	}
	for i := p.tokenAt(a); i < len(p.toks) && int(p.toks[i].a) < b; i++ {
		p.toks[i].flag |= inURL
	}
	rest := p.s[k+skip : b]
	host, path := rest, ""
	if n := strings.IndexAny(rest, "/?#"); n >= 0 {
		host, path = rest[:n], strings.ToLower(rest[n:])
	}
	f := p.flagsAt(a)
	switch {
	case f&inMatch != 0:
	case strings.Contains(host, "@"), portal(path), strings.HasPrefix(host, "portal.") && path != "":
		p.addBytes(urlPortal, a, b)
	case f&(inRefs|inAuthors) == 0 && !p.allowedHost(host):
		p.addBytes(urlAddress, a, b)
	}
	return b
}

// portal says whether a path or query points at a record: it has a part, or a
// key with a value, that says so.
func portal(path string) bool {
	for part := range strings.FieldsFuncSeq(path, func(r rune) bool { return strings.ContainsRune("/?&#;._", r) }) {
		key, _, valued := strings.Cut(part, "=")
		switch key {
		case "patient", "patients", "portal", "mrn", "nhs", "dob", "patientid", "patient-portal":
			return true
		case "id", "token", "uid":
			if valued {
				return true
			}
		}
	}
	return false
}

func (p *passage) allowedHost(host string) bool {
	host = strings.ToLower(host)
	if k := strings.IndexByte(host, ':'); k >= 0 {
		host = host[:k]
	}
	for _, h := range p.sc.hosts {
		if host == h || strings.HasSuffix(host, "."+h) {
			return true
		}
	}
	return false
}
