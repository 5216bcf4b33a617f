package rotation

import (
	"fmt"
	"math/bits"
)

// maxDemands is how many demands are searched for the smallest conflict; more
// are cut down to one that has no demand to spare.
const maxDemands = 64

// ConflictError says which demands can't be met together.
type ConflictError struct {
	Demands []int // indexes into the problem's demands, in order
	// Smallest is true where no smaller set of the demands conflicts. It is
	// false where the bound on work was reached: then each of the set is needed
	// for the conflict, as far as the search could tell.
	Smallest bool
}

func (e *ConflictError) Error() string {
	return fmt.Sprintf("%d demands can't be met together", len(e.Demands))
}

// LimitError says that the bound on work was reached before it was known
// whether there is a rotation.
type LimitError struct{ Nodes int }

func (e *LimitError) Error() string {
	return fmt.Sprintf("no rotation found in %d steps of search, and none shown to be impossible", e.Nodes)
}

// conflict finds the smallest set of demands that can't be met together. Every
// conflict has one of each set of demands whose removal makes the rest
// possible; so the smallest conflict is the smallest set that hits all of
// those, and they are gathered until what hits them all is itself a conflict
// (A. Ignatiev, A. Previti, M. Liffiton and J. Marques-Silva, Smallest MUS
// extraction with minimal hitting set dualization, 2015; from memory).
func conflict(p Problem, nodes *int) *ConflictError {
	if len(p.Demands) > maxDemands {
		return &ConflictError{Demands: p.withoutSpare(nodes)}
	}
	every := uint64(1)<<len(p.Demands) - 1
	var corrections []uint64
	for *nodes > 0 {
		hit, ok := hitting(corrections, nodes)
		if !ok {
			break
		}
		switch p.possible(hit, nodes) {
		case no:
			return &ConflictError{Demands: indexes(hit), Smallest: true}
		case unknown:
			return &ConflictError{Demands: p.withoutSpare(nodes)}
		}
		for rest := every &^ hit; rest != 0; rest &= rest - 1 { // grow it while it stays possible
			one := rest & -rest
			if p.possible(hit|one, nodes) == yes {
				hit |= one
			}
		}
		if every&^hit == 0 {
			break // only a reached bound can make all demands look possible
		}
		corrections = append(corrections, every&^hit)
	}
	return &ConflictError{Demands: p.withoutSpare(nodes)}
}

// possible asks whether the demands of a set can be met.
func (p Problem) possible(set uint64, nodes *int) answer {
	return p.can(indexes(set), nodes)
}

func (p Problem) can(list []int, nodes *int) answer {
	demands := make([]Demand, len(list))
	for i, at := range list {
		demands[i] = p.Demands[at]
	}
	q, ok := newRectangle(p, demands, nodes)
	if !ok {
		return no
	}
	a, _ := q.complete()
	return a
}

// withoutSpare takes demands away one by one while the rest stay impossible.
func (p Problem) withoutSpare(nodes *int) []int {
	set := count(len(p.Demands))
	for i := len(set) - 1; i >= 0; i-- {
		fewer := append(append([]int(nil), set[:i]...), set[i+1:]...)
		own := max(*nodes, 2000) // a little for each, so that a bound reached is no excuse
		if p.can(fewer, &own) == no {
			set = fewer
		}
	}
	return set
}

func indexes(set uint64) []int {
	var list []int
	for ; set != 0; set &= set - 1 {
		list = append(list, bits.TrailingZeros64(set))
	}
	return list
}

// hitting finds the smallest set that has a member of every set of the list,
// the first in order where there are several; ok is false when the work is
// used up.
func hitting(list []uint64, nodes *int) (set uint64, ok bool) {
	for size := 0; size <= maxDemands; size++ {
		if set, found, ok := hit(list, 0, size, nodes); found || !ok {
			return set, ok
		}
	}
	return 0, false
}

// hit extends chosen by at most left members.
func hit(list []uint64, chosen uint64, left int, nodes *int) (set uint64, found, ok bool) {
	if *nodes <= 0 {
		return 0, false, false
	}
	*nodes--
	var open uint64
	var apart uint64 // union of disjoint sets that are not hit yet
	needs := 0
	for _, c := range list {
		if c&chosen != 0 {
			continue
		}
		if open == 0 || bits.OnesCount64(c) < bits.OnesCount64(open) {
			open = c
		}
		if c&apart == 0 {
			apart |= c
			needs++
		}
	}
	if open == 0 {
		return chosen, true, true
	}
	if needs > left {
		return 0, false, true
	}
	for rest := open; rest != 0; rest &= rest - 1 {
		if set, found, ok = hit(list, chosen|rest&-rest, left-1, nodes); found || !ok {
			return set, found, ok
		}
	}
	return 0, false, true
}
