package tally_test

import (
	"math"
	"strconv"
	"strings"

	"caseleaf/builder/stat"
)

// statFunctions are the rows that builder/stat computes.
var statFunctions = map[string]func(checkRow) answer{
	"wilson": func(r checkRow) answer {
		return estimate(stat.Wilson(r.whole("x"), r.whole("n"), r.level()))
	},
	"wilson_cc": func(r checkRow) answer {
		return estimate(stat.WilsonCorrected(r.whole("x"), r.whole("n"), r.level()))
	},
	"clopper_pearson": func(r checkRow) answer {
		return estimate(stat.ClopperPearson(r.whole("x"), r.whole("n"), r.level()))
	},
	"rule_of_three": func(r checkRow) answer {
		b := stat.BoundsOfNone(r.whole("n"), r.level())
		return answer{"rule_of_three": b.RuleOfThree, "exact_one_sided_upper": b.OneSided,
			"clopper_pearson_two_sided_upper": b.TwoSided}
	},
	"newcombe_diff": func(r checkRow) answer {
		return estimate(stat.Newcombe(r.whole("x1"), r.whole("n1"), r.whole("x2"), r.whole("n2"), r.level()))
	},
	"risk_ratio":       ratioRow(stat.RiskRatio),
	"odds_ratio":       ratioRow(stat.OddsRatio),
	"fisher_exact_2x2": fisherRow,
	"fisher_exact_rxc": func(r checkRow) answer {
		p, err := stat.FisherExactTable(r.counts("table"))
		if err != nil {
			return answer{"error": err.Error()}
		}
		return answer{"p": p}
	},
	"chisq_pearson": func(r checkRow) answer {
		c := stat.ChiSquare(r.counts("table"), r.flag("yates"))
		return answer{"statistic": c.Statistic, "df": c.DF, "p": c.P, "min_expected": c.MinExpected}
	},
	"holm":                 func(r checkRow) answer { return answer{"adjusted": stat.Holm(r.reals("p"))} },
	"mh_odds_ratio":        pooledRatioRow(stat.MantelHaenszelOddsRatio),
	"mh_risk_ratio":        pooledRatioRow(stat.MantelHaenszelRiskRatio),
	"mh_risk_difference":   pooledDifferenceRow,
	"mh_tests":             pooledTestsRow,
	"strata_summary":       strataRow,
	"funnel_limits":        limitsRow,
	"cusum_llr_path":       cusumRow,
	"oe_path":              excessRow,
	"quantile_type7":       summaryRow,
	"quantile_duration":    durationRow,
	"quantile_all_types":   definitionsRow,
	"tukey_hinges":         hingesRow,
	"beta_posterior":       posteriorRow,
	"cusum_llr_weights":    func(r checkRow) answer { return weights(stat.OddsWeights(r.real("p"), r.real("odds_ratio"))) },
	"cusum_llr_weights_p1": func(r checkRow) answer { return weights(stat.RiskWeights(r.real("p0"), r.real("p1"))) },
	"funnel_limits_degenerate": func(r checkRow) answer {
		wide := stat.ControlLimits(r.whole("n"), r.real("target"), stat.Tail998)
		narrow := stat.ControlLimits(r.whole("n"), r.real("target"), stat.Tail95)
		return answer{"l998": wide.Low, "l95": narrow.Low, "u95": narrow.High, "u998": wide.High}
	},
	"funnel_limits_normal": func(r checkRow) answer {
		l998, u998 := stat.NormalLimits(r.whole("n"), r.real("target"), stat.Tail998)
		l95, u95 := stat.NormalLimits(r.whole("n"), r.real("target"), stat.Tail95)
		return answer{"l998": l998, "l95": l95, "u95": u95, "u998": u998}
	},
	"cusum_arl_lattice": func(r checkRow) answer {
		w := stat.Weights{Event: r.real("m") - 1, NoEvent: -1}
		return answer{"arl": stat.RunLength(w, r.real("H"), r.real("p"))}
	},
	"cusum_arl_llr": func(r checkRow) answer {
		w := stat.OddsWeights(r.real("p0"), r.real("odds_ratio"))
		return answer{"arl": stat.RunLength(w, r.real("h"), r.real("p_true"))}
	},
	"dirichlet_mean": func(r checkRow) answer {
		return answer{"mean": stat.DirichletMean(r.wholes("counts"), r.reals("prior"))}
	},
}

func estimate(e stat.Estimate) answer {
	return answer{"estimate": e.Value, "lower": e.Low, "upper": e.High}
}

func weights(w stat.Weights) answer {
	return answer{"weight_event": w.Event, "weight_no_event": w.NoEvent}
}

func ratioRow(f func(x1, n1, x2, n2 int, add, level float64) stat.Ratio) func(checkRow) answer {
	return func(r checkRow) answer {
		ratio := f(r.whole("x1"), r.whole("n1"), r.whole("x2"), r.whole("n2"), r.realOr("add", 0), r.level())
		return estimate(ratio.Estimate)
	}
}

func fisherRow(r checkRow) answer {
	p := stat.FisherExact(r.whole("a"), r.whole("b"), r.whole("c"), r.whole("d"))
	return answer{"p_two_sided": p.TwoSided, "p_less": p.Less, "p_greater": p.Greater, "p_doubled": p.Doubled}
}

