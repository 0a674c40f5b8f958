package launching

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// OnPier is a stage whose element rests with some of its supports on pier heads, with their
// checks: the resultant within the kern of a stated base, and how much the head receives, which
// a document shows that it carries. The reactions of Bearings are characteristic; a leg of a
// gantry is one of Forces, by the method OnHead of its Feet.
func OnPier(stage stages.Stage, heads ...PierHead) stages.Stage { return onPier{stage, heads} }

type onPier struct {
	stage stages.Stage
	heads []PierHead
}

// Situations are those of the stage, each with the checks. The error wraps [ErrLaunching].
func (o onPier) Situations(h stages.History) ([]stages.Situation, error) {
	if o.stage == nil {
		return nil, fmt.Errorf("%w: OnPier without a stage: must be a stage", ErrLaunching)
	}
	for _, head := range o.heads {
		if err := head.check(); err != nil {
			return nil, err
		}
	}
	situations, err := o.stage.Situations(h)
	return checkedBy(situations, func(e stages.Effects) (list []stages.OwnCheck, err error) {
		for _, head := range o.heads {
			more, err := head.checks(e, h.Girder.Length())
			if err != nil {
				return nil, err
			}
			list = append(list, more...)
		}
		return list, nil
	}), err
}

// checkedBy are situations with checks beside their own.
func checkedBy(situations []stages.Situation, checks func(stages.Effects) ([]stages.OwnCheck, error)) []stages.Situation {
	list := slices.Clone(situations)
	for i := range list {
		own := list[i].Check
		list[i].Check = func(e stages.Effects, standard limits.Standard) (all []stages.OwnCheck, err error) {
			if own != nil {
				if all, err = own(e, standard); err != nil {
					return nil, err
				}
			}
			more, err := checks(e)
			return append(all, more...), err
		}
	}
	return list
}

// checks are those of the pier head with the reactions of its bearings.
func (h PierHead) checks(e stages.Effects, length float64) (list []stages.OwnCheck, err error) {
	forces := slices.Clone(h.Forces)
	for _, n := range h.Bearings {
		if n < 1 || n > len(e.Reactions) {
			return nil, fmt.Errorf("%w: field Bearings of pier head %q has number %d: must be 1 to %d, a support of %q", ErrLaunching, h.Mark, n, len(e.Reactions), e.Situation.Name)
		}
		forces = append(forces, h.bearing(n, e.Reactions[n-1]))
	}
	h.Forces, h.Bearings = forces, nil
	r, err := h.Resultants()
	if err != nil {
		return nil, err
	}
	x := min(max(h.At, 0), length)
	if h.Base != [2]float64{} {
		c, err := h.kern()
		if err != nil {
			return nil, err
		}
		c.X, c.Place = x, "pier head "+h.Mark
		list = append(list, c)
	}
	return append(list, local("pier head "+h.Mark, x, r.words(h.Mark))), nil
}

// words are the resultants for the document that shows the pier head.
func (r Resultants) words(mark string) string {
	k := func(v float64) float64 { return math.Ceil(math.Abs(v) / 1e3) }
	larger := func(c Corners, of func(HeadCorner) float64) HeadCorner {
		if math.Abs(of(c.Least)) > math.Abs(of(c.Most)) {
			return c.Least
		}
		return c.Most
	}
	along := larger(r.MomentAlong, func(c HeadCorner) float64 { return c.MomentAlong })
	across := larger(r.MomentAcross, func(c HeadCorner) float64 { return c.MomentAcross })
	return fmt.Sprintf("strength of pier head %s and of what it stands on: required, characteristic, for %.0f kN down (%s governs) and %.0f kN minimum; %.0f kN·m along (%s governs) with %.0f kN down and %.0f kN along; %.0f kN·m across (%s governs) with %.0f kN down and %.0f kN across",
		mark, k(r.Down.Most.Down), r.Down.Most.Governs, math.Floor(r.Down.Least.Down/1e3), k(along.MomentAlong), along.Governs, k(along.Down), k(along.Along), k(across.MomentAcross), across.Governs, k(across.Down), k(across.Across))
}

