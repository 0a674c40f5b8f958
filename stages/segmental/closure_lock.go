package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// PourChecks are those of the pour: levels and slopes of the tips, the forces of the lock, and
// how far the temperature may fall or rise until tendons act. The lock is fixed in the state of
// the situation, the wet concrete included; half of it on each tip moves arms alike. The error
// wraps [ErrSegmental].
func (w ClosureWork) PourChecks(g stages.Girder, e stages.Effects) (list []stages.OwnCheck, err error) {
	if err := w.check(g); err != nil {
		return nil, err
	}
	c, err := w.tips(g, e)
	if err != nil {
		return nil, err
	}
	for _, of := range []func() (stages.OwnCheck, error){c.levels, c.angles, c.shear, c.moment} {
		one, err := of()
		if err != nil {
			return nil, err
		}
		list = append(list, one)
	}
	for _, colder := range []bool{true, false} {
		along, err := c.along(g, e, colder)
		if err != nil {
			return nil, err
		}
		list = append(list, along...)
	}
	return list, nil
}

// compared is a check of the closure with its lines.
func (c closing) compared(k *formula.Chain, limit limits.Limit, demand, permissible formula.Quantity, hold *stages.Hold) (stages.OwnCheck, error) {
	lines, err := k.Lines()
	if err != nil {
		return stages.OwnCheck{}, fmt.Errorf("%w: closure %s: %s: %w", ErrSegmental, c.work.Closure, limit.Name, err)
	}
	limit.Line = formula.Given(permissible, limit.Source)
	for _, l := range lines {
		if l.Result.Symbol == permissible.Symbol {
			limit.Line = l
		}
	}
	check := stages.NewCheck(limit, demand)
	check.X, check.Place = c.x, "closure "+c.work.Closure
	own := check.Derived(lines...)
	own.Hold = hold
	return own, nil
}

// size derives the magnitude of a difference.
func size(k *formula.Chain, symbol string, of formula.Quantity, words string) formula.Quantity {
	return k.Derive(formula.Q(symbol, 0, of.Unit, words), "abs("+of.Symbol+")", formula.Mechanics, of)
}

func (c closing) levels() (stages.OwnCheck, error) {
	k := &formula.Chain{}
	level, _ := c.offset(k)
	demand := size(k, "Δ_za", level, "difference of level of the tips")
	limit := k.Given(formula.Q("Δ_zp", c.work.Level, formula.Metre, "permissible difference of level when the lock is fixed"), c.work.Source, "")
	hold := &stages.Hold{Kind: "difference of level of the tips of closure " + c.work.Closure + ", surveyed at dawn before the lock is fixed", Required: limit, AtMost: true, Assumed: demand}
	return c.compared(k, limits.Limit{Name: "difference of level of the tips of closure " + c.work.Closure, LimitState: limits.Serviceability, Sense: limits.AtMost, Source: c.work.Source}, demand, limit, hold)
}

func (c closing) angles() (stages.OwnCheck, error) {
	k := &formula.Chain{}
	_, angle := c.offset(k)
	demand := size(k, "Δ_θa", angle, "difference of slope of the tips")
	limit := k.Given(formula.Q("Δ_θp", c.work.Angle, formula.Radian, "permissible difference of slope when the lock is fixed"), c.work.Source, "")
	hold := &stages.Hold{Kind: "difference of slope of the tips of closure " + c.work.Closure + ", surveyed at dawn before the lock is fixed", Required: limit, AtMost: true, Assumed: demand}
	return c.compared(k, limits.Limit{Name: "difference of slope of the tips of closure " + c.work.Closure, LimitState: limits.Serviceability, Sense: limits.AtMost, Source: c.work.Source}, demand, limit, hold)
}

// stiff is what tips and lock put against a difference: the shear against one of level less
// lever times that of slope, the couple against one of slope less turn times that of level.
type stiff struct {
	level, angle formula.Quantity // N/m, N·m/rad
	lever, turn  formula.Quantity // m, 1/m; no symbol for arms alike
}

// uncoupled is the part of the flexibilities below which a shear gives no difference of slope.
const uncoupled = 1e-9

