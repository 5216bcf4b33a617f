package builder

import (
	"fmt"

	"caseleaf/builder/figure"
	"caseleaf/builder/rotation"
	"caseleaf/content"
)

// WaveBlock is the timetable of one wave, drawn and as a table.
type WaveBlock struct {
	ID     string
	Name   string // "" where there is only one
	Figure FigureBlock
	Heads  []string // stations
	Rests  bool     // there is a column for who rests
	Lines  []TimetableLine
	Span   int // columns behind the time
}

// TimetableLine is a part of the day: a round, or what everyone does.
type TimetableLine struct {
	Time  string
	Whole string   // for everyone; then Cells is empty
	Round int      // from 1
	Cells []string // the group at each station; "" where it stands empty
	Rest  string   // who rests
}

// waves are the timetables, one for each wave.
func (v *courseView) waves() []WaveBlock {
	var list []WaveBlock
	for wave, table := range v.plan.rotation.Waves {
		b := WaveBlock{ID: fmt.Sprintf("wave-%d", wave+1), Name: v.waveName(wave), Rests: v.plan.rotation.Fairness.Rests > 0}
		b.Span = len(v.c.Stations) + 1
		for i := range v.c.Stations {
			b.Heads = append(b.Heads, v.stationName(i))
		}
		if b.Rests {
			b.Span++
		}
		for _, slot := range v.plan.days[wave] {
			b.Lines = append(b.Lines, v.timetableLine(table, slot))
		}
		b.Figure = v.timetableFigure(wave, b)
		list = append(list, b)
	}
	return list
}

// waveName names a wave; a course of one wave needs no name for it.
func (v *courseView) waveName(wave int) string {
	if v.c.WaveCount() == 1 {
		return ""
	}
	return v.words.say("course-wave", wave+1)
}

// stationName is a station's title with its number before it.
func (v *courseView) stationName(i int) string {
	st := &v.c.Stations[i]
	return fmt.Sprintf("%d. %s", i+1, st.Title.Or(st.ID.Value))
}

func (v *courseView) timetableLine(table rotation.Table, slot rotation.Slot) TimetableLine {
	l := TimetableLine{Time: span(slot)}
	if slot.Kind != rotation.Round {
		l.Whole = v.slotName(slot)
		return l
	}
	l.Round = slot.Index + 1
	for s := range v.c.Stations {
		name := ""
		if g := table.At(s, slot.Index); g != rotation.Rest {
			name = v.plan.parties[g].Name
		}
		l.Cells = append(l.Cells, name)
	}
	var rests []string
	for g, row := range table {
		if row[slot.Index] == rotation.Rest {
			rests = append(rests, v.plan.parties[g].Name)
		}
	}
	l.Rest = v.words.list(rests)
	return l
}

// span writes from when to when.
func span(s rotation.Slot) string {
	return content.DayTime(s.From).String() + "–" + content.DayTime(s.To).String()
}

// slotName says what everyone does in a slot.
func (v *courseView) slotName(s rotation.Slot) string {
	switch s.Kind {
	case rotation.Plenary:
		return v.c.Plenary[s.Index].Text.Value
	case rotation.Pause:
		return v.c.Breaks[s.Index].Text.Or(v.words.say("course-break"))
	}
	return v.words.say("course-round", s.Index+1)
}

// timetableFigure draws a wave.
func (v *courseView) timetableFigure(wave int, b WaveBlock) FigureBlock {
	w := v.words
	f := figure.Timetable{
		IDPrefix: b.ID, Title: w.say("course-figure-title", v.title), Rows: b.Heads,
		Finding: w.say("course-figure", len(v.plan.parties), len(v.c.Stations), content.DayTime(v.plan.days[wave][0].From).String(), content.DayTime(v.plan.end(wave)).String()),
	}
	f.Cells.Headers = append([]string{w.say("course-time")}, b.Heads...)
	table := v.plan.rotation.Waves[wave]
	for i, slot := range v.plan.days[wave] {
		row := append([]string{b.Lines[i].Time}, b.Lines[i].Cells...)
		for len(row) < len(f.Cells.Headers) {
			row = append(row, b.Lines[i].Whole)
		}
		f.Cells.Rows = append(f.Cells.Rows, row)
		if slot.Kind != rotation.Round {
			f.Bands = append(f.Bands, figure.TimetableBand{From: slot.From, To: slot.To, Text: b.Lines[i].Whole})
			continue
		}
		for s := range v.c.Stations {
			if g := table.At(s, slot.Index); g != rotation.Rest {
				f.Blocks = append(f.Blocks, figure.TimetableBlock{
					Row: s, From: slot.From, To: slot.From + v.c.Stations[s].Minutes.Value, Until: slot.To, Text: v.plan.parties[g].Name,
				})
			}
		}
	}
	id := v.c.ID.Value
	if b.Name != "" {
		id += "-" + b.ID
	}
	return v.site.block(b.ID+"-figure", drawnFigure{
		path: figurePath("courses", id, timetableKind), kind: timetableKind, title: f.Title, on: coursePath(v.c.ID.Value), figure: f, caption: f.Caption(),
	})
}
