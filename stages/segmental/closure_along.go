package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// stiffnessAlong derives the stiffness along of both parts and the lock in series.
func (c closing) stiffnessAlong(k *formula.Chain, hardened bool) formula.Quantity {
	a := c.work.Along
	expression, operands := "1/(1/k_1 + 1/k_2", []formula.Quantity{formula.Q("k_1", a.Stiffness[0], formula.NewtonPerMetre, "longitudinal restraint of the left part"), formula.Q("k_2", a.Stiffness[1], formula.NewtonPerMetre, "longitudinal restraint of the right part")}
	if l := c.work.Lock.AlongStiffness; l > 0 && !hardened {
		expression, operands = expression+" + 1/k_l", append(operands, formula.Q("k_l", l, formula.NewtonPerMetre, "of the lock"))
	}
	result := formula.Q("k_x", 0, formula.NewtonPerMetre, "stiffness along of both parts in series")
	if a.Stiffness[0] == 0 || a.Stiffness[1] == 0 {
		return k.Given(result, formula.Source{Document: "input"}, "a part is not restrained along")
	}
	return k.Derive(result, expression+")", formula.Mechanics, operands...)
}

// slides derives the force along at which a part slides on its bearings; false where none does.
func (c closing) slides(k *formula.Chain, e stages.Effects) (formula.Quantity, bool) {
	some, least := formula.Quantity{}, math.Inf(1)
	side := -1
	var on [2]float64
	for i, mu := range c.work.Along.Friction {
		for _, r := range e.Reactions {
			if m := c.parts[i]; r.X >= m.From && r.X <= m.To && (r.X < c.x) == (i == 0) {
				on[i] += math.Max(0, r.Characteristic.Most)
			}
		}
		if mu > 0 && mu*on[i] < least {
			least, side = mu*on[i], i
		}
	}
	if side < 0 {
		return some, false
	}
	return k.Derive(formula.Q("F_μ", 0, formula.Newton, "friction that is overcome: of the part that slides first, the "+sides[side]), "μ_x*R_x", formula.Mechanics,
		formula.Q("μ_x", c.work.Along.Friction[side], formula.One, "largest coefficient of friction of its bearings"), formula.Q("R_x", on[side], formula.Newton, "its reactions, characteristic maxima")), true
}

// movesBy derives the movement along that is restrained: colder with shrinkage and creep, or warmer.
func (c closing) movesBy(k *formula.Chain, g stages.Girder, colder bool) (length, short, moves formula.Quantity, err error) {
	t := c.work.Temperature
	length = k.Derive(formula.Q("l_x", 0, formula.Metre, "that expands, between the supports beside the closure"), "l_1 + l_2", formula.Mechanics, formula.Q("l_1", c.x-c.fixed[0], formula.Metre, "left"), formula.Q("l_2", c.fixed[1]-c.x, formula.Metre, "right"))
	kelvin, symbol, words := t.Warmer, "ΔT_w", "rise of the mean temperature until tendons act"
	if colder {
		kelvin, symbol, words = t.Colder, "ΔT_c", "fall of the mean temperature until tendons act"
		shrunk, err := c.shrinkage(g)
		if err != nil {
			return length, short, moves, err
		}
		short = k.Derive(formula.Q("u_s", 0, formula.Metre, "shortening by shrinkage and creep until tendons act"), "u_sh + u_cr", formula.Mechanics,
			formula.Q("u_sh", shrunk, formula.Metre, "shrinkage by the models of the concrete"), formula.Q("u_cr", c.work.Along.Shortening, formula.Metre, "creep, stated"))
	} else {
		short = k.Given(formula.Q("u_s", 0, formula.Metre, "shortening by shrinkage and creep"), formula.Mechanics, "favourable here: left out")
	}
	moves = k.Derive(formula.Q("u_x", 0, formula.Metre, "movement that is restrained"), "α_T*"+symbol+"*l_x + u_s", t.Source,
		formula.Q("α_T", t.expansion(), formula.One, "thermal expansion, 1/K"), formula.Q(symbol, kelvin, formula.Kelvin, words), length, short)
	return length, short, moves, nil
}

