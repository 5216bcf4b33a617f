package content

import (
	"fmt"

	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
)

// Course is a wet lab: courses/*.yaml.
type Course struct {
	File   string
	Source *diagnose.Source
	Span   diagnose.Span

	ID         Given[string]
	Title      Given[string]
	Edition    Given[string]
	Period     Given[string]
	Language   Given[string]
	Rooms      []Given[string]
	Start      Given[DayTime]
	Changeover Given[measure.Duration]
	Breaks     []Break
	Plenary    []Plenary
	Groups     []Group
	Tutors     []Tutor
	Stations   []Station
	Placements []Placement
	Forbidden  []Placement
	Waves      Given[int]       // runs of the whole rotation, each with other participants
	WaveStarts []Given[DayTime] // when each wave starts, all on one day; else each has a day of its own
	Spares     Given[float64]   // per cent, for what is used up
	BenchOnly  []Given[string]  // terms: kit that no case has, on purpose
	LeftOut    []Given[string]  // terms: kit of the cases that no station has, on purpose
	Cautions   []Given[string]
	Exceptions []PrivacyException
}

// Break is a pause for everyone.
type Break struct {
	Span    diagnose.Span
	At      Given[DayTime]
	Minutes Given[int]
	Text    Given[string]
}

// Plenary is a part that everyone attends before the stations.
type Plenary struct {
	Span    diagnose.Span
	Minutes Given[int]
	Text    Given[string]
}

// Group is a set of participants who go round together, or a number of such
// sets that are named by letters.
type Group struct {
	Span  diagnose.Span
	Name  Given[string]
	Count Given[int]
	Size  Given[int]
}

// Tutor is a role, never a person.
type Tutor struct {
	Span  diagnose.Span
	Role  Given[string]
	Count Given[int]
}

// Station is one place of the rotation.
type Station struct {
	Span     diagnose.Span
	ID       Given[string]
	Title    Given[string]
	Minutes  Given[int]
	Room     Given[string]
	Tutor    Given[string]
	Cases    []Given[string] // case ids to read before
	Steps    []Given[string] // terms: step
	Tasks    []Given[string]
	Kit      []StationKit
	Setup    []Given[string]
	ClearUp  []Given[string]
	Cautions []Given[string]
	Checks   []Given[string] // how tutors check
}

// StationKit is one line of a station's kit.
type StationKit struct {
	Span     diagnose.Span
	Item     Given[string] // term: instrument, device, material or drug
	Count    Given[int]
	Per      Given[string] // station, group or participant
	Size     Given[string]
	Volume   Given[measure.Volume]        // of each, at its working strength
	Strength Given[measure.Concentration] // working strength
	Stock    Given[measure.Concentration] // strength as bought
	Diluent  Given[string]                // term: what the stock is diluted with
	Carried  Given[bool]                  // taken along from station to station
	Spare    Given[float64]               // per cent
	Pack     Given[int]                   // sold in packs of
	Vial     Given[measure.Volume]        // what one as bought holds
	Note     Given[string]
}

// Placement fixes or forbids a group at a station in a round.
type Placement struct {
	Span    diagnose.Span
	Group   Given[string]
	Station Given[string]
	Round   Given[int]
}

// DayTime is a time of day in minutes after midnight; a course carries no date.
type DayTime int

// String gives the time as 09:30.
func (t DayTime) String() string { return fmt.Sprintf("%02d:%02d", t/60, t%60) }
