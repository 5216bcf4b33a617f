package privacy

import "strings"

// postAreas are the letters a United Kingdom postcode may begin with (the list
// of areas, from memory); ZZ is for pseudo-codes.
var postAreas = wordSet("AB AL B BA BB BD BH BL BN BR BS BT CA CB CF CH CM CO CR CT CV CW DA DD DE DG DH DL DN DT DY E EC EH EN EX FK FY G GL GU GY HA HD HG HP HR HS HU HX IG IM IP IV JE KA KT KW KY L LA LD LE LL LN LS LU M ME MK ML N NE NG NN NP NR NW OL OX PA PE PH PL PO PR RG RH RM S SA SE SG SK SL SM SN SO SP SR SS ST SW SY TA TD TF TN TQ TR TS TW UB W WA WC WD WF WN WR WS WV YO ZE ZZ")

// postcodeAt finds a United Kingdom postcode: outward A9 A99 AA9 AA99 A9A AA9A
// of a real area, inward 9AA without C I K M O V. Unspaced or in small letters
// it needs an address near, so that a lens model is not taken for one.
func (p *passage) postcodeAt(i int) {
	w, next := p.word(i), p.word(i+1)
	if len(w) > 7 {
		return
	}
	cue := p.near(i, 8, "address", "postcode", "post", "lives", "code", "row", "street", "road", "lane", "close", "avenue", "letter")
	switch {
	case p.gap(i+1) == " " && len(next) == 3 && len(w) <= 4:
		if cue {
			w, next = strings.ToUpper(w), strings.ToUpper(next)
		}
		if postOut(w) && postIn(next) && (cue || !ordinalInward(next)) {
			p.add(geoPostcode, i, i+1)
		}
	case cue && len(w) >= 5:
		w = strings.ToUpper(w)
		if postOut(w[:len(w)-3]) && postIn(w[len(w)-3:]) {
			p.add(geoPostcode, i, i)
		}
	}
}

func postOut(w string) bool {
	letters := 0
	for letters < len(w) && isUpper(w[letters]) {
		letters++
	}
	if letters == 0 || letters > 2 || !postAreas[w[:letters]] {
		return w == "GIR"
	}
	rest := w[letters:]
	digits := leadDigits(rest)
	switch {
	case digits == len(rest):
		return digits == 1 || digits == 2
	case digits == 1 && len(rest) == 2:
		allowed := "ABCDEFGHJKSTUW"
		if letters == 2 {
			allowed = "ABEHMNPRVWXY"
		}
		return strings.IndexByte(allowed, rest[1]) >= 0
	}
	return false
}

func postIn(w string) bool {
	return len(w) == 3 && leadDigits(w) == 1 && isUpper(w[1]) && isUpper(w[2]) && !strings.ContainsAny(w[1:], "CIKMOV")
}

func ordinalInward(w string) bool {
	return w == "1ST" || w == "2ND" || w == "3RD" || w[1:] == "TH"
}

// states are the codes of the United States, its district and territories.
var states = wordSet("AL AK AZ AR CA CO CT DE FL GA HI ID IL IN IA KS KY LA ME MD MA MI MN MS MO MT NE NV NH NJ NM NY NC ND OH OK OR PA RI SC SD TN TX UT VT VA WA WV WI WY DC PR")

// zipAt finds a state code before five digits, D-12345, and five digits before
// a town after a comma. A handout needs none, so every one is flagged.
func (p *passage) zipAt(i int) {
	if p.tok(i + 1).any(rUnit | rNoun) {
		return
	}
	end := i
	if p.gap(i+1) == "-" && p.tok(i+1).digits() && p.tok(i+1).len() == 4 {
		end++
	}
	switch {
	case states[p.word(i-1)] && (p.gap(i) == " " || p.gap(i) == ", "),
		p.is(i-1, "d", "a", "ch", "f") && p.gap(i) == "-" && p.toks[i-1].is(firstUp):
		p.add(geoZip, i-1, end)
	case p.gap(i) == ", " && p.gap(i+1) == " " && p.nameLike(i+1) && !p.eponym(i+1):
		p.add(geoZip, i, i+1)
	}
}
