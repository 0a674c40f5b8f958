package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/formula"
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
	CoG             float64       // how far the centre of gravity may lie off along the element, m, 0 to 10: it loads this crane
	SailArea        float64       // of the element: projected area times force coefficient, m², for the wind limit; 0: not stated
	Plumb           float64       // greatest deviation of its rope from plumb, rad, 0 to 0.1
	Stand           *CraneStand   // nil: the ground below the crane is not checked
}

// CraneStand is how a crane on outriggers stands.
type CraneStand struct {
	Outriggers rigging.Outriggers // Load and Radius are those of the lift
	From, To   float64            // slew angles that it passes with the load, from ahead, anticlockwise seen from above, rad
	Mat        rigging.Mat        // below the outrigger with the largest force; Force is that of the lift
	Report     string             // document of the permissible ground pressure
}

// radius is the largest on the way (m).
func (c MobileCrane) radius() float64 { return max(c.Pick, c.Slew, c.Set) }

// check reports the first field that is out of range.
func (c MobileCrane) check(supports []Support) error {
	for _, r := range []struct {
		name  string
		value float64
	}{{"Pick", c.Pick}, {"Set", c.Set}} {
		if !(r.value > 0 && r.value <= 200) {
			return fmt.Errorf("field %s = %g m: must be the radius, above 0, at most 200 m", r.name, r.value)
		}
	}
	switch {
	case !(c.Slew >= 0 && c.Slew <= 200):
		return fmt.Errorf("field Slew = %g m: must be 0 to 200 m", c.Slew)
	case !(c.HookBlock >= 1 && c.HookBlock <= 1e6):
		return fmt.Errorf("field HookBlock = %g N: must be its weight, 1 N to 1 MN; a chart has it in its capacity", c.HookBlock)
	case !(c.Rigging >= 0 && c.Rigging <= 5e6):
		return fmt.Errorf("field Rigging = %g N: must be 0 to 5 MN", c.Rigging)
	case !(c.CoG >= 0 && c.CoG <= 10):
		return fmt.Errorf("field CoG = %g m: must be 0 to 10 m", c.CoG)
	case !(c.SailArea >= 0 && c.SailArea <= 1e4):
		return fmt.Errorf("field SailArea = %g m²: must be 0 to 10,000 m²", c.SailArea)
	case !(c.Plumb >= 0 && c.Plumb <= 0.1):
		return fmt.Errorf("field Plumb = %g rad: must be 0 to 0.1 rad; is it in degrees?", c.Plumb)
	case len(c.Supports) == 0:
		return fmt.Errorf("field Supports is empty: must be the numbers of its lift points")
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
		item, err := c.item(s.Supports)
		if err != nil {
			return fmt.Errorf("in Cranes[%d] %q: %w", i, shortened(c.Mark), err)
		}
		s.Equipment = append(slices.Clone(s.Equipment), item)
	}
	for i, p := range s.Supports {
		if p.Role == LiftPoint && !held[i+1] {
			return fmt.Errorf("in Cranes: lift point %d is on no hook: must be on that of a crane", i+1)
		}
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

// hookLoad is what hangs on the hook at rest (N): the sum of what its lift points get,
// and what the centre of gravity off its place adds.
func (c MobileCrane) hookLoad(e Effects) (rigging.Range, []formula.Line, error) {
	var hook Range
	at, others := 0.0, math.Inf(1)
	for _, n := range c.Supports {
		r := e.Reactions[n-1]
		hook.Least, hook.Most = hook.Least+r.Static.Least, hook.Most+r.Static.Most
		at += r.X / float64(len(c.Supports))
	}
	total := 0.0
	for i, r := range e.Reactions {
		total += r.Static.Most
		if !slices.Contains(c.Supports, i+1) {
			others = math.Min(others, math.Abs(r.X-at))
		}
	}
	static := formula.Q("R_hook", hook.Most, formula.Newton, "of its lift points at rest, maximum, with tolerance, roll and ends out of level")
	if c.CoG == 0 || math.IsInf(others, 1) || others == 0 {
		line, err := formula.Derive(formula.Q("G_hook", 0, formula.Newton, "load below the hook at rest, maximum"), "R_hook", formula.Mechanics, static)
		return rigging.Range{Least: hook.Least, Most: hook.Most}, []formula.Line{line}, err
	}
	line, err := formula.Derive(formula.Q("G_hook", 0, formula.Newton, "load below the hook at rest, maximum"), "R_hook + G*e_G/a_hook", formula.Mechanics, static,
		formula.Q("G", total, formula.Newton, "weight, maximum"), formula.Q("e_G", c.CoG, formula.Metre, "of the centre of gravity off its place"),
		formula.Q("a_hook", others, formula.Metre, "distance of the next supports"))
	return rigging.Range{Least: math.Max(0, hook.Least-total*c.CoG/others), Most: line.Result.Value}, []formula.Line{line}, err
}

// pick is the crane as package rigging takes it, under the load of a lift.
func (c MobileCrane) pick(load rigging.Range, dynamic, part float64) rigging.Pick {
	return rigging.Pick{
		Chart: c.Chart, Radius: c.radius(), Load: load, Dynamic: math.Max(1, dynamic), Rigging: c.Rigging, HookBlock: c.HookBlock, Part: part,
	}
}

// checks are the use of the chart, and the ground.
func (c MobileCrane) checks(e Effects, standard limits.Standard, cranes int) ([]OwnCheck, error) {
	load, lines, err := c.hookLoad(e)
	if err != nil {
		return nil, err
	}
	_, dynamic, err := e.Situation.Dynamic.Range()
	if err != nil {
		return nil, err
	}
	answers, err := standard.Limits(limits.Question{Kind: limits.CraneUse, Phase: e.Situation.Phase, Cranes: cranes})
	if err != nil {
		return nil, err
	}
	var list []OwnCheck
	x := e.Reactions[c.Supports[0]-1].X
	if len(answers) == 0 {
		list = append(list, OwnCheck{Check: Check{Kind: limits.CraneUse, Name: string(limits.CraneUse), State: NotEvaluated, Sense: limits.AtMost, X: x, Place: c.Mark,
			Note: "the standard gives no share of the chart: put limits.Handling beside it"}})
	}
	gross := 0.0
	for _, limit := range answers {
		p := c.pick(load, dynamic, limit.Line.Result.Value)
		use, err := p.Solve()
		if err != nil {
			return nil, err
		}
		gross = use.Gross
		more, err := p.Lines()
		if err != nil {
			return nil, err
		}
		permissible, until := upTo(more, "C_p")
		share := limit.Line
		limit.Line = permissible
		demand, _ := upTo(more, "F_g")
		check := NewCheck(limit, demand.Result).Derived(append(append(append(slices.Clone(lines), share), until...), more[len(until):len(more)-1]...)...)
		check.X, check.Place = x, c.Mark
		list = append(list, check)
	}
	if c.Stand == nil || gross == 0 {
		return list, nil
	}
	ground, err := c.ground(gross, x)
	return append(list, ground...), err
}
