package launching

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/stages"
)

// PierHead is the head of a pier in a construction state: the bearings of one span only on
// their side, a leg of a gantry, what brakes and blows. Its resultants are asked at a level:
// the top of the head, the joint to the shaft, the foundation. Places are in m from the
// middle of the base at that level.
type PierHead struct {
	Mark       string
	At         float64     // x of the middle of its base in the coordinates of the element, m, within ±1000
	Bearings   []int       // numbers of the supports of the element on it, from 1; their reactions count where OnPier is asked
	BearingsAt float64     // height of these above the level, m, 0 to 60
	Forces     []HeadForce // what else acts on it, at most 40
	NominalAt  float64     // height at which the nominal horizontal force acts, m, 0 to 60
	Base       [2]float64  // of a rectangular base at the level along and across, m, 0.1 to 30; zero: not stated, nothing is said about the kern
}

// HeadForce is what acts on a pier head at one place. Its parts vary by themselves, each
// between its smallest and largest value: the resultants are a bound where they do not.
type HeadForce struct {
	Mark    string
	X, Y, Z float64 // forward, to the left, and up from the level, m; within ±10, ±10, 0 to 60
	Down    Range   // N, within ±1e9
	Along   Range   // N, + forward
	Across  Range   // N, + to the left
	Turn    Range   // couple across, N·m, + to the left
}

// HeadCorner are the resultants on a pier head that act at once.
type HeadCorner struct {
	Down         float64 // N
	Along        float64 // N, + forward, with the nominal force
	Across       float64 // N, + to the left, with the nominal force
	MomentAlong  float64 // about the middle of the base, N·m, + presses its front edge
	MomentAcross float64 // the same, + presses its left edge
	Governs      string  // mark of what has the largest part in what the corner is asked for

	parts     []headPart // of each force, chosen
	direction int        // of the nominal force: forward, aside or none
	sense     float64    // of it
	share     float64    // of the vertical force that it is
	nominal   float64    // N
}

// Corners are the corner with the smallest and that with the largest value.
type Corners struct{ Least, Most HeadCorner }

// Resultants are the extremes of what acts on a pier head at the level, each with what acts
// with it. Along and across have the nominal horizontal force, one way at once: 2.5 % of the
// vertical force alone, or 1 % beside the known horizontal forces.
type Resultants struct{ Down, Along, Across, MomentAlong, MomentAcross Corners }

func (h PierHead) check() error {
	if h.Mark == "" {
		return fmt.Errorf("%w: field PierHead.Mark is empty: must be its name", ErrLaunching)
	}
	if err := within("PierHead.", bound{"At", h.At, "m", -1000, 1000}, bound{"BearingsAt", h.BearingsAt, "m", 0, 60}, bound{"NominalAt", h.NominalAt, "m", 0, 60}, bound{"Forces, number", float64(len(h.Forces)), "", 0, 40}); err != nil {
		return err
	}
	if h.Base != [2]float64{} {
		if err := within("PierHead.", bound{"Base[0]", h.Base[0], "m", 0.1, 30}, bound{"Base[1]", h.Base[1], "m", 0.1, 30}); err != nil {
			return err
		}
	}
	if len(h.Forces)+len(h.Bearings) == 0 {
		return fmt.Errorf("%w: nothing acts on pier head %q: must have Forces or Bearings", ErrLaunching, h.Mark)
	}
	for i, f := range h.Forces {
		of := fmt.Sprintf("PierHead.Forces[%d].", i)
		if f.Mark == "" {
			return fmt.Errorf("%w: field %sMark is empty: must be its name", ErrLaunching, of)
		}
		if err := within(of, bound{"X", f.X, "m", -10, 10}, bound{"Y", f.Y, "m", -10, 10}, bound{"Z", f.Z, "m", 0, 60}); err != nil {
			return err
		}
		for _, part := range []struct {
			name string
			of   Range
			unit string
		}{{"Down", f.Down, "N"}, {"Along", f.Along, "N"}, {"Across", f.Across, "N"}, {"Turn", f.Turn, "N·m"}} {
			if err := within(of+part.name+".", bound{"Least", part.of.Least, part.unit, -1e9, 1e9}, bound{"Most", part.of.Most, part.unit, part.of.Least, 1e9}); err != nil {
				return err
			}
		}
	}
	return nil
}

// Resultants are the extremes of the stated Forces and of the nominal horizontal force. The
// reactions of Bearings are not in them: OnPier has these. The error wraps [ErrLaunching].
func (h PierHead) Resultants() (r Resultants, err error) {
	if err := h.check(); err != nil {
		return r, err
	}
	of := func(w sought, direction int) Corners {
		least := w
		least.scale(-1)
		return Corners{h.corner(least, direction, -1), h.corner(w, direction, 1)}
	}
	return Resultants{
		Down: of(sought{down: 1}, none), Along: of(sought{along: 1}, forward), Across: of(sought{across: 1}, aside),
		MomentAlong: of(sought{momentAlong: 1}, forward), MomentAcross: of(sought{momentAcross: 1}, aside),
	}, nil
}

// OnHead are the feet of a leg of a gantry as a force on a pier head whose base has its middle
// at an x of the element (m), at a height above the level (m), characteristic.
func (f Feet) OnHead(x, height float64) HeadForce {
	couple := f.Moment + f.Lever*f.Width*math.Max(math.Abs(f.Force.Least), math.Abs(f.Force.Most))
	return HeadForce{Mark: "leg " + f.Leg, X: f.X - x, Y: f.Off, Z: height, Down: f.Force, Along: Range{-f.Along, f.Along}, Across: Range{-f.Across, f.Across}, Turn: Range{-couple, couple}}
}

// bearing is the reaction of a bearing of the element as a force on the pier head.
func (h PierHead) bearing(number int, r stages.Reaction) HeadForce {
	return HeadForce{Mark: fmt.Sprintf("support %d", number), X: r.X - h.At, Y: r.Y, Z: h.BearingsAt, Down: Range{r.Characteristic.Least, r.Characteristic.Most}}
}
