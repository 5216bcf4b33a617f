package caption

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"caseleaf/content/privacy"
)

// Dictated captions have no capitals and no digits, which is what the privacy
// check goes by. The rules here take out what a spoken cue announces: a word
// that is neither English nor of the trade after a title, a role or "name is";
// a row of spoken digits; a spoken date; a place somebody comes from; a trade
// once followed. They take out too much rather than too little.

// spoken finds such words in one cue; edge is true near the recording's ends.
type spoken struct {
	*lexicon
	text  string
	words []word
	edge  bool
	spans []span
}

var (
	relativeWords = wordSet("daughter son husband wife brother sister mother father niece nephew cousin neighbour grandson granddaughter gentleman lady")
	personTitles  = wordSet("mister mr mrs ms miss missus doctor dr professor prof sister nurse madam sri shri smt thiru selvi señor senora herr frau monsieur madame brother matron nana sir amma ayya anna akka thambi uncle auntie aunty")
	certainTitles = wordSet("mister mr mrs ms missus prof shri smt herr frau monsieur madame señor senora")
	roleWords     = wordSet("nurse assistant assisting anaesthetist anesthetist anesthesiologist surgeon fellow resident registrar consultant technician tech student observer trainee scrub circulating runner")
	nameCues      = []string{"name is", "named", "name", "called", "patient is", "patient", "this one is", "assisted by", "scrubbed by", "thank you", "thanks", "well done", "save it as", "save this as", "saved as", "save as", "file as", "filed under", "filed as", "labelled", "label it", "title it", "titled", "file name", "filename", "signed", "signed by", "surname", "first name", "initials", "son of", "daughter of", "wife of", "husband of", "care of"}
	selfCues      = []string{"this is", "i am", "im", "my name is", "you are with", "speaking is", "welcome from"}
	placeCues     = []string{"she is from", "he is from", "comes from", "came from", "come from", "patient from", "is from", "lives in", "lives at", "lives near", "living in", "living at", "drove from", "drove in from", "drives from", "travelled from", "travels from", "referred from", "referred by", "sent from", "village of", "town of", "all the way from", "here in", "here at", "camp at", "camp in", "came in from", "native of", "belongs to", "walked from", "arrived from", "resident of", "practice in", "surgery in", "clinic in", "hospital in", "unit in", "school in", "church in", "temple in", "farm in", "shop in", "bakery in"}
	placeNouns    = wordSet("taluk village district town nagar colony mandal panchayat parish township suburb falls bay island county hamlet valley street road lane avenue hospital clinic infirmary eye centre center camp puram estate")
	notAName      = wordSet("please sorry sir maam everybody everyone team folks guys again coming ready there here doing fine good okay happy calm still asleep awake comfortable stable lying under in on is was has had will wants tells said says asked for with and the a an to")
	monthNames    = wordSet("january february march april may june july august september october november december")
	ordinals      = wordSet("first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth twentieth thirtieth twenty thirty")
	monthCues     = wordSet("in last since this next early late of until")
	bornCues      = wordSet("born birth dob birthday birthdate")
	numberCues    = wordSet("number case sheet record id file hospital mrn opd op ip uhid chart folder register registration account phone mobile telephone reference ref barcode wristband badge serial lot d slip token digits aadhaar nhs ssn passport licence license code tag label insurance policy pin postcode zip extension band reads")
)

// spokenIn lists what one cue announces.
func (l *lexicon) spokenIn(text string, edge bool) []span {
	s := &spoken{lexicon: l, text: text, words: splitWords(text), edge: edge}
	for i := range s.words {
		s.titleAt(i)
		s.placeNounAt(i)
		s.partOfPlaceAt(i)
		s.dateAt(i)
	}
	s.after(nameCues, 3, privacy.Name, s.strange)
	s.after(placeCues, 3, privacy.Geo, s.strange)
	if edge {
		s.after(selfCues, 3, privacy.Name, s.strangeTwice)
	}
	s.roles()
	s.relatives()
	s.numbers()
	s.work()
	s.ages()
	s.fileNames()
	s.spokenFileNames()
	return s.spans
}

