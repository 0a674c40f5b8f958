package launching

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// sliding are the checks of a foot of every leg that relies on friction, with the factors of
// a standard for equilibrium, and for the others how much their fixing receives.
func (l Launch) sliding(under factoredLegs, p Position, standard limits.Standard) ([]stages.OwnCheck, error) {
	return l.stable(under, p, standard, limits.Sliding, "sliding of a foot of the gantry", func(s factoredLeg) (stages.OwnCheck, error) {
		if s.stand().Friction == 0 {
			return s.fixing()
		}
		return s.slides()
	})
}

// slides is the check of a foot against sliding: half of what the leg receives along and
// across against the friction of the foot that presses least.
func (s factoredLeg) slides() (stages.OwnCheck, error) {
	return s.worst(func(most bool) (stages.OwnCheck, error) {
		c := &formula.Chain{}
		leg := s.force(c, most)
		across := s.across(c, leg)
		along, held := s.along(c, leg)
		push := c.Derive(newtons("H_foot", 0, "horizontal force of a foot: half of that of the leg, with the nominal one"), "max(ν_1*V_n, ν_2*V_n + sqrt(H_x*H_x + H_y*H_y))/2", limits.NominalSource,
			alone, beside, held, along, across)
		press := s.pressed(c, leg)
		friction := s.limit.Friction
		if friction.Value == 0 {
			friction = formula.Q("γ_μ", 1, formula.One, "partial factor on the minimum friction")
		}
		hold := c.Derive(newtons("H_μ", 0, "permissible by friction, at the foot with the minimum force"), "μ_f/γ_μ*N_foot", s.limit.Source,
			formula.Q("μ_f", s.stand().Friction, formula.One, "minimum coefficient of friction below the foot"), friction, press)
		lines, err := c.Lines()
		if err != nil {
			return stages.OwnCheck{}, err
		}
		limit := s.limit
		limit.Name, limit.Line = "sliding of a foot of the gantry", formula.Given(hold, limit.Source)
		check := stages.NewCheck(limit, push)
		check.Note = strings.TrimSuffix(bounded+"; "+check.Note, "; ")
		own := check.Derived(lines...)
		if check.State == stages.Pass && push.Value > 0 {
			assumed := formula.Q("μ_f", s.stand().Friction, formula.One, "coefficient of friction assumed")
			own.Hold = &stages.Hold{Kind: "friction below the feet of leg " + s.received.Leg, Required: formula.Q("μ_f", assumed.Value*push.Value/hold.Value, formula.One, "coefficient of friction"), Assumed: assumed}
		}
		return own, nil
	})
}

// bounded is what a check of a foot takes for the worst at once.
const bounded = "bounded: wind and braking along act with wind across, and each leg that holds the gantry along takes all that acts along"

// fixing is the question about the fixing of a leg that does not rely on friction.
func (s factoredLeg) fixing() (stages.OwnCheck, error) {
	c := &formula.Chain{}
	leg := s.force(c, math.Abs(s.feet.Force.Most) >= math.Abs(s.feet.Force.Least))
	across := s.across(c, leg)
	along, held := s.along(c, leg)
	ahead := c.Derive(newtons("H_fix_x", 0, "along on the fixing of the leg, with the nominal one"), "max(ν_1*V_n, ν_2*V_n + H_x)", limits.NominalSource, alone, beside, held, along)
	aside := c.Derive(newtons("H_fix_y", 0, "across on the fixing of the leg, with the nominal one"), "max(ν_1*abs(F_leg), ν_2*abs(F_leg) + H_y)", limits.NominalSource, alone, beside, leg, across)
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	own := local("fixing of leg "+s.received.Leg, s.stand().X, fmt.Sprintf("leg %s relies on no friction: its fixing to %s against sliding: required for %.0f kN along and %.0f kN across on both feet together, acting together, factored for equilibrium", s.received.Leg, s.stand().On, math.Ceil(ahead.Value/1e3), math.Ceil(aside.Value/1e3)))
	own.Derivation = lines
	return own, nil
}

var (
	alone  = formula.Q("ν_1", limits.NominalAlone, formula.One, "nominal share of the vertical force")
	beside = formula.Q("ν_2", limits.NominalBeside, formula.One, "nominal share beside known horizontal forces")
)

// across derives the known horizontal force across of the leg.
func (s factoredLeg) across(c *formula.Chain, leg formula.Quantity) formula.Quantity {
	_, wind := s.limit.Factors.On(limits.Wind)
	return c.Derive(newtons("H_y", 0, "known horizontal force across of the leg"), "γ_W*(q_w*A_y*s_w + S_y*s_h) + abs(F_leg)*sin(α_y)", s.limit.Source, append(s.aside(), formula.Q("γ_W", wind, formula.One, "on wind"), leg)...)
}

