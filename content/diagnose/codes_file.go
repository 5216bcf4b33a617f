package diagnose

// fileCodes are faults of whole files: coding, size, fences, what lies where.
var fileCodes = []Explanation{
	{
		Code: "not-utf8", Title: "a file in another coding than UTF-8", File: inBytes,
		Meaning: "The file was saved in an older coding (an editor may call it ANSI, Windows-1252 or Latin-1), in which ½, ° and ü are other bytes. Nothing " +
			"is guessed. Save the file again and choose UTF-8 as its encoding.",
		Wrong: "---\ncase: HB-001\ntitle: Pupil of 3\\xBD mm\n---\n",
		Right: exampleCase,
	},
	{
		Code: "lost-letter", Title: "a letter that was lost in saving", File: inCase,
		Meaning: "The sign \ufffd stands where an editor could not read a letter and saved the file all the same. Which letter it was cannot be known any more.",
		Wrong:   "plan: Hooks if the pupil stays under 4\ufffd mm",
		Right:   "plan: Hooks if the pupil stays under 4½ mm",
	},
	{
		Code: "twice-coded", Title: "a letter that was coded twice", File: inCase,
		Meaning: "The file was saved as UTF-8, read as an older coding and saved again, so that ½ became Â½ and ü became Ã¼. Type the letters anew, and choose " +
			"UTF-8 when the file is opened as well as when it is saved.",
		Wrong: "plan: Hooks if the pupil stays under 4Â½ mm",
		Right: "plan: Hooks if the pupil stays under 4½ mm",
	},
	{
		Code: "control-character", Title: "an invisible control character", File: inBytes,
		Meaning: "Characters below the space are no text. They come from a damaged file, from a program's own format, or from a key pressed by mistake. Delete it.",
		Wrong:   "---\ncase: HB-001\ntitle: Small\\x08 pupil\n---\n",
		Right:   exampleCase,
	},
	{
		Code: "too-large", Title: "a file too large to be one of a bank", File: inFile,
		Meaning: "A case is a few kilobytes. A file of many megabytes is something else (a film, a picture, an export) or was made to use up the computer's memory.",
	},
	{
		Code: "no-front-matter", Title: "no front matter", File: inFile,
		Meaning: "A case, or a decision, opens with a line of three dashes, then keys and values, then three dashes again, then its story.",
		Wrong:   "# A small pupil\n\nThe iris billowed as soon as the wound was opened.\n",
		Right:   exampleCase,
	},
	{
		Code: "fence-not-closed", Title: "front matter without its closing line", File: inFile,
		Meaning: "The line of three dashes that ends the front matter was not found, so the story would be read as keys. Two or four dashes, or dashes " +
			"after a blank, are not it. The message points at the likeliest place.",
		Wrong: "---\ncase: HB-001\ntitle: Small pupil, floppy iris\n--\n\nThe iris billowed as soon as the wound was opened.\n",
		Right: exampleCase,
	},
	{
		Code: "documents", Title: "a second text in one file", File: inBank,
		Meaning: "A line of three full stops ends a YAML text, and what follows would be lost. One file holds one bank.yaml, one course or one case.",
		Wrong:   "notice: All of it is invented.\n...\ncautions: [Follow your local protocol.]",
		Right:   "notice: All of it is invented.\ncautions: [Follow your local protocol.]",
	},
	{
		Code: "not-a-mapping", Title: "something other than keys and values", File: inTerms,
		Meaning: "The file, or the front matter, must be lines of the form `key: value`. A list at the left edge, or a bare text, names nothing.",
		Wrong:   "- id: gauge-ring\n- id: gauge-hook\n",
		Right:   "terms: []\n",
	},
	{
		Code: "unknown-file", Title: "a file that is not there", File: inBody,
		Meaning: "A link or a picture names a file that the bank does not hold, or one outside it. Names are compared letter by letter, capitals included, so " +
			"that the bank works on every computer.",
		Wrong: "See [the other one](hb-199.md).",
		Right: "See [the other one](hb-002.md).",
	},
	{
		Code: "not-read", Title: "a file of the bank that is not read", File: inFile,
		Meaning: "A bank is read from bank.yaml, terms.yaml and logbook.csv and from the folders cases, decisions and courses, whose files end in .md or, " +
			"for courses, in .yaml. A name that is nearly one of these would be passed over without a word, so it is named here. Give it the name in " +
			"the message. Some systems hide the ending of a name: make them show it. Links, pipes and devices are not read at all.",
	},
	{
		Code: "file-name", Title: "a name that differs in a way that cannot be seen, or will not work elsewhere", File: inBody,
		Meaning: "The file is there under a name that differs in capitals, in the sort of a space or in how an accent is stored, or the address is " +
			"written with backslashes. Write the name as the message gives it.",
		Wrong: "![The pupil at the start](Pupil.png)",
		Right: "![The pupil at the start](pupil.png)",
	},
}

// exampleCase is a case that builds, as short as one can be.
const exampleCase = "---\ncase: HB-001\ntitle: Small pupil, floppy iris\nprocedure: phacoemulsification\ntechnique: divide-and-conquer\n" +
	"timeline:\n  - {at: 0:40, step: main-incision, width: 2.4 mm}\n  - {at: 1:30, step: capsulorhexis}\nrelease: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n---\nThe iris billowed as soon as the wound was opened.\n"
