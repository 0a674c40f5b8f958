package launching

import (
	"math"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/limits"
)

// Moments are those of one part of a gantry about a leg, nominal (N·m): of its weight
// beyond the leg and inside it, each positive.
type Moments struct{ Beyond, Inside float64 }

// Balance is what turns a gantry about one of its outer legs, along, and what holds it.
// All values are nominal; factors are those of a limit.
type Balance struct {
	Position   string
	At         float64 // of the rear end, m
	Leg        string  // about which it would turn
	X          float64 // of the leg, m
	Forward    bool    // over the foremost leg; else back over the rearmost
	Structure  Moments // of the weights of the gantry and of legs that it carries
	Counter    Moments // of counterweights without OutOfPlace
	Weighed    Moments // of counterweights with OutOfPlace, which is in it to the bad side
	Trolleys   Moments // of trolleys and of the loads on their hooks; inside: all of them at rest
	Locked     float64 // the part of Trolleys.Inside of trolleys that are fixed at their place, without hook loads, N·m
	HookFactor float64 // maximum dynamic factor, on the part of Trolleys.Beyond that Hooks is
	Hooks      float64 // part of Trolleys.Beyond of loads on hooks, N·m
	Wind       float64 // moment of the wind along, on the gantry and on what hangs on it, N·m
	Braking    float64 // moment of the drive or brakes of trolleys, N·m
	Slope      float64 // moment of the weight down the gradient, N·m; 0 where it holds
	Vertical   float64 // weight of all, N
	Horizontal float64 // known: wind, braking and gradient, N
	Height     float64 // of the centre of gravity above the feet, m
	Bars       float64 // moment of anchor bars of the other legs at their working load limit, N·m
}

// Simple is the factor of safety against overturning at nominal values: moment of the
// weights inside the leg over that beyond it, without wind and bars. It is 0 and false
// where nothing is beyond the leg.
func (b Balance) Simple() (factor float64, turns bool) {
	out := b.Structure.Beyond + b.Counter.Beyond + b.Weighed.Beyond + b.Trolleys.Beyond
	if out <= 0 {
		return 0, false
	}
	return (b.Structure.Inside + b.Counter.Inside + b.Weighed.Inside + b.Trolleys.Inside) / out, true
}

// Balances are the moments about the foremost and the rearmost leg at the beginning and,
// where it rolls, at the end of a position, which are the extremes of the move. The
// return launch is the same positions the other way: both legs are always asked. The
// error wraps [ErrLaunching].
func (g Gantry) Balances(p Position) ([]Balance, error) {
	if err := g.ready(p); err != nil {
		return nil, err
	}
	var list []Balance
	for _, at := range p.ends() {
		for _, forward := range [2]bool{true, false} {
			list = append(list, g.balance(p, at, forward))
		}
	}
	return list, nil
}

func (g Gantry) balance(p Position, at float64, forward bool) Balance {
	pivot, sense := p.Stands[0], -1.0
	if forward {
		pivot, sense = p.Stands[len(p.Stands)-1], 1
	}
	a := about{pivot.X - at, sense}
	b := Balance{Position: p.Name, At: at, Leg: pivot.Leg, X: pivot.X, Forward: forward, Height: g.Height}
	for _, w := range g.Weights {
		b.Vertical += w.Loads.Total()
		switch {
		case !w.Counterweight:
			b.Structure.add(a.of(w.Loads))
		case w.OutOfPlace > 0:
			b.Weighed.add(about{a.leg - sense*w.OutOfPlace, sense}.of(w.Loads))
		default:
			b.Counter.add(a.of(w.Loads))
		}
	}
	for _, h := range p.Hanging {
		weight := g.leg(h.Leg).Weight
		b.Vertical += weight
		b.Structure.add(a.of(point(h.At, weight)))
	}
	_, b.HookFactor, _ = p.Dynamic.Range()
	for i, t := range p.Trolleys {
		own, hook := a.of(point(t.At, g.Trolleys[i].Weight)), a.of(point(t.At, t.Hook))
		b.Vertical += g.Trolleys[i].Weight + t.Hook
		b.Trolleys.add(own)
		b.Trolleys.add(hook)
		b.Hooks += hook.Beyond
		if t.Locked {
			b.Locked += own.Inside
		}
	}
	wind := p.Wind.pressure() * g.EndArea // and along on what hangs on it
	slope := math.Max(0, -sense*b.Vertical*math.Sin(p.Gradient))
	brake := g.braking(p)
	b.Wind, b.Braking, b.Slope, b.Horizontal = wind*g.AreaAt+p.along*g.RopeAt, brake*g.RopeAt, slope*g.Height, wind+p.along+brake+slope
	for _, s := range p.Stands {
		if s.Bars != nil {
			b.Bars += math.Max(0, sense*(pivot.X-s.X)) * float64(s.Bars.Number) * s.Bars.Capacity
		}
	}
	return b
}

// nominal is the nominal horizontal force beside the known ones (N).
func (b Balance) nominal() float64 {
	return limits.NominalHorizontal(b.Vertical, b.Horizontal)
}

// about is a leg, in m from the rear end of the gantry, and the sense of what is beyond
// it: 1 forward, −1 back.
type about struct{ leg, sense float64 }

func (m *Moments) add(other Moments) {
	m.Beyond, m.Inside = m.Beyond+other.Beyond, m.Inside+other.Inside
}

// of is the moments of loads on both sides of the leg (N·m).
func (a about) of(set loads.Set) (m Moments) {
	take := func(moment float64) {
		m.Beyond += math.Max(0, moment)
		m.Inside += math.Max(0, -moment)
	}
	for _, p := range set.Points {
		take(p.Force * a.sense * (p.At - a.leg))
	}
	for _, l := range set.Lines {
		split := math.Min(l.To, math.Max(l.From, a.leg))
		take(a.sense * moment(l, l.From, split, a.leg))
		take(a.sense * moment(l, split, l.To, a.leg))
	}
	return m
}

// moment is that of a linear line load from one place to another about a third (N·m), by
// Gauss's rule of two points, which is exact for it.
func moment(l loads.Line, from, to, place float64) float64 {
	middle, half := (from+to)/2, (to-from)/2
	sum := 0.0
	for _, t := range [2]float64{-1 / math.Sqrt(3), 1 / math.Sqrt(3)} {
		x := middle + half*t
		sum += half * (l.Intensity[0] + l.Intensity[1]*(x-l.From)) * (x - place)
	}
	return sum
}

func point(at, force float64) loads.Set {
	return loads.Set{Points: []loads.Point{{At: at, Force: force}}}
}

// ready reports the first thing of a gantry or of a position that is not as it must be.
func (g Gantry) ready(p Position) error {
	if err := g.check(); err != nil {
		return err
	}
	return p.check(g)
}
