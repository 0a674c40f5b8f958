package rigging

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sharing is how more than three legs of a sling share the weight.
type Sharing string

// The ways of sharing. What nothing equalises is carried by any two or three legs that
// can: on a rigid load two diagonal legs of four.
const (
	NotEqualised Sharing = ""
	Equalised    Sharing = "equalised" // all legs have the same force: rolling blocks, hydraulics
)

// Sling is a load on legs that meet at one hook.
type Sling struct {
	Hook    r3.Vec   // where the legs meet, m
	Legs    []r3.Vec // lower end of each leg, one to eight, m
	Weight  float64  // that hangs below, at rest, N, 1 to 100e6
	CoG     r3.Vec   // its centre of gravity as it is drawn, m
	Sharing Sharing  // of more than three legs
	Angle   float64  // least permissible angle of a leg to the horizontal, rad, 0.52 to 1.57; 0 means π/6 (60° from the vertical, EN 13414-1 Table, unconfirmed)
	Tilt    float64  // most permissible tilt of the load, rad, 0 to 0.35; 0 means 0.035 (2°)
}

// usual limits of a sling.
const (
	flattest  = math.Pi / 6
	usualTilt = 0.035
)

// Leg is what a leg of a sling gets.
type Leg struct {
	Length float64 // m
	Angle  float64 // to the horizontal, as the load hangs, rad
	Factor float64 // its force over its vertical part
	Force  Range   // N; the minimum is 0 where others can carry without it
}

// Slung is how a load hangs.
type Slung struct {
	Legs []Leg
	Tilt float64 // of the load, until its centre of gravity is below the hook, rad
	Sets int     // ways in which legs can carry: 1 where statics decides
}

// Solve is how the load hangs. The error wraps [ErrRigging]: a field out of its range,
// a hook below the centre of gravity, a leg that is flatter or a load that tilts more
// than is permissible, or legs that cannot carry.
func (s Sling) Solve() (Slung, error) {
	r, _, err := s.solve()
	return r, err
}

// way are the forces of all legs when those of a set carry.
type way struct {
	set    int // bit i for leg i
	forces []float64
}

// solve is how the load hangs, and the ways in which legs that nothing equalises can
// carry.
func (s Sling) solve() (Slung, []way, error) {
	if err := s.check(); err != nil {
		return Slung{}, nil, err
	}
	lever := r3.Sub(s.Hook, s.CoG)
	up := r3.Unit(lever) // gravity in the axes of the load as it hangs
	r := Slung{Tilt: math.Atan2(math.Hypot(lever.X, lever.Y), lever.Z), Legs: make([]Leg, len(s.Legs))}
	if most := orElse(s.Tilt, usualTilt); r.Tilt > most {
		return Slung{}, nil, fmt.Errorf("%w: the load tilts by %.4g rad until its centre of gravity is below the hook: must be at most %.4g rad; move the hook by %.3g m along and %.3g m across", ErrRigging, r.Tilt, most, s.CoG.X-s.Hook.X, s.CoG.Y-s.Hook.Y)
	}
	pulls := make([]r3.Vec, len(s.Legs))
	for i, p := range s.Legs {
		along := r3.Sub(s.Hook, p)
		pulls[i] = r3.Unit(along)
		sine := r3.Dot(pulls[i], up)
		r.Legs[i] = Leg{Length: r3.Norm(along), Angle: math.Asin(sine), Factor: 1 / sine, Force: Range{math.Inf(1), math.Inf(-1)}}
		if least := orElse(s.Angle, flattest); !(r.Legs[i].Angle >= least-1e-9) {
			return Slung{}, nil, fmt.Errorf("%w: leg %d is at %.1f° to the horizontal: must be at least %.1f°", ErrRigging, i+1, r.Legs[i].Angle*180/math.Pi, least*180/math.Pi)
		}
	}
	ways, err := s.ways(pulls, up)
	if err != nil {
		return Slung{}, nil, err
	}
	r.Sets = len(ways)
	for _, w := range ways {
		for i, f := range w.forces {
			of := &r.Legs[i].Force
			of.Least, of.Most = math.Min(of.Least, f), math.Max(of.Most, f)
		}
	}
	return r, ways, nil
}

