package privacy

import "strings"

// scanAddresses finds web addresses and takes their tokens out of the reach of
// all other rules: an address is a finding as a whole or is let stand as a
// whole.
func (p *passage) scanAddresses() {
	if p.signs&slashSign == 0 {
		p.scanHosts()
		return
	}
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
		case next == '/' && t.a > 0 && p.s[t.a-1] == '.' && p.in(i, topLevel):
			p.bareURL(i)
		}
	}
}

// scanHosts finds addresses that begin with www and have no slash.
func (p *passage) scanHosts() {
	for _, i := range p.starts {
		if t := p.toks[i]; t.any(rSign) && t.len() == 3 && !t.is(inURL) && strings.HasPrefix(p.after(int(i)), ".") && p.is(int(i), "www") {
			p.urlAt(int(t.a), 0)
		}
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
	case f&(inRefs|inAuthors) != 0 || p.allowedHost(host):
	case !plainWeb(p.s[a:b]) || personal(host, path):
		p.addBytes(urlAddress, a, b)
	default:
		p.addBytes(urlPage, a, b)
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

// plainWeb says whether an address is one that anybody's browser opens, written
// out: only such a one can be an ordinary page.
func plainWeb(address string) bool {
	scheme, _, _ := strings.Cut(address, "://")
	return strings.EqualFold(scheme, "https") || strings.EqualFold(scheme, "http")
}

// personalParts are parts of a host or a path below which people keep what is
// theirs: profiles, albums, shared files, news of one person.
var personalParts = wordSet("u user users member members profile profiles people person account accounts in me my home album albums photo photos gallery galleries share shared sharing s invite story stories status post posts news obituary obituaries fundraiser login signin sso session download record records chart appointment booking mail webmail drive cloud files")

// personal says whether a page belongs to one person or can be opened by those
// only who were given its address: it stands below a part that says so, names
// a person in the ways that addresses do (~x, @x), has a port, or holds what
// looks like a key or a number of somebody.
func personal(host, path string) bool {
	host = strings.ToLower(host)
	if strings.ContainsAny(path, "~@") || strings.Contains(path, "%40") || strings.ContainsRune(host, ':') {
		return true
	}
	for part := range strings.SplitSeq(host, ".") {
		if personalParts[part] {
			return true
		}
	}
	page, query, _ := strings.Cut(path, "?")
	page, anchor, _ := strings.Cut(page, "#")
	for part := range strings.SplitSeq(page, "/") {
		if personalParts[part] || keyLike(part) || titled(part) {
			return true
		}
	}
	for part := range strings.FieldsFuncSeq(query, func(r rune) bool { return r == '&' || r == ';' || r == '#' }) {
		if _, value, _ := strings.Cut(part, "="); len(value) > 3 && strings.ContainsAny(value, "0123456789") || len(value) > 15 {
			return true
		}
	}
	return keyLike(anchor)
}

// keyLike says whether a part of a path is a number of six figures or more, or
// figures and letters mixed as in keys: words of a page's title are neither.
func keyLike(part string) bool {
	for piece := range strings.FieldsFuncSeq(part, func(r rune) bool { return r == '-' || r == '_' || r == '.' || r == '=' }) {
		figures, changes := 0, 0
		for i := range len(piece) {
			if isDigit(piece[i]) {
				figures++
			}
			if i > 0 && isDigit(piece[i]) != isDigit(piece[i-1]) {
				changes++
			}
		}
		if figures > 5 || figures > 0 && changes > 2 || len(piece) > 24 {
			return true
		}
	}
	return false
}

// titled says whether a part of a path holds an honorific: mrs-oxtallow.
func titled(part string) bool {
	for piece := range strings.FieldsFuncSeq(part, func(r rune) bool { return r == '-' || r == '_' || r == '.' }) {
		switch piece {
		case "mr", "mrs", "ms", "miss", "mx", "dr", "prof", "herr", "frau":
			return true
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
