package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
	"caseleaf/content/term"

	"gopkg.in/yaml.v3"
)

var (
	kitTerm       = termOf(term.Instrument, term.Device, term.Material, term.Drug)
	stepTerm      = termOf(term.Step)
	eventTerm     = termOf(term.Complication)
	techniqueTerm = termOf(term.Technique, term.Procedure)
	gradeWord     = oneOf(Grades()...)
)

func place[T any](at func(*T) *diagnose.Span) func(*T) *diagnose.Span { return at }

// measuresField is a mapping from measure terms to values with their units.
func measuresField[T any](doc string, at func(*T) *[]Measured) field[T] {
	return field[T]{
		key: "measures", doc: doc, expect: "measures and their values",
		schema: func(v *term.Vocabulary) schemaObject {
			return schemaObject{
				"type":                 "object",
				"propertyNames":        schemaObject{"enum": idsOf(v, []term.Kind{term.Measure})},
				"additionalProperties": schemaObject{"type": []string{"string", "number"}},
			}
		},
		read: func(r *reader, key, n *yaml.Node, into *T) {
			if !isEmpty(n) {
				*at(into) = readMeasures(r, n)
			}
		},
	}
}

var caseFields = &shape[Case]{
	name: "a case",
	doc:  "One operation made into teaching material.",
	fields: []field[Case]{
		must(like(one("case", "id of the case; its file is called the same in lower case", identifier, func(c *Case) *Given[string] { return &c.ID }), "HB-007")),
		must(like(one("title", "what happened, in a few words", text, func(c *Case) *Given[string] { return &c.Title }), "Small pupil, floppy iris")),
		like(one("summary", "one or two sentences a resident remembers", text, func(c *Case) *Given[string] { return &c.Summary }), "Ask about alpha-blockers before the list, not at the table."),
		must(like(one("procedure", "the operation", termOf(term.Procedure), func(c *Case) *Given[string] { return &c.Procedure }), "phacoemulsification")),
		must(like(one("technique", "how it was done; tables compare techniques", techniqueTerm, func(c *Case) *Given[string] { return &c.Technique }), "divide-and-conquer")),
		like(one("surgeon", "training grade of the surgeon", gradeWord, func(c *Case) *Given[Grade] { return &c.Surgeon }), "trainee"),
		like(one("experience", "how many such operations a surgeon in training had done before, as a round number", text, func(c *Case) *Given[string] { return &c.Experience }), "about 40"),
		like(one("eye", "the side operated on", oneOf("right", "left"), func(c *Case) *Given[string] { return &c.Eye }), "right"),
		like(one("anaesthesia", "how the eye was made comfortable", termOf(term.Technique), func(c *Case) *Given[string] { return &c.Anaesthesia }), "sub-tenon-block"),
		like(one("position", "how the patient lay and where the surgeon sat", text, func(c *Case) *Given[string] { return &c.Position }), "Flat on the back, surgeon at the temple"),
		group("patient", "as much of the patient as may be published", func() *shape[Patient] { return patientFields }, func(c *Case) *Patient { return &c.Patient }),
		group("cataract", "the lens before the operation", func() *shape[Cataract] { return cataractFields }, func(c *Case) *Cataract { return &c.Cataract }),
		measuresField("measurements of the eye and the plan, by measure term", func(c *Case) *[]Measured { return &c.Measures }),
		one("plan", "what was planned", text, func(c *Case) *Given[string] { return &c.Plan }),
		one("backup_plan", "what was ready if the plan failed", text, func(c *Case) *Given[string] { return &c.BackupPlan }),
		like(one("complaint", "what the patient came with, feared and hoped for, and why that was reason to operate", text, func(c *Case) *Given[string] { return &c.Complaint }), "Glare at night; afraid of giving up driving"),
		one("history", "history that bears on the operation", text, func(c *Case) *Given[string] { return &c.History }),
		one("examination", "what was looked for before, and found or not", text, func(c *Case) *Given[string] { return &c.Examination }),
		like(one("diagnosis", "how the diagnosis was reached: what else was considered, what made it hard", text, func(c *Case) *Given[string] { return &c.Diagnosis }), "Macula checked first, since the lens alone did not explain the acuity"),
		groups("kit", "what was used or stood ready", func() *shape[KitItem] { return kitFields }, func(c *Case) *[]KitItem { return &c.Kit }),
		one("clock_frame", "what clock hours are counted in: the surgeon's view (default) or anatomy", oneOf("surgeon", "anatomical"), func(c *Case) *Given[string] { return &c.ClockFrame }),
		group("recording", "where the recording ends and was cut", func() *shape[Recording] { return recordingFields }, func(c *Case) *Recording { return &c.Recording }),
		groups("clips", "short pieces of the recording, beside the case", func() *shape[Clip] { return clipFields }, func(c *Case) *[]Clip { return &c.Clips }),
		timelineField(),
		group("outcome", "what came of it", func() *shape[Outcome] { return outcomeFields }, func(c *Case) *Outcome { return &c.Outcome }),
		like(one("tolerance", "how the operation and the treatment afterwards were borne, and how that was asked", text, func(c *Case) *Given[string] { return &c.Tolerance }), "Pain 2 of 10 when asked in recovery; used every drop"),
		like(one("perspective", "what the patient said of it, told so that nobody can be known by it", text, func(c *Case) *Given[string] { return &c.Perspective }), "Had been told what the lights would look like and was glad of it"),
		many("lessons", "one to four sentences a resident would remember", text, func(c *Case) *[]Given[string] { return &c.Lessons }),
		many("alternatives", "what another surgeon might have done, with its cost", text, func(c *Case) *[]Given[string] { return &c.Alternatives }),
		one("limits", "what this case can't show", text, func(c *Case) *Given[string] { return &c.Limits }),
		many("related", "ids of other cases", identifier, func(c *Case) *[]Given[string] { return &c.Related }),
		groups("sources", "where statements come from", func() *shape[Reference] { return referenceFields }, func(c *Case) *[]Reference { return &c.Sources }),
		like(one("interests", "conflicts of interest of those who made the case, or none", text, func(c *Case) *Given[string] { return &c.Interests }, None), "none"),
		like(one("shown", "where the recording was shown before, without names, or none", text, func(c *Case) *Given[string] { return &c.Shown }, None), "none"),
		group("release", "the attestation without which the case is held back", func() *shape[Release] { return releaseFields }, func(c *Case) *Release { return &c.Release }),
		exceptionsField(func(c *Case) *[]PrivacyException { return &c.Exceptions }),
	},
	place: place(func(c *Case) *diagnose.Span { return &c.Span }),
	check: checkCase,
}

