package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
)

var courseFields = &shape[Course]{
	name: "a course", doc: "A wet lab.",
	fields: []field[Course]{
		must(one("course", "id; the file is called the same", identifier, func(c *Course) *Given[string] { return &c.ID })),
		must(one("title", "title", text, func(c *Course) *Given[string] { return &c.Title })),
		one("edition", "name of the edition", text, func(c *Course) *Given[string] { return &c.Edition }),
		one("period", "year or quarter", quarter, func(c *Course) *Given[string] { return &c.Period }),
		one("language", "language, as a BCP 47 tag", languageTag, func(c *Course) *Given[string] { return &c.Language }),
		many("rooms", "rooms", text, func(c *Course) *[]Given[string] { return &c.Rooms }),
		must(one("start", "time of day it starts", dayTime, func(c *Course) *Given[DayTime] { return &c.Start })),
		one("changeover", "minutes to change stations", changeover, func(c *Course) *Given[measure.Duration] { return &c.Changeover }),
		groups("breaks", "pauses for everyone", func() *shape[Break] { return breakFields }, func(c *Course) *[]Break { return &c.Breaks }),
		groups("plenary", "parts that everyone attends first", func() *shape[Plenary] { return plenaryFields }, func(c *Course) *[]Plenary { return &c.Plenary }),
		must(groups("groups", "groups of participants", func() *shape[Group] { return courseGroupFields }, func(c *Course) *[]Group { return &c.Groups })),
		groups("tutors", "tutors by role", func() *shape[Tutor] { return tutorFields }, func(c *Course) *[]Tutor { return &c.Tutors }),
		must(groups("stations", "stations", func() *shape[Station] { return stationFields }, func(c *Course) *[]Station { return &c.Stations })),
		groups("placements", "groups fixed at a station in a round", func() *shape[Placement] { return placementFields }, func(c *Course) *[]Placement { return &c.Placements }),
		groups("forbidden", "groups kept from a station in a round", func() *shape[Placement] { return placementFields }, func(c *Course) *[]Placement { return &c.Forbidden }),
		one("waves", "how many times the course is run in a row", whole(1, 20, "a count"), func(c *Course) *Given[int] { return &c.Waves }),
		many("wave_starts", "when each wave starts, where all are on one day", dayTime, func(c *Course) *[]Given[DayTime] { return &c.WaveStarts }),
		one("spares", "spares added to what is used up", perCent, func(c *Course) *Given[float64] { return &c.Spares }),
		many("bench_only", "kit that no case has, on purpose", kitTerm, func(c *Course) *[]Given[string] { return &c.BenchOnly }),
		many("left_out", "kit of the cases that no station has, on purpose", kitTerm, func(c *Course) *[]Given[string] { return &c.LeftOut }),
		many("cautions", "cautions for the bench", text, func(c *Course) *[]Given[string] { return &c.Cautions }),
		exceptionsField(func(c *Course) *[]PrivacyException { return &c.Exceptions }),
	},
	place: place(func(c *Course) *diagnose.Span { return &c.Span }),
	check: checkCourse,
}

var breakFields = &shape[Break]{
	name: "a break", doc: "A pause for everyone.",
	fields: []field[Break]{
		must(one("at", "time of day", dayTime, func(b *Break) *Given[DayTime] { return &b.At })),
		must(one("minutes", "length", minutes, func(b *Break) *Given[int] { return &b.Minutes })),
		one("text", "what it is", text, func(b *Break) *Given[string] { return &b.Text }),
	},
	example: `{at: "10:30", minutes: 15, text: Coffee}`,
	place:   place(func(b *Break) *diagnose.Span { return &b.Span }),
}

var plenaryFields = &shape[Plenary]{
	name: "a plenary", doc: "A part that everyone attends first.",
	fields: []field[Plenary]{
		must(one("minutes", "length", minutes, func(b *Plenary) *Given[int] { return &b.Minutes })),
		must(one("text", "what it is", text, func(b *Plenary) *Given[string] { return &b.Text })),
	},
	example: "{minutes: 15, text: Safety talk}",
	place:   place(func(b *Plenary) *diagnose.Span { return &b.Span }),
}

var courseGroupFields = &shape[Group]{
	name: "a group", doc: "Participants who go round together.",
	fields: []field[Group]{
		one("name", "short name such as A", identifier, func(g *Group) *Given[string] { return &g.Name }),
		one("count", "so many groups, named by letters", whole(1, 100, "a number of groups"), func(g *Group) *Given[int] { return &g.Count }),
		must(one("size", "participants", whole(1, 100, "a number of participants"), func(g *Group) *Given[int] { return &g.Size })),
	},
	example: "{count: 4, size: 3}",
	place:   place(func(g *Group) *diagnose.Span { return &g.Span }),
	check:   checkGroup,
}

