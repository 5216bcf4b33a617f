package kit

import (
	"cmp"
	"math/big"
	"slices"

	"caseleaf/content"
	"caseleaf/content/measure"
)

// Line is one thing to buy for the whole course.
type Line struct {
	Item     string // term
	Size     string // as first written
	Strength string // as bought; "" where none is told

	Need   int // pieces used, without spares
	Spares int // pieces on top
	Pack   int // sold in packs of; 0 where sold singly
	Packs  int // packs to buy
	Buy    int // pieces to buy: Need + Spares, rounded up to packs

	// Volume is what is needed in mL where the line is bought by volume, spares
	// included; nil where it is counted in pieces. Vial is what one as bought
	// holds, in mL, and Vials how many are needed; nil and 0 where not told.
	Volume *big.Rat
	Vial   *big.Rat
	Vials  int

	Uses []Use
}

// Use is what one station takes of a line over the whole course.
type Use struct {
	Station int // index in the course
	Count   int // pieces or portions, without spares
}

// key is what makes lines one.
type key struct {
	item, size, strength string
	byVolume             bool
}

// sum is a line in the course of being added up.
type sum struct {
	Line
	spares *big.Rat // pieces, not rounded yet

	carried       int // the most that one station asks for of what is carried
	carriedSpares *big.Rat
}

// Shopping lists what to buy, by the order in which the stations first name it.
func Shopping(c *content.Course) []Line {
	t := totals{course: c, at: map[key]*sum{}}
	for i := range c.Stations {
		for k := range c.Stations[i].Kit {
			t.add(i, &c.Stations[i].Kit[k])
		}
	}
	for _, d := range Dilutions(c) {
		t.dilute(d)
	}
	lines := make([]Line, len(t.order))
	for i, s := range t.order {
		lines[i] = s.closed()
	}
	return lines
}

type totals struct {
	course *content.Course
	at     map[key]*sum
	order  []*sum
}

// add counts one line of a station.
func (t *totals) add(station int, k *content.StationKit) {
	if !k.Item.Known() || !k.Count.Known() || k.Stock.Known() {
		return // what is diluted is bought as stock, see dilute
	}
	byVolume := k.Volume.Known() && k.Vial.Known()
	s := t.sum(key{k.Item.Value, sizeKey(sizeOf(k)), strengthOf(k.Strength), byVolume}, sizeOf(k))
	s.Pack = max(s.Pack, k.Pack.Or(0))
	n := usedBy(t.course, k)
	s.use(station, n)
	spare := share(n, sparePercent(t.course, k))
	if k.Carried.Or(false) {
		s.carry(n, spare)
		return
	}
	s.Need += n
	s.spares.Add(s.spares, spare)
	if byVolume {
		each := measure.Exact(float64(k.Volume.Value))
		s.pour(each.Mul(each, spare.Add(spare, big.NewRat(int64(n), 1))), measure.Exact(float64(k.Vial.Value)))
	}
}

// carry counts what goes from station to station.
func (s *sum) carry(n int, spare *big.Rat) {
	s.carried = max(s.carried, n)
	if spare.Cmp(s.carriedSpares) > 0 {
		s.carriedSpares = spare
	}
}

// dilute counts the stock of a dilution, and its diluent, for all waves.
func (t *totals) dilute(d Dilution) {
	waves := big.NewRat(int64(t.course.WaveCount()), 1)
	s := t.sum(key{d.Item, "", d.Stock.String(), true}, "")
	s.Pack = max(s.Pack, d.Pack)
	s.use(d.Station, d.Portions*t.course.WaveCount())
	s.pour(new(big.Rat).Mul(d.Take, waves), d.Vial)
	if d.Diluent != "" {
		s = t.sum(key{d.Diluent, "", "", true}, "")
		s.use(d.Station, t.course.WaveCount())
		s.pour(new(big.Rat).Mul(d.Add, waves), nil)
	}
}

