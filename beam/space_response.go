package beam

import (
	"fmt"
	"slices"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section"
)

// SpaceResponse is the response of a member in space to one set of loads. It never
// changes and may be shared between goroutines.
type SpaceResponse struct {
	space     *Space
	cuts      *cuts
	strains   []SpaceStrain
	set       []float64 // of each column, see Space.setting; nil: 0
	forces    []float64 // of each column, divided by its scale
	openings  []float64 // of each column, nil: all touch
	reactions []float64 // of each restraint
	once      sync.Once
	motions   []motion // at the places of the cuts
}

// Reactions is the force of each restraint along its Direction (N; N·m of a
// Couple), in the order of SpaceLayout.Supports.
func (r *SpaceResponse) Reactions() []float64 {
	if r == nil {
		return nil
	}
	return slices.Clone(r.reactions)
}

// Gaps is the gap of each OneWay restraint that has lifted off (m; rad of a Couple; of
// a Group the mean of its members), 0 for all others.
func (r *SpaceResponse) Gaps() []float64 {
	if r == nil {
		return nil
	}
	gaps := make([]float64, len(r.reactions))
	if r.openings == nil {
		return gaps
	}
	for j := range r.space.columns {
		c := &r.space.columns[j]
		for _, m := range c.members {
			gaps[m] = r.openings[j] / (c.scale * float64(len(c.members)))
		}
	}
	return gaps
}

// give keeps the forces of the restraints.
func (r *SpaceResponse) give(kept []float64) {
	s := r.space
	r.reactions = make([]float64, len(s.layout.Supports))
	for j := range s.columns {
		c := &s.columns[j]
		if c.oneWay {
			r.forces[j] = max(r.forces[j], 0)
		}
		for _, m := range c.members {
			r.reactions[m] = r.forces[j] * c.scale
		}
	}
	for i, force := range kept {
		if s.layout.Supports[i].Kept {
			r.reactions[i] = force
		}
	}
}

// At is the internal forces just right or just left of x (m) about the fixed axis y = z
// = 0 of the girder, so that those of different dates add up; [About] gives them about
// a section's own points. At the ends of the member both sides are the inner one. Off
// the member they are zero.
func (r *SpaceResponse) At(x float64, side Side) section.Forces {
	i, s := r.interval(x, side)
	if i < 0 {
		return section.Forces{}
	}
	return r.cuts.at(i, s).forces()
}

// interval is where x is, and how far from its left end; −1 off the member.
func (r *SpaceResponse) interval(x float64, side Side) (i int, s float64) {
	if r == nil || r.space == nil || !(x >= 0 && x <= r.space.layout.Length) {
		return -1, 0
	}
	near := samePlace * r.space.layout.Length
	if side == LeftOf {
		near = -near
	}
	i = min(find(r.cuts.places, x, near), len(r.cuts.loaded)-1)
	return i, min(max(x-r.cuts.places[i], 0), r.cuts.length(i))
}

// Move is the displacement (m) of the point (x, 0, 0) carried with the section at x,
// and the rotation of that section (rad, right hand): the member's own deformation
// under forces and strains, and the rigid-body motion by elastic supports and levels. A
// motion without a restraint is left out. Off the member they are zero.
func (r *SpaceResponse) Move(x float64) (translation, rotation r3.Vec) {
	i, s := r.interval(x, RightOf)
	if i < 0 {
		return r3.Vec{}, r3.Vec{}
	}
	r.once.Do(r.move)
	w := r.walk()
	m := w.advance(r.motions[i], i, s)
	return m.shift, m.turn
}

func (r *SpaceResponse) walk() walk {
	return walk{member: &r.space.member, cuts: r.cuts, strains: r.strains, near: samePlace * r.space.layout.Length}
}

// move integrates the deformation and adds the rigid-body motion that brings
// the member to its primary supports.
func (r *SpaceResponse) move() {
	s := r.space
	w := r.walk()
	r.motions = w.along()
	lack := s.misfits(r.set, r.forces, r.cuts.places, r.motions)
	var rigid vector6
	for i, j := range s.primary.columns {
		lacks := lack[j]
		if r.openings != nil {
			lacks += r.openings[j]
		}
		rigid.add(lacks, &s.primary.inverse[i])
	}
	turn := r3.Scale(1/s.size, r3.Vec{X: rigid[3], Y: rigid[4], Z: rigid[5]})
	start := motion{turn: turn, shift: r3.Vec{X: rigid[0], Y: rigid[1], Z: rigid[2]}}.carried(-s.layout.Length / 2)
	for i, x := range r.cuts.places {
		from := start.carried(x)
		r.motions[i].shift = r3.Add(r.motions[i].shift, from.shift)
		r.motions[i].turn = r3.Add(r.motions[i].turn, from.turn)
	}
}

// finiteMotions refuses movements that are not numbers: of strains that are
// none.
func finiteMotions(at []motion) error {
	last := at[len(at)-1]
	if size := r3.Norm(last.shift) + r3.Norm(last.turn); !(size < largestField) {
		return fmt.Errorf("%w: Strains and loads move the member by %g m: must be finite", ErrBeam, size)
	}
	return nil
}
