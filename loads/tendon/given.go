package tendon

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Given is the force along a tendon as its designer states it, accepted in place
// of a computed one: put it in [Jacking], and [Tendon.Jack], [Force.Restress] and
// [Force.Detension] give a [Force] like any other. State either forces or losses,
// from the left anchor to the right one, x ascending; between two places the value
// is linear, two entries at one x are a step, as at a deviator. Nothing is
// extrapolated.
type Given struct {
	Source formula.Source // the document, with its number and revision, that states the values
	Forces []Stated       // of one tendon after lock-off, N
	Losses []Stated       // loss of stress from Jacking.Stress by friction and draw-in, Pa
}

// Stated is a value at an x.
type Stated struct {
	X     float64 // m from the left end of the element
	Value float64 // N or Pa: see [Given]
}

// given is the force of the tendon that the jacking states.
func (t Tendon) given(j Jacking, path *Path) (*Force, error) {
	g := j.Given
	name := "tendon " + t.Mark + ": Given."
	field, unit, list := "Forces", "N", g.Forces
	if len(g.Losses) > 0 {
		field, unit, list = "Losses", "Pa", g.Losses
	}
	last := len(list) - 1
	switch {
	case g.Source.Document == "":
		return nil, fmt.Errorf("%w: %sSource.Document is empty: must name the document that states the values", ErrTendon, name)
	case len(g.Forces) > 0 && len(g.Losses) > 0:
		return nil, fmt.Errorf("%w: %sForces and Losses are both stated: must be one of them", ErrTendon, name)
	case last < 1:
		return nil, fmt.Errorf("%w: %sForces has %d places: must be at least 2, the anchors", ErrTendon, name, len(list))
	case !(math.Abs(list[0].X-path.From()) <= jumpTolerance && math.Abs(list[last].X-path.To()) <= jumpTolerance):
		return nil, fmt.Errorf("%w: %s%s run from x = %g to %g m: must be %g to %g m, the anchors",
			ErrTendon, name, field, list[0].X, list[last].X, path.From(), path.To())
	}
	c := make(course, len(list))
	for i, s := range list {
		force := s.Value
		if field == "Losses" {
			force = (j.Stress - s.Value) * t.Area()
		}
		at := fmt.Sprintf("tendon %s at x = %g m: Given.", t.Mark, s.X)
		stated := bound{fmt.Sprintf("%s[%d]", field, i), s.Value, unit, leastSteel * t.Area(), t.Strand.Fpk * t.Area()}
		if field == "Losses" {
			stated.least, stated.most = leastChange, j.Stress-leastSteel
			if err := withinOrZero(at, stated); err != nil {
				return nil, err
			}
		} else if err := within(at, stated); err != nil {
			return nil, err
		}
		c[i] = ordinate{s.X, force, force, force}
	}
	c[0].x, c[last].x = path.From(), path.To()
	for i := 1; i <= last; i++ {
		if step := c[i].x == c[i-1].x; !(c[i].x >= c[i-1].x) || step && (i == 1 || i == last || c[i].x == c[i-2].x) {
			return nil, fmt.Errorf("%w: %s%s[%d] at x = %g m: must be beyond x = %g m, or a step of two entries between the anchors", ErrTendon, name, field, i, c[i].x, c[i-1].x)
		}
	}
	return &Force{Tendon: t, Jacking: j, Path: path, course: c}, nil
}

// stated derives the given force at x.
func (f *Force) stated(x float64, suffix string) ([]formula.Line, error) {
	i := len(f.course) - 2
	for i > 0 && x < f.course[i].x {
		i--
	}
	a, b := f.course[i], f.course[i+1]
	line, err := formula.Derive(
		formula.Q("P"+suffix, 0, formula.Newton, "force at x as stated, linear between two places, tendon "+f.Tendon.Mark),
		"P_a + (P_b - P_a)*(x - x_a)/(x_b - x_a)", f.Jacking.Given.Source,
		formula.Q("P_a", a.mean, formula.Newton, "force stated at the left one"), formula.Q("P_b", b.mean, formula.Newton, "force stated at the right one"),
		formula.Q("x", x, formula.Metre, "place asked for"), formula.Q("x_a", a.x, formula.Metre, "left place"), formula.Q("x_b", b.x, formula.Metre, "right place"))
	if err != nil {
		return nil, err
	}
	return []formula.Line{line}, nil
}

// calculated refuses what cannot be found from a force that is not computed.
func (f *Force) calculated(what string) error {
	if !f.made() {
		return f.unmade(what)
	}
	if f.course == nil {
		return nil
	}
	if f.bond != nil {
		return fmt.Errorf("%w: pretension %s: %s: must be a tendon in a duct, with anchors", ErrTendon, f.Tendon.Mark, what)
	}
	return fmt.Errorf("%w: tendon %s: %s of a force that is given: must be given as well", ErrTendon, f.Tendon.Mark, what)
}
