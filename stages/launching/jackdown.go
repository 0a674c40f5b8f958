package launching

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// JackDown is the element that is lowered on four jacks: on the jacks, one pair linked and
// the other two independent; then with the lock rings set, so that all four act by their
// stiffness, until a [LoadTransfer]. Two linked pairs are a mechanism and fail in words.
//
// Stacks are repacked one at a time. Of any four points only the crossing of their diagonals
// is within each three of them: what stands on three jacks while the fourth is released turns
// over, unless packing beside the jack takes its place, as it does where a jack is lost.
type JackDown struct {
	Name          string
	Age           float64                // of the element when it is on the jacks, d
	Jacks         [4]JackPlace           // right and left at the first line, right and left at the second, as stages.Pads
	Linked        int                    // line whose two jacks are linked: 1 or 2
	Jack          Jack                   // all alike
	Stack         Stack                  // below each jack or its packing
	SafetyPacking *SafetyPacking         // packing beside each jack that takes its place; nil: none, the other three carry
	Sudden        float64                // factor on a force that is lost at once, 1 to 3; 0 means 2
	Warp          float64                // by which one jack may be out of the plane of the other three while they are locked, m, 1e-5 to 0.05
	Change        float64                // permissible change of a reaction by that warp, as a part of it, 0.01 to 0.5; 0 means 0.05 (common practice)
	Travel        float64                // by which the element is lowered, m, 0 to 5
	Hog           float64                // of the element between the lines of jacks, that its soffit gains or loses meanwhile, m, 0 to 0.2
	Roll          float64                // cross-fall, both ways, rad, 0 to 0.015: in the horizontal force of the jacks; the nominal one covers it for stability
	Gradient      float64                // along x, both ways, rad, 0 to 0.015, as Roll
	Actions       []stages.Action        // wind, crews
	Equipment     []stages.EquipmentItem // the piers
}

// JackPlace is where a jack is below the soffit.
type JackPlace struct{ X, Y float64 } // m

// Jack is a jack with its lock ring.
type Jack struct {
	Rated     float64 // N, 1e3 to 50e6; by its maker
	Stroke    float64 // m, 0.01 to 2
	Stiffness float64 // of jack, packing and stack with the lock ring set, N/m, 1e6 to 1e11
	Side      float64 // horizontal force that it may receive, as a part of its rated force, 0 to 0.2; by its maker
	Friction  float64 // minimum coefficient of friction at the soffit and in the stack, 0.02 to 0.7
}

// Stack is what a jack stands on.
type Stack struct {
	Height  float64 // m, 0 to 3
	Base    float64 // width of its base, the smaller, m, 0.1 to 3
	Packing float64 // thickness of the packing that is taken out at each stroke, m, 0.005 to 1
	Spare   float64 // stroke that must be left over, m, 0 to 0.5
	Offset  float64 // of the jack from the middle of the base, m, 0 to 0.5
}

func (j JackDown) check() error {
	if err := j.SafetyPacking.check(); err != nil {
		return err
	}
	if j.Linked != 1 && j.Linked != 2 {
		return fmt.Errorf("%w: field JackDown.Linked = %d: must be 1 or 2, the line whose jacks are linked; one pair linked and two independent jacks are determinate, two linked pairs are a mechanism", ErrLaunching, j.Linked)
	}
	for line := range 2 {
		right, left := j.Jacks[2*line], j.Jacks[2*line+1]
		if !(math.Abs(left.X-right.X) <= 1e-6 && left.Y-right.Y >= 0.2) {
			return fmt.Errorf("%w: field JackDown.Jacks %d and %d are at x = %g and %g m, y = %g and %g m: must be on one line across, the first to the right, at least 0.2 m apart", ErrLaunching, 2*line+1, 2*line+2, right.X, left.X, right.Y, left.Y)
		}
	}
	if !(j.Jacks[2].X >= j.Jacks[0].X+0.5) {
		return fmt.Errorf("%w: field JackDown.Jacks: the second line is at x = %g m, the first at %g m: must be at least 0.5 m in front of it", ErrLaunching, j.Jacks[2].X, j.Jacks[0].X)
	}
	if !(j.Age > 0 && j.Age <= 365e3) {
		return fmt.Errorf("%w: field JackDown.Age = %g d: must be above 0, at most 365e3 d", ErrLaunching, j.Age)
	}
	return within("JackDown.", bound{"Warp", j.Warp, "m", 1e-5, 0.05}, bound{"Change", or(j.Change, usualChange), "", 0.01, 0.5}, bound{"Travel", j.Travel, "m", 0, 5},
		bound{"Hog", j.Hog, "m", 0, 0.2}, bound{"Roll", j.Roll, "rad", 0, 0.015}, bound{"Gradient", j.Gradient, "rad", 0, 0.015},
		bound{"Jack.Rated", j.Jack.Rated, "N", 1e3, 50e6}, bound{"Jack.Stroke", j.Jack.Stroke, "m", 0.01, 2}, bound{"Jack.Stiffness", j.Jack.Stiffness, "N/m", 1e6, 1e11},
		bound{"Jack.Side", j.Jack.Side, "", 0, 0.2}, bound{"Jack.Friction", j.Jack.Friction, "", 0.02, 0.7},
		bound{"Stack.Height", j.Stack.Height, "m", 0, 3}, bound{"Stack.Base", j.Stack.Base, "m", 0.1, 3}, bound{"Stack.Packing", j.Stack.Packing, "m", 0.005, 1},
		bound{"Sudden", j.sudden(), "", 1, 3}, bound{"Stack.Spare", j.Stack.Spare, "m", 0, 0.5}, bound{"Stack.Offset", j.Stack.Offset, "m", 0, 0.5})
}