// pull derives the force along: of the restrained movement, of the friction that is overcome
// where that is less, and of wind.
func (c closing) pull(k *formula.Chain, g stages.Girder, e stages.Effects, colder, hardened bool) (force, stiffness, length, short formula.Quantity, capped bool, err error) {
	length, short, moves, err := c.movesBy(k, g, colder)
	if err != nil {
		return force, stiffness, length, short, false, err
	}
	stiffness = c.stiffnessAlong(k, hardened)
	wind := formula.Q("F_w", c.work.Along.Wind, formula.Newton, "wind along the deck")
	result := formula.Q("F_x", 0, formula.Newton, "force along on the "+map[bool]string{true: "closure", false: "lock"}[hardened])
	if friction, ok := c.slides(k, e); ok {
		force = k.Derive(result, "min(k_x*u_x, F_μ) + F_w", formula.Mechanics, stiffness, moves, friction, wind)
		return force, stiffness, length, short, friction.Value < stiffness.Value*moves.Value, nil
	}
	return k.Derive(result, "k_x*u_x + F_w", formula.Mechanics, stiffness, moves, wind), stiffness, length, short, false, nil
}

// along are the checks of the force along of the lock in one sense, and of the temperature that
// uses up what it can take.
func (c closing) along(g stages.Girder, e stages.Effects, colder bool) ([]stages.OwnCheck, error) {
	k := &formula.Chain{}
	force, stiffness, length, short, _, err := c.pull(k, g, e, colder, false)
	if err != nil {
		return nil, err
	}
	t := c.work.Temperature
	name, permissible, kelvin, words, symbol := "compression along", c.work.Lock.Compression, t.Warmer, "rise", "ΔT_w"
	if colder {
		name, permissible, kelvin, words, symbol = "tension along", c.work.Lock.Tension, t.Colder, "fall", "ΔT_c"
	}
	limit := k.Given(formula.Q("F_p", permissible, formula.Newton, "permissible "+name+" of the lock"), formula.Source{Document: c.work.Lock.Document}, "")
	stated := c.lockLimit(name)
	stated.Scale = formula.Q("F_scale", math.Max(1e3, force.Value), formula.Newton, "force along")
	change := formula.Q(symbol, kelvin, formula.Kelvin, words+" of the mean temperature until tendons act")
	hold := &stages.Hold{Kind: fmt.Sprintf("%s of the mean temperature of the deck from fixing the lock of closure %s until its tendons act", words, c.work.Closure), Required: change, AtMost: true, Assumed: change}
	first, err := c.compared(k, stated, force, limit, hold)
	if err != nil {
		return nil, err
	}
	if friction, ok := c.slides(&formula.Chain{}, e); stiffness.Value == 0 || ok && friction.Value+c.work.Along.Wind <= permissible {
		first.Note = "no temperature brings more: bearings slide first, or a part is not restrained along"
		return []stages.OwnCheck{first}, nil
	}
	window := &formula.Chain{}
	change = window.Given(change, t.Source, "stated")
	most := window.Derive(formula.Q("ΔT_p", 0, formula.Kelvin, words+" of the mean temperature that uses up the lock"), "max(0, ((F_p - F_w)/k_x - u_s)/(α_T*l_x))", formula.Mechanics,
		limit, formula.Q("F_w", c.work.Along.Wind, formula.Newton, "wind along the deck"), stiffness, short, formula.Q("α_T", t.expansion(), formula.One, "thermal expansion, 1/K"), length)
	second, err := c.compared(window, limits.Limit{Name: "temperature window of closure " + c.work.Closure + ", " + words, LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: stated.Source,
		Scale: formula.Q("ΔT_scale", math.Max(1, kelvin), formula.Kelvin, "change of temperature")}, change, most, nil)
	return []stages.OwnCheck{first, second}, err
}
