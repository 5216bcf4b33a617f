package decide_test

import (
	"fmt"

	"caseleaf/builder/decide"
)

// Capture that may fail against the sulcus: capture is better until its failure
// is more likely than 22 in 59. (check values, tree-A; invented for arithmetic)
func ExampleModel_OneWay() {
	tree := &decide.Tree{Root: decision(
		option("sulcus", chance(fixed("decentres", "3/20", end("0.70")), fixed("stable", "17/20", end("0.92")))),
		option("capture", chance(fixed("fails", "1/10", end("0.85")), fixed("captured", "9/10",
			chance(fixed("decentres", "1/20", end("0.70")), fixed("stable", "19/20", end("0.92")))))),
	)}
	m, err := decide.Compile(tree)
	if err != nil {
		fmt.Println(err)
		return
	}
	v := m.FoldBack()
	fmt.Printf("%v by %.4f\n", v.Best, v.Margin)
	p, _ := m.Parameter("p(capture / fails)")
	for _, t := range m.Thresholds(p) {
		fmt.Printf("until p = %s, then %v\n", t.Exact.RatString(), t.After)
	}
	// Output:
	// [capture] by 0.0161
	// until p = 22/59, then [sulcus]
}
