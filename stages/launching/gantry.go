package launching

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
)

// ErrLaunching is wrapped by every error about a gantry, a position or a move that is
// not as it must be.
var ErrLaunching = errors.New("launching")

// Gantry is a launching gantry: a straight girder that stands on legs and steps forward
// over the piers. Its own places are in m from its rear end, positive in the direction of
// the launch, which is that of the element's x.
type Gantry struct {
	Mark      string
	Length    float64          // m, 5 to 400
	Weights   []Weight         // structure and counterweights, 1 to 50
	Trolleys  []Trolley        // that run on it, at most 10
	Legs      []Leg            // 1 to 20
	Tolerance *loads.Tolerance // on Weights; must be stated, loads.PlusMinus(0) for none
	Stiffness []beam.Stretch   // in the vertical plane; nil: not stated, then at most two legs stand and the nose has no deflection
	Height    float64          // of its centre of gravity above the feet of its legs, m, 0 to 60
	SideArea  float64          // projected area times force coefficient, wind across, m², 0 to 5000
	EndArea   float64          // the same, wind along, m², 0 to 5000
	AreaAt    float64          // height of the wind force above the feet of its legs, m, 0 to 60
	RopeAt    float64          // height at which ropes leave the trolleys above the feet of its legs, m, 0 to 60; must be stated for a Hoist and for a trolley with a Brake
}

// Weight is a part of a gantry.
type Weight struct {
	Mark          string
	Loads         loads.Set // forces and line loads on the gantry, downwards, 100e6 N together at most
	Counterweight bool      // counts against overturning with the factor on counterweights
	OutOfPlace    float64   // of a counterweight that was weighed: how far it may be off its place, m, 0 to 5; 0: not weighed, the factor counts
}

// Trolley is a winch trolley that runs on a gantry.
type Trolley struct {
	Mark     string
	Weight   float64 // with hook block and rope, N, 0 to 10e6
	From, To float64 // ends of its runway, m from the rear end; To 0 means the front end
	Brake    float64 // greatest force along of its drive or brakes, either way, at RopeAt, N, 0 to 2e6; a locked trolley has none
}

// Leg is a leg of a gantry: main, rear, front or pendulum leg.
type Leg struct {
	Mark      string
	Weight    float64 // of the leg itself, N, 0 to 10e6
	Width     float64 // between its two feet, across, m, 0.3 to 50
	Capacity  float64 // rated force on each of its two feet, N, 1e3 to 1e9; by its maker
	Stiffness float64 // vertical, N/m; 0 rigid
}

func (g Gantry) check() error {
	err := within("Gantry.", bound{"Length", g.Length, "m", 5, 400}, bound{"Height", g.Height, "m", 0, 60}, bound{"SideArea", g.SideArea, "m²", 0, 5000},
		bound{"EndArea", g.EndArea, "m²", 0, 5000}, bound{"AreaAt", g.AreaAt, "m", 0, 60}, bound{"RopeAt", g.RopeAt, "m", 0, 60}, bound{"Weights, number", float64(len(g.Weights)), "", 1, 50},
		bound{"Trolleys, number", float64(len(g.Trolleys)), "", 0, 10}, bound{"Legs, number", float64(len(g.Legs)), "", 1, 20})
	if err != nil {
		return err
	}
	if g.Mark == "" {
		return fmt.Errorf("%w: field Gantry.Mark is empty: must be its name", ErrLaunching)
	}
	if g.Tolerance == nil {
		return fmt.Errorf("%w: field Gantry.Tolerance is not stated: must be the tolerance on its weights, loads.PlusMinus(0) for none", ErrLaunching)
	}
	if _, _, err := g.Tolerance.Range(); err != nil {
		return fmt.Errorf("%w: field Gantry.Tolerance: %w", ErrLaunching, err)
	}
	for i, w := range g.Weights {
		if err := w.check(g.Length); err != nil {
			return fmt.Errorf("in Gantry.Weights[%d] %q: %w", i, w.Mark, err)
		}
	}
	for i, t := range g.Trolleys {
		if err := within(fmt.Sprintf("Gantry.Trolleys[%d].", i), bound{"Weight", t.Weight, "N", 0, 10e6}, bound{"From", t.From, "m", 0, g.Length}, bound{"To", t.end(g.Length), "m", t.From, g.Length}, bound{"Brake", t.Brake, "N", 0, 2e6}); err != nil {
			return err
		}
		if t.Brake > 0 {
			if err := within("Gantry.", bound{"RopeAt", g.RopeAt, "m", 0.1, 60}); err != nil {
				return err
			}
		}
	}
	var marks []string
	for i, l := range g.Legs {
		if err := l.check(fmt.Sprintf("Gantry.Legs[%d].", i)); err != nil {
			return err
		}
		if l.Mark == "" || slices.Contains(marks, l.Mark) {
			return fmt.Errorf("%w: field Gantry.Legs[%d].Mark = %q: must be a name unlike those of the other legs", ErrLaunching, i, l.Mark)
		}
		marks = append(marks, l.Mark)
	}
	return nil
}

