package builder

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"caseleaf/builder/tally"
)

// Download is one table of the handout's data folder.
type Download struct {
	Link Link // its note says how many rows it has
	Name string
}

// downloads files every published table that has rows as data/*.csv, beginning
// with one that says what was counted and how. The columns of p values, which a
// published result leaves empty, are left out.
func (b *rateBook) downloads() []Download {
	w := b.words
	titles := map[string]string{
		"source": w.say("data-source"), "complications": w.say("data-rates"), "stratified": w.say("data-stratified"),
		"limits_by_complication": w.say("data-limits"), "by_stratum": w.say("data-strata"), "by_grade": w.say("data-grades"),
		"by_period": w.say("data-periods"), "delays": w.say("data-delays"), "moments": w.say("data-moments"),
		"durations": w.say("data-durations"), "onsets": w.say("data-onsets"), "choices": w.say("data-choices"),
		"decisions": w.say("data-decisions"), "acuity": w.say("data-acuity"),
	}
	var list []Download
	for _, t := range append([]tally.Table{sourceTable(b.result.Source, b.source.followed)}, b.result.Tables()...) {
		title, listed := titles[t.Name]
		if t.Len == 0 || !listed {
			continue
		}
		var out bytes.Buffer
		if err := t.Without(ofP).WriteCSV(&out); err != nil {
			b.site.faults = append(b.site.faults, err)
			continue
		}
		path := "data/" + strings.ReplaceAll(t.Name, "_", "-") + ".csv"
		b.data[t.Name] = path
		b.site.file(path, out.Bytes())
		list = append(list, Download{Link{Text: title, Path: path, Note: w.say("rows-n", t.Len)}, path})
	}
	return list
}

// ofP says whether a column holds p values.
func ofP(column string) bool { return strings.HasSuffix(column, "_p") }

// sourceTable says what was counted and how, a line each.
func sourceTable(s tally.Source, followed string) tally.Table {
	var rows [][]tally.Cell
	put := func(what, value string) {
		if value != "" {
			rows = append(rows, []tally.Cell{{Text: what}, {Text: value}})
		}
	}
	put("operations", s.Operations.Text(s.Threshold))
	put("from", string(s.From))
	put("to", string(s.To))
	put("acuity_at_follow_up", followed)
	put("without_risk", s.WithoutRisk.Text(s.Threshold))
	put("left_out", strconv.Itoa(s.LeftOut))
	put("cases", strconv.Itoa(s.Cases))
	put("reference", string(s.Reference))
	put("level", strconv.FormatFloat(s.Level, 'g', -1, 64))
	put("small_counts_below", strconv.Itoa(s.Threshold))
	put("method_interval", s.Methods.Interval)
	put("method_difference", s.Methods.Difference)
	put("method_crude_odds_ratio", s.Methods.CrudeOddsRatio)
	put("method_odds_ratio", s.Methods.OddsRatio)
	put("method_risk_difference", s.Methods.RiskDifference)
	put("method_limits", s.Methods.Limits)
	put("method_quantiles", s.Methods.Quantiles)
	return tally.Table{Name: "source", Logbook: true, Columns: []string{"what", "value"}, Rows: slices.Values(rows), Len: len(rows)}
}
