package privacy

import "strings"

// things may be a hundred years old without being a patient.
var things = wordSet("technique techniques debate idea ideas operation instrument theory practice controversy method building microscope problem tradition paper concept question procedure description book drug device design lens unit hospital history record rule story argument discipline field specialty journal")

// ageNumberAt finds ages from 90 to 120 in figures, and days of life.
func (p *passage) ageNumberAt(i int) {
	w := p.word(i)
	lead := leadDigits(w)
	if lead == 0 || lead > 4 {
		if lead == 0 && (w == "F96" || len(w) <= 4 && (w[0] == 'F' || w[0] == 'M')) {
			if n := atoi(w[1:]); leadDigits(w[1:]) == len(w)-1 && n >= 90 && n <= 120 {
				p.add(ageNumber, i, i)
			}
		}
		return
	}
	n := atoi(w[:lead])
	if lead == 4 {
		p.birthYearAt(i, n)
		return
	}
	p.daysAt(i, n)
	if n < 90 || n > 120 || strings.HasPrefix(p.after(i), "%") || strings.HasPrefix(p.after(i), "+") {
		return
	}
	if rest := w[lead:]; rest != "" {
		if r := strings.ToLower(rest); r == "f" || r == "m" || r == "yo" || r == "y" || r == "yr" || r == "yrs" || r == "w" || r == "yf" || r == "ym" || r == "jährige" {
			p.add(ageNumber, i, i)
		} else if p.is(i+1, "birthday") && (r == "th" || r == "st" || r == "nd" || r == "rd") {
			p.add(ageNumber, i, i+1)
		}
		return
	}
	if from, to, ok := p.ageAround(i); ok && !p.grouped(to) && !p.thing(from, to) {
		p.add(ageNumber, from, to)
	}
}

// thing says whether what is so old is no person: a 100-year-old idea, the
// technique is 100 years old.
func (p *passage) thing(from, to int) bool {
	return p.in(to+1, things) || p.is(from-1, "is", "was", "are", "were", "nearly", "over", "about") && (p.in(from-2, things) || p.in(from-3, things))
}

// ageAround looks at what stands around the number in token i for the words
// that make it an age.
func (p *passage) ageAround(i int) (from, to int, ok bool) {
	if to := p.oldAfter(i); to > i {
		return i, to, true
	}
	before, gap := p.low(i-1), p.gap(i)
	switch {
	case before == "aged" || before == "age" || before == "ages" || before == "alter" || before == "âge" || before == "edad" || before == "età":
		if strings.Trim(gap, " :=-~\n\"'") == "" {
			return i - 1, i, !p.tok(i+1).any(rNoun) || p.gap(i+1) != " "
		}
	case p.is(i-2, "age") && p.is(i-1, "of", "was", "is"), p.is(i-2, "woman", "man", "lady", "gentleman", "widow", "widower") && p.is(i-1, "of"), p.is(i-1, "turned", "turning"):
		return i - 1, i, !p.tok(i + 1).any(rUnit)
	case (before == "m" || before == "f") && (gap == "/" || gap == ", " || gap == " ") && p.tok(i-1).is(firstUp):
		return i - 1, i, gap == "/" || gap == ", " && p.is(i-1, "f", "m") && !p.tok(i+1).any(rUnit)
	case p.is(i+1, "m", "f") && p.tok(i+1).is(firstUp) && (p.gap(i+1) == " " || p.gap(i+1) == "/"):
		return i, i + 1, !p.toks[i].is(shielded) && p.gap(i) != "."
	case before == "at" && gap == " " && p.personAfter(i):
		return i - 1, i, true
	case (before == "to" || gap == "-" || gap == " to ") && p.near(i, 4, "range", "ranged", "ranging", "ran") && p.near(i, 12, "age", "ages", "aged"):
		return i, i, true
	case (before == "to" || before == "and" || gap == "-") && (p.is(i-3, "aged", "ages") || p.is(i-2, "aged", "ages")):
		return i, i, !p.tok(i + 1).any(rUnit)
	}
	return 0, 0, false
}

// oldAfter returns the last token of "-year-old", "years of age", "yo", "ans"
// after the number in token i, or i.
func (p *passage) oldAfter(i int) int {
	switch {
	case p.is(i+1, "year", "years", "yr", "yrs", "jahre", "y") && len(p.gap(i+1)) <= 3:
		if p.is(i+2, "old", "olds", "alt") && len(p.gap(i+2)) <= 1 {
			return i + 2
		}
		if p.is(i+2, "of") && p.is(i+3, "age") {
			return i + 3
		}
		if p.is(i+1, "y") && p.is(i+2, "o") && len(p.gap(i+2)) <= 1 {
			return i + 2
		}
		if p.is(i+1, "yr", "yrs") {
			return i + 1
		}
	case p.is(i+1, "yo", "ans", "años", "anni", "jährige", "jähriger", "jährigen") && len(p.gap(i+1)) <= 1:
		return i + 1
	}
	return i
}

// grouped says whether an age is followed by "or over" and the like, which is
// the group that may be named.
func (p *passage) grouped(to int) bool {
	if strings.HasPrefix(p.after(to), "+") {
		return true
	}
	if p.is(to+1, "years", "year") {
		to++
	}
	return p.is(to+1, "or", "and") && p.is(to+2, "over", "above", "older", "more", "up", "beyond") || p.is(to+1, "upwards", "plus")
}

// personAfter says whether token i is followed by a person, as in "At 93, she".
func (p *passage) personAfter(i int) bool {
	k := i + 1
	if strings.Trim(p.gap(k), " ,") != "" {
		return false
	}
	if p.is(k, "the", "this", "our", "a") {
		k++
	}
	return p.is(k, "he", "she", "they", "patient", "his", "her", "lady", "gentleman", "woman", "man") || p.tok(k).any(rHonorific)
}

// daysAt warns of an age in days of life.
func (p *passage) daysAt(i, n int) {
	if n < 1 || n > 60 || !p.tok(i-1).any(rUnit) && !p.tok(i+1).any(rUnit) {
		return
	}
	switch {
	case p.is(i+1, "day", "days") && p.is(i+2, "old") && len(p.gap(i+2)) == 1:
		if !p.is(i+3, "eye", "eyes", "suture", "sutures", "wound", "graft", "lens", "drop", "drops", "photograph") {
			p.add(ageDays, i, i+2)
		}
	case p.is(i-1, "day", "days") && p.is(i+1, "of") && p.is(i+2, "life"):
		p.add(ageDays, i-1, i+2)
	}
}

// birthYearAt finds born: 1924 and born in 1924.
func (p *passage) birthYearAt(i, y int) {
	if !p.toks[i].digits() || !year(p.word(i)) {
		return
	}
	k := i - 1
	if p.is(k, "in", "year") {
		k--
	}
	if !p.is(k, "born", "birth", "yob", "dob", "geboren", "geb", "née", "né", "birthyear", "birth_year") {
		return
	}
	event := p.event
	if event == 0 {
		event = p.yearNear(i)
	}
	switch {
	case event-y > 89:
		p.add(ageBorn, i, i)
	case event > 0 || y <= 1930:
		p.add(ageBirthYear, i, i)
	}
}

// yearNear is the latest year within forty tokens that can be the case's own.
func (p *passage) yearNear(i int) int {
	best := 0
	for k := max(0, i-40); k < min(len(p.toks), i+40); k++ {
		if k != i && p.toks[k].digits() && year(p.word(k)) && p.number(k) >= 1990 && !p.toks[k].is(inDates) {
			best = max(best, p.number(k))
		}
	}
	return best
}
