// Package roll is the lateral stability of a slender girder that hangs from its
// lift points or stands on bearings, bunks or a trailer.
//
// An aid: a licensed engineer must confirm every result. [Hung.Solve] and [Seated.Solve]
// give the tilt at which the girder comes to rest, the factor against cracking and
// the factor against overturning after cracking: two answers, of which neither
// replaces the other. Rigid roll is part of both, however stiff the girder is
// sideways.
//
//	r, err := roll.Hung{Girder: g, Left: 2.7, Right: 2.7, Axis: 0.9, Offset: 0.006}.Solve()
//	fmt.Println(r.Stable, r.Tilt, r.Cracking, r.Overturning)
//
// [Hung.Lines] and [Seated.Lines] derive the same line by line, to be followed by hand.
// [Hung.AxisFor] and [Seated.StiffnessFor] go backwards from stated factors.
//
// # Conventions
//
// SI units; the offset side is +. A tilt is a rotation about the length of the
// girder (rad), + where the offset side goes down. Heights are above the centre of
// gravity of the straight girder in [Hung], above the roll centre in [Seated].
// Tilts are small: sin θ is θ.
//
// # Method
//
// R. F. Mast, Lateral Stability of Long Prestressed Concrete Beams, PCI Journal,
// parts 1 and 2, 1989 and 1993 (unconfirmed: recalled and recomputed), extended by
// wind, by lift points that are not symmetric and by sections without an axis of
// symmetry: their lateral second moment is (Iy·Iz − Iyz²)/Iy, and the bow that the
// upright weight gives them sideways counts as offset.
//
// # Neglected
//
// Torsion of the girder, the rotation of its cross-sections against each other,
// creep of the bow, inertia. The loss of stiffness by cracking, Iz/(1 + 2.5·θ), is
// empirical for I-girders: confirm it for any other section.
package roll
