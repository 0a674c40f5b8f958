package launching

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Hoist is the element on the trolleys of a gantry: hoisted, fed from its carrier, moved or
// lowered. On three points one pair of winches is in series and the torque of a centre of
// gravity off the axis goes to the independent pair; on four independent points each rope
// has its stiffness and OutOfLevel is by how much one is off the others. Where it is still
// on its carrier at one end, supports of both kinds are stated. The gantry is checked in
// every position with the element on its hooks.
type Hoist struct {
	Name       string
	Age        float64                // of the element, d
	On         []stages.Support       // lift points, and pads of the carrier while it is fed
	Hooks      []Hook                 // which of them hang on which trolley: each lift point on one hook
	Dynamic    loads.Dynamic          // range of the factor on the weight; must be stated, loads.AtRest() for none
	Roll       float64                // of the suspended element about x, both ways, rad, 0 to 0.35
	Gradient   float64                // along x, both ways, rad, 0 to 0.35
	OutOfLevel float64                // of any one of four elastic points from the plane of the other three, by unequal rope lengths, m, 0 to 0.1
	Slender    *stages.Slender        // must be stated for an element that hangs free to turn
	Actions    []stages.Action        // wind, water in the void, adhesion of the bed
	Equipment  []stages.EquipmentItem // the carrier, the piers; the gantry is stated by itself
	Stop       float64                // part by which a hook load may exceed its static value before the winches stop, 0 to 0.5; 0: no hold point
	Gantry     *Gantry                // nil: by others
	Positions  []Position             // of the gantry with the element, 1 to 40 where it is stated, in their order; Hook and Dynamic stay zero; the element is where the trolleys are over its lift points
	Factor     float64                // of the gantry, as of Launch
	Sudden     float64                // of the gantry, as of Launch
	Piers      []Pier                 // for the step pictures
}

// Hook is a winch, or several at one end, of a gantry.
type Hook struct {
	Trolley  int     // number of the trolley of the gantry, from 0
	Supports []int   // numbers of the lift points that hang on it, from 1
	Rated    float64 // rated load below the hooks of these winches together, N, 1e3 to 20e6; by its maker
}

// Situations is the element on its hooks. The error wraps [ErrLaunching].
func (h Hoist) Situations(history stages.History) ([]stages.Situation, error) {
	if err := h.check(); err != nil {
		return nil, err
	}
	name, on := or(h.Name, "hoist"), as(stages.LiftPoint, h.On)
	d := deck{history.Element.Mark, history.Element.Length, history.Girder}
	return []stages.Situation{{
		Name: name, Age: h.Age, Phase: limits.Lifting, Supports: on, Dynamic: h.Dynamic, Roll: h.Roll, Gradient: h.Gradient, OutOfLevel: h.OutOfLevel, Slender: h.Slender,
		Actions: h.Actions, Equipment: h.Equipment,
		Check: func(e stages.Effects, standard limits.Standard) ([]stages.OwnCheck, error) {
			list, err := h.rated(e)
			if err != nil || h.Gantry == nil {
				return list, err
			}
			positions, err := h.loaded(e)
			if err != nil {
				return nil, err
			}
			for _, p := range positions {
				more, err := h.launch().checks(p, standard)
				if err != nil {
					return nil, err
				}
				for i := range more {
					more[i].X = min(max(more[i].X, 0), d.length)
					more[i].Place = p.Name + ": " + more[i].Place
				}
				list = append(list, more...)
			}
			return list, nil
		},
		Equip: func(e stages.Effects, _ limits.Standard) ([]stages.EquipmentItem, error) { return h.items(e) },
		Draw: func(e stages.Effects) (list []stages.Figure) {
			for _, p := range h.Positions {
				list = append(list, h.launch().step(p, d, h.hangs(p, d)))
			}
			return list
		},
	}}, nil
}

// launch is the gantry with its settings.
func (h Hoist) launch() Launch {
	return Launch{Gantry: *h.Gantry, Factor: h.Factor, Sudden: h.Sudden, Piers: h.Piers}
}

// loaded are the positions with the element on the hooks: at rest, with what may be
// present; the dynamic factor is that of the hoist, its minimum that of the smallest load.
// What acts on the element across and along acts where the ropes leave the trolleys.
func (h Hoist) loaded(e stages.Effects) ([]Position, error) {
	var list []Position
	for _, p := range h.Positions {
		p.Trolleys = slices.Clone(p.Trolleys)
		least := 1.0 // part of its largest load that a hook may have
		for i, k := range h.Hooks {
			hook, err := e.Together(k.Supports)
			if err != nil {
				return nil, err
			}
			if load := hook.Present.Most; !(load >= 0 && load <= 20e6) {
				return nil, fmt.Errorf("%w: hook %d, supports %v, would get %.4g N: must be 0 to 20e6 N", ErrLaunching, i+1, k.Supports, load)
			}
			p.Trolleys[k.Trolley].Hook += hook.Present.Most
			if hook.Present.Most > 0 {
				least = math.Min(least, math.Max(0, hook.Present.Least/hook.Present.Most))
			}
		}
		low, high, err := h.Dynamic.Range()
		if err != nil {
			return nil, err
		}
		p.Dynamic = loads.Dynamic{Least: math.Max(low*least, math.SmallestNonzeroFloat64), Most: high} // a zero would mean 1
		for _, a := range e.Situation.Actions {
			force := math.Abs(a.Loads.Total()) * math.Max(math.Abs(a.Least), math.Abs(or(a.Most, 1)))
			switch a.Direction {
			case stages.Transverse:
				p.across += force
			case stages.Along:
				p.along += force
			}
		}
		list = append(list, p)
	}
	return list, nil
}

