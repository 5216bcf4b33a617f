package rotation

// exhaust goes through all tables, group by group, and leaves out those that
// can't be cheaper than the best. It returns the best and whether it came to
// the end, so that nothing better exists.
func exhaust(best Table, p Problem, nodes *int) (Table, bool) {
	e := exhaustion{p: p, best: best, least: cost(best, p.Stations), nodes: nodes}
	e.t = make(Table, p.Groups)
	for g := range e.t {
		e.t[g] = spare(p.Rounds())
	}
	e.used = make([]uint16, p.Rounds())
	done := e.row(0)
	return e.best, done
}

type exhaustion struct {
	p           Problem
	t           Table
	used        []uint16 // stations taken in a round
	best        Table
	least       int
	nodes       *int
	follows     counts
	sum         int // squares of follows
	crowdedRows int
}

// row fills the row of group g; false when the work is used up.
func (e *exhaustion) row(g int) bool {
	if g == e.p.Groups {
		if c := e.crowdedRows*crowdingWeight + e.sum; c < e.least {
			e.best, e.least = e.t.clone(), c
		}
		return true
	}
	return e.cell(g, 0, 0, Rest, e.p.Rounds()-e.p.Stations)
}

// cell tries every station, then a rest, in round r of group g. visited are
// the stations it has met, before the one it came from, rests those it has left.
func (e *exhaustion) cell(g, r int, visited uint16, before, rests int) bool {
	if r == e.p.Rounds() {
		crowded := crowded(e.t[g])
		e.crowdedRows += crowded
		ok := e.row(g + 1)
		e.crowdedRows -= crowded
		return ok
	}
	if *e.nodes <= 0 {
		return false
	}
	*e.nodes--
	for s := range e.p.Stations {
		bit := uint16(1) << s
		if visited&bit != 0 || e.used[r]&bit != 0 || !e.allowed(g, r, s) {
			continue
		}
		if !e.visit(g, r, s, visited|bit, before, rests) {
			return false
		}
	}
	e.t[g][r] = Rest
	if rests > 0 && e.allowed(g, r, Rest) {
		return e.cell(g, r+1, visited, before, rests-1)
	}
	return true
}

// visit sends group g to station s and goes on, unless that can't be better.
func (e *exhaustion) visit(g, r, s int, visited uint16, before, rests int) bool {
	more := 0
	if before != Rest {
		more = 2*e.follows[before][s] + 1
		e.follows[before][s]++
	}
	e.sum += more
	ok := true
	if e.crowdedRows*crowdingWeight+e.sum < e.least {
		e.t[g][r] = s
		e.used[r] |= 1 << s
		ok = e.cell(g, r+1, visited, s, rests)
		e.used[r] &^= 1 << s
	}
	e.sum -= more
	if before != Rest {
		e.follows[before][s]--
	}
	return ok
}

// allowed holds a cell to the demands. Without any, the first group's order
// stands for all others, since the stations may be renamed.
func (e *exhaustion) allowed(g, r, s int) bool {
	for _, d := range e.p.Demands {
		if d.Round != r || d.Group != g && d.Station != s {
			continue
		}
		same := d.Group == g && d.Station == s
		if d.Forbidden && same || !d.Forbidden && !same {
			return false
		}
	}
	if len(e.p.Demands) == 0 && g == 0 && s != Rest {
		return s == 0 || e.met(s-1, r)
	}
	return true
}

func (e *exhaustion) met(s, before int) bool {
	for r := range before {
		if e.t[0][r] == s {
			return true
		}
	}
	return false
}
