package segmental

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages"
)

// CastingRule is how the shape of a deck is fixed when its segments are cast.
type CastingRule string

// The rules. A casting curve follows one of them from end to end.
const (
	// MatchCast: each segment is cast against the one before it and goes on in its tangent
	// on site. The camber is minus the total deflection of all stages, segments that are not
	// placed yet carried along on the tangent of the tip.
	MatchCast CastingRule = "match-cast"
	// FormReset: each segment is cast in place in a form that is set to its level before.
	// The camber is minus the deflection after the form is set. What is on the piers before the
	// first move deflects with it: let the plan begin with a move that waits.
	FormReset CastingRule = "form reset"
)

// Casting is what the casting curve of a deck needs beside its analysis.
type Casting struct {
	Rule      CastingRule             // must be stated
	Profile   func(x float64) float64 // design level of the deck at the joints after the last step, m; nil: 0 all along
	Shifts    []PierShift             // rotation and settlement of piers and foundations; none: neglected
	EveryMove bool                    // target levels after every move; false: after the last move of each step
}

// PierShift is how far the segment on a pier turns and settles in a step, e.g. by the
// elastic rotation of pier and foundation under the moment of that step. It counts from the
// first move of the step; shifts of several steps add up. The cantilever must be free: after
// a closure a shift changes the internal forces and belongs into the plan.
type PierShift struct {
	Segment    string  // mark of the segment on the pier
	Step       int     // from 1
	Rotation   float64 // about the axis of the pier, rad, + raises the right arm, within ±0.05
	Settlement float64 // m, + downwards, within ±1
}

// CastingCurve is the camber of a deck, what the casting cell sets, and the target level of
// every joint at every step.
type CastingCurve struct {
	Rule   CastingRule
	Joints []CastingJoint // from left to right, the ends of the deck among them
	Levels []StepLevels   // in the order of the plan
	Notes  []string       // what the values are and what is neglected
}

// CastingJoint is a joint between segments, or an end of the deck.
type CastingJoint struct {
	Name  string  // marks of the segments on both sides, as in the checks of stages; that of one at an end
	Arm   string  // of which it is part, e.g. "left arm of P1"; "on falsework"
	X     float64 // m
	Lever float64 // from it to the tip of its arm, m
	Depth float64 // of the face, m

	// Deflection is that which counts under the rule after the last step, m, + upwards;
	// Least and Most are the same with creep 30 % less and more.
	Deflection, Least, Most float64
	Camber                  float64 // m, + upwards: minus Deflection
	Ordinate                float64 // of design profile and camber above the line through both joints of the segment on the pier, m

	// Cast is the segment that is cast against the joint, "" where none is; Angle the angle
	// between the chords of that segment and the one before it, rad, + turns the new segment
	// up: match-cast as cast, form reset when the form is set. Offset is that of the far end
	// of the old segment in the casting cell above the extended axis of the new one, m; 0 for
	// form reset.
	Cast          string
	Angle, Offset float64
}

// StepLevels are the target levels after a move.
type StepLevels struct {
	Step, Move int     // from 1
	Name       string  // of step and move
	Day        float64 // of the project, d
	Equipment  string  // on the deck, in words
	Joints     []JointLevel
}

// JointLevel is the target of a joint that stands.
type JointLevel struct {
	Name        string
	X           float64 // m
	Level       float64 // m: design profile + camber + deflection up to then
	Least, Most float64 // m, with creep 30 % less and more
	Deflection  float64 // up to then, that counts under the rule, m, + upwards
	Slope       float64 // of the chord of the segment towards the pier that ends at the joint, rad, + rising to the right
	New         bool    // its segment was attached in this step: the operation sheet states its level
}

// Curve is the casting curve of a deck from the analysis of its plan, which must be that of
// [Deck.Plan] with the same supports and steps. What is meant to come after the last step,
// e.g. creep until a date, must be in the plan, as a move that waits. The error wraps
// [ErrSegmental].
func (c Casting) Curve(d Deck, a *stages.Analysis, on []stages.Support, steps ...Step) (CastingCurve, error) {
	if err := c.check(d, a, steps); err != nil {
		return CastingCurve{}, err
	}
	f, err := c.follow(d, a, on, steps)
	if err != nil {
		return CastingCurve{}, fmt.Errorf("%w: casting curve of deck %q: %w", ErrSegmental, d.Mark, err)
	}
	curve := CastingCurve{Rule: c.Rule, Joints: f.joints(), Notes: f.notes()}
	for _, s := range f.seen {
		curve.Levels = append(curve.Levels, f.levels(s))
	}
	if err := curve.finite(); err != nil {
		return CastingCurve{}, err
	}
	return curve, nil
}

