package caption

import (
	"slices"
	"strings"
)

// Measure is a value with its unit, attached to the step it was said in.
type Measure struct {
	Step  string  `json:"step"`
	Name  string  `json:"name"` // diameter, width, depth, power, strength, volume, gauge, place, extent, vacuum, flow, bottle, size
	Value float64 `json:"value"`
	Unit  string  `json:"unit"` // as caseleaf writes it; empty when none was said
	Cue   int     `json:"cue"`

	place int
}

// unitWords are units as spoken and as written.
var unitWords = []struct{ said, unit, name string }{
	{"clock hours", "clock hours", "extent"}, {"clock hour", "clock hours", "extent"},
	{"oclock", "o'clock", "place"},
	{"millimetres", "mm", ""}, {"millimetre", "mm", ""}, {"millimeters", "mm", ""}, {"millimeter", "mm", ""}, {"mm", "mm", ""},
	{"dioptres", "D", "power"}, {"dioptre", "D", "power"}, {"diopters", "D", "power"}, {"diopter", "D", "power"},
	{"percent", "%", ""}, {"per cent", "%", ""}, {"gauge", "G", "gauge"},
	{"mil", "mL", "volume"}, {"mils", "mL", "volume"}, {"ml", "mL", "volume"}, {"mls", "mL", "volume"}, {"millilitres", "mL", "volume"}, {"milliliters", "mL", "volume"},
	{"microns", "um", "depth"}, {"micrometres", "um", "depth"}, {"degrees", "degrees", "angle"}, {"degree", "degrees", "angle"},
	{"millimetres of mercury", "mmHg", "pressure"}, {"mmhg", "mmHg", "pressure"},
	{"seconds", "s", "time"}, {"minutes", "min", "time"},
}

// settings are named before their number, the unit left to the machine.
var settings = []struct{ said, name string }{{"vacuum", "vacuum"}, {"flow", "flow"}, {"bottle down", "bottle"}, {"bottle at", "bottle"}, {"bottle", "bottle"}, {"power", "power"}}

// measures reads every number with a unit, and machine settings named before
// theirs. A bare number is left alone: its unit would be a guess.
func (a *analysis) measures() []Measure {
	var out []Measure
	for i := range a.talk.cues {
		words := a.talk.words[i]
		for k := 0; k < len(words); {
			v, end := numberAt(words, k)
			if end == k && aUnit(words, k) {
				v, end = 1, k+1
				if words[end] == "good" {
					end++
				}
			}
			if end == k {
				k++
				continue
			}
			if m, next, ok := a.measureAt(i, words, k, end, v); ok {
				if !slices.ContainsFunc(out, func(o Measure) bool { return o.Name == m.Name && o.Value == m.Value && o.Step == m.Step }) {
					out = append(out, m)
				}
				end = next
			}
			k = end
		}
	}
	return out
}

// aUnit reports whether "a millimetre and a half" stands at words[k].
func aUnit(words []string, k int) bool {
	if words[k] != "a" || k+1 >= len(words) {
		return false
	}
	k++
	if words[k] == "good" {
		k++
	}
	return k+3 < len(words) && (words[k] == "millimetre" || words[k] == "millimeter") && words[k+1] == "and" && words[k+2] == "a" && fractions[words[k+3]] > 0
}

func (a *analysis) measureAt(i int, words []string, from, end int, v float64) (Measure, int, bool) {
	m := Measure{Step: a.stepOf(i), Value: round(v, 4), Cue: a.talk.cues[i].Index, place: i}
	for _, u := range unitWords {
		said := strings.Fields(u.said)
		if end+len(said) > len(words) || !slices.Equal(words[end:end+len(said)], said) {
			continue
		}
		next := end + len(said)
		if next+2 < len(words) && words[next] == "and" && words[next+1] == "a" && fractions[words[next+2]] > 0 {
			m.Value += fractions[words[next+2]] // a millimetre and a half
			next += 3
		}
		m.Unit, m.Name = u.unit, u.name
		if m.Name == "" {
			m.Name = nameOf(m, words)
		}
		return m, next, m.Unit != "s" && m.Unit != "min"
	}
	for _, s := range settings {
		said := strings.Fields(s.said)
		if from >= len(said) && slices.Equal(words[from-len(said):from], said) {
			m.Name = s.name
			return m, end, true
		}
	}
	return m, end, false
}

// nameOf tells what a length or strength is of from the step and the words
// around it.
func nameOf(m Measure, words []string) string {
	text := " " + strings.Join(words, " ") + " "
	if m.Unit == "%" {
		if strings.Contains(text, " power ") {
			return "power"
		}
		return "strength"
	}
	for _, c := range []struct{ said, name string }{{"wide", "width"}, {"width", "width"}, {"long", "length"}, {"behind the limbus", "distance"}, {"from the", "distance"}, {"depth", "depth"}, {"deep", "depth"}, {"optic", "optic"}, {"pupil", "pupil"}, {"diameter", "diameter"}, {"inside", "distance"}} {
		if containsAny(text, []string{c.said}) {
			return c.name
		}
	}
	switch m.Step {
	case "capsulorhexis", "anterior-capsulotomy", "laser-capsulotomy":
		return "diameter"
	case "main-incision", "paracentesis", "scleral-groove", "chamber-entry", "limbal-groove":
		if containsAny(text, []string{"incision", "wound", "keratome", "blade", "groove", "port", "one", "cut"}) {
			return "width" // what else is measured meanwhile is left unnamed
		}
	case "pupil-management":
		return "pupil"
	}
	return "size"
}

// Lesson is a teaching sentence the author may keep.
type Lesson struct {
	Text string  `json:"text"`
	Time float64 `json:"time"`
	Cue  int     `json:"cue"`

	place int
}

var (
	teaches = []string{"remember", "lesson", "lessons", "always", "never", "the key is", "important bit", "important thing", "the point is", "the trick", "do not forget", "make sure", "take home", "one thing", "as soon as"}
	warns   = []string{"if you", "you get", "you push", "you pull", "you are too", "or the"}
)

// lessons collects the sentences that teach: what always and never holds, and
// what happens if.
func (a *analysis) lessons() []Lesson {
	var out []Lesson
	for i, c := range a.talk.cues {
		words := a.talk.words[i]
		text := " " + strings.Join(words, " ") + " "
		if len(words) < 6 || a.deciding(i) == questioning {
			continue
		}
		if containsAny(text, teaches) || containsAny(text, warns) && moodOf(words, len(words)-1, len(words)) != asked {
			out = append(out, Lesson{Text: sentence(words, "."), Time: c.Start, Cue: c.Index, place: i})
		}
	}
	return out
}
