package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// CloseChecks are those of the closure that has hardened, until its first tendons act: tension
// at its top and bottom by temperature, shrinkage and wind, and its strength when the tendons
// are stressed. The lock takes no part: it may be slack. The error wraps [ErrSegmental].
func (w ClosureWork) CloseChecks(g stages.Girder, e stages.Effects) (list []stages.OwnCheck, err error) {
	if err := w.check(g); err != nil {
		return nil, err
	}
	c, err := w.tips(g, e)
	if err != nil {
		return nil, err
	}
	for _, bottom := range []bool{true, false} {
		tension, err := c.tension(g, e, bottom)
		if err != nil {
			return nil, err
		}
		list = append(list, tension)
	}
	strength, err := c.strength()
	return append(list, strength), err
}

// tension is the check of the tension at the bottom under a warm top, or at the top under a
// cold one, with the mean temperature falling.
func (c closing) tension(g stages.Girder, e stages.Effects, bottom bool) (stages.OwnCheck, error) {
	k := &formula.Chain{}
	force, _, _, _, _, err := c.pull(k, g, e, true, true)
	if err != nil {
		return stages.OwnCheck{}, err
	}
	p := c.piece.Element.Section.At(c.piece.Element.Length / 2).Properties()
	kelvin, mark, edge, distance, sense := c.work.Temperature.WarmTop, "w", "bottom", p.Bottom, "+"
	if !bottom {
		kelvin, mark, edge, distance, sense = -c.work.Temperature.ColdTop, "k", "top", p.Top, "-"
	}
	level, angle := c.gradient(k, mark, kelvin)
	_, moment := c.stiffness(k, true).forces(k, mark, level, angle, "of the closure by it")
	stress := k.Derive(formula.Q("σ_c", 0, formula.Pascal, "tension at the "+edge+" of the closure before tendons act"), "F_x/A_c "+sense+" M_"+mark+"*z_c/I_c", formula.Mechanics,
		force, formula.Q("A_c", p.Area, formula.SquareMetre, "area of the closure"), moment, formula.Q("z_c", distance, formula.Metre, "from its centroid to the "+edge), formula.Q("I_c", p.SecondMomentY, formula.MetreToFourth, "second moment of area"))
	limit, err := c.tensile(k)
	if err != nil {
		return stages.OwnCheck{}, err
	}
	return c.compared(k, limits.Limit{Name: "tension at the " + edge + " of closure " + c.work.Closure + " before tendons act", LimitState: limits.Serviceability, Sense: limits.AtMost, Source: closurePractice,
		Scale: formula.Q("σ_scale", 1e6, formula.Pascal, "1 MPa")}, stress, limit, nil)
}

// tensile is what the closure can take in tension: its mean tensile strength at the age from
// which it counts, else nothing.
func (c closing) tensile(k *formula.Chain) (formula.Quantity, error) {
	result := formula.Q("f_ct", 0, formula.Pascal, "tension that the closure may have")
	if c.work.Tensile == 0 {
		return k.Given(result, closurePractice, "no tension before tendons act"), nil
	}
	state, err := c.piece.Element.Concrete.At(c.work.Tensile)
	if err != nil {
		return result, fmt.Errorf("%w: closure %s at age %g d: %w", ErrSegmental, c.work.Closure, c.work.Tensile, err)
	}
	result.Value = state.TensileMean
	return k.Given(result, closurePractice, fmt.Sprintf("mean tensile strength at age %g d by the model of the concrete", c.work.Tensile)), nil
}

// strength is the check of the strength at first stressing.
func (c closing) strength() (stages.OwnCheck, error) {
	k := &formula.Chain{}
	age := c.work.Stressed - c.piece.Element.Cast
	if !(age > 0) || c.work.Stressed < c.day {
		return stages.OwnCheck{}, fmt.Errorf("%w: closure %s: field Stressed = %g d: must be after it was cast, day %g, and not before it is closed, day %g", ErrSegmental, c.work.Closure, c.work.Stressed, c.piece.Element.Cast, c.day)
	}
	state, err := c.piece.Element.Concrete.At(age)
	if err != nil {
		return stages.OwnCheck{}, fmt.Errorf("%w: closure %s at age %g d: %w", ErrSegmental, c.work.Closure, age, err)
	}
	has := k.Given(formula.Q("f_ck_t", state.Characteristic, formula.Pascal, "characteristic cylinder strength of the closure at first stressing"), formula.Source{Document: "model of the concrete"}, fmt.Sprintf("at age %g d; %s", math.Round(age*1e3)/1e3, state.Basis))
	needs := k.Given(formula.Q("f_ck_min", c.work.Strength, formula.Pascal, "required when its first tendons are stressed"), c.work.Source, "")
	hold := &stages.Hold{Kind: "characteristic cylinder strength of closure " + c.work.Closure + " when its first tendons are stressed", Required: needs, Assumed: has}
	return c.compared(k, limits.Limit{Name: "strength of closure " + c.work.Closure + " at first stressing", LimitState: limits.Serviceability, Sense: limits.AtLeast, Source: c.work.Source}, has, needs, hold)
}
