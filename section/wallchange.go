package section

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Change is two sections of a member a short distance apart and the forces on
// them.
type Change struct {
	Distance      float64 // between the sections, m, positive
	Before, After Shape   // with the same corners as the shape of the walls, idle ones too, drawn the same way; equal for an even member
	From, To      Forces  // on Before and on After: N, My and Mz count
}

// Between is the shear flow across cuts (N/m, Towards as for [WallShear]) where the
// section may vary along the member: the change over the distance of the normal force
// beyond the cut, and the flow round the cells. The walls are those half-way; the ends
// of a cut keep their share of the edge they are on, from corner to corner but those
// that are straight in all three sections. The part of the shear in inclined slabs is
// thereby excluded; with a constant section the flow is Vy·Y + Vz·Z. A torque about the
// shear centre adds T times [WallCut.T]. A change of N acts spread over the area.
// Without cuts they are the walls' own. The error falls with the square of the
// distance. The error value wraps [ErrShape] when the distance is not finite and
// positive, a force is not finite, a shape does not have the corners of the walls' own,
// or a cut is not one.
func (w Walls) Between(c Change, cuts ...WallCut) ([]float64, error) {
	if err := w.checkChange(c); err != nil {
		return nil, err
	}
	if len(cuts) == 0 {
		cuts = w.Cuts
	}
	mean := (c.From.N + c.To.N) / 2
	corners := w.corners(c)
	before, after := c.Before.of(corners).loaded(c.From, mean), c.After.of(corners).loaded(c.To, mean)
	pieces := w.shape.pieces(corners)
	passing := func(near, far spot) float64 {
		near, far = near.on(pieces), far.on(pieces)
		return (before.beyond(near, far) - after.beyond(near, far)) / c.Distance
	}
	closing, err := w.closingOf(passing)
	if err != nil {
		return nil, err
	}
	flows := make([]float64, len(cuts))
	for i, cut := range cuts {
		near, far, err := w.ends(cut.Cut)
		if err != nil {
			return nil, err
		}
		flows[i] = passing(near, far) + at(closing, w.net.void(near)) - at(closing, w.net.void(far))
	}
	return flows, nil
}

// corners are those of each outline that are not straight between their
// neighbours in both sections of a change and half-way.
func (w Walls) corners(c Change) [][]int {
	gap := onTheLine * extent(w.shape.outlines)
	corners := make([][]int, len(w.shape.outlines))
	for k, half := range w.shape.drawn.outlines {
		left := append(turning(gap, c.Before.outlines[k], half, c.After.outlines[k]), w.shape.corners[k]...)
		slices.Sort(left)
		corners[k] = slices.Compact(left)
	}
	return corners
}

// at is the flow round a void, none for −1.
func at(closing []float64, void int) float64 {
	if void < 0 {
		return 0
	}
	return closing[void]
}

// closingOf is the flow round each void that keeps the section from twisting.
func (w Walls) closingOf(passing func(near, far spot) float64) ([]float64, error) {
	if w.Cells == 0 {
		return nil, nil
	}
	right := mat.NewDense(w.Cells, 1, nil)
	w.net.slips(func(void, _ int, s *station, slip float64) {
		right.Set(void, 0, right.At(void, 0)-slip*passing(s.near, s.far))
	})
	closing, err := w.cells.solve(right)
	if err != nil {
		return nil, err
	}
	return mat.Col(nil, 0, closing), nil
}

// loaded is a shape under bending.
type loaded struct {
	faces  []face
	stream stream
	stress flows // in 1, y and z from the centroid
}

func (s Shape) loaded(f Forces, normal float64) loaded {
	p := s.Properties()
	f.N = normal
	plane := p.Plane(f)
	faces := s.faces(p.Centroid)
	return loaded{faces, s.stream(faces, s.cores(p.Centroid), nil), flows{normal / p.Area, plane.SlopeY, plane.SlopeZ}}
}

// beyond is the normal force of what is on the right of a cut, but for a
// constant of each void.
func (l loaded) beyond(near, far spot) float64 {
	near.at = between(l.faces[near.face].from, l.faces[near.face].to, near.part)
	far.at = between(l.faces[far.face].from, l.faces[far.face].to, far.part)
	return l.stream.across(l.faces, near, far).times(l.stress)
}

func (w Walls) checkChange(c Change) error {
	if w.net == nil || w.net.stream.unlike != nil {
		return fmt.Errorf("%w: flows in zero Walls or transformed ones: must be made by Shape.Walls", ErrShape)
	}
	if !(c.Distance > 0) || math.IsInf(c.Distance, 0) {
		return fmt.Errorf("%w: Change.Distance = %g m: must be finite and positive", ErrShape, c.Distance)
	}
	for _, f := range [2]Forces{c.From, c.To} {
		if v := f.N + f.My + f.Mz; math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("%w: Change: N = %g N, My = %g N·m, Mz = %g N·m: must be finite", ErrShape, f.N, f.My, f.Mz)
		}
	}
	for name, s := range map[string]Shape{"Before": c.Before, "After": c.After} {
		if !w.shape.drawn.corresponds(s) {
			return fmt.Errorf("%w: Change.%s: must have the outlines and corners of the shape of the walls", ErrShape, name)
		}
	}
	return nil
}

// corresponds is true when both have the same number of corners in each outline.
func (s Shape) corresponds(other Shape) bool {
	if s.solids != other.solids || len(s.outlines) != len(other.outlines) {
		return false
	}
	for k := range s.outlines {
		if len(s.outlines[k]) != len(other.outlines[k]) {
			return false
		}
	}
	return true
}