// stiffness derives the stiffness of tips and lock together; a closure that has hardened has
// no lock.
func (c closing) stiffness(k *formula.Chain, hardened bool) stiff {
	f, l := c.flexibility, c.work.Lock
	if hardened {
		l = Lock{}
	}
	source := formula.Mechanics
	where := "by the sections from the fixed supports to the tips, referred to the middle of the closure"
	if c.work.Flexibility != nil {
		where = "as stated"
	}
	tips := [2]formula.Quantity{
		k.Given(formula.Q("k_vt", 1/f.Level, formula.NewtonPerMetre, "stiffness of both tips against a difference of level"), source, where),
		k.Given(formula.Q("k_θt", 1/f.Angle, formula.NewtonMetrePerRadian, "stiffness of both tips against a difference of slope"), source, where),
	}
	lock := [2]formula.Quantity{formula.Q("k_vl", l.Stiffness, formula.NewtonPerMetre, "of the lock"), formula.Q("k_θl", l.RotationStiffness, formula.NewtonMetrePerRadian, "of the lock")}
	of := [2]formula.Quantity{formula.Q("k_v", 0, formula.NewtonPerMetre, "stiffness against a difference of level"), formula.Q("k_θ", 0, formula.NewtonMetrePerRadian, "stiffness against a difference of slope")}
	give := [2]float64{f.Level, f.Angle}
	for i := range of {
		if lock[i].Value > 0 {
			give[i] += 1 / lock[i].Value
			of[i] = k.Derive(of[i], "1/(1/"+tips[i].Symbol+" + 1/"+lock[i].Symbol+")", source, tips[i], lock[i])
		} else {
			of[i] = k.Derive(of[i], tips[i].Symbol, source, tips[i])
		}
	}
	if math.Abs(f.Cross) <= uncoupled*math.Sqrt(give[0]*give[1]) {
		return stiff{level: of[0], angle: of[1]}
	}
	part := k.Given(formula.Q("r_c", f.Cross*f.Cross/(give[0]*give[1]), formula.One, "square of the coupling of arms that differ"), source, "f_c²/(f_v·f_θ), "+where)
	return stiff{
		level: k.Derive(formula.Q("k_vc", 0, formula.NewtonPerMetre, "stiffness against level, with the coupling"), "k_v/(1 - r_c)", source, of[0], part),
		angle: k.Derive(formula.Q("k_θc", 0, formula.NewtonMetrePerRadian, "stiffness against slope, with the coupling"), "k_θ/(1 - r_c)", source, of[1], part),
		lever: k.Given(formula.Q("a_c", f.Cross/give[1], formula.Metre, "difference of level by a difference of slope"), source, "f_c/f_θ, "+where),
		turn:  k.Given(formula.Q("b_c", f.Cross/give[0], formula.PerMetre, "difference of slope by a difference of level"), source, "f_c/f_v, "+where),
	}
}

// forces derive shear and moment that close a difference of the tips.
func (s stiff) forces(k *formula.Chain, mark string, level, angle formula.Quantity, words string) (shear, moment formula.Quantity) {
	shear, moment = formula.Q("V_"+mark, 0, formula.Newton, "shear "+words), formula.Q("M_"+mark, 0, formula.NewtonMetre, "moment "+words)
	if s.lever.Symbol == "" {
		return k.Derive(shear, s.level.Symbol+"*"+level.Symbol, formula.Mechanics, s.level, level), k.Derive(moment, s.angle.Symbol+"*"+angle.Symbol, formula.Mechanics, s.angle, angle)
	}
	return k.Derive(shear, s.level.Symbol+"*("+level.Symbol+" - a_c*"+angle.Symbol+")", formula.Mechanics, s.level, level, s.lever, angle),
		k.Derive(moment, s.angle.Symbol+"*("+angle.Symbol+" - b_c*"+level.Symbol+")", formula.Mechanics, s.angle, angle, s.turn, level)
}