// supports are the jacks; the pair of the linked line is a group.
func (j JackDown) supports(locked bool) (list []stages.Support) {
	for i, at := range j.Jacks {
		s := stages.Support{X: at.X, Y: at.Y, Role: stages.Jack, Friction: j.Jack.Friction}
		switch {
		case locked:
			s.Stiffness = j.Jack.Stiffness
		case i/2 == j.Linked-1:
			s.Group = "linked jacks"
		}
		list = append(list, s)
	}
	return list
}

// Situations is the element on the jacks and on the locked jacks. The error wraps [ErrLaunching].
func (j JackDown) Situations(h stages.History) ([]stages.Situation, error) {
	if err := j.check(); err != nil {
		return nil, err
	}
	name := or(j.Name, "jack down")
	return []stages.Situation{
		{
			Name: name + ", on the jacks", Age: j.Age, Standing: true, Phase: limits.Seating, Supports: j.supports(false), Actions: j.Actions, Equipment: j.Equipment,
			Check: func(e stages.Effects, standard limits.Standard) ([]stages.OwnCheck, error) {
				list, err := j.onJacks(e)
				if err != nil {
					return nil, err
				}
				more, err := j.released(e, standard)
				return append(list, more...), err
			},
			Equip: func(e stages.Effects, _ limits.Standard) ([]stages.EquipmentItem, error) { return j.items(), nil },
		},
		{
			Name: name + ", lock rings set", Age: j.Age, Standing: true, Phase: limits.Seating, Supports: j.supports(true), OutOfLevel: j.Warp, Actions: j.Actions, Equipment: j.Equipment,
			Check: func(e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) { return j.locked(h, e) },
			Equip: func(e stages.Effects, _ limits.Standard) ([]stages.EquipmentItem, error) { return j.items(), nil },
		},
	}, nil
}

// onJacks are the checks of every jack and its stack at its largest force.
func (j JackDown) onJacks(e stages.Effects) (list []stages.OwnCheck, err error) {
	most := governing(e.Reactions)
	for _, of := range []func(stages.Reaction) (stages.OwnCheck, error){j.rated, j.side, j.slides, j.stands, j.stroke} {
		c, err := of(e.Reactions[most])
		if err != nil {
			return nil, err
		}
		c.X, c.Place = e.Reactions[most].X, fmt.Sprintf("jack %d, the governing one", most+1)
		list = append(list, c)
	}
	for i, at := range j.Jacks {
		list = append(list, local(fmt.Sprintf("above and below jack %d", i+1), at.X, fmt.Sprintf("bearing and splitting of the soffit above the jack, of stack and pier head below it: required for %s, ultimate", kilonewtons(e.Reactions[i].Ultimate.Most))))
	}
	return list, nil
}

// governing is the reaction with the largest characteristic force.
func governing(reactions []stages.Reaction) (most int) {
	for i, r := range reactions {
		if r.Characteristic.Most > reactions[most].Characteristic.Most {
			most = i
		}
	}
	return most
}

// maker is the source of ratings.
var maker = formula.Source{Document: "maker's manual of the jacks"}

// compared derives a demand and a limit and compares them.
func compared(name string, sense limits.Sense, source formula.Source, derive func(c *formula.Chain) (demand, limit formula.Quantity)) (stages.OwnCheck, error) {
	c := &formula.Chain{}
	demand, limit := derive(c)
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: name, LimitState: limits.WorkingLoad, Sense: sense, Source: source, Line: formula.Given(limit, source)}, demand)
	return check.Derived(lines...), nil
}

