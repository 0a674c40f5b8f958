package derive

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
)

// The numbers of a row. Those from count to torsion have a column of their own.
const (
	count = iota
	force
	cosX
	cosY
	cosZ
	levelY
	levelZ
	normal
	momentY
	momentZ
	other
	shearY
	shearZ
	torsion
	columns
	pointY = iota - 1
	pointZ
	value
	kinds
)

// heads are the columns with their coarsest last digit.
var heads = [columns]Column{
	count: {"n", formula.One, 0}, force: {"P", formula.Newton, 2},
	cosX: {"cos", formula.One, -5}, cosY: {"cos_y", formula.One, -5}, cosZ: {"cos_z", formula.One, -5},
	levelY: {"y", formula.Metre, -4}, levelZ: {"z", formula.Metre, -4},
	normal: {"N", formula.Newton, 3}, momentY: {"M_y", formula.NewtonMetre, 3}, momentZ: {"M_z", formula.NewtonMetre, 3},
	other:  {"σ_0", formula.Pascal, 3},
	shearY: {"V_y", formula.Newton, 3}, shearZ: {"V_z", formula.Newton, 3}, torsion: {"T", formula.NewtonMetre, 3},
}

// numbers are the numbers of one row, in full precision or as printed.
type numbers [kinds]float64

// rule gives one number of a row from others.
type rule struct {
	result int
	from   []int
	is     func(n *numbers, s *state) float64
}

// state is what a row is referred to; one of the two is zero.
type state struct {
	section Section
	flow    Flow
}

var (
	stress = rule{value, []int{normal, momentY, momentZ, other, pointY, pointZ}, func(n *numbers, s *state) float64 {
		return n[other] + s.section.Stress(n[normal], n[momentY], n[momentZ], section.Point{Y: n[pointY], Z: n[pointZ]})
	}}
	shear = rule{value, []int{shearY, shearZ, torsion}, func(n *numbers, s *state) float64 {
		return s.flow.Shear(n[shearY], n[shearZ], n[torsion])
	}}
	// tendonBends and tendonShears are the forces of tendons on the concrete.
	tendonBends = []rule{
		{normal, []int{force, cosX}, func(n *numbers, _ *state) float64 { return -n[count] * n[force] * n[cosX] }},
		{momentY, []int{force, cosX, levelZ}, func(n *numbers, s *state) float64 {
			return n[count] * n[force] * n[cosX] * (n[levelZ] - s.section.Z)
		}},
		{momentZ, []int{force, cosX, levelY}, func(n *numbers, s *state) float64 {
			return n[count] * n[force] * n[cosX] * (n[levelY] - s.section.Y)
		}},
	}
	tendonShears = []rule{
		{shearY, []int{force, cosY}, func(n *numbers, _ *state) float64 { return n[count] * n[force] * n[cosY] }},
		{shearZ, []int{force, cosZ}, func(n *numbers, _ *state) float64 { return n[count] * n[force] * n[cosZ] }},
	}
)

// rules are those of a row.
func (by Relation) rules(tendons bool) []rule {
	switch {
	case by == Bending && tendons:
		return append(tendonBends[:3:3], stress)
	case by == Bending:
		return []rule{stress}
	case by == Shearing && tendons:
		return append(tendonShears[:2:2], shear)
	case by == Shearing:
		return []rule{shear}
	}
	return nil
}

// within is true when a number, recomputed from printed digits and rounded to
// the digit 10^last, differs from the printed one by no more than one unit there.
func within(recomputed, printed float64, last int) bool {
	return math.Abs(recomputed-printed) <= scaled(1.5+1e-6, last)
}

// States are the section states and cuts that rows are referred to; the one with
// Number n has index n−1.
type States struct {
	Sections []Section `json:"sections,omitempty"`
	Flows    []Flow    `json:"flows,omitempty"`
}

// at is what a row is referred to.
func (s States) at(by Relation, on int) (state, error) {
	switch {
	case by == Bending && on >= 1 && on <= len(s.Sections):
		return state{section: s.Sections[on-1]}, nil
	case by == Shearing && on >= 1 && on <= len(s.Flows):
		return state{flow: s.Flows[on-1]}, nil
	case by == Given:
		return state{}, nil
	case by == Bending:
		return state{}, fmt.Errorf("%w: row on section state %d: must be 1 to %d", ErrDerive, on, len(s.Sections))
	case by == Shearing:
		return state{}, fmt.Errorf("%w: row on cut %d: must be 1 to %d", ErrDerive, on, len(s.Flows))
	}
	return state{}, fmt.Errorf("%w: relation %q: must be %q, %q or %q", ErrDerive, by, Given, Bending, Shearing)
}
