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
// Supports may be rigid, elastic, fixed, with settlement, or pads that lift off and
// cannot pull; the response has the gap of each. Stiffness may be uniform, stepped or
// varying, with or without shear deformation, and there may be hinges.
//
// [Beam.MomentInfluence] and the like give influence lines, [Beam.Cross] the exact
// envelope of a train that rolls over the beam, with its governing position, and
// [Envelop] that of static cases.
//
// [NewSpace] prepares a member in space on supports of any place and direction:
// four pads out of level, slings, linked jacks, a leg and its tie-down bar.
// [Space.Solve] gives the reactions, N, Vy, Vz, T, My and Mz of any cut, and
// movements:
//
//	space, err := beam.NewSpace(beam.SpaceLayout{
//		Length:   34,
//		Section:  section, // nil where statics is enough
//		Supports: []beam.Restraint{{X: 1, Y: 2, Direction: r3.Vec{Z: 1}, OneWay: true}, ...},
//	})
//	r, err := space.Solve(loads, beam.Setting{Level: []float64{0.005, 0, 0, 0}})
//	fmt.Println(r.Reactions(), r.At(17, beam.RightOf).T)
//
// A [Link] is a second member, stiffness only, whose bending couples the
// restraints on it: a span on the hangers of a gantry.
//
// An aid: a licensed engineer must confirm every result.
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
// In space the axes are x along, y to the left looking along +x and z up;
// forces on the member are vectors in these axes. Internal forces are those of
// [section.Forces] about the fixed axis y = z = 0: N tension +, My sagging +,
// Mz + with tension at −y, Vz and Vy the sums of forces left of the cut along z
// and y (V = dM/dx), T by right hand about +x on the face towards +x. [About]
// gives them about centroid and shear centre.
//
// # Method
//
// Direct stiffness with one member between two nodes, and nodes only at ends, supports
// and hinges, so that a prepared beam does not depend on the loads. Member stiffness
// and the effect of loads come from the flexibility integral ∫ m·M/EI dx, exactly;
// changes of stiffness are inside members, and a varying flexibility is fitted to a
// relative 1e-11 by polynomials when the beam is prepared. Rigid supports and
// settlements are no unknowns; there are no stiff springs. In each stretch between
// supports, loads and changes of stiffness every field is a polynomial, and extremes
// are its turning points; nothing is sampled. Pads that lift off are found by
// complementarity: reaction or gap, never both.
//
// Space is equilibrium first. The unknowns are the forces of supports and groups;
// pivoted orthogonalisation of their equilibrium matrix finds a determinate set and
// every rigid-body motion that nothing restrains. Internal forces are sums from the
// left. Only redundant supports need stiffness: their states of self-stress do no work
// on the misfit between supports and member, whose bending in both planes (with Iyz),
// torsion about the shear centre and extension are integrated by Gauss's rule. Contact
// is the complementarity of force and opening. Where restraints are on a Link, their
// compliances are a full matrix of its influence lines, which Beam gives exactly.
//
// A prepared beam and a response never change; both may be shared between
// goroutines. Places closer than 1e-9 of the length count as one.
//
// # Neglected
//
// Small displacements, linear elasticity, plane sections, loads at rest. With pads that
// can lift off, effects do not add up: there are no influence lines and no crossings,
// only single load cases. Beam covers neither axial force nor torsion; Space does, for
// straight members, without shear deformation; warping torsion only by [Warping].
// Buckling is not covered.
package beam