// check reports the first field that is not as it must be.
func (c Casting) check(d Deck, a *stages.Analysis, steps []Step) error {
	if err := d.check(); err != nil {
		return err
	}
	if c.Rule != MatchCast && c.Rule != FormReset {
		return fmt.Errorf("%w: field Casting.Rule = %q: must be one of %q", ErrSegmental, c.Rule, []CastingRule{MatchCast, FormReset})
	}
	if a == nil {
		return fmt.Errorf("%w: casting curve of deck %q: the analysis is missing: must be that of its plan", ErrSegmental, d.Mark)
	}
	for i, s := range c.Shifts {
		of := fmt.Sprintf("Casting.Shifts[%d].", i)
		k, err := d.index(s.Segment)
		if err != nil {
			return fmt.Errorf("%w: field %sSegment: %w", ErrSegmental, of, err)
		}
		if d.Segments[k].Type != OnPier {
			return fmt.Errorf("%w: field %sSegment: segment %s is a %q: must be one on a pier", ErrSegmental, of, s.Segment, d.Segments[k].Type)
		}
		if err := within(of, bound{"Step", float64(s.Step), "", 1, float64(len(steps))}, bound{"Rotation", s.Rotation, "rad", -0.05, 0.05}, bound{"Settlement", s.Settlement, "m", -1, 1}); err != nil {
			return err
		}
	}
	for j, x := range d.at() {
		if z := c.profile(x); !(math.Abs(z) <= mostLevel) {
			return fmt.Errorf("%w: field Casting.Profile gives %g m at x = %.3f m, joint %s: must be within ±%g m", ErrSegmental, z, x, d.jointAt(j), mostLevel)
		}
	}
	return nil
}

// mostLevel is the size of a level (m) above sea that no deck exceeds.
const mostLevel = 1e4

func (c Casting) profile(x float64) float64 {
	if c.Profile == nil {
		return 0
	}
	return c.Profile(x)
}

// jointAt is the name of joint j, from 0 at the left end of the deck.
func (d Deck) jointAt(j int) string {
	switch j {
	case 0:
		return d.Segments[0].Element.Mark + ", left end"
	case len(d.Segments):
		return d.Segments[j-1].Element.Mark + ", right end"
	}
	return d.jointName(j)
}

// owner is the segment that ends outwards, away from its pier, at joint j: whose casting or
// form sets the joint. It is never a closure.
func (d Deck) owner(j int) int {
	switch {
	case j == 0:
		return 0
	case j == len(d.Segments) || d.Segments[j].Type == Closure:
		return j - 1
	case d.Segments[j-1].Type == Closure || d.arm(j-1) < 0:
		return j
	}
	return j - 1
}

// armName is the arm of which segment i is part, seen from joint j.
func (d Deck) armName(i, j int) string {
	switch {
	case d.Segments[i].Type == OnGround:
		return "on falsework"
	case d.arm(i) != 0:
		return d.group(i)
	case j == i:
		return "left arm of " + d.Segments[i].Element.Mark
	}
	return "right arm of " + d.Segments[i].Element.Mark
}

// finite reports a curve with a number that is none.
func (c CastingCurve) finite() error {
	numbers := func(name string, values ...float64) error {
		if slices.ContainsFunc(values, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }) {
			return fmt.Errorf("%w: joint %s: movements are no finite numbers: must be segments of usual stiffness and weight", ErrSegmental, name)
		}
		return nil
	}
	for _, j := range c.Joints {
		if err := numbers(j.Name, j.Deflection, j.Least, j.Most, j.Ordinate, j.Angle, j.Offset); err != nil {
			return err
		}
	}
	for _, s := range c.Levels {
		for _, j := range s.Joints {
			if err := numbers(j.Name, j.Level, j.Least, j.Most, j.Slope); err != nil {
				return err
			}
		}
	}
	return nil
}