var tutorFields = &shape[Tutor]{
	name: "a tutor", doc: "A role, never a person.",
	fields: []field[Tutor]{
		must(one("role", "role", text, func(t *Tutor) *Given[string] { return &t.Role })),
		one("count", "how many", whole(1, 100, "a count"), func(t *Tutor) *Given[int] { return &t.Count }),
	},
	example: "{role: consultant, count: 2}",
	place:   place(func(t *Tutor) *diagnose.Span { return &t.Span }),
}

var stationFields = &shape[Station]{
	name: "a station", doc: "One place of the rotation.",
	fields: []field[Station]{
		must(one("id", "short id", identifier, func(s *Station) *Given[string] { return &s.ID })),
		must(one("title", "title", text, func(s *Station) *Given[string] { return &s.Title })),
		must(one("minutes", "length", minutes, func(s *Station) *Given[int] { return &s.Minutes })),
		one("room", "room", text, func(s *Station) *Given[string] { return &s.Room }),
		one("tutor", "role of the tutor", text, func(s *Station) *Given[string] { return &s.Tutor }),
		many("cases", "cases to read before", identifier, func(s *Station) *[]Given[string] { return &s.Cases }),
		many("steps", "steps practised", stepTerm, func(s *Station) *[]Given[string] { return &s.Steps }),
		many("tasks", "what to practise", text, func(s *Station) *[]Given[string] { return &s.Tasks }),
		groups("kit", "what is on the bench", func() *shape[StationKit] { return stationKitFields }, func(s *Station) *[]StationKit { return &s.Kit }),
		many("setup", "setting up", text, func(s *Station) *[]Given[string] { return &s.Setup }),
		many("clear_up", "clearing up", text, func(s *Station) *[]Given[string] { return &s.ClearUp }),
		many("cautions", "cautions", text, func(s *Station) *[]Given[string] { return &s.Cautions }),
		many("checks", "how tutors check", text, func(s *Station) *[]Given[string] { return &s.Checks }),
	},
	example: "{id: wounds, title: Wounds that close, minutes: 40}",
	place:   place(func(s *Station) *diagnose.Span { return &s.Span }),
}

var stationKitFields = &shape[StationKit]{
	name: "a kit line", doc: "One line of a station's kit.",
	fields: []field[StationKit]{
		must(one("item", "instrument, device, material or drug", kitTerm, func(k *StationKit) *Given[string] { return &k.Item })),
		must(one("count", "how many", whole(1, 10000, "a count"), func(k *StationKit) *Given[int] { return &k.Count })),
		one("per", "for each station (default), group or participant", oneOf("station", "group", "participant"), func(k *StationKit) *Given[string] { return &k.Per }),
		one("size", "size or gauge", text, func(k *StationKit) *Given[string] { return &k.Size }),
		one("volume", "of each, at its working strength", volume, func(k *StationKit) *Given[measure.Volume] { return &k.Volume }),
		one("strength", "working strength", concentration, func(k *StationKit) *Given[measure.Concentration] { return &k.Strength }),
		one("stock", "strength as bought", concentration, func(k *StationKit) *Given[measure.Concentration] { return &k.Stock }),
		one("diluent", "what the stock is diluted with", kitTerm, func(k *StationKit) *Given[string] { return &k.Diluent }),
		one("carried", "yes for what each takes along from station to station", yesNo, func(k *StationKit) *Given[bool] { return &k.Carried }),
		one("spare", "spares of this", perCent, func(k *StationKit) *Given[float64] { return &k.Spare }),
		one("pack", "sold in packs of", whole(1, 10000, "a count"), func(k *StationKit) *Given[int] { return &k.Pack }),
		one("vial", "what one as bought holds", volume, func(k *StationKit) *Given[measure.Volume] { return &k.Vial }),
		one("note", "anything else", text, func(k *StationKit) *Given[string] { return &k.Note }),
	},
	example: "{item: keratome, count: 1, per: participant, pack: 6}",
	place:   place(func(k *StationKit) *diagnose.Span { return &k.Span }),
	check:   checkStationKit,
}

var placementFields = &shape[Placement]{
	name: "a placement", doc: "A group at a station in a round.",
	fields: []field[Placement]{
		must(one("group", "name of the group", identifier, func(p *Placement) *Given[string] { return &p.Group })),
		must(one("station", "id of the station", identifier, func(p *Placement) *Given[string] { return &p.Station })),
		one("round", "round, from 1", whole(1, 100, "a round"), func(p *Placement) *Given[int] { return &p.Round }),
	},
	example: "{group: A, station: wounds, round: 1}",
	place:   place(func(p *Placement) *diagnose.Span { return &p.Span }),
}
