package main

// hazard is one complication's assumed frequency. The chance for one operation is
//
//	perThousand[stratum] x byGrade[grade] x byTechnique[technique] / 1000
//
// times worseUnit's factor where that applies, times the factor of every entry of
// after that has already happened in the same operation. perThousand is for a
// fellow using divide-and-conquer. A technique factor of 0 means that it cannot
// happen there. Where needs is set, perThousand is the chance given that one of
// those has happened, and it is 0 without.
type hazard struct {
	complication string
	perThousand  [3]float64 // low, medium, high
	byGrade      [3]float64 // trainee, fellow, consultant
	byTechnique  [7]float64 // in the order of techniques
	needs        []string
	after        []weighted
	// where is the weight of each step at which it may begin. Steps that the
	// technique does not have are left out of the draw.
	where map[string]float64
}

// hazards are drawn in this order, so that what needs another comes after it.
// All figures are invented. They are of the size that teaching units report, and
// higher in the high stratum, so that 1,500 operations hold enough events to see.
// The split of capsule tears over the steps follows a published audit loosely:
// about six in ten in phaco and a quarter in cortex removal.
var hazards = []hazard{
	{
		complication: "laser-suction-loss", perThousand: [3]float64{30, 30, 40},
		byGrade: [3]float64{1, 1, 1}, byTechnique: [7]float64{0, 0, 0, 0, 0, 0, 1},
		where: map[string]float64{"laser-docking": 3, "laser-capsulotomy": 1, "laser-fragmentation": 1},
	},
	{
		complication: "capsulotomy-tag", perThousand: [3]float64{35, 40, 60},
		byGrade: [3]float64{1, 1, 1}, byTechnique: [7]float64{0, 0, 0, 0, 0, 0, 1},
		where: map[string]float64{"capsule-disc-removal": 1},
	},
	{
		complication: "descemet-detachment", perThousand: [3]float64{3, 5, 9},
		byGrade: [3]float64{1.6, 1, 0.7}, byTechnique: [7]float64{1, 1, 1, 1, 1.3, 0.8, 1},
		where: map[string]float64{"main-incision": 2, "chamber-entry": 2, "incision-opening": 2, "wound-closure": 1},
	},
	{
		complication: "premature-entry", perThousand: [3]float64{5, 6, 7},
		byGrade: [3]float64{2, 1, 0.5}, byTechnique: [7]float64{0.5, 0.5, 0.5, 0.5, 4, 2, 0},
		where: map[string]float64{"main-incision": 1, "scleral-tunnel": 2, "limbal-groove": 1},
	},
	{
		complication: "floppy-iris-syndrome", perThousand: [3]float64{2, 22, 30},
		byGrade: [3]float64{1, 1, 1}, byTechnique: [7]float64{1, 1, 1, 1, 0.4, 0.3, 1},
		where: map[string]float64{"hydrodissection": 3, "quadrant-removal": 1, "cortex-removal": 1},
	},
	{
		complication: "intraoperative-miosis", perThousand: [3]float64{5, 16, 24},
		byGrade: [3]float64{1.3, 1, 0.8}, byTechnique: [7]float64{1, 1, 1, 1, 0.8, 0.8, 3},
		where: map[string]float64{"bed-transfer": 3, "hydrodissection": 1, "quadrant-removal": 2, "cortex-removal": 1},
	},
	{
		complication: "iris-prolapse", perThousand: [3]float64{5, 12, 14},
		byGrade: [3]float64{1.7, 1, 0.6}, byTechnique: [7]float64{1, 1, 1, 1, 1.4, 1.8, 0.8},
		after: []weighted{{"floppy-iris-syndrome", 8}, {"premature-entry", 6}},
		where: map[string]float64{"main-incision": 1, "chamber-entry": 1, "hydrodissection": 2, "nucleus-delivery": 1, "cortex-removal": 1},
	},
	{
		complication: "rhexis-run-out", perThousand: [3]float64{9, 14, 32},
		byGrade: [3]float64{2, 1, 0.5}, byTechnique: [7]float64{1, 1, 1, 1, 0, 0, 0},
		where: map[string]float64{"capsulorhexis": 1},
	},
	{
		complication: "anterior-capsule-tear", perThousand: [3]float64{4, 8, 20},
		byGrade: [3]float64{1.6, 1, 0.6}, byTechnique: [7]float64{0.6, 0.6, 0.8, 0.8, 1, 1.2, 1.5},
		after: []weighted{{"capsulotomy-tag", 5}},
		where: map[string]float64{"anterior-capsulotomy": 3, "capsule-disc-removal": 3, "hydrodissection": 1, "cracking": 1, "iol-insertion": 1},
	},
	{
		complication: "zonular-dialysis", perThousand: [3]float64{1, 4, 34},
		byGrade: [3]float64{1.5, 1, 0.7}, byTechnique: [7]float64{1.2, 1, 0.9, 0.8, 0.8, 1, 1},
		where: map[string]float64{"capsulorhexis": 2, "anterior-capsulotomy": 2, "nucleus-rotation": 2, "cracking": 1, "cortex-removal": 2, "nucleus-prolapse": 2},
	},
	{
		complication: "wound-burn", perThousand: [3]float64{1, 4, 10},
		byGrade: [3]float64{2, 1, 0.6}, byTechnique: [7]float64{1.2, 1, 0.8, 0.8, 0, 0, 0.5},
		where: map[string]float64{"sculpting": 3, "cracking": 1, "quadrant-removal": 2},
	},
	{
		complication: "posterior-capsule-tear", perThousand: [3]float64{9, 25, 95},
		byGrade: [3]float64{1.7, 1, 0.6}, byTechnique: [7]float64{1, 0.9, 0.85, 0.7, 0.6, 1.1, 0.9},
		after: []weighted{{"rhexis-run-out", 4}, {"anterior-capsule-tear", 4}, {"intraoperative-miosis", 1.5}},
		where: map[string]float64{"hydrodissection": 4, "sculpting": 12, "cracking": 8, "quadrant-removal": 38, "epinucleus-removal": 8, "cortex-removal": 25, "capsule-polishing": 3, "iol-insertion": 4},
	},
	{
		complication: "vitreous-loss", perThousand: [3]float64{450, 500, 550},
		byGrade: [3]float64{1.2, 1, 0.85}, byTechnique: [7]float64{1, 1, 1, 1, 1, 1.3, 1},
		needs: []string{"posterior-capsule-tear", "zonular-dialysis"},
		where: map[string]float64{"quadrant-removal": 2, "cortex-removal": 2, "nucleus-delivery": 2, "nucleus-expression": 2, "iol-insertion": 0.5, "wound-closure": 0.3},
	},
	{
		complication: "dropped-nucleus", perThousand: [3]float64{60, 80, 100},
		byGrade: [3]float64{1.3, 1, 0.8}, byTechnique: [7]float64{1, 1, 1, 1, 0, 0, 1},
		needs: []string{"posterior-capsule-tear"},
		where: map[string]float64{"quadrant-removal": 1},
	},
	{
		complication: "nucleus-stuck", perThousand: [3]float64{15, 20, 30},
		byGrade: [3]float64{1.8, 1, 0.7}, byTechnique: [7]float64{0, 0, 0, 0, 1, 0.7, 0},
		where: map[string]float64{"nucleus-delivery": 1, "nucleus-expression": 1},
	},
	{
		complication: "retained-cortex", perThousand: [3]float64{8, 12, 20},
		byGrade: [3]float64{1.6, 1, 0.7}, byTechnique: [7]float64{1, 1, 1, 1, 1.5, 1.8, 1},
		after: []weighted{{"posterior-capsule-tear", 6}},
		where: map[string]float64{"cortex-removal": 1},
	},
	{
		complication: "iol-decentration", perThousand: [3]float64{2, 4, 8},
		byGrade: [3]float64{1.4, 1, 0.8}, byTechnique: [7]float64{1, 1, 1, 1, 1, 1.3, 1},
		after: []weighted{{"posterior-capsule-tear", 8}, {"zonular-dialysis", 8}},
		where: map[string]float64{"iol-insertion": 2, "postop-review": 1},
	},
	{
		complication: "suprachoroidal-haemorrhage", perThousand: [3]float64{0.3, 0.6, 1.5},
		byGrade: [3]float64{1, 1, 1}, byTechnique: [7]float64{1, 1, 1, 1, 2, 6, 1},
		where: map[string]float64{"cortex-removal": 1, "nucleus-expression": 3},
	},
	{
		complication: "wound-leak", perThousand: [3]float64{6, 9, 14},
		byGrade: [3]float64{1.8, 1, 0.7}, byTechnique: [7]float64{1, 1, 1, 1, 1.2, 1.6, 1},
		after: []weighted{{"wound-burn", 12}, {"premature-entry", 4}},
		where: map[string]float64{"wound-closure": 1, "wound-suturing": 1},
	},
	{
		complication: "suture-astigmatism", perThousand: [3]float64{150, 150, 180},
		byGrade: [3]float64{1.3, 1, 0.8}, byTechnique: [7]float64{0, 0, 0, 0, 0, 1, 0},
		where: map[string]float64{"wound-suturing": 1},
	},
	{
		complication: "hyphaema", perThousand: [3]float64{2, 3, 5},
		byGrade: [3]float64{1.4, 1, 0.8}, byTechnique: [7]float64{1, 1, 1, 1, 9, 9, 1},
		where: map[string]float64{"scleral-tunnel": 2, "chamber-entry": 1, "postop-review": 1},
	},
	{
		complication: "corneal-oedema", perThousand: [3]float64{40, 100, 290},
		byGrade: [3]float64{1.4, 1, 0.8}, byTechnique: [7]float64{1, 0.9, 0.8, 0.8, 0.6, 0.9, 0.75},
		after: []weighted{{"posterior-capsule-tear", 1.6}, {"wound-burn", 2}, {"descemet-detachment", 2.5}},
		where: map[string]float64{"postop-review": 1},
	},
	{
		complication: "raised-pressure", perThousand: [3]float64{25, 40, 55},
		byGrade: [3]float64{1.2, 1, 0.9}, byTechnique: [7]float64{1, 1, 1, 1, 0.9, 0.8, 1},
		after: []weighted{{"vitreous-loss", 3}},
		where: map[string]float64{"postop-review": 1},
	},
	{
		complication: "cystoid-macular-oedema", perThousand: [3]float64{10, 22, 30},
		byGrade: [3]float64{1.1, 1, 0.9}, byTechnique: [7]float64{1, 1, 1, 1, 1, 1.2, 1},
		after: []weighted{{"vitreous-loss", 5}},
		where: map[string]float64{"postop-review": 1},
	},
	{
		complication: "retinal-detachment", perThousand: [3]float64{1, 1.5, 2.5},
		byGrade: [3]float64{1, 1, 1}, byTechnique: [7]float64{1, 1, 1, 1, 1, 1.2, 1},
		after: []weighted{{"vitreous-loss", 10}, {"dropped-nucleus", 4}},
		where: map[string]float64{"postop-review": 1},
	},
	{
		complication: "endophthalmitis", perThousand: [3]float64{0.4, 0.6, 0.8},
		byGrade: [3]float64{1, 1, 1}, byTechnique: [7]float64{1, 1, 1, 1, 1, 1.5, 1},
		after: []weighted{{"vitreous-loss", 5}, {"wound-leak", 5}},
		where: map[string]float64{"postop-review": 1},
	},
}
