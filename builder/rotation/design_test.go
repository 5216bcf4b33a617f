package rotation_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/rotation"
)

// follows counts by itself how often b comes right after a.
func follows(tables ...rotation.Table) map[[2]int]int {
	n := map[[2]int]int{}
	for _, t := range tables {
		for _, row := range t {
			var stations []int
			for _, s := range row {
				if s >= 0 {
					stations = append(stations, s)
				}
			}
			for i := 1; i < len(stations); i++ {
				n[[2]int{stations[i-1], stations[i]}]++
			}
		}
	}
	return n
}

// For an even n every ordered pair of stations is adjacent once in one square;
// for an odd n, twice in two (Williams 1949; from memory). So it is with the
// rotation of a course: one wave for an even n, two for an odd one.
func TestWilliams(t *testing.T) {
	for n := 2; n <= 12; n++ {
		first, mirror := rotation.Williams(n)
		tables, each, waves := []rotation.Table{first}, 1, 1
		if n%2 == 1 {
			tables, each, waves = append(tables, mirror), 2, 2
		}
		for _, square := range tables {
			p := rotation.Problem{Groups: n, Stations: n}
			if list := faults(p, rotation.Rotation{Waves: []rotation.Table{square}}); len(list) > 0 {
				t.Errorf("%d: %q", n, list)
			}
		}
		checkBalanced(t, fmt.Sprintf("design of %d", n), n, each, tables)
		r, err := rotation.Solve(rotation.Problem{Groups: n, Stations: n, Waves: waves})
		if err != nil || r.Quality != rotation.Level || !r.Fairness.Balanced() {
			t.Fatalf("%d: %v, %s, %+v", n, err, r.Quality, r.Fairness)
		}
		checkBalanced(t, fmt.Sprintf("course of %d", n), n, each, r.Waves)
	}
}

func checkBalanced(t *testing.T, what string, n, each int, tables []rotation.Table) {
	t.Helper()
	got := follows(tables...)
	for a := range n {
		for b := range n {
			if a != b && got[[2]int{a, b}] != each {
				t.Errorf("%s: %d follows %d %d times, want %d", what, b, a, got[[2]int{a, b}], each)
			}
		}
	}
}

// The square of four, worked by hand: 0 1 3 2, and each row adds one modulo 4.
func TestWilliamsOfFour(t *testing.T) {
	got, _ := rotation.Williams(4)
	want := rotation.Table{{0, 1, 3, 2}, {1, 2, 0, 3}, {2, 3, 1, 0}, {3, 0, 2, 1}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

// A balanced design stays balanced under demands that a renaming can meet.
func TestBalancedUnderDemands(t *testing.T) {
	p := rotation.Problem{Groups: 8, Stations: 8, Demands: []rotation.Demand{
		{Group: 3, Station: 5, Round: 0}, {Group: 0, Station: 2, Round: 4}, {Group: 7, Station: 7, Round: 7, Forbidden: true},
	}}
	r, err := rotation.Solve(p)
	if err != nil || r.Quality != rotation.Level {
		t.Fatalf("%v, %s", err, r.Quality)
	}
	if list := faults(p, r); len(list) > 0 {
		t.Error(list)
	}
	checkBalanced(t, "course", 8, 1, r.Waves)
}

// What is reached without demands. 3, 5 and 7 stations have no square that is
// balanced in one wave (from memory); with 3 and 5 the search shows that none
// does better.
func TestQualityBySize(t *testing.T) {
	for _, c := range []struct {
		groups, stations int
		quality          rotation.Quality
		apart, most      int
	}{
		{6, 4, rotation.Level, 3, 2}, // the demonstration course
		{4, 6, rotation.Level, 0, 1},
		{8, 4, rotation.Level, 2, 2},
		{3, 3, rotation.Optimal, 0, 2},
		{5, 5, rotation.Optimal, 0, 2},
		{12, 12, rotation.Level, 0, 1},
		{12, 6, rotation.Level, 2, 2},
		{7, 7, rotation.BestFound, 0, 2},
	} {
		r, err := rotation.Solve(rotation.Problem{Groups: c.groups, Stations: c.stations})
		if err != nil {
			t.Fatal(err)
		}
		f := r.Fairness
		if r.Quality != c.quality || f.RestsApart != c.apart || f.Crowded != 0 || f.MostFollows != c.most {
			t.Errorf("%d groups, %d stations: %s, %+v", c.groups, c.stations, r.Quality, f)
		}
	}
}
