package launching

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// simpleFactor is the usual factor of safety against overturning of a launch at nominal values.
const simpleFactor = 1.5

// practice is the source of what is common practice and in no standard.
var practice = formula.Source{Document: "common practice, no source", Confirm: true}

// name is what a balance is asked about, in words.
func (b Balance) name() string {
	if b.Forward {
		return "overturning of the gantry forward"
	}
	return "overturning of the gantry back"
}

// place is the leg and where the rear end of the gantry is.
func (b Balance) place() string {
	return fmt.Sprintf("leg %s at x = %.2f m, rear end at %.2f m", b.Leg, b.X, b.At)
}

// simple is the check of the nominal factor, which has to be at least a factor.
func (b Balance) simple(factor float64) (stages.OwnCheck, error) {
	c := &formula.Chain{}
	out := c.Derive(newtonMetres("M_out", 0, "of all weights beyond the leg, nominal"), "M_out_s + M_out_c + M_out_t", formula.Mechanics,
		newtonMetres("M_out_s", b.Structure.Beyond, "of the structure beyond the leg, nominal"), newtonMetres("M_out_c", b.Counter.Beyond+b.Weighed.Beyond, "of counterweights beyond the leg, nominal"),
		newtonMetres("M_out_t", b.Trolleys.Beyond, "of trolleys and the loads on their hooks beyond the leg, nominal"))
	in := c.Derive(newtonMetres("M_in", 0, "of all weights inside the leg, nominal"), "M_in_s + M_in_c + M_in_t", formula.Mechanics,
		newtonMetres("M_in_s", b.Structure.Inside, "of the structure inside the leg, nominal"), newtonMetres("M_in_c", b.Counter.Inside+b.Weighed.Inside, "of counterweights inside the leg, nominal"),
		newtonMetres("M_in_t", b.Trolleys.Inside, "of trolleys and the loads on their hooks inside the leg, nominal"))
	permissible := c.Derive(newtonMetres("M_p", 0, "permissible moment beyond the leg, nominal"), "M_in/FS_min", practice, in, formula.Q("FS_min", factor, formula.One, "minimum factor of safety against overturning at nominal values"))
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	limit := limits.Limit{Name: b.name() + ", nominal factor", LimitState: limits.Equilibrium, Sense: limits.AtMost, Source: practice, Line: lines[len(lines)-1]}
	limit.Line.Result = permissible
	check := stages.NewCheck(limit, out)
	check.X, check.Place = b.X, b.place()
	return check.Derived(lines...), nil
}

