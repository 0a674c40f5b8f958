// Package stages checks precast concrete in its temporary stages.
//
// An [Element] has a mark, a section along x, a concrete, tendons and extra
// weights; a [Girder] is several of them that are or become one member. A [Plan]
// is the list of stages in order of age: [Transfer], [Lift], [TakeUp], [Store], [Stress],
// [Haul], [Seat], [Stitch], [CastInPlace], [Strike], or a type of your own with the one method of [Stage].
// [Plan.Analyse] calculates a [Subject] through the plan and checks it against a
// [limits.Standard]; [Plan.Run] also writes the [Record], plain data from which sheets
// are printed. A [Case] answers the inverse question: the value of an input at which
// one stage has no reserve. [Results] is a record without stages, of a tendon, beam or
// redistribution calculation; [Record.Append] puts tables and figures behind the stages of
// a plan.
//
// An aid: a licensed engineer must confirm every result.
//
// # How stress is built up
//
// Stress is a sum of entries: the weight on its first supports, a change of supports,
// each stressing and release, each loss, a redistribution by creep, a level difference,
// an action. An entry acts on the section properties at its date (net with all ducts
// out until a tendon is grouted, then transformed) and is multiplied by the factors of
// its causes: weight tolerance, dynamic factor, prestress, presence of an action. The
// extremes of a situation are sought over the ranges of all causes, entries of one
// cause together.
//
// # Equipment
//
// An [EquipmentItem] is a crane, gantry, carrier, trailer, pier, stack or set of jacks that
// holds or carries the element in a situation, a lifting frame on it or a segment that is erected, with the supports that it holds, its outline,
// facts and the positions that it takes up. It is drawn in the elevation and decides which form the operation sheet has.
// Nothing is calculated from it.
//
// # Stressing
//
// A [StressingMethod] is what the method statement says and no calculation knows: whether
// supports are read, what must be free to move, how tendons are kept until they are grouted,
// and by when. With order of lock-off, seating and unit of the gauges of tendon.Jacking it
// is printed on the operation sheet; what is not stated is a hold point there.
//
// # Supports
//
// A [Support] is a pad, a jack, a bearing, a lift point, a leg, a tie or falsework.
// How supports share must be stated where statics does not give their forces: supports
// of a group carry equal forces; supports with a stiffness and a level tolerance share
// by the flexibility of the element. Where nothing is stated, every statically
// determinate set is a case (bounded). Reactions have three ranges, each for its own
// use; see [Reaction].
//
// A span that is cast in place ([CastInPlace]) begins free of bending, each row of its
// falsework with its tributary weight; rows push only, so that their contact is followed
// while it is stressed and while [Strike] lowers them and takes them away.
//
// # Tendons
//
// A tendon in a duct is stressed, re-stressed or let down by [tendon.Jacking], which
// may state the force of the tendon designer; then it is released or grouted ([Event]).
// Pretensioned strands ([Element].Pretension) are cast in: [PretensionRelease] applies
// their force just before release to the transformed section. An external tendon makes
// no hole and is not bonded: it follows the mean strain of the concrete between anchors
// and deviators. Elastic changes of tendon force come from later stressing only.
//
// # Roll, cranes and rigging
//
// An element that hangs free to turn, and a slender one on bearings, bunks or a trailer,
// rolls and bends sideways: [Slender] states how far it is from straight, package
// beam/roll gives tilt and factors, [limits.Handling] what is asked of them. [Braces]
// hold one that stands. [MobileCrane] checks the chart of a crane and the ground below
// it, [Gear] slings and lifting anchors. [Stitch] matches two halves and joins them.
//
// # Conventions
//
// SI units; x from the left end, y to the left looking along +x, z up; ages in days
// since casting, days of the project; signs as in package section. Internal forces
// are about the axis y = z = 0 of the girder. Reactions are positive upwards.
//
// # Size
//
// A girder has at most 400 pieces, 400 tendons and layers of strands and 10,000
// extra weights; a plan at most 1000 situations and 40,000 situations times tendons;
// a situation at most 200 supports and 400 actions. More is an error.
//
// # Neglected
//
// Creep, shrinkage and relaxation unless [Element].LongTerm is given; shear lag;
// cracking; the elastic gain of a tendon when the weight starts to act and the
// change of force of an ungrouted tendon when the element is moved; second-order
// effects of losses on losses; distortion of the cross-section; differential
// creep and shrinkage between elements that act as one, beyond the tie force of a
// [Stitch]. Bonded bars are left out of the section properties.
package stages
