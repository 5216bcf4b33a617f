package rotation_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/rotation"
)

func TestConflicts(t *testing.T) {
	must := func(g, s, r int) rotation.Demand { return rotation.Demand{Group: g, Station: s, Round: r} }
	never := func(g, s, r int) rotation.Demand {
		return rotation.Demand{Group: g, Station: s, Round: r, Forbidden: true}
	}
	for _, c := range []struct {
		name             string
		groups, stations int
		demands          []rotation.Demand
		want             []int
	}{
		{"two groups at one station", 4, 4, []rotation.Demand{must(2, 3, 3), must(0, 1, 2), never(3, 3, 0), must(1, 1, 2)}, []int{1, 3}},
		{"one group in two places", 4, 4, []rotation.Demand{must(0, 1, 2), must(0, 2, 2)}, []int{0, 1}},
		{"one station twice", 4, 4, []rotation.Demand{must(0, 1, 2), must(0, 1, 3)}, []int{0, 1}},
		{"never at all", 5, 3, []rotation.Demand{must(0, 0, 0), never(1, 1, rotation.AnyRound)}, []int{1}},
		{"no round left", 3, 3, []rotation.Demand{never(0, 0, 0), must(1, 1, 1), never(0, 0, 1), never(0, 0, 2)}, []int{0, 2, 3}},
		{"fixed and forbidden", 3, 5, []rotation.Demand{must(1, 4, 3), never(1, 4, 3)}, []int{0, 1}},
		// As many groups as stations: no station stands empty, so somebody has to be there.
		{"nobody left for a station", 3, 3, []rotation.Demand{never(0, 2, 0), never(1, 2, 0), never(2, 2, 0)}, []int{0, 1, 2}},
		// The third group has only the third station left in the first round.
		{"the last place left", 3, 3, []rotation.Demand{must(0, 0, 0), must(1, 1, 0), never(2, 2, 0)}, []int{0, 1, 2}},
	} {
		_, err := rotation.Solve(rotation.Problem{Groups: c.groups, Stations: c.stations, Demands: c.demands})
		var got *rotation.ConflictError
		if !errors.As(err, &got) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if diff := cmp.Diff(&rotation.ConflictError{Demands: c.want, Smallest: true}, got); diff != "" {
			t.Errorf("%s (-want +got)\n%s", c.name, diff)
		}
	}
}

// Against brute force: all tables of small courses are written out, and every
// set of demands tried against every one of them.
func TestSmallestConflictByBruteForce(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 4))
	all := map[[2]int][]rotation.Table{}
	conflicts, sizes := 0, map[int]int{}
	for range 400 {
		p := rotation.Problem{Groups: 2 + rnd.IntN(3), Stations: 2 + rnd.IntN(3)}
		for range 3 + rnd.IntN(6) {
			p.Demands = append(p.Demands, rotation.Demand{
				Group: rnd.IntN(p.Groups), Station: rnd.IntN(p.Stations), Round: rnd.IntN(p.Rounds()), Forbidden: rnd.IntN(3) > 0,
			})
		}
		size := [2]int{p.Groups, p.Stations}
		if all[size] == nil {
			all[size] = everyTable(p)
		}
		want := smallest(all[size], p.Demands)
		_, err := rotation.Solve(p)
		var got *rotation.ConflictError
		switch {
		case want == 0 && err != nil:
			t.Errorf("%+v: %v, but there is a table", p, err)
		case want > 0 && !errors.As(err, &got):
			t.Errorf("%+v: %v, but there is no table", p, err)
		case want > 0 && (len(got.Demands) != want || !got.Smallest):
			t.Errorf("%+v: conflict %v, but %d demands do", p, got.Demands, want)
		}
		if want > 0 {
			conflicts++
			sizes[want]++
		}
	}
	if conflicts < 50 || sizes[3] == 0 {
		t.Errorf("too few conflicts to tell: %v", sizes)
	}
	t.Logf("conflicts by size: %v", sizes)
}

// everyTable writes out all tables of a size, round by round for each group.
func everyTable(p rotation.Problem) []rotation.Table {
	var out []rotation.Table
	table := make(rotation.Table, p.Groups)
	for g := range table {
		table[g] = make([]int, p.Rounds())
	}
	var fill func(g, r int)
	fill = func(g, r int) {
		if g == p.Groups {
			whole := make(rotation.Table, p.Groups)
			for i := range table {
				whole[i] = append([]int(nil), table[i]...)
			}
			if len(faults(rotation.Problem{Groups: p.Groups, Stations: p.Stations}, rotation.Rotation{Waves: []rotation.Table{whole}})) == 0 {
				out = append(out, whole)
			}
			return
		}
		if r == p.Rounds() {
			fill(g+1, 0)
			return
		}
		for s := -1; s < p.Stations; s++ {
			clash := s == -1 && rests(table[g][:r]) == p.Rounds()-p.Stations
			for i := 0; i < r && s >= 0; i++ {
				clash = clash || table[g][i] == s
			}
			for i := 0; i < g && s >= 0; i++ {
				clash = clash || table[i][r] == s
			}
			if !clash {
				table[g][r] = s
				fill(g, r+1)
			}
		}
	}
	fill(0, 0)
	return out
}

func rests(row []int) int {
	n := 0
	for _, s := range row {
		if s == -1 {
			n++
		}
	}
	return n
}

// smallest is the size of the smallest set of demands that no table meets; 0
// where one table meets them all.
func smallest(tables []rotation.Table, demands []rotation.Demand) int {
	possible := make([]bool, 1<<len(demands)) // by set: some table meets all of it
	for _, t := range tables {
		var set uint
		for i, d := range demands {
			if (t[d.Group][d.Round] == d.Station) != d.Forbidden {
				set |= 1 << i
			}
		}
		possible[set] = true
	}
	least := 0
	for set := len(possible) - 1; set >= 0; set-- {
		size := 0
		for i := range demands {
			if set&(1<<i) != 0 {
				size++
			} else {
				possible[set] = possible[set] || possible[set|1<<i]
			}
		}
		if !possible[set] && (least == 0 || size < least) {
			least = size
		}
	}
	return least
}