// strata reads the strata's four counts by the names in the row's columns.
func strata(r checkRow) []stat.Table {
	place := map[string]int{"events1": 0, "nonevents1": 1, "events2": 2, "nonevents2": 3}
	for i, name := range r.texts("columns") {
		place[name] = i
	}
	var out []stat.Table
	for _, c := range r.counts("strata") {
		out = append(out, stat.Table{Events1: c[place["events1"]], Others1: c[place["nonevents1"]],
			Events2: c[place["events2"]], Others2: c[place["nonevents2"]]})
	}
	return out
}

func pooledRatioRow(f func([]stat.Table, float64) stat.Ratio) func(checkRow) answer {
	return func(r checkRow) answer {
		ratio := f(strata(r), r.level())
		a := estimate(ratio.Estimate)
		a["se_log"] = ratio.SELog
		return a
	}
}

func pooledDifferenceRow(r checkRow) answer {
	d := stat.MantelHaenszelRiskDifference(strata(r), r.level())
	return answer{"estimate": d.Value,
		"se_greenland_robins": d.SEGreenlandRobins, "lower_gr": d.LowGreenlandRobins, "upper_gr": d.HighGreenlandRobins,
		"se_sato": d.SESato, "lower_sato": d.Low, "upper_sato": d.High}
}

func pooledTestsRow(r checkRow) answer {
	t, h := stat.MantelHaenszelTest(strata(r)), stat.BreslowDay(strata(r))
	return answer{"chi2": t.Statistic, "chi2_p": t.P, "chi2_corrected": t.Corrected, "chi2_corrected_p": t.CorrectedP,
		"breslow_day": h.Statistic, "breslow_day_df": h.DF, "breslow_day_p": h.P, "tarone": h.Tarone, "tarone_p": h.TaroneP}
}

func strataRow(r checkRow) answer {
	s := stat.CompareStrata(strata(r))
	return answer{"stratum_risk1": s.Risk1, "stratum_risk2": s.Risk2, "stratum_or": s.OddsRatio,
		"crude_table": []int{s.Crude.Events1, s.Crude.Others1, s.Crude.Events2, s.Crude.Others2},
		"crude_or":    s.CrudeOddsRatio, "crude_rr": s.CrudeRiskRatio, "crude_rd": s.CrudeRiskDifference,
		"reversal_of_rd": s.Reversal}
}

func limitsRow(r checkRow) answer {
	a := answer{}
	for name, tail := range map[string]float64{"95": stat.Tail95, "998": stat.Tail998} {
		l := stat.ControlLimits(r.whole("n"), r.real("target"), tail)
		a["l"+name], a["u"+name], a["u"+name+"_mirror"] = l.Low, l.High, l.HighMirror
		a["r_l"+name], a["alpha_l"+name] = l.LowRank, l.LowShare
		a["r_u"+name], a["alpha_u"+name] = l.HighRank, l.HighShare
		a["signal_high_from_"+name], a["signal_low_to_"+name] = signal(l.SignalFrom), signal(l.SignalTo)
	}
	return a
}

func signal(count int) any {
	if count == stat.NoSignal {
		return nil
	}
	return count
}

func events(r checkRow) []bool {
	var out []bool
	for _, y := range r.reals("y") {
		out = append(out, y == 1)
	}
	return out
}

func cusumRow(r checkRow) answer {
	path := stat.CUSUM(events(r), r.reals("p"), r.real("odds_ratio"), r.real("h"), r.flag("restart"))
	return answer{"weights": path.Weights, "path": path.Scores, "signals": path.Signals}
}

func excessRow(r checkRow) answer {
	e := stat.ObservedMinusExpected(events(r), r.reals("p"))
	var negative []float64
	for _, v := range e.ObservedMinusExpected {
		negative = append(negative, -v)
	}
	return answer{"o_minus_e": e.ObservedMinusExpected, "e_minus_o": negative, "observed": e.Observed, "expected": e.Expected}
}

func summary(values []float64) answer {
	s := stat.Summarise(values)
	return answer{"n": s.N, "median": s.Median, "q1": s.Lower, "q3": s.Upper, "iqr": s.Range(), "min": s.Min, "max": s.Max}
}

func summaryRow(r checkRow) answer { return summary(r.reals("x")) }

func durationRow(r checkRow) answer {
	var seconds []float64
	for _, d := range r.texts("durations") {
		total := 0.0
		for part := range strings.SplitSeq(d, ":") {
			v, err := strconv.ParseFloat(part, 64)
			if err != nil {
				v = math.NaN()
			}
			total = total*60 + v
		}
		seconds = append(seconds, total)
	}
	a := summary(seconds)
	a["seconds"] = seconds
	return a
}

func definitionsRow(r checkRow) answer {
	var q1, q3 []float64
	for d := stat.Definition(1); d <= 9; d++ {
		q1 = append(q1, stat.Quantile(r.reals("x"), 0.25, d))
		q3 = append(q3, stat.Quantile(r.reals("x"), 0.75, d))
	}
	return answer{"q1_types_1_to_9": q1, "q3_types_1_to_9": q3}
}

func hingesRow(r checkRow) answer {
	low, high := stat.Hinges(r.reals("x"))
	s := stat.Summarise(r.reals("x"))
	return answer{"lower_hinge": low, "upper_hinge": high, "type7_q1": s.Lower, "type7_q3": s.Upper}
}

func posteriorRow(r checkRow) answer {
	p := stat.BetaPosterior(r.whole("x"), r.whole("n"), r.real("prior_alpha"), r.real("prior_beta"), r.level())
	return answer{"alpha": p.Alpha, "beta": p.Beta, "mean": p.Mean, "sd": p.SD, "mode": p.Mode,
		"lower": p.Low, "median": p.Median, "upper": p.High}
}
