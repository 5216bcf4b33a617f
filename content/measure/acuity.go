package measure

import (
	"fmt"
	"math"
	"strings"
)

// AcuityKind is the notation of an acuity, or the category below letters.
type AcuityKind int

// The notations and categories. The four categories are names, not numbers.
const (
	NoAcuity AcuityKind = iota
	SnellenFraction
	DecimalAcuity
	LogMARAcuity
	LetterScore
	CountingFingers
	HandMovements
	LightPerception
	NoLightPerception
)

// Acuity is a visual acuity as its author wrote it. Only measured acuities have a logMAR;
// counting fingers and below keep their category, since the published substitution tables
// disagree by up to 0.7 logMAR for the same word.
type Acuity struct {
	Kind                   AcuityKind
	Numerator, Denominator float64 // of a Snellen fraction
	Value                  float64 // decimal, logMAR or letter score
	Letters                int     // letters read beyond (+) or missed from (-) a Snellen line
	Distance               float64 // metres at which fingers were counted; 0 if not told
	Written                string  // the author's writing, tidied of odd spaces
}

const wantAcuity = `a visual acuity ("6/24", "20/40", "0.5", "logMAR 0.30", "70 letters", CF, HM, LP, NLP)`

// letterStep is the logMAR of one letter: exact for charts with five letters a line in steps
// of 0.1 (common practice, no source).
const letterStep = 0.02

// ParseAcuity reads any of the notations; a Snellen fraction may carry letters ("6/9-2").
func ParseAcuity(text string) (Acuity, error) {
	s := tidy(text)
	a := Acuity{Written: s}
	if s == "" {
		return a, refuse(text, wantAcuity, "", "")
	}
	if point, ok := decimalComma(s); ok {
		return a, refuse(text, wantAcuity, "a comma in a number", fmt.Sprintf("write %q", point))
	}
	if ok, err := a.category(text, s); ok || err != nil {
		return a, err
	}
	lower := strings.ToLower(s)
	switch {
	case strings.Contains(lower, "logmar"):
		return a, a.logMAR(text, strings.TrimSpace(strings.Replace(lower, "logmar", "", 1)))
	case strings.HasSuffix(lower, "letters"):
		return a, a.score(text, strings.TrimSpace(strings.TrimSuffix(lower, "letters")))
	case strings.Contains(s, "/"):
		return a, a.snellen(text, s)
	}
	return a, a.decimal(text, s)
}

// logMAR reads the number of "logMAR 0.30".
func (a *Acuity) logMAR(text, s string) error {
	v, ok := number(s, 0)
	switch {
	case !ok:
		return refuse(text, wantAcuity, "logMAR needs one number", "")
	case v < -0.5 || v > 3:
		return refuse(text, wantAcuity, "a logMAR lies between -0.50 and 3.00", "")
	}
	a.Kind, a.Value = LogMARAcuity, v
	return nil
}

// score reads the number of "70 letters".
func (a *Acuity) score(text, s string) error {
	v, ok := integer(s)
	if !ok || v > 100 {
		return refuse(text, wantAcuity, "a letter score is a whole number from 0 to 100", "")
	}
	a.Kind, a.Value = LetterScore, float64(v)
	return nil
}

// snellen reads "6/9", "20/40", "6/9-2", "6/9 +1".
func (a *Acuity) snellen(text, s string) error {
	top, bottom, _ := strings.Cut(s, "/")
	bottom = strings.TrimSpace(bottom)
	letters := ""
	if i := strings.IndexAny(bottom, "+-"); i >= 0 {
		bottom, letters = strings.TrimSpace(bottom[:i]), bottom[i:]
	}
	n, ok1 := number(strings.TrimSpace(top), 0)
	d, ok2 := number(bottom, 0)
	switch {
	case !ok1 || !ok2:
		return refuse(text, wantAcuity, "both sides of the stroke must be numbers", "")
	case n <= 0 || d <= 0:
		return refuse(text, wantAcuity, "both sides of the stroke must be over 0", "")
	case n/d > 3.2 || n/d < 0.001:
		return refuse(text, wantAcuity, "no chart has such a line", "")
	}
	a.Kind, a.Numerator, a.Denominator = SnellenFraction, n, d
	if letters == "" {
		return nil
	}
	count, ok := integer(strings.TrimSpace(letters[1:]))
	if !ok || count < 1 || count > 4 {
		return refuse(text, wantAcuity, "letters beyond or missed from a line are 1 to 4", "")
	}
	if letters[0] == '-' {
		count = -count
	}
	a.Letters = count
	return nil
}

// decimal reads "0.5". A sign, a zero or a bare whole number above 3 tells another notation.
func (a *Acuity) decimal(text, s string) error {
	v, ok := number(s, 0)
	switch {
	case !ok:
		return refuse(text, wantAcuity, "", "")
	case s[0] == '-' || s[0] == '+':
		return refuse(text, wantAcuity, "a decimal acuity has no sign", "write \"logMAR "+s+"\" if logMAR is meant")
	case v == 0:
		return refuse(text, wantAcuity, "0 is no decimal acuity", "write logMAR 0.00 for normal sight, NLP for none")
	case v > 3.2:
		return refuse(text, wantAcuity, "no decimal acuity is over 3.2", "write the fraction, or the word letters after a letter score")
	}
	a.Kind, a.Value = DecimalAcuity, v
	return nil
}

// LogMAR gives the logarithm of the minimum angle of resolution at full precision, and
// false for a category: log10(denominator/numerator) less 0.02 a letter for a fraction
// (Holladay, J Cataract Refract Surg 2004;30:287-290), -log10 for a decimal, and
// 1.7 - 0.02 x letters for a letter score (Beck and others, Am J Ophthalmol
// 2003;135:194-205).
func (a Acuity) LogMAR() (float64, bool) {
	switch a.Kind {
	case SnellenFraction:
		return math.Log10(a.Denominator/a.Numerator) - letterStep*float64(a.Letters), true
	case DecimalAcuity:
		return zeroSafe(-math.Log10(a.Value)), true
	case LogMARAcuity:
		return a.Value, true
	case LetterScore:
		return 1.7 - letterStep*a.Value, true
	}
	return 0, false
}

// zeroSafe turns negative zero into zero.
func zeroSafe(v float64) float64 {
	if v == 0 {
		return 0
	}
	return v
}

// Decimal gives 10^-logMAR, and false for a category.
func (a Acuity) Decimal() (float64, bool) {
	l, ok := a.LogMAR()
	if !ok {
		return 0, false
	}
	return DecimalFromLogMAR(l), true
}

// DecimalFromLogMAR gives the decimal acuity of a logMAR: 10^-logMAR.
func DecimalFromLogMAR(logMAR float64) float64 { return math.Pow(10, -logMAR) }

// LettersFromLogMAR gives the letter score of a logMAR: 85 - 50 x logMAR (Gregori and
// others, Retina 2010;30:1046-1050).
func LettersFromLogMAR(logMAR float64) float64 { return 85 - 50*logMAR }

// Measured reports whether the acuity is a number and not a category.
func (a Acuity) Measured() bool { return a.Kind >= SnellenFraction && a.Kind <= LetterScore }

// String gives the author's writing.
func (a Acuity) String() string { return a.Written }
