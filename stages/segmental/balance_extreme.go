package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/stages/limits"
)

// Extreme is the largest or smallest value of a measure of what a pier receives, and what
// acts at once there.
type Extreme struct {
	Value float64
	Resultant
	Factors []float64 // of each part of the balance, in its order
	Largest string    // mark of the part with the largest share
	Words   string    // of the set of factors: a segment released, more weight on an arm; "" for none
}

// Extremes are the extremes of a measure in a combination.
type Extremes struct {
	Combination string // in words
	LimitState  string
	Least, Most Extreme
}

// Range are the extremes of a linear, homogeneous measure of what the pier receives (a
// reaction, the moment), exact over all factors of each combination of a rule. The error
// wraps [ErrSegmental].
func (b Balance) Range(rule Rule, standard limits.Standard, measure func(Resultant) float64) ([]Extremes, error) {
	combinations, err := b.combinations(rule, standard)
	if err != nil {
		return nil, err
	}
	if measure == nil {
		return nil, fmt.Errorf("%w: no measure: must be a function of the resultant", ErrSegmental)
	}
	var list []Extremes
	for _, c := range combinations {
		of := Extremes{Combination: c.name, LimitState: c.limitState, Most: b.most(c, measure)}
		of.Least = b.most(c, func(r Resultant) float64 { return -measure(r) })
		of.Least.Value = -of.Least.Value
		list = append(list, of)
	}
	return list, nil
}

// most is the largest value of a linear measure in a combination.
func (b Balance) most(c combination, measure func(Resultant) float64) Extreme {
	shares := b.shares(measure)
	worst := Extreme{Value: math.Inf(-1)}
	for _, s := range c.sets {
		if e := b.mostOf(s, shares); e.Value > worst.Value {
			worst = e
		}
	}
	return worst
}

// shares are the values of a linear measure of each part at factor 1.
func (b Balance) shares(measure func(Resultant) float64) []float64 {
	list := make([]float64, len(b.Parts))
	for i, p := range b.Parts {
		list[i] = measure(Resultant{p.Force, p.Force * p.Lever, p.Force * p.Across})
	}
	return list
}

// mostOf is the largest sum of shares in a set. Every part but the weights of an arm is at its own
// worse end; those weights are at one end together, the segment that is handled apart, and
// the factor of their arm by the sign of their sum.
func (b Balance) mostOf(s factorSet, shares []float64) Extreme {
	factors := make([]float64, len(shares))
	var low, high, apart [3]float64
	for i, p := range b.Parts {
		if !s.inArm[i] || p.Handled {
			factors[i] = worseEnd(s.own[i], shares[i])
		}
		switch a := armNumber(p.Arm); {
		case s.inArm[i] && p.Handled:
			apart[a] += factors[i] * shares[i]
		case s.inArm[i]:
			low[a] += s.own[i][0] * shares[i]
			high[a] += s.own[i][1] * shares[i]
		}
	}
	for i, p := range b.Parts {
		if !s.inArm[i] {
			continue
		}
		a := armNumber(p.Arm)
		if !p.Handled {
			factors[i] = worseEnd(s.own[i], high[a]-low[a])
		}
		factors[i] *= worseEnd(s.arm[a], math.Max(low[a], high[a])+apart[a])
	}
	e := Extreme{Resultant: b.resultant(factors), Factors: factors, Words: s.words}
	largest := math.Inf(-1)
	for i, share := range shares {
		e.Value += factors[i] * share
		if part := factors[i] * share; part > largest {
			largest, e.Largest = part, b.Parts[i].Mark
		}
	}
	return e
}

// worseEnd is the end of a range that makes a share larger.
func worseEnd(r [2]float64, share float64) float64 {
	if share >= 0 {
		return r[1]
	}
	return r[0]
}

// armNumber is the number of an arm.
func armNumber(a Arm) int {
	for i, of := range arms {
		if of == a {
			return i
		}
	}
	return 1
}