func (s *spoken) cut(from, to int, class privacy.Class) {
	if from < to {
		s.spans = append(s.spans, span{s.words[from].start, s.words[to-1].end, string(class)})
	}
}

// strange reports whether a word is neither English nor of the trade nor a
// known mishearing, or bears a capital within a sentence that has small letters.
func (s *spoken) strange(i int) bool {
	w := s.words[i]
	if notAName[w.text] || s.trade[stem(w.text)] || len(s.exact[stem(w.text)]) > 0 || len(w.text) < 2 {
		return false
	}
	n, known := surprise(w.text)
	if !known && !english(w.text) {
		return !s.slips[w.text] && !isNumber(w.text) && w.text != "removed"
	}
	return n >= 5 && s.capital(i)
}

// capital reports whether a word has a capital that no sentence begins with.
func (s *spoken) capital(i int) bool {
	r, _ := utf8.DecodeRuneInString(s.text[s.words[i].start:])
	return i > 0 && unicode.IsUpper(r) && !s.words[i].pause && strings.ToUpper(s.text) != s.text
}

// strangeTwice wants two strange words running.
func (s *spoken) strangeTwice(i int) bool {
	return s.strange(i) && (i+1 < len(s.words) && s.strange(i+1) || i > 0 && s.strange(i-1))
}

// run counts how many words from i on pass a test, at most n.
func (s *spoken) run(i, n int, test func(int) bool) int {
	end := i
	for end < len(s.words) && end < i+n && test(end) {
		end++
	}
	return end
}

// after cuts what follows one of several phrases.
func (s *spoken) after(phrases []string, most int, class privacy.Class, test func(int) bool) {
	for _, p := range phrases {
		cue := strings.Fields(p)
		for i := 0; i+len(cue) < len(s.words); i++ {
			if !s.says(i, cue) {
				continue
			}
			from := i + len(cue)
			for from < len(s.words)-1 && (articles[s.words[from].text] || s.words[from].text == "is" || personTitles[s.words[from].text]) {
				from++
			}
			s.cut(from, s.run(from, most, test), class)
		}
	}
}

func (s *spoken) says(i int, phrase []string) bool {
	for k, w := range phrase {
		if s.words[i+k].text != w {
			return false
		}
	}
	return true
}

// titleAt cuts a name after a title; here an English word may be a name too.
func (s *spoken) titleAt(i int) {
	if !personTitles[s.words[i].text] || i+1 == len(s.words) {
		return
	}
	end := s.run(i+1, 3, s.strange)
	w := s.words[i+1].text
	n, _ := surprise(w)
	plain := certainTitles[s.words[i].text] && n > 4 && !s.trade[stem(w)] // mister baker
	if end == i+1 && (s.capital(i+1) || plain) && !notAName[w] {
		end = i + 2
	}
	if end > i+1 {
		s.cut(i, end, privacy.Name)
	}
}

// placeNounAt cuts a strange word before "village", "taluk" and the like.
func (s *spoken) placeNounAt(i int) {
	if i > 0 && placeNouns[s.words[i].text] && s.strange(i-1) {
		from := i - 1
		if from > 0 && s.strange(from-1) {
			from--
		}
		s.cut(from, i+1, privacy.Geo)
	}
}

// partOfPlaceAt cuts "lower thrapsley" near the ends of a recording, where people
// say where they are; in between, what is upper or lower is of the eye.
func (s *spoken) partOfPlaceAt(i int) {
	if s.edge && i+1 < len(s.words) && partOfPlace[s.words[i].text] && s.strange(i+1) && !s.nearTrade(s.words[i+1].text) {
		s.cut(i, i+2, privacy.Geo)
	}
}

// relatives cuts a name after "daughter".
func (s *spoken) relatives() {
	for i, w := range s.words {
		if relativeWords[w.text] {
			s.cut(i+1, s.run(i+1, 2, s.strange), privacy.Name)
		}
	}
}

