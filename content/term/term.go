package term

import "slices"

// Kind says what sort of thing a term names. Its values are the words of the
// vocabulary file's kind column.
type Kind string

// The sixteen kinds.
const (
	Procedure    Kind = "procedure"
	Step         Kind = "step"
	Technique    Kind = "technique"
	Complication Kind = "complication"
	Sign         Kind = "sign"
	Action       Kind = "action"
	Instrument   Kind = "instrument"
	Device       Kind = "device"
	Material     Kind = "material"
	Drug         Kind = "drug"
	Anatomy      Kind = "anatomy"
	RiskFactor   Kind = "risk-factor"
	CataractType Kind = "cataract-type"
	Outcome      Kind = "outcome"
	Measure      Kind = "measure"
	Grade        Kind = "grade"
)

var kinds = []Kind{
	Procedure, Step, Technique, Complication, Sign, Action, Instrument, Device,
	Material, Drug, Anatomy, RiskFactor, CataractType, Outcome, Measure, Grade,
}

// Kinds lists every kind, in the order a glossary shows them.
func Kinds() []Kind { return slices.Clone(kinds) }

// Term is one entry of the vocabulary. Its slices belong to the vocabulary and
// must not be changed.
type Term struct {
	ID           string   // lower-case words joined by hyphens; unique
	Kind         Kind     //
	Label        string   // the name to print
	Synonyms     []string // other right names, either spelling
	Abbreviation string   // as written in notes; may be empty
	Mishearings  []string // what dictation software wrote instead; never a right name
	Parent       string   // id of the broader term, or empty
	Definition   string   // one sentence of plain English
	Steps        []string // ids of the steps where it can start, occur or be used
	Bench        bool     // for practice at the bench only, never in a patient
	Local        bool     // added by the bank rather than built in
}

// names calls yield with every right name of t and its rank: 0 for the id, 1
// the label, 2 the abbreviation, 3 a synonym. A lower rank wins a tie.
func (t Term) names(yield func(name string, rank int)) {
	yield(t.ID, 0)
	yield(t.Label, 1)
	if t.Abbreviation != "" {
		yield(t.Abbreviation, 2)
	}
	for _, s := range t.Synonyms {
		yield(s, 3)
	}
}
