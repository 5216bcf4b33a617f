package privacy

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// maker makes invented identifiers; the seed is fixed, so that a failure can
// be repeated.
type maker struct{ *rand.Rand }

func (m maker) pick(list ...string) string { return list[m.IntN(len(list))] }

// digits makes n figures, the first from 1 to 9.
func (m maker) digits(n int) string {
	b := []byte{byte('1' + m.IntN(9))}
	for len(b) < n {
		b = append(b, byte('0'+m.IntN(10)))
	}
	return string(b)
}

func (m maker) capitals(n int) string {
	b := make([]byte, n)
	for i := range b {
		b[i] = "ABCDEFGHJKLMNPRSTVWXY"[m.IntN(21)]
	}
	return string(b)
}

// surname makes a word that no list knows.
func (m maker) surname() string {
	for {
		w := m.pick("Ox", "Brann", "Thorn", "Quill", "Vey", "Fenni", "Tol", "Sall", "Wend", "Cor", "Hald", "Ips", "Marr", "Drus", "Kel", "Lark", "Pem", "Rusk", "Strav", "Udd") +
			m.pick("tal", "och", "cast", "by", "le", "mar", "qu", "ow", "ern", "ing", "az", "eld", "ov", "ard", "um", "it") +
			m.pick("low", "ton", "ley", "ham", "sky", "", "son", "ich", "ez", "wick", "ard", "mann", "elli", "oux", "sen", "dottir")
		if builtin().roles(w) == 0 {
			return w
		}
	}
}

func (m maker) given() string {
	list := strings.Fields(withoutNotes(givenWords))
	for {
		w := list[m.IntN(len(list))]
		if builtin().roles(w)&(rPlain|rTrade|rPlace|rMonth|rRelative|rTitle|rSoftTitle) == 0 {
			return strings.ToUpper(w[:1]) + w[1:]
		}
	}
}

func (m maker) day() (d, mo, y int) { return 1 + m.IntN(28), 1 + m.IntN(12), 1930 + m.IntN(95) }

var (
	monthNames = map[string][]string{
		"en": {"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"},
		"ab": {"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sept", "Oct", "Nov", "Dec"},
		"de": {"Januar", "Februar", "März", "April", "Mai", "Juni", "Juli", "August", "September", "Oktober", "November", "Dezember"},
		"fr": {"janvier", "février", "mars", "avril", "mai", "juin", "juillet", "août", "septembre", "octobre", "novembre", "décembre"},
		"es": {"enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre", "noviembre", "diciembre"},
		"it": {"gennaio", "febbraio", "marzo", "aprile", "maggio", "giugno", "luglio", "agosto", "settembre", "ottobre", "novembre", "dicembre"},
	}
	ordinals = []string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth", "seventeenth", "eighteenth", "nineteenth", "twentieth", "twenty-first", "twenty-second", "twenty-third", "twenty-fourth", "twenty-fifth", "twenty-sixth", "twenty-seventh", "twenty-eighth"}
	tens     = []string{"ninety", "ninety-one", "ninety-two", "ninety-three", "ninety-four", "ninety-five", "ninety-six", "ninety-seven", "ninety-eight", "ninety-nine"}
)

