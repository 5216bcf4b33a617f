package diagnose

// tableCodes are faults of logbook.csv and other tables.
var tableCodes = []Explanation{
	{
		Code: "bad-table", Title: "a table without a head line", File: inLogbook,
		Meaning: "The first line of a table must name its columns.",
		Wrong:   "",
		Right:   exampleLogbook,
	},
	{
		Code: "separator", Title: "what stands between the cells", File: inLogbook,
		Meaning: "Comma, semicolon and tab are told apart by the head line. Where it is not the comma, a note says what was found. Where it cannot be told, " +
			"that is an error: put a line such as sep=; before the head.",
		Wrong: "period;technique,complications\n2026-Q1;stop-and-chop,\n",
		Right: exampleLogbook,
	},
	{
		Code: "cell-count", Title: "a row with more or fewer cells than columns", File: inLogbook,
		Meaning: "Cells would slide under the wrong names, so the row is left out. A comma inside a cell (a decimal comma, a list) needs quotation marks " +
			"around the cell. Empty cells keep their separators.",
		Wrong: "period,technique,complications,acuity_after\n2026-Q1,stop-and-chop,,0,5\n",
		Right: "period,technique,complications,acuity_after\n2026-Q1,stop-and-chop,,0.5\n",
	},
	{
		Code: "cell-quotes", Title: "quotation marks of a cell that do not pair", File: inLogbook,
		Meaning: "A cell that begins with a double mark ends with one, and marks inside it are doubled. The row is left out; the rows below it are read.",
		Wrong:   "period,technique,complications\n2026-Q1,\"stop-and-chop,\n2026-Q1,stop-and-chop,\n",
		Right:   exampleLogbook,
	},
	{
		Code: "duplicate-column", Title: "two columns of one name", File: inLogbook,
		Meaning: "It cannot be told which of the two counts. Rename one, or take it out.",
		Wrong:   "period,technique,complications,Period\n2026-Q1,stop-and-chop,,2026-Q2\n",
		Right:   exampleLogbook,
	},
	{
		Code: "unknown-column", Title: "a column that the logbook does not have", File: inLogbook,
		Meaning: "What stands in it is passed over and never published. Take the column out of the bank if it holds anything about a patient.",
		Wrong:   "period,technique,complications,remarks\n2026-Q1,stop-and-chop,,long day\n",
		Right:   exampleLogbook,
	},
	{
		Code: "spreadsheet-damage", Title: "a cell that a spreadsheet has changed", File: inLogbook,
		Meaning: "Opened and saved in a spreadsheet, 6/24 becomes Jun-24, an id such as 12E4 a number, and a narrow column ########. What stood there is not " +
			"guessed, and the row is left out. Import the file with the column set to text, and type the value anew.",
		Wrong: "period,technique,complications,acuity_after\n2026-Q1,stop-and-chop,,Jun-24\n",
		Right: "period,technique,complications,acuity_after\n2026-Q1,stop-and-chop,,6/24\n",
	},
	{
		Code: "spreadsheet-text", Title: "a sign that keeps a spreadsheet from changing a cell", File: inLogbook,
		Meaning: "An apostrophe before a value, or =\"…\" around it, tells a spreadsheet to leave it alone. The value is read without them; better " +
			"set the column to text and type the value plainly.",
		Wrong: "period,technique,complications,acuity_after\n2026-Q1,stop-and-chop,,=\"6/18\"\n",
		Right: "period,technique,complications,acuity_after\n2026-Q1,stop-and-chop,,6/18\n",
	},
	{
		Code: "rows-left-out", Title: "rows that are not counted", File: inLogbook,
		Meaning: "A row with a fault is in no denominator and no rate. The note says how many there are; mend them before a rate is quoted.",
		Wrong:   "period,technique,complications,acuity_after\n2026-Q1,stop-and-chop,,Jun-24\n2026-Q1,stop-and-chop,,6/6\n",
	},
}

const exampleLogbook = "period,technique,complications\n2026-Q1,stop-and-chop,\n"
