package rotation

// Fairness is what a rotation is like for those who go round.
type Fairness struct {
	Rounds     int
	Rests      int // rounds that each group rests
	RestsApart int // rounds from one rest of a group to its next, at the least; 0 where none rests twice
	Crowded    int // rounds by which rests lie closer than evenly spread; 0 is even
	Empty      int // rounds that each station stands empty
	// Orders: how often a station directly follows another, over all ordered
	// pairs of stations and all waves.
	LeastFollows, MostFollows int
	// OneWay is how many pairs of stations are neighbours in one order only.
	OneWay int
	// Pairs is how many pairs of stations there are.
	Pairs int
	// Follows[a][b] is how many groups go from station a directly to b.
	Follows [][]int

	squares int
}

// Balanced reports that every station follows every other equally often.
func (f Fairness) Balanced() bool { return f.LeastFollows == f.MostFollows }

func fairness(waves []Table, p Problem) Fairness {
	f := Fairness{Rounds: p.Rounds(), Rests: p.Rounds() - p.Stations, Empty: p.Rounds() - p.Groups}
	var c counts
	for _, t := range waves {
		c.add(t)
		f.Crowded += crowding(t)
		f.RestsApart = closer(f.RestsApart, t)
	}
	f.squares = c.squares()
	f.Follows = make([][]int, p.Stations)
	for a := range f.Follows {
		f.Follows[a] = append([]int(nil), c[a][:p.Stations]...)
	}
	f.readOrders()
	return f
}

// closer is the least distance of two rests of a group, with what was known.
func closer(least int, t Table) int {
	for _, row := range t {
		last := -1
		for r, s := range row {
			if s != Rest {
				continue
			}
			if last >= 0 && (least == 0 || r-last < least) {
				least = r - last
			}
			last = r
		}
	}
	return least
}

func (f *Fairness) readOrders() {
	f.LeastFollows = -1
	for a := range f.Follows {
		for b, v := range f.Follows[a] {
			if a == b {
				continue
			}
			if f.LeastFollows < 0 || v < f.LeastFollows {
				f.LeastFollows = v
			}
			f.MostFollows = max(f.MostFollows, v)
			if a < b {
				f.Pairs++
				if (v == 0) != (f.Follows[b][a] == 0) {
					f.OneWay++
				}
			}
		}
	}
	f.LeastFollows = max(f.LeastFollows, 0)
}
