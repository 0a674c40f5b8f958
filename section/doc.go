// Package section gives the exact properties of a drawn cross-section and the
// elastic stress in it.
//
// A [Shape] is made of solid and void outlines and is checked once, when it is made.
// [Box], [HalfBeam], [Trough], [IGirder], [DoubleTee] and [VoidedSlab] draw one from
// trade dimensions; [Joined] makes one of parts, [Transformed] adds parts of different
// modulus. Along x, [Taper] and [Stepped] vary a section; [Areas] and [Volume] are
// exact.
//
// [Properties] are exact polygon sums; [Shape.With] deducts empty ducts (net section)
// and adds bonded steel (transformed section). [Properties.Stress] is the elastic
// stress at a point under N, My and Mz with the product of inertia;
// [Properties.NeutralAxis], [Shape.Kern] and [Hang] are for unsymmetric sections.
// [Shape.Ways] measures distances along the walls. [Shape.Torsion] solves torsion and
// shear on the true outline: J, Wt, shear centre, shear areas, warping, the flow in
// each wall; [Shape.Level] gives Q and b of the hand formula. [Shape.Walls] gives the
// flows by thin-wall theory a thousand times faster.
//
// An aid: a licensed engineer must confirm every result.
//
// # Conventions
//
// A section is seen looking along +x: y to the left, z upwards, in metres, from
// an origin that is user-defined (for [Box]: the axis of symmetry at soffit
// level). Stress is positive in tension. My is positive sagging (tension at low
// z), Mz is positive with tension at −y. Iy = ∫z²dA, Iz = ∫y²dA and
// Iyz = +∫yz dA, about the centroid.
//
// # Neglected
//
// Plane sections stay plane: shear lag (but see [EffectiveWidth]), distortion of
// the section, restrained warping (but see [Torsion.Warping]), cracking and stress
// concentrations are not included. Within the dispersion length of an
// anchor these stresses do not apply.
package section
