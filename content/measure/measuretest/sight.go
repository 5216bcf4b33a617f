package measuretest

import (
	"fmt"
	"math"
	"strconv"

	"caseleaf/content/measure"
)

// fraction writes a Snellen fraction as an author would.
func fraction(in inputs) string {
	num := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	s := num(in.Numerator) + "/" + num(in.Denominator)
	if in.Letters != 0 {
		s += fmt.Sprintf("%+d", in.Letters)
	}
	return s
}

// logMAROf reads an acuity that must be measured.
func logMAROf(text string) (float64, error) {
	a, err := measure.ParseAcuity(text)
	if err != nil {
		return 0, err
	}
	v, ok := a.LogMAR()
	if !ok {
		return 0, fmt.Errorf("%s has no logMAR", text)
	}
	return v, nil
}

func snellen(in inputs) (Results, error) {
	l, err := logMAROf(fraction(in))
	if err != nil {
		return nil, err
	}
	return Results{"decimal": measure.DecimalFromLogMAR(l), "logmar": l,
		"mar_arcmin": math.Pow(10, l), "etdrs_letters": measure.LettersFromLogMAR(l)}, nil
}

func snellenLetters(in inputs) (Results, error) {
	l, err := logMAROf(fraction(in))
	return Results{"logmar": l}, err
}

func letterScore(in inputs) (Results, error) {
	l, err := logMAROf(strconv.Itoa(in.Letters) + " letters")
	if err != nil {
		return nil, err
	}
	d := measure.DecimalFromLogMAR(l)
	return Results{"logmar": l, "decimal": d, "snellen_20": 20 / d, "snellen_6": 6 / d}, nil
}

func meanAcuity(in inputs) (Results, error) {
	var list []measure.Acuity
	decimals := 0.0
	for _, l := range in.LogMAR {
		a, err := measure.ParseAcuity("logMAR " + strconv.FormatFloat(l, 'f', 11, 64))
		if err != nil {
			return nil, err
		}
		a.Value = l // the row's own digits, which no author would type
		list = append(list, a)
		decimals += measure.DecimalFromLogMAR(l)
	}
	m := measure.MeanAcuity(list, "")
	d := measure.DecimalFromLogMAR(m.LogMAR)
	return Results{"mean_logmar": m.LogMAR, "decimal": d, "snellen_20": 20 / d, "snellen_6": 6 / d,
		"wrong_mean_of_decimals": decimals / float64(len(list))}, nil
}

func medianAcuity(in inputs) (Results, error) {
	var list []measure.Acuity
	for _, text := range in.Acuities {
		a, err := measure.ParseAcuity(text)
		if err != nil {
			return nil, err
		}
		list = append(list, a)
	}
	worse, better, ok := measure.MedianAcuity(list)
	if !ok || measure.CompareAcuity(worse, better) != 0 {
		return nil, fmt.Errorf("no single median")
	}
	return Results{"median": worse.String()}, nil
}

func substitution(in inputs) (Results, error) {
	metres := in.DistanceFt * 0.3048
	out := Results{}
	for key, kind := range map[string]measure.AcuityKind{
		"cf": measure.CountingFingers, "hm": measure.HandMovements,
		"lp": measure.LightPerception, "nlp": measure.NoLightPerception,
	} {
		v, ok := measure.LowVisionTable(in.Table).Substitute(measure.Acuity{Kind: kind, Distance: metres})
		out[key] = optional(v, ok)
	}
	return out, nil
}

// optional gives nil for a value that is not there.
func optional(v float64, ok bool) any {
	if !ok {
		return nil
	}
	return v
}

func gradeValid(in inputs) (Results, error) {
	return Results{"valid": measure.GradeScale(in.Scale).Valid(in.Value)}, nil
}

// locs holds the four scales of one system, in the keys of the table.
var locs = []measure.GradeScale{measure.NuclearOpalescence, measure.NuclearColour,
	measure.Cortical, measure.PosteriorSubcapsule}

func gradeRange(inputs) (Results, error) {
	out := Results{}
	for _, s := range locs {
		r, _ := s.Range()
		out[string(s)], out["step"] = []float64{r.Low, r.High}, r.Step
	}
	return out, nil
}

func gradeTolerance(inputs) (Results, error) {
	out := Results{}
	for _, s := range locs {
		r, _ := s.Range()
		out[string(s)] = r.Tolerance
	}
	return out, nil
}

func hardnessRange(inputs) (Results, error) {
	r, _ := measure.NuclearHardness.Range()
	return Results{"min": r.Low, "max": r.High, "step": r.Step}, nil
}