func (w Weight) check(length float64) error {
	if err := within("", bound{"OutOfPlace", w.OutOfPlace, "m", 0, 5}); err != nil {
		return err
	}
	if len(w.Loads.Couples)+len(w.Loads.Curvatures) > 0 {
		return fmt.Errorf("%w: field Loads has couples or curvatures: must be forces and line loads", ErrLaunching)
	}
	if err := w.Loads.Check(length); err != nil {
		return fmt.Errorf("%w: field Loads: %w", ErrLaunching, err)
	}
	for _, p := range w.Loads.Points {
		if p.Force < 0 {
			return fmt.Errorf("%w: field Loads has a force of %g N: must be downwards, 0 or more", ErrLaunching, p.Force)
		}
	}
	for _, l := range w.Loads.Lines {
		if !downwards(l) {
			return fmt.Errorf("%w: field Loads has a line load from %g to %g m that is not downwards over its whole length: must be linear and 0 or more at both ends", ErrLaunching, l.From, l.To)
		}
	}
	if total := w.Loads.Total(); !(total > 0 && total <= 100e6) {
		return fmt.Errorf("%w: field Loads sums to %g N: must be more than 0, at most 100e6 N", ErrLaunching, total)
	}
	return nil
}

// downwards is true for a linear line load without an upward part.
func downwards(l loads.Line) bool {
	for _, c := range l.Intensity[2:] {
		if c != 0 {
			return false
		}
	}
	return l.Intensity[0] >= 0 && l.Intensity[0]+l.Intensity[1]*(l.To-l.From) >= -1e-9*math.Abs(l.Intensity[0])
}

func (l Leg) check(of string) error {
	if err := within(of, bound{"Weight", l.Weight, "N", 0, 10e6}, bound{"Width", l.Width, "m", 0.3, 50}, bound{"Capacity", l.Capacity, "N", 1e3, 1e9}); err != nil {
		return err
	}
	if l.Stiffness == 0 {
		return nil
	}
	return within(of, bound{"Stiffness", l.Stiffness, "N/m", 1e3, 1e12})
}

// end is the front end of the runway of a trolley (m).
func (t Trolley) end(length float64) float64 {
	if t.To == 0 {
		return length
	}
	return t.To
}

// leg is the leg of a mark; nil for none.
func (g Gantry) leg(mark string) *Leg {
	for i := range g.Legs {
		if g.Legs[i].Mark == mark {
			return &g.Legs[i]
		}
	}
	return nil
}

// bound is a field with the values that it may have.
type bound struct {
	field       string
	value       float64
	unit        string
	least, most float64
}

// within reports the first field that is out of its range or not a number.
func within(of string, fields ...bound) error {
	for _, f := range fields {
		if !(f.value >= f.least && f.value <= f.most) {
			return fmt.Errorf("%w: field %s", ErrLaunching, formula.OutOfRange(of+f.field, f.value, f.unit, "", f.least, f.most))
		}
	}
	return nil
}
