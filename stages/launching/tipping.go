package launching

import (
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// across are the checks against overturning of the gantry across about a foot of every leg,
// which has no help of another. The least force of a foot has the same moments, but for the
// nominal horizontal force; it says what bars of the foot pull, this one what they hold.
func (l Launch) across(under factoredLegs, p Position, standard limits.Standard) ([]stages.OwnCheck, error) {
	return l.stable(under, p, standard, limits.Overturning, "overturning of the gantry across", func(s factoredLeg) (stages.OwnCheck, error) {
		return s.worst(s.tips)
	})
}

// tips is the check about a foot with the minimum or the maximum force of the leg.
func (s factoredLeg) tips(most bool) (stages.OwnCheck, error) {
	c := &formula.Chain{}
	leg := s.force(c, most)
	lever, wind := s.launch.tilted(c, s.feet)
	width := formula.Q("b_f", s.feet.Width, formula.Metre, "between the feet")
	known := s.known(c, leg)
	nominal := c.Derive(newtons("H_nom", 0, "nominal horizontal force across beside the known ones"), "max(ν_1*abs(F_leg), ν_2*abs(F_leg) + H_k) - H_k", limits.NominalSource, alone, beside, leg, known)
	over := c.Derive(newtonMetres("M_dst_y", 0, "destabilising moment across about a foot, factored"), "M_w + H_nom*h_G + λ_f*b_f*abs(F_leg)", formula.Mechanics, wind, nominal,
		formula.Q("h_G", s.launch.Gantry.Height, formula.Metre, "height of the centre of gravity above the feet of the legs"), lever, width, leg)
	expression, operands := "F_leg*b_f/2", []formula.Quantity{leg, width}
	if b := s.stand().Bars; b != nil {
		expression += " + γ_inf*n_foot*WLL_bar*b_f"
		operands = append(operands, formula.Q("γ_inf", s.limit.Factors.Filled().WeightLeast, formula.One, "on what is favourable"),
			formula.Q("n_foot", math.Floor(float64(b.Number)/2), formula.One, "anchor bars at each foot"), newtons("WLL_bar", b.Capacity, "working load limit of a bar with its anchorage"))
	}
	hold := c.Derive(newtonMetres("M_stb_y", 0, "stabilising moment across about a foot, factored"), expression, s.limit.Source, operands...)
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	limit := s.limit
	limit.Name, limit.Line = "overturning of the gantry across", formula.Given(hold, limit.Source)
	return stages.NewCheck(limit, over).Derived(lines...), nil
}

// known derives the known horizontal force across of the leg without partial factors on it:
// the nominal one beside it is then the larger.
func (s factoredLeg) known(c *formula.Chain, leg formula.Quantity) formula.Quantity {
	return c.Derive(newtons("H_k", 0, "known horizontal force across of the leg, without factors"), "q_w*A_y*s_w + S_y*s_h + abs(F_leg)*sin(α_y)", formula.Mechanics, append(s.aside(), leg)...)
}
