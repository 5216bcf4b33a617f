package privacy

// Check digits. Every function takes figures (and capitals, where the number
// has letters) without blanks or hyphens and says whether the number can be a
// real one; the sources and the published test numbers are in
// checkdigit_test.go.

// nhsValid checks the ten digits of an NHS (or CHI) number: the weighted sum of
// the first nine, weights 10 to 2, taken from 11; 11 counts as 0, and 10 is
// never issued.
func nhsValid(d string) bool {
	if len(d) != 10 || leadDigits(d) != 10 {
		return false
	}
	sum := 0
	for i := range 9 {
		sum += int(d[i]-'0') * (10 - i)
	}
	c := 11 - sum%11
	return c%11 == int(d[9]-'0') && c != 10
}

// nhsIssued says whether a valid number lies in the ranges issued or kept for
// tests; outside them one number in eleven passes by chance.
func nhsIssued(d string) bool {
	switch d[0] {
	case '3', '4', '6', '7':
		return true
	}
	return d[:3] == "999" || d[:3] == "943"
}

// chiDate says whether ten digits begin with a day, month and year as a CHI
// number does.
func chiDate(d string) bool {
	day, month := atoi(d[:2]), atoi(d[2:4])
	return day >= 1 && day <= 31 && month >= 1 && month <= 12
}

// The dihedral group D5 and the permutation of Verhoeff's method.
var (
	verhoeffD = [10]string{"0123456789", "1234067895", "2340178956", "3401289567", "4012395678",
		"5987604321", "6598710432", "7659821043", "8765932104", "9876543210"}
	verhoeffP = [8]string{"0123456789", "1576283094", "5803796142", "8916043527", "9453126870", "4286573901", "2793806415", "7046913258"}
)

// verhoeffValid checks digits by Verhoeff's method, the last digit being the
// check: c = d[c][p[i mod 8][digit]] from the right, i from 0, ends at 0.
func verhoeffValid(d string) bool {
	c := 0
	for i := range len(d) {
		n := d[len(d)-1-i]
		if n < '0' || n > '9' {
			return false
		}
		c = int(verhoeffD[c][verhoeffP[i%8][n-'0']-'0'] - '0')
	}
	return c == 0 && d != ""
}

// aadhaarValid checks twelve digits, the first from 2 to 9, by Verhoeff.
func aadhaarValid(d string) bool {
	return len(d) == 12 && d[0] >= '2' && verhoeffValid(d)
}

// luhnValid doubles every second digit from the right, takes 9 off what
// exceeds it, and wants a sum that 10 divides.
func luhnValid(d string) bool {
	sum := 0
	for i := range len(d) {
		n := int(d[len(d)-1-i] - '0')
		if n < 0 || n > 9 {
			return false
		}
		if i%2 == 1 {
			if n *= 2; n > 9 {
				n -= 9
			}
		}
		sum += n
	}
	return sum%10 == 0 && d != ""
}

// cardValid wants 14 to 19 digits, the first from 2 to 6, that pass Luhn.
func cardValid(d string) bool {
	return len(d) >= 14 && len(d) <= 19 && d[0] >= '2' && d[0] <= '6' && luhnValid(d)
}

// ssnValid says whether an area, group and serial can be issued; there is no
// check digit.
func ssnValid(area, group, serial int) bool {
	return area > 0 && area != 666 && area < 900 && group > 0 && serial > 0
}

// ibanValid moves the first four characters to the end, reads A as 10 to Z as
// 35, and wants 1 modulo 97. The shortest IBAN has 15 characters, the longest
// 34.
func ibanValid(s string) bool {
	if len(s) < 15 || len(s) > 34 || !isUpper(s[0]) || !isUpper(s[1]) || leadDigits(s[2:4]) != 2 {
		return false
	}
	rest := 0
	for _, c := range []byte(s[4:] + s[:4]) {
		switch {
		case c >= '0' && c <= '9':
			rest = (rest*10 + int(c-'0')) % 97
		case isUpper(c):
			rest = (rest*100 + int(c-'A') + 10) % 97
		default:
			return false
		}
	}
	return rest == 1
}

func isUpper(c byte) bool { return c >= 'A' && c <= 'Z' }

