package caption

// Costs of turning one sound into another. They are judgements, not measured:
// voicing is lost first, then place, while vowels hardly count.
const (
	vowelIndel = 0.35 // a vowel too many or too few
	weakIndel  = 0.55 // h, w, y, r, t, d, n, l and ng come and go
	indel      = 0.9  // any other consonant
)

// class groups consonants that are taken for one another.
var class = func() (c [128]byte) {
	for i, group := range []string{"pb", "td", "kg", "fv", "szSCJ", "TD", "mnN", "lr", "w", "y", "h"} {
		for j := 0; j < len(group); j++ {
			c[group[j]] = byte(i + 1)
		}
	}
	return c
}()

// near lists costs between classes below the full one.
var near = map[string]float64{
	"pf": 0.5, "bv": 0.4, "pv": 0.6, "bf": 0.6, "tT": 0.35, "dT": 0.35, "fT": 0.3, "vT": 0.4, "sT": 0.45, "zT": 0.45,
	"tC": 0.45, "dJ": 0.45, "tS": 0.6, "tJ": 0.6, "dC": 0.6, "wr": 0.5, "wl": 0.6, "wv": 0.5, "ts": 0.7, "dz": 0.7,
	"yl": 0.7, "yJ": 0.6, "hw": 0.5, "pk": 0.7, "tk": 0.7, "dg": 0.7, "nl": 0.6, "nd": 0.7, "bm": 0.7, "nr": 0.7, "ln": 0.6,
	"ks": 0.8, "kC": 0.6, "hf": 0.7, "bw": 0.7, "dr": 0.7, "tr": 0.8, "dl": 0.7,
}

// gap and change are the costs by sound, built once.
var gap, change = buildCosts()

func isVowel(c byte) bool {
	switch c {
	case 'a', 'e', 'i', 'o', 'u', 'A', 'O', 'W', 'R':
		return true
	}
	return false
}

func buildCosts() (gap [128]float32, change [128][128]float32) {
	for a := range 128 {
		switch x := byte(a); {
		case isVowel(x):
			gap[a] = vowelIndel
		case class[a] == class['h'] || class[a] == class['w'] || class[a] == class['y'] || x == 'r' || x == 't' || x == 'd' || x == 'n' || x == 'l' || x == 'N':
			gap[a] = weakIndel
		default:
			gap[a] = indel
		}
		for b := range 128 {
			change[a][b] = float32(changeCost(byte(a), byte(b)))
		}
	}
	return gap, change
}

func changeCost(a, b byte) float64 {
	switch {
	case a == b:
		return 0
	case isVowel(a) && isVowel(b):
		if long(a) != long(b) {
			return 0.3
		}
		return 0.2
	case a == 'R' && b == 'r' || a == 'r' && b == 'R':
		return 0.15
	case isVowel(a) || isVowel(b):
		return 0.9
	case class[a] == class[b] && class[a] != 0:
		return 0.3
	}
	if c, ok := near[string([]byte{a, b})]; ok {
		return c
	}
	if c, ok := near[string([]byte{b, a})]; ok {
		return c
	}
	return 1
}

func long(v byte) bool { return v == 'A' || v == 'O' || v == 'W' }

// weight is how much there is to compare in p: the cost of leaving it all out.
func (p phones) weight() float64 {
	w := 0.0
	for i := 0; i < len(p); i++ {
		w += float64(gap[p[i]])
	}
	return w
}

// far stands in an alignment for a cost beyond the limit.
const far = float32(1e6)

// leastPerWeight is how much of a difference in weight is at least paid for.
const leastPerWeight = 0.75

// longest is one more than the sounds of the longest name compared.
const longest = 64

// remains returns the weight of what follows each place of p, from all of it to
// nothing.
func (p phones) remains() []float32 {
	rest := make([]float32, len(p)+1)
	for i := len(p) - 1; i >= 0; i-- {
		rest[i] = rest[i+1] + gap[p[i]&127]
	}
	return rest
}

// unlike returns the least cost of turning a into b, or something above limit
// as soon as that is certain.
func unlike(a, b phones, limit float64) float64 {
	if len(a) >= longest || len(b) >= longest {
		return limit + 1
	}
	x := aligner{a: a, rest: a.remains()}
	return x.unlike(b, b.remains(), limit)
}

// aligner compares one pronunciation, of at most 63 sounds, with many.
type aligner struct {
	a          phones
	rest       []float32 // a.remains
	rowA, rowB [longest + 2]float32
}

// unlike returns the least cost of turning a into b, which rest belongs to. Only the cells of each row
// are followed from which the end can still be reached within the limit: for
// two names that have little in common these are a few.
func (x *aligner) unlike(b phones, rest []float32, limit float64) float64 {
	most := float32(limit) + 1e-4
	prev, next := &x.rowA, &x.rowB
	low, high := 0, 0 // live cells of prev; one beyond is far
	prev[0] = 0
	for high < len(b) && prev[high]+gap[b[high]&127] <= most {
		prev[high+1] = prev[high] + gap[b[high]&127]
		high++
	}
	prev[high+1] = far
	for i := 0; i < len(x.a); i++ {
		s := x.a[i] & 127
		g, costs, ahead := gap[s], &change[s], x.rest[i+1]
		left, first, last := far, -1, -1
		if low == 0 {
			left = prev[0] + g
			next[0] = left
			if left <= most {
				first, last = 0, 0
			}
		} else {
			next[low-1] = far
		}
		for j := max(low, 1); j <= len(b); j++ {
			y := b[j-1] & 127
			c := left + gap[y]
			if j <= high+1 {
				c = min(c, prev[j-1]+costs[y], prev[j]+g)
			} else if c > most {
				break
			}
			next[j], left = c, c
			if apart := ahead - rest[j]; c+leastPerWeight*max(apart, -apart) <= most {
				if first < 0 {
					first = j
				}
				last = j
			}
		}
		if first < 0 {
			return limit + 1
		}
		low, high = first, last
		next[high+1] = far
		prev, next = next, prev
	}
	if high < len(b) {
		return limit + 1
	}
	return float64(prev[len(b)])
}

// ends returns the groups of the first and last consonants of p, or -1.
func (p phones) ends() (first, last int8) {
	first, last = -1, -1
	for i := 0; i < len(p); i++ {
		if g := group(p[i]); g >= 0 {
			if first < 0 {
				first = g
			}
			last = g
		}
	}
	return first, last
}

// group is the broad group of a consonant, -1 for vowels and glides.
func group(c byte) int8 {
	switch c {
	case 'p', 'b', 'f', 'v':
		return 0
	case 't', 'd', 'T':
		return 1
	case 'k', 'g':
		return 2
	case 's', 'z', 'S', 'C', 'J':
		return 3
	case 'm', 'n', 'N':
		return 4
	case 'l', 'r':
		return 5
	}
	return -1
}
