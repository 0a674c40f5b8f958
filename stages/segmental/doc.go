// Package segmental erects decks of match-cast segments, on the engine and record of package
// stages.
//
// # Balanced cantilever
//
// A [Deck] is segments from left to right, tendons by the segments in whose faces they are
// anchored, temporary bars, lifting frames and piers. [Usual] makes the usual list of [Step]s
// of a cantilever, each of several [Move]s, to be edited; [Deck.Plan] makes a plan of them
// and refuses what is out of order, [Deck.Build] calculates it and adds the table of the
// governing joint, the pressure on the epoxy and the piers after each move. Every move is a
// situation of its stage, whose joints are checked with and without working load, uplift of
// wind, hoist and the segment on the frame.
//
// [EpoxyRule] is the pressure on epoxied joints while the epoxy cures, [Keys] what carries
// the shear of a joint until then and afterwards. [TieBack] holds anchors inside the deck,
// [Held] tendons inside their bends; what neither states is a question with its force. [Balance] is what acts on a cantilever about its pier,
// [Pier] what carries it there: its checks find the worst factors of every cause by one
// [Rule], a segment that is released or put on at once among them, and the weight of a
// segment at which to stop.
//
// # Closure and after
//
// [ClosureWork] is a closure from the lock of both tips to the first tendons, of a deck by its Closures
// round the stage that pours or closes it. [Waits] let creep act on the system of the day.
//
// # Casting curve
//
// [Casting] follows every joint of a [Deck] through its plan: camber and what the casting cell
// or the form sets, by the one or the other [CastingRule], and the target level and slope of
// each joint at each step. [CastingCurve.Result] is its tables and figures for the record.
// [Ballast] evens two tips before a closure; [TipError] and [WedgeAngle] are what an error at a
// joint does.
//
// # On hangers of an overhead gantry
//
// [Hangers] are pairs of bars, two at each segment of a [HungSpan]. [HangSegments] hangs
// them one after the other, with the [Adjustment] of each pair before the joints are closed;
// [CloseJoints] presses the epoxy; [StressHung] is the prestress while the span hangs, with
// [LargestFirstStage]; [LowerSpan] lowers it by [Stroke] on to its jacks, [HangerLost] is the
// loss of a pair. [UniformTransfer] is the closed form of the load that leaves the hangers.
//
// # Neglected
//
// Shear lag, but for the tension of joints while arms are short; the flexibility of piers and
// foundations unless stated as [PierShift]; shear deformation, temperature, cracking and
// twist in the casting curve; the strength of a frame and its overturning sideways; the deck
// below its feet; delamination of a slab between ducts side by side; strength and twist of
// the gantry; restraint of the joined deck against twist by the bars of a pair of hangers;
// wind across while the span hangs; friction in hangers and jacks; creep after a hanger has
// become slack is that of the state with all hangers taut.
//
// An aid: a licensed engineer must confirm every result.
package segmental
