package content

import (
	"strconv"

	"caseleaf/content/diagnose"
)

// Party is one group as it goes round: named, and of a size.
type Party struct {
	Name string
	Size int // participants; 1 where the author gave none
	Span diagnose.Span
}

// Lineup lists the groups one by one, those given as a number with the letters
// that are free: A to Z, then A2 to Z2 and so on.
func (c *Course) Lineup() []Party {
	taken := map[string]bool{}
	for _, g := range c.Groups {
		taken[g.Name.Value] = true
	}
	var list []Party
	next := 0
	for _, g := range c.Groups {
		if g.Name.Known() {
			list = append(list, Party{g.Name.Value, g.Size.Or(1), g.Span})
			continue
		}
		for range g.Count.Or(0) {
			name := lettered(next)
			for taken[name] {
				next++
				name = lettered(next)
			}
			taken[name] = true
			list = append(list, Party{name, g.Size.Or(1), g.Span})
		}
	}
	return list
}

func lettered(n int) string {
	name := string(rune('A' + n%26))
	if n >= 26 {
		name += strconv.Itoa(n/26 + 1)
	}
	return name
}

// WaveCount is how many times the rotation is run: 1 where the author gave
// no number.
func (c *Course) WaveCount() int { return c.Waves.Or(max(1, len(c.WaveStarts))) }

// WaveStart is when a wave starts, from 0.
func (c *Course) WaveStart(wave int) DayTime {
	if wave < len(c.WaveStarts) {
		return c.WaveStarts[wave].Value
	}
	return c.Start.Value
}

// Participants counts those of one wave.
func (c *Course) Participants() int {
	n := 0
	for _, p := range c.Lineup() {
		n += p.Size
	}
	return n
}
