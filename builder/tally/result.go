package tally

// Result is everything that was counted. Its JSON form is the form of
// `caseleaf tally --format json`.
type Result struct {
	Source Source `json:"source" doc:"what was counted and how"`
	// Complications has one row for each complication and technique of the
	// logbook, the most frequent complication first, the reference technique
	// first.
	Complications []ComplicationRow `json:"complications" doc:"rates by complication and technique, from the logbook"`
	// Overall asks whether the techniques differ at all, complication by
	// complication.
	Overall []OverallRow `json:"overall" doc:"whether a complication's rate differs among the techniques at all; empty when published"`
	// Stratified compares each technique with the reference within risk strata.
	Stratified []StratifiedRow `json:"stratified" doc:"each technique against the reference within risk strata"`
	// Limits holds each unit's operations with any complication against the
	// rate of all units; LimitsByComplication does it for each complication.
	Limits               []LimitRow `json:"limits" doc:"units held against their common rate of any complication; empty when published"`
	LimitsByComplication []LimitRow `json:"limits_by_complication" doc:"units held against their common rate of each complication"`
	// ByStratum, ByGrade (within strata: a grade is never shown without its
	// case mix) and ByPeriod are rates of each complication.
	ByStratum []StratumRow `json:"by_stratum" doc:"rates by risk stratum and technique"`
	ByGrade   []GradeRow   `json:"by_grade" doc:"rates by surgeon grade within risk strata"`
	ByPeriod  []PeriodRow  `json:"by_period" doc:"rates by period"`

	// What follows is from the written-up cases: counts and times, no rates.
	Delays    []DelayRow    `json:"delays" doc:"from the cases, in seconds"`
	Durations []DurationRow `json:"durations" doc:"from the cases, in seconds"`
	Onsets    []OnsetRow    `json:"onsets" doc:"from the cases: step by complication"`
	Choices   []ChoiceRow   `json:"choices" doc:"from the cases: what was chosen"`
	Decisions []OutcomeRow  `json:"decisions" doc:"from the cases: what came of each choice"`
	Acuity    []AcuityRow   `json:"acuity" doc:"from the cases"`

	// counter and settings are what Published makes its tables anew from.
	counter  *Counter
	settings Settings
}

// Source says what was counted.
type Source struct {
	// Operations is the number of logbook rows counted, LeftOut that of rows
	// with a fault, which were reported and not counted.
	Operations Count `json:"operations" doc:"logbook rows counted; null when withheld"`
	LeftOut    int   `json:"left_out" doc:"logbook rows with a fault, reported and not counted"`
	// From and To are the first and last period of the logbook.
	From Word `json:"from" doc:"first period of the logbook"`
	To   Word `json:"to" doc:"last period of the logbook"`
	// WithoutRisk is how many operations name no risk stratum; they are in the
	// rates and not in the stratified comparison.
	WithoutRisk Count `json:"without_risk" doc:"operations that name no risk stratum: in the rates, not in the stratified comparison"`
	// Reference is the technique that others are compared with; ReferenceStated
	// says that the bank names it, otherwise it is the most frequent one.
	Reference       Word    `json:"reference" doc:"technique that the others are compared with"`
	ReferenceStated bool    `json:"reference_stated" doc:"whether the bank names it; otherwise it is the most frequent technique"`
	Cases           int     `json:"cases" doc:"written-up cases counted; they were chosen and give counts, never rates"`
	Level           float64 `json:"level" doc:"confidence of every interval, 0.95 for 95 %"`
	// Threshold is the small-count threshold; Published says that the rule was
	// applied, so that a null count is a hidden one.
	Threshold int     `json:"threshold" doc:"counts from 1 to this less 1 are small"`
	Published bool    `json:"published" doc:"whether the small-count rule was applied, so that a null count is a hidden one"`
	Methods   Methods `json:"methods" doc:"what each figure was computed by"`
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
	Method string `json:"method" doc:"wilson: Wilson score without continuity correction"`
	Level  Number `json:"level" doc:"confidence, 0.95 for 95 %"`
	Low    Number `json:"low" doc:"lower limit, 0 to 1"`
	High   Number `json:"high" doc:"upper limit, 0 to 1"`
}

// Rate is events out of operations. Rate and interval are undefined without
// operations.
type Rate struct {
	Events     Count    `json:"events" doc:"operations with the complication"`
	Operations Count    `json:"operations" doc:"operations in all"`
	Rate       Number   `json:"rate" doc:"events/operations, 0 to 1; null without operations"`
	Interval   Interval `json:"interval" doc:"confidence interval of the rate"`
}

