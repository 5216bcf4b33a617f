package diagnose

// courseCodes are about wet labs.
var courseCodes = []Explanation{
	{
		Code: "course-size", Title: "more groups or stations than a rotation is found for", File: inCourse,
		Meaning: "A rotation is worked out for at most 12 groups and 12 stations. More groups than that are better run as two waves, one after the other: " +
			"the second goes the same way round with other people.",
		Wrong: "groups: [{count: 14, size: 2}]",
		Right: "groups: [{count: 7, size: 2}]\nwaves: 2",
	},
	{
		Code: "course-placement", Title: "a placement that means nothing", File: inCourse,
		Meaning: "There are as many rounds as the larger of the numbers of groups and stations, so a later round does not exist. A group fixed at a station " +
			"without a round says nothing, since every group meets every station anyway.",
		Wrong: "placements: [{group: A, station: wounds, round: 3}]",
		Right: "placements: [{group: A, station: wounds, round: 2}]",
	},
	{
		Code: "course-conflict", Title: "placements that cannot be met together", File: inCourse,
		Meaning: "Every group meets every station exactly once, and no station has two groups. With that, what is listed cannot all be; it is the smallest " +
			"set that cannot, so taking any one of them out makes the rest of the set possible. Other demands may still conflict once that is done.",
		Wrong: "placements:\n  - {group: A, station: wounds, round: 1}\n  - {group: B, station: wounds, round: 1}",
		Right: "placements:\n  - {group: A, station: wounds, round: 1}\n  - {group: B, station: wounds, round: 2}",
	},
	{
		Code: "course-late", Title: "a day that is too long", File: inCourse,
		Meaning: "The rounds, with the time to change and the breaks, run past midnight or into the next wave. A round lasts as long as its longest station, " +
			"since all change at one bell.",
		Wrong: "start: \"23:20\"",
		Right: "start: \"13:20\"",
	},
	{
		Code: "course-wait", Title: "empty minutes before a break", File: inCourse,
		Meaning: "A break begins when it says, and a round that would run into it begins afterwards. Here that leaves everybody waiting. The note says at " +
			"which time the break would let the round end first; it asks for nothing.",
		Wrong: "breaks: [{at: \"10:00\", minutes: 10}]",
	},
	{
		Code: "course-waves", Title: "waves that do not agree with one another", File: inCourse,
		Meaning: "A wave is one run of the whole rotation with its own participants. Where all waves are on one day, wave_starts gives the time of each, the " +
			"first being the start of the course; without it each wave has a day of its own.",
		Wrong: "waves: 3\nwave_starts: [\"09:00\", \"13:00\"]",
		Right: "waves: 2\nwave_starts: [\"09:00\", \"13:00\"]",
	},
	{
		Code: "course-tutors", Title: "more stations for a tutor than there are tutors", File: inCourse,
		Meaning: "All stations run at the same time, so each needs its own tutor. Two stations for a consultant need two consultants, or another role.",
		Wrong:   "tutors: [{role: consultant, count: 1}]\nstations:\n  - {id: wounds, title: Wounds, minutes: 30, tutor: consultant}\n  - {id: capsule, title: Capsule, minutes: 30, tutor: consultant}",
		Right:   "tutors: [{role: consultant, count: 2}]\nstations:\n  - {id: wounds, title: Wounds, minutes: 30, tutor: consultant}\n  - {id: capsule, title: Capsule, minutes: 30, tutor: consultant}",
	},
	{
		Code: "course-dilution", Title: "a dilution that cannot be worked out", File: inCourse,
		Meaning: "To make a working strength from a stock, both must be told by weight in a volume (or both in units), the stock must be the stronger, and volume " +
			"must say how much of the working strength each gets. Practice stock only: what may go into a patient is for the local protocol and the pharmacy.",
		Wrong: "stations:\n  - {id: wounds, title: Wounds, minutes: 30, kit: [{item: trypan-blue, count: 1, volume: 0.5 mL, strength: 0.4 %, stock: 0.06 %}]}",
		Right: "stations:\n  - {id: wounds, title: Wounds, minutes: 30, kit: [{item: trypan-blue, count: 1, volume: 0.5 mL, strength: 0.06 %, stock: 0.4 %}]}",
	},
	{
		Code: "course-kit", Title: "kit in the cases and not on the benches, or the other way round", File: inCourse,
		Meaning: "What the cases of a course used and no station has may be missing from the order; what a station has and no case used may be a slip. Where " +
			"it is meant so, bench_only lists what only the benches have, and left_out what the stations leave out.",
		Wrong: "stations:\n  - {id: wounds, title: Wounds, minutes: 30, cases: [HB-003], kit: [{item: chopper, count: 1}]}",
		Right: "bench_only: [chopper]\nleft_out: [iris-hooks]\nstations:\n  - {id: wounds, title: Wounds, minutes: 30, cases: [HB-003], kit: [{item: chopper, count: 1}]}",
	},
}