func (j JackDown) rated(r stages.Reaction) (stages.OwnCheck, error) {
	return compared("rated force of a jack", limits.AtMost, maker, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		return c.Given(newtons("R_J", r.Characteristic.Most, "largest force of a jack, characteristic"), formula.Mechanics, ""), c.Given(newtons("F_J", j.Jack.Rated, "rated force of a jack"), maker, "")
	})
}

// horizontal is the nominal horizontal force of a jack.
func (j JackDown) horizontal(c *formula.Chain, r stages.Reaction) formula.Quantity {
	return c.Derive(newtons("H_J", 0, "horizontal force of a jack, nominal, with the gradient and the cross-fall"), "R_J*(ν_1 + sin(α_x) + sin(α_y))", limits.NominalSource, newtons("R_J", r.Characteristic.Most, "largest force of a jack, characteristic"),
		formula.Q("ν_1", limits.NominalAlone, formula.One, "nominal share of the weight"),
		formula.Q("α_x", j.Gradient, formula.Radian, "gradient"), formula.Q("α_y", j.Roll, formula.Radian, "cross-fall"))
}

func (j JackDown) side(r stages.Reaction) (stages.OwnCheck, error) {
	return compared("horizontal force of a jack", limits.AtMost, maker, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		return j.horizontal(c, r), c.Derive(newtons("H_p", 0, "permissible horizontal force of a jack"), "p_H*F_J", maker, formula.Q("p_H", j.Jack.Side, formula.One, "permissible part of its rated force"), newtons("F_J", j.Jack.Rated, "rated force of a jack"))
	})
}

func (j JackDown) slides(r stages.Reaction) (stages.OwnCheck, error) {
	return compared("sliding in a stack", limits.AtMost, limits.NominalSource, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		return j.horizontal(c, r), c.Derive(newtons("H_μ", 0, "permissible by friction"), "μ_J*R_J/2", practice, formula.Q("μ_J", j.Jack.Friction, formula.One, "minimum coefficient of friction; the factor on sliding is 2"), newtons("R_J", r.Characteristic.Most, "largest force of a jack, characteristic"))
	})
}

func (j JackDown) stands(r stages.Reaction) (stages.OwnCheck, error) {
	return compared("resultant in the base of a stack", limits.AtMost, formula.Mechanics, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		h := j.horizontal(c, r)
		return c.Derive(formula.Q("e_J", 0, formula.Metre, "of the resultant from the middle of the base"), "o_J + H_J*h_J/R_J", formula.Mechanics, formula.Q("o_J", j.Stack.Offset, formula.Metre, "of the jack from the middle of the base"), h,
				formula.Q("h_J", j.Stack.Height, formula.Metre, "height of the stack"), newtons("R_J", r.Characteristic.Most, "largest force of a jack, characteristic")),
			c.Derive(formula.Q("e_p", 0, formula.Metre, "half of the kern: nothing lifts off"), "b_J/6", formula.Mechanics, formula.Q("b_J", j.Stack.Base, formula.Metre, "width of the base"))
	})
}

func (j JackDown) stroke(stages.Reaction) (stages.OwnCheck, error) {
	return compared("stroke of a jack", limits.AtMost, maker, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		return c.Derive(formula.Q("s_req", 0, formula.Metre, "stroke that one step of lowering needs"), "t_p + Δ_hog + d_w + s_0", formula.Mechanics, formula.Q("t_p", j.Stack.Packing, formula.Metre, "packing taken out at a stroke"),
			formula.Q("Δ_hog", j.Hog, formula.Metre, "hog between the lines of jacks"), formula.Q("d_w", j.Warp, formula.Metre, "warp"), formula.Q("s_0", j.Stack.Spare, formula.Metre, "to be left over")), c.Given(formula.Q("s_J", j.Jack.Stroke, formula.Metre, "stroke of a jack"), maker, "")
	})
}

// locked are the checks of the warp of the locked jacks and of their rated force.
func (j JackDown) locked(h stages.History, e stages.Effects) ([]stages.OwnCheck, error) {
	f, _, err := pointsOf(h, e)
	if err != nil {
		return nil, err
	}
	worst, err := f.worst()
	if err != nil {
		return nil, err
	}
	own, err := f.held("warp of the locked jacks", worst, or(j.Change, usualChange), j.Warp)
	if err != nil {
		return nil, err
	}
	own.X, own.Place = j.Jacks[worst].X, fmt.Sprintf("jack %d", worst+1)
	most := governing(e.Reactions)
	rated, err := j.rated(e.Reactions[most])
	if err != nil {
		return nil, err
	}
	rated.X, rated.Place = e.Reactions[most].X, fmt.Sprintf("jack %d, locked", most+1)
	lost, err := j.dropped(f, e)
	return append([]stages.OwnCheck{own, rated}, lost...), err
}
