// Package section gives the exact properties of a drawn cross-section and the
// elastic stress in it.
//
// A [Shape] is made of solid and void outlines and is checked once, when it is
// made; after that its methods cannot fail. [Box] draws a single-cell girder
// from its trade dimensions. [Properties] are exact polygon sums;
// [Shape.With] takes empty ducts out (net section) and puts bonded steel in
// (transformed section). [Properties.Stress] is the elastic stress at a point
// under N, My and Mz with the product of inertia.
//
// # Conventions
//
// A section is seen looking along +x: y to the left, z upwards, in metres, from
// an origin of the drawer's choice (for [Box]: the axis of symmetry at soffit
// level). Stress is positive in tension. My is positive sagging (tension at low
// z), Mz is positive with tension at −y. Iy = ∫z²dA, Iz = ∫y²dA and
// Iyz = +∫yz dA, about the centroid.
//
// # Neglected
//
// Plane sections stay plane: shear lag, distortion of the section, cracking and
// stress concentrations are not included. Within the dispersion length of an
// anchor these stresses do not apply.
package section
