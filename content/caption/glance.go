package caption

import (
	"cmp"
	"slices"
	"sort"
)

// A stretch is compared sound by sound only with the names that it could stand
// for at a glance: of some four thousand these are a few dozen.

// outline counts the consonants of a pronunciation by broad group: two that
// are alike have like outlines, which is quick to see.
type outline [6]int8

func (p phones) outline() (o outline) {
	for i := 0; i < len(p); i++ {
		if g := group(p[i]); g >= 0 {
			o[g]++
		}
	}
	return o
}

// leastCost returns two prices of what one outline has too many of, which must
// be changed or left out: one below which two such pronunciations cannot well
// lie, and one below which they cannot lie at all. A sound of another group is
// changed for at least 0.3, and for 0.6 if one of the two is of k, m or l; l and
// r come and go as part of a vowel for 0.15, and the others for 0.5 or more.
func (o *outline) leastCost(p *outline) (well, surely float64) {
	more, fewer, softMore, softFewer := 0, 0, 0, 0
	for i := range o {
		x := int(o[i]) - int(p[i])
		more += max(x, 0)
		fewer += max(-x, 0)
		if i == 0 || i == 1 || i == 3 {
			softMore += max(x, 0)
			softFewer += max(-x, 0)
		}
	}
	both, alone := min(more, fewer), max(more, fewer)-min(more, fewer)
	hard := both - min(softMore, softFewer, both)
	liquid := int(o[5]) - int(p[5])
	liquid = min(alone, max(liquid, -liquid))
	return 0.35*float64(both) + weakIndel*float64(alone), 0.3*float64(both+hard) + 0.5*float64(alone) - 0.35*float64(liquid)
}

// silhouette is what is seen of a form at a glance: most forms that a stretch
// cannot stand for are set aside by it alone.
type silhouette struct {
	outline outline
	strict  bool // to be heard almost as it is written
	form    int32
	weight  float64
	sound   phones
	rest    []float32 // of sound, see remains
}

// groups is how many groups of consonants there are, and none.
const groups = 7

// corner is the place in byEnds of forms that begin and end with these groups.
func corner(first, last int8) int { return int(first+1)*groups + int(last+1) }

// draw adds the silhouette of a form.
func (l *lexicon) draw(at int) {
	f := &l.forms[at]
	s := silhouette{form: int32(at), sound: f.sound, rest: f.sound.remains(), outline: f.sound.outline(), weight: f.weight, strict: f.source == listed || f.source == derived || f.initial}
	c := corner(f.sound.ends())
	l.byEnds[c] = append(l.byEnds[c], s)
}

// sortByWeight puts the lightest forms first.
func (l *lexicon) sortByWeight() {
	for _, list := range l.byEnds {
		slices.SortStableFunc(list, func(a, b silhouette) int { return cmp.Compare(a.weight, b.weight) })
	}
}

// see
// candidates passes on the forms that a sound could stand for, none of them
// further off than reach allows for one of its weight: one end alike, about the
// same weight, about the same sounds. limit is the greatest that reach returns.
func (l *lexicon) candidates(sound phones, limit float64, reach func(*silhouette) float64, try func(*silhouette, float64)) {
	weight, shape := sound.weight(), sound.outline()
	first, last := sound.ends()
	apart := min(limit+weightSlack, limit/leastPerWeight)
	among := func(list []silhouette) {
		from := sort.Search(len(list), func(i int) bool { return list[i].weight >= weight-apart })
		for i := from; i < len(list) && list[i].weight <= weight+apart; i++ {
			s := &list[i]
			well, surely := shape.leastCost(&s.outline)
			if well > limit+outlineSlack || surely > limit {
				continue
			}
			if r := reach(s); surely <= r && leastPerWeight*max(weight-s.weight, s.weight-weight) <= r {
				try(s, r)
			}
		}
	}
	for g := int8(-1); g < groups-1; g++ {
		among(l.byEnds[corner(first, g)])
		if g != first {
			among(l.byEnds[corner(g, last)])
		}
	}
}
