package measure

import (
	"fmt"
	"math"
	"strings"
)

// GradeScale is a scale by which a cataract is graded.
type GradeScale string

// The four scales of the Lens Opacities Classification System III (Chylack and others,
// Arch Ophthalmol 1993;111:831-836), and nuclear hardness in whole grades (Emery and
// Little 1979, from memory).
const (
	NuclearOpalescence  GradeScale = "NO"
	NuclearColour       GradeScale = "NC"
	Cortical            GradeScale = "C"
	PosteriorSubcapsule GradeScale = "P"
	NuclearHardness     GradeScale = "hardness"
)

// ScaleRange is the span of a scale, its step, and the change that grading error alone can
// make (95 % tolerance limit; 0 where none was published).
type ScaleRange struct{ Low, High, Step, Tolerance float64 }

// scales: ends and step of the four from memory, tolerances as published.
var scales = map[GradeScale]ScaleRange{
	NuclearOpalescence:  {0.1, 6.9, 0.1, 0.7},
	NuclearColour:       {0.1, 6.9, 0.1, 0.7},
	Cortical:            {0.1, 5.9, 0.1, 0.5},
	PosteriorSubcapsule: {0.1, 5.9, 0.1, 1.0},
	NuclearHardness:     {1, 5, 1, 0},
}

// Range gives the span of a scale.
func (s GradeScale) Range() (ScaleRange, bool) {
	r, ok := scales[s]
	return r, ok
}

// Valid reports whether a value lies on the scale and on one of its steps. The step is
// tested on the rounded multiple, never on a floating remainder.
func (s GradeScale) Valid(v float64) bool {
	r, ok := scales[s]
	if !ok || math.IsNaN(v) {
		return false
	}
	n := math.Round(v / r.Step)
	if math.Abs(v-n*r.Step) > 1e-9 {
		return false
	}
	return n >= math.Round(r.Low/r.Step) && n <= math.Round(r.High/r.Step)
}

// LensGrade is a value on a scale.
type LensGrade struct {
	Scale GradeScale
	Value float64
}

const wantGrade = `a lens grade ("NO4", "NC3.5", "C2.0", "P1.5")`

// ParseLensGrade reads "NO4", "NC 3.5", "C2", "P1.5", or "hardness 3".
func ParseLensGrade(text string) (LensGrade, error) {
	s := tidy(text)
	for _, scale := range []GradeScale{NuclearHardness, NuclearOpalescence, NuclearColour, Cortical, PosteriorSubcapsule} {
		rest, ok := cutPrefixFold(s, string(scale))
		if !ok {
			continue
		}
		rest = strings.TrimSpace(rest)
		if point, comma := decimalComma(rest); comma {
			return LensGrade{}, refuse(text, wantGrade, "a comma in a number", fmt.Sprintf("write %q", string(scale)+point))
		}
		v, ok := number(rest, 0)
		if !ok || strings.HasPrefix(rest, "+") {
			return LensGrade{}, refuse(text, wantGrade, "a number must follow "+string(scale), "")
		}
		if !scale.Valid(v) {
			r := scales[scale]
			return LensGrade{}, refuse(text, wantGrade, fmt.Sprintf("%s runs from %s to %s in steps of %s",
				scale, format(r.Low), format(r.High), format(r.Step)), "")
		}
		return LensGrade{scale, v}, nil
	}
	if n, u := split(s); n != "" && u == "" {
		return LensGrade{}, refuse(text, wantGrade, "no scale: NO, NC, C, P or hardness?", "")
	}
	return LensGrade{}, refuse(text, wantGrade, "", "")
}

// cutPrefixFold cuts a prefix whatever its capitals, unless a letter follows it.
func cutPrefixFold(s, prefix string) (string, bool) {
	if len(s) < len(prefix) || !strings.EqualFold(s[:len(prefix)], prefix) {
		return s, false
	}
	rest := s[len(prefix):]
	if rest != "" && (rest[0] >= 'A' && rest[0] <= 'Z' || rest[0] >= 'a' && rest[0] <= 'z') {
		return s, false
	}
	return rest, true
}

// String writes "NO4" or "hardness 3".
func (g LensGrade) String() string {
	if g.Scale == NuclearHardness {
		return "hardness " + format(g.Value)
	}
	return string(g.Scale) + format(g.Value)
}