// rated are the checks of each hook against its rated load, with the load at which the
// winches stop as a hold point.
func (h Hoist) rated(e stages.Effects) (list []stages.OwnCheck, err error) {
	source := formula.Source{Document: "maker's manual of the hoist"}
	for i, k := range h.Hooks {
		hook, err := e.Together(k.Supports)
		if err != nil {
			return nil, err
		}
		c := &formula.Chain{}
		force := c.Given(newtons("F_hook", hook.Characteristic.Most, "load below the hook, maximum, with dynamic factor and actions"), formula.Mechanics, "")
		rated := c.Given(newtons("F_rated", k.Rated, "rated load below the hook"), source, "")
		lines, err := c.Lines()
		if err != nil {
			return nil, err
		}
		limit := limits.Limit{Name: "rated load of a hook", LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: source, Line: formula.Given(rated, source)}
		check := stages.NewCheck(limit, force)
		check.X, check.Place = e.Reactions[k.Supports[0]-1].X, fmt.Sprintf("hook %d, supports %v", i+1, k.Supports)
		own := check.Derived(lines...)
		if h.Stop > 0 {
			stop := newtons("F_stop", hook.Static.Most*(1+h.Stop), "overload cut-out, without lifting gear")
			own.Hold = &stages.Hold{Kind: "overload, " + h.named(i), Required: stop, AtMost: true, Assumed: stop}
		}
		list = append(list, own)
	}
	return list, nil
}

// items are the gantry with what hangs on it, by its hooks.
func (h Hoist) items(e stages.Effects) ([]stages.EquipmentItem, error) {
	if h.Gantry == nil || len(h.Positions) == 0 {
		return nil, nil
	}
	positions, err := h.loaded(e)
	if err != nil {
		return nil, err
	}
	launch := h.launch()
	launch.Positions = positions
	item, err := launch.item(positions)
	list := facts(item.Facts)
	var words, alone []string
	rated := h.Hooks[0].Rated
	for _, k := range h.Hooks {
		item.Supports = append(item.Supports, k.Supports...)
		rated = math.Min(rated, k.Rated)
		if group := e.Situation.Supports[k.Supports[0]-1].Group; group != "" && len(k.Supports) > 1 {
			words = append(words, numbers(k.Supports)+" equalised")
			continue
		}
		for _, n := range k.Supports {
			alone = append(alone, fmt.Sprint(n))
		}
	}
	if len(alone) > 0 {
		words = append(words, strings.Join(alone, ", ")+" alone")
	}
	list.text("hoist arrangement", strings.Join(words, "; "))
	list.value("rated capacity", rated, formula.Newton, limits.AtMost) // of the hook with the smallest
	item.Facts = list
	return []stages.EquipmentItem{item}, err
}

// named is a hook by its trolley, or by its number.
func (h Hoist) named(i int) string {
	if h.Gantry != nil {
		return h.Gantry.Trolleys[h.Hooks[i].Trolley].Mark
	}
	return fmt.Sprintf("hook %d", i+1)
}

// numbers are supports in words: 1 + 2.
func numbers(set []int) string {
	var list []string
	for _, n := range set {
		list = append(list, fmt.Sprint(n))
	}
	return strings.Join(list, " + ")
}

// WaterInVoid is rain water that stands in the void, as an action that may be present:
// depth of water (m, 0 to 5) on a width (m, 0.1 to 30) of the bottom slab from one place to
// another (m), at a level (m, within ±50). The error wraps [ErrLaunching].
func WaterInVoid(depth, width, from, to, z float64) (stages.Action, error) {
	if err := within("", bound{"depth", depth, "m", 0.001, 5}, bound{"width", width, "m", 0.1, 30}, bound{"from", from, "m", 0, 1000}, bound{"to", to, "m", from + 0.1, 1000}, bound{"z", z, "m", -50, 50}); err != nil {
		return stages.Action{}, err
	}
	const weight = 9.81e3 // N/m³
	return stages.Action{Mark: "water in the void", Kind: stages.Water, Z: z, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(from, to, depth*width*weight)}}}, nil
}
