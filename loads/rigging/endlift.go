package rigging

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
)

// EndLift is a load with one end on the hook of a crane and the other still on a bunk:
// one end leaves the trailer first, or is set down last. It turns about the bunk.
type EndLift struct {
	Weight       float64          // of the load with all that hangs at it, nominal, N, 1e3 to 100e6
	Tolerance    *loads.Tolerance // how far the true weight may lie off; must be stated, PlusMinus(0) for none
	Dynamic      loads.Dynamic    // range of the factor on the weight; must be stated, AtRest for none
	Bunk         float64          // x of the bunk, m, ±1000
	Hook         float64          // x of the hook, m, ±1000; at least 0.5 m from the bunk, to either side
	CoG          float64          // x of the centre of gravity, between bunk and hook, m
	CoGTolerance float64          // how far it may lie off, to either side, m, 0 to 10
	CoGHeight    float64          // of the centre of gravity above the bunk, m, −5 to 20
	HookHeight   float64          // of the lift points above the bunk, m, −5 to 20
	Raise        float64          // greatest rise of the load at the hook, m, 0 to a tenth of the distance of bunk and hook
	Plumb        float64          // greatest deviation of the hoist rope from plumb along the load, rad, 0 to 0.1
}

// Ends are the shares of hook and bunk.
type Ends struct{ Hook, Bunk Share }

// Solve is by statics, about the bunk, level and at the greatest rise, with the rope out
// of plumb to either side: the shares in between are within those. The bunk must hold
// its Side by friction or a stop. It neglects that the place of contact moves on the
// bunk. The error wraps [ErrRigging].
func (e EndLift) Solve() (Ends, error) {
	least, most, err := e.check()
	if err != nil {
		return Ends{}, err
	}
	low, high, _ := e.Dynamic.Range() // checked
	part := math.Abs(e.CoG-e.Bunk) / math.Abs(e.Hook-e.Bunk)
	smallest, largest, err := e.parts(0)
	if err != nil {
		return Ends{}, err
	}
	leastRaised, mostRaised, err := e.parts(e.Raise)
	if err != nil {
		return Ends{}, err
	}
	smallest, largest = math.Min(smallest, leastRaised), math.Max(largest, mostRaised)
	if smallest < 0 || largest > 1 {
		return Ends{}, fmt.Errorf("%w: the hook may have %.3g to %.3g of the weight: must be 0 to 1, with the centre of gravity between bunk and hook", ErrRigging, smallest, largest)
	}
	share := func(part, smallest, largest float64) Share {
		s := Share{Part: part, Nominal: part * e.Weight, Static: Range{smallest * e.Weight * least, largest * e.Weight * most}}
		s.Characteristic = Range{s.Static.Least * low, s.Static.Most * high}
		return s
	}
	r := Ends{share(part, smallest, largest), share(1-part, 1-largest, 1-smallest)}
	r.Hook.Side = r.Hook.Characteristic.Most * math.Tan(e.Plumb)
	r.Bunk.Side = r.Hook.Side
	return r, nil
}

// parts are the smallest and the largest part of the weight on the hook at a rise.
func (e EndLift) parts(rise float64) (least, most float64, err error) {
	l, a := math.Abs(e.Hook-e.Bunk), math.Abs(e.CoG-e.Bunk)
	sine, cosine := rise/l, math.Sqrt(1-rise/l*(rise/l))
	arm, rope := l*cosine-e.HookHeight*sine, math.Abs(l*sine+e.HookHeight*cosine)*math.Tan(e.Plumb)
	if !(arm-rope > 0.1*l) {
		return 0, 0, fmt.Errorf("%w: the rope acts %.3g m from the bunk at a rise of %g m: must be above a tenth of %g m", ErrRigging, arm-rope, rise, l)
	}
	least = ((a-e.CoGTolerance)*cosine - e.CoGHeight*sine) / (arm + rope)
	most = ((a+e.CoGTolerance)*cosine - e.CoGHeight*sine) / (arm - rope)
	return least, most, nil
}

