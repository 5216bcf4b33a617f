package rotation

import (
	"errors"
	"fmt"
)

// Most is the largest number of groups and of stations.
const Most = 12

// MostWaves is the largest number of waves.
const MostWaves = 20

// DefaultNodes is how much work a problem gets when it names no bound: about a
// second on an old laptop in the worst case.
const DefaultNodes = 400_000

// Rest stands in a table where a group has no station.
const Rest = -1

// AnyRound is the round of a demand that means the group and the station,
// whenever they meet.
const AnyRound = -1

// Problem is a rotation to be found. Groups, stations and rounds count from 0.
type Problem struct {
	Groups, Stations int // 1 to [Most]
	Waves            int // runs with other groups; 0 is one
	Demands          []Demand
	Nodes            int // most steps of search; 0 is [DefaultNodes]
}

// Demand fixes a group at a station in a round, or forbids it. It holds in
// every wave.
type Demand struct {
	Group, Station int
	Round          int // or AnyRound
	Forbidden      bool
}

// Rounds is how many rounds the groups need.
func (p Problem) Rounds() int { return max(p.Groups, p.Stations) }

// ErrProblem is returned for numbers that no rotation has.
var ErrProblem = errors.New("no rotation of this size")

// check refuses sizes out of range and demands that name what is not there.
func (p Problem) check() error {
	if p.Groups < 1 || p.Groups > Most || p.Stations < 1 || p.Stations > Most {
		return fmt.Errorf("%w: %d groups and %d stations; each is 1 to %d", ErrProblem, p.Groups, p.Stations, Most)
	}
	if p.Waves < 0 || p.Waves > MostWaves {
		return fmt.Errorf("%w: %d waves; there are 1 to %d", ErrProblem, p.Waves, MostWaves)
	}
	for i, d := range p.Demands {
		if d.Group < 0 || d.Group >= p.Groups || d.Station < 0 || d.Station >= p.Stations ||
			d.Round != AnyRound && (d.Round < 0 || d.Round >= p.Rounds()) {
			return fmt.Errorf("%w: demand %d is for group %d, station %d, round %d", ErrProblem, i, d.Group, d.Station, d.Round)
		}
	}
	return nil
}

// Table is one wave: Table[group][round] is a station, or Rest.
type Table [][]int

// At returns the group at a station in a round, or Rest where it stands empty.
func (t Table) At(station, round int) int {
	for g := range t {
		if t[g][round] == station {
			return g
		}
	}
	return Rest
}

// meets reports whether a table does what the demands ask.
func (t Table) meets(demands []Demand) bool {
	for _, d := range demands {
		if !t.meet(d) {
			return false
		}
	}
	return true
}

func (t Table) meet(d Demand) bool {
	if d.Round == AnyRound {
		return !d.Forbidden // every group meets every station
	}
	return (t[d.Group][d.Round] == d.Station) != d.Forbidden
}

// clone copies a table.
func (t Table) clone() Table {
	out := make(Table, len(t))
	for g := range t {
		out[g] = append([]int(nil), t[g]...)
	}
	return out
}

// mirrored is the table with its rounds in the opposite order.
func (t Table) mirrored() Table {
	out := t.clone()
	for g := range out {
		for i, j := 0, len(out[g])-1; i < j; i, j = i+1, j-1 {
			out[g][i], out[g][j] = out[g][j], out[g][i]
		}
	}
	return out
}
