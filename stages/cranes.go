package stages

import (
	"errors"
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/stages/limits"
)

// MobileCrane is a crane with a chart on whose hook the element hangs, alone or with
// other cranes. Its use of the chart is checked by limits.CraneUse, its ground where
// Stand says how it stands.
type MobileCrane struct {
	Mark            string        // name on the drawing
	Supports        []int         // numbers of the lift points on its hook, from 1
	Chart           rigging.Chart // of the configuration in which it stands
	Pick, Slew, Set float64       // radius at the pick, largest while slewing, at the set-down, m; the largest counts; Slew 0: not beyond the others
	HookBlock       float64       // weight of the hook block and of the rope below the boom as the chart asks, N, 1 to 1e6
	Rigging         float64       // weight of slings, shackles and spreader below the hook, N, 0 to 5e6
	CoG             float64       // how far the centre of gravity may lie off along the element, m, 0 to 10: a reserve of this crane, which does not widen the bands of readings
	SailArea        float64       // of the element: projected area times force coefficient, m², for the wind limit; 0: not stated
	Plumb           float64       // greatest deviation of its rope from plumb, rad, 0 to 0.1
	Stand           *CraneStand   // nil: the ground below the crane is not checked
}

// CraneStand is how a crane on outriggers stands.
type CraneStand struct {
	Outriggers rigging.Outriggers // Load and Radius are those of the lift
	From, To   float64            // slew angles that it passes with the load, from ahead, anticlockwise seen from above, rad
	Tail       float64            // radius of the tail swing of counterweight and upper structure about the slewing axis, m, 0.5 to 30; 0: a blank on operation sheets
	Mat        rigging.Mat        // below the outrigger with the largest force; Force is that of the lift
	Report     string             // document of the permissible ground pressure
}

// radius is the largest on the way (m).
func (c MobileCrane) radius() float64 { return max(c.Pick, c.Slew, c.Set) }

// check reports the first field that is out of range.
func (c MobileCrane) check(supports []Support) error {
	const nearest = 0.5 // m, as of a chart
	if err := outside("", ranged{"Pick", c.Pick, "m", nearest, 200}, ranged{"Set", c.Set, "m", nearest, 200}, ranged{"Slew", c.Slew, "m", 0, 200},
		ranged{"HookBlock", c.HookBlock, "N", 1, 1e6}, ranged{"Rigging", c.Rigging, "N", 0, 5e6}, ranged{"CoG", c.CoG, "m", 0, 10},
		ranged{"SailArea", c.SailArea, "m²", 0, 1e4}, ranged{"Plumb", c.Plumb, "rad", 0, 0.1}); err != nil {
		return err
	}
	if c.Stand != nil && c.Stand.Tail != 0 {
		if err := outside("Stand.", ranged{"Tail", c.Stand.Tail, "m", 0.5, 30}); err != nil {
			return err
		}
	}
	if len(c.Supports) == 0 {
		return errors.New("field Supports is empty: must be the numbers of its lift points")
	}
	for _, n := range c.Supports {
		if n < 1 || n > len(supports) || supports[n-1].Role != LiftPoint {
			return fmt.Errorf("field Supports has number %d: must be a lift point, 1 to %d", n, len(supports))
		}
	}
	if _, err := c.Chart.At(c.radius()); err != nil {
		return err
	}
	return nil
}

// onCranes gives a situation its cranes: their checks, and what the operation sheet
// states of them.
func onCranes(s *Situation, cranes []MobileCrane) error {
	if len(cranes) == 0 {
		return nil
	}
	held := map[int]bool{}
	for i, c := range cranes {
		err := c.check(s.Supports)
		if err == nil && slices.ContainsFunc(c.Supports, func(n int) bool { return held[n] }) {
			err = fmt.Errorf("field Supports = %v: must be lift points that no other crane holds", c.Supports)
		}
		if err != nil {
			return fmt.Errorf("in Cranes[%d] %q: %w", i, shortened(c.Mark), err)
		}
		for _, n := range c.Supports {
			held[n] = true
		}
	}
	for i, p := range s.Supports {
		if p.Role == LiftPoint && !held[i+1] {
			return fmt.Errorf("in Cranes: lift point %d is on no hook: must be on that of a crane", i+1)
		}
	}
	s.Equip = func(e Effects, standard limits.Standard) (items []EquipmentItem, err error) {
		for _, c := range cranes {
			item, err := c.item(e, standard, len(cranes))
			if err != nil {
				return nil, fmt.Errorf("%s: %w", c.Mark, err)
			}
			items = append(items, item)
		}
		return items, nil
	}
	s.Check = func(e Effects, standard limits.Standard) ([]OwnCheck, error) {
		var list []OwnCheck
		for _, c := range cranes {
			checks, err := c.checks(e, standard, len(cranes))
			if err != nil {
				return nil, fmt.Errorf("%s: %w", c.Mark, err)
			}
			list = append(list, checks...)
		}
		return list, nil
	}
	return nil
}
