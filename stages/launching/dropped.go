package launching

import (
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// dropped are the checks of the locked jacks when one of them is lost at once and the
// element comes down on the packing beside it, as stiff as a jack: by the gap out of the plane
// of the other three.
func (j JackDown) dropped(f FourPoints, e stages.Effects) ([]stages.OwnCheck, error) {
	if j.SafetyPacking == nil || j.SafetyPacking.Gap == 0 {
		return nil, nil
	}
	var rated, uplift worstCheck
	for gone := range j.Jacks {
		for at, per := range f.changes(gone) {
			r := e.Reactions[at].Characteristic
			switch {
			case at == gone:
			case per < 0: // it gains where the lost jack goes down
				c, err := compared("rated force of a locked jack after the loss of another", limits.AtMost, maker, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
					return j.dropping(c, newtons("F_l", 0, "maximum force of a jack"), "R_J + f_dyn*ΔR_d*g_p", r.Most, -per), j.given(c)
				})
				rated.keep(c, err, j, gone, at)
			default:
				c, err := compared("uplift at a locked jack after the loss of another", limits.AtLeast, formula.Mechanics, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
					return j.dropping(c, newtons("F_l_min", 0, "minimum force of a jack"), "R_J - f_dyn*ΔR_d*g_p", r.Least, per), pressing(c, formula.Mechanics)
				})
				c.LimitState = limits.Equilibrium
				uplift.keep(c, err, j, gone, at)
			}
		}
	}
	return listed("accidental: every partial factor is 1", rated, uplift)
}

// dropping derives the force of a locked jack when the element comes down beside another.
func (j JackDown) dropping(c *formula.Chain, result formula.Quantity, expression string, force, per float64) formula.Quantity {
	return c.Derive(result, expression, formula.Mechanics, newtons("R_J", force, "its force with the lock rings set, characteristic"), lostBy(j.sudden()),
		formula.Q("ΔR_d", per, formula.NewtonPerMetre, "change of it for a metre that the lost jack is lower, as the warp of four points"), formula.Q("g_p", j.SafetyPacking.Gap, formula.Metre, "gap above the packing"))
}
