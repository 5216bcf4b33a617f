package builder

import (
	"cmp"
	"slices"
	"strings"

	"caseleaf/builder/kit"
	"caseleaf/builder/rotation"
	"caseleaf/content"
	"caseleaf/content/term"
)

// StationsPage is what pages/course-stations.tmpl lays out: a sheet for each
// bench, in large type, to hang up beside the microscope.
type StationsPage struct {
	Heading
	Cautions []string // of the course; every sheet begins with them
	Stations []StationSheet
}

// StationSheet is one bench.
type StationSheet struct {
	ID       string
	Number   int
	Title    string
	Facts    []Fact
	Turns    []string // who comes when
	Cautions []string
	Tasks    []string
	Watch    []WatchPoint
	Kit      []BenchItem
	Dilute   []DilutionBlock
	Setup    []string
	ClearUp  []string
	Checks   []string
}

// WatchPoint is what can go wrong in a step that is practised, how it first
// shows and what to do first.
type WatchPoint struct {
	Step, Complication   Link
	FirstSign, FirstMove string
}

// BenchItem is a line of a bench list, to be ticked.
type BenchItem struct {
	Item   Link
	What   string // size and strength
	Lay    int    // on the bench when a group sits down
	Day    int    // used in a wave
	Detail string // such as: 2 a participant
	Note   string
}

// watchPerStep and watchPerStation are how many watch points a sheet has at most:
// more is not read at a bench, and would not stand on the front of the sheet.
const (
	watchPerStep    = 2
	watchPerStation = 5
)

func (v *courseView) stationsPage() *StationsPage {
	w := v.words
	p := &StationsPage{Heading: v.heading(w.say("course-stations"), w.say("course-stations-summary")), Cautions: known(v.c.Cautions)}
	for i := range v.c.Stations {
		p.Stations = append(p.Stations, v.stationSheet(i))
	}
	return p
}

func (v *courseView) stationSheet(i int) StationSheet {
	st := &v.c.Stations[i]
	return StationSheet{
		ID: stationAnchor(st), Number: i + 1, Title: st.Title.Or(st.ID.Value), Facts: v.stationFacts(st),
		Turns: v.turns(i), Cautions: known(st.Cautions), Tasks: known(st.Tasks), Watch: v.watchPoints(st),
		Kit: v.bench(i), Dilute: v.dilutions(i), Setup: known(st.Setup), ClearUp: known(st.ClearUp), Checks: known(st.Checks),
	}
}

// turns says which group comes when, a line each wave.
func (v *courseView) turns(station int) []string {
	var list []string
	for wave, table := range v.plan.rotation.Waves {
		var parts []string
		for r, slot := range v.plan.rounds(wave) {
			if g := table.At(station, r); g != rotation.Rest {
				end := slot.From + v.c.Stations[station].Minutes.Value
				parts = append(parts, v.words.say("course-turn", v.plan.parties[g].Name, content.DayTime(slot.From).String(), content.DayTime(end).String()))
			}
		}
		line := strings.Join(parts, " · ")
		if name := v.waveName(wave); name != "" {
			line = name + ": " + line
		}
		list = append(list, line)
	}
	return list
}

// watchPoints are what the cases met most in the steps practised, then what the
// watch table has, in the order of the steps.
func (v *courseView) watchPoints(st *content.Station) []WatchPoint {
	began := func(r term.WatchRow) int { n, _ := v.met.eventsIn(r.Step, r.Complication); return len(n) }
	most := func(a, b term.WatchRow) int { return cmp.Compare(began(b), began(a)) }
	steps := known(st.Steps)
	var rows []term.WatchRow
	for _, step := range steps {
		own := slices.Clone(v.site.Bank.WatchFor(step))
		slices.SortStableFunc(own, most)
		rows = append(rows, own[:min(len(own), watchPerStep)]...)
	}
	slices.SortStableFunc(rows, most)
	rows = rows[:min(len(rows), watchPerStation)]
	inOrder := func(a, b term.WatchRow) int {
		return cmp.Compare(slices.Index(steps, a.Step), slices.Index(steps, b.Step))
	}
	slices.SortStableFunc(rows, inOrder)
	var list []WatchPoint
	for _, r := range rows {
		list = append(list, WatchPoint{v.met.link(r.Step), v.met.link(r.Complication), r.FirstSign, r.FirstMove})
	}
	return list
}

// bench lists what lies at a station.
func (v *courseView) bench(station int) []BenchItem {
	var list []BenchItem
	for _, l := range kit.Bench(v.c, station) {
		list = append(list, BenchItem{
			Item: v.met.link(l.Item), What: joinKnown(v.words.say("list-comma"), l.Size, l.Strength), Lay: l.Lay, Day: l.Day,
			Detail: v.words.say("per-"+l.Per, l.Count), Note: l.Note,
		})
	}
	return list
}

// joinKnown joins what is not empty.
func joinKnown(between string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), between)
}
