package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
)

// Timeline is what happened, in the order of the recording.
type Timeline struct {
	Entries []Entry
}

// Entry is one line of a timeline: exactly one of Step, Event, Finding and
// Decision is not nil.
type Entry struct {
	Span     diagnose.Span
	At       Given[measure.Time]
	Step     *Step
	Event    *Event
	Finding  *Finding
	Decision *DecisionPoint
}

// Step is a part of the operation that begins at the entry's time.
type Step struct {
	Term    Given[string] // term: step
	Until   Given[measure.Time]
	Place   Given[measure.ClockHour]
	Note    Given[string]
	Details *StepDetails // nil where none is given; see [Step.Detail]
}

// StepDetails is what few steps tell: sizes, and who did it how and with what.
type StepDetails struct {
	Width     Given[measure.Length]
	Length    Given[measure.Length]
	Diameter  Given[measure.Length]
	Pupil     Given[measure.Length]
	Extent    Given[measure.Arc]
	By        Given[Grade]
	Technique Given[string]
	Using     []Given[string]
	Measures  []Measured
}

// Detail returns the details of the step, to be read only; without any, all of them
// are absent.
func (s *Step) Detail() *StepDetails {
	if s.Details == nil {
		return &noDetails
	}
	return s.Details
}

var noDetails StepDetails

// Event is a complication: when it began, was noticed and was acted on.
type Event struct {
	Term    Given[string] // term: complication
	Began   Given[measure.Time]
	Noticed Given[measure.Time]
	Acted   Given[measure.Time] // None when nothing was done
	During  Given[string]       // term: step, where the times do not tell
	Sign    Given[string]       // the first sign: what was seen
	Extent  Given[measure.Arc]
	Spread  []Spread
	Cause   Given[string]
	Action  Given[string]
	Actions []Given[string] // terms: action
	Note    Given[string]
	Ask     Given[bool] // readers are asked for the sign before it is shown
}

// Spread is the extent of an event at a later time.
type Spread struct {
	Span   diagnose.Span
	At     Given[measure.Time]
	Extent Given[measure.Arc]
}

// Finding is something looked for, there or not.
type Finding struct {
	Term    Given[string]
	Present Given[bool]
	Place   Given[measure.ClockHour]
	Extent  Given[measure.Arc]
	Note    Given[string]
}

// DecisionPoint is a choice as it stood at one moment of an operation.
type DecisionPoint struct {
	Question Given[string]
	Point    Given[string] // id of the shared decision, where there is one
	Options  []Option
	Chosen   Given[string] // id of an option
	Because  Given[string]
	CameOf   Given[string] // chance branch of the shared decision that followed
	Result   Given[string] // what came of it, in words
}

// Option is one of the choices at a decision point.
type Option struct {
	Span    diagnose.Span
	ID      Given[string]
	Text    Given[string]
	For     Given[string]
	Against Given[string]
}

// ChosenOption returns the option that was chosen, or nil.
func (d *DecisionPoint) ChosenOption() *Option {
	for i := range d.Options {
		if d.Chosen.Known() && d.Options[i].ID.Value == d.Chosen.Value {
			return &d.Options[i]
		}
	}
	return nil
}
