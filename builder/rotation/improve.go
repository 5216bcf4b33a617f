package rotation

import "math/rand/v2"

// visit is one meeting of a group and a station.
type visit [3]int // group, station, round

// improve makes a table cheaper, step by step, while the demands stay met. A
// step exchanges two groups, two stations or two rounds within the smallest set
// of visits that keeps a table a table (a Kempe chain). A step is taken when it
// is no worse than what stood some steps ago: late acceptance hill-climbing
// (E. K. Burke and Y. Bykov, European Journal of Operational Research, 2017;
// from memory), which needs no temperature. Its draws have a fixed seed.
func improve(t Table, p Problem, nodes *int, steps int) Table {
	const memory = 400
	m := newMoves(t, p)
	now := cost(t, p.Stations)
	best, least := t.clone(), now
	var past [memory]int
	for i := range past {
		past[i] = now
	}
	for i := 0; i < steps && *nodes > 0 && least > p.bound(); i++ {
		*nodes--
		m.draw()
		if !m.apply() {
			continue
		}
		c := cost(m.t, p.Stations)
		if c > past[i%memory] && c > now {
			m.apply() // the same chain exchanged again is as before
			continue
		}
		now = c
		past[i%memory] = min(past[i%memory], c)
		if c < least {
			best, least = m.t.clone(), c
		}
	}
	return best
}

// moves draws and makes exchanges.
type moves struct {
	t      Table
	p      Problem
	random *rand.Rand
	round  [][]int // [group][station]
	group  [][]int // [station][round], or Rest
	chain  []visit
	along  int    // which of the three is exchanged
	pair   [2]int // the two values
}

func newMoves(t Table, p Problem) *moves {
	m := &moves{t: t.clone(), p: p, random: rand.New(rand.NewPCG(uint64(p.Groups), uint64(p.Stations)))}
	m.round, m.group = make([][]int, p.Groups), make([][]int, p.Stations)
	for g := range m.round {
		m.round[g] = make([]int, p.Stations)
	}
	for s := range m.group {
		m.group[s] = spare(p.Rounds())
	}
	for g, row := range m.t {
		for r, s := range row {
			if s != Rest {
				m.round[g][s], m.group[s][r] = r, g
			}
		}
	}
	return m
}

// draw picks a visit and one of its three parts, and what that is exchanged
// for, and follows the chain.
func (m *moves) draw() {
	size := [3]int{m.p.Groups, m.p.Stations, m.p.Rounds()}
	g, s := m.random.IntN(size[0]), m.random.IntN(size[1])
	first := visit{g, s, m.round[g][s]}
	m.along = m.random.IntN(3)
	other := m.random.IntN(size[m.along])
	m.chain = m.chain[:0]
	if other == first[m.along] {
		return
	}
	m.pair = [2]int{first[m.along], other}
	m.chain = append(m.chain, first)
	for i := 0; i < len(m.chain); i++ {
		v := m.chain[i]
		v[m.along] = m.pair[0] + m.pair[1] - v[m.along]
		for kept := range 3 { // visits that would clash with v: they agree with it in two parts
			if kept == m.along {
				continue
			}
			if w, ok := m.sharing(v, 3-m.along-kept); ok && !m.has(w) {
				m.chain = append(m.chain, w)
			}
		}
	}
}

// sharing finds the visit that agrees with v in all but one part.
func (m *moves) sharing(v visit, but int) (visit, bool) {
	switch but {
	case 0:
		v[0] = m.group[v[1]][v[2]]
	case 1:
		v[1] = m.t[v[0]][v[2]]
	default:
		v[2] = m.round[v[0]][v[1]]
	}
	return v, v[but] != Rest
}

func (m *moves) has(v visit) bool {
	for _, w := range m.chain {
		if v == w {
			return true
		}
	}
	return false
}

// apply makes the exchange and reports whether the demands are still met; where
// they are not, all is as before.
func (m *moves) apply() bool {
	if len(m.chain) == 0 {
		return false
	}
	m.exchange()
	if m.t.meets(m.p.Demands) {
		return true
	}
	m.exchange()
	return false
}

func (m *moves) exchange() {
	for _, v := range m.chain {
		m.t[v[0]][v[2]], m.group[v[1]][v[2]] = Rest, Rest
	}
	for i, v := range m.chain {
		v[m.along] = m.pair[0] + m.pair[1] - v[m.along]
		m.chain[i] = v
		m.t[v[0]][v[2]], m.group[v[1]][v[2]], m.round[v[0]][v[1]] = v[1], v[0], v[2]
	}
}
