package diagnose

// formCodes are values and keys that are not of the form asked for.
var formCodes = []Explanation{
	{
		Code: "unknown-key", Title: "a key that is not known here", File: inCase,
		Meaning: "Most often a slip of spelling, or a key that belongs further in or further out. It is an error, not passed over, since what stands " +
			"under it would silently be missing from the page. `caseleaf schema` lists the keys for an editor.",
		Wrong: "tehcnique: stop-and-chop",
		Right: "technique: stop-and-chop",
	},
	{
		Code: "missing-key", Title: "something that must be given", File: inCase,
		Meaning: "Without this the page could not say what the case is, or could not be published. Keys that are not needed are never asked for: leave out " +
			"what is not known.",
		Wrong: "kit:\n  - {count: 4}",
		Right: "kit:\n  - {item: iris-hooks, count: 4}",
	},
	{
		Code: "to-do", Title: "a value still to be filled in", File: inCase,
		Meaning: "A draft marks with TODO what only its author knows. The value counts as not given until it is written; a key that is not needed can be " +
			"taken out instead.",
		Wrong: "summary: TODO",
		Right: "summary: Let the pressure down before you push iris back.",
	},
	{
		Code: "wrong-kind", Title: "a list where a text is asked for, or the like", File: inCase,
		Meaning: "The value has another shape than the key takes: one text, a list (each entry with a hyphen, or all in [ ]), or keys and values (on " +
			"indented lines, or in { }).",
		Wrong: "patient: 70-79",
		Right: "patient: {age_band: 70-79}",
	},
	{
		Code: "bad-value", Title: "a value that is not of its form", File: inCase,
		Meaning: "The message says which form or which words are expected, with an example: a length is 2.4 mm, an age 70-79, a year 2026.",
		Wrong:   "patient: {age_band: 73}",
		Right:   "patient: {age_band: 70-79}",
	},
	{
		Code: "bad-time", Title: "a time that is not written as one", File: inCase,
		Meaning: "A time of the recording is minutes, a colon and two digits of seconds, 4:12, or with hours 1:02:03. A point would leave open whether " +
			"minutes and seconds or a decimal are meant, and a bare number whether it counts seconds or minutes. A link to the strip reads time:4:12.",
		Wrong: "timeline:\n  - {at: 4.12, step: capsulorhexis}",
		Right: "timeline:\n  - {at: 4:12, step: capsulorhexis}",
	},
	{
		Code: "bad-id", Title: "an id that cannot be one", File: inCase,
		Meaning: "An id becomes the name of a page, which must be good on every computer: letters, digits, hyphens and full stops, none of the names that " +
			"Windows keeps for itself, no full stop at the end.",
		Wrong: "case: HB/001",
		Right: "case: HB-001",
	},
	{
		Code: "bad-term", Title: "a term of terms.yaml that cannot be added", File: inTerms,
		Meaning: "A term of the bank's own needs an id that is not taken, a kind, a label, and parents and steps that exist.",
		Wrong:   "terms:\n  - {id: gauge-ring, kind: device}\n",
		Right:   "terms:\n  - {id: gauge-ring, kind: device, label: Gauge ring}\n",
	},
	{
		Code: "entry-kind", Title: "an entry that is not exactly one thing", File: inCase,
		Meaning: "An entry of the timeline is a step, an event, a finding or a decision, and exactly one of them. What happened in the same second is " +
			"written as two entries with the same time. In a decision, a node is an end, a chance or a further decision.",
		Wrong: "timeline:\n  - {at: 0:40, step: main-incision, event: iris-prolapse}",
		Right: "timeline:\n  - {at: 0:40, step: main-incision}\n  - {at: 0:40, event: iris-prolapse}",
	},
}
