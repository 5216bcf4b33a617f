package kit

import "caseleaf/content"

// BenchLine is one thing on a station's bench.
type BenchLine struct {
	Item     string // term
	Size     string
	Strength string // working strength
	Note     string
	Per      string // station, group or participant
	Count    int    // for each of those

	// Lay is what lies on the bench when a group sits down: the largest group's
	// share where it is per participant.
	Lay int
	// Day is what the station uses in one wave, without spares: what is fetched
	// from the store in the morning.
	Day int
}

// Bench lists what lies at a station, in the order of the file.
func Bench(c *content.Course, station int) []BenchLine {
	largest := 0
	for _, p := range c.Lineup() {
		largest = max(largest, p.Size)
	}
	var lines []BenchLine
	for i := range c.Stations[station].Kit {
		k := &c.Stations[station].Kit[i]
		if !k.Item.Known() || !k.Count.Known() {
			continue
		}
		l := BenchLine{
			Item: k.Item.Value, Size: k.Size.Value, Strength: strengthOf(k.Strength), Note: k.Note.Value,
			Per: k.Per.Or("station"), Count: k.Count.Value, Lay: k.Count.Value,
		}
		if k.Volume.Known() {
			l.Size = k.Volume.Value.String()
		}
		l.Day = inWave(c, k)
		if l.Per == "participant" {
			l.Lay *= largest
		}
		lines = append(lines, l)
	}
	return lines
}

// inWave is how many pieces of a line one wave uses.
func inWave(c *content.Course, k *content.StationKit) int {
	n := usedBy(c, k)
	if k.Per.Or("station") == "station" || k.Carried.Or(false) {
		return n
	}
	return n / c.WaveCount()
}
