package segmental

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Arm is the part of a balanced cantilever on one side of its pier.
type Arm string

// The arms, looking at the girder with x to the right, and the pier segment between them.
const (
	Left   Arm = "left"
	Middle Arm = "middle" // the pier segment
	Right  Arm = "right"
)

// arms are all arms in order.
var arms = [3]Arm{Left, Middle, Right}

// words name the arm in a sentence.
func (a Arm) words() string {
	if a == Middle {
		return "pier segment"
	}
	return string(a) + " arm"
}

// Part is one cause about a pier, nominal: a segment, a lifting frame, a crew, wind on an arm.
type Part struct {
	Mark   string
	Kind   limits.ActionKind // "" for self-weight
	Arm    Arm
	Force  float64 // N, + down, −1e9 to 1e9; 0 to 1e9 for self-weight
	Lever  float64 // m, of its resultant from the pier axis along, + to the right, −500 to 500
	Across float64 // m, of its resultant from the pier axis across, + to the left (radius in plan), −500 to 500

	// Least and Most are the range of presence or the dynamic factor, −1 to 3; both 0: always
	// present (1, 1). Parts of self-weight of one arm are at the same end of their ranges together,
	// but for the segment that is handled.
	Least, Most float64

	// Handled is a segment on the lifting frame. Put on at once it acts twice (A + AI, AI = A);
	// released, a change of twice its weight from the state in which it hangs, it acts once
	// upwards. By AASHTO its dynamic factor is at least 1.1. In every other combination it hangs
	// on the frame or does not yet: its factor is 0 to Most.
	Handled bool
}

// presence is the range of the part's own factor.
func (p Part) presence() [2]float64 {
	if p.Least == 0 && p.Most == 0 {
		return [2]float64{1, 1}
	}
	return [2]float64{p.Least, p.Most}
}

// weight is true for self-weight, the segment that is handled included.
func (p Part) weight() bool { return p.Kind == "" || p.Handled }

// Balance is what acts on a balanced cantilever about its pier in one situation.
type Balance struct {
	Parts      []Part
	Unbalanced string  // mark of the segment that is lifted, else of that on one arm only; "" when both arms have equal segments
	Yaw        float64 // N·m about the vertical by unequal wind on the arms, both ways, 0 to 1e10
	Transverse float64 // N across by wind on both arms, both ways, 0 to 1e9
	Level      float64 // z of it in the deck, m, −100 to 100
}

// Resultant is what a pier receives from the deck.
type Resultant struct {
	Vertical float64 // N, + down
	Along    float64 // N·m, out-of-balance moment about the pier axis, + where the right arm goes down
	Across   float64 // N·m, + where the left side, looking along +x, goes down
}

// Rows are the forces of two rows of bearings, packs or props a distance apart (0.2 to 30 m)
// by statics, V/2 ∓ M/e, without the preload of ties (N, + pressed). The error wraps
// [ErrSegmental].
func (r Resultant) Rows(distance float64) (left, right float64, err error) {
	if err := rowsApart(distance); err != nil {
		return 0, 0, err
	}
	return r.Vertical/2 - r.Along/distance, r.Vertical/2 + r.Along/distance, nil
}

// Factor is the factor on the out-of-balance moment at which a row lifts, V·e/(2·|M|), of
// rows a distance apart (0.2 to 30 m). The error wraps [ErrSegmental]: without a moment
// nothing overturns.
func (r Resultant) Factor(distance float64) (float64, error) {
	if err := rowsApart(distance); err != nil {
		return 0, err
	}
	if r.Along == 0 {
		return 0, fmt.Errorf("%w: out-of-balance moment = 0 N·m: must be other than 0 for a factor on it", ErrSegmental)
	}
	return r.Vertical * distance / 2 / math.Abs(r.Along), nil
}

// Tie is the force of ties at the row that lifts (N) with which rows a distance apart (0.2 to
// 30 m) have a factor on the out-of-balance moment: (FS·|M| − V·e/2)/e, 0 where none is needed. The
// error wraps [ErrSegmental].
func (r Resultant) Tie(distance, factor float64) (float64, error) {
	if err := rowsApart(distance); err != nil {
		return 0, err
	}
	return math.Max(0, (factor*math.Abs(r.Along)-r.Vertical*distance/2)/distance), nil
}

// rowsApart reports a distance of two rows that is out of its range.
func rowsApart(distance float64) error {
	if !(distance >= 0.2 && distance <= 30) {
		return fmt.Errorf("%w: %s", ErrSegmental, formula.OutOfRange("distance of the rows", distance, "m", "", 0.2, 30))
	}
	return nil
}

// Nominal is the sum of all parts that are always present, each factor 1. The error wraps
// [ErrSegmental].
func (b Balance) Nominal() (Resultant, error) {
	factors := make([]float64, len(b.Parts))
	for i, p := range b.Parts {
		if p.presence()[0] > 0 {
			factors[i] = 1
		}
	}
	return b.resultant(factors), b.check()
}