func (e EndLift) check() (least, most float64, err error) {
	if err := within("EndLift", bound{"Weight", e.Weight, "N", 1e3, 100e6}, bound{"Bunk", e.Bunk, "m", -1000, 1000}, bound{"Hook", e.Hook, "m", -1000, 1000}); err != nil {
		return 0, 0, err
	}
	l := math.Abs(e.Hook - e.Bunk)
	if !(l >= 0.5) {
		return 0, 0, fmt.Errorf("%w: EndLift.Hook = %g m: must be at least 0.5 m from the bunk at %g m", ErrRigging, e.Hook, e.Bunk)
	}
	err = within("EndLift", bound{"CoG", e.CoG, "m", math.Min(e.Bunk, e.Hook), math.Max(e.Bunk, e.Hook)}, bound{"CoGTolerance", e.CoGTolerance, "m", 0, 10}, bound{"CoGHeight", e.CoGHeight, "m", -5, 20},
		bound{"HookHeight", e.HookHeight, "m", -5, 20}, bound{"Raise", e.Raise, "m", 0, l / 10}, bound{"Plumb", e.Plumb, "rad", 0, 0.1})
	if err != nil {
		return 0, 0, err
	}
	return statedRange("EndLift", e.Tolerance, e.Dynamic)
}

// Lines derive what [EndLift.Solve] gives: each result is that of the field of [Ends].
// The error is that of Solve.
func (e EndLift) Lines() ([]formula.Line, error) {
	if _, err := e.Solve(); err != nil {
		return nil, err
	}
	least, most, _ := e.check() // solved without error before
	low, high, _ := e.Dynamic.Range()
	f, c := factors(e.Weight, least, most, low, high, e.Plumb), &formula.Chain{}
	bunk := metres("x_B", e.Bunk, "bunk")
	l := c.Derive(metres("l_B", 0, "distance from the bunk to the hook"), "abs(x_H - x_B)", formula.Mechanics, metres("x_H", e.Hook, "hook"), bunk)
	a := c.Derive(metres("a_G", 0, "distance from the bunk to the centre of gravity"), "abs(x_G - x_B)", formula.Mechanics, metres("x_G", e.CoG, "centre of gravity"), bunk)
	nominal := c.Derive(number("p_H", 0, "part of the weight on the hook"), "a_G/l_B", formula.Mechanics, a, l)
	sine := c.Derive(number("s_e", 0, "sine of the slope of the load at the greatest rise"), "Δ_e/l_B", formula.Mechanics, metres("Δ_e", e.Raise, "greatest rise of the load at the hook"), l)
	cosine := c.Derive(number("c_e", 0, "cosine of the slope of the load at the greatest rise"), "sqrt(1 - s_e*s_e)", formula.Mechanics, sine)
	u, v, t := metres("h_G", e.CoGHeight, "height of the centre of gravity above the bunk"), metres("h_H", e.HookHeight, "height of the lift points above the bunk"), metres("t_G", e.CoGTolerance, "tolerance on the centre of gravity")
	arm := c.Derive(metres("l_e", 0, "distance from the bunk to the hook at the greatest rise"), "l_B*c_e - h_H*s_e", formula.Mechanics, l, cosine, v, sine)
	height := c.Derive(metres("h_e", 0, "height of the lift points above the bunk at the greatest rise"), "l_B*s_e + h_H*c_e", formula.Mechanics, l, sine, v, cosine)
	end := func(symbol, name, off, rope string, levelGoverns bool) (governs formula.Quantity) {
		level := func() formula.Quantity {
			return c.Derive(number(symbol+"_0", 0, name+", level"), "(a_G"+off+"t_G)/(l_B"+rope+"abs(h_H)*tan(δ))", formula.Mechanics, a, t, l, v, f.plumb)
		}
		raised := func() formula.Quantity {
			return c.Derive(number(symbol+"_e", 0, name+", at the greatest rise"), "((a_G"+off+"t_G)*c_e - h_G*s_e)/(l_e"+rope+"abs(h_e)*tan(δ))", formula.Mechanics, a, t, cosine, u, sine, arm, height, f.plumb)
		}
		if levelGoverns {
			level, raised = raised, level
		}
		level()
		governs = raised()
		c.Note("governs")
		return governs
	}
	lowest, highest, _ := e.parts(0)
	leastRaised, mostRaised, _ := e.parts(e.Raise)
	smallest := end("p_H_min", "minimum part of the weight on the hook", " - ", " + ", lowest < leastRaised)
	largest := end("p_H_max", "maximum part of the weight on the hook", " + ", " - ", highest > mostRaised)
	greatest := f.share(c, "_H", "the hook", nominal, smallest, largest)
	f.side(c, "_H", "hook and bunk", greatest)
	rest := func(symbol, name string, of formula.Quantity) formula.Quantity {
		return c.Derive(number(symbol, 0, name), "1 - "+of.Symbol, formula.Mechanics, of)
	}
	f.share(c, "_B", "the bunk", rest("p_B", "part of the weight on the bunk", nominal), rest("p_B_min", "minimum part of the weight on the bunk", largest), rest("p_B_max", "maximum part of the weight on the bunk", smallest))
	return c.Lines()
}