func (m maker) date() string {
	d, mo, y := m.day()
	en, yy := monthNames["en"][mo-1], y%100
	switch m.IntN(22) {
	case 0:
		return fmt.Sprintf("%04d-%02d-%02d", y, mo, d)
	case 1:
		return fmt.Sprintf("%02d/%02d/%04d", d, mo, y)
	case 2:
		return fmt.Sprintf("%d/%d/%04d", mo, d, y)
	case 3:
		return fmt.Sprintf("%02d.%02d.%02d", d, mo, yy)
	case 4:
		return fmt.Sprintf("%d %s %d", d, en, y)
	case 5:
		return fmt.Sprintf("%s %d, %d", en, d, y)
	case 6:
		return fmt.Sprintf("%d. %s %d", d, monthNames["de"][mo-1], y)
	case 7:
		return fmt.Sprintf("%d %s %d", d, monthNames["fr"][mo-1], y)
	case 8:
		return fmt.Sprintf("%d de %s de %d", d, monthNames["es"][mo-1], y)
	case 9:
		return fmt.Sprintf("%d %s %d", d, monthNames["it"][mo-1], y)
	case 10:
		return fmt.Sprintf("%04d%02d%02d", y, mo, d)
	case 11:
		return fmt.Sprintf("%04d-%02d-%02dT%02d:%02dZ", y, mo, d, m.IntN(24), m.IntN(60))
	case 12:
		return fmt.Sprintf("the %s of %s", ordinals[d-1], en)
	case 13:
		return fmt.Sprintf("%s %d", en, y)
	case 14:
		return fmt.Sprintf("%d-%s-%02d", d, monthNames["ab"][mo-1], yy)
	case 15:
		return fmt.Sprintf("%02d%s%d", d, strings.ToUpper(monthNames["ab"][mo-1][:3]), y)
	case 16:
		return fmt.Sprintf("%d-W%02d", y, 1+m.IntN(52))
	case 17:
		return fmt.Sprintf("%s %d", m.pick("Christmas Eve", "Boxing Day", "New Year's Day", "Easter Monday", "Halloween", "Diwali"), y)
	case 18:
		return fmt.Sprintf("%s %d", m.pick("spring", "autumn", "winter", "Q1", "the summer of"), y)
	case 19:
		return fmt.Sprintf("%d%s of %s '%02d", d, ordinalEnd(d), en, yy)
	case 20:
		return fmt.Sprintf("%s the %d%s, %d", en, d, ordinalEnd(d), y)
	default:
		return fmt.Sprintf("%04d/%02d/%02d", y, mo, d)
	}
}

func ordinalEnd(d int) string {
	switch {
	case d%10 == 1 && d != 11:
		return "st"
	case d%10 == 2 && d != 12:
		return "nd"
	case d%10 == 3 && d != 13:
		return "rd"
	}
	return "th"
}

// luhn appends the digit that makes Luhn's sum right.
func luhn(s string) string {
	for c := '0'; ; c++ {
		if luhnValid(s + string(c)) {
			return s + string(c)
		}
	}
}

func (m maker) nhs() string {
	for {
		if s := m.pick("4", "6", "7", "943", "999") + m.digits(9); nhsValid(s[:10]) {
			return s[:10]
		}
	}
}

func (m maker) aadhaar() string {
	s := m.pick("2", "5", "9") + m.digits(10)
	for c := '0'; ; c++ {
		if verhoeffValid(s + string(c)) {
			return s + string(c)
		}
	}
}

// grouped splits s into parts of the given lengths.
func grouped(s, sep string, lens ...int) string {
	var parts []string
	for _, n := range lens {
		parts = append(parts, s[:n])
		s = s[n:]
	}
	return strings.Join(parts, sep)
}

