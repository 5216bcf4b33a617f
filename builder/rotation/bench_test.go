package rotation_test

import (
	"testing"

	"caseleaf/builder/rotation"
)

// BenchmarkTwelve is the largest course: as it comes, with demands that a
// renaming meets, and with demands that leave only search.
func BenchmarkTwelve(b *testing.B) {
	square := rotation.Problem{Groups: 12, Stations: 12}
	renamed := square
	renamed.Demands = []rotation.Demand{{Group: 0, Station: 0, Round: 0}, {Group: 5, Station: 3, Round: 7}, {Group: 11, Station: 0, Round: 11, Forbidden: true}}
	searched := square
	for i := range 12 { // the first round of the groups, and where half of them end
		searched.Demands = append(searched.Demands, rotation.Demand{Group: i, Station: (5 * i) % 12, Round: 0})
		if i%2 == 0 {
			searched.Demands = append(searched.Demands, rotation.Demand{Group: i, Station: (5*i + 1) % 12, Round: 11})
		}
	}
	for name, p := range map[string]rotation.Problem{"plain": square, "renamed": renamed, "searched": searched, "rests": {Groups: 12, Stations: 9}, "odd": {Groups: 11, Stations: 11}} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				r, err := rotation.Solve(p)
				if err != nil || len(faults(p, r)) > 0 {
					b.Fatal(err, faults(p, r))
				}
			}
		})
	}
}
