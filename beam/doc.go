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
// Supports may be rigid, springy, clamped, settled, or pads that lift off
// instead of pulling; the response says which lifted and by how much. Stiffness
// may be uniform, stepped or varying, with or without shear deformation, and
// there may be hinges.
//
// [Beam.MomentInfluence] and its sisters give influence lines, [Beam.Cross] the
// exact envelope of a train that rolls over, with its worst position, and
// [Envelop] that of static cases. [Twist] answers what a level difference does
// to a closed box on pairs of supports.
//
// # Conventions
//
// SI units; x in m from the left end. Loads are positive downwards, reactions
// and deflections upwards, bending moments sagging, V = dM/dx, rotations and
// couples anticlockwise in an elevation with x to the right. Slope is the
// rotation of the section; with shear deformation the axis is steeper by V/GA.
// Bending in the lateral plane uses the same member with its own second moment
// of area.
//
// # Method
//
// Direct stiffness with one member between two nodes, and nodes only at ends,
// supports and hinges, so that a prepared beam does not depend on the loads.
// Member stiffness and the effect of loads come from the flexibility integral
// ∫ m·M/EI dx, exactly; changes of stiffness lie inside members, and a varying
// flexibility is fitted to a relative 1e-11 by polynomials when the beam is
// prepared. Rigid supports and settlements are left out of the unknowns, not
// held by stiff springs. In each piece between supports, loads and changes of
// stiffness every field is a polynomial, and extremes are its turning points;
// nothing is sampled. Pads that lift off are found by complementarity (reaction
// or gap, never both), not by taking away what pulls.
//
// A prepared beam and a response never change; both may be shared between
// goroutines. Places closer than 1e-9 of the length count as one.
//
// # Neglected
//
// Small displacements, linear elasticity, plane sections, loads at rest. With
// pads that can lift off, effects do not add up: there are no influence lines
// and no crossings, only one load case after the other. Axial force and axial
// restraint are not covered: a beam held lengthwise between fixed piers
// receives forces that this package does not see. Nor is torsion coupled with
// bending (curved or skew members), or buckling.
package beam