// pour adds a volume in mL.
func (s *sum) pour(mL, vial *big.Rat) {
	if s.Volume == nil {
		s.Volume = new(big.Rat)
	}
	s.Volume.Add(s.Volume, mL)
	if vial != nil && vial.Sign() > 0 && (s.Vial == nil || vial.Cmp(s.Vial) > 0) {
		s.Vial = vial
	}
}

func (s *sum) use(station, n int) {
	for i := range s.Uses {
		if s.Uses[i].Station == station {
			s.Uses[i].Count += n
			return
		}
	}
	s.Uses = append(s.Uses, Use{station, n})
}

func (t *totals) sum(k key, size string) *sum {
	if s, ok := t.at[k]; ok {
		return s
	}
	s := &sum{Line: Line{Item: k.item, Size: size, Strength: k.strength}, spares: new(big.Rat), carriedSpares: new(big.Rat)}
	t.at[k] = s
	t.order = append(t.order, s)
	return s
}

// closed rounds up what was added.
func (s *sum) closed() Line {
	l := s.Line
	slices.SortFunc(l.Uses, func(a, b Use) int { return cmp.Compare(a.Station, b.Station) })
	if l.Volume != nil {
		l.Need = 0
		if l.Vial != nil {
			l.Vials = ceil(new(big.Rat).Quo(l.Volume, l.Vial))
		}
		l.Buy, l.Packs = packed(l.Vials, l.Pack)
		return l
	}
	l.Need += s.carried
	l.Spares = ceil(new(big.Rat).Add(s.spares, s.carriedSpares))
	l.Buy, l.Packs = packed(l.Need+l.Spares, l.Pack)
	return l
}

// packed rounds a number of pieces up to whole packs.
func packed(pieces, pack int) (buy, packs int) {
	if pack < 2 {
		return pieces, 0
	}
	packs = (pieces + pack - 1) / pack
	return packs * pack, packs
}

// usedBy is how many pieces of a line the whole course uses.
func usedBy(c *content.Course, k *content.StationKit) int {
	n, waves := k.Count.Value, c.WaveCount()
	if k.Carried.Or(false) {
		waves = 1
	}
	switch k.Per.Or("station") {
	case "group":
		return n * len(c.Lineup()) * waves
	case "participant":
		return n * c.Participants() * waves
	}
	return n
}

// sparePercent is the share of spares of a line, in per cent.
func sparePercent(c *content.Course, k *content.StationKit) float64 {
	if k.Spare.Known() || k.Per.Or("station") == "station" {
		return k.Spare.Or(0)
	}
	return c.Spares.Or(0)
}

// share is a percentage of a number of pieces, exactly.
func share(n int, percent float64) *big.Rat {
	r := measure.Exact(percent)
	return r.Mul(r, big.NewRat(int64(n), 100))
}

// ceil rounds up to a whole number.
func ceil(r *big.Rat) int {
	q, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		return int(q.Int64()) + 1
	}
	return int(q.Int64())
}

// sizeOf is the size of a line, or the volume of each where it has only that.
func sizeOf(k *content.StationKit) string {
	if !k.Size.Known() && k.Volume.Known() && !k.Vial.Known() {
		return k.Volume.Value.String()
	}
	return k.Size.Value
}

func strengthOf(g content.Given[measure.Concentration]) string {
	if g.Known() {
		return g.Value.String()
	}
	return ""
}

// sizeKey writes a size in one way, whatever unit it was told in; what is no
// length, volume, mass or gauge stays as typed.
func sizeKey(size string) string {
	if v, err := measure.ParseLength(size); err == nil {
		return v.String()
	}
	if v, err := measure.ParseVolume(size); err == nil {
		return v.String()
	}
	if v, err := measure.ParseMass(size); err == nil {
		return v.String()
	}
	if v, err := measure.ParseGauge(size); err == nil {
		return v.String()
	}
	return size
}
