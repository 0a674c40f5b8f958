package stages

import (
	"fmt"

	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// worstLegs are the forces of the outriggers at the worst slew angle, with the gross load
// (N) at the largest radius.
func (c MobileCrane) worstLegs(gross float64) (rigging.Legs, error) {
	o := c.Stand.Outriggers
	o.Load, o.Radius = gross, c.radius()
	return o.Worst(c.Stand.From, c.Stand.To)
}

// ground is the check of the outrigger with the largest force, of the pressure below its
// mat and of the distance of the mat from an edge.
func (c MobileCrane) ground(gross, x float64) ([]OwnCheck, error) {
	legs, err := c.worstLegs(gross)
	if err != nil {
		return nil, err
	}
	mat := c.Stand.Mat
	mat.Force = legs.Most()
	lines, err := mat.Lines()
	if err != nil {
		return nil, err
	}
	source := formula.Source{Document: c.Stand.Report}
	o := c.Stand.Outriggers
	o.Load, o.Radius = gross, c.radius()
	outriggers, err := o.Lines(legs.Slew)
	if err != nil {
		return nil, err
	}
	pressure, until := upTo(lines, "p_g")
	limit := limits.Limit{
		Kind: limits.GroundPressure, Name: string(limits.GroundPressure), LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: source,
		Line: formula.Given(formula.Q("p_perm", mat.Ground, formula.NewtonPerSquareMetre, "permissible ground pressure"), source),
	}
	check := NewCheck(limit, pressure.Result).Derived(append(append(outriggers, until...), limit.Line)...)
	check.X, check.Place = x, c.Mark
	if legs.Lifts > 0 {
		check.Note = fmt.Sprintf("%d of four outriggers is without load at this slew", legs.Lifts)
	}
	list := []OwnCheck{check}
	if mat.EdgeNeeded > 0 {
		edge := limits.Limit{
			Kind: limits.EdgeDistance, Name: string(limits.EdgeDistance), LimitState: limits.WorkingLoad, Sense: limits.AtLeast, Source: source,
			Line: formula.Given(formula.Q("a_min", mat.EdgeNeeded, formula.Metre, "distance that its designer asks for"), source),
		}
		has := formula.Q("a_edge", mat.Edge, formula.Metre, "from the mat to a quay wall, a service, a basement or a slope")
		check := NewCheck(edge, has).Derived(formula.Given(has, formula.Source{Document: "input"}), edge.Line)
		check.X, check.Place = x, c.Mark
		list = append(list, check)
	}
	return list, nil
}
