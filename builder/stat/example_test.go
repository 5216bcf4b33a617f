package stat_test

import (
	"fmt"

	"caseleaf/builder/stat"
)

// A rate is printed with its numbers and its interval, a rate of nothing too.
func ExampleWilson() {
	for _, c := range [][2]int{{0, 100}, {3, 100}, {12, 500}} {
		w := stat.Wilson(c[0], c[1], 0.95)
		fmt.Printf("%d/%d: %.1f %% (%.1f to %.1f)\n", c[0], c[1], 100*w.Value, 100*w.Low, 100*w.High)
	}
	// Output:
	// 0/100: 0.0 % (0.0 to 3.7)
	// 3/100: 3.0 % (1.0 to 8.5)
	// 12/500: 2.4 % (1.4 to 4.1)
}

// Stones below and above 2 cm (Charig CR et al. BMJ 1986;292:879-882): open
// surgery succeeds more often in both strata and less often in all.
func ExampleCompareStrata() {
	strata := []stat.Table{stat.Of(81, 87, 234, 270), stat.Of(192, 263, 55, 80)}
	s := stat.CompareStrata(strata)
	pooled := stat.MantelHaenszelOddsRatio(strata, 0.95)
	fmt.Printf("crude %.2f, within strata %.2f (%.2f to %.2f), reversal %v\n",
		s.CrudeOddsRatio, pooled.Value, pooled.Low, pooled.High, s.Reversal)
	// Output:
	// crude 0.75, within strata 1.45 (0.92 to 2.29), reversal true
}

// One event in ten lies above the drawn line and is no signal.
func ExampleControlLimits() {
	l := stat.ControlLimits(10, 0.02, stat.Tail95)
	fmt.Printf("line %.4f, signals from %d\n", l.High, l.SignalFrom)
	// Output:
	// line 0.0947, signals from 2
}
