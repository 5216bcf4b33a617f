package rotation_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/rotation"
)

func told(slots []rotation.Slot) string {
	var list []string
	for _, s := range slots {
		line := fmt.Sprintf("%s %d %d:%02d-%d:%02d", s.Kind, s.Index+1, s.From/60, s.From%60, s.To/60, s.To%60)
		if s.Waited > 0 {
			line += fmt.Sprintf(" waited %d missing %d", s.Waited, s.Missing)
		}
		list = append(list, line)
	}
	return strings.Join(list, "; ")
}

// Days worked by hand.
func TestSlots(t *testing.T) {
	at := func(h, m int) int { return h*60 + m }
	for _, c := range []struct {
		name string
		day  rotation.Day
		want string
	}{
		// Four stations of 45 min with 5 min to change and a plenary of 15 take
		// 3 h 35 (trade reference, station set).
		{"half a day", rotation.Day{Start: at(9, 0), Plenaries: []int{15}, Rounds: []int{45, 45, 45, 45}, Changeover: 5},
			"plenary 1 9:00-9:15; round 1 9:20-10:05; round 2 10:10-10:55; round 3 11:00-11:45; round 4 11:50-12:35"},
		{"the break waits for nobody", rotation.Day{Start: at(9, 0), Rounds: []int{40, 40}, Changeover: 5, Breaks: []rotation.Break{{At: at(10, 0), Minutes: 15}}},
			"round 1 9:00-9:40; pause 1 10:00-10:15 waited 20 missing 25; round 2 10:15-10:55"},
		{"up to the minute", rotation.Day{Start: at(9, 0), Rounds: []int{40, 40}, Changeover: 5, Breaks: []rotation.Break{{At: at(10, 25), Minutes: 15}}},
			"round 1 9:00-9:40; round 2 9:45-10:25"},
		{"a break at the bell is long enough to change", rotation.Day{Start: at(9, 0), Rounds: []int{40, 40}, Changeover: 5, Breaks: []rotation.Break{{At: at(9, 40), Minutes: 15}}},
			"round 1 9:00-9:40; pause 1 9:40-9:55; round 2 9:55-10:35"},
		{"a break shorter than the change", rotation.Day{Start: at(9, 0), Rounds: []int{40, 40}, Changeover: 10, Breaks: []rotation.Break{{At: at(9, 40), Minutes: 5}}},
			"round 1 9:00-9:40; pause 1 9:40-9:45; round 2 9:50-10:30"},
		{"two breaks with no room between", rotation.Day{Start: at(9, 0), Rounds: []int{40, 40}, Breaks: []rotation.Break{{At: at(9, 50), Minutes: 10}, {At: at(10, 20), Minutes: 10}}},
			"round 1 9:00-9:40; pause 1 9:50-10:00 waited 10 missing 30; pause 2 10:20-10:30 waited 20 missing 20; round 2 10:30-11:10"},
		{"a wave after the break", rotation.Day{Start: at(13, 0), Rounds: []int{40}, Breaks: []rotation.Break{{At: at(10, 0), Minutes: 15}}}, "round 1 13:00-13:40"},
		{"a wave in the break", rotation.Day{Start: at(13, 0), Rounds: []int{40}, Breaks: []rotation.Break{{At: at(12, 30), Minutes: 45}}}, "pause 1 13:00-13:15; round 1 13:15-13:55"},
	} {
		if diff := cmp.Diff(c.want, told(c.day.Slots())); diff != "" {
			t.Errorf("%s (-want +got)\n%s", c.name, diff)
		}
	}
}

func TestRoundLengths(t *testing.T) {
	table := rotation.Table{{0, 1, rotation.Rest}, {1, rotation.Rest, 0}, {rotation.Rest, 0, 1}}
	if diff := cmp.Diff([]int{40, 40, 40}, table.RoundLengths([]int{30, 40})); diff != "" {
		t.Error(diff)
	}
	// One group at two stations: each round is as long as the station it is at.
	if diff := cmp.Diff([]int{30, 40}, rotation.Table{{0, 1}}.RoundLengths([]int{30, 40})); diff != "" {
		t.Error(diff)
	}
}

// Over 2,000 random days nobody is at two things at once, no break is shortened
// or moved, everything has its length, and there is time to change.
func TestRandomDays(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 9))
	for i := range 2000 {
		d := rotation.Day{Start: rnd.IntN(700), Changeover: rnd.IntN(12)}
		for range rnd.IntN(3) {
			d.Plenaries = append(d.Plenaries, 1+rnd.IntN(40))
		}
		for range 1 + rnd.IntN(12) {
			d.Rounds = append(d.Rounds, 1+rnd.IntN(70))
		}
		for at := d.Start + rnd.IntN(100); rnd.IntN(4) > 0; at += 1 + rnd.IntN(200) {
			b := rotation.Break{At: at, Minutes: 1 + rnd.IntN(60)}
			at += b.Minutes
			d.Breaks = append(d.Breaks, b)
		}
		slots, last := d.Slots(), d.Start
		count := map[rotation.SlotKind]int{}
		worked := -1 << 30 // when the last part that is no break ended
		for _, s := range slots {
			length := map[rotation.SlotKind][]int{rotation.Plenary: d.Plenaries, rotation.Round: d.Rounds}[s.Kind]
			switch {
			case s.From < last || s.Index != count[s.Kind]:
				t.Fatalf("day %d: %s", i, told(slots))
			case s.Kind == rotation.Pause && (s.From != d.Breaks[s.Index].At || s.To-s.From != d.Breaks[s.Index].Minutes):
				t.Fatalf("day %d: a break was moved: %s", i, told(slots))
			case s.Kind != rotation.Pause && (s.To-s.From != length[s.Index] || s.From < worked+d.Changeover):
				t.Fatalf("day %d: cut short: %s", i, told(slots))
			}
			if s.Kind != rotation.Pause {
				worked = s.To
			}
			count[s.Kind]++
			last = s.To
		}
		if count[rotation.Plenary] != len(d.Plenaries) || count[rotation.Round] != len(d.Rounds) {
			t.Fatalf("day %d: something is missing: %s", i, told(slots))
		}
	}
}
