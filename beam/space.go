package beam

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section"
)

// Space is a line member in space on supports of any place and direction,
// made ready to be solved. Its unknowns are the forces of the supports; what a
// determinate arrangement carries follows from equilibrium alone, and only
// redundant supports ask for stiffness. It never changes and may be shared
// between goroutines.
type Space struct {
	layout  SpaceLayout
	columns []column // the unknown forces
	primary primary  // a determinate set of them
	stress  selfStress
	contact spaceContact
	unheld  []vector6 // motions that no column holds
	free    []Freedom // the same about the origin
	member  flexibility
	grid    []float64 // m, ends, supports and changes of section, rising
	size    float64   // m, how far anything is from the origin: scale of a rotation
}

// SpaceLayout describes a line member and what holds it. Coordinates are those
// of the girder: x along, y to the left looking along +x, z up.
type SpaceLayout struct {
	Length   float64                      // m, from x = 0
	Breaks   []float64                    // m, places where Section steps or has a kink, in any order
	Section  func(x float64) CrossSection // called by NewSpace only; nil: a rigid member (statics only)
	Supports []Restraint                  // in any order; reactions come back in the same order
}

// CrossSection is what a Space needs of the member at one x. Shear deformation
// is neglected.
type CrossSection struct {
	Centroid, ShearCentre section.Point // m, in the girder's y and z
	BendingY              float64       // E·Iy, Iy = ∫z²dA about the centroid, N·m²
	BendingZ              float64       // E·Iz, Iz = ∫y²dA, N·m²
	BendingYZ             float64       // E·Iyz, Iyz = +∫yz dA, N·m²
	Torsional             float64       // G·J, N·m²
	Axial                 float64       // E·A, N; 0: inextensible
}

// Restraint holds one freedom of the member at one point: the movement along
// Direction or, if Couple, the rotation about it.
type Restraint struct {
	X, Y, Z   float64 // m, in the girder's axes; 0 ≤ X ≤ Length
	Direction r3.Vec  // unit vector, direction of the positive force (or couple) on the member: {Z: 1} up
	Couple    bool    // holds the rotation about Direction (right hand), not the movement along it
	Stiffness float64 // N/m, or N·m/rad; 0: rigid
	Group     string  // restraints with one name receive equal forces (linked jacks, rolling blocks); empty: none
	OneWay    bool    // the force is never negative: it comes free instead
	Kept      bool    // its force is given in Setting.Preload and holds no movement (crane, hanger jack); Stiffness and Group do not count
}

// NewSpace checks the layout and factorises it. Freedoms that no support holds
// are allowed and reported by [Space.Freedoms]. The error wraps [ErrBeam] and
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
func (s *Space) Redundant() int { return len(s.columns) - s.primary.rank() }

// Freedom is a rigid-body motion: a translation of the point at the origin
// and a rotation about it (right hand), scaled so that its largest component
// is 1 (m or rad).
type Freedom struct {
	Translation, Rotation r3.Vec
}

// Freedoms is the independent rigid-body motions that no support holds,
// empty when all six are held.
func (s *Space) Freedoms() []Freedom { return append([]Freedom(nil), s.free...) }

// Layout is a copy of what the space was made from.
func (s *Space) Layout() SpaceLayout { return s.layout.clone() }

// String says in words what moves.
func (f Freedom) String() string {
	names := [...]struct {
		size float64
		word string
	}{
		{f.Rotation.X, "roll about the axis"}, {f.Rotation.Y, "pitch"}, {f.Rotation.Z, "turn in plan"},
		{f.Translation.X, "move along"}, {f.Translation.Y, "move sideways"}, {f.Translation.Z, "move up and down"},
	}
	for i, n := range names {
		if i == 0 && n.size != 0 && (f.Translation.Y != 0 || f.Translation.Z != 0) {
			// The translation at the origin is ω × (0 − r), so the axis of rotation is here.
			y, z := -f.Translation.Z/n.size, f.Translation.Y/n.size
			return fmt.Sprintf("roll about y = %.4g m, z = %.4g m", y, z)
		}
		if n.size != 0 {
			return n.word
		}
	}
	return "rest"
}
