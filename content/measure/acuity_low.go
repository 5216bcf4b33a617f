package measure

import (
	"fmt"
	"math"
	"strings"
)

// categories maps every accepted writing to its category.
var categories = map[string]AcuityKind{
	"cf": CountingFingers, "fc": CountingFingers, "counting fingers": CountingFingers, "count fingers": CountingFingers,
	"hm": HandMovements, "hand movements": HandMovements, "hand movement": HandMovements, "hand motion": HandMovements,
	"lp": LightPerception, "pl": LightPerception, "light perception": LightPerception, "perception of light": LightPerception,
	"nlp": NoLightPerception, "npl": NoLightPerception, "no light perception": NoLightPerception,
	"no perception of light": NoLightPerception,
}

// category reads a category, with the distance at which fingers were counted: "CF 1 m",
// "CF at 2 ft".
func (a *Acuity) category(text, s string) (bool, error) {
	lower := strings.ToLower(s)
	if k, ok := categories[lower]; ok {
		a.Kind = k
		return true, nil
	}
	i := strings.IndexAny(lower, "0123456789")
	if i < 0 {
		return false, nil
	}
	word := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(lower[:i]), "at"))
	k, ok := categories[word]
	if !ok {
		return false, nil
	}
	if k != CountingFingers {
		return false, refuse(text, wantAcuity, "only counting fingers has a distance", "")
	}
	n, u := split(lower[i:])
	v, okNumber := number(n, 0)
	metres := map[string]float64{"m": 1, "cm": 0.01, "ft": 0.3048, "feet": 0.3048, "foot": 0.3048}[u]
	if !okNumber || metres == 0 || v <= 0 || v*metres > 6.1 {
		return false, refuse(text, wantAcuity, `the distance is written "1 m", "30 cm" or "2 ft"`, "")
	}
	a.Kind, a.Distance = k, v*metres
	return true, nil
}

// LowVisionTable names a published set of numbers for the categories. There is no default:
// whoever averages low vision must name the table and print it.
type LowVisionTable string

// The tables, with how far each was seen.
const (
	// Holladay1997: counting fingers at d feet is d/200, hand movements ten times worse;
	// 2 feet where no distance is told. Holladay, J Refract Surg 1997;13:388-391, values
	// from memory.
	Holladay1997 LowVisionTable = "holladay1997"
	// SchulzeBonsel2006: decimal 0.014 (at 30 cm) and 0.005. Schulze-Bonsel and others,
	// Invest Ophthalmol Vis Sci 2006;47:1236-1240.
	SchulzeBonsel2006 LowVisionTable = "schulze_bonsel2006"
	// Lange2009: means 1.98 and 2.28. Lange and others, Graefes Arch Clin Exp Ophthalmol
	// 2009;247:137-142.
	Lange2009 LowVisionTable = "lange2009"
	// UKAudit: 2.10, 2.40, 2.70 and 3.00, as national audit papers have it; from memory,
	// to be checked before printing.
	UKAudit LowVisionTable = "uk_audit"
)

// Substitute gives the logMAR a table puts in a category's place; a measured acuity keeps
// its own. It is false where the table has none, as three of the four have not for light
// perception, and for an unknown table.
func (t LowVisionTable) Substitute(a Acuity) (float64, bool) {
	if v, ok := a.LogMAR(); ok {
		return v, true
	}
	switch t {
	case Holladay1997:
		return holladay(a)
	case SchulzeBonsel2006:
		return pick(a.Kind, -math.Log10(0.014), -math.Log10(0.005))
	case Lange2009:
		return pick(a.Kind, 1.98, 2.28)
	case UKAudit:
		return pick(a.Kind, 2.10, 2.40, 2.70, 3.00)
	}
	return 0, false
}

// pick gives the value for a category, counted from counting fingers downwards.
func pick(k AcuityKind, values ...float64) (float64, bool) {
	i := int(k - CountingFingers)
	if i < 0 || i >= len(values) {
		return 0, false
	}
	return values[i], true
}

// holladay applies the rule of feet over 200; a distance set beside hand movements is the
// one at which fingers were counted.
func holladay(a Acuity) (float64, bool) {
	feet := 2.0
	if a.Distance > 0 {
		feet = a.Distance / 0.3048
	}
	return pick(a.Kind, math.Log10(200/feet), math.Log10(2000/feet))
}

// Words writes a category in full, with the distance where one was told; a measured acuity
// as written.
func (a Acuity) Words() string {
	switch a.Kind {
	case CountingFingers:
		if a.Distance > 0 {
			return fmt.Sprintf("counting fingers at %s m", format(math.Round(a.Distance*100)/100))
		}
		return "counting fingers"
	case HandMovements:
		return "hand movements"
	case LightPerception:
		return "light perception"
	case NoLightPerception:
		return "no light perception"
	}
	return a.Written
}
