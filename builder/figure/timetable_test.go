package figure

import (
	"strings"
	"testing"
)

// Beside its row a station's name of usual length is whole, on two lines; only
// one that would take the room of the day is shortened.
func TestTimetableNames(t *testing.T) {
	day := Timetable{Rows: []string{"1. Wounds that close", "3. Nucleus and cortex with a standing chamber"}, Blocks: []TimetableBlock{{0, 540, 580, 590, "A"}}}
	if record := day.Draw(Wide).Record(); strings.Contains(record, "…") {
		t.Errorf("a name is shortened:\n%s", record)
	}
	day.Rows[1] = strings.Repeat("a long name ", 20)
	if record := day.Draw(Wide).Record(); !strings.Contains(record, "…") {
		t.Error("a name of twenty lines is not shortened")
	}
}
