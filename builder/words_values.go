package builder

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"caseleaf/content"
	"caseleaf/content/measure"
)

// Values that have words in them, in the language of the page. Units are not among them: mm,
// s, min and the like are symbols and the same in every language.

// arc is a stretch of clock hours, clockwise.
func (w *words) arc(a measure.Arc) string {
	hours := math.Round(a.Hours()*10) / 10
	switch {
	case a.Whole:
		return w.say("draw-arc-whole")
	case hours == 1:
		return w.say("draw-arc-one", a.From.String(), a.To.String())
	}
	return w.say("draw-arc", a.From.String(), a.To.String(), strconv.FormatFloat(hours, 'f', -1, 64))
}

// period is how long after the operation something was, as its author told it.
func (w *words) period(p measure.Period) string {
	if p.Unit < measure.Hours || p.Unit > measure.Years {
		return ""
	}
	return w.say("period-"+[...]string{"hours", "days", "weeks", "months", "years"}[p.Unit], p.Count)
}

// acuity is an acuity as it was written down; what is no number is spelt out.
func (w *words) acuity(a measure.Acuity) string {
	switch a.Kind {
	case measure.CountingFingers:
		if a.Distance > 0 {
			return w.say("draw-cf-at", strconv.FormatFloat(math.Round(a.Distance*100)/100, 'f', -1, 64))
		}
		return w.say("draw-cf-full")
	case measure.HandMovements:
		return w.say("draw-hm-full")
	case measure.LightPerception:
		return w.say("draw-lp-full")
	case measure.NoLightPerception:
		return w.say("draw-nlp-full")
	}
	return a.Words()
}

// role is what a tutor is called: the word for a grade, or what the author wrote.
func (w *words) role(name string) string {
	if slices.Contains(content.Grades(), content.Grade(name)) {
		return w.grade(content.Grade(name))
	}
	return name
}

// nth is a role with its number, where a course has several.
func (w *words) nth(role string, n int) string { return fmt.Sprintf("%s %d", w.role(role), n) }

// pooledKeys are the keys of what a table says where there is no pooled figure. The table's
// own words go into CSV files, which are read by programs.
var pooledKeys = map[string]string{
	"the logbook names no risk strata":                                       "pooled-no-strata",
	"no stratum has operations by both techniques":                           "pooled-none-both",
	"no event in a stratum with both techniques":                             "pooled-no-events",
	"in the strata with both, every event came with one technique: no ratio": "pooled-one-sided",
}

// note is why there is no pooled figure, or the table's own words where they are new.
func (w *words) note(text string) string {
	if key, ok := pooledKeys[text]; ok {
		return w.say(key)
	}
	return text
}