// roles cuts a name on either side of a role: "scrub nurse is tamsin",
// "orrelby is assisting".
func (s *spoken) roles() {
	for i, w := range s.words {
		if !roleWords[w.text] {
			continue
		}
		k := i + 1
		for k < len(s.words) && (s.words[k].text == "is" || s.words[k].text == "today" || s.words[k].text == "our" || s.words[k].text == "was") {
			k++
		}
		s.cut(k, s.run(k, 2, s.strange), privacy.Name)
		if i > 1 && (s.words[i-1].text == "is" || s.words[i-1].text == "as") && s.strange(i-2) {
			s.cut(i-2, i-1, privacy.Name)
		}
	}
}

// dateAt cuts "twelfth august", "august the twelfth", and numbers after "born".
func (s *spoken) dateAt(i int) {
	w := s.words[i].text
	numeric := func(k int) bool {
		_, end := numberAt(texts(s.words), k)
		return ordinals[s.words[k].text] || monthNames[s.words[k].text] || end > k || s.words[k].text == "of" || s.words[k].text == "the"
	}
	switch {
	case bornCues[w]:
		from := i + 1
		for from < len(s.words) && (s.words[from].text == "on" || s.words[from].text == "in" || s.words[from].text == "is" || s.words[from].text == "of") {
			from++
		}
		s.cut(from, s.run(from, 8, numeric), privacy.Date)
	case ordinals[w] && i > 1 && s.words[i-1].text == "the" && (s.words[i-2].text == "on" || s.words[i-2].text == "of") && (i+1 == len(s.words) || joinsOn[s.words[i+1].text]):
		s.cut(i, i+1, privacy.Date) // case three of the fourteenth
	case monthNames[w]:
		from, to := i, i+1
		for from > 0 && (ordinals[s.words[from-1].text] || s.words[from-1].text == "of" && from > 1 && ordinals[s.words[from-2].text]) {
			from--
		}
		alone := w != "may" && w != "march" && w != "august" || i > 0 && monthCues[s.words[i-1].text]
		if to = s.run(to, 6, numeric); from < i || to > i+1 || alone {
			s.cut(from, to, privacy.Date)
		}
	}
}

// longNumber is how many spoken digits in a row are a number of somebody, and
// shortNumber how many are after a word such as "case".
const (
	longNumber  = 5
	shortNumber = 3
)

// numbers cuts rows of spoken digits with the letters they begin with.
func (s *spoken) numbers() {
	for i := 0; i < len(s.words); i++ {
		end, digits, rising, written := s.digits(i)
		if digits == 0 {
			continue
		}
		from := i
		for from > 0 && (len(s.words[from-1].text) == 1 && s.words[from-1].text != "a" && s.words[from-1].text != "i" || s.words[from-1].text == "dash" || s.words[from-1].text == "slash") {
			from--
		}
		cued := from < i
		for k := max(0, from-5); k < from; k++ {
			cued = cued || numberCues[s.words[k].text]
		}
		if !rising && (digits >= longNumber && !written || cued && digits >= shortNumber) {
			s.cut(from, end, privacy.MRN)
		}
		i = end - 1
	}
}

// digits reads a row of digits; rising tells counting from a number, and
// written digits say less than spoken ones, for settings are written so too.
func (s *spoken) digits(i int) (end, n int, rising, written bool) {
	last := -1.0
	rising = true
	for end = i; end < len(s.words); end++ {
		w := s.words[end].text
		v, unit := units[w]
		t, ten := tens[w]
		switch {
		case unit && v < 10:
			n++
		case unit || ten:
			n, v = n+2, v+t
		case isNumber(w) && strings.Trim(w, "0123456789") == "":
			n, v = n+len(w), -1
			written = true
		case n > 0 && (w == "double" || w == "triple" || w == "dash" || w == "slash"):
			continue
		default:
			return end, n, rising, written
		}
		rising = rising && v >= 0 && (last < 0 || v == last+1)
		last = v
	}
	return end, n, rising, written
}
