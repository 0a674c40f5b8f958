package loads

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// Dynamic is the range of the dynamic factor of an operation on the weight: minimum
// (Least) and maximum (Most). A zero factor means 1 (at rest).
type Dynamic struct {
	Least, Most float64        // factors on the weight, 0 ≤ Least ≤ 1 ≤ Most ≤ 10; 0 means 1
	Source      formula.Source // where they come from, for the sheets; empty for an input
}

// AtRest is the Dynamic of an operation without dynamic effect, which must be stated.
func AtRest() Dynamic { return Dynamic{Least: 1, Most: 1} }

// mostDynamic is the maximum dynamic factor on a weight.
const mostDynamic = 10

// Range is minimum and maximum with zeros replaced by 1. The error wraps [ErrLoad]
// unless 0 ≤ Least ≤ 1 ≤ Most ≤ 10.
func (d Dynamic) Range() (least, most float64, err error) {
	least, most = d.Least, d.Most
	if least == 0 {
		least = 1
	}
	if most == 0 {
		most = 1
	}
	if !(least >= 0 && least <= 1 && most >= 1 && most <= mostDynamic) {
		return 0, 0, fmt.Errorf("%w: dynamic factors, minimum Least = %g, maximum Most = %g: must be 0 ≤ Least ≤ 1 ≤ Most ≤ %d (15 %% more is 1.15)", ErrLoad, least, most, mostDynamic)
	}
	return least, most, nil
}

// mostOver is the maximum tolerance above the weight; inverse questions need values far
// above those of practice.
const mostOver = 20

// Tolerance is the range of the true weight about the calculated one, as fractions:
// 0.03 is 3 %. Dynamic effects are not in it.
type Tolerance struct {
	Under, Over float64 // fraction of the weight, 0 ≤ Under < 1, 0 ≤ Over ≤ 20
}

// PlusMinus is a Tolerance with the same fraction on both sides; PlusMinus(0) states
// that there is none.
func PlusMinus(fraction float64) *Tolerance { return &Tolerance{Under: fraction, Over: fraction} }

// Range is the minimum and maximum factor on the weight, 1 − Under and 1 + Over. The
// error wraps [ErrLoad] when a fraction is out of range.
func (t Tolerance) Range() (least, most float64, err error) {
	if !(t.Under >= 0 && t.Under < 1 && t.Over >= 0 && t.Over <= mostOver) {
		return 0, 0, fmt.Errorf("%w: weight tolerance Under = %g, Over = %g: must be 0 ≤ Under < 1, 0 ≤ Over ≤ %d (3 %% is 0.03)", ErrLoad, t.Under, t.Over, mostOver)
	}
	return 1 - t.Under, 1 + t.Over, nil
}
