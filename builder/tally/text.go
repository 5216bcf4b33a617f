package tally

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// WriteText prints the result for a terminal, for a reader who knows the trade
// and not the tables. label gives the words for an id (a term, a stratum); rows by
// stratum, grade and period are left to the CSV and JSON forms, which have all.
func (r *Result) WriteText(w io.Writer, label func(id string) string) error {
	p := &printer{label: label, threshold: r.Source.Threshold}
	p.head(r)
	p.complications(r)
	p.units(r)
	p.cases(r)
	_, err := io.WriteString(w, p.out.String())
	return err
}

// printer collects the text.
type printer struct {
	out       strings.Builder
	label     func(id string) string
	threshold int
}

func (p *printer) line(format string, args ...any) { fmt.Fprintf(&p.out, format+"\n", args...) }

func (p *printer) head(r *Result) {
	s := r.Source
	p.line("FROM THE LOGBOOK: %s operations, %s to %s", s.Operations.Text(s.Threshold), orDash(string(s.From)), orDash(string(s.To)))
	if s.LeftOut > 0 {
		p.line("%d rows with a fault are not counted; check names them.", s.LeftOut)
	}
	if n := s.WithoutRisk; n.Hidden != Shown || n.N > 0 {
		p.line("%s operations name no risk stratum and are in no comparison within strata.", n.Text(s.Threshold))
	}
	if s.Published {
		p.line("As published: counts below %d are hidden, and others with them so that they cannot be worked out.", s.Threshold)
		p.line("No percentage of fewer than %d operations, no p values.", fewestForRate)
		p.line("* what the odds ratio lies between whatever the hidden counts are, by the counts shown; not a confidence interval.")
	} else {
		p.line("For the author's own audit. Counts below %d may identify somebody: --published shows what may leave the house.", s.Threshold)
	}
	p.line("")
	p.line("%%: 95 %% interval by Wilson. Points: technique less %s, percentage points, by Newcombe.", orDash(p.name(string(s.Reference))))
	p.line("Strata OR: odds ratio within risk strata, by Mantel and Haenszel. p: Fisher's exact test; Holm: adjusted for all of these.")
	p.line("Rates by stratum, by grade within strata and by period are in the CSV and JSON forms.")
}

// name is the label of an id, empty for none.
func (p *printer) name(id string) string {
	if id == "" {
		return ""
	}
	return p.label(id)
}

func orDash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

// complications prints one table for each, with its comparisons.
func (p *printer) complications(r *Result) {
	stratified := map[[2]string]StratifiedRow{}
	for _, row := range r.Stratified {
		stratified[[2]string{row.Complication, row.Technique}] = row
	}
	if len(r.Complications) == 0 {
		p.line("\nNo complication stands in the logbook.")
	}
	overall := map[string]OverallRow{}
	for _, row := range r.Overall {
		overall[row.Complication] = row
	}
	for i := 0; i < len(r.Complications); {
		id := r.Complications[i].Complication
		table := newLayout("", "n/N", "%", "95 %", "points", "95 %", "p", "Holm", "strata OR", "95 %")
		var warnings []string
		for ; i < len(r.Complications) && r.Complications[i].Complication == id; i++ {
			row := r.Complications[i]
			s := stratified[[2]string{id, row.Technique}]
			table.add(p.comparison(row, s)...)
			if text := p.warning(s); text != "" {
				warnings = append(warnings, text)
			}
		}
		p.line("\n%s", strings.ToUpper(p.label(id)))
		p.out.WriteString(table.String())
		if row, ok := overall[id]; ok {
			p.line("  All techniques together: p %s (%s)", pValue(row.P), row.Method)
		}
		for _, text := range warnings {
			p.line("  ! %s", text)
		}
	}
}

