package rotation_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/rotation"
)

// faults is an independent reading of what a rotation must be: it shares no
// code with the solver and looks at every group, station and round by itself.
func faults(p rotation.Problem, r rotation.Rotation) []string {
	var list []string
	say := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	rounds := p.Groups
	if p.Stations > rounds {
		rounds = p.Stations
	}
	if len(r.Waves) != max(p.Waves, 1) {
		say("%d waves", len(r.Waves))
	}
	for w, table := range r.Waves {
		if len(table) != p.Groups {
			say("wave %d has %d groups", w, len(table))
			continue
		}
		at := map[[2]int]int{} // who is at a station in a round, counted
		for g, row := range table {
			if len(row) != rounds {
				say("wave %d, group %d: %d rounds", w, g, len(row))
			}
			met := map[int]int{}
			for round, s := range row {
				if s < -1 || s >= p.Stations {
					say("wave %d, group %d: station %d", w, g, s)
				}
				if s >= 0 {
					met[s]++
					at[[2]int{s, round}]++
				}
			}
			for s := range p.Stations {
				if met[s] != 1 {
					say("wave %d: group %d meets station %d %d times", w, g, s, met[s])
				}
			}
			if p.Groups <= p.Stations && len(met) != len(row) {
				say("wave %d: group %d rests although there are stations enough", w, g)
			}
		}
		for where, n := range at {
			if n > 1 {
				say("wave %d: %d groups at station %d in round %d", w, n, where[0], where[1])
			}
		}
		for round := range rounds { // the same number rests in every round
			resting := 0
			for g := range table {
				if table[g][round] == -1 {
					resting++
				}
			}
			if want := max(0, p.Groups-p.Stations); resting != want {
				say("wave %d, round %d: %d groups rest, want %d", w, round, resting, want)
			}
		}
		for i, d := range p.Demands {
			if d.Round >= 0 && (table[d.Group][d.Round] == d.Station) == d.Forbidden {
				say("wave %d: demand %d is not met", w, i)
			}
		}
	}
	return list
}

// random makes a course; some of its demands are drawn from nothing, so many
// courses are impossible.
func random(rnd *rand.Rand) rotation.Problem {
	p := rotation.Problem{Groups: 1 + rnd.IntN(12), Stations: 1 + rnd.IntN(12), Waves: 1 + rnd.IntN(3), Nodes: 6000}
	for range rnd.IntN(9) {
		d := rotation.Demand{
			Group: rnd.IntN(p.Groups), Station: rnd.IntN(p.Stations), Round: rnd.IntN(p.Rounds()),
			Forbidden: rnd.IntN(2) == 0,
		}
		if rnd.IntN(20) == 0 {
			d.Round = rotation.AnyRound
		}
		p.Demands = append(p.Demands, d)
	}
	return p
}

// Over 2,000 random courses every rotation is one, twice the same; and every
// conflict is one: its demands can't be met, and without any of them they can.
func TestRandomCourses(t *testing.T) {
	rnd := rand.New(rand.NewPCG(8, 2000))
	solved, impossible := 0, 0
	for i := range 2000 {
		p := random(rnd)
		r, err := rotation.Solve(p)
		var conflict *rotation.ConflictError
		switch {
		case err == nil:
			solved++
			if list := faults(p, r); len(list) > 0 {
				t.Fatalf("course %d, %+v: %q", i, p, list)
			}
			if again, err := rotation.Solve(p); err != nil || !cmp.Equal(r.Waves, again.Waves) {
				t.Fatalf("course %d: not the same twice", i)
			}
		case errors.As(err, &conflict):
			impossible++
			checkConflict(t, i, p, conflict)
		default:
			t.Fatalf("course %d, %+v: %v", i, p, err)
		}
	}
	t.Logf("%d solved, %d impossible", solved, impossible)
	if solved < 800 || impossible < 200 {
		t.Errorf("the courses are too alike: %d solved, %d impossible", solved, impossible)
	}
}

func checkConflict(t *testing.T, i int, p rotation.Problem, c *rotation.ConflictError) {
	t.Helper()
	if !c.Smallest {
		t.Errorf("course %d, %+v: the smallest conflict was not found", i, p)
	}
	for skip := -1; skip < len(c.Demands); skip++ {
		part := p
		part.Demands = nil
		for k, at := range c.Demands {
			if k != skip {
				part.Demands = append(part.Demands, p.Demands[at])
			}
		}
		_, err := rotation.Solve(part)
		if possible := err == nil; possible != (skip >= 0) {
			t.Fatalf("course %d, %+v: conflict %v without its %d-th: %v", i, p, c.Demands, skip, err)
		}
	}
}

func TestRefusesSizes(t *testing.T) {
	for _, p := range []rotation.Problem{
		{Groups: 0, Stations: 3}, {Groups: 3, Stations: 13}, {Groups: 13, Stations: 3}, {Groups: 2, Stations: 2, Waves: 21},
		{Groups: 2, Stations: 2, Demands: []rotation.Demand{{Group: 2}}},
		{Groups: 2, Stations: 2, Demands: []rotation.Demand{{Station: -1}}},
		{Groups: 2, Stations: 2, Demands: []rotation.Demand{{Round: 2}}},
	} {
		if _, err := rotation.Solve(p); !errors.Is(err, rotation.ErrProblem) {
			t.Errorf("%+v: %v", p, err)
		}
	}
}

// A bound of one step is reached, says so, and still gives a rotation where one
// needs no search.
func TestBoundReached(t *testing.T) {
	p := rotation.Problem{Groups: 7, Stations: 7, Nodes: 1}
	r, err := rotation.Solve(p)
	if err != nil || r.Quality != rotation.BestFound || len(faults(p, r)) > 0 {
		t.Errorf("%v, %v, %q", err, r.Quality, faults(p, r))
	}
	for g := range 6 {
		p.Demands = append(p.Demands, rotation.Demand{Group: g, Station: g, Round: 0, Forbidden: true})
	}
	var limit *rotation.LimitError
	if _, err := rotation.Solve(p); !errors.As(err, &limit) {
		t.Errorf("got %v, want the bound to be told", err)
	}
}