// kern is the check that the resultant is within the kern of the base: no edge lifts off.
func (h PierHead) kern() (stages.OwnCheck, error) {
	least, governing := math.Inf(1), HeadCorner{}
	for _, ahead := range [2]float64{1, -1} {
		for _, left := range [2]float64{1, -1} {
			w := sought{down: -1, momentAlong: 6 * ahead / h.Base[0], momentAcross: 6 * left / h.Base[1]}
			for _, c := range [2]HeadCorner{h.corner(w, forward, ahead), h.corner(w, aside, left)} {
				if reserve := c.Down - 6*math.Abs(c.MomentAlong)/h.Base[0] - 6*math.Abs(c.MomentAcross)/h.Base[1]; reserve < least {
					least, governing = reserve, c
				}
			}
		}
	}
	c := &formula.Chain{}
	down, along, across := h.derived(c, governing)
	edge := c.Derive(newtons("V_kern", 0, "vertical force at which an edge just lifts off"), "6*abs(M_x)/l_x + 6*abs(M_y)/l_y", formula.Mechanics, along, across,
		formula.Q("l_x", h.Base[0], formula.Metre, "length of the base along"), formula.Q("l_y", h.Base[1], formula.Metre, "width of the base across"))
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	limit := limits.Limit{Name: "resultant in the base of a pier head", LimitState: limits.Serviceability, Sense: limits.AtMost, Source: formula.Mechanics, Line: formula.Given(down, formula.Mechanics)}
	check := stages.NewCheck(limit, edge)
	check.Note = "bounded: parts of an action vary by themselves; governs: " + governing.Governs
	return check.Derived(lines...), nil
}

// headSum is a sum that is derived of the forces on a pier head.
type headSum struct {
	expression string
	operands   []formula.Quantity
}

func (s *headSum) add(expression string, operands ...formula.Quantity) {
	if s.expression != "" {
		s.expression += " + "
	}
	s.expression += expression
	s.operands = append(s.operands, operands...)
}

// derived derive the resultants of a corner: vertical force, moments along and across.
func (h PierHead) derived(c *formula.Chain, corner HeadCorner) (down, along, across formula.Quantity) {
	var force, ahead, left headSum
	for i, f := range h.Forces {
		corner.parts[i].terms(i+1, f, &force, &ahead, &left)
	}
	down = c.Derive(newtons("V", 0, "vertical force at the level"), force.expression, formula.Mechanics, force.operands...)
	nominal := c.Derive(newtons("H_n", 0, nominalWord), "s_n*ν_n*V", limits.NominalSource, formula.Q("s_n", corner.sense, formula.One, "sense of the nominal force"),
		formula.Q("ν_n", corner.share, formula.One, "nominal share of the vertical force: 2.5 % without known horizontal forces in its direction, or 1 % beside them"), down)
	at := formula.Q("z_n", h.NominalAt, formula.Metre, "of the nominal horizontal force")
	if corner.direction == forward {
		ahead.add("H_n*z_n", nominal, at)
	} else {
		left.add("H_n*z_n", nominal, at)
	}
	along = c.Derive(newtonMetres("M_x", 0, "moment along about the middle of the base"), ahead.expression, formula.Mechanics, ahead.operands...)
	across = c.Derive(newtonMetres("M_y", 0, "moment across about the middle of the base"), left.expression, formula.Mechanics, left.operands...)
	return down, along, across
}

// terms adds the parts of a force of a number to the sums: down, moment along and across.
func (p headPart) terms(number int, f HeadForce, force, ahead, left *headSum) {
	symbol := func(of string) string { return fmt.Sprintf("%s_%d", of, number) }
	place := func(of string, v float64) formula.Quantity {
		return formula.Q(symbol(of), v, formula.Metre, "of "+f.Mark)
	}
	down, height := newtons(symbol("V"), p.down, "down, of "+f.Mark), place("z", f.Z)
	force.add(down.Symbol, down)
	ahead.add(symbol("V")+"*"+symbol("x"), down, place("x", f.X))
	left.add(symbol("V")+"*"+symbol("y"), down, place("y", f.Y))
	if p.along != 0 {
		ahead.add(symbol("X")+"*"+symbol("z"), newtons(symbol("X"), p.along, "along, of "+f.Mark), height)
	}
	if p.across != 0 {
		left.add(symbol("Y")+"*"+symbol("z"), newtons(symbol("Y"), p.across, "across, of "+f.Mark), height)
	}
	if p.turn != 0 {
		left.add(symbol("T"), newtonMetres(symbol("T"), p.turn, "couple across, of "+f.Mark))
	}
}
