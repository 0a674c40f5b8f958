// Package stages takes a precast element through its temporary stages and says
// whether each may go ahead.
//
// An [Element] is a mark, a section along x, a concrete, tendons and extra
// weights. A [Plan] is the list of its stages in order of age: [Transfer],
// [Lift], [Store], [Stress], [Seat], or a type of your own with the one method
// of [Stage]. [Plan.Run] puts the element through the plan against a
// [limits.Standard] and returns a [Record]: plain data from which sheets are
// printed. A [Case] asks the inverse question, what value of an input uses up
// the reserve of one stage.
//
// # How stress is built up
//
// The stress at a point is a sum of increments, each on the section of its day:
// the weight on the supports of each standing situation, and its change from one
// set of supports to the next; each stressing; each release; the loss in earlier
// tendons by later ones. The section is net (all ducts out) until a tendon is grouted, then
// transformed (its steel in). Extremes are sought over weight × dynamic ×
// prestress corners, at every outline corner, along each smooth piece of the
// length.
//
// # Conventions
//
// SI units; x from the left end; ages in days since casting; signs as in package
// section. Reactions are positive upwards.
//
// # Neglected
//
// Creep, shrinkage and relaxation unless [Element].LongTerm is given; shear lag;
// warping and torsional shear stress; the elastic gain of a tendon when the
// weight starts to act (its loss is not reduced by it) and the change of force of
// an ungrouted tendon when the piece is moved; second-order effects of losses on
// losses. Within the dispersion length behind the anchors beam stresses are not
// evaluated, nor web stresses in sections that are not symmetric. Supports must
// make the element statically determinate: more than two lines of supports must
// be stated as equalised.
package stages
