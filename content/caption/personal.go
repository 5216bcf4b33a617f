package caption

import (
	"regexp"

	"caseleaf/content/privacy"
)

// What somebody does for a living, how old somebody is to the year, and how a
// recording was filed say who it is as well as a name does.

var (
	trades      = wordSet("postmaster postman teacher headmaster headmistress schoolteacher farmer driver priest vicar pastor imam rabbi monk nun carpenter weaver tailor shopkeeper policeman policewoman constable soldier sailor lawyer judge baker butcher fisherman mayor minister clerk accountant midwife plumber electrician mechanic blacksmith potter goldsmith jeweller chef librarian journalist actor actress musician singer sculptor banker cashier miner fireman pilot captain colonel major sergeant conductor watchman gardener barber hairdresser beekeeper organist postwoman milkman shepherd headteacher principal dentist pharmacist architect builder mason welder keeper councillor senator poet novelist photographer cobbler undertaker innkeeper publican florist grocer ferryman gamekeeper forester vet solicitor magistrate choirmaster bandmaster stationmaster caretaker janitor cook waiter waitress nanny dressmaker seamstress")
	tradeCues   = wordSet("retired former works working worked used local by occupation job village ex")
	workCues    = wordSet("runs owns keeps manages teaches preaches")
	workPlaces  = wordSet("bakery shop school farm garage mill pub inn church temple mosque store café cafe market stall hotel post restaurant library salon laundry dairy forge brewery nursery orchard")
	personWords = wordSet("he she patient gentleman lady man woman who removed")
)

// work cuts "a retired bus driver" and "runs the bakery".
func (s *spoken) work() {
	for i, w := range s.words {
		switch {
		case trades[w.text]:
			from := s.tradeFrom(i)
			s.cut(from, i+1, privacy.Other)
		case workPlaces[w.text]:
			for k := max(0, i-4); k < i; k++ {
				if workCues[s.words[k].text] {
					s.cut(k, i+1, privacy.Other)
					break
				}
			}
		}
	}
}

// tradeFrom returns where the name of a trade begins that ends at i, or i+1
// when it is not said of somebody: "the driver" may be a tool.
func (s *spoken) tradeFrom(i int) int {
	for k := i - 1; k >= max(0, i-6); k-- {
		w := s.words[k].text
		if tradeCues[w] || (w == "a" || w == "the" || w == "an") && k > 1 && (s.words[k-1].text == "is" || s.words[k-1].text == "was" || s.words[k-1].text == "be") && (personWords[s.words[k-2].text] || s.strange(k-2)) {
			from := k + 1
			for from < i && (articles[s.words[from].text] || s.words[from].text == "as" || s.words[from].text == "an" || s.words[from].text == "to" || s.words[from].text == "be") {
				from++
			}
			return from
		}
	}
	return i + 1
}

// ages cuts "eighty one years old" and "aged eighty one".
func (s *spoken) ages() {
	words := texts(s.words)
	for i := range words {
		v, end := numberAt(words, i)
		if end == i || v < 18 || v > 115 || i > 0 && tens[words[i-1]] > 0 {
			continue
		}
		next := func(k int) string {
			if end+k < len(words) {
				return words[end+k]
			}
			return ""
		}
		before := ""
		if i > 0 {
			before = words[i-1]
		}
		if (next(0) == "years" || next(0) == "year") && (next(1) == "old" || next(1) == "of") || before == "aged" || before == "age" || before == "turned" || before == "turns" || before == "turning" {
			s.cut(i, end, privacy.Age)
		}
	}
}

var fileName = regexp.MustCompile(`(?i)[^\s"'<>]+\.(?:mp4|mov|avi|mkv|webm|mts|wmv|m4a|mp3|wav|vtt|srt|jpe?g|png|dcm|docx?|pdf|xlsx?|csv|txt)\b`)

// fileNames cuts the names of files: they often hold a patient's.
func (s *spoken) fileNames() {
	for _, m := range fileName.FindAllStringIndex(s.text, -1) {
		s.spans = append(s.spans, span{m[0], m[1], string(privacy.Other)})
	}
}

// How a file's name is spelt out: "wrenlock underscore left dot m p four".
var (
	inFileName = wordSet("underscore hyphen backslash")
	fileCues   = wordSet("as is called named name file it under")
	savedAs    = []string{"save it as", "save this as", "save itself as", "saved as", "save as", "file it as", "file as", "filed as", "filed under", "keep it as", "keep this as", "keep this one as", "file this as", "file this one as", "save this one as", "file name is", "filename is", "file is called", "the name of the file is"}
	fileEnds   = wordSet("if and so for because when but please now then thank thanks")
	fileKinds  = wordSet("mp4 mov avi mkv webm vtt srt m4a mp3 wav jpg jpeg png")
)

// spokenFileNames cuts file names that are spelt out, from the word that
// announces them.
func (s *spoken) spokenFileNames() {
	s.after(savedAs, 8, privacy.Other, func(i int) bool { return !fileEnds[s.words[i].text] })
	for i, w := range s.words {
		switch {
		case inFileName[w.text]:
			s.cut(s.fileFrom(i, 2), min(i+2, len(s.words)), privacy.Other)
		case w.text == "dot" && i+1 < len(s.words) && (fileKinds[s.words[i+1].text] || len(s.words[i+1].text) == 1):
			s.cut(s.fileFrom(i, 6), s.run(i+1, 3, func(k int) bool { return k == i+1 || len(s.words[k].text) == 1 || isNumber(s.words[k].text) }), privacy.Other)
		}
	}
}

// fileFrom goes back from i to where a name begins, at most n words.
func (s *spoken) fileFrom(i, n int) int {
	from := i
	for from > max(0, i-n) && !fileCues[s.words[from-1].text] {
		from--
	}
	return from
}
