package privacy

import (
	"hash/maphash"
	"sync"
	"sync/atomic"
)

// known remembers texts that were silent, by their sums, so that none is
// scanned again. It has a bounded number of places: where none is left the newest
// takes that of another, which is scanned once more when it comes again. Nothing
// is ever found or missed for lack of room.
//
// Two texts with one sum would be taken for one, and the second not be looked
// at. Sums have 64 bits and are keyed with a seed drawn anew for each known, so
// that nobody can write a text to meet the sum of another, in this run or from
// one run to the next. By chance one text meets one of four million sums in
// one of 4e12 builds; and it has to be one that holds an identifier.
//
// It is safe for concurrent use without locks: a sum that is lost between two
// writers is one more text to scan.
type known struct {
	seed  maphash.Seed
	most  int // places at most, a power of two; 0 remembers nothing
	grow  sync.Mutex
	sums  atomic.Pointer[[]atomic.Uint64]
	count atomic.Int64
}

const (
	knownLeast = 1 << 10 // places at the beginning, 8 kB
	knownMost  = 1 << 20 // places at most, 8 MB
	knownWays  = 8       // places that a sum may take, beside one another
)

func newKnown(most int) *known {
	k := &known{seed: maphash.MakeSeed(), most: most}
	sums := make([]atomic.Uint64, min(most, knownLeast))
	k.sums.Store(&sums)
	return k
}

// sum is the sum of a text that was read in the given way; never 0, which is an
// empty place.
func (k *known) sum(text []byte, way uint64) uint64 {
	return max(1, maphash.Bytes(k.seed, text)^way)
}

// sumString is sum of a text that is read in no particular way.
func (k *known) sumString(text string) uint64 { return max(1, maphash.String(k.seed, text)) }

// way is the sum of what a text is read by.
func (k *known) way(zone Zone, base flag) uint64 {
	var h maphash.Hash
	h.SetSeed(k.seed)
	_, _ = h.WriteString(string(zone))
	_, _ = h.Write([]byte{0, byte(base >> 8), byte(base)})
	return h.Sum64()
}

// has says whether a sum is known.
func (k *known) has(sum uint64) bool {
	sums := *k.sums.Load()
	if len(sums) == 0 {
		return false
	}
	places := places(sums, sum)
	for i := range places {
		switch places[i].Load() {
		case sum:
			return true
		case 0:
			return false
		}
	}
	return false
}

// add remembers a sum.
func (k *known) add(sum uint64) {
	sums := *k.sums.Load()
	if len(sums) == 0 {
		return
	}
	if n := k.count.Add(1); n > int64(len(sums)/2) && len(sums) < k.most {
		sums = k.enlarge(len(sums))
	}
	put(sums, sum)
}

// enlarge doubles the room of a known that has the given number of places.
func (k *known) enlarge(from int) []atomic.Uint64 {
	k.grow.Lock()
	defer k.grow.Unlock()
	old := *k.sums.Load()
	if len(old) > from {
		return old // another has done it
	}
	sums := make([]atomic.Uint64, 2*len(old))
	for i := range old {
		if sum := old[i].Load(); sum != 0 {
			put(sums, sum)
		}
	}
	k.sums.Store(&sums)
	return sums
}

// places are those that a sum may take.
func places(sums []atomic.Uint64, sum uint64) []atomic.Uint64 {
	from := int(sum) & (len(sums) - 1) &^ (knownWays - 1)
	return sums[from : from+knownWays]
}

// put writes a sum to a free place, or to one that the sum itself chooses.
func put(sums []atomic.Uint64, sum uint64) {
	places := places(sums, sum)
	for i := range places {
		if old := places[i].Load(); old == 0 || old == sum {
			places[i].Store(sum)
			return
		}
	}
	places[sum>>32%knownWays].Store(sum)
}
