// Package stages takes precast concrete through its temporary stages and says
// whether each may go ahead.
//
// An [Element] is a mark, a section along x, a concrete, tendons and extra
// weights; a [Girder] is several of them that are or become one member. A [Plan]
// is the list of stages in order of age: [Transfer], [Lift], [Store], [Stress],
// [Haul], [Seat], or a type of your own with the one method of [Stage].
// [Plan.Analyse] puts a [Subject] through the plan against a [limits.Standard] in
// numbers; [Plan.Run] also writes the [Record], plain data from which sheets are
// printed. A [Case] asks the inverse question, what value of an input uses up the
// reserve of one stage.
//
// An aid: a licensed engineer must confirm every result.
//
// # How stress is built up
//
// Everything that changes stress is an entry of a ledger: the weight on its first
// supports, a change of supports, each stressing and release, each loss, a
// redistribution by creep, a level, an action. An entry acts on the section
// properties of its body at its date (net with all ducts out until a tendon is
// grouted, then transformed) and is multiplied by the factors of its causes:
// weight tolerance, dynamic factor, prestress, presence of an action. A situation
// is a list of entries; its extremes are sought over all causes, entries of one
// cause together.
//
// # Supports
//
// A [Support] is a pad, a jack, a bearing, a lift point, a leg, a tie or falsework.
// Supports that statics cannot answer are never shared silently: groups carry
// equal forces, stiffness with a level tolerance shares by the flexibility of the
// element, and where nothing is stated every statically determinate set is a case
// (bounded). Reactions come in three ranges, each for its own use; see [Reaction].
//
// # Tendons
//
// A tendon in a duct is stressed, re-stressed or let down by [tendon.Jacking], also
// with a force that its designer gives; then released or grouted ([Event]).
// Pretensioned strands ([Element].Pretension) are cast in: [PretensionRelease] puts
// their force just before release on the transformed section. An external tendon is
// neither a hole nor bonded: it follows the mean strain of the concrete between the
// places where it is held. Elastic changes of force are those by later stressing.
//
// # Conventions
//
// SI units; x from the left end, y to the left looking along +x, z up; ages in days
// since casting, days of the project; signs as in package section. Internal forces
// are about the axis y = z = 0 of the girder. Reactions are positive as they carry
// weight.
//
// # Size
//
// A girder has at most 400 pieces, 400 tendons and layers of strands and 10,000
// extra weights; a plan at most 1000 situations and 40,000 situations times tendons,
// a situation at most 200 supports and 400 actions. More is refused.
//
// # Neglected
//
// Creep, shrinkage and relaxation unless [Element].LongTerm is given; shear lag;
// cracking; the elastic gain of a tendon when the weight starts to act and the
// change of force of an ungrouted tendon when the element is moved; second-order
// effects of losses on losses; distortion of the cross-section; differential
// creep and shrinkage between elements that act as one. Bonded bars are left out
// of the section properties.
package stages
