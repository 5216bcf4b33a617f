package diagnose

// quoteCodes are faults in texts: quotation marks, comments, and signs that YAML
// keeps for itself.
var quoteCodes = []Explanation{
	{
		Code: "curly-quotes", Title: "curly quotation marks do not quote", File: inCase,
		Meaning: "Word processors and phones write “curly” marks. They are letters of the text, not marks around it: a colon, a comma or # between them is " +
			"not protected. Put straight marks around the text; curly ones inside straight ones are kept as they are.",
		Wrong: "title: “Hooks: yes or no?”",
		Right: "title: \"Hooks: yes or no?\"",
	},
	{
		Code: "quote-inside", Title: "a quotation mark inside a quoted text ends it", File: inCase,
		Meaning: "An apostrophe ends a text in single marks, an inch mark ends one in double marks. Use the other sort of marks around the text, or " +
			"double the apostrophe, or write \\\" for the double mark.",
		Wrong: "plan: 'The surgeon's choice of hooks'",
		Right: "plan: \"The surgeon's choice of hooks\"",
	},
	{
		Code: "quote-not-closed", Title: "a quoted text without an end", File: inCase,
		Meaning: "The mark at the beginning has no partner before the next key. Everything up to the next mark, wherever it stands, would belong to this text.",
		Wrong:   "title: \"Small pupil, floppy iris",
		Right:   "title: \"Small pupil, floppy iris\"",
	},
	{
		Code: "quote-unpaired", Title: "a quotation mark only at the end", File: inCase,
		Meaning: "The text ends with a mark but does not begin with one, so the mark would be shown. Take it away, or add the one at the beginning.",
		Wrong:   "title: Small pupil and floppy iris\"",
		Right:   "title: \"Small pupil and floppy iris\"",
	},
	{
		Code: "backslash", Title: "a backslash inside double quotation marks", File: inCase,
		Meaning: "Inside double marks a backslash and the letter after it are a code for some other character. Write two backslashes, or use single marks.",
		Wrong:   "plan: \"Drawn in C:\\plans\"",
		Right:   "plan: 'Drawn in C:\\plans'",
	},
	{
		Code: "comment-in-text", Title: "a comment that swallows the rest of a text", File: inCase,
		Meaning: "From a # after a blank on, the line is a comment and would vanish. Put the whole text in straight quotation marks. A remark that is meant " +
			"as a comment needs two spaces before the # and one after it.",
		Wrong: "title: Stuck quadrant #3 after chop",
		Right: "title: \"Stuck quadrant #3 after chop\"  # the third of four",
	},
	{
		Code: "reserved-start", Title: "a text that begins with a sign YAML keeps for itself", File: inCase,
		Meaning: "A text cannot begin with @ % ` & * ! | > or a closing bracket, and inside brackets no question mark can stand in it, unless it is in " +
			"straight quotation marks.",
		Wrong: "plan: > 5 mm or hooks",
		Right: "plan: \"> 5 mm or hooks\"",
	},
	{
		Code: "anchor", Title: "anchors and aliases", File: inCase,
		Meaning: "YAML can name a part with &name and repeat it with *name. A bank does not take this: a few lines of it can unfold to gigabytes, and a " +
			"reader of the file does not see what it says. Write the text out. A text that begins with & or * needs quotation marks.",
		Wrong: "lessons: &told\n  - Ask before the list.\nalternatives: *told",
		Right: "lessons:\n  - Ask before the list.",
	},
	{
		Code: "tag", Title: "a type, marked by an exclamation mark", File: inCase,
		Meaning: "An exclamation mark at the beginning of a value marks its type in YAML; a bank needs none. Put the text in straight quotation marks.",
		Wrong:   "plan: !important Hooks on the tray",
		Right:   "plan: \"!important Hooks on the tray\"",
	},
	{
		Code: "merge-key", Title: "keys copied from elsewhere", File: inCase,
		Meaning: "The key << copies the keys of another mapping. A bank does not take this, since the file would not show what it says. Write the keys out.",
		Wrong:   "patient: {<<: {age_band: 70-79}, sex: male}",
		Right:   "patient: {age_band: 70-79, sex: male}",
	},
	{
		Code: "duplicate-key", Title: "a key given twice", File: inCase,
		Meaning: "Both lines cannot be right, and neither is chosen: the second would silently replace what the first says. Keep one, or put both " +
			"values under it if it takes a list.",
		Wrong: "eye: right\neye: left",
		Right: "eye: right",
	},
	{
		Code: "repeated-entry", Title: "an entry that stands twice in one list", File: inCase,
		Meaning: "Two entries are the same, word for word, so one was probably copied and forgotten. Take one out, or change it into what was meant.",
		Wrong:   "lessons:\n  - Ask before the list.\n  - Ask before the list.",
		Right:   "lessons:\n  - Ask before the list.",
	},
}
