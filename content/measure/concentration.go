package measure

import (
	"fmt"
	"strings"
)

// StrengthForm is the way a strength was written. One form is never turned into another
// unasked: mixing them up is a known cause of wrong doses.
type StrengthForm int

// The forms of a strength.
const (
	PercentStrength  StrengthForm = iota // "0.06 %", grams in 100 mL
	DilutionStrength                     // "1:1000", one gram in so many mL
	MassInVolume                         // "0.5 mg/mL", "1 mg/0.1 mL"
	UnitsInVolume                        // "15 IU/mL"
	MassStrength                         // "1 mg": a dose, no volume told
)

// Concentration is a strength of a drug, dye or gas as its author wrote it.
type Concentration struct {
	Form   StrengthForm
	Amount float64 // per cent; the n of 1:n; mg; or units
	Volume Volume  // mL the amount is in; 0 for a percentage, a dilution or a dose
}

const wantConcentration = `a strength ("0.06 %", "1:1000", "0.5 mg/mL", "1 mg/0.1 mL", "1 mg")`

// ParseConcentration reads a percentage, a dilution ("1:1000" or "1 in 1000"), a mass or
// units in a volume, or a dose.
func ParseConcentration(text string) (Concentration, error) {
	s := tidy(text)
	if strings.Contains(s, ",") {
		hint := ""
		if point, ok := decimalComma(s); ok {
			hint = fmt.Sprintf("write %q", point)
		}
		return Concentration{}, refuse(text, wantConcentration, "a comma in a number", hint)
	}
	if one, n, ok := cutAny(s, ":", " in "); ok {
		return dilution(text, one, n)
	}
	if amount, volume, ok := strings.Cut(s, "/"); ok {
		return inVolume(text, strings.TrimSpace(amount), strings.TrimSpace(volume))
	}
	if v, err := percents.parse(s); err == nil {
		if v > 100 {
			return Concentration{}, refuse(text, wantConcentration, "over 100 %", "")
		}
		return Concentration{Form: PercentStrength, Amount: v}, nil
	}
	if v, err := masses.parse(s); err == nil {
		return Concentration{Form: MassStrength, Amount: v}, nil
	}
	if n, u := split(s); n != "" && u == "" {
		return Concentration{}, refuse(text, wantConcentration, "no unit: per cent or mg/mL?", "")
	}
	return Concentration{}, refuse(text, wantConcentration, "", "")
}

// cutAny cuts at the first separator found.
func cutAny(s string, seps ...string) (before, after string, found bool) {
	for _, sep := range seps {
		if b, a, ok := strings.Cut(s, sep); ok {
			return strings.TrimSpace(b), strings.TrimSpace(a), true
		}
	}
	return s, "", false
}

// dilution reads the two sides of "1:1000".
func dilution(text, one, n string) (Concentration, error) {
	if one != "1" {
		return Concentration{}, refuse(text, wantConcentration, `a dilution begins with 1, as in "1:1000"`, "")
	}
	if head, tail, found := strings.Cut(n, " "); found && len(tail) == 3 {
		n = head + tail // "1:10 000"
	}
	v, ok := integer(n)
	if !ok || v < 1 {
		return Concentration{}, refuse(text, wantConcentration, fmt.Sprintf("%q is no whole number of parts", n), "")
	}
	return Concentration{Form: DilutionStrength, Amount: float64(v)}, nil
}

// unitWords are the writings of international units.
var unitWords = map[string]bool{"IU": true, "iu": true, "units": true, "U": true}

// inVolume reads the two sides of "0.5 mg/0.1 mL".
func inVolume(text, amount, volume string) (Concentration, error) {
	c := Concentration{Form: MassInVolume, Volume: 1}
	if n, _ := split(volume); n == "" {
		volume = "1 " + volume
	}
	v, err := ParseVolume(volume)
	if err != nil || v == 0 {
		return c, refuse(text, wantConcentration, "what follows the stroke is no volume", "")
	}
	c.Volume = v
	if n, u := split(amount); unitWords[u] {
		units, ok := number(n, 0)
		if !ok || units < 0 {
			return c, refuse(text, wantConcentration, fmt.Sprintf("%q is not a number", n), "")
		}
		c.Form, c.Amount = UnitsInVolume, units
		return c, nil
	}
	m, err := ParseMass(amount)
	if err != nil {
		return c, refuse(text, wantConcentration, "what stands before the stroke is no dose", "")
	}
	c.Amount = float64(m)
	return c, nil
}

// String writes the strength in its own form.
func (c Concentration) String() string {
	switch c.Form {
	case PercentStrength:
		return percents.text(c.Amount)
	case DilutionStrength:
		return "1:" + format(c.Amount)
	case MassStrength:
		return masses.text(c.Amount)
	}
	word := "mg"
	if c.Form == UnitsInVolume {
		word = "IU"
	}
	if c.Volume == 1 {
		return fmt.Sprintf("%s %s/mL", format(c.Amount), word)
	}
	return fmt.Sprintf("%s %s/%s", format(c.Amount), word, c.Volume)
}

// MilligramsPerML gives the strength in mg/mL, by definition 10 mg/mL to 1 % and 1 g in n mL
// to 1:n. It is false for units and for a dose without volume. For checking only: a page
// prints what the author wrote.
func (c Concentration) MilligramsPerML() (float64, bool) {
	switch {
	case c.Form == PercentStrength:
		return c.Amount * 10, true
	case c.Form == DilutionStrength && c.Amount > 0:
		return 1000 / c.Amount, true
	case c.Form == MassInVolume && c.Volume > 0:
		return c.Amount / float64(c.Volume), true
	}
	return 0, false
}
