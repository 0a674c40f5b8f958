package beam

import (
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section"
)

// Space is a line member in space on supports of any place and direction,
// made ready to be solved. Its unknowns are the forces of the supports; what a
// determinate arrangement carries follows from equilibrium alone, and only
// redundant supports ask for stiffness. It never changes and may be shared
// between goroutines.
type Space struct {
	layout   SpaceLayout
	columns  []column  // the unknown forces
	columnOf []int     // of each restraint; −1 of a Kept one
	hanging  []hanging // the compliance of the links
	primary  primary   // a determinate set of them
	stress   selfStress
	contact  spaceContact
	unheld   []vector6 // motions that no column holds
	free     []Freedom // the same about the origin
	member   flexibility
	grid     []float64 // m, ends, supports and changes of section, rising
	size     float64   // m, the reference length: the length, or the farthest support from its middle
}

// SpaceLayout describes a line member and what holds it. Coordinates are those
// of the girder: x along, y to the left looking along +x, z up.
type SpaceLayout struct {
	Length   float64                      // m, positive, up to 1e30, from x = 0
	Breaks   []float64                    // m, 0 to Length, places where Section steps or has a kink, in any order
	Section  func(x float64) CrossSection // called by NewSpace only; nil: a rigid member (statics only)
	Supports []Restraint                  // in any order; reactions come back in the same order
	Links    []Link                       // members, stiffness only, to which restraints are hung; in any order
}

// CrossSection is what a Space needs of the member at one x. Shear deformation
// is neglected.
type CrossSection struct {
	Centroid, ShearCentre section.Point // m, in the girder's y and z, within ±1e30
	BendingY              float64       // E·Iy, Iy = ∫z²dA about the centroid, N·m², 1e-60 to 1e60
	BendingZ              float64       // E·Iz, Iz = ∫y²dA, N·m², 1e-60 to 1e60
	BendingYZ             float64       // E·Iyz, Iyz = +∫yz dA, N·m², smaller than the root of BendingY·BendingZ
	Torsional             float64       // G·J, N·m², 1e-60 to 1e60
	Axial                 float64       // E·A, N, 1e-60 to 1e60; 0: inextensible
}

// Restraint holds one freedom of the member at one point: the movement along
// Direction or, if Couple, the rotation about it.
type Restraint struct {
	X, Y, Z   float64 // m, in the girder's axes; 0 ≤ X ≤ Length, Y and Z within ±1e30
	Direction r3.Vec  // unit vector, direction of the positive force (or couple) on the member: {Z: 1} up
	Couple    bool    // holds the rotation about Direction (right hand), not the movement along it
	Stiffness float64 // N/m, or N·m/rad, 1e-60 to 1e60; 0: rigid
	Group     string  // restraints with one name receive equal forces (linked jacks, rolling blocks); empty: none
	OneWay    bool    // the force is never negative: it comes free instead
	Kept      bool    // its force is given in Setting.Preload and holds no movement (crane, hanger jack); Stiffness, Group and Link do not count
	Link      string  // the Link that gives way under its force, in series with its own Stiffness; empty: none
}

// NewSpace checks the layout and factorises it. Freedoms that no support holds
// are accepted and reported by [Space.Freedoms]. The error wraps [ErrBeam] and
// names the field, its value and what it must be, or the support whose share
// no stiffness decides.
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

// Redundant is how many unknown forces are more than equilibrium can find: 0
// for a determinate arrangement.
func (s *Space) Redundant() int {
	if s == nil {
		return 0
	}
	return len(s.columns) - s.primary.rank()
}

// Freedoms is the independent rigid-body motions that no support holds,
// empty when all six are held.
func (s *Space) Freedoms() []Freedom {
	if s == nil {
		return nil
	}
	return append([]Freedom(nil), s.free...)
}

// Layout is a copy of what the space was made from.
func (s *Space) Layout() SpaceLayout {
	if s == nil {
		return SpaceLayout{}
	}
	return s.layout.clone()
}
