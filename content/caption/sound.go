package caption

import "strings"

// phones is a rough pronunciation: one byte a sound. Capital letters are
// sounds without a letter of their own: S sh, C ch, J dge, T th, N ng, A as in
// eye, O as in oy, W as in how, R an r-coloured vowel. It serves to compare, not
// to speak: the captions come from software that heard an accent through a
// mask, so only the broad shape counts.
type phones string

// letterNames is how a letter sounds when spelt out: "OVD", "p c r".
var letterNames = map[byte]string{
	'a': "e", 'b': "bi", 'c': "si", 'd': "di", 'e': "i", 'f': "ef", 'g': "Ji", 'h': "eC", 'i': "A",
	'j': "Je", 'k': "ke", 'l': "el", 'm': "em", 'n': "en", 'o': "o", 'p': "pi", 'q': "kyu", 'r': "aR",
	's': "es", 't': "ti", 'u': "yu", 'v': "vi", 'w': "dubyu", 'x': "eks", 'y': "wA", 'z': "zed",
}

// digitNames lets "m6" and "SF6" be spoken.
var digitNames = [10]string{"ziro", "wun", "tu", "Tri", "for", "fAv", "siks", "sevn", "et", "nAn"}

// odd are short words that the rules get wrong.
var odd = map[string]string{
	"the": "Ta", "to": "tu", "two": "tu", "too": "tu", "one": "wun", "once": "wuns", "of": "ov", "eye": "A", "eyes": "Az",
	"you": "yu", "who": "hu", "do": "du", "does": "duz", "said": "sed", "says": "sez", "was": "woz", "are": "ar", "were": "wR",
	"oh": "o", "go": "go", "so": "so", "no": "no", "i": "A", "a": "e", "be": "bi", "he": "hi", "me": "mi", "we": "wi", "she": "Si",
	"iris": "Aris", "irish": "AriS", "people": "pipl", "wound": "wund", "women": "wimin", "some": "sum", "come": "kum", "done": "dun",
	"have": "hav", "give": "giv", "live": "liv", "there": "Ter", "their": "Ter", "where": "wer", "four": "for", "your": "yor",
	"eight": "et", "half": "haf", "could": "kud", "would": "wud", "should": "Sud", "people's": "piplz", "sewer": "suR",
}

// spell is one rule of sound: letters, what must come before and after, and
// the sounds they make. The first rule that fits is taken.
type spell struct{ letters, after, sound string }

// rules are tried in order at each place of a word; after is a set of letters
// one of which must follow ("$" for the end), or empty.
var rules = []spell{
	{"ough", "", "o"}, {"eigh", "", "e"}, {"tion", "", "Sn"}, {"sion", "", "Sn"}, {"cian", "", "Sn"}, {"cious", "", "Ss"},
	{"ture", "", "CR"}, {"sure", "", "SR"}, {"psych", "", "sAk"}, {"scious", "", "Ss"}, {"xious", "", "kSs"},
	{"augh", "", "o"}, {"igh", "", "A"}, {"tch", "", "C"}, {"sch", "", "sk"}, {"dge", "", "J"}, {"sce", "", "se"}, {"sci", "", "sA"},
	{"stle", "", "sl"}, {"sten", "$e", "sen"}, {"que", "$", "k"}, {"gue", "$", "g"}, {"rrh", "", "r"}, {"ous", "$", "s"}, {"eau", "", "o"},
	{"ear", "$", "ir"}, {"air", "", "er"}, {"are", "$", "er"}, {"ere", "$", "ir"}, {"ore", "$", "or"}, {"ire", "$", "AR"},
	{"ph", "", "f"}, {"gh", "", "g"}, {"sh", "", "S"}, {"chol", "", "kol"}, {"chor", "", "kor"}, {"chro", "", "kro"}, {"ch", "", "C"}, {"th", "", "T"}, {"wh", "", "w"}, {"rh", "", "r"}, {"kn", "", "n"},
	{"wr", "", "r"}, {"ck", "", "k"}, {"qu", "", "kw"}, {"ng", "$", "N"}, {"nk", "", "Nk"}, {"mb", "$", "m"}, {"oh", "", "o"}, {"ces", "$", "sis"}, {"ses", "$", "sis"}, {"xes", "$", "ksis"}, {"ges", "$", "Jis"},
	{"gn", "$", "n"}, {"xc", "", "ks"}, {"cc", "ei", "ks"},
	{"ee", "", "i"}, {"ea", "", "i"}, {"ie", "", "i"}, {"ei", "", "i"}, {"ey", "$", "i"}, {"oo", "", "u"}, {"ou", "", "W"}, {"ow", "", "o"},
	{"oi", "", "O"}, {"oy", "", "O"}, {"oa", "", "o"}, {"oe", "", "i"}, {"ae", "", "i"}, {"ai", "", "e"}, {"ay", "", "e"}, {"au", "", "o"},
	{"aw", "", "o"}, {"ew", "", "yu"}, {"eu", "", "yu"}, {"ue", "$", "u"}, {"ui", "", "u"},
	{"er", "bcdfghjklmnpqrstvwxz$", "R"}, {"ir", "bcdfgklmnpstvz$", "R"}, {"ur", "bcdfgklmnpstvz$", "R"}, {"or", "$", "R"}, {"ar", "$", "R"}, {"re", "$", "R"},
	{"le", "$", "l"}, {"es", "$", "s"}, {"ed", "$", "d"}, {"y", "$", "i"}, {"c", "eiy", "s"}, {"c", "", "k"}, {"g", "eiy", "J"},
	{"x", "", "ks"}, {"q", "", "k"}, {"j", "", "J"},
}

