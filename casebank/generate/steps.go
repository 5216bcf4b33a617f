package main

// stepsOf lists the steps of each technique in the order of the operation. A step
// that a technique does not have cannot be where its trouble began: the chops skip
// the groove, and manual surgery has no quadrants.
var stepsOf = map[string][]string{
	"divide-and-conquer": phacoSteps("sculpting", "cracking"),
	"stop-and-chop":      phacoSteps("sculpting", "cracking"),
	"horizontal-chop":    phacoSteps("cracking"),
	"vertical-chop":      phacoSteps("cracking"),
	"flacs": {
		"laser-docking", "laser-capsulotomy", "laser-fragmentation", "bed-transfer",
		"incision-opening", "capsule-disc-removal", "hydrodissection", "nucleus-rotation",
		"cracking", "quadrant-removal", "epinucleus-removal", "cortex-removal",
		"iol-insertion", "wound-closure", "postop-review",
	},
	"msics": {
		"scleral-tunnel", "chamber-entry", "anterior-capsulotomy", "hydrodissection",
		"nucleus-prolapse", "nucleus-delivery", "cortex-removal", "iol-insertion",
		"wound-closure", "postop-review",
	},
	"ecce": {
		"limbal-groove", "chamber-entry", "anterior-capsulotomy", "hydrodissection",
		"nucleus-expression", "cortex-removal", "iol-insertion", "wound-suturing",
		"postop-review",
	},
}

// phacoSteps puts the steps that take the nucleus apart between those that every
// phaco technique shares.
func phacoSteps(disassembly ...string) []string {
	steps := []string{"main-incision", "capsulorhexis", "hydrodissection", "nucleus-rotation"}
	steps = append(steps, disassembly...)
	return append(steps, "quadrant-removal", "epinucleus-removal", "cortex-removal",
		"capsule-polishing", "iol-insertion", "wound-closure", "postop-review")
}

// acuityBefore is the weight of each acuity before the operation, by stratum.
var acuityBefore = map[string][]weighted{
	"low":    {{"6/9", 6}, {"6/12", 34}, {"6/18", 35}, {"6/24", 18}, {"6/36", 7}},
	"medium": {{"6/12", 14}, {"6/18", 26}, {"6/24", 30}, {"6/36", 20}, {"6/60", 10}},
	"high":   {{"6/18", 5}, {"6/24", 12}, {"6/36", 20}, {"6/60", 23}, {"CF", 22}, {"HM", 14}, {"LP", 4}},
}

// acuityAfter is the weight of each corrected acuity at the last visit, by what
// became of the eye (see ending).
var acuityAfter = map[string][]weighted{
	"smooth":    {{"6/5", 8}, {"6/6", 45}, {"6/9", 28}, {"6/12", 12}, {"6/18", 4}, {"6/24", 2}, {"6/36", 1}},
	"hard-eye":  {{"6/6", 22}, {"6/9", 32}, {"6/12", 24}, {"6/18", 12}, {"6/24", 5}, {"6/36", 3}, {"6/60", 2}},
	"troubled":  {{"6/6", 14}, {"6/9", 28}, {"6/12", 27}, {"6/18", 15}, {"6/24", 8}, {"6/36", 5}, {"6/60", 3}},
	"sight-hit": {{"6/12", 12}, {"6/18", 20}, {"6/24", 22}, {"6/36", 18}, {"6/60", 14}, {"CF", 10}, {"HM", 4}},
}

// lostShare is the share of each stratum that was not seen again, so that the
// acuity after is empty.
var lostShare = map[string]float64{"low": 0.04, "medium": 0.05, "high": 0.08}

// ending says which row of acuityAfter an eye belongs to. It looks at what
// threatens sight and not at the number of entries.
func ending(stratum string, happened map[string]bool) string {
	for _, c := range []string{"endophthalmitis", "retinal-detachment", "suprachoroidal-haemorrhage", "dropped-nucleus"} {
		if happened[c] {
			return "sight-hit"
		}
	}
	for _, c := range []string{"posterior-capsule-tear", "zonular-dialysis", "cystoid-macular-oedema", "wound-burn", "iol-decentration", "suture-astigmatism"} {
		if happened[c] {
			return "troubled"
		}
	}
	if stratum == "high" {
		return "hard-eye"
	}
	return "smooth"
}
