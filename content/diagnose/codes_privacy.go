package diagnose

import "slices"

// privacyCodes are what the privacy check says.
var privacyCodes = []Explanation{
	{
		Code: "identifying", Title: "something that may identify somebody", File: inBody,
		Meaning: "Names, places, dates finer than a year, ages and numbers can lead to a patient, and often lead there only together. The message names the " +
			"sort of thing and never repeats it. Say it more coarsely, or leave it out: the teaching seldom needs it. What is no identifier " +
			"after all can be excepted, with a reason and a reviewer, under privacy_exceptions.",
		Wrong: "She came back on 5 March 2026.",
		Right: "She came back in the second week.",
	},
	{
		Code: "refused-picture", Title: "a picture or clip that can't be published", File: inBody,
		Meaning: "Only JPEG, PNG, WebP, GIF and SVG pictures and MP4 clips are published, told from their bytes, since only of these everything that could " +
			"identify somebody can be taken out. A clip with sound needs a reviewer who has listened to it (sound: reviewed in the release).",
	},
	{
		Code: "metadata-removed", Title: "what was taken out of a picture", File: inBody,
		Meaning: "Pictures carry the place, the day, the device and names. The copy that is published has none of them; the file in the bank stays as it is. " +
			"What can be seen in the picture stays: look at it.",
	},
	{
		Code: "bad-exception", Title: "a privacy exception that does not hold", File: inCase,
		Meaning: "An exception covers an exact text, a stated number of times, for a reason of at least fifteen characters, and was reviewed by somebody. " +
			"One that covers nothing any more is taken out.",
		Wrong: "privacy_exceptions:\n  - {class: date, where: body, match: Friday, count: 1, kind: false-positive, reason: fine, reviewed_by: consultant, reviewed: 2026}",
		Right: "lessons: [Ask before the list.]",
	},
	{
		Code: "rare-combination", Title: "few cases share what is published of the patient", File: inBank,
		Meaning: "An age band, a sex, a side and a kind of cataract name nobody, but together they may fit one person in a valley. Coarsen the value that the " +
			"message names, or let a reviewer except it with class: other and the value as match. A bank is a sample, so this advises; only a rare condition " +
			"beside two exact values stops a build. In a bank of invented cases it is a note. rare_combination in bank.yaml sets the number.",
		Wrong: "invented: no\nrare_combination: 3",
		Right: "invented: no\nrare_combination: 1",
	},
	{
		Code: "held-back", Title: "a case that is not published yet", File: inCase,
		Meaning: "A case without release is work in hand, and stands nowhere in a handout. One whose release is begun and not complete is held back too. The " +
			"message lists the keys that are not answered; somebody who has read the case and seen its pictures answers them.",
		Wrong: "release: {consent: recorded, reviewed_by: consultant, reviewed: 2026}",
		Right: "release: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}",
	},
	{
		Code: "unfit-release", Title: "a release that says that the patient can be known", File: inCase,
		Meaning: "Whoever read the case answered yes to a face, to readable text in a picture, or to another way to find the patient. The case cannot be " +
			"published as it is. Mend it first, then change the answer.",
		Wrong: "release: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: yes, text_in_pictures: no, sound: none, otherwise_findable: no}",
		Right: "release: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}",
	},
	{
		Code: "privacy-exception", Title: "a reviewed exception in use", File: inFile,
		Meaning: "The note lists every exception that lets something stand, so that it stays visible in each build. It asks for nothing.",
		Wrong:   "---\n" + exceptedHead + "---\nThe operation of 5 March 2026 is the one in the published film.\n",
	},
}

const exceptedHead = "case: HB-001\ntitle: Small pupil, floppy iris\nprocedure: phacoemulsification\ntechnique: divide-and-conquer\n" +
	"timeline:\n  - {at: 0:40, step: main-incision, width: 2.4 mm}\nrelease: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n" +
	"privacy_exceptions:\n  - {class: date, where: body, match: 5 March 2026, count: 1, kind: consented, reason: The film with this date is public, reviewed_by: fellow, reviewed: 2026, consent: held-locally}\n"

// IsPrivacy reports whether a code is one of the privacy check's, whose warnings
// stop what leaves the house.
func IsPrivacy(code Code) bool {
	return slices.ContainsFunc(privacyCodes, func(e Explanation) bool { return e.Code == code })
}
