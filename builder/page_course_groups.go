package builder

import (
	"fmt"

	"caseleaf/builder/rotation"
	"caseleaf/content"
)

// GroupsPage is what pages/course-groups.tmpl lays out: a card for each group,
// four to a sheet, to be cut apart.
type GroupsPage struct {
	Heading
	Sheets []GroupSheet
}

// GroupSheet is one sheet of paper.
type GroupSheet struct{ Cards []GroupCard }

// GroupCard is the day of one group.
type GroupCard struct {
	ID    string
	Name  string
	Wave  string // "" where there is only one
	Size  int
	Lines []GroupLine
	Read  []string // ids of the cases to read before
}

// GroupLine is one part of a group's day.
type GroupLine struct {
	Time  string
	What  string
	Where string // the room
	Quiet bool   // no station: a break, a rest, what everyone does
}

func (v *courseView) groupsPage() *GroupsPage {
	w := v.words
	p := &GroupsPage{Heading: v.heading(w.say("course-groups"), w.say("course-groups-summary"))}
	var cards []GroupCard
	for wave := range v.plan.rotation.Waves {
		for g := range v.plan.parties {
			cards = append(cards, v.groupCard(wave, g))
		}
	}
	for first := 0; first < len(cards); first += perSheet {
		p.Sheets = append(p.Sheets, GroupSheet{cards[first:min(first+perSheet, len(cards))]})
	}
	return p
}

func (v *courseView) groupCard(wave, group int) GroupCard {
	party := v.plan.parties[group]
	c := GroupCard{
		ID: fmt.Sprintf("card-%d-%d", wave+1, group+1), Name: v.words.say("course-group", party.Name),
		Wave: v.waveName(wave), Size: party.Size,
	}
	for _, slot := range v.plan.days[wave] {
		c.Lines = append(c.Lines, v.groupLine(v.plan.rotation.Waves[wave][group], slot))
	}
	for _, read := range v.site.courseBooklet(v.c).cases {
		c.Read = append(c.Read, read.ID.Value)
	}
	return c
}

// groupLine is a slot as a group sees it. Its time is the station's own, not
// the round's: the bell comes later where another station takes longer.
func (v *courseView) groupLine(row []int, slot rotation.Slot) GroupLine {
	l := GroupLine{Time: span(slot), What: v.slotName(slot), Quiet: true}
	if slot.Kind != rotation.Round {
		return l
	}
	s := row[slot.Index]
	if s == rotation.Rest {
		l.What = v.words.say("course-resting")
		return l
	}
	st := &v.c.Stations[s]
	l.Time = content.DayTime(slot.From).String() + "–" + content.DayTime(slot.From+st.Minutes.Value).String()
	l.What, l.Where, l.Quiet = v.stationName(s), st.Room.Value, false
	return l
}
