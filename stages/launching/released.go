package launching

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

func (j JackDown) sudden() float64 { return or(j.Sudden, 2) }

// released are the checks of what carries while the stack of one jack is repacked, and when
// one jack is lost at once: the packing beside it, or the other three by statics.
func (j JackDown) released(e stages.Effects, standard limits.Standard) (list []stages.OwnCheck, err error) {
	for _, of := range []struct {
		words string
		times float64
	}{{"while a stack is repacked", 1}, {"after the loss of a jack", j.sudden()}} {
		if j.Beside != nil {
			c, err := j.beside(e, "force on the packing beside a jack "+of.words, of.times)
			if err != nil {
				return nil, err
			}
			list = append(list, c)
			continue
		}
		more, err := j.onThree(e, standard, of.words, of.times)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	return list, nil
}

// beside is the check of the packing that takes the force of the governing jack, times a
// factor where that is lost at once.
func (j JackDown) beside(e stages.Effects, name string, times float64) (stages.OwnCheck, error) {
	most := governing(e.Reactions)
	source := formula.Source{Document: j.Beside.Document}
	c, err := compared(name, limits.AtMost, source, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		return c.Derive(newtons("F_pack", 0, "force on the packing: that of the jack, which the statics of the others does not change"), "f_dyn*R_J", formula.Mechanics, formula.Q("f_dyn", times, formula.One, "factor on a force that is lost at once; 1 while it is put on slowly"),
			newtons("R_J", e.Reactions[most].Characteristic.Most, "largest force of a jack, characteristic")), c.Given(newtons("F_p", j.Beside.Capacity, "permissible force on the packing"), source, "")
	})
	c.X, c.Place = e.Reactions[most].X, fmt.Sprintf("jack %d, the governing one", most+1)
	return c, err
}

// onThree are the checks of the other three jacks without one, of all four the worst: the
// largest force against the rated force, the smallest against uplift.
func (j JackDown) onThree(e stages.Effects, standard limits.Standard, words string, times float64) ([]stages.OwnCheck, error) {
	var rated, uplift *stages.OwnCheck
	keep := func(worst **stages.OwnCheck, c stages.OwnCheck, gone, at int) {
		c.X, c.Place = j.Jacks[at].X, fmt.Sprintf("jack %d without jack %d", at+1, gone+1)
		c.Note = "bounded: the extremes of both jacks at once; where a linked pair loses its pressure, nothing holds its line"
		if *worst == nil || c.Margin < (*worst).Margin {
			*worst = &c
		}
	}
	factors, answered, err := j.forUplift(standard)
	if err != nil {
		return nil, err
	}
	for gone := range j.Jacks {
		for at := range j.Jacks {
			switch part := j.toOther(gone, at); {
			case at == gone:
			case part > 0:
				c, err := compared("rated force of a jack "+words, limits.AtMost, maker, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
					return c.Derive(newtons("F_3", 0, "largest force of a jack without another"), "R_J + f_dyn*ρ_J*R_0", formula.Mechanics, newtons("R_J", e.Reactions[at].Characteristic.Most, "its largest force on four, characteristic"), j.lostBy(times), shareOf(part),
						newtons("R_0", e.Reactions[gone].Characteristic.Most, "largest force of the jack that is gone, characteristic")), c.Given(newtons("F_J", j.Jack.Rated, "rated force of a jack"), maker, "")
				})
				if err != nil {
					return nil, err
				}
				keep(&rated, c, gone, at)
			default:
				c, err := compared("uplift at a jack "+words, limits.AtLeast, factors.Source, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
					return c.Derive(newtons("F_3_min", 0, "smallest force of a jack without another"), "γ_inf*R_J - γ_sup*f_dyn*ρ_J*R_0", factors.Source, formula.Q("γ_inf", factors.WeightLeast, formula.One, "on what is favourable"),
						newtons("R_J", e.Reactions[at].Characteristic.Least, "its smallest force on four, characteristic"), formula.Q("γ_sup", factors.WeightMost, formula.One, "on what is unfavourable"), j.lostBy(times), shareOf(-part),
						newtons("R_0", e.Reactions[gone].Characteristic.Most, "largest force of the jack that is gone, characteristic")), c.Given(newtons("R_min", 0, "minimum permissible force of a jack"), factors.Source, "")
				})
				if err != nil {
					return nil, err
				}
				keep(&uplift, c, gone, at)
			}
		}
	}
	uplift.LimitState = limits.Equilibrium
	if !answered {
		none := unanswered("uplift at a jack "+words, uplift.X, "the standard gives no factors for equilibrium")
		uplift = &none
	}
	return []stages.OwnCheck{*rated, *uplift}, nil
}

