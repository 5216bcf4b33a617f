package figure

import "fmt"

// sampleDays are the day of an invented course of unequal stations, and one of
// twelve by twelve with long names.
func sampleDays() []Figure {
	small := Timetable{IDPrefix: "day", Title: "Wet lab: the day", Finding: "3 groups at 3 stations, from 09:00 to 12:30.",
		Rows:  []string{"1. Wounds that close", "2. The circle and the run-out, with a second line", "3. Rescue"},
		Bands: []TimetableBand{{540, 555, "Safety talk"}, {655, 670, "Coffee"}},
	}
	for round, from := range []int{560, 605, 670} {
		for s, minutes := range []int{30, 35, 40} {
			small.Blocks = append(small.Blocks, TimetableBlock{s, from, from + minutes, from + 40, string(rune('A' + (s+round)%3))})
		}
	}
	large := Timetable{IDPrefix: "large", Title: "Twelve by twelve", Finding: "12 groups at 12 stations."}
	for s := range 12 {
		large.Rows = append(large.Rows, fmt.Sprintf("%d. A station with a name of some length", s+1))
		for r := range 12 {
			from := 480 + 33*r
			large.Blocks = append(large.Blocks, TimetableBlock{s, from, from + 20 + s%3*5, from + 30, fmt.Sprintf("Early birds %d", (s+r)%12+1)})
		}
	}
	return []Figure{small, large}
}
