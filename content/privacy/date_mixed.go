package privacy

import "unicode"

// mixedDateAt finds a date written in one word, 14MAR2021, 14Mar21 or Mar2021,
// as machines stamp it on a picture.
func (p *passage) mixedDateAt(i int) {
	w := p.word(i)
	lead := leadDigits(w)
	if lead > 4 || len(w) > 24 {
		return
	}
	k := lead
	for k < len(w) && (w[k] >= 0x80 || unicode.IsLetter(rune(w[k]))) {
		k++
	}
	tail := w[k:]
	if p.sc.roles(w[lead:k])&rMonth == 0 || leadDigits(tail) != len(tail) {
		return
	}
	day := lead > 0 && lead <= 2 && atoi(w[:lead]) >= 1 && atoi(w[:lead]) <= 31
	switch {
	case p.dateAllowed(i):
	case day && (len(tail) == 4 && year(tail) || len(tail) == 2), lead == 4 && year(w[:4]) && len(tail) <= 2 && tail != "":
		p.add(dateNamed, i, i)
	case day && tail == "" && k-lead >= 3 && year(p.word(i+1)) && p.shortGap(i+1):
		p.add(dateNamed, i, i+1)
	case lead == 0 && (len(tail) == 4 && year(tail)):
		p.add(dateMonthYear, i, i)
	}
}
