package privacy

import "strings"

// digitWords are figures as people speak them.
var digitWords = wordSet("zero oh nought naught one two three four five six seven eight nine double triple hundred thousand")

// spokenRun counts the figures spoken from token j on and returns the last.
func (p *passage) spokenRun(j int) (n, end int) {
	end = j - 1
	for k := j; k < len(p.toks) && p.in(k, digitWords); k++ {
		if g := p.gap(k); k > j && g != " " && g != ", " && g != "-" {
			break
		}
		n, end = n+1, k
	}
	return n, end
}

// spokenValue finds a number that a dictation has in words: "nhs number nine
// nine nine zero one two …", within a few words of its label.
func (p *passage) spokenValue(l labelPhrase, last int) bool {
	for j := last + 1; j <= last+4 && j < len(p.toks); j++ {
		if strings.ContainsAny(p.gap(j), "\n;") {
			return false
		}
		if !p.toks[j].any(rNumber) && !p.is(j, "zero", "oh", "nought", "double") {
			continue
		}
		n, end := p.spokenRun(j)
		if n < 6 {
			return false
		}
		p.addLabelled(l.rule, j, end)
		return true
	}
	return false
}

// spokenAt finds seven or more figures spoken in a row in a caption, without a
// label: one that begins with zero is a telephone number, another a record
// number.
func (p *passage) spokenAt(i int) {
	if i > 0 && p.in(i-1, digitWords) {
		return
	}
	n, end := p.spokenRun(i)
	if n < 7 || p.is(end, "hundred", "thousand") {
		return
	}
	rule := mrnLabel
	if p.is(i, "zero", "oh", "nought") {
		rule = phoneLabel
	}
	p.add(rule, i, end)
}
