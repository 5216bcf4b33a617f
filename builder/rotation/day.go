package rotation

// Day is what a wave's rounds are laid out in. All times are minutes after
// midnight, all lengths minutes.
type Day struct {
	Start      int
	Plenaries  []int // lengths of what everyone attends first
	Rounds     []int // lengths
	Changeover int   // between a plenary or round and the next
	Breaks     []Break
}

// Break is a pause for everyone. It begins when it says, and nothing else
// happens in it.
type Break struct{ At, Minutes int }

// SlotKind says what a slot of the day is.
type SlotKind string

// The kinds of slots.
const (
	Plenary SlotKind = "plenary"
	Round   SlotKind = "round"
	Pause   SlotKind = "pause"
)

// Slot is a part of the day.
type Slot struct {
	Kind     SlotKind
	Index    int // of the plenary, round or break
	From, To int
	// Waited is how long nothing happened before a pause because the next part
	// would not have fitted before it; Missing is how many minutes later the
	// pause would have had to begin for that part to fit.
	Waited, Missing int
}

// Slots lays the day out. A part that would run into a break begins after it,
// so a break never cuts a round in two; a changeover falls into a break that
// follows, as far as it is long enough. Breaks after the last round are left
// out.
func (d Day) Slots() []Slot {
	l := layout{day: d, at: d.Start}
	for i, n := range d.Plenaries {
		l.place(Plenary, i, n)
	}
	for i, n := range d.Rounds {
		l.place(Round, i, n)
	}
	return l.slots
}

type layout struct {
	day   Day
	slots []Slot
	at    int // when the last part ended
	next  int // the next break
}

// place puts a part at the first time at which it fits between two breaks.
func (l *layout) place(kind SlotKind, index, minutes int) {
	from := l.at
	if len(l.slots) > 0 {
		from += l.day.Changeover
	}
	for l.next < len(l.day.Breaks) {
		b := l.day.Breaks[l.next]
		end := b.At + b.Minutes
		if end > l.day.Start { // else it is over before this wave begins
			if from+minutes <= b.At {
				break
			}
			l.slots = append(l.slots, Slot{
				Kind: Pause, Index: l.next, From: max(b.At, l.at), To: max(end, l.at),
				Waited: max(0, b.At-l.at), Missing: from + minutes - b.At,
			})
			l.at = max(end, l.at)
			from = max(from, end)
		}
		l.next++
	}
	l.slots = append(l.slots, Slot{Kind: kind, Index: index, From: from, To: from + minutes})
	l.at = from + minutes
}

// RoundLengths says how long each round of a wave takes: as long as the longest
// station that has a group in it. Everybody changes at one bell, because a room
// in which groups leave one by one has no quiet minute to count sharps in.
func (t Table) RoundLengths(minutes []int) []int {
	if len(t) == 0 {
		return nil
	}
	out := make([]int, len(t[0]))
	for _, row := range t {
		for r, s := range row {
			if s != Rest {
				out[r] = max(out[r], minutes[s])
			}
		}
	}
	return out
}
