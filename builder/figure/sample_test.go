package figure

import (
	"fmt"
	"math/rand/v2"

	"caseleaf/content/measure"
)

// at gives a moment.
func at(sec int) *measure.Time { t := measure.Time(sec); return &t }

// sampleStrip is an invented operation with a chain, a negative finding and unknown moments.
func sampleStrip() Strip {
	return Strip{Words: english,
		IDPrefix: "strip", Title: "Small pupil, floppy iris: the operation in time", Ends: 1130,
		Steps: []StripStep{
			{"Paracentesis", 20, 35, "#t1"}, {"Viscoelastic fill", 35, 50, "#t2"}, {"Main incision", 50, 75, "#t3"},
			{"Pupil management", 200, 330, "#t6"}, {"Capsulorhexis", 330, 420, "#t7"}, {"Hydrodissection", 420, 455, "#t8"},
			{"Sculpting", 470, 600, "#t9"}, {"Quadrant removal", 600, 800, "#t10"}, {"Cortex removal", 800, 960, "#t11"},
			{"Implant insertion", 960, 1010, "#t12"}, {"Wound closure", 1060, 0, "#t13"},
		},
		Events: []StripEvent{
			{Label: "Iris prolapse through the main wound", At: 185, Began: at(178), Noticed: at(185), Acted: at(200), Href: "#t4", ID: "a"},
			{Label: "Pupil smaller", At: 655, Noticed: at(655), Acted: at(700), Href: "#t20", ID: "c"},
		},
		Findings: []StripFinding{
			{Label: "Sphincter tear", At: 331, Present: true, Href: "#t21"},
			{Label: "Vitreous in the anterior chamber", At: 812, Present: false, Href: "#t14"},
		},
		Decisions: []StripDecision{
			{Label: "How would you control the iris now?", At: 200, Href: "#t5", ID: "b", Follows: "a"},
			{Label: "Go on with fewer quadrants in the bag, or stop?", At: 702, Href: "#t22", Follows: "c"},
		},
	}
}

// generatedStrip makes an invented operation of n entries over the given minutes, some of
// them crowded, with labels from one word to a long sentence.
func generatedStrip(seed uint64, n, minutes int) Strip {
	r := rand.New(rand.NewPCG(seed, 5))
	words := []string{"iris", "capsule", "prolapse", "fluctuating chamber", "the", "zonular", "wound", "leak", "i", "W",
		"pseudoexfoliation", "Descemet", "Überdruck", "posterior", "tear extending towards the equator", "before"}
	phrase := func() string {
		out := words[r.IntN(len(words))]
		for range r.IntN(9) {
			out += " " + words[r.IntN(len(words))]
		}
		return out
	}
	end := minutes * 60
	s := Strip{Words: english, IDPrefix: fmt.Sprintf("g%d", seed), Title: "Generated operation", Ends: measure.Time(end)}
	crowd := r.IntN(end)
	for i := range n {
		t := r.IntN(end + 1)
		if r.IntN(3) == 0 {
			t = min(end, crowd+r.IntN(20))
		}
		m := measure.Time(t)
		switch r.IntN(5) {
		case 0, 1:
			s.Steps = append(s.Steps, StripStep{Label: phrase(), From: m, To: m + measure.Time(r.IntN(end-t+1)/(1+r.IntN(9)))})
		case 2:
			e := StripEvent{Label: phrase(), At: m, ID: fmt.Sprint(i), Follows: fmt.Sprint(i - 1)}
			if r.IntN(2) == 0 {
				e.Began = at(max(0, t-r.IntN(40)))
			}
			if r.IntN(4) > 0 {
				e.Noticed = at(t)
			}
			if r.IntN(4) > 0 {
				e.Acted = at(min(end, t+r.IntN(90)))
			}
			s.Events = append(s.Events, e)
		case 3:
			s.Findings = append(s.Findings, StripFinding{Label: phrase(), At: m, Present: r.IntN(2) == 0})
		default:
			s.Decisions = append(s.Decisions, StripDecision{Label: phrase(), At: m, ID: fmt.Sprint(i), Follows: fmt.Sprint(i - 1)})
		}
	}
	return s
}
