package privacy

import (
	"fmt"
	"strconv"
	"strings"
)

// Trait is one published value that outsiders may know of a patient: an age
// band, a sex, an eye, a rare risk, a year.
type Trait struct {
	Field   string   // age_band, sex, year …
	Value   string   // as published; empty when withheld
	Coarser []string // what may stand instead, from fine to coarse; "" withholds it
	Rare    bool     // a rare condition: on the bank's list, or 5 in 10,000 or fewer
	Exact   bool     // finer than it need be: an age, a year, a town, an occupation
}

// Profile is what a handout publishes of one patient. All profiles of a bank
// hold the same fields in the same order.
type Profile struct {
	ID     string
	Count  int // patients it stands for, such as rows of a logbook; 0 counts as 1
	Traits []Trait
}

// Step is one value to coarsen and how many would then share the profile.
type Step struct {
	Field, From, To string // To is empty where the value is to be withheld
	Size            int
}

// Combination warns of a profile that fewer than k patients share.
type Combination struct {
	ID       string
	Size     int      // patients with the same profile, this one included
	Severity Severity // Block for a rare condition beside two exact values
	Steps    []Step   // what to coarsen, in this order, until k share it or nothing is left
}

// Message says in words what to do. It names fields and values that the case
// publishes itself.
func (c Combination) Message() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d in this bank share the published combination", c.Size)
	for i, s := range c.Steps {
		to := "leave it out"
		if s.To != "" {
			to = "write " + s.To
		}
		if i == 0 {
			b.WriteString("; ")
		} else {
			b.WriteString("; then ")
		}
		fmt.Fprintf(&b, "for %s %s, %s (then %d share it)", s.Field, s.From, to, s.Size)
	}
	return b.String()
}

// RareCombinations finds the profiles that fewer than k patients share, in the
// order given, and says for each which value to coarsen: the one that raises
// the number most, and of equals the one that comes first among the traits.
// It is advice: a bank is a sample, and the population is larger. Time is
// proportional to profiles x traits x coarser values.
func RareCombinations(profiles []Profile, k int) []Combination {
	sizes := newClasses(profiles)
	var out []Combination
	for i, p := range profiles {
		size := sizes.size(i, nil)
		blocked := tooExact(p)
		if size >= k && !blocked {
			continue
		}
		c := Combination{ID: p.ID, Size: size, Severity: Warn}
		if blocked {
			c.Severity = Block
		}
		c.Steps = sizes.plan(i, size, k)
		out = append(out, c)
	}
	return out
}

// tooExact says whether a rare condition stands beside two or more exact
// values.
func tooExact(p Profile) bool {
	rare, exact := false, 0
	for _, t := range p.Traits {
		rare = rare || t.Rare && t.Value != ""
		if t.Exact && !t.Rare && t.Value != "" {
			exact++
		}
	}
	return rare && exact >= 2
}

// classes counts profiles by their values, at any levels of coarseness; a
// level is the number of steps a field is coarsened.
type classes struct {
	profiles []Profile
	counts   map[string]map[string]int // levels, then key
}

func newClasses(profiles []Profile) *classes {
	return &classes{profiles, map[string]map[string]int{}}
}

// key is what profile p shows at the given levels.
func key(p Profile, levels []int) string {
	var b strings.Builder
	for f, t := range p.Traits {
		level := 0
		if f < len(levels) {
			level = levels[f]
		}
		b.WriteString(strconv.Quote(coarse(t, level)))
	}
	return b.String()
}

// coarse is a trait's value after level steps; beyond the last it is withheld.
func coarse(t Trait, level int) string {
	switch {
	case level == 0 || t.Value == "": // nothing published cannot be coarsened
		return t.Value
	case level <= len(t.Coarser):
		return t.Coarser[level-1]
	}
	return ""
}

// size counts the patients who share profile i at the levels.
func (c *classes) size(i int, levels []int) int {
	name := fmt.Sprint(levels)
	counts := c.counts[name]
	if counts == nil {
		counts = map[string]int{}
		for _, p := range c.profiles {
			counts[key(p, levels)] += max(1, p.Count)
		}
		c.counts[name] = counts
	}
	return counts[key(c.profiles[i], levels)]
}

// plan coarsens the best value again and again until k share the profile.
func (c *classes) plan(i, size, k int) []Step {
	p := c.profiles[i]
	levels := make([]int, len(p.Traits))
	var steps []Step
	for size < k {
		best, bestSize := -1, size
		for f, t := range p.Traits {
			if levels[f] >= len(t.Coarser) || coarse(t, levels[f]) == "" {
				continue
			}
			levels[f]++
			if n := c.size(i, levels); best < 0 || n > bestSize {
				best, bestSize = f, n
			}
			levels[f]--
		}
		if best < 0 {
			return steps
		}
		t := p.Traits[best]
		from := coarse(t, levels[best])
		levels[best]++
		size = bestSize
		steps = append(steps, Step{t.Field, from, coarse(t, levels[best]), size})
	}
	return steps
}

// CoarserYear gives what may stand for a year: its five years, then nothing.
func CoarserYear(year int) []string {
	from := year - year%5
	return []string{fmt.Sprintf("%d-%d", from, from+4), ""}
}

// CoarserAge gives what may stand for an age band of ten years such as 70-79:
// the twenty years that hold it, then nothing. "90+" and bands of another form
// can only be withheld.
func CoarserAge(band string) []string {
	low, _, ok := strings.Cut(band, "-")
	n, err := strconv.Atoi(low)
	if !ok || err != nil || n%10 != 0 {
		return []string{""}
	}
	from := n - n%20
	return []string{fmt.Sprintf("%d-%d", from, from+19), ""}
}
