package builder

import (
	"fmt"
	"strings"
	"testing"

	"caseleaf/builder/rotation"
	"caseleaf/casebank"
	"caseleaf/content"
)

// Planning the demonstration course, rotation and all, from nothing.
func BenchmarkPlanCourse(b *testing.B) {
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		solutions.Lock()
		clear(solutions.of)
		solutions.Unlock()
		if p := planCourse(bank.Courses[0]); p.err != nil {
			b.Fatal(p.err)
		}
	}
}

// twelveCourse is the largest course: 12 groups, 12 stations of unequal length,
// three breaks, and demands that leave only search.
func twelveCourse() string {
	var b strings.Builder
	b.WriteString("course: lab\ntitle: Lab\nstart: \"08:00\"\nchangeover: 2 min\n" +
		"breaks:\n  - {at: \"10:00\", minutes: 15}\n  - {at: \"12:00\", minutes: 45}\n  - {at: \"14:30\", minutes: 15}\n" +
		"groups: [{count: 12, size: 3}]\nplacements:\n")
	for i := range 12 {
		fmt.Fprintf(&b, "  - {group: %c, station: s%d, round: 1}\n", 'A'+i, (5*i)%12+1)
		if i%2 == 0 {
			fmt.Fprintf(&b, "  - {group: %c, station: s%d, round: 12}\n", 'A'+i, (5*i+1)%12+1)
		}
	}
	b.WriteString("stations:\n")
	for i := range 12 {
		fmt.Fprintf(&b, "  - {id: s%d, title: Station %d, minutes: %d}\n", i+1, i+1, 20+5*(i%3))
	}
	return b.String()
}

// The whole of the largest course: reading its file, its rotation, its day with
// breaks, and the data of all its pages. It should stay below two seconds.
func BenchmarkPlanTwelve(b *testing.B) {
	course := twelveCourse()
	for b.Loop() {
		solutions.Lock()
		clear(solutions.of)
		solutions.Unlock()
		bank := labBank(b, course)
		p := planCourse(bank.Courses[0])
		if p.err != nil || p.breaks() != 3 {
			b.Fatal(p.err, p.breaks())
		}
		if site := Plan(bank, Options{}); len(site.Pages) == 0 {
			b.Fatal("no pages")
		}
	}
}

// breaks counts the pauses that the first wave's day has.
func (p *coursePlan) breaks() int {
	n := 0
	for _, slot := range p.days[0] {
		if slot.Kind == rotation.Pause {
			n++
		}
	}
	return n
}