// ComplicationRow is how often one complication came with one technique.
type ComplicationRow struct {
	Complication string `json:"complication"`
	Technique    string `json:"technique"`
	Rate
	// Difference is the crude difference to the reference technique; nil for
	// the reference itself and where there is none.
	Difference *Difference `json:"difference" doc:"crude difference of the rates, technique less reference; null for the reference itself"`
	FisherP    Number      `json:"fisher_p" doc:"Fisher exact test against the reference, two-sided"`
	HolmP      Number      `json:"holm_p" doc:"the same adjusted by Holm over all comparisons of the table"`
}

// Difference is a difference of rates, technique less reference.
type Difference struct {
	Reference string `json:"reference"`
	Limited
}

// Limited is a value with its limits.
type Limited struct {
	Value Number `json:"value" doc:"estimate"`
	Low   Number `json:"low" doc:"lower limit"`
	High  Number `json:"high" doc:"upper limit"`
}

// StratifiedRow compares a technique with the reference within risk strata.
type StratifiedRow struct {
	Complication        string  `json:"complication"`
	Technique           string  `json:"technique"`
	Reference           string  `json:"reference"`
	CrudeOddsRatio      Number  `json:"crude_odds_ratio" doc:"odds ratio with all strata thrown together; null where undefined or infinite"`
	CrudeRiskDifference Number  `json:"crude_risk_difference" doc:"difference of rates with all strata thrown together"`
	OddsRatio           Limited `json:"odds_ratio" doc:"pooled over risk strata (Mantel-Haenszel)"`
	RiskDifference      Limited `json:"risk_difference" doc:"pooled over risk strata (Mantel-Haenszel)"`
	// OddsRatioBetween and RiskDifferenceBetween stand in for pooled figures
	// that a hidden count enters; nil otherwise.
	OddsRatioBetween      *Between `json:"odds_ratio_between" doc:"published only: range of the pooled odds ratio over all tables that agree with the counts shown"`
	RiskDifferenceBetween *Between `json:"risk_difference_between" doc:"published only: range of the pooled risk difference over all tables that agree with the counts shown"`
	BreslowDayP           Number   `json:"breslow_day_p" doc:"test that the strata share one odds ratio"`
	// Reversal warns that the crude and the stratified difference point in
	// opposite ways: the case mix makes the crude one.
	Reversal bool `json:"reversal" doc:"warning: the crude and the stratified difference point in opposite ways"`
	// StrataDisagree says that one pooled figure hides different ones
	// (Breslow-Day p below 0.05).
	StrataDisagree bool `json:"strata_disagree" doc:"Breslow-Day p below 0.05: one pooled figure hides different ones"`
	// ComparableStrata is how many strata have operations by both techniques.
	ComparableStrata int `json:"comparable_strata" doc:"strata with operations by both techniques"`
	// Note says why there is no pooled figure; empty when there is one.
	Note Word `json:"note" doc:"why there is no pooled figure"`
}

// LimitRow holds one unit against the rate of all units, its own included.
type LimitRow struct {
	Complication Word   `json:"complication,omitempty"`
	Unit         string `json:"unit"`
	Events       Count  `json:"events"`
	Operations   Count  `json:"operations"`
	Rate         Number `json:"rate"`
	Target       Number `json:"target" doc:"rate of all named units together"`
	Low95        Number `json:"low95" doc:"lower 95 % line"`
	High95       Number `json:"high95" doc:"upper 95 % line"`
	Low998       Number `json:"low998" doc:"lower 99.8 % line"`
	High998      Number `json:"high998" doc:"upper 99.8 % line"`
	// Outside says that the exact tail beyond the unit's count is at most 2.5 %
	// on its side, Outside998 at most 0.1 %: the point is never compared with
	// the drawn line, which lies up to one count too low at the top. Both are
	// nil where the count or the target is hidden.
	Outside    *bool `json:"outside" doc:"exact tail on the side of the count at most 2.5 %; null where the count is withheld"`
	Outside998 *bool `json:"outside998" doc:"exact tail on the side of the count at most 0.1 %; null where the count is withheld"`
}

// StratumRow is a rate by risk stratum and technique.
type StratumRow struct {
	Complication string `json:"complication"`
	Stratum      Word   `json:"stratum" doc:"risk stratum; null where none is recorded"`
	Technique    string `json:"technique"`
	Rate
}

// GradeRow is a rate by surgeon grade within a risk stratum.
type GradeRow struct {
	Complication string `json:"complication"`
	Stratum      Word   `json:"stratum" doc:"risk stratum; null where none is recorded"`
	Grade        Word   `json:"grade" doc:"surgeon grade; null where none is recorded"`
	Rate
}

// PeriodRow is a rate by period; a period without operations is there with 0
// operations and no rate.
type PeriodRow struct {
	Complication string `json:"complication"`
	Period       string `json:"period" doc:"year or quarter; one without operations is here with 0 operations"`
	Rate
}
