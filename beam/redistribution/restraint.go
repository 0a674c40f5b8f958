package redistribution

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// Restraint is the effect of prestress on a beam on its supports.
type Restraint struct {
	// Primary is the moment in a beam free to bend.
	Primary Primary
	// Response is the restraint alone: its moments are the secondary moments, its
	// reactions balance each other, its deflection is that of the prestressed
	// beam (upwards positive).
	Response *beam.Response
}

// Restrain is the restraint that a primary moment raises in a layout: primary
// over EI is imposed as a curvature, fitted piece by piece to a relative 1e-9. A
// determinate layout gives zero moments. The layout's own settlements are left
// out, and supports that can lift off are refused. The error wraps [ErrRedistribution] or is that of package beam.
func Restrain(layout beam.Layout, primary Primary) (*Restraint, error) {
	if primary.Moment == nil {
		return nil, fmt.Errorf("%w: Primary.Moment is missing: must be a function of x", ErrRedistribution)
	}
	layout.Supports = slices.Clone(layout.Supports)
	for i, support := range layout.Supports {
		if support.Contact {
			return nil, fmt.Errorf("%w: Supports[%d] at %g m can lift off: must be supports without Contact, as the dead load is not included here", ErrRedistribution, i, support.At)
		}
		layout.Supports[i].Settlement = 0
	}
	b, err := beam.New(layout)
	if err != nil {
		return nil, err
	}
	bent, err := polynomials("imposed curvature", "1/m", places(layout, primary.Breaks), func(x float64) float64 { return primary.Moment(x) / bending(layout, x) })
	if err != nil {
		return nil, err
	}
	response, err := b.Solve(loads.Set{Curvatures: bent})
	if err != nil {
		return nil, err
	}
	return &Restraint{Primary: primary, Response: response}, nil
}

// Secondary is the restraint moment at x (N·m, sagging positive); 0 where there is no
// beam.
func (r *Restraint) Secondary(x float64) float64 {
	if r == nil {
		return 0
	}
	return r.Response.Moment(x)
}

// Total is primary and restraint moment at x together (N·m, sagging positive).
func (r *Restraint) Total(x float64) float64 {
	if r == nil || r.Primary.Moment == nil {
		return r.Secondary(x)
	}
	return r.Primary.Moment(x) + r.Secondary(x)
}

// nearest is the distance (m) below which two breaks count as one.
const nearest = 1e-6

// places are the ends of the beam and of its stretches and the breaks inside,
// ascending.
func places(layout beam.Layout, breaks []float64) []float64 {
	all := []float64{0, layout.Length}
	for _, s := range layout.Stiffness {
		all = append(all, s.To)
	}
	all = append(all, breaks...)
	return ascending(all, layout.Length)
}

// ascending keeps what is on a beam of this length, once, ends exactly.
func ascending(all []float64, length float64) []float64 {
	slices.Sort(all)
	kept := []float64{0}
	for _, x := range all {
		if x > kept[len(kept)-1]+nearest && x < length-nearest {
			kept = append(kept, x)
		}
	}
	return append(kept, length)
}

// bending is EI at x (N·m²), of the right stretch at a joint.
func bending(layout beam.Layout, x float64) float64 {
	for i, s := range layout.Stiffness {
		if x < s.To || i == len(layout.Stiffness)-1 {
			if s.BendingAt != nil {
				return s.BendingAt(x)
			}
			return s.BendingStiffness
		}
	}
	return math.NaN()
}
