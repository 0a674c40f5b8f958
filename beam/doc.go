// Package beam is the statics of a line member on any temporary support
// layout: [New] prepares a [Layout], [Beam.Solve] answers one set of loads with
// reactions, bending moment, shear, slope and deflection at any place and every
// local extreme with its place.
//
//	b, err := beam.New(beam.Layout{
//		Length:    34,
//		Stiffness: []beam.Stretch{{BendingStiffness: 3.1e11}},
//		Supports:  []beam.Support{{At: 1.6}, {At: 32.4}},
//	})
//	r, err := b.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, 34, 110e3)}})
//	fmt.Println(r.MomentRange().Most, r.Reactions)
//
// # Conventions
//
// SI units; x in m from the left end. Loads are positive downwards, reactions
// and deflections upwards, bending moments sagging, V = dM/dx, rotations and
// couples anticlockwise in an elevation with x to the right. Bending in the
// lateral plane uses the same member with its own second moment of area.
//
// # Method
//
// Direct stiffness with one member between two nodes, and nodes only at ends,
// supports and hinges, so that a prepared beam does not depend on the loads.
// Member stiffness and the effect of loads come from the flexibility integral
// ∫ m·M/EI dx, exactly; changes of stiffness lie inside members. Rigid supports
// and settlements are left out of the unknowns, not held by stiff springs. In
// each piece between supports, loads and changes of stiffness every field is a
// polynomial, and extremes are its turning points; nothing is sampled.
//
// # Neglected
//
// Small displacements, linear elasticity, plane sections. Axial force and axial
// restraint are not covered: a beam held lengthwise between fixed piers
// receives forces that this package does not see. Nor is torsion of a curved
// or skew member, or buckling.
package beam
