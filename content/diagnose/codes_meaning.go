package diagnose

// meaningCodes are values of the right form that do not fit the rest.
var meaningCodes = []Explanation{
	{
		Code: "unknown-term", Title: "a term that the vocabulary does not hold", File: inCase,
		Meaning: "Tables can only count what has one name. The message offers the nearest term; the glossary of every handout lists all, " +
			"that of the demonstration too. A term of your own goes into terms.yaml.",
		Wrong: "technique: stop-and-chopp",
		Right: "technique: stop-and-chop",
	},
	{
		Code: "wrong-term-kind", Title: "a term of another kind", File: inCase,
		Meaning: "The term exists, but names something else than this key takes: a step is no complication, an instrument no technique. " +
			"A sign that was seen, or looked for and not seen, is a finding entry.",
		Wrong: "technique: iris-hooks",
		Right: "technique: stop-and-chop",
	},
	{
		Code: "unknown-id", Title: "an id that nothing has", File: inCase,
		Meaning: "It names a case, a decision, an option, a branch or a source that is not there. The message offers the nearest.",
		Wrong:   "related: [HB-999]",
		Right:   "related: [HB-002]",
	},
	{
		Code: "duplicate-id", Title: "one id for two things", File: inCase,
		Meaning: "Pages are named after ids, and tables count by them. Ids that differ only in capitals, or in how an accent is stored, would be one file on " +
			"many computers, and count as the same.",
		Wrong: "case: hb-002",
		Right: "case: HB-001",
	},
	{
		Code: "time-order", Title: "a time out of order", File: inCase,
		Meaning: "The entries of a timeline stand in the order in which they happened, and none after the end of the recording. Delays and durations are " +
			"computed from the times.",
		Wrong: "timeline:\n  - {at: 1:30, step: capsulorhexis}\n  - {at: 0:40, step: main-incision}",
		Right: "timeline:\n  - {at: 0:40, step: main-incision}\n  - {at: 1:30, step: capsulorhexis}",
	},
	{
		Code: "impossible-value", Title: "a value that cannot be", File: inCase,
		Meaning: "An arc cannot have fourteen clock hours, nothing can be noticed before it began, and a pupil of 52 mm is a slip of the point. " +
			"Correct it; if it is true after all, the message says what to do.",
		Wrong: "timeline:\n  - {at: 3:05, event: iris-prolapse, began: 3:05, noticed: 2:58}",
		Right: "timeline:\n  - {at: 3:05, event: iris-prolapse, began: 2:58, noticed: 3:05}",
	},
	{
		Code: "implausible-value", Title: "a value outside the plausible range", File: inCase,
		Meaning: "The value can be true, but is outside what is usually seen; the message gives the range. It is published as written. Look once more at " +
			"the unit and the point.",
		Wrong: "measures: {axial-length: 40 mm}",
		Right: "measures: {axial-length: 24.0 mm}",
	},
}
