package diagnose

// storyCodes are faults in the Markdown below the front matter.
var storyCodes = []Explanation{
	{
		Code: "no-description", Title: "a picture without a description", File: inBody,
		Meaning: "Somebody who cannot see the picture hears its description read aloud; it is also what is left when the picture does not load. Say what " +
			"is to be seen, between the square brackets.",
		Wrong: "![](pupil.png)",
		Right: "![The pupil at the start, about 4 mm](pupil.png)",
	},
	{
		Code: "refused-link", Title: "an address that is not published", File: inBody,
		Meaning: "A handout works without a network and runs nothing from a text. Links may lead to https, http and mailto addresses and to files of the " +
			"bank; pictures come from the bank only. Everything else is left out, and its text is kept.",
		Wrong: "See [the film](file:///C:/films/case.mp4).",
		Right: "The film stays with the surgeon.",
	},
	{
		Code: "unknown-heading", Title: "a link to a heading that is not there", File: inBody,
		Meaning: "The part of the address after # names no heading of that page. Copy the heading's words, or its address from the finished page.",
		Wrong:   "## The rhexis\n\nSee [above](#the-rexis).",
		Right:   "## The rhexis\n\nSee [above](#the-rhexis).",
	},
	{
		Code: "link-not-read", Title: "a link or picture that is none", File: inBody,
		Meaning: "The brackets look like a link or a picture, but they are not one, and would be printed as they stand. A name with a space or a bracket in " +
			"it needs < > around it; a picture needs a name in round brackets; a name in a second pair of square brackets needs a line that gives its address.",
		Wrong: "![The pupil at the start](small pupil.png)",
		Right: "![The pupil at the start](<pupil.png>)",
	},
	{
		Code: "unused-address", Title: "an address that nothing uses", File: inBody,
		Meaning: "A line such as [ring]: hb-002.md gives the address of a link that stands elsewhere, and is not printed. Nothing in the story uses this " +
			"one. If the line is a sentence, begin it without the square brackets.",
		Wrong: "[ring]: hb-002.md",
		Right: "See [the other one][ring].\n\n[ring]: hb-002.md",
	},
	{
		Code: "missing-note", Title: "a note that is not there", File: inBody,
		Meaning: "A sign such as [^2] calls a footnote, which stands on a line of its own and begins with [^2]: and a space. Without it the sign is printed " +
			"as it stands.",
		Wrong: "The ring was used twice[^2].",
		Right: "The ring was used twice[^2].\n\n[^2]: Once for the hooks.",
	},
	{
		Code: "unused-note", Title: "a note that nothing calls", File: inBody,
		Meaning: "Footnotes are printed where the story calls them. This one is called nowhere, so it would be missing from the page.",
		Wrong:   "The ring was used twice.\n\n[^2]: Once for the hooks.",
		Right:   "The ring was used twice[^2].\n\n[^2]: Once for the hooks.",
	},
	{
		Code: "table-cells", Title: "a row of a table with more cells than its head", File: inBody,
		Meaning: "A bar ends a cell, in code as well; a backslash before it keeps it. Cells past the last column are printed all the same, under no name. " +
			"Where the head and the line of dashes below it have different numbers of cells, it is no table at all.",
		Wrong: "| Time | Pupil |\n|---|---|\n| 1:10 | 5 mm | hooks in |",
		Right: "| Time | Pupil | Remark |\n|---|---|---|\n| 1:10 | 5 mm | hooks in |",
	},
	{
		Code: "sign-as-bullet", Title: "a sign of a number that makes a list", File: inBody,
		Meaning: "A plus or minus at the head of a line, with a space after it, is a bullet, so that a lens of + 21.5 D would lose its sign. Write the sign " +
			"right before the number.",
		Wrong: "The lens:\n\n+ 21.5 D",
		Right: "The lens:\n\n+21.5 D",
	},
	{
		Code: "raw-html", Title: "HTML that is not used", File: inBody,
		Meaning: "Of HTML a story may hold the elements of running text, such as <sub>, <sup>, <kbd> and <br>, without anything after the name, each with its " +
			"end in the same paragraph. Other tags are left out and the text between them is kept; words in angle brackets that are no HTML are shown as typed.",
		Wrong: "<font color=\"red\">Careful</font> with the bag.",
		Right: "**Careful** with the bag; H<sub>2</sub>O.",
	},
	{
		Code: "comment-not-closed", Title: "a comment without an end", File: inBody,
		Meaning: "A comment begins with <!-- and ends with -->. Without its end it would take the rest of the story with it, or, inside a paragraph, be " +
			"printed for all to read. A comment with blank lines in it begins on a line of its own.",
		Wrong: "The iris came along.\n\n<!-- ask about the second film\n\nThe hooks held.",
		Right: "The iris came along.\n\nThe hooks held.",
	},
	{
		Code: "comment-left-out", Title: "a comment that is not published", File: inBody,
		Meaning: "The note says that what stands between <!-- and --> is in no page. It asks for nothing.",
		Wrong:   "The iris came along. <!-- ask about the second film -->",
	},
	{
		Code: "markup-in-value", Title: "mark-up outside the story", File: inCase,
		Meaning: "Links, bold and HTML work in the story below the front matter. Titles, signs and all other values are shown exactly as typed, with " +
			"their brackets and stars. Write them plainly.",
		Wrong: "title: \"**Small** pupil, floppy iris\"",
		Right: "title: Small pupil, floppy iris",
	},
	{
		Code: "repeated-line", Title: "a line that stands twice", File: inBody,
		Meaning: "The same line follows upon itself, in the story or in the front matter, as when a key is pressed once too often. Both would be read: the " +
			"step done twice, the sentence printed twice.",
		Wrong: "The iris came along.\nThe iris came along.",
		Right: "The iris came along.",
	},
	{
		Code: "key-in-story", Title: "a key below the front matter", File: inFile,
		Meaning: "The line of three dashes that ends the front matter stands too early, so that this line would be printed as the first of the story, and " +
			"what it says would be missing from the case.",
		Wrong: "---\ncase: HB-001\ntitle: Small pupil, floppy iris\nprocedure: phacoemulsification\ntechnique: divide-and-conquer\n" +
			"timeline: [{at: 0:40, step: main-incision}]\n---\nrelease: {consent: recorded, reviewed_by: consultant, reviewed: 2026}\n",
		Right: exampleCase,
	},
}