// mbiShape wants the eleven places C A AN N A AN N A A N N of a Medicare
// beneficiary identifier: C is 1 to 9, letters are without S L O I B Z. There
// is no check digit.
func mbiShape(s string) bool {
	if len(s) != 11 || s[0] < '1' || s[0] > '9' {
		return false
	}
	const shape = "NAXNAXNAANN"
	for i, c := range []byte(s) {
		letter := c >= 'A' && c <= 'Y' && c != 'S' && c != 'L' && c != 'O' && c != 'I' && c != 'B'
		digit := c >= '0' && c <= '9'
		if shape[i] == 'N' && !digit || shape[i] == 'A' && !letter || !letter && !digit {
			return false
		}
	}
	return true
}

// dniValid checks a Spanish DNI or NIE: eight digits (X, Y, Z stand for 0, 1, 2
// in front of seven) modulo 23 give the letter.
func dniValid(s string) bool {
	if len(s) != 9 {
		return false
	}
	head := s[:8]
	if c := head[0]; c >= 'X' && c <= 'Z' {
		head = string('0'+c-'X') + head[1:]
	}
	return leadDigits(head) == 8 && s[8] == "TRWAGMYFPDXBNJZSQVHLCKE"[atoi(head)%23]
}

// ppsValid checks an Irish PPS number: seven digits with weights 8 to 2, a
// second letter (A is 1) with weight 9, modulo 23; the remainder is the first
// letter, 0 being W.
func ppsValid(s string) bool {
	if len(s) < 8 || len(s) > 9 || leadDigits(s) != 7 {
		return false
	}
	sum := 0
	for i := range 7 {
		sum += int(s[i]-'0') * (8 - i)
	}
	if len(s) == 9 {
		if s[8] < 'A' || s[8] > 'I' && s[8] != 'W' {
			return false
		}
		if s[8] != 'W' {
			sum += 9 * int(s[8]-'A'+1)
		}
	}
	return s[7] == "WABCDEFGHIJKLMNOPQRSTUV"[sum%23]
}

// nirValid checks a French NIR of fifteen digits: the key is 97 less the first
// thirteen modulo 97. (Corsican numbers, with a letter, need a label.)
func nirValid(s string) bool {
	if len(s) != 15 || leadDigits(s) != 15 || s[0] < '1' || s[0] > '2' {
		return false
	}
	if m := atoi(s[3:5]); m < 1 || m > 12 && m < 20 {
		return false
	}
	rest := 0
	for _, c := range []byte(s[:13]) {
		rest = (rest*10 + int(c-'0')) % 97
	}
	return 97-rest == atoi(s[13:])
}

// sinValid checks a Canadian SIN: nine digits that pass Luhn, the first not 0
// or 8.
func sinValid(d string) bool {
	return len(d) == 9 && d[0] != '0' && d[0] != '8' && luhnValid(d)
}

// personnummerValid checks a Swedish personal number without century: a date
// and Luhn over ten digits.
func personnummerValid(d string) bool {
	if len(d) != 10 || leadDigits(d) != 10 {
		return false
	}
	month, day := atoi(d[2:4]), atoi(d[4:6])
	return month >= 1 && month <= 12 && (day >= 1 && day <= 31 || day > 60 && day <= 91) && luhnValid(d)
}

// ninoShape wants two letters, six digits and A to D, as a British National
// Insurance number has them; there is no check digit. QQ is the test prefix.
func ninoShape(s string) bool {
	if len(s) != 9 || leadDigits(s[2:8]) != 6 || s[8] < 'A' || s[8] > 'D' {
		return false
	}
	return isUpper(s[0]) && isUpper(s[1]) && s[0] != 'D' && s[0] != 'F' && s[0] != 'I' && s[0] != 'U' && s[0] != 'V' && s[1] != 'O'
}

// cpfValid checks a Brazilian CPF of eleven digits: two digits of modulo 11.
func cpfValid(d string) bool {
	if len(d) != 11 || leadDigits(d) != 11 {
		return false
	}
	for n := 9; n <= 10; n++ {
		sum := 0
		for i := range n {
			sum += int(d[i]-'0') * (n + 1 - i)
		}
		if sum*10%11%10 != int(d[n]-'0') {
			return false
		}
	}
	return true
}

// codiceShape wants the letters and digits of an Italian codice fiscale.
func codiceShape(s string) bool {
	const shape = "AAAAAANNANNANNNA"
	if len(s) != len(shape) {
		return false
	}
	for i, c := range []byte(s) {
		if shape[i] == 'A' && !isUpper(c) || shape[i] == 'N' && (c < '0' || c > '9') {
			return false
		}
	}
	return true
}
