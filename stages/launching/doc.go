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
// by side by its method Compare; [Levelled] is any stage on four such supports with their
// permissible warp. [Ride] is a carrier that passes
// over the finished span, at its worst place for every stress and reaction, and
// [EarliestAge] the age from which on it may. [WaterInVoid] is a load case of the hoist.
// [PierHead] collects what a pier head receives with one span only on its side, [OnPier] with
// the bearings of a stage.
//
// An aid: a licensed engineer must confirm every result. The maker's manual of the
// gantry governs.
//
// # Neglected
//
// Strength and buckling of the gantry, its legs, cross-beams and their fixings, dynamic
// effects beyond stated factors, second-order effects of slender legs, and the ground below
// the piers.
package launching
