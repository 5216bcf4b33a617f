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
}
