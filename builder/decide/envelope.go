package decide

import "math/big"

// line is a + b·x, the value of a fixed policy as one parameter x moves. A tree
// is linear in each single parameter as long as the policy stays, so an option's
// expected value is the best of a few lines and thresholds are exact.
type line struct {
	a, b  *big.Rat
	owner int // option of the root
}

func constant(v *big.Rat) line { return line{a: v, b: new(big.Rat)} }

// at is the line's value.
func (l line) at(x *big.Rat) *big.Rat {
	v := new(big.Rat).Mul(l.b, x)
	return v.Add(v, l.a)
}

// lines gives the lines whose best is node n's expected value as the parameter
// at place moves; values are the folded-back values at rest.
func (m *Model) lines(n *node, at place, values []*big.Rat) []line {
	switch {
	case n.id == at.node && n.source.Kind == End:
		return []line{{a: new(big.Rat), b: big.NewRat(1, 1)}}
	case n.id == at.node:
		return []line{movedBranch(n, at.branch, values)}
	case !at.below(n):
		return []line{constant(values[n.id])}
	case n.source.Kind == Chance:
		return m.chanceLines(n, at, values)
	}
	var all []line
	for _, child := range n.next {
		all = append(all, m.lines(child, at, values)...)
	}
	return all
}

// movedBranch is the line of a chance node whose branch has probability x and
// whose others share the rest in proportion.
func movedBranch(n *node, branch int, values []*big.Rat) line {
	others := new(big.Rat)
	for j, child := range n.next {
		if j != branch {
			others.Add(others, new(big.Rat).Mul(n.p[j], values[child.id]))
		}
	}
	others.Quo(others, new(big.Rat).Sub(big.NewRat(1, 1), n.p[branch]))
	return line{a: others, b: new(big.Rat).Sub(values[n.next[branch].id], others)}
}

// chanceLines scales the lines of the one branch that the parameter lies below.
func (m *Model) chanceLines(n *node, at place, values []*big.Rat) []line {
	still := new(big.Rat)
	var p *big.Rat
	var moving []line
	for i, child := range n.next {
		if child.id == at.node || at.below(child) {
			p, moving = n.p[i], m.lines(child, at, values)
		} else {
			still.Add(still, new(big.Rat).Mul(n.p[i], values[child.id]))
		}
	}
	for i, l := range moving {
		a := new(big.Rat).Mul(l.a, p)
		moving[i] = line{a: a.Add(a, still), b: new(big.Rat).Mul(l.b, p)}
	}
	return moving
}

// rootLines gives the lines of every option of the root.
func (m *Model) rootLines(at place) []line {
	values := make([]*big.Rat, len(m.nodes))
	m.fold(m.root, values)
	var all []line
	for i, child := range m.root.next {
		for _, l := range m.lines(child, at, values) {
			l.owner = i
			all = append(all, l)
		}
	}
	return all
}

// exactThresholds walks along the envelope of the lines from low to high and
// notes each place where the set of preferred options changes.
func (m *Model) exactThresholds(all []line, low, high *big.Rat) []Threshold {
	var found []Threshold
	x := low
	now := m.leaders(all, x)
	for x.Cmp(high) < 0 {
		next := m.nextCrossing(all, now, x, high)
		if next == nil {
			break
		}
		after := m.leaders(all, next)
		if before := owners(now); !sameOwners(before, owners(after)) {
			found = append(found, Threshold{Exact: next, At: float(next), Before: m.names(before), After: m.names(owners(after))})
		}
		x, now = next, after
	}
	return found
}

// leaders are the lines that are best just above x.
func (m *Model) leaders(all []line, x *big.Rat) []line {
	var best []line
	for _, l := range all {
		if len(best) > 0 {
			switch c := m.compare(l, best[0], x); {
			case c < 0:
				continue
			case c > 0:
				best = best[:0]
			}
		}
		best = append(best, l)
	}
	return best
}

// compare orders two lines just above x: by value, then by slope.
func (m *Model) compare(l, k line, x *big.Rat) int {
	c := l.at(x).Cmp(k.at(x))
	if c == 0 {
		c = l.b.Cmp(k.b)
	}
	if m.goal == Least {
		c = -c
	}
	return c
}

// nextCrossing is the first place in (x, high) where a line overtakes the
// leading one, nil where none does.
func (m *Model) nextCrossing(all, now []line, x, high *big.Rat) *big.Rat {
	lead := now[0]
	var first *big.Rat
	for _, l := range all {
		slope := new(big.Rat).Sub(l.b, lead.b)
		if slope.Sign() == 0 || (slope.Sign() > 0) != (m.goal == Most) {
			continue // never overtakes
		}
		at := new(big.Rat).Sub(lead.a, l.a)
		at.Quo(at, slope)
		if at.Cmp(x) > 0 && at.Cmp(high) < 0 && (first == nil || at.Cmp(first) < 0) {
			first = at
		}
	}
	return first
}

// owners are the options of the lines, in order and once each.
func owners(lines []line) []int {
	var out []int
	for _, l := range lines {
		if len(out) == 0 || out[len(out)-1] != l.owner {
			out = append(out, l.owner)
		}
	}
	return out
}

func sameOwners(a, b []int) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// names turns places among the root's options into their ids.
func (m *Model) names(owners []int) []string {
	out := make([]string, len(owners))
	for i, o := range owners {
		out[i] = m.root.source.Options[o].ID
	}
	return out
}
