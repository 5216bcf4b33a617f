package rotation

// counts is how often a station directly follows another, rests left out:
// counts[a][b] groups go from a to b.
type counts [Most][Most]int

// orders counts the orders of a table of n stations.
func orders(t Table, n int) counts {
	var c counts
	c.add(t)
	return c
}

func (c *counts) add(t Table) {
	for _, row := range t {
		before := Rest
		for _, s := range row {
			if s == Rest {
				continue
			}
			if before != Rest {
				c[before][s]++
			}
			before = s
		}
	}
}

// squares is the sum of the squares of all counts: least when they are level.
func (c counts) squares() int {
	sum := 0
	for a := range c {
		for _, v := range c[a] {
			sum += v * v
		}
	}
	return sum
}

// levelSquares is the least that squares can be for any table: the counts of
// the stations' ordered pairs as level as whole numbers allow.
func levelSquares(groups, stations int) int {
	pairs := stations * (stations - 1)
	if pairs == 0 {
		return 0
	}
	steps := groups * (stations - 1)
	low, more := steps/pairs, steps%pairs
	return more*(low+1)*(low+1) + (pairs-more)*low*low
}

// crowding says how much closer a table's rests lie than they would if each
// group's were spread evenly over the rounds, in rounds.
func crowding(t Table) int {
	sum := 0
	for _, row := range t {
		sum += crowded(row)
	}
	return sum
}

func crowded(row []int) int {
	rests, last, short := 0, -1, 0
	for _, s := range row {
		if s == Rest {
			rests++
		}
	}
	if rests < 2 {
		return 0
	}
	even := len(row) / rests
	for r, s := range row {
		if s != Rest {
			continue
		}
		if last >= 0 {
			short += max(0, even-(r-last))
		}
		last = r
	}
	return short
}

// cost weighs a table: crowded rests before uneven orders. No table has as many
// orders as the weight.
func cost(t Table, stations int) int {
	return crowdingWeight*crowding(t) + orders(t, stations).squares()
}

const crowdingWeight = 100_000

// bound is the least that cost can be.
func (p Problem) bound() int { return levelSquares(p.Groups, p.Stations) }
