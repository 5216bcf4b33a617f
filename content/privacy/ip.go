package privacy

import "strings"

// ipFourAt finds four numbers up to 255 joined by dots. Versions are shielded
// by their cue word.
func (p *passage) ipFourAt(i int) bool {
	for k := range 4 {
		if k > 0 && p.gap(i+k) != "." || p.toks[i].len() > 3 {
			return false
		}
		if n := p.number(i + k); n < 0 || n > 255 || p.tok(i+k).len() > 3 {
			return false
		}
	}
	if p.gap(i+4) == "." && p.tok(i+4).is(hasDigit) || p.toks[i].is(inRefs) && p.tok(i-1).any(rLiterature) {
		return false
	}
	p.add(ipFour, i, i+3)
	return true
}

// hexAt finds IPv6 addresses and hardware addresses that start at token i.
func (p *passage) hexAt(i int) {
	if i > 0 && strings.HasSuffix(p.gap(i), ":") && isHex(p.word(i-1)) {
		return
	}
	groups, pairs, double, digits, letters := 0, 0, false, false, false
	end := i
	for k := i; k < len(p.toks) && k < i+9; k++ {
		w := p.word(k)
		if !isHex(w) || len(w) > 4 {
			break
		}
		if k > i {
			g := p.gap(k)
			if g != ":" && g != "::" && g != "-" {
				break
			}
			double = double || g == "::"
		}
		groups++
		if len(w) == 2 {
			pairs++
		}
		digits = digits || p.toks[k].is(hasDigit)
		letters = letters || p.toks[k].is(hasLetter)
		end = k
	}
	switch {
	case groups == 6 && pairs == 6 && letters && !double:
		p.add(deviceMAC, i, end)
	case !digits || strings.Contains(p.s[p.toks[i].a:p.toks[end].b], "-"):
	case groups == 8 && !double, double && groups >= 3, double && groups == 2 && p.toks[i].len() == 4:
		p.add(ipSix, i, end)
	}
}

func isHex(w string) bool {
	for i := range len(w) {
		if _, ok := hexValue(w[i]); !ok {
			return false
		}
	}
	return w != ""
}
