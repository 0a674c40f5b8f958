package segmental

import (
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
)

// Doing is what a move does.
type Doing string

// The moves.
const (
	Lift    Doing = "lift"    // a segment hangs before the tip on a frame, or on a crane that stands elsewhere
	Attach  Doing = "attach"  // its joint is closed and pressed by the temporary bars, with and without the hoist
	Erect   Doing = "erect"   // segments are attached in order and their tendons stressed, in moves that another calculation checks
	Stress  Doing = "stress"  // tendons
	Remove  Doing = "remove"  // the temporary bars of segments
	Set     Doing = "set"     // a frame is set on the deck
	Advance Doing = "advance" // a frame moves to another segment
	Clear   Doing = "clear"   // a frame leaves the deck
	Grout   Doing = "grout"   // tendons in ducts
	Place   Doing = "place"   // a segment on falsework on supports of its own
	Pour    Doing = "pour"    // the wet concrete of a closure hangs on both sides
	Close   Doing = "close"   // it has hardened and joins them, with its first tendons
	Support Doing = "support" // the deck is taken over by other supports
	Wait    Doing = "wait"    // nothing is done: actions, or time
)

// Doings are all, in the order of their constants.
func Doings() []Doing {
	return []Doing{Lift, Attach, Erect, Stress, Remove, Set, Advance, Clear, Grout, Place, Pour, Close, Support, Wait}
}

// Move is one movement of a step. Fields that its Doing does not need must be empty.
type Move struct {
	Do       Doing
	Name     string            // in words; "": made of what it does
	Day      float64           // of the project, d; 0: that of the step
	Segments []string          // lifted, attached, placed, poured, closed: one; erect: those attached, each beyond the tip of then; remove: those whose bars are taken out
	Frame    string            // lift, attach: on which the segment hangs, "" for a crane that does not stand on the deck; set, advance, clear
	To       string            // set, advance: segment at whose outer face it stands, before the tip of its arm
	Left     bool              // set on a segment on a pier: on its left face
	Jacking  *tendon.Jacking   // stress, erect; close: its first tendons, until which the lock holds both sides; nil: none at once
	Tendons  []string          // grout
	On       []stages.Support  // place: of the segment; support: of the whole deck; close: the same, none: they stay
	Actions  []stages.Action   // in this situation, or carried forward
	Off      []string          // marks of actions that were carried forward and are taken off
	Until    float64           // day on which it ends, d; 0: at once
	Covered  []stages.Document // that answer what is not evaluated
	Derive   bool              // every check is written with its derivation, not only one that fails or governs
}

// Step is moves that belong to one operation sheet, one movement at a time.
type Step struct {
	Name  string
	Day   float64 // of the project, d
	Moves []Move
}
