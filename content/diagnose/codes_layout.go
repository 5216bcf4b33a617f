package diagnose

// layoutCodes are faults in the layout of front matter: blanks, indents, colons,
// lists and brackets.
var layoutCodes = []Explanation{
	{
		Code: "tab", Title: "a tab where a space must be", File: inCase,
		Meaning: "A tab looks like several spaces, and how many depends on the editor, so lines that seem to stand below one another do not. " +
			"Put spaces there. Most editors can be told to write spaces when Tab is pressed.",
		Wrong: "patient:\n\tage_band: 70-79",
		Right: "patient:\n  age_band: 70-79",
	},
	{
		Code: "odd-space", Title: "a space that is none", File: inCase,
		Meaning: "Text copied from a web page or a word processor often holds no-break spaces and signs that cannot be seen. They look right, " +
			"but at the head of a line, around a colon or in a key they make another word of it. Delete the blank and type a plain space. Inside " +
			"a sentence such a space is kept and does no harm.",
		Wrong: "eye:\u00a0right",
		Right: "eye: right",
	},
	{
		Code: "indent", Title: "a line is out of step", File: inCase,
		Meaning: "Lines that belong together begin in the same column, and what belongs to a key stands further right than the key. This line begins " +
			"somewhere between, or further right than anything it could belong to. Move it into step with its neighbours.",
		Wrong: "patient:\n  age_band: 70-79\n   sex: male",
		Right: "patient:\n  age_band: 70-79\n  sex: male",
	},
	{
		Code: "list-layout", Title: "an entry of a list without its hyphen, or a hyphen where none may be", File: inCase,
		Meaning: "Every entry of a list stands on a line of its own with one hyphen and one space before it, all in one column. A dash that a word " +
			"processor made of the hyphen, a star or a dot is no hyphen.",
		Wrong: "lessons:\n  - Ask before the list.\n  Have the hooks ready.",
		Right: "lessons:\n  - Ask before the list.\n  - Have the hooks ready.",
	},
	{
		Code: "space-after-hyphen", Title: "no space after a hyphen", File: inCase,
		Meaning: "Without the space the hyphen is part of the text, and the line is no entry of the list.",
		Wrong:   "lessons:\n  - Ask before the list.\n  -Have the hooks ready.",
		Right:   "lessons:\n  - Ask before the list.\n  - Have the hooks ready.",
	},
	{
		Code: "space-after-colon", Title: "no space after a colon", File: inCase,
		Meaning: "A key ends with a colon and a space. Without the space, key and value are one word, and the key is not there.",
		Wrong:   "eye:right",
		Right:   "eye: right",
	},
	{
		Code: "missing-colon", Title: "a key without its colon", File: inCase,
		Meaning: "Every line of front matter reads `key: value`. This one has no colon, or another sign in its place. If the line goes on with the " +
			"text above it, indent it further than the key of that text.",
		Wrong: "eye right",
		Right: "eye: right",
	},
	{
		Code: "colon-in-text", Title: "a colon inside unquoted text", File: inCase,
		Meaning: "A colon with a space after it ends a key. Where it belongs to a sentence, put the whole sentence in straight quotation marks. Inside " +
			"braces the cause may also be a comma that is missing before the next key.",
		Wrong: "title: One question: hooks or a ring",
		Right: "title: \"One question: hooks or a ring\"",
	},
	{
		Code: "comma-in-text", Title: "a comma inside unquoted text in brackets", File: inCase,
		Meaning: "Between braces { } and brackets [ ] a comma ends the text, so the rest of the sentence would be lost from it or become an entry of " +
			"its own. Put the text in straight quotation marks. In a list of short texts this is a warning, since two may be meant.",
		Wrong: "kit:\n  - {item: iris-hooks, note: on the tray, opened early}",
		Right: "kit:\n  - {item: iris-hooks, note: \"on the tray, opened early\"}",
	},
	{
		Code: "bracket", Title: "a bracket too many or too few", File: inCase,
		Meaning: "Every { needs its } and every [ its ], on the same line or on lines that are indented. A bracket that belongs to a text needs straight " +
			"quotation marks around the text.",
		Wrong: "patient: {age_band: 70-79, sex: male",
		Right: "patient: {age_band: 70-79, sex: male}",
	},
	{
		Code: "text-after-end", Title: "text after the end of a value", File: inCase,
		Meaning: "After a closing bracket or a closing quotation mark nothing but a comment may stand on the line. Either the end came too early or a " +
			"comma is missing.",
		Wrong: "patient: {age_band: 70-79} male",
		Right: "patient: {age_band: 70-79, sex: male}",
	},
	{
		Code: "complex-key", Title: "a key that is no plain word", File: inCase,
		Meaning: "Keys are single words. A line cannot begin with a question mark or a colon and a space, and brackets cannot be a key.",
		Wrong:   "? eye\n: right",
		Right:   "eye: right",
	},
	{
		Code: "layout", Title: "a layout that cannot be understood", File: inCase,
		Meaning: "The text could not be taken apart near this line, and none of the usual causes was found. Compare the line and its neighbours with a " +
			"case that works, or write the values on lines of their own instead of in braces.",
	},
	{
		Code: "too-deep", Title: "too many brackets or lists inside one another", File: inCase,
		Meaning: "Nothing that a bank holds needs a hundred lists or braces inside one another; such a file is refused before it can use up the " +
			"computer's memory. A bracket that opens again and again by mistake is the usual cause.",
		Wrong: "lessons: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[Ask early.]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]",
		Right: "lessons: [Ask early.]",
	},
}
