package caption

import (
	_ "embed" // the page
	"fmt"
	"html/template"
	"io"
	"slices"

	"caseleaf/content/term"
)

//go:embed review.html
var reviewPage string

var reviewTemplate = template.Must(template.New("review").Funcs(template.FuncMap{
	"clock":   clock,
	"percent": func(x float64) string { return fmt.Sprintf("%.0f", 100*x) },
}).Parse(reviewPage))

// reviewRow is a cue with its corrections.
type reviewRow struct {
	ReadCue
	StepLabel   string // set on the first cue of a step
	Sure        float64
	Corrections []reviewChange
}

type reviewChange struct {
	Correction
	Label string
}

// WriteReview writes a page by itself, without script or anything outside it,
// on which heard and read stand side by side with confidence and a box to
// tick, on screen or on paper.
func WriteReview(out io.Writer, r Report, v *term.Vocabulary) error {
	rows := make([]reviewRow, 0, len(r.Cues))
	for _, c := range r.Cues {
		row := reviewRow{ReadCue: c}
		for _, x := range r.Corrections {
			if x.Cue == c.Index {
				row.Corrections = append(row.Corrections, reviewChange{x, label(v, x.Term)})
			}
		}
		if k := slices.IndexFunc(r.Steps, func(s StepStart) bool { return s.Cue == c.Index }); k >= 0 {
			row.StepLabel, row.Sure = label(v, r.Steps[k].Term), r.Steps[k].Confidence
		}
		rows = append(rows, row)
	}
	applied := 0
	for _, c := range r.Corrections {
		if c.Applied {
			applied++
		}
	}
	return reviewTemplate.Execute(out, map[string]any{
		"Rows": rows, "Applied": applied, "Proposed": len(r.Corrections) - applied, "Steps": len(r.Steps),
		"Events": r.Events, "Removed": removedByClass(r.Removed), "Candidates": r.Candidates,
		"Label": func(id string) string { return label(v, id) },
	})
}

func label(v *term.Vocabulary, id string) string {
	if t, ok := v.Get(id); ok {
		return t.Label
	}
	return id
}

// classCount is how often a class of identifier was taken out, and where.
type classCount struct {
	Class string
	Count int
	Cues  []int
}

func removedByClass(removed []Removed) []classCount {
	var out []classCount
	for _, r := range removed {
		k := slices.IndexFunc(out, func(c classCount) bool { return c.Class == r.Class })
		if k < 0 {
			out = append(out, classCount{Class: r.Class})
			k = len(out) - 1
		}
		out[k].Count++
		if !slices.Contains(out[k].Cues, r.Cue) {
			out[k].Cues = append(out[k].Cues, r.Cue)
		}
	}
	slices.SortFunc(out, func(a, b classCount) int {
		if a.Class < b.Class {
			return -1
		}
		return 1
	})
	return out
}