// aside are the quantities of what acts across on the leg, beside its own force.
func (s factoredLeg) aside() []formula.Quantity {
	g, p := s.launch.Gantry, s.position
	return []formula.Quantity{
		formula.Q("q_w", p.Wind.pressure(), formula.NewtonPerSquareMetre, "velocity pressure of the wind"), formula.Q("A_y", g.SideArea, formula.SquareMetre, "projected area times force coefficient, across"),
		formula.Q("s_w", g.windShare(p, s.number), formula.One, "maximum share of the leg of the wind across on the gantry"), newtons("S_y", p.across, "across on what hangs on the hooks"),
		formula.Q("s_h", g.swingShare(p, s.number), formula.One, "maximum share of the leg of it"), formula.Q("α_y", p.CrossFall, formula.Radian, "cross-fall"),
	}
}

// along derives the known horizontal force along of the leg, and the vertical force of which
// the nominal horizontal force is a share: where the leg holds, of the whole gantry.
func (s factoredLeg) along(c *formula.Chain, leg formula.Quantity) (along, held formula.Quantity) {
	g, p := s.launch.Gantry, s.position
	drag := formula.Q("μ_r", p.drag(), formula.One, "resistance of the rollers")
	if !s.stand().Holds {
		held = c.Derive(newtons("V_n", 0, "vertical force of the leg, which does not hold the gantry along"), "abs(F_leg)", formula.Mechanics, leg)
		return c.Derive(newtons("H_x", 0, "known horizontal force along of the leg"), "μ_r*V_n", formula.Mechanics, drag, held), held
	}
	all := s.all(c)
	held = c.Derive(newtons("V_n", 0, "vertical force of the gantry, which the leg holds along, or of the leg where that is more"), "max(G_all, abs(F_leg))", formula.Mechanics, all, leg)
	_, wind := s.limit.Factors.On(limits.Wind)
	_, brake := s.limit.Factors.On(limits.Braking)
	return c.Derive(newtons("H_x", 0, "known horizontal force along of the leg"), "γ_W*(q_w*A_x + S_x) + γ_B*B_x + G_all*sin(α_x) + μ_r*V_n", s.limit.Source, formula.Q("γ_W", wind, formula.One, "on wind"),
		formula.Q("q_w", p.Wind.pressure(), formula.NewtonPerSquareMetre, "velocity pressure of the wind"), formula.Q("A_x", g.EndArea, formula.SquareMetre, "projected area times force coefficient, along"),
		newtons("S_x", p.along, "along on what hangs on the hooks"), formula.Q("γ_B", brake, formula.One, "on braking"), newtons("B_x", g.braking(p), "drive or brakes of the trolleys"),
		all, formula.Q("α_x", math.Abs(p.Gradient), formula.Radian, "gradient"), drag, held), held
}

// all derives the maximum weight of the gantry and of what hangs on it, factored.
func (s factoredLeg) all(c *formula.Chain) formula.Quantity {
	expression, operands := "", []formula.Quantity(nil)
	for i, of := range s.causes {
		if of.load.Total() == 0 {
			continue
		}
		f, q := fmt.Sprintf("g_%d", i+1), fmt.Sprintf("G_%d", i+1)
		if expression != "" {
			expression += " + "
		}
		expression += f + "*" + q
		operands = append(operands, formula.Q(f, of.of.Most, formula.One, "maximum factor on "+of.name), newtons(q, of.load.Total(), of.name+", nominal"))
	}
	return c.Derive(newtons("G_all", 0, "weight of the gantry and of what hangs on it, maximum, factored"), expression, s.limit.Source, operands...)
}

// pressed derives the force with which the foot that presses least presses: with what its
// bars are stated to add.
func (s factoredLeg) pressed(c *formula.Chain, leg formula.Quantity) formula.Quantity {
	lever, wind := s.launch.tilted(c, s.feet)
	expression, operands := "min((1/2 - λ_f)*F_leg, (1/2 + λ_f)*F_leg) - M_w/b_f", []formula.Quantity{lever, leg, wind, formula.Q("b_f", s.feet.Width, formula.Metre, "between the feet")}
	if b := s.stand().Bars; b != nil && b.Clamp > 0 {
		expression += " + γ_inf*p_b*n_foot*P_bar"
		operands = append(operands, formula.Q("γ_inf", s.limit.Factors.Filled().WeightLeast, formula.One, "on what is favourable"), formula.Q("p_b", b.Clamp, formula.One, "part of the preload that presses the foot"),
			formula.Q("n_foot", math.Floor(float64(b.Number)/2), formula.One, "anchor bars at each foot"), newtons("P_bar", b.Preload, "preload of each bar"))
	}
	return c.Derive(newtons("N_foot", 0, "minimum force of a foot on what it stands on"), expression, formula.Mechanics, operands...)
}
