package ledger

import (
	"fmt"
	"math"
)

// Cause is a factor with a range that all entries of one origin share: weight
// tolerance, dynamic factor, prestress r, presence of the wind (−1 to 1).
//
// An inner cause enters sums linearly, so its worst value follows from the sign
// of its sum. An outer cause multiplies entries of other causes and is tried at
// both ends.
type Cause struct {
	Least, Most float64
	Outer       bool
}

// Term says which causes multiply an entry of the ledger.
type Term struct {
	Outer []int // outer causes, by index; nil: none
	Inner int   // inner cause, by index; −1: none
	Part  []int // at most one inner cause of this part of the group only (a zone factor on one tendon); nil: none
}

// limitOuter is the largest number of outer causes with a range: 1024 corners.
const limitOuter = 10

// Combination is causes and terms laid out for sums: one column for the entries
// without inner cause, one for each inner cause, one for each part with a factor
// of its own. Sums have one value for each column.
type Combination struct {
	causes  int
	terms   int
	columns int
	corners [][]float64 // value of every outer cause, 1 for inner ones
	weights [][]float64 // at each corner, the product of outer factors of each term
	column  []int       // of each term
	groups  []group
	apart   int // columns of tendons kept apart, the last
}

// group is an inner cause with the parts of it that have a factor of their own:
// what it contributes is factor × (sum + Σ part factor × part sum).
type group struct {
	factor
	parts []factor
}

// factor is the range of a cause and the column of the sum that it multiplies.
type factor struct {
	cause, column int
	least, most   float64
}

// NewCombination lays out the corners of the outer causes and the columns of the
// inner ones. A cause with a range that is not finite or is reversed, a term
// with an index that is none or of the wrong sort, and a part cause shared by two groups
// are errors.
func NewCombination(causes []Cause, terms []Term) (*Combination, error) {
	c := &Combination{causes: len(causes), terms: len(terms), columns: 1}
	for i, cause := range causes {
		if !(cause.Least <= cause.Most) || math.IsInf(cause.Least, 0) || math.IsInf(cause.Most, 0) {
			return nil, fmt.Errorf("%w: causes[%d] = %g to %g: must be finite, Least not above Most", ErrLedger, i, cause.Least, cause.Most)
		}
	}
	if err := c.layCorners(causes); err != nil {
		return nil, err
	}
	for e, term := range terms {
		if err := c.check(causes, e, term); err != nil {
			return nil, err
		}
		column, err := c.layTerm(causes, e, term)
		if err != nil {
			return nil, err
		}
		c.column = append(c.column, column)
	}
	c.weights = make([][]float64, len(c.corners))
	for k, corner := range c.corners {
		c.weights[k] = make([]float64, len(terms))
		for e, term := range terms {
			c.weights[k][e] = 1
			for _, i := range term.Outer {
				c.weights[k][e] *= corner[i]
			}
		}
	}
	return c, nil
}

// layCorners lists both ends of every outer cause that has a range.
func (c *Combination) layCorners(causes []Cause) error {
	first := make([]float64, len(causes))
	ranged := 0
	for i, cause := range causes {
		first[i] = 1
		if cause.Outer {
			first[i] = cause.Least
			if cause.Least < cause.Most {
				ranged++
			}
		}
	}
	if ranged > limitOuter {
		return fmt.Errorf("%w: %d outer causes with a range: must be at most %d", ErrLedger, ranged, limitOuter)
	}
	c.corners = [][]float64{first}
	for i, cause := range causes {
		if !cause.Outer || cause.Least == cause.Most {
			continue
		}
		for _, corner := range c.corners { // those so far
			other := append([]float64(nil), corner...)
			other[i] = cause.Most
			c.corners = append(c.corners, other)
		}
	}
	return nil
}

// check refuses indices that are none or of the wrong sort.
func (c *Combination) check(causes []Cause, e int, term Term) error {
	for _, i := range term.Outer {
		if i < 0 || i >= len(causes) || !causes[i].Outer {
			return fmt.Errorf("%w: terms[%d].Outer has %d: must be the index of an outer cause", ErrLedger, e, i)
		}
	}
	if i := term.Inner; i < -1 || i >= len(causes) || i >= 0 && causes[i].Outer {
		return fmt.Errorf("%w: terms[%d].Inner = %d: must be the index of an inner cause, or -1", ErrLedger, e, i)
	}
	if len(term.Part) > 1 {
		return fmt.Errorf("%w: terms[%d].Part has %d causes: must be at most one", ErrLedger, e, len(term.Part))
	}
	for _, i := range term.Part {
		if i < 0 || i >= len(causes) || causes[i].Outer || i == term.Inner {
			return fmt.Errorf("%w: terms[%d].Part has %d: must be the index of an inner cause other than Inner", ErrLedger, e, i)
		}
	}
	return nil
}

// layTerm is the column of the term, new if it is the first of its causes.
func (c *Combination) layTerm(causes []Cause, e int, term Term) (int, error) {
	inner, part := term.Inner, -1
	if len(term.Part) == 1 {
		part = term.Part[0]
	}
	if inner < 0 { // a part of no group is a group
		inner, part = part, -1
	}
	if inner < 0 {
		return 0, nil
	}
	for i := range c.groups {
		for _, p := range c.groups[i].parts {
			if p.cause == inner || p.cause == part && c.groups[i].cause != inner {
				return 0, fmt.Errorf("%w: terms[%d]: causes[%d] is a factor of a part of causes[%d]: must be of that group only",
					ErrLedger, e, p.cause, c.groups[i].cause)
			}
		}
		if c.groups[i].cause == part {
			return 0, fmt.Errorf("%w: terms[%d]: causes[%d] is a factor of a part here and of a group before: must be one of both", ErrLedger, e, part)
		}
	}
	g := c.groupOf(causes, inner)
	if part < 0 {
		return g.column, nil
	}
	for _, p := range g.parts {
		if p.cause == part {
			return p.column, nil
		}
	}
	g.parts = append(g.parts, c.newFactor(causes, part))
	return g.parts[len(g.parts)-1].column, nil
}

// groupOf is the group of the inner cause, made when it is not there yet.
func (c *Combination) groupOf(causes []Cause, inner int) *group {
	for i := range c.groups {
		if c.groups[i].cause == inner {
			return &c.groups[i]
		}
	}
	c.groups = append(c.groups, group{factor: c.newFactor(causes, inner)})
	return &c.groups[len(c.groups)-1]
}

func (c *Combination) newFactor(causes []Cause, i int) factor {
	c.columns++
	return factor{i, c.columns - 1, causes[i].Least, causes[i].Most}
}

// Columns is the number of sums.
func (c *Combination) Columns() int { return c.columns }

// Corners is the number of corners of the outer causes, at least 1.
func (c *Combination) Corners() int { return len(c.corners) }

// Corner is the value of every outer cause at corner k, in the order of the causes; inner
// ones have 1. It must not be changed.
func (c *Combination) Corner(k int) []float64 { return c.corners[k] }
