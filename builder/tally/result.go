package tally

// Result is everything that was counted. Its JSON form is the form of
// `caseleaf tally --format json`.
type Result struct {
	Source Source `json:"source"`
	// Complications has one row for each complication and technique of the
	// logbook, the most frequent complication first, the reference technique
	// first.
	Complications []ComplicationRow `json:"complications"`
	// Stratified compares each technique with the reference within risk strata.
	Stratified []StratifiedRow `json:"stratified"`
	// Limits holds each unit's operations with any complication against the
	// rate of all units; LimitsByComplication does it for each complication.
	Limits               []LimitRow `json:"limits"`
	LimitsByComplication []LimitRow `json:"limits_by_complication"`
	// ByStratum, ByGrade (within strata: a grade is never shown without its
	// case mix) and ByPeriod are rates of each complication.
	ByStratum []StratumRow `json:"by_stratum"`
	ByGrade   []GradeRow   `json:"by_grade"`
	ByPeriod  []PeriodRow  `json:"by_period"`

	// What follows is from the written-up cases: counts and times, no rates.
	Delays    []DelayRow    `json:"delays"`
	Durations []DurationRow `json:"durations"`
	Onsets    []OnsetRow    `json:"onsets"`
	Choices   []ChoiceRow   `json:"choices"`
	Decisions []OutcomeRow  `json:"decisions"`
	Acuity    []AcuityRow   `json:"acuity"`

	// counter and settings are what Published makes its tables anew from.
	counter  *Counter
	settings Settings
}

// Source says what was counted.
type Source struct {
	// Operations is the number of logbook rows counted, LeftOut that of rows
	// with a fault, which were reported and not counted.
	Operations Count `json:"operations"`
	LeftOut    int   `json:"left_out"`
	// From and To are the first and last period of the logbook.
	From Word `json:"from"`
	To   Word `json:"to"`
	// WithoutRisk is how many operations name no risk stratum; they are in the
	// rates and not in the stratified comparison.
	WithoutRisk Count `json:"without_risk"`
	// Reference is the technique that others are compared with; ReferenceStated
	// says that the bank names it, otherwise it is the most frequent one.
	Reference       Word    `json:"reference"`
	ReferenceStated bool    `json:"reference_stated"`
	Cases           int     `json:"cases"`
	Level           float64 `json:"level"`
	// Threshold is the small-count threshold; Published says that the rule was
	// applied, so that a null count is a hidden one.
	Threshold int     `json:"threshold"`
	Published bool    `json:"published"`
	Methods   Methods `json:"methods"`
}

// Methods names what each figure was computed by.
type Methods struct {
	Interval       string `json:"interval"`
	Difference     string `json:"difference"`
	CrudeOddsRatio string `json:"crude_odds_ratio"`
	OddsRatio      string `json:"odds_ratio"`
	RiskDifference string `json:"risk_difference"`
	Homogeneity    string `json:"homogeneity"`
	Comparison     string `json:"comparison"`
	Limits         string `json:"limits"`
	Quantiles      string `json:"quantiles"`
}

var methods = Methods{
	Interval:       "Wilson score, no continuity correction",
	Difference:     "Newcombe hybrid score (method 10)",
	CrudeOddsRatio: "of the operations that the strata hold, all strata together",
	OddsRatio:      "Mantel-Haenszel, interval of Robins, Breslow and Greenland",
	RiskDifference: "Mantel-Haenszel, interval of Sato",
	Homogeneity:    "Breslow-Day",
	Comparison:     "Fisher exact, two-sided by minimum likelihood; Holm over all comparisons of the table",
	Limits:         "exact binomial about the rate of all units, lines interpolated as Spiegelhalter 2005; outside by exact tail",
	Quantiles:      "type 7 of Hyndman and Fan",
}

// Interval is a confidence interval with its name.
type Interval struct {
	Method string `json:"method"`
	Level  Number `json:"level"`
	Low    Number `json:"low"`
	High   Number `json:"high"`
}

// Rate is events out of operations. Rate and interval are undefined without
// operations.
type Rate struct {
	Events     Count    `json:"events"`
	Operations Count    `json:"operations"`
	Rate       Number   `json:"rate"`
	Interval   Interval `json:"interval"`
}

// ComplicationRow is how often one complication came with one technique.
type ComplicationRow struct {
	Complication string `json:"complication"`
	Technique    string `json:"technique"`
	Rate
	// Difference is the crude difference to the reference technique; nil for
	// the reference itself and where there is none.
	Difference *Difference `json:"difference"`
	FisherP    Number      `json:"fisher_p"`
	HolmP      Number      `json:"holm_p"`
}

// Difference is a difference of rates, technique less reference.
type Difference struct {
	Reference string `json:"reference"`
	Limited
}

// Limited is a value with its limits.
type Limited struct {
	Value Number `json:"value"`
	Low   Number `json:"low"`
	High  Number `json:"high"`
}

// StratifiedRow compares a technique with the reference within risk strata.
type StratifiedRow struct {
	Complication        string  `json:"complication"`
	Technique           string  `json:"technique"`
	Reference           string  `json:"reference"`
	CrudeOddsRatio      Number  `json:"crude_odds_ratio"`
	CrudeRiskDifference Number  `json:"crude_risk_difference"`
	OddsRatio           Limited `json:"odds_ratio"`
	RiskDifference      Limited `json:"risk_difference"`
	BreslowDayP         Number  `json:"breslow_day_p"`
	// Reversal warns that the crude and the stratified difference point in
	// opposite ways: the case mix makes the crude one.
	Reversal bool `json:"reversal"`
	// StrataDisagree says that one pooled figure hides different ones
	// (Breslow-Day p below 0.05).
	StrataDisagree bool `json:"strata_disagree"`
	// ComparableStrata is how many strata have operations by both techniques.
	ComparableStrata int `json:"comparable_strata"`
	// Note says why there is no pooled figure; empty when there is one.
	Note Word `json:"note"`
}

// LimitRow holds one unit against the rate of all units, its own included.
type LimitRow struct {
	Complication Word   `json:"complication,omitempty"`
	Unit         string `json:"unit"`
	Events       Count  `json:"events"`
	Operations   Count  `json:"operations"`
	Rate         Number `json:"rate"`
	Target       Number `json:"target"`
	Low95        Number `json:"low95"`
	High95       Number `json:"high95"`
	Low998       Number `json:"low998"`
	High998      Number `json:"high998"`
	// Outside says that the exact tail beyond the unit's count is at most 2.5 %
	// on its side, Outside998 at most 0.1 %: the point is never compared with
	// the drawn line, which lies up to one count too low at the top.
	Outside    bool `json:"outside"`
	Outside998 bool `json:"outside998"`
}

// StratumRow is a rate by risk stratum and technique.
type StratumRow struct {
	Complication string `json:"complication"`
	Stratum      Word   `json:"stratum"`
	Technique    string `json:"technique"`
	Rate
}

// GradeRow is a rate by surgeon grade within a risk stratum.
type GradeRow struct {
	Complication string `json:"complication"`
	Stratum      Word   `json:"stratum"`
	Grade        Word   `json:"grade"`
	Rate
}

// PeriodRow is a rate by period; a period without operations is there with 0
// operations and no rate.
type PeriodRow struct {
	Complication string `json:"complication"`
	Period       string `json:"period"`
	Rate
}
