package builder

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"caseleaf/builder/rotation"
	"caseleaf/content"
	"caseleaf/content/diagnose"
)

// coursePlan is a course with its rotation and its day worked out.
type coursePlan struct {
	course   *content.Course
	parties  []content.Party
	rotation rotation.Rotation
	days     [][]rotation.Slot // of each wave
	// stated is the place in the file of each demand of the problem.
	stated []stated
	err    error // why there is no rotation
}

// stated is one demand as its author wrote it.
type stated struct {
	span  diagnose.Span
	words string
}

// planCourse finds the rotation of a course and lays out its days.
func planCourse(c *content.Course) *coursePlan {
	p := &coursePlan{course: c, parties: c.Lineup()}
	p.rotation, p.err = solved(p.problem())
	for w, table := range p.rotation.Waves {
		p.days = append(p.days, p.day(w, table).Slots())
	}
	return p
}

// problem turns groups, stations and placements into numbers.
func (p *coursePlan) problem() rotation.Problem {
	c := p.course
	out := rotation.Problem{Groups: len(p.parties), Stations: len(c.Stations), Waves: c.WaveCount()}
	for _, list := range []struct {
		placements []content.Placement
		forbidden  bool
	}{{c.Placements, false}, {c.Forbidden, true}} {
		for _, at := range list.placements {
			group := slices.IndexFunc(p.parties, func(g content.Party) bool { return g.Name == at.Group.Value })
			station := slices.IndexFunc(c.Stations, func(s content.Station) bool { return s.ID.Value == at.Station.Value })
			round := at.Round.Or(rotation.AnyRound+1) - 1
			if group < 0 || station < 0 || round >= out.Rounds() {
				continue // reported where it stands
			}
			out.Demands = append(out.Demands, rotation.Demand{Group: group, Station: station, Round: round, Forbidden: list.forbidden})
			p.stated = append(p.stated, stated{at.Span, demandWords(at, list.forbidden)})
		}
	}
	return out
}

// demandWords says a demand for a message to the author.
func demandWords(at content.Placement, forbidden bool) string {
	words := fmt.Sprintf("group %s at %s", at.Group.Value, at.Station.Value)
	if at.Round.Known() {
		words += fmt.Sprintf(" in round %d", at.Round.Value)
	}
	if forbidden {
		return "never " + words
	}
	return words
}

// day is what the rounds of a wave are laid out in.
func (p *coursePlan) day(wave int, table rotation.Table) rotation.Day {
	c := p.course
	d := rotation.Day{Start: int(c.WaveStart(wave)), Changeover: changeoverMinutes(c), Rounds: table.RoundLengths(p.minutes())}
	for _, part := range c.Plenary {
		d.Plenaries = append(d.Plenaries, part.Minutes.Value)
	}
	for _, b := range c.Breaks {
		d.Breaks = append(d.Breaks, rotation.Break{At: int(b.At.Value), Minutes: b.Minutes.Value})
	}
	return d
}

// changeoverMinutes is the time to change, in whole minutes, rounded up.
func changeoverMinutes(c *content.Course) int { return (int(c.Changeover.Value) + 59) / 60 }

func (p *coursePlan) minutes() []int {
	var list []int
	for _, s := range p.course.Stations {
		list = append(list, s.Minutes.Value)
	}
	return list
}

// rounds are the slots of a wave's rounds, by round.
func (p *coursePlan) rounds(wave int) []rotation.Slot {
	var list []rotation.Slot
	for _, s := range p.days[wave] {
		if s.Kind == rotation.Round {
			list = append(list, s)
		}
	}
	return list
}

// end is when a wave is over, in minutes after midnight.
func (p *coursePlan) end(wave int) int { return p.days[wave][len(p.days[wave])-1].To }

// solutions keeps what was solved: check, build and preview ask for the same
// courses again and again, and an answer depends on nothing but the question.
var solutions = struct {
	sync.Mutex
	of map[string]solution
}{of: map[string]solution{}}

type solution struct {
	rotation rotation.Rotation
	err      error
}

// maxSolutions bounds what is kept; then it is forgotten and begun again.
const maxSolutions = 64

// solved is rotation.Solve, once for each problem.
func solved(p rotation.Problem) (rotation.Rotation, error) {
	key := fmt.Sprint(p)
	solutions.Lock()
	s, known := solutions.of[key]
	solutions.Unlock()
	if known {
		return s.rotation, s.err
	}
	r, err := rotation.Solve(p)
	solutions.Lock()
	defer solutions.Unlock()
	if len(solutions.of) >= maxSolutions {
		clear(solutions.of)
	}
	solutions.of[key] = solution{r, err}
	return r, err
}

// CourseFindings finds what only a worked-out rotation tells: demands that
// can't be met together, a day that runs past midnight, time lost before a
// break. It is for banks that were read without errors in their courses.
func CourseFindings(bank *content.Bank) diagnose.Diagnostics {
	bag := diagnose.NewBag()
	for _, c := range bank.Courses {
		if p := planCourse(c); p.err != nil {
			reportConflict(bag, p)
		} else {
			p.reportDays(bag)
		}
	}
	return bag.Sorted()
}

// reportConflict names the demands that can't be met together.
func reportConflict(bag *diagnose.Bag, p *coursePlan) {
	var conflict *rotation.ConflictError
	switch {
	case errors.Is(p.err, rotation.ErrProblem):
		return // too many groups or stations, or none: reported where they stand
	case !errors.As(p.err, &conflict) || len(conflict.Demands) == 0:
		bag.Error("course-conflict", p.course.Span, "%s; leave out some of the placements and forbidden", p.err)
		return
	}
	first := p.stated[conflict.Demands[0]]
	if len(conflict.Demands) == 1 {
		bag.Error("course-conflict", first.span, "%s can't be: every group meets every station once", first.words)
		return
	}
	var words []string
	for _, at := range conflict.Demands {
		words = append(words, p.stated[at].words)
	}
	tail := "without any one of them the rest can"
	if !conflict.Smallest {
		tail = "there may be a smaller set"
	}
	d := bag.Error("course-conflict", first.span, "these %d can't be met together: %s; %s", len(words), strings.Join(words, "; "), tail)
	for _, at := range conflict.Demands[1:] {
		d.Also(p.stated[at].span, p.stated[at].words)
	}
}

// worthNoting is how many empty minutes before a break are told.
const worthNoting = 15

// reportDays tells what the waves' days have that nobody wants.
func (p *coursePlan) reportDays(bag *diagnose.Bag) {
	c := p.course
	for w := range p.days {
		if end := p.end(w); end > 24*60 {
			bag.Error("course-late", c.Start.Span, "wave %d would end %d minutes after midnight; fewer groups, shorter stations or two waves", w+1, end-24*60)
			return
		}
		if w+1 < len(c.WaveStarts) && p.end(w) > int(c.WaveStarts[w+1].Value) {
			bag.Error("course-late", c.WaveStarts[w+1].Span, "wave %d starts at %s, before wave %d is over at %s", w+2, c.WaveStarts[w+1].Value, w+1, content.DayTime(p.end(w)))
			return
		}
	}
	for _, s := range p.days[0] {
		if s.Kind == rotation.Pause && s.Waited > worthNoting {
			b := c.Breaks[s.Index]
			bag.Note("course-wait", b.Span, "%d minutes stand empty before this break, because what comes next needs %d minutes more; at %s it would fit before",
				s.Waited, s.Missing, content.DayTime(s.From+s.Missing))
		}
	}
}
