package rotation

// zigzag is the sequence 0, 1, n-1, 2, n-2, … For an even n its n-1 steps from
// one number to the next are, modulo n, all different; for an odd n each of the
// steps 1, 3, 5 … n-2 comes twice, and its mirror image has the others twice.
func zigzag(n int) []int {
	out := make([]int, n)
	for i := range out {
		if i%2 == 1 {
			out[i] = (i + 1) / 2
		} else {
			out[i] = (n - i/2) % n
		}
	}
	return out
}

// shifted develops a sequence of 0 … n-1 into rows, each the sequence with a
// number added modulo n. The rows are a Latin rectangle.
func shifted(sequence []int, by []int) Table {
	n := len(sequence)
	t := make(Table, len(by))
	for g, add := range by {
		t[g] = make([]int, n)
		for r, v := range sequence {
			t[g][r] = (v + add) % n
		}
	}
	return t
}

// Williams is the balanced square of n stations for n groups: in the rows of an
// even n every station directly follows every other exactly once. For an odd n
// that takes two squares, this one and its mirror image, in which every station
// follows every other exactly twice (E. J. Williams, Experimental designs
// balanced for the estimation of residual effects of treatments, Australian
// Journal of Scientific Research A 2, 1949; from memory).
//
// A group goes round once, so with an odd n one wave can have only one of the
// two squares: every two stations are neighbours equally often, but always the
// same way round. A second wave takes the mirror image and evens it out.
func Williams(n int) (first, mirror Table) {
	first = shifted(zigzag(n), count(n))
	return first, first.mirrored()
}

// count is 0 … n-1.
func count(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// chosenRows is a Williams square cut down to fewer groups: the rows in which
// the fewest orders repeat. For an even n no rows repeat any, and the first
// will do.
func chosenRows(groups, n int) Table {
	sequence := zigzag(n)
	if n%2 == 0 || groups == n {
		return shifted(sequence, count(groups))
	}
	var best Table
	least := -1
	pick := make([]int, 1, groups) // row 0 may always be one of them: only differences count
	var walk func(from int)
	walk = func(from int) {
		if len(pick) == groups {
			t := shifted(sequence, pick)
			if c := orders(t, n).squares(); least < 0 || c < least {
				least, best = c, t
			}
			return
		}
		for v := from; v < n; v++ {
			pick = append(pick, v)
			walk(v + 1)
			pick = pick[:len(pick)-1]
		}
	}
	walk(1)
	return best
}

// carousel is the plain round for more groups than stations: everybody moves on
// by one, and the places to rest are spread evenly among the stations.
func carousel(groups, stations int) Table {
	rests := groups - stations
	place := make([]int, groups) // what stands at each place of the round
	station := 0
	for i := range place {
		if (i+1)*rests/groups > i*rests/groups {
			place[i] = Rest
			continue
		}
		place[i] = station
		station++
	}
	t := make(Table, groups)
	for g := range t {
		t[g] = make([]int, groups)
		for r := range t[g] {
			t[g][r] = place[(g+r)%groups]
		}
	}
	return t
}
