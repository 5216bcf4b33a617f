package rotation

// Rotation is who is where, in every wave.
type Rotation struct {
	Waves    []Table
	Fairness Fairness
	Quality  Quality
	Nodes    int // steps of search that were taken
}

// Quality says how sure it is that no better rotation exists.
type Quality string

const (
	// Level: rests lie as far apart as they can, and the orders of stations
	// are as even as whole numbers allow. Nothing better exists.
	Level Quality = "level"
	// Optimal: no rotation is better; the search came to its end.
	Optimal Quality = "optimal"
	// BestFound: the search was stopped at its bound with this one.
	BestFound Quality = "best-found"
)

// shares are the parts of the work that the stages may use, in hundredths.
const (
	relabelShare = 10
	improveShare = 15
)

// Solve finds a rotation. A problem that asks for the impossible gives a
// [ConflictError]; one that is too hard for its bound a [LimitError]; sizes out
// of range and demands that name what is not there [ErrProblem].
func Solve(p Problem) (Rotation, error) {
	if err := p.check(); err != nil {
		return Rotation{}, err
	}
	total := p.Nodes
	if total <= 0 {
		total = DefaultNodes
	}
	left := total
	base, err := feasible(p, total, &left)
	if err != nil {
		return Rotation{}, err
	}
	s := solver{p: p, total: total, left: &left, base: base}
	out := Rotation{Waves: s.waves(max(p.Waves, 1))}
	out.Fairness = fairness(out.Waves, p)
	out.Quality = s.quality(out)
	out.Nodes = total - left
	return out, nil
}

// feasible finds any table that meets the demands, or says why there is none.
func feasible(p Problem, total int, left *int) (Table, error) {
	q, ok := newRectangle(p, p.Demands, left)
	if ok {
		a, cells := q.complete()
		switch a {
		case yes:
			return q.table(p, cells), nil
		case unknown:
			return nil, &LimitError{Nodes: total}
		}
	}
	*left = total // that there is none is known; which demands are to blame has its own bound
	return nil, conflict(p, left)
}

// solver holds what the waves share.
type solver struct {
	p       Problem
	total   int
	left    *int
	base    Table // meets the demands, and is otherwise as it came
	proven  bool  // the first wave can't be cheaper
	doubled bool  // waves go in pairs, each with its mirror image
}

// waves makes the tables. Where only the doubled design is balanced, two waves
// that follow each other are its two squares, and one that is left over is as
// good as one alone can be.
func (s *solver) waves(n int) []Table {
	var out []Table
	if s.p.Stations%2 == 1 && s.p.Groups == s.p.Stations {
		for len(out)+2 <= n {
			pair := s.pair()
			if pair == nil {
				break
			}
			s.doubled = true
			out = append(out, pair...)
		}
	}
	if len(out) == n {
		return out
	}
	first := s.single()
	back := s.under(first.mirrored())
	for len(out) < n {
		out = append(out, s.evener(out, first, back))
	}
	return out
}

// pair names both squares of the doubled design under the demands.
func (s *solver) pair() []Table {
	first, mirror := Williams(s.p.Stations)
	a, b := s.under(first), s.under(mirror)
	if a == nil || b == nil {
		return nil
	}
	if even := orders(a, s.p.Stations); !evenPair(even, b, s.p.Stations) {
		return nil // named differently, the two no longer complete each other
	}
	return []Table{a, b}
}

func evenPair(c counts, b Table, stations int) bool {
	c.add(b)
	return c.squares() == 4*stations*(stations-1)
}

// evener picks, of a table and its mirror image, the one that leaves the orders
// of all waves so far more even.
func (s *solver) evener(before []Table, first, back Table) Table {
	if back == nil || len(before) == 0 {
		return first
	}
	var c counts
	for _, t := range before {
		c.add(t)
	}
	a, b := c, c
	a.add(first)
	b.add(back)
	if b.squares() < a.squares() {
		return back
	}
	return first
}

// under names a design so that the demands are met, or returns nil.
func (s *solver) under(design Table) Table {
	own := min(*s.left, s.total*relabelShare/100)
	before := own
	t := relabel(design, s.p, &own)
	*s.left -= before - own
	return t
}

// single makes the best table for one wave.
func (s *solver) single() Table {
	best := s.base
	try := func(t Table) {
		if t != nil && cost(t, s.p.Stations) < cost(best, s.p.Stations) {
			best = t
		}
	}
	design := s.design()
	try(s.under(design))
	if s.p.Groups < s.p.Stations {
		full, _ := Williams(s.p.Stations)
		try(s.under(full))
	}
	if len(s.p.Demands) > 0 && cost(best, s.p.Stations) > cost(design, s.p.Stations) {
		try(s.climb(s.base))
	}
	try(s.climb(best))
	if cost(best, s.p.Stations) > s.p.bound() {
		best, s.proven = exhaust(best, s.p, s.left)
	}
	return best
}

// climb improves a table within its share of the work.
func (s *solver) climb(t Table) Table {
	return improve(t, s.p, s.left, s.total*improveShare/100)
}

// design is the best table known where nothing is demanded.
func (s *solver) design() Table {
	p := s.p
	if p.Groups <= p.Stations {
		return chosenRows(p.Groups, p.Stations)
	}
	free := Problem{Groups: p.Groups, Stations: p.Stations}
	return improve(carousel(p.Groups, p.Stations), free, s.left, s.total*improveShare/100)
}

// quality says what is known of the rotation.
func (s *solver) quality(r Rotation) Quality {
	level := r.Fairness.Crowded == 0 && r.Fairness.squares == levelWaves(s.p, len(r.Waves))
	switch {
	case level:
		return Level
	case s.proven && len(r.Waves) == 1:
		return Optimal
	}
	return BestFound
}

// levelWaves is levelSquares for all waves together.
func levelWaves(p Problem, waves int) int { return levelSquares(p.Groups*waves, p.Stations) }