// rulesFor are the rules by the first of their letters, in the same order.
var rulesFor = func() (by ['z' + 1][]spell) {
	for _, r := range rules {
		by[r.letters[0]] = append(by[r.letters[0]], r)
	}
	return by
}()

// sounds returns the pronunciation of lower-case words run together: where one
// word ends is the first thing dictation software gets wrong.
func sounds(words []string) phones {
	var b strings.Builder
	for i, w := range words {
		if w == "a" && i+1 < len(words) && i > 0 {
			b.WriteByte('a') // the article, or a stray vowel, more often than the letter
			continue
		}
		b.WriteString(wordSounds(w))
	}
	return collapse(b.String())
}

// collapse makes doubled sounds single, also across words.
func collapse(s string) phones {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if i == 0 || s[i] != s[i-1] {
			b.WriteByte(s[i])
		}
	}
	return phones(b.String())
}

func wordSounds(w string) string {
	w = strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, w)
	var b strings.Builder
	if s, ok := odd[w]; ok {
		return s
	}
	if speltOut(w) {
		for i := 0; i < len(w); i++ {
			b.WriteString(symbol(w[i]))
		}
		return b.String()
	}
	start := 0
	if strings.HasPrefix(w, "ps") || strings.HasPrefix(w, "pt") || strings.HasPrefix(w, "pn") {
		start = 1 // pseudo, pterygium, pneumatic
	}
	for i := start; i < len(w); {
		n, sound := soundAt(w, i)
		b.WriteString(sound)
		i += n
	}
	return b.String()
}

// speltOut reports whether a word is said letter by letter: no vowel in it.
func speltOut(w string) bool {
	return len(w) == 1 || !strings.ContainsAny(w, "aeiouy")
}

func symbol(c byte) string {
	if c >= '0' && c <= '9' {
		return digitNames[c-'0']
	}
	return letterNames[c]
}

// soundAt returns how many letters at i make one sound, and the sound.
func soundAt(w string, i int) (int, string) {
	rest := w[i:]
	for _, r := range rulesFor[rest[0]] {
		if strings.HasPrefix(rest, r.letters) && fits(rest[len(r.letters):], r.after) {
			return len(r.letters), r.sound
		}
	}
	switch c := rest[0]; {
	case c >= '0' && c <= '9':
		return 1, digitNames[c-'0']
	case c == 'e' && len(rest) == 1 && i > 1:
		return 1, "" // silent
	case strings.IndexByte("aiou", c) >= 0 && magicE(rest):
		return 1, longVowels[c]
	case c == 'y':
		if i == 0 {
			return 1, "y"
		}
		return 1, "i"
	case c == 'h' && i > 0 && strings.IndexByte("aeiou", w[i-1]) < 0:
		return 1, ""
	default:
		return 1, rest[:1]
	}
}

var longVowels = ['z']string{'a': "e", 'i': "A", 'o': "o", 'u': "yu"}

func fits(rest, after string) bool {
	if after == "" {
		return true
	}
	if rest == "" {
		return strings.Contains(after, "$")
	}
	return strings.IndexByte(after, rest[0]) >= 0
}

// magicE reports whether a vowel is made long by a final e: "tome", "line".
func magicE(rest string) bool {
	return len(rest) == 3 && rest[2] == 'e' && strings.IndexByte("aeiourwy", rest[1]) < 0
}
