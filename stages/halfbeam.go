package stages

import (
	"errors"
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/limits"
)

// Adhesion is the pull of the form on an element that is lifted off it, present or
// absent: a pressure (Pa, 0 to 20e3; see limits.FormAdhesions) on a width (m, 0 to 50) of
// form below a line at y (m), over the length (m) of the element.
func Adhesion(length, width, pressure, y float64) (Action, error) {
	switch {
	case !(length > 0 && length <= 1000):
		return Action{}, fmt.Errorf("%w: adhesion over a length of %g m: must be above 0, at most 1000 m", ErrStage, length)
	case !(width > 0 && width <= 50):
		return Action{}, fmt.Errorf("%w: adhesion on a width of %g m: must be above 0, at most 50 m", ErrStage, width)
	case !(pressure > 0 && pressure <= 20e3):
		return Action{}, fmt.Errorf("%w: adhesion = %g Pa: must be above 0, at most 20 kPa", ErrStage, pressure)
	}
	return Action{
		Mark: "adhesion of the form", Kind: Imposed, Y: y,
		Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, length, width*pressure)}},
	}, nil
}

// Bearings are elastic bearings at y (m) at each x (m) that also give way when the element
// rolls: each is two supports side by side that have its stiffness in compression (N/m)
// and its roll stiffness (N·m/rad). They lift off where the resultant is farther out than
// √(roll/compression); the edge of a bearing is beyond that. The error wraps [ErrStage]:
// a stiffness out of 1e3 to 1e12, or springs closer than 10 mm or farther apart than 5 m.
func Bearings(y, compression, roll float64, xs ...float64) ([]Support, error) {
	if !(compression >= 1e3 && compression <= 1e12) || !(roll >= 1e3 && roll <= 1e12) {
		return nil, fmt.Errorf("%w: bearing of %g N/m and %g N·m/rad: must be 1e3 to 1e12 each", ErrStage, compression, roll)
	}
	off := math.Sqrt(roll / compression)
	if !(off >= 0.005 && off <= 2.5) {
		return nil, fmt.Errorf("%w: bearing of %g N/m and %g N·m/rad: its springs are %g m apart: must be 0.01 to 5 m, 2·√(roll/compression)", ErrStage, compression, roll, 2*off)
	}
	var list []Support
	for _, x := range xs {
		list = append(list, Support{X: x, Y: y - off, Stiffness: compression / 2}, Support{X: x, Y: y + off, Stiffness: compression / 2})
	}
	return list, nil
}

// TakeUp is the element on its way from a trailer or its bed to a crane or two: one end
// hangs on its lift points while the other still rests. Without a set-down after it in
// the plan it does not pass.
type TakeUp struct {
	Name      string          // "" means "one end taken up"
	Age       float64         // d, not before the previous situation ends
	Hanging   []Support       // lift points of the end that leaves first; their Role is LiftPoint where none is stated
	Resting   []Support       // supports of the other end; their Role is Pad where none is stated
	Dynamic   loads.Dynamic   // range of the factor on the weight; must be stated, loads.AtRest() for none
	Roll      float64         // cross-fall, both ways, rad, 0 to 0.35
	Gradient  float64         // one end above the other, both ways, rad, 0 to 0.35
	Actions   []Action        // wind
	Cranes    []MobileCrane   // whose charts are checked: one for each hook; lift points are numbered before the supports that rest
	Gear      *Gear           // slings and lifting anchors that are checked; nil: by others
	Equipment []EquipmentItem // what else holds or carries it; drawn and stated, not calculated
}

// Situations is the element hanging by one end, a transient situation.
func (t TakeUp) Situations(History) ([]Situation, error) {
	if len(t.Hanging) == 0 || len(t.Resting) == 0 {
		return nil, errors.New("TakeUp.Hanging or TakeUp.Resting has no support: must be at least one each")
	}
	s := Situation{
		Name: named(t.Name, "one end taken up"), Age: t.Age, Phase: limits.Lifting, Supports: append(as(LiftPoint, t.Hanging), as(Pad, t.Resting)...),
		Dynamic: t.Dynamic, Roll: t.Roll, Gradient: t.Gradient, Actions: t.Actions, Equipment: t.Equipment,
	}
	if err := onCranes(&s, t.Cranes); err != nil {
		return nil, fmt.Errorf("TakeUp: %w", err)
	}
	if err := onGear(&s, t.Gear); err != nil {
		return nil, fmt.Errorf("TakeUp: %w", err)
	}
	return []Situation{s}, nil
}
