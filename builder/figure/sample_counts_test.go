package figure

import (
	"fmt"
	"math"

	"caseleaf/content/measure"
)

// Samples of the counting figures; all numbers are invented, intervals rounded.

func sampleForest() Figure {
	nan := math.NaN()
	return Forest{Words: english, IDPrefix: "forest", Title: "Complications by technique", Method: "Wilson, 95 %", Operations: 1500,
		Finding: "Posterior capsule rupture was recorded in 1.9 % of divide and conquer operations and 2.4 % of stop and chop",
		Rows: []ForestRow{
			{Heading: "Posterior capsule rupture"},
			{Label: "Divide and conquer", Events: 12, Operations: 630, Value: 0.019, Low: 0.011, High: 0.033, Href: "#f1"},
			{Label: "Stop and chop", Events: 8, Operations: 330, Value: 0.0242, Low: 0.0123, High: 0.0471},
			{Label: "Manual small-incision surgery with fish-hook delivery", Hidden: true, Operations: 210, Value: nan, Low: nan, High: nan},
			{Heading: "Zonular dialysis"},
			{Label: "Divide and conquer", Events: 0, Operations: 630, Value: 0, Low: 0, High: 0.0061},
			{Label: "Stop and chop", Events: 5, Operations: 330, Value: 0.0152, Low: 0.0065, High: 0.0349},
			{Label: "Extracapsular", Events: 0, Operations: 21, Value: 0, Low: 0, High: 0.1546},
		}}
}

func sampleRatios() Figure {
	return Forest{Words: english, IDPrefix: "ratio", Title: "Crude and stratified odds ratios", Scale: Ratios, Method: "Robins, Breslow and Greenland, 95 %",
		Finding: "Crude and stratified odds ratios point opposite ways",
		Rows: []ForestRow{
			{Label: "Stop and chop, crude", Value: 1.8, Low: 1.1, High: 2.9}, {Label: "Stop and chop, by stratum", Value: 0.8, Low: 0.45, High: 1.4},
			{Label: "Vertical chop, by stratum", Value: math.Inf(1), Low: 2.1, High: math.Inf(1)},
			{Label: "Extracapsular, by stratum", Value: math.NaN(), Low: math.NaN(), High: math.NaN(), Operations: 60},
		}}
}

func sampleDelays() Figure {
	sec := func(s int) *measure.Duration { d := measure.Duration(s); return &d }
	return Delays{Words: english, IDPrefix: "delays", Title: "Iris prolapse: how long until noticed and acted on", Rows: []DelayRow{
		{"HB-007 Small pupil, floppy iris", sec(7), sec(15), "#d1"}, {"HB-012 Shallow chamber in a short eye", sec(42), sec(5), ""},
		{"HB-019 Late in cortex removal", nil, sec(65), ""}, {"HB-021 Wound too far back", sec(90), nil, ""},
	}}
}

func sampleDelayGroups() Figure {
	return DelayGroups{Words: english, IDPrefix: "groups", Title: "How late they were noticed and acted on", Rows: []DelayGroup{
		{"Iris prolapse", "#d2", 41, DelaySpread{38, 12, 7, 31}, DelaySpread{40, 9, 4, 22}},
		{"Posterior capsule tear", "", 160, DelaySpread{120, 24, 9, 60}, DelaySpread{151, 5, 3, 9}},
		{"Zonular dialysis", "", 3, DelaySpread{2, 70, 55, 85}, DelaySpread{3, 14, 10, 17}},
		{"Dropped nucleus", "", 2, DelaySpread{}, DelaySpread{}},
	}}
}

