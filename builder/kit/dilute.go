package kit

import (
	"math/big"

	"caseleaf/content"
	"caseleaf/content/measure"
)

// Dilution is how a stock becomes what one station needs for one wave. All
// volumes are exact, in mL: Take + Add = Make.
type Dilution struct {
	Station  int    // index in the course
	Item     string // term
	Diluent  string // term; "" where the author named none
	Stock    measure.Concentration
	Working  measure.Concentration
	Times    *big.Rat // how many times as strong the stock is
	Portions int      // how many are needed
	Each     *big.Rat // volume of one
	Spare    float64  // per cent
	Need     *big.Rat // Portions × Each, and the spares
	Take     *big.Rat // of the stock
	Add      *big.Rat // of the diluent
	Make     *big.Rat // what comes of it: Need, or more so that all three can be measured
	Step     *big.Rat // what all three are multiples of; nil where no syringe measures them exactly
	Vial     *big.Rat // what one of the stock as bought holds; nil where not told
	Pack     int
}

// Dilutions lists what is diluted, station by station.
func Dilutions(c *content.Course) []Dilution {
	var list []Dilution
	for i := range c.Stations {
		for k := range c.Stations[i].Kit {
			if d, ok := dilution(c, i, &c.Stations[i].Kit[k]); ok {
				list = append(list, d)
			}
		}
	}
	return list
}

func dilution(c *content.Course, station int, k *content.StationKit) (Dilution, bool) {
	if !k.Stock.Known() || !k.Strength.Known() || !k.Volume.Known() || !k.Item.Known() || !k.Count.Known() {
		return Dilution{}, false
	}
	times, ok := k.Stock.Value.Times(k.Strength.Value)
	if !ok || times.Cmp(one) < 0 {
		return Dilution{}, false
	}
	d := Dilution{
		Station: station, Item: k.Item.Value, Diluent: k.Diluent.Value,
		Stock: k.Stock.Value, Working: k.Strength.Value, Times: times,
		Each: measure.Exact(float64(k.Volume.Value)), Spare: sparePercent(c, k), Pack: k.Pack.Or(0),
	}
	d.Portions = inWave(c, k)
	if k.Vial.Known() {
		d.Vial = measure.Exact(float64(k.Vial.Value))
	}
	d.Need = new(big.Rat).Mul(d.Each, share(d.Portions, 100+d.Spare))
	d.Take, d.Make, d.Step = measured(d.Need, times)
	d.Add = new(big.Rat).Sub(d.Make, d.Take)
	return d, true
}

var one = big.NewRat(1, 1)

// steps are the marks of common syringes, in mL: of 5 or 10 mL, of 1 mL, and of
// a fine one (common practice, no source).
var steps = []*big.Rat{big.NewRat(1, 10), big.NewRat(1, 100)}

// measured finds the smallest volumes that are enough and can be measured: from
// V₁ = V₂ ÷ (C₁ ÷ C₂), with V₁, V₂ and so their difference multiples of a step.
// A coarse step that would more than double what is made gives way to a finer
// one; where no step serves, the volumes are exactly what is needed.
func measured(need, times *big.Rat) (take, made, step *big.Rat) {
	twice := new(big.Rat).Mul(need, big.NewRat(2, 1))
	for _, s := range steps {
		// With times = a/b in lowest terms, take × a/b is a whole number of steps
		// exactly when take is a multiple of b steps.
		unit := new(big.Rat).Mul(s, new(big.Rat).SetInt(times.Denom()))
		n := ceil(new(big.Rat).Quo(need, new(big.Rat).Mul(unit, times)))
		take = new(big.Rat).Mul(unit, big.NewRat(int64(n), 1))
		made = new(big.Rat).Mul(take, times)
		if made.Cmp(twice) <= 0 {
			return take, made, s
		}
	}
	return new(big.Rat).Quo(need, times), need, nil
}
