package beam

import (
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section"
)

// Space is a line member in space on supports of any place and direction, ready to be
// solved. Its unknowns are the forces of the supports; the forces of a determinate
// arrangement follow from equilibrium, and only redundant supports need stiffness. It
// never changes and may be shared between goroutines.
type Space struct {
	layout   SpaceLayout
	columns  []column  // the unknown forces
	columnOf []int     // of each restraint; −1 of a Kept one
	hanging  []hanging // the compliance of the links
	primary  primary   // a determinate set of them
	stress   selfStress
	contact  spaceContact
	unheld   []vector6 // motions that no column restrains
	free     []Freedom // the same about the origin
	member   flexibility
	grid     []float64 // m, ends, supports and changes of section, rising
	size     float64   // m, the reference length: the length, or the farthest support from its middle
}

// SpaceLayout is a line member and its supports. Coordinates are those of the girder: x
// along, y to the left looking along +x, z up.
type SpaceLayout struct {
	Length   float64                      // m, positive, up to 1e30, from x = 0
	Breaks   []float64                    // m, 0 to Length, places where Section steps or has a kink, in any order
	Section  func(x float64) CrossSection // called by NewSpace only; nil: a rigid member (statics only)
	Supports []Restraint                  // in any order; reactions come back in the same order
	Links    []Link                       // members that carry restraints, by their stiffness only; in any order
}

// CrossSection is the data of a member of a Space at one x. Shear deformation is
// neglected.
type CrossSection struct {
	Centroid, ShearCentre section.Point // m, in the girder's y and z, within ±1e30
	BendingY              float64       // E·Iy, Iy = ∫z²dA about the centroid, N·m², 1e-60 to 1e60
	BendingZ              float64       // E·Iz, Iz = ∫y²dA, N·m², 1e-60 to 1e60
	BendingYZ             float64       // E·Iyz, Iyz = +∫yz dA, N·m², smaller than the root of BendingY·BendingZ
	Torsional             float64       // G·J, N·m², 1e-60 to 1e60
	Axial                 float64       // E·A, N, 1e-60 to 1e60; 0: inextensible
}

// Restraint restrains one freedom of the member at one point: the movement along
// Direction or, if Couple, the rotation about it.
type Restraint struct {
	X, Y, Z   float64 // m, in the girder's axes; 0 ≤ X ≤ Length, Y and Z within ±1e30
	Direction r3.Vec  // unit vector, direction of the positive force (or couple) on the member: {Z: 1} up
	Couple    bool    // restrains the rotation about Direction (right hand), not the movement along it
	Stiffness float64 // N/m, or N·m/rad, 1e-60 to 1e60; 0: rigid
	Group     string  // restraints with one name receive equal forces (linked jacks, rolling blocks); empty: none
	OneWay    bool    // the force is never negative: it lifts off instead
	Kept      bool    // its force is given in Setting.Preload and it restrains no movement (crane, hanger jack); Stiffness, Group and Link have no effect
	Link      string  // name of the Link that carries it, in series with its own Stiffness; empty: none
}

// NewSpace checks the layout and factorises it. Freedoms without a restraint are
// accepted and reported by [Space.Freedoms]. The error wraps [ErrBeam] and names the
// field, its value and what it must be, or the support whose share depends on a
// stiffness that is not given.
func NewSpace(layout SpaceLayout) (*Space, error) {
	layout = layout.clone()
	if err := layout.check(); err != nil {
		return nil, err
	}
	s := &Space{layout: layout}
	if err := s.gather(); err != nil {
		return nil, err
	}
	if err := s.hang(); err != nil {
		return nil, err
	}
	if err := s.measure(); err != nil {
		return nil, err
	}
	s.choosePrimary()
	s.findFreedoms()
	if err := s.findSelfStress(); err != nil {
		return nil, err
	}
	return s, nil
}

// Redundant is the degree of redundancy: 0 for a determinate arrangement.
func (s *Space) Redundant() int {
	if s == nil {
		return 0
	}
	return len(s.columns) - s.primary.rank()
}

// Freedoms is the independent rigid-body motions without a restraint, empty when all
// six are restrained.
func (s *Space) Freedoms() []Freedom {
	if s == nil {
		return nil
	}
	return append([]Freedom(nil), s.free...)
}

// Layout is a copy of the layout.
func (s *Space) Layout() SpaceLayout {
	if s == nil {
		return SpaceLayout{}
	}
	return s.layout.clone()
}
