package figure

import (
	"fmt"

	"caseleaf/content/measure"
)

// Samples of the eye and of decisions; all invented.

func mm(v float64) *measure.Length { l := measure.Length(v); return &l }

func sampleFace() Figure {
	return ClockFace{Words: english, IDPrefix: "face", Title: "The eye at the end of the operation", Eye: measure.RightEye, Seat: measure.SuperiorSeat,
		Moments: []FaceMoment{{Label: "12:10 implant in the bag", WhiteToWhite: 11.8, Pupil: 6.5, Opening: 5.2, Offset: 0.3, Towards: 4, Optic: 6, Ring: 11,
			Incisions: []FaceIncision{{"Main incision", 11, 2.4}, {"Paracentesis", 2, 1}, {"Second paracentesis", 8, 0}},
			Arcs:      []FaceArc{{"Zonular dialysis", []measure.Arc{{From: 4, To: 6}, {From: 3.5, To: 7}}, false}}}}}
}

func sampleFaces() Figure {
	base := FaceMoment{Label: "2:10 before the event", WhiteToWhite: 11.2, Pupil: 5.5,
		Incisions: []FaceIncision{{"Main incision", 9, 2.4}, {"Paracentesis", 12, 1}}}
	second, third := base, base
	second.Label, second.Pupil = "2:58 iris billows", 4.5
	second.Arcs = []FaceArc{{"Iris in the wound", []measure.Arc{{From: 8.5, To: 9.5}}, false}}
	third.Label, third.Pupil, third.Opening, third.Optic = "9:40 implant in", 6, 5.8, 6
	third.Offset, third.Towards = 0.4, 12
	third.Arcs = []FaceArc{{"Iris atrophy", []measure.Arc{{From: 11, To: 2}}, false}, {"Rim torn", []measure.Arc{{From: 5, To: 5.5}, {From: 5, To: 6}}, true}}
	return ClockFace{Words: english, IDPrefix: "faces", Title: "The pupil through the operation", Eye: measure.LeftEye, Seat: measure.TemporalSeat,
		Moments: []FaceMoment{base, second, third, {Label: "All round", Arcs: []FaceArc{{"Posterior synechiae", []measure.Arc{{Whole: true}}, false}}}}}
}

func sampleSection() Figure {
	return Section{Words: english, IDPrefix: "section", Title: "Where the tip was", Depth: 2.1, Lens: 4.9, Pupil: 6, Tools: []SectionTool{
		{Label: "Phaco tip at 7:40", FromEndothelium: mm(3.2)}, {Label: "Chopper", FromCapsule: mm(1.5)}}}
}

func sampleTree() Figure {
	end := func(worth, label string) *TreeNode { return &TreeNode{Kind: EndNode, Worth: worth, Label: label} }
	chance := func(worth string, p1, p2 string) *TreeNode {
		return &TreeNode{Kind: ChanceNode, Worth: worth, Branches: []TreeBranch{
			{Label: "Pupil holds to the end", Probability: p1, Count: "5 of 6 cases", To: end("90", "6/12 or better, no second operation")},
			{Label: "Pupil comes down or tears", Probability: p2, Count: "1 of 6 cases", To: &TreeNode{Kind: ChanceNode, Worth: "55", Branches: []TreeBranch{
				{Label: "Capsule whole", Probability: "0.9", To: end("70", "6/12 or better")},
				{Label: "Capsule torn", Probability: "0.1", To: end("30", "vitrectomy")}}}}}}
	}
	return Tree{Words: english, IDPrefix: "tree", Title: "Pupil under 5 mm before the tear", Value: "corrected acuity 6/12 or better and no second operation at three months",
		Root: &TreeNode{Kind: DecisionNode, Worth: "86", Branches: []TreeBranch{
			{Label: "Iris hooks", Preferred: true, Href: "#hooks", To: chance("86.1", "0.89", "0.11")},
			{Label: "Viscoadaptive device alone", To: chance("78", "0.66", "0.34")},
			{Label: "Go on as it is", To: end("60", "")}}}}
}

// bigTree has 5 x 8 = 40 ends.
func bigTree() Figure {
	root := &TreeNode{Kind: DecisionNode, Worth: "70"}
	for i := range 5 {
		c := &TreeNode{Kind: ChanceNode, Worth: fmt.Sprint(50 + i)}
		for j := range 8 {
			c.Branches = append(c.Branches, TreeBranch{Label: fmt.Sprintf("Course %d of this option, with some words", j+1), Probability: "0.125",
				To: &TreeNode{Kind: EndNode, Worth: fmt.Sprint(20 + 7*j), Label: "a stated ending"}})
		}
		root.Branches = append(root.Branches, TreeBranch{Label: fmt.Sprintf("Option %d", i+1), Preferred: i == 4, To: c})
	}
	return Tree{Words: english, IDPrefix: "bigtree", Title: "A tree of 40 ends", Root: root}
}

func sampleMap() Figure {
	m := ThresholdMap{Words: english, IDPrefix: "map", Title: "Which option is best", X: MapAxis{"probability that the pupil holds with hooks", 0.5, 1, 0.89},
		Y: MapAxis{"probability that it holds with the device alone", 0.3, 0.9, 0.66}, Options: []string{"iris hooks", "viscoadaptive device", "go on as it is"}}
	for r := range 24 {
		row := make([]int, 30)
		for c := range row {
			h, v := 0.5+0.5*(float64(c)+0.5)/30, 0.3+0.6*(float64(r)+0.5)/24
			switch {
			case h < 0.68 && v < 0.62:
				row[c] = 2
			case v+0.12 > h:
				row[c] = 1
			}
		}
		m.Best = append(m.Best, row)
	}
	return m
}

func sampleChains() Figure {
	e := func(s string) ChainLink { return ChainLink{Kind: ChainEvent, Label: s} }
	d := func(s string) ChainLink { return ChainLink{Kind: ChainDecision, Label: s} }
	f := func(s string) ChainLink { return ChainLink{Kind: ChainFinding, Label: s} }
	return Chains{Words: english, IDPrefix: "chains", Title: "What followed an iris prolapse", Paths: []ChainPath{
		{4, []ChainLink{e("Iris prolapse"), d("Iris hooks"), e("Sphincter tear")}},
		{9, []ChainLink{e("Iris prolapse"), d("Iris hooks")}},
		{3, []ChainLink{e("Iris prolapse"), d("Lower the bottle and reposit the iris"), e("Iris prolapse again"), d("Iris hooks")}},
		{2, []ChainLink{e("Iris prolapse"), d("Lower the bottle and reposit the iris"), f("Vitreous absent")}},
		{1, []ChainLink{e("Iris prolapse"), d("New wound")}},
	}}
}