var patientFields = &shape[Patient]{
	name: "patient", doc: "As much of the patient as may be published.",
	fields: []field[Patient]{
		like(one("age_band", "ten-year band", ageBand, func(p *Patient) *Given[string] { return &p.AgeBand }), "70-79"),
		like(one("sex", "as recorded", oneOf("male", "female", "other"), func(p *Patient) *Given[string] { return &p.Sex }), "male"),
		like(many("risks", "risk factors", termOf(term.RiskFactor), func(p *Patient) *[]Given[string] { return &p.Risks }), "small-pupil"),
	},
}

var cataractFields = &shape[Cataract]{
	name: "cataract", doc: "The lens before the operation.",
	fields: []field[Cataract]{
		like(one("type", "kind of cataract", termOf(term.CataractType), func(c *Cataract) *Given[string] { return &c.Type }), "nuclear-cataract"),
		like(many("grade", "LOCS III grade", lensGrade, func(c *Cataract) *[]Given[measure.LensGrade] { return &c.Grades }), "NO4"),
	},
}

var kitFields = &shape[KitItem]{
	name: "a kit item", doc: "One thing that was used or stood ready.",
	fields: []field[KitItem]{
		must(like(one("item", "instrument, device, material or drug", kitTerm, func(k *KitItem) *Given[string] { return &k.Item }), "iris-hooks")),
		like(one("count", "how many", whole(1, 1000, "a count"), func(k *KitItem) *Given[int] { return &k.Count }), "4"),
		like(one("strength", "concentration as used", concentration, func(k *KitItem) *Given[measure.Concentration] { return &k.Strength }), "0.06 %"),
		like(one("size", "size or gauge as printed on the pack", text, func(k *KitItem) *Given[string] { return &k.Size }), "2.4 mm"),
		one("note", "anything else", text, func(k *KitItem) *Given[string] { return &k.Note }),
	},
	place: place(func(k *KitItem) *diagnose.Span { return &k.Span }),
}

var recordingFields = &shape[Recording]{
	name: "recording", doc: "Where the recording ends and was cut.",
	fields: []field[Recording]{
		like(one("ends", "end of the last step", videoTime, func(c *Recording) *Given[measure.Time] { return &c.Ends }), "14:20"),
		like(many("cuts", "times at which it was cut; durations across them are not computed", videoTime, func(c *Recording) *[]Given[measure.Time] { return &c.Cuts }), "9:02"),
		like(one("own", "where readers find their own copy of it; it is opened on their device and is no part of the handout", text, func(c *Recording) *Given[string] { return &c.Own }), "On the teaching computer of the eye unit"),
	},
}

var referenceFields = &shape[Reference]{
	name: "a source", doc: "One entry of a list of sources.",
	fields: []field[Reference]{
		must(one("text", "the reference, or: Common practice; no source", text, func(c *Reference) *Given[string] { return &c.Text })),
		like(one("doi", "digital object identifier", doi, func(c *Reference) *Given[string] { return &c.DOI }), "10.5555/12345678"),
		like(one("url", "address, https only", webAddress, func(c *Reference) *Given[string] { return &c.URL }), "https://doi.org/10.5555/12345678"),
	},
	place: place(func(c *Reference) *diagnose.Span { return &c.Span }),
}
