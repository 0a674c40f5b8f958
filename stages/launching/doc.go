// Package launching takes a full-span element through the method in which a launching
// gantry lowers it onto its piers, on the engine and record of package stages.
//
// A [Gantry] is a line member of stated weights on legs. Its [Position]s are data: where
// it is, which legs stand on which pier or deck, where its trolleys are. [Gantry.Balances]
// are the moments about each outer leg, [Gantry.Reactions] what each leg and what it
// stands on receive, [Gantry.Across] the same across, [Gantry.Nose] how far the nose is
// down when it lands. [Launch] is the self-launch as a stage of the plan of the element
// on whose deck legs stand: one situation for each position, with its checks, and the wind
// and the place of each trolley up to which it may go on. A position in which it is parked
// for a storm has the same checks.
//
// [Hoist] lifts or lowers the element on hooks, or feeds it, and loads the gantry with what
// they carry. [JackDown] sets it on jacks, one pair of them linked, and locks their rings;
// [LoadTransfer] takes it over to the bearings; [FourPoints] is the warp of four supports: the
// change of reactions for one of them out of the plane of the others, on several beddings side
// by side by its method Compare; [OnFourPoints] is any stage on four such supports with their
// permissible warp. [Ride] is a carrier that passes
// over the finished span, at its worst place for every stress and reaction, and
// [EarliestAge] the age from which on it may. [WaterInVoid] is a load case of the hoist.
// [PierHead] collects what a pier head receives with one span only on its side, [OnPier] with
// the bearings of a stage.
//
// An aid: a licensed engineer must confirm every result. The maker's manual of the
// gantry governs.
//
// # Places and numbers
//
// Places of legs that stand, of piers and of the rear end of the gantry ([Position.At]) are x
// of the element; trolleys, weights and legs that hang are in m from the rear end. A leg under
// the element's x = 33 m of a gantry whose rear end is at −11.8 m is at 44.8 m of it; a trolley
// at 44.8 m is over it. In a [Hoist] a lift point at x = 32.3 m hangs on a trolley at 44.1 m
// when the element is at its place; farther back it is that much before it. Positions follow
// each other without a gap. In functions positions, trolleys and the supports of [FourPoints]
// are numbered from 0; supports of an element, and stages of [EarliestAge], from 1.
//
// # What is left to documents
//
// These are questions without a check until [stages.Covered] names a document, by kind:
// limits.LocalForce: what is below a foot, a wheel or a bearing, above and below a jack, the
// fixing of a leg without [Stand.Friction], a pier head, each with its force; limits.Sliding:
// bearings that hold by dowels; limits.PrincipalTension: where a section cracks. Covered and
// [OnFourPoints] may be put round each other in any order.
//
// What may still be permitted is in the record: the wind and the place of each trolley
// of a position, the warp of locked jacks and of four supports, the age of a [Ride]. [Launch]
// and [FourPoints] give the same by function, to try other values.
//
// # Neglected
//
// Strength and buckling of the gantry, its legs, cross-beams and their fixings, dynamic
// effects beyond stated factors, second-order effects of slender legs, and the ground below
// the piers.
package launching