// makers give, for each class, a sentence and the identifier in it.
var makers = map[Class]func(m maker) (sentence, id string){
	Name: func(m maker) (string, string) {
		s, g := m.surname(), m.given()
		switch m.IntN(14) {
		case 0:
			id := m.pick("Mr", "Mrs", "Ms", "Mx", "Mr.", "Frau", "Herr", "Mme", "Señora", "Smt", "Lady") + " " + s
			return id + m.pick(" asked for the film.", " sat up early.", " had a small pupil."), id
		case 1:
			return "Her " + m.pick("daughter", "husband", "sister-in-law", "carer", "neighbour", "grandson") + " " + g + " gave the drops.", g
		case 2:
			return g + ", his " + m.pick("wife", "son", "partner") + ", drove home.", g
		case 3:
			id := m.pick("Dr", "Dr.", "Prof", "Professor") + " " + s
			return "The letter came from " + id + ".", id
		case 4:
			return m.pick("Patient: ", "pt: ", "Name: ", "Surname: ", "Patient name: ") + g + " " + s + ".", g + " " + s
		case 5:
			return s + "'s " + m.pick("left eye", "lens", "operation", "second eye", "pupil") + " was next.", s
		case 6:
			return "A man " + m.pick("called ", "named ", "known as ") + s + " came alone.", s
		case 7:
			id := strings.Join(strings.Split(m.capitals(3), ""), ".") + "."
			return id + fmt.Sprintf(", a %d-year-old, agreed.", 40+m.IntN(40)), id
		case 8:
			return "Dear " + s + ", thank you.", s
		case 9:
			return "We are grateful to " + g + " " + s + " for the film.", g + " " + s
		case 10:
			return "pt: " + strings.ToUpper(s) + ", " + g + ".", strings.ToUpper(s) + ", " + g
		case 11:
			id := m.capitals(2) + m.pick("Q", "Z")
			return id + fmt.Sprintf(", %d %s, dense lens.", 40+m.IntN(40), m.pick("F", "M")), id
		case 12:
			return "Next of kin: " + g + " " + s + ".", g + " " + s
		default:
			return m.pick("Mr and Mrs ", "Sister ", "Miss ") + s + " waited outside.", s
		}
	},
	Geo: func(m maker) (string, string) {
		s := m.surname()
		switch m.IntN(10) {
		case 0:
			id := m.digits(1+m.IntN(3)) + " " + s + " " + m.pick("Street", "Road", "Row", "Lane", "Close", "Avenue", "Way", "Crescent", "Drive")
			return "The letter went to " + id + ".", id
		case 1:
			id := m.pick("LN", "B", "EH", "SW", "CF", "N") + m.digits(1) + " " + m.digits(1) + m.pick("ZZ", "AB", "QX", "DE")
			return "It went to " + id + " by post.", id
		case 2:
			return "She " + m.pick("lives in ", "was born in ", "grew up near ", "still lives at ") + s + ".", s
		case 3:
			return "A farmer from " + s + " came late.", s
		case 4:
			return "He is from the " + m.pick("village", "town", "city", "parish", "county") + " of " + s + ".", s
		case 5:
			id := fmt.Sprintf("%.5f, -%.5f", 10+m.Float64()*70, 1+m.Float64()*100)
			return "It happened at " + id + " in the rain.", id
		case 6:
			id := m.pick("OH", "TX", "NY", "CA") + " " + m.digits(5)
			return s + ", " + id + ".", id
		case 7:
			id := s[:1] + strings.ToLower(s[1:]) + m.pick("straße ", "weg ", "gasse ", "platz ") + m.digits(2)
			return "Wohnhaft " + id + ".", id
		case 8:
			id := m.digits(2) + " rue " + m.pick("de ", "des ", "du ") + s
			return "Habite " + id + ".", id
		default:
			return "The " + s + " village hall was full.", s
		}
	},
	Facility: func(m maker) (string, string) {
		s := m.surname()
		id := m.pick(s+" Hospital", "Saint "+s+" Infirmary", s+" Eye Clinic", "Klinikum "+s, "Hôpital "+s, s+" Medical Centre", s+" Care Home", s+" General Hospital", "Royal "+s+" Eye Unit", "Hospital of "+s, s+" NHS Trust", "Krankenhaus "+s)
		return "The lens came by van from " + id + " that night.", id
	},
	Date: func(m maker) (string, string) {
		id := m.date()
		return m.pick("Seen on ", "Operated ", "The overlay says ", "Reviewed ", "Stopped in ") + id + m.pick(".", " with pain.", ", quiet eye."), id
	},
	Age: func(m maker) (string, string) {
		n := 90 + m.IntN(20)
		w := tens[m.IntN(10)]
		id := m.pick(fmt.Sprintf("%d-year-old", n), fmt.Sprintf("%d year old", n), fmt.Sprintf("%d years old", n), fmt.Sprintf("aged %d", n), fmt.Sprintf("%d yo", n), fmt.Sprintf("%dF", n), fmt.Sprintf("M/%d", n), w+"-year-old", "aged "+w, fmt.Sprintf("%d years of age", n), fmt.Sprintf("age: %d", n), "centenarian", "nonagenarian")
		return "The patient, " + id + ", had a dense lens.", id
	},
	Phone: func(m maker) (string, string) {
		id := m.pick("07700 900"+m.digits(3), "+44 7700 900"+m.digits(3), "(01632) 960"+m.digits(3), "01632 960 "+m.digits(3), "0"+m.digits(10), "(312) 555-01"+m.digits(2), "312-555-01"+m.digits(2), "312.555.01"+m.digits(2), "+1 312 555 01"+m.digits(2), "+49 30 "+m.digits(5)+" "+m.digits(3), "01 99 00 "+m.digits(2)+" "+m.digits(2), "+91 98765 4"+m.digits(4), "030/"+m.digits(8), "+33 (0)1 99 00 "+m.digits(2)+" "+m.digits(2))
		return m.pick("Ring ", "The number is ", "Tel: ", "Reached on ", "Mobile ") + id + m.pick(".", " at night.", " (daughter)."), id
	},
	Fax: func(m maker) (string, string) {
		id := m.pick("01632 960"+m.digits(3), "+49 30 "+m.digits(8), "(312) 555-01"+m.digits(2))
		return m.pick("Fax: ", "Fax ", "fax no. ", "Telefax ") + id + ".", id
	},
	Email: func(m maker) (string, string) {
		u := strings.ToLower(m.given()[:1]) + m.pick(".", "_", "", "-") + strings.ToLower(m.surname())
		h := m.pick("example", "mail.example")
		id := m.pick(u+"@"+h+".org", u+"@"+h+".co.uk", u+" [at] "+h+" [dot] org", u+"(at)"+h+"(dot)org", u+" at "+h+" dot com", u+"@"+h+".com", u+" @ "+h+".org")
		return "Write to " + id + " for the film.", id
	},
	SSN: func(m maker) (string, string) {
		id := fmt.Sprintf("%03d-%02d-%04d", 100+m.IntN(500), 1+m.IntN(99), 1+m.IntN(9999))
		return m.pick("SSN ", "SSN: ", "It reads ", "Social security number ") + id + ".", id
	},
	NationalID: func(m maker) (string, string) {
		n, a := m.nhs(), m.aadhaar()
		dni := m.digits(8)
		dni += string("TRWAGMYFPDXBNJZSQVHLCKE"[atoi(dni)%23])
		id := m.pick(n, grouped(n, " ", 3, 3, 4), grouped(n, "-", 3, 3, 4), grouped(a, " ", 4, 4, 4), a, dni, "QQ"+m.digits(6)+"C")
		return m.pick("The wristband says ", "It reads ", "Number ") + id + ".", id
	},
	MRN: func(m maker) (string, string) {
		id := m.pick(m.digits(7), m.capitals(1)+m.digits(6), m.digits(2)+"-"+m.digits(5), m.digits(6)+m.capitals(1), m.digits(3)+" "+m.digits(4))
		return m.pick("MRN ", "MRN: ", "Hospital no. ", "Hospital number: ", "Patient ID ", "Unit no ", "chart no. ", "UR number ", "Accession no. ", "Pt ID: ", "pt # ", "medical record number was ") + id + m.pick(".", ", right eye."), id
	},
	Plan: func(m maker) (string, string) {
		if m.IntN(3) == 0 {
			id := grouped(m.digits(1)+"EG"+m.digits(1)+"TE"+m.digits(1)+"MK"+m.digits(2), m.pick("-", "", " "), 4, 3, 4)
			return "The card says " + id + ".", id
		}
		id := m.capitals(2) + m.pick("-", "") + m.digits(6)
		return m.pick("Insurance policy no. ", "Member ID: ", "policy number ", "Beneficiary number ", "Medicare no. ") + id + ".", id
	},
	Account: func(m maker) (string, string) {
		c := luhn(m.pick("4", "5", "37")[:1] + m.digits(14))
		id := m.pick(c, grouped(c, " ", 4, 4, 4, 4), grouped(c, "-", 4, 4, 4, 4), "GB33 BUKB 2020 1555 5555 55", "GB33BUKB20201555555555")
		if m.IntN(3) == 0 {
			id = m.pick(m.digits(8), m.digits(4)+"-"+m.digits(5))
			return m.pick("Invoice no. ", "Account number ", "account no: ", "Receipt no. ") + id + ".", id
		}
		return "Paid with " + id + " at the desk.", id
	},
	Licence: func(m maker) (string, string) {
		id := m.pick(m.capitals(5)+" "+m.digits(6)+" "+m.capitals(1)+"99ZZ", m.digits(9), m.capitals(1)+m.digits(3)+"-"+m.digits(4))
		return m.pick("Driving licence ", "passport number ", "Passport no. ", "driver's license ", "licence number: ") + id + ".", id
	},
	Vehicle: func(m maker) (string, string) {
		id := m.pick(m.capitals(2)+m.digits(2)+" "+m.capitals(3), m.digits(1)+m.capitals(3)+m.digits(3), m.capitals(1)+"-"+m.capitals(2)+" "+m.digits(4))
		return "The van, " + m.pick("registration ", "number plate ", "reg. ", "licence plate ", "plate ") + id + ", burned.", id
	},
	Device: func(m maker) (string, string) {
		id := m.pick(m.digits(2)+m.capitals(1)+m.digits(6), m.digits(8), m.capitals(2)+"-"+m.digits(5))
		return m.pick("Serial number ", "serial no. ", "S/N ", "SN: ", "Serial: ", "(21)", "serial number of the lens was ", "Lot ", "batch no. ") + id + ".", id
	},
	URL: func(m maker) (string, string) {
		s := strings.ToLower(m.surname())
		id := m.pick("https://", "http://", "ftp://", "www.") + "photos.example.org/" + m.pick("u/", "album?n=", "~") + s
		return "The film is at " + id + " now.", id
	},
	IP: func(m maker) (string, string) {
		id := m.pick(fmt.Sprintf("203.0.113.%d", m.IntN(256)), fmt.Sprintf("192.168.%d.%d", m.IntN(256), m.IntN(256)), fmt.Sprintf("10.%d.%d.%d", m.IntN(256), m.IntN(256), m.IntN(256)), fmt.Sprintf("2001:db8::%x", 1+m.IntN(65535)), fmt.Sprintf("2001:db8:0:1:2:3:4:%x", 1+m.IntN(65535)))
		return "The recorder answers at " + id + " only.", id
	},
	Biometric: func(m maker) (string, string) {
		id := m.capitals(3) + "-" + m.digits(4)
		return m.pick("Iris template ", "Fingerprint template ", "iris scan id ", "Voiceprint ", "Face template ID ", "Retinal scan no. ") + id + " is on file.", id
	},
	Photo: func(m maker) (string, string) {
		id := m.pick("full-face photograph", "Facial photograph", "full face view", "face-on picture", "Mugshot", "facial photo", "selfie", "photograph of her face")
		return "A " + id + " was taken first.", id
	},
	Other: func(m maker) (string, string) {
		id := m.pick("only", "youngest", "first", "oldest", "sole") + " " + m.pick("organ builder", "blacksmith", "patient", "goalkeeper", "bell founder") + " in the " + m.pick("county", "country", "world", "village", "region")
		if m.IntN(3) == 0 {
			id = m.pick("the sitting mayor", "the former bishop", "then champion of the league", "reported in the national press", "on the local news")
			return "It was " + id + " again.", id
		}
		return "She was the " + id + " at the time.", id
	},
}