// Moment is the nominal out-of-balance moment along of all parts that are always present
// (N·m). The error wraps [ErrSegmental].
func (b Balance) Moment() (float64, error) {
	r, err := b.Nominal()
	return r.Along, err
}

// resultant is the sum of all parts with factors.
func (b Balance) resultant(factors []float64) (r Resultant) {
	for i, p := range b.Parts {
		force := factors[i] * p.Force
		r.Vertical += force
		r.Along += force * p.Lever
		r.Across += force * p.Across
	}
	return r
}

// partKinds are those that a part may have: an accident is that of the segment handled.
var partKinds = []limits.ActionKind{"", limits.Equipment, limits.Counterweight, limits.Wind, limits.Personnel, limits.Braking, limits.Temperature, limits.Imposed, limits.Water}

// check reports the first value of a balance that is not as it must be.
func (b Balance) check() error {
	if len(b.Parts) == 0 {
		return fmt.Errorf("%w: field Balance.Parts is empty: must have at least one part", ErrSegmental)
	}
	if !(b.Yaw >= 0 && b.Yaw <= 1e10) {
		return fmt.Errorf("%w: field %s", ErrSegmental, formula.OutOfRange("Balance.Yaw", b.Yaw, "N·m", "", 0, 1e10))
	}
	if err := within("Balance.", bound{"Transverse", b.Transverse, "N", 0, 1e9}, bound{"Level", b.Level, "m", -100, 100}); err != nil {
		return err
	}
	for i, p := range b.Parts {
		if err := p.check(); err != nil {
			return fmt.Errorf("%w: part %d %q: %w", ErrSegmental, i+1, p.Mark, err)
		}
	}
	if b.Unbalanced != "" && !slices.ContainsFunc(b.Parts, b.scaled) {
		return fmt.Errorf("%w: field Balance.Unbalanced = %q: must be the mark of a segment on the left or the right arm", ErrSegmental, b.Unbalanced)
	}
	return nil
}

// scaled is true for the self-weight of the segment that is on one arm only.
func (b Balance) scaled(p Part) bool { return p.weight() && p.Arm != Middle && p.Mark == b.Unbalanced }

func (p Part) check() error {
	if strings.TrimSpace(p.Mark) == "" {
		return fmt.Errorf("field Mark is empty: must name the part")
	}
	if !slices.Contains(arms[:], p.Arm) {
		return fmt.Errorf("field Arm = %q: must be %q, %q or %q", p.Arm, Left, Middle, Right)
	}
	if !slices.Contains(partKinds, p.Kind) {
		return fmt.Errorf("field Kind = %q: must be \"\" for self-weight or one of %q", p.Kind, partKinds[1:])
	}
	least := -1e9
	if p.weight() {
		least = 0
	}
	presence := p.presence()
	lowest := -1.0
	if p.weight() {
		lowest = 0
	}
	for _, f := range []struct {
		field       string
		value       float64
		unit        string
		least, most float64
	}{
		{"Force", p.Force, "N", least, 1e9}, {"Lever", p.Lever, "m", -500, 500}, {"Across", p.Across, "m", -500, 500},
		{"Least", presence[0], "", lowest, 3}, {"Most", presence[1], "", 0, 3},
	} {
		if !(f.value >= f.least && f.value <= f.most) {
			return fmt.Errorf("field %s", formula.OutOfRange(f.field, f.value, f.unit, "", f.least, f.most))
		}
	}
	switch {
	case presence[0] > presence[1]:
		return fmt.Errorf("field Least = %g, Most = %g: Least must be at most Most", p.Least, p.Most)
	case p.Arm == Left && p.Lever > 0, p.Arm == Right && p.Lever < 0:
		return fmt.Errorf("field Lever = %g m on the %s arm: must be on its own side, + to the right", p.Lever, p.Arm)
	case p.Handled && (p.Arm == Middle || p.Force == 0):
		return fmt.Errorf("handled with Force = %g N on the %s: must be a segment with a weight on the left or the right arm", p.Force, p.Arm.words())
	}
	return nil
}

// segments are the marks of the segments of an arm, from the pier outwards, that on the
// lifting frame included.
func (b Balance) segments(arm Arm) (marks []string) {
	lever := map[string]float64{}
	for _, p := range b.Parts {
		if !p.weight() || p.Arm != arm || p.Force == 0 {
			continue
		}
		if _, known := lever[p.Mark]; !known {
			marks = append(marks, p.Mark)
		}
		lever[p.Mark] = math.Max(lever[p.Mark], math.Abs(p.Lever))
	}
	sort.SliceStable(marks, func(i, k int) bool { return lever[marks[i]] < lever[marks[k]] })
	return marks
}

// more are the outer segments that one arm has more than the other, and that arm.
func (b Balance) more() (marks []string, arm Arm) {
	left, right := b.segments(Left), b.segments(Right)
	if len(left) > len(right) {
		return left[len(right):], Left
	}
	return right[len(left):], Right
}