// factored is the check with the partial factors of a standard's limit, each kind of
// weight with its own.
func (b Balance) factored(limit limits.Limit, tolerance [2]float64) (stages.OwnCheck, error) {
	f := limit.Factors.Filled()
	counterIn, counterOut := f.On(limits.Counterweight)
	_, equipment := f.On(limits.Equipment)
	_, wind := f.On(limits.Wind)
	_, braking := f.On(limits.Braking)
	weight := tolerance[0]
	if f.WeightLeast*b.Structure.Inside < f.WeightMost*b.Structure.Beyond {
		weight = tolerance[1]
	}
	c := &formula.Chain{}
	one := func(symbol string, value float64, name string) formula.Quantity {
		return formula.Q(symbol, value, formula.One, name)
	}
	sup, inf := one("γ_sup", f.WeightMost, "on the unfavourable part of the weight: that beyond the leg"), one("γ_inf", f.WeightLeast, "on the favourable part of the weight: that inside the leg, and on bars")
	tol := one("t_w", weight, "factor of the weight tolerance of the structure, at its worse end")
	high, low := one("t_max", tolerance[1], "maximum factor of the weight tolerance"), one("t_min", tolerance[0], "minimum factor of the weight tolerance")
	gravity := c.Derive(newtonMetres("M_dst_G", 0, "destabilising moment of structure and counterweights, factored"), "γ_sup*t_w*M_out_s + t_max*(γ_c_sup*M_out_c + γ_sup*M_out_w)", limit.Source, sup, tol, high,
		newtonMetres("M_out_s", b.Structure.Beyond, "of the structure beyond the leg, nominal"),
		one("γ_c_sup", counterOut, "on a counterweight beyond the leg"), newtonMetres("M_out_c", b.Counter.Beyond, "of counterweights beyond the leg, nominal"),
		newtonMetres("M_out_w", b.Weighed.Beyond, "of weighed counterweights beyond the leg, out of place towards it"))
	trolleys := c.Derive(newtonMetres("M_dst_T", 0, "destabilising moment of trolleys, factored"), "γ_E*(M_out_t + (φ_max - 1)*M_out_h)", limit.Source, one("γ_E", equipment, "on equipment"),
		newtonMetres("M_out_t", b.Trolleys.Beyond, "of trolleys and the loads on their hooks beyond the leg, nominal"),
		one("φ_max", b.HookFactor, "maximum dynamic factor on loads on hooks"), newtonMetres("M_out_h", b.Hooks, "of it, the loads on hooks"))
	sideways := c.Derive(newtonMetres("M_dst_H", 0, "destabilising moment of horizontal forces, factored"), "γ_W*M_wind + γ_B*M_brake + γ_sup*M_slope + H_nom*h_G", limits.NominalSource, one("γ_W", wind, "on wind"),
		newtonMetres("M_wind", b.Wind, "of the wind along the gantry"), one("γ_B", braking, "on braking"), newtonMetres("M_brake", b.Braking, "of the drive or brakes of trolleys"), sup, newtonMetres("M_slope", b.Slope, "of the weight down the gradient"),
		formula.Q("H_nom", b.nominal(), formula.Newton, "nominal horizontal force: 2.5 % of the weight, or 1 % beside the known horizontal forces"), formula.Q("h_G", b.Height, formula.Metre, "height of the centre of gravity above the feet of the legs"))
	over := c.Derive(newtonMetres("M_dst", 0, "destabilising moment with factored actions"), "M_dst_G + M_dst_T + M_dst_H", formula.Mechanics, gravity, trolleys, sideways)
	hold := c.Derive(newtonMetres("M_stb", 0, "stabilising moment with factored actions"), "γ_inf*(t_w*M_in_s + t_min*M_in_w + M_bars) + γ_c*(t_min*M_in_c + M_in_l)", limit.Source, inf, tol, low,
		newtonMetres("M_in_s", b.Structure.Inside, "of the structure inside the leg, nominal"), newtonMetres("M_in_w", b.Weighed.Inside, "of weighed counterweights inside the leg, out of place towards it"),
		newtonMetres("M_bars", b.Bars, "of anchor bars of the other legs at their working load limit"),
		one("γ_c", counterIn, "on a counterweight that holds the gantry"), newtonMetres("M_in_c", b.Counter.Inside, "of counterweights inside the leg, nominal"),
		newtonMetres("M_in_l", b.Locked, "of trolleys fixed at their place inside the leg, without the loads on their hooks"))
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	limit.Name, limit.Line = b.name(), lines[len(lines)-1]
	limit.Line.Result = hold
	check := stages.NewCheck(limit, over)
	check.X, check.Place = b.X, b.place()
	return check.Derived(lines...), nil
}

func newtonMetres(symbol string, value float64, name string) formula.Quantity {
	return formula.Q(symbol, value, formula.NewtonMetre, name)
}

// overturning are the checks against overturning along, of each of the limits of a
// standard at the worst place of a position.
func (g Gantry) overturning(p Position, standard limits.Standard, phase limits.Phase, factor float64) (list []stages.OwnCheck, err error) {
	balances, err := g.Balances(p)
	if err != nil {
		return nil, err
	}
	answers, err := standard.Limits(limits.Question{Kind: limits.Overturning, Phase: phase})
	if err != nil {
		return nil, err
	}
	least, most, err := g.Tolerance.Range()
	if err != nil {
		return nil, err
	}
	for _, forward := range [2]bool{true, false} {
		worst := map[string]stages.OwnCheck{}
		var order []string
		keep := func(key string, c stages.OwnCheck, err error) error {
			if err != nil {
				return err
			}
			if before, ok := worst[key]; !ok {
				order = append(order, key)
			} else if c.Margin >= before.Margin {
				return nil
			}
			worst[key] = c
			return nil
		}
		for _, b := range balances {
			if b.Forward != forward {
				continue
			}
			c, err := b.simple(factor)
			if err := keep("nominal", c, err); err != nil {
				return nil, err
			}
			for i, limit := range answers {
				c, err := b.factored(limit, [2]float64{least, most})
				if err := keep(fmt.Sprint(i), c, err); err != nil {
					return nil, err
				}
			}
		}
		for _, key := range order {
			list = append(list, worst[key])
		}
	}
	if len(answers) == 0 {
		list = append(list, unanswered("overturning of the gantry", p.Stands[0].X, "the standard gives no factors for equilibrium"))
	}
	return list, nil
}