// toOther is the part of the force of a jack that another gets when it is gone, by statics of
// the other three: all to the other of its line, and the couple of that to the other line.
func (j JackDown) toOther(gone, at int) float64 {
	if gone/2 == at/2 {
		return 1
	}
	line := func(n int) float64 { return j.Jacks[n].Y - j.Jacks[n+1].Y }
	part := line(gone/2*2) / line(at/2*2)
	if gone%2 != at%2 {
		return -part
	}
	return part
}

func (j JackDown) lostBy(times float64) formula.Quantity {
	return formula.Q("f_dyn", times, formula.One, "factor on a force that is lost at once; 1 while it is let off slowly")
}

func shareOf(part float64) formula.Quantity {
	return formula.Q("ρ_J", part, formula.One, "part of the force that is gone, by statics of three points: 1 in its line, ratio of the widths of the lines beyond")
}

// forUplift are the factors of a standard for equilibrium, on the weight where nothing else
// acts; with actions the larger one on these counts for all that is unfavourable.
func (j JackDown) forUplift(standard limits.Standard) (f limits.Factors, answered bool, err error) {
	answers, err := standard.Limits(limits.Question{Kind: limits.Uplift, Phase: limits.Seating})
	if err != nil || len(answers) == 0 {
		return limits.Factors{Source: formula.Mechanics}.Filled(), false, err
	}
	f = answers[0].Factors.Filled()
	f.Source = answers[0].Source
	for _, a := range j.Actions {
		_, most := f.On(or(a.Kind, limits.Equipment))
		f.WeightMost = math.Max(f.WeightMost, most)
	}
	return f, true, nil
}

// dropped are the checks of the locked jacks when one of them is lost at once and the
// element comes down on the packing beside it, as stiff as a jack: by the gap out of the plane
// of the other three.
func (j JackDown) dropped(f FourPoints, e stages.Effects) ([]stages.OwnCheck, error) {
	if j.Beside == nil || j.Beside.Gap == 0 {
		return nil, nil
	}
	var rated, uplift *stages.OwnCheck
	for gone := range j.Jacks {
		changes := f.changes(gone)
		for at, per := range changes {
			if at == gone {
				continue
			}
			r := e.Reactions[at].Characteristic
			fall := func(c *formula.Chain, symbol, name, expression string, force float64) formula.Quantity {
				return c.Derive(newtons(symbol, 0, name), expression, formula.Mechanics, newtons("R_J", force, "its force with the lock rings set, characteristic"), j.lostBy(j.sudden()),
					formula.Q("ΔR_d", math.Abs(per), formula.NewtonPerMetre, "change of it for a metre that the lost jack is lower, as the warp of four points"), formula.Q("g_p", j.Beside.Gap, formula.Metre, "gap above the packing"))
			}
			var c stages.OwnCheck
			var err error
			worst := &rated
			if per < 0 { // it gains where the lost jack goes down
				c, err = compared("rated force of a locked jack after the loss of another", limits.AtMost, maker, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
					return fall(c, "F_l", "largest force of a jack", "R_J + f_dyn*ΔR_d*g_p", r.Most), c.Given(newtons("F_J", j.Jack.Rated, "rated force of a jack"), maker, "")
				})
			} else {
				worst = &uplift
				c, err = compared("uplift at a locked jack after the loss of another", limits.AtLeast, formula.Mechanics, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
					return fall(c, "F_l_min", "smallest force of a jack", "R_J - f_dyn*ΔR_d*g_p", r.Least), c.Given(newtons("R_min", 0, "minimum permissible force of a jack"), formula.Mechanics, "")
				})
				c.LimitState = limits.Equilibrium
			}
			if err != nil {
				return nil, err
			}
			c.X, c.Place, c.Note = j.Jacks[at].X, fmt.Sprintf("jack %d without jack %d", at+1, gone+1), "accidental: every partial factor is 1"
			if *worst == nil || c.Margin < (*worst).Margin {
				*worst = &c
			}
		}
	}
	return []stages.OwnCheck{*rated, *uplift}, nil
}