// TestGeneratedIdentifiers puts made identifiers into clean trade prose, as a
// sentence between two or in brackets inside one, and wants 99 in 100 found,
// with their class, in every class.
func TestGeneratedIdentifiers(t *testing.T) {
	paragraphs := cleanProse(t)
	m := maker{rand.New(rand.NewPCG(20, 26))}
	const each = 400
	for _, class := range Classes() {
		found, shown := 0, 0
		for range each {
			sentence, id := makers[class](m)
			text, at := insert(m, paragraphs[m.IntN(len(paragraphs))], sentence)
			at += strings.Index(sentence, id)
			if hasClass(Scan(Body, text), class, at, at+len(id)) {
				found++
			} else if shown++; shown <= 4 {
				t.Logf("%s: %q not found in %q: %v", class, id, sentence, Scan(Body, text))
			}
		}
		t.Logf("%s: %d of %d", class, found, each)
		if found*100 < each*99 {
			t.Errorf("%s: %d of %d found", class, found, each)
		}
	}
}

func hasClass(findings []Finding, class Class, a, b int) bool {
	for _, f := range findings {
		if f.Class == class && f.Start < b && f.End > a {
			return true
		}
	}
	return false
}

// insert puts the sentence at a random place of a paragraph.
func insert(m maker, paragraph, sentence string) (string, int) {
	var cuts []int
	for k := 0; k+2 < len(paragraph); k++ {
		if paragraph[k:k+2] == ". " || paragraph[k:k+2] == "? " {
			cuts = append(cuts, k+2)
		}
	}
	cuts = append(cuts, 0)
	k := cuts[m.IntN(len(cuts))]
	if k == 0 {
		return sentence + " " + paragraph, 0
	}
	return paragraph[:k] + sentence + " " + paragraph[k:], k
}
