package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
)

// Case is one operation made into teaching material: cases/*.md.
//
// Fields that name a term hold its id; [Bank.Term] gives the term.
type Case struct {
	File   string // path in the bank
	Source *diagnose.Source
	Span   diagnose.Span // the first key

	ID         Given[string]
	Title      Given[string]
	Summary    Given[string] // one or two sentences a resident remembers
	Procedure  Given[string] // term: procedure
	Technique  Given[string] // term: technique or procedure
	Surgeon    Given[Grade]
	Experience Given[string] // of a surgeon in training, before this operation
	Eye        Given[string] // right or left
	ClockFrame Given[string] // surgeon or anatomical
	Anaesthesia,
	Position, Complaint,
	Plan, BackupPlan, History, Examination, Diagnosis Given[string]

	Patient   Patient
	Cataract  Cataract
	Measures  []Measured
	Kit       []KitItem
	Recording Recording
	Clips     []Clip
	Timeline  Timeline
	Outcome   Outcome

	Tolerance   Given[string] // how the operation and the time after it were borne
	Perspective Given[string] // what the patient said of it

	Lessons      []Given[string]
	Alternatives []Given[string]
	Limits       Given[string]
	Related      []Given[string] // case ids
	Sources      []Reference
	Interests    Given[string] // of those who made the case; None when there are none
	Shown        Given[string] // where the recording was shown before; None when nowhere
	Release      Release
	Exceptions   []PrivacyException

	Body Body
}

// Grade is the training grade of whoever holds the instruments.
type Grade string

// The grades, in the order tables print them.
const (
	Trainee    Grade = "trainee"
	Fellow     Grade = "fellow"
	Consultant Grade = "consultant"
)

// Grades lists the grades in the order tables print them.
func Grades() []Grade { return []Grade{Trainee, Fellow, Consultant} }

// Patient is as much of the patient as may be published.
type Patient struct {
	AgeBand Given[string]   // ten-year band such as 70-79, or 90+
	Sex     Given[string]   // male, female or other
	Risks   []Given[string] // terms: risk-factor
}

// Cataract is the lens before the operation.
type Cataract struct {
	Type   Given[string]              // term: cataract-type
	Grades []Given[measure.LensGrade] // LOCS III, such as NO4
}

// Measured is one measurement: a term of kind measure and its value.
type Measured struct {
	Term  Given[string]
	Value Given[measure.Quantity]
}

// KitItem is one thing that was used or stood ready.
type KitItem struct {
	Span     diagnose.Span
	Item     Given[string] // term: instrument, device, material or drug
	Count    Given[int]
	Strength Given[measure.Concentration]
	Size     Given[string]
	Note     Given[string]
}

// Recording says where the recording ends and where it was cut.
type Recording struct {
	Ends Given[measure.Time]   // end of the last step
	Cuts []Given[measure.Time] // durations across a cut are not computed
	Own  Given[string]         // where readers have a copy of their own; it stays with them
}

// Outcome is what came of the operation.
type Outcome struct {
	Acuity         AcuityChange
	Capsule        Given[string]
	Lens           Given[string]
	Pressure       Pressure
	Later          []Given[string] // terms: complication, met after the operation
	FurtherSurgery Given[string]   // None when there was none
	Told           Given[bool]     // whether the patient was told
	FollowUp       Given[measure.Period]
	Note           Given[string] // such as: not seen since
}

// AcuityChange is acuity before the operation and at follow-up.
type AcuityChange struct{ Before, After Given[measure.Acuity] }

// Pressure is intraocular pressure after the operation.
type Pressure struct{ Day1 Given[measure.Quantity] }

// Reference is one entry of a list of sources.
type Reference struct {
	Span diagnose.Span
	Text Given[string]
	DOI  Given[string]
	URL  Given[string]
}

// Release is the attestation without which a case is held back.
type Release struct {
	Span              diagnose.Span
	Consent           Given[string] // recorded or not-required
	Reason            Given[string] // why consent is not required
	ReviewedBy        Given[Grade]
	Reviewed          Given[int]  // year
	Face              Given[bool] // a face is in a picture or clip
	TextInPictures    Given[bool]
	Sound             Given[string] // none, removed or reviewed
	OtherwiseFindable Given[bool]
}

// PrivacyException is one reviewed exception to the privacy check.
type PrivacyException struct {
	Span       diagnose.Span
	Class      Given[string]
	Where      Given[string]
	Match      Given[string]
	Count      Given[int]
	Kind       Given[string]
	Reason     Given[string]
	ReviewedBy Given[Grade]
	Reviewed   Given[int]
	Consent    Given[string]
}