func (p *printer) comparison(row ComplicationRow, s StratifiedRow) []string {
	n := p.threshold
	cells := []string{p.label(row.Technique), row.Events.Text(n) + "/" + row.Operations.Text(n),
		percent(row.Rate.Rate), span(row.Interval.Low, row.Interval.High, percent)}
	if row.Difference == nil {
		return append(cells, "reference")
	}
	d := row.Difference
	cells = append(cells, points(d.Value), span(d.Low, d.High, points), pValue(row.FisherP), pValue(row.HolmP))
	switch {
	case s.OddsRatioBetween != nil:
		b := s.OddsRatioBetween
		return append(cells, "hidden", span(b.Low, b.High, ratioText)+" *")
	case s.Note != "" && !s.OddsRatio.Value.Defined():
		return append(cells, "-")
	}
	return append(cells, ratioText(s.OddsRatio.Value), span(s.OddsRatio.Low, s.OddsRatio.High, ratioText))
}

// warning is what must be said beside a comparison.
func (p *printer) warning(s StratifiedRow) string {
	switch {
	case s.Reversal:
		return p.label(s.Technique) + ": crude and within strata point in opposite ways: do not read the crude figure without the case mix."
	case s.Note != "" && s.OddsRatioBetween == nil:
		return p.label(s.Technique) + ": " + string(s.Note) + "."
	case s.StrataDisagree:
		return p.label(s.Technique) + ": the strata do not agree with one another; one pooled figure hides that."
	}
	return ""
}

// units prints the units against their common rate, and names those outside.
func (p *printer) units(r *Result) {
	if len(r.Limits) > 0 {
		table := newLayout("", "n/N", "%", "95 % limits", "99.8 % limits", "")
		for _, row := range r.Limits {
			table.add(row.Unit, row.Events.Text(p.threshold)+"/"+row.Operations.Text(p.threshold), percent(row.Rate),
				span(row.Low95, row.High95, percent), span(row.Low998, row.High998, percent), outside(row))
		}
		p.line("\nUNITS, ANY COMPLICATION, against their common rate of %s %%", percent(r.Limits[0].Target))
		p.out.WriteString(table.String())
	}
	for _, row := range r.LimitsByComplication {
		if text := outside(row); text != "" {
			p.line("  ! Unit %s, %s: %d/%d is %s", row.Unit, p.label(string(row.Complication)), row.Events.N, row.Operations.N, text)
		}
	}
}

func outside(row LimitRow) string {
	switch {
	case row.Outside998 != nil && *row.Outside998:
		return "outside 99.8 %"
	case row.Outside != nil && *row.Outside:
		return "outside 95 %"
	}
	return ""
}

// percent prints a proportion as a percentage, to one decimal, below 1 % to two.
func percent(n Number) string {
	v := 100 * float64(n)
	switch {
	case !n.Defined():
		return "-"
	case v != 0 && math.Abs(v) < 0.995:
		return strconv.FormatFloat(v, 'f', 2, 64)
	}
	return strconv.FormatFloat(v, 'f', 1, 64)
}

// points prints a difference of proportions with its sign.
func points(n Number) string {
	if text := percent(n); n > 0 {
		return "+" + text
	} else {
		return text
	}
}

func ratioText(n Number) string {
	if !n.Defined() {
		return "-"
	}
	return strconv.FormatFloat(float64(n), 'f', 2, 64)
}

func span(low, high Number, form func(Number) string) string {
	if !low.Defined() || !high.Defined() {
		return ""
	}
	return form(low) + " to " + form(high)
}

func pValue(n Number) string {
	switch {
	case !n.Defined():
		return ""
	case n < 0.001:
		return "<0.001"
	}
	return strconv.FormatFloat(float64(n), 'f', 3, 64)
}

// layout is a table for a terminal: the first column to the left, the others to
// the right under their heads.
type layout struct{ rows [][]string }

func newLayout(heads ...string) *layout { return &layout{rows: [][]string{heads}} }

func (l *layout) add(cells ...string) { l.rows = append(l.rows, cells) }

func (l *layout) String() string {
	width := make([]int, len(l.rows[0]))
	for _, row := range l.rows {
		for i, c := range row {
			width[i] = max(width[i], utf8.RuneCountInString(c))
		}
	}
	var out strings.Builder
	for _, row := range l.rows {
		var line strings.Builder
		for i, c := range row {
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(c))
			if i == 0 {
				line.WriteString("  " + c + pad)
			} else {
				line.WriteString("  " + pad + c)
			}
		}
		out.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	return out.String()
}
