package measure

import (
	"math/big"
	"strconv"
)

// Exact gives a decimal number as the fraction that was typed: 0.06 is 3/50,
// not the float64 nearest to it.
func Exact(v float64) *big.Rat {
	r, ok := new(big.Rat).SetString(strconv.FormatFloat(v, 'f', -1, 64))
	if !ok {
		return new(big.Rat) // not a number, or infinite: no reader gives one
	}
	return r
}

// GramsPerML gives a strength told by weight as an exact fraction of grams in a
// millilitre: by definition 1 % is 1/100, 1:n is 1/n. It is false for units, for
// a dose without a volume and for a strength of nothing.
func (c Concentration) GramsPerML() (*big.Rat, bool) {
	amount := Exact(c.Amount)
	if amount.Sign() <= 0 {
		return nil, false
	}
	switch {
	case c.Form == PercentStrength:
		return amount.Quo(amount, big.NewRat(100, 1)), true
	case c.Form == DilutionStrength:
		return amount.Inv(amount), true
	case c.Form == MassInVolume && c.Volume > 0:
		amount.Quo(amount, Exact(float64(c.Volume)))
		return amount.Quo(amount, big.NewRat(1000, 1)), true
	}
	return nil, false
}

// Times says, exactly, how many times as strong c is as other. It is false
// where the two can't be compared: units with a weight, or a dose without a
// volume.
func (c Concentration) Times(other Concentration) (*big.Rat, bool) {
	if c.Form == UnitsInVolume && other.Form == UnitsInVolume && c.Volume > 0 && other.Volume > 0 && other.Amount > 0 {
		mine := new(big.Rat).Quo(Exact(c.Amount), Exact(float64(c.Volume)))
		its := new(big.Rat).Quo(Exact(other.Amount), Exact(float64(other.Volume)))
		return mine.Quo(mine, its), true
	}
	mine, ok := c.GramsPerML()
	its, also := other.GramsPerML()
	if !ok || !also {
		return nil, false
	}
	return mine.Quo(mine, its), true
}