func sampleTornado() Figure {
	return Tornado{Words: english, IDPrefix: "tornado", Title: "What the choice hangs on", Option: "iris hooks", Other: "viscoadaptive device", Base: 3.4, Rows: []TornadoRow{
		{Label: "Pupil holds with hooks", Low: "0.80", High: "0.97", AtLow: -4.1, AtHigh: 8, Threshold: "changes at 0.86"},
		{Label: "Pupil holds with the viscoadaptive device alone", Low: "0.40", High: "0.75", AtLow: 9.5, AtHigh: -2, Threshold: "changes at 0.66"},
		{Label: "Value of a sphincter tear", Low: "60", High: "85", AtLow: 2.1, AtHigh: 4.4},
	}}
}

func sampleFunnel() Figure {
	f := Funnel{Words: english, IDPrefix: "funnel", Title: "Units against control limits", Target: 0.021}
	for i, u := range [][2]int{{1, 40}, {3, 88}, {2, 140}, {4, 190}, {5, 260}, {17, 320}, {9, 410}, {8, 430}, {2, 415}, {0, 61}} {
		unit := FunnelUnit{Label: fmt.Sprintf("Team %c", 'A'+i), Events: u[0], Operations: u[1]}
		if u[0] == 17 {
			unit.Outside = "99.8 %"
		}
		f.Units = append(f.Units, unit)
	}
	for n := 10; n <= 460; n += 10 {
		se := math.Sqrt(0.021 * 0.979 / float64(n))
		f.Limits = append(f.Limits, FunnelLimit{n, 0.021 - 1.96*se, 0.021 + 1.96*se, 0.021 - 3.09*se, 0.021 + 3.09*se})
	}
	return f
}

func sampleCusum() Figure {
	c := Cusum{Words: english, IDPrefix: "cusum", Title: "Cumulative sum over one series", Limit: 2.2, Tested: "a doubling of the rate"}
	score := 0.0
	for i := 1; i <= 240; i++ {
		if i%41 == 0 || i == 130 || i == 140 || i == 151 {
			score += 0.68
			c.Events = append(c.Events, i)
		} else {
			score = math.Max(0, score-0.015)
		}
		c.Scores = append(c.Scores, score)
		if score >= c.Limit {
			c.Signals = append(c.Signals, i)
			score = 0
		}
	}
	return c
}

func sampleAcuity() Figure {
	c := AcuityChange{Words: english, IDPrefix: "acuity", Title: "Sight before and after", Unknown: 2}
	for i, p := range [][2]string{{"6/24", "6/6"}, {"6/24", "6/6"}, {"6/60", "6/9"}, {"HM", "6/12"}, {"CF", "6/6"}, {"6/18", "6/18"},
		{"6/12", "6/36"}, {"LP", "CF"}, {"6/36", "6/7.5"}, {"6/24", "6/5"}, {"20/40", "20/20"}, {"HM", "HM"}} {
		before, _ := measure.ParseAcuity(p[0])
		after, _ := measure.ParseAcuity(p[1])
		c.Eyes = append(c.Eyes, AcuityPair{Label: fmt.Sprintf("HB-%03d", i+1), Before: before, After: after})
	}
	return c
}

func sampleOnset() Figure {
	return Onset{Words: english, IDPrefix: "onset", Title: "Where each complication began", Cases: 26,
		Steps: []string{"Paracentesis", "Main incision", "Capsulorhexis", "Hydrodissection", "Sculpting", "Cracking", "Quadrant removal",
			"Cortex removal", "Implant insertion", "Viscoelastic removal"},
		Rows: []OnsetRow{
			{Label: "Posterior capsule rupture", Counts: []int{0, 0, 0, 1, 0, 2, 5, 3, 1, 0}, Unknown: 1, Href: "#o1"},
			{Label: "Iris prolapse", Counts: []int{0, 4, 0, 2, 0, 0, 0, 0, 0, 1}},
			{Label: "Anterior capsule run-out towards the equator", Counts: []int{0, 0, 6, 0, 0, 0, 0, 0, 0, 0}},
			{Label: "Descemet detachment", Counts: []int{1, 1, 0, 0, 0, 0, 0, 0, 2, 0}},
		}}
}
