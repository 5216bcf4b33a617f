package decide

import (
	"errors"
	"math/big"
)

// ErrCannotMove: the other branches have nothing that could grow in proportion.
var ErrCannotMove = errors.New("other branches have total 0")

// Rescale moves one probability of a chance node to a new value and rescales
// the others in proportion, pⱼ·(1-to)/(1-pᵢ), so that they still sum to 1. The
// arguments are left alone. A branch at probability 1 cannot be moved away from
// it: [ErrCannotMove]. (common practice, no source)
func Rescale(p []*big.Rat, index int, to *big.Rat) ([]*big.Rat, error) {
	one := big.NewRat(1, 1)
	if index < 0 || index >= len(p) || to.Sign() < 0 || to.Cmp(one) > 0 {
		return nil, errors.New("no such branch or probability")
	}
	others := new(big.Rat).Sub(one, p[index])
	moved := make([]*big.Rat, len(p))
	if others.Sign() == 0 {
		if to.Cmp(one) != 0 {
			return nil, ErrCannotMove
		}
		copy(moved, p)
		return moved, nil
	}
	scale := new(big.Rat).Quo(new(big.Rat).Sub(one, to), others)
	for j := range p {
		moved[j] = new(big.Rat).Mul(p[j], scale)
	}
	moved[index] = new(big.Rat).Set(to)
	return moved, nil
}
