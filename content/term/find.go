package term

import "strings"

// ambiguous lists the words of the trade that rightly name more than one
// thing, with the reading to prefer first. Find returns all readings. No other
// name may belong to two terms of one kind; a test keeps it so.
var ambiguous = []struct {
	word string
	ids  []string
}{
	{"phaco", []string{"phacoemulsification", "sculpting", "cracking", "quadrant-removal"}}, // the operation or its ultrasound steps
	{"hydro", []string{"hydrodissection", "hydrodelineation"}},                              // dissection unless delineation is said
	{"groove", []string{"scleral-groove", "limbal-groove", "sculpting"}},
	{"tunnel", []string{"scleral-tunnel", "main-incision"}},
	{"capsulotomy", []string{"anterior-capsulotomy", "laser-capsulotomy"}},
	{"tear", []string{"posterior-capsule-tear", "anterior-capsule-tear"}},
	{"lens", []string{"intraocular-lens", "lens-nucleus"}}, // the implant or the natural lens
	{"ring", []string{"capsular-tension-ring", "pupil-expansion-ring"}},
	{"hooks", []string{"iris-hooks", "capsule-hooks"}},
	{"port", []string{"paracentesis", "main-incision"}},
}

// ambiguousRank puts the readings above after every plain name of a word.
const ambiguousRank = 4

func (v *Vocabulary) addAmbiguous() {
	for _, a := range ambiguous {
		key := fold(a.word)
		for k, id := range a.ids {
			if i, ok := v.byID[id]; ok {
				v.addReading(key, i, ambiguousRank+k)
			}
		}
	}
}

// addReading is addName without an entry for Suggest: an ambiguous word is no
// spelling to correct towards.
func (v *Vocabulary) addReading(key string, i, rank int) {
	claim := [2]string{key, v.terms[i].ID}
	if _, taken := v.rank[claim]; taken {
		return
	}
	v.rank[claim] = rank
	v.byKey[key] = append(v.byKey[key], i)
}

// Find returns the terms that text names by id, label, abbreviation or
// synonym, best first: the term whose id it is, then label, abbreviation,
// synonym, then the further readings of an ambiguous word. Case, hyphens,
// spaces, punctuation, accents and British or American spelling do not matter,
// and a plural or singular s is forgiven. It returns nil when nothing matches.
func (v *Vocabulary) Find(text string) []Term {
	places := v.find(text)
	if len(places) == 0 {
		return nil
	}
	terms := make([]Term, len(places))
	for k, i := range places {
		terms[k] = v.terms[i]
	}
	return terms
}

func (v *Vocabulary) find(text string) []int {
	key := fold(text)
	if places := v.byKey[key]; len(places) > 0 {
		return places
	}
	if len(key) < 4 { // "IOLs" but not "ass"
		return nil
	}
	if places := v.byKey[key+"s"]; len(places) > 0 {
		return places
	}
	if single, ok := strings.CutSuffix(key, "s"); ok && len(single) >= 3 {
		return v.byKey[single]
	}
	return nil
}