// ways are the forces of the legs, in every way in which they can carry.
func (s Sling) ways(pulls []r3.Vec, up r3.Vec) ([]way, error) {
	if s.Sharing == Equalised {
		var sum r3.Vec
		for _, p := range pulls {
			sum = r3.Add(sum, p)
		}
		force := s.Weight / r3.Dot(sum, up)
		if off := r3.Norm(r3.Sub(r3.Scale(force, sum), r3.Scale(s.Weight, up))); off > outOfBalance*s.Weight {
			return nil, fmt.Errorf("%w: legs of the same force leave %.3g N to the side: must be legs that balance about the hook", ErrRigging, off)
		}
		all := way{1<<len(pulls) - 1, make([]float64, len(pulls))}
		for i := range all.forces {
			all.forces[i] = force
		}
		return []way{all}, nil
	}
	var ways []way
	for set := 1; set < 1<<len(pulls); set++ {
		if forces, ok := carry(pulls, set, r3.Scale(s.Weight, up)); ok {
			ways = append(ways, way{set, forces})
		}
	}
	if len(ways) == 0 {
		return nil, fmt.Errorf("%w: no legs of the sling balance the weight below the hook: must be legs on all sides of the centre of gravity", ErrRigging)
	}
	return ways, nil
}

// outOfBalance is what legs may leave to the side, as a share of the weight: friction
// and roundings of a drawing, not a load.
const outOfBalance = 1e-3

// carry are the forces of a set of at most three legs that balance the weight, 0 in the
// others; not ok where a smaller set does, one pushes, or they do not balance.
func carry(pulls []r3.Vec, set int, weight r3.Vec) (forces []float64, ok bool) {
	var of []int
	for i := range pulls {
		if set>>i&1 == 1 {
			of = append(of, i)
		}
	}
	if len(of) > 3 {
		return nil, false
	}
	a, b := mat.NewDense(3, len(of), nil), mat.NewVecDense(3, []float64{weight.X, weight.Y, weight.Z})
	for k, i := range of {
		a.SetCol(k, []float64{pulls[i].X, pulls[i].Y, pulls[i].Z})
	}
	var x mat.VecDense
	if x.SolveVec(a, b) != nil {
		return nil, false
	}
	var left mat.VecDense
	left.MulVec(a, &x)
	left.SubVec(&left, b)
	size := r3.Norm(weight)
	if mat.Norm(&left, 2) > outOfBalance*size {
		return nil, false
	}
	forces = make([]float64, len(pulls))
	for k, i := range of {
		if forces[i] = x.AtVec(k); forces[i] < outOfBalance*size {
			return nil, false
		}
	}
	return forces, true
}

func (s Sling) check() error {
	if n := len(s.Legs); n < 1 || n > 8 {
		return fmt.Errorf("%w: Sling.Legs has %d legs: must be 1 to 8", ErrRigging, n)
	}
	if s.Sharing != NotEqualised && s.Sharing != Equalised {
		return fmt.Errorf("%w: Sling.Sharing = %q: must be NotEqualised or Equalised", ErrRigging, s.Sharing)
	}
	places := append([]r3.Vec{s.Hook, s.CoG}, s.Legs...)
	for _, p := range places {
		if !(math.Abs(p.X) <= 1000 && math.Abs(p.Y) <= 1000 && math.Abs(p.Z) <= 1000) {
			return fmt.Errorf("%w: place at x = %g, y = %g, z = %g m: must be within ±1000 m", ErrRigging, p.X, p.Y, p.Z)
		}
	}
	bounds := []bound{{"Weight", s.Weight, "N", 1, 100e6}}
	if s.Angle != 0 {
		bounds = append(bounds, bound{"Angle", s.Angle, "rad", 0.52, 1.5708})
	}
	if s.Tilt != 0 {
		bounds = append(bounds, bound{"Tilt", s.Tilt, "rad", 1e-6, 0.35})
	}
	if err := within("Sling", bounds...); err != nil {
		return err
	}
	if !(s.Hook.Z > s.CoG.Z+0.01) {
		return fmt.Errorf("%w: Sling.Hook at z = %g m: must be above the centre of gravity, z = %g m", ErrRigging, s.Hook.Z, s.CoG.Z)
	}
	for i, p := range s.Legs {
		if !(r3.Norm(r3.Sub(s.Hook, p)) >= 0.1) {
			return fmt.Errorf("%w: leg %d is %.3g m long: must be at least 0.1 m", ErrRigging, i+1, r3.Norm(r3.Sub(s.Hook, p)))
		}
	}
	return nil
}

func orElse(value, usual float64) float64 {
	if value == 0 {
		return usual
	}
	return value
}
