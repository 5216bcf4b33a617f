package tally

import (
	"math"
	"strconv"

	"caseleaf/content/measure"
)

// cases prints what the written-up cases tell.
func (p *printer) cases(r *Result) {
	if r.Source.Cases == 0 {
		return
	}
	p.line("\nFROM %d CASES, chosen because they teach: counts and times, never rates", r.Source.Cases)
	p.onsets(r)
	p.delays(r)
	p.durations(r)
	p.choices(r)
}

func (p *printer) onsets(r *Result) {
	if len(r.Onsets) == 0 {
		return
	}
	table := newLayout("Where it began", "cases", "")
	for _, row := range r.Onsets {
		step := p.name(string(row.Step))
		if step == "" {
			step = "(not told)"
		}
		table.add(p.label(row.Complication)+", "+step, strconv.Itoa(row.Count))
	}
	p.line("")
	p.out.WriteString(table.String())
}

func (p *printer) delays(r *Result) {
	if len(r.Delays) == 0 {
		return
	}
	table := newLayout("Delays: median (quartiles), n", "began to noticed", "noticed to acted")
	for _, row := range r.Delays {
		table.add(p.label(row.Complication), spreadText(row.BeganNoticed), spreadText(row.NoticedActed))
	}
	p.line("")
	p.out.WriteString(table.String())
}

func (p *printer) durations(r *Result) {
	if len(r.Durations) == 0 {
		return
	}
	table := newLayout("How long steps took: median (quartiles), n", "", "not told")
	for _, row := range r.Durations {
		table.add(p.label(row.Step)+", "+orDash(p.name(string(row.Technique))), spreadText(row.Spread), strconv.Itoa(row.Untold))
	}
	p.line("")
	p.out.WriteString(table.String())
}

// choices prints each decision with its options and what came of them.
func (p *printer) choices(r *Result) {
	var last point
	for i, row := range r.Choices {
		at := point{row.Decision, row.Case, row.Question}
		if i == 0 || at != last {
			p.line("\n  %s", p.question(row))
			last = at
		}
		p.line("    %d of %d chose %s%s", row.Chosen, row.Met, row.Option, cameOf(r.Decisions, row))
	}
}

func (p *printer) question(row ChoiceRow) string {
	if row.Decision != "" {
		return row.Question + " [" + string(row.Decision) + "]"
	}
	return row.Question + " [" + string(row.Case) + "]"
}

// cameOf lists what followed an option, as far as the cases tell.
func cameOf(outcomes []OutcomeRow, choice ChoiceRow) string {
	text := ""
	for _, o := range outcomes {
		if o.Decision == choice.Decision && o.Case == choice.Case && o.Question == choice.Question &&
			o.Option == choice.Option && o.CameOf != "" {
			text += ", " + string(o.CameOf) + " " + strconv.Itoa(o.Count)
		}
	}
	if text == "" {
		return ""
	}
	return ":" + text[1:]
}

// spreadText prints a median with its quartiles, which few times do not have.
func spreadText(s Spread) string {
	if s.N == 0 {
		return "-"
	}
	clock := func(n Number) string { return measure.Duration(math.Round(float64(n))).String() }
	text := clock(s.Median)
	if s.N >= fewestForQuartiles {
		text += " (" + clock(s.Lower) + " to " + clock(s.Upper) + ")"
	}
	return text + ", n=" + strconv.Itoa(s.N)
}

// fewestForQuartiles is the fewest times of which quartiles are printed.
const fewestForQuartiles = 4