// gradient derives how far a linear difference of temperature, + for a warm top, moves the tips
// against each other: the curvature −α·ΔT/h of every section between the supports.
func (c closing) gradient(k *formula.Chain, mark string, kelvin float64) (level, angle formula.Quantity) {
	t := c.work.Temperature
	alpha, change := formula.Q("α_T", t.expansion(), formula.One, "thermal expansion, 1/K"), formula.Q("ΔT_"+mark, kelvin, formula.Kelvin, "linear difference, top less bottom")
	level = k.Derive(formula.Q("Δ_z"+mark, 0, formula.Metre, "difference of level by it"), "-α_T*ΔT_"+mark+"*a_h", t.Source, alpha, change,
		formula.Q("a_h", c.curved.Level, formula.Metre, "∫ lever/h·dx of the right part less the left, levers to the middle of the closure"))
	angle = k.Derive(formula.Q("Δ_θ"+mark, 0, formula.Radian, "difference of slope by it"), "α_T*ΔT_"+mark+"*s_h", t.Source, alpha, change,
		formula.Q("s_h", c.curved.Angle, formula.One, "∫ dx/h between the supports beside the closure"))
	return level, angle
}

// locked derives the shear or the moment of the lock: of the difference of the tips, and of the
// worse of both differences of temperature.
func (c closing) locked(k *formula.Chain, moment bool) formula.Quantity {
	level, angle := c.offset(k)
	of := c.stiffness(k, false)
	all := make([]formula.Quantity, 0, 3)
	take := func(v, m formula.Quantity) {
		if moment {
			v = m
		}
		all = append(all, v)
	}
	take(of.forces(k, "o", level, angle, "of the lock by the difference of the tips"))
	for i, kelvin := range [2]float64{c.work.Temperature.WarmTop, -c.work.Temperature.ColdTop} {
		mark := [2]string{"w", "k"}[i]
		level, angle := c.gradient(k, mark, kelvin)
		take(of.forces(k, mark, level, angle, "by a "+[2]string{"warm", "cold"}[i]+" top"))
	}
	if moment {
		return k.Derive(formula.Q("M_l", 0, formula.NewtonMetre, "moment of the lock"), "max(abs(M_o), abs(M_o + M_w), abs(M_o + M_k))", formula.Mechanics, all...)
	}
	return k.Derive(formula.Q("V_l", 0, formula.Newton, "shear of the lock"), "max(abs(V_o), abs(V_o + V_w), abs(V_o + V_k))", formula.Mechanics, all...)
}

func (c closing) lockLimit(name string) limits.Limit {
	return limits.Limit{Name: name + " of the lock of closure " + c.work.Closure, LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: formula.Source{Document: c.work.Lock.Document}}
}

func (c closing) shear() (stages.OwnCheck, error) {
	k := &formula.Chain{}
	shear := c.locked(k, false)
	limit := k.Given(formula.Q("V_p", c.work.Lock.Force, formula.Newton, "permissible shear of the lock"), formula.Source{Document: c.work.Lock.Document}, "")
	return c.compared(k, c.lockLimit("shear"), shear, limit, nil)
}

func (c closing) moment() (stages.OwnCheck, error) {
	k := &formula.Chain{}
	moment := c.locked(k, true)
	limit := k.Given(formula.Q("M_p", c.work.Lock.Moment, formula.NewtonMetre, "permissible moment of the lock"), formula.Source{Document: c.work.Lock.Document}, "")
	return c.compared(k, c.lockLimit("moment"), moment, limit, nil)
}

// shrinkage is how much both parts shrink between their supports and the closure from the day
// of the situation until tendons act (m).
func (c closing) shrinkage(g stages.Girder) (float64, error) {
	sum := 0.0
	for _, p := range g.Pieces {
		length := math.Min(c.fixed[1], p.To()) - math.Max(c.fixed[0], p.At)
		if p.Element.Mark == c.work.Closure || !(length > 0) || concrete.Missing(p.Element.LongTerm) {
			continue
		}
		before, err := p.Element.LongTerm.Shrinkage(c.day - p.Element.Cast)
		if err != nil {
			return 0, fmt.Errorf("%w: closure %s: segment %s: %w", ErrSegmental, c.work.Closure, p.Element.Mark, err)
		}
		after, err := p.Element.LongTerm.Shrinkage(math.Max(c.day, c.work.Stressed) - p.Element.Cast)
		if err != nil {
			return 0, fmt.Errorf("%w: closure %s: segment %s: %w", ErrSegmental, c.work.Closure, p.Element.Mark, err)
		}
		sum += length * (after.Total - before.Total)
	}
	return sum, nil
}
