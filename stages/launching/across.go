package launching

import (
	"math"

	"github.com/tempstage/tempstage/stages/limits"
)

// Feet are what the two feet of a leg press on what they stand on, along gravity and with
// the leg's own weight, positive downwards, in N. Shift, cross-fall and wind act to either
// side, so that both feet have the same extremes.
type Feet struct {
	Leg, On string
	X       float64 // m
	Width   float64 // between them, m
	Off     float64 // of their middle from the axis of what they stand on, + to the left, m
	Force   Range   // the leg as a whole, with its weight, N
	Foot    Range   // each foot, N
	Across  float64 // largest horizontal force across, to either side, N
	Along   float64 // largest horizontal force along, either way, N; where it does not hold, the resistance of its rollers
	Lever   float64 // part of the leg's force by which one foot gets more than half of it
	Moment  float64 // of the wind across about the feet of this leg, N·m

	own Range // factor on the weight of the leg itself
}

// Across is what the feet of every leg receive, characteristic: the leg's share of the
// weight off its middle by shift and cross-fall, and of the wind across. The wind is
// shared by statics on two legs; of more each alone takes all of it, and each leg that
// holds along takes all that acts along. The error wraps [ErrLaunching].
func (g Gantry) Across(p Position) ([]Feet, error) {
	legs, err := g.Reactions(p)
	if err != nil {
		return nil, err
	}
	var list []Feet
	for i, r := range legs {
		list = append(list, g.feet(p, p.stand(r.Leg), legs[i].Force, limits.Factors{}))
	}
	return list, nil
}

// feet are those of a stand under a range of the force of its leg, with partial factors on the
// wind and on the weight of the leg itself, which has the tolerance of the gantry.
func (g Gantry) feet(p Position, stand int, force Range, factors limits.Factors) Feet {
	_, factor := factors.On(limits.Wind)
	own := g.ownWeight(factors)
	s := p.Stands[stand]
	leg := g.leg(s.Leg)
	all := Range{force.Least + own.Least*leg.Weight, force.Most + own.Most*leg.Weight}
	pressure := factor * p.Wind.pressure()
	push := pressure * g.SideArea * g.windShare(p, stand)
	swing := factor * p.across * g.swingShare(p, stand)
	f := Feet{Leg: s.Leg, On: s.On, X: s.X, Width: leg.Width, Off: s.Off, Force: all}
	f.own = own
	f.Lever = (p.Shift + g.Height*math.Tan(p.CrossFall)) / leg.Width
	f.Moment = push*g.AreaAt + swing*g.RopeAt
	more, wind := 1./2+f.Lever, f.Moment/leg.Width
	less := 1./2 - f.Lever
	f.Foot = Range{math.Min(less*all.Least, less*all.Most) - wind, math.Max(more*all.Most, more*all.Least) + wind}
	f.Foot.Least = math.Min(f.Foot.Least, math.Min(more*all.Least, more*all.Most)-wind)
	most := math.Max(math.Abs(all.Least), math.Abs(all.Most))
	f.Across = push + swing + math.Sin(p.CrossFall)*most
	f.Along = p.drag() * most
	if s.Holds {
		f.Along = pressure*g.EndArea + factor*p.along + g.braking(p) + math.Abs(math.Sin(p.Gradient))*g.total(p) + p.drag()*math.Max(most, g.total(p))
	}
	return f
}

// drag is the resistance of the rollers of a gantry that rolls, as a part of their force.
func (p Position) drag() float64 {
	if p.Roll == 0 {
		return 0
	}
	return p.Drag
}

// ownWeight is the range of the factor on the weight of a leg that stands.
func (g Gantry) ownWeight(factors limits.Factors) Range {
	f := factors.Filled()
	least, most, _ := g.Tolerance.Range()
	return Range{least * f.WeightLeast, most * f.WeightMost}
}

// windShare is the largest part that a leg takes of the wind across on the gantry.
func (g Gantry) windShare(p Position, stand int) float64 {
	return g.share(p, stand, g.Length/2)
}

// swingShare is the same of what acts across on the element on the hooks.
func (g Gantry) swingShare(p Position, stand int) float64 {
	var hooks []float64
	for _, t := range p.Trolleys {
		if t.Hook > 0 {
			hooks = append(hooks, t.At)
		}
	}
	return g.share(p, stand, hooks...)
}

// share is the largest part that a leg takes of a force across at one of some places on the
// gantry (m from its rear end): by statics on two legs, all of it on more.
func (g Gantry) share(p Position, stand int, places ...float64) float64 {
	if len(p.Stands) > 2 {
		return 1
	}
	most, other := 0.0, p.Stands[1-stand].X
	for _, at := range p.ends() {
		for _, place := range places {
			most = math.Max(most, math.Abs((other-at-place)/(other-p.Stands[stand].X)))
		}
	}
	return most
}

// total is the nominal weight of a gantry in a position, with what hangs on it (N).
func (g Gantry) total(p Position) float64 {
	sum := 0.0
	for _, c := range g.causes(p) {
		sum += c.load.Total()
	}
	return sum
}
