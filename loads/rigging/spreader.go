package rigging

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Spreader is a beam between two lower slings that hang straight down from its ends,
// below two upper slings that meet at the hook.
type Spreader struct {
	Length       float64 // between the pins at its ends, m, 0.5 to 60
	Height       float64 // of the hook above the pins of the upper slings, m, 0.2 to 60
	Weight       float64 // of the beam, N, 0 to 1e6
	Load         float64 // below it, at rest, N, 1 to 100e6
	CoG          float64 // of the load from the middle between the pins, + to the second, m, at most half the length
	Eccentricity float64 // of the pins of the upper slings above the axis of the beam, m, −2 to 2
	Angle        float64 // least permissible angle of an upper sling to the horizontal, rad, 0.52 to 1.57; 0 means π/6
}

// Spread is what a spreader and its slings get.
type Spread struct {
	Lower       [2]float64 // force in each lower sling, N
	Upper       [2]float64 // force in each upper sling, N
	Angle       [2]float64 // of each upper sling to the horizontal, rad
	Hook        float64    // of the hook from the middle, above the common centre of gravity, + to the second end, m
	Compression float64    // of the beam, N
	Moment      float64    // largest bending moment by its weight and the eccentricity of the pins, by magnitude, N·m
	Above       float64    // force at the hook, N
}

// Solve is by statics, with the hook above the common centre of gravity, where it
// hangs. The error wraps [ErrRigging].
func (s Spreader) Solve() (Spread, error) {
	bounds := []bound{
		{"Length", s.Length, "m", 0.5, 60}, {"Height", s.Height, "m", 0.2, 60}, {"Weight", s.Weight, "N", 0, 1e6}, {"Load", s.Load, "N", 1, 100e6},
		{"CoG", s.CoG, "m", -s.Length / 2, s.Length / 2}, {"Eccentricity", s.Eccentricity, "m", -2, 2},
	}
	if s.Angle != 0 {
		bounds = append(bounds, bound{"Angle", s.Angle, "rad", 0.52, 1.5708})
	}
	if err := within("Spreader", bounds...); err != nil {
		return Spread{}, err
	}
	var r Spread
	second := s.CoG/s.Length + 0.5
	r.Lower = [2]float64{s.Load * (1 - second), s.Load * second}
	r.Above = s.Load + s.Weight
	r.Hook = s.Load * s.CoG / r.Above
	arms := [2]float64{s.Length/2 + r.Hook, s.Length/2 - r.Hook}
	for i := range r.Upper {
		vertical := r.Lower[i] + s.Weight/2
		horizontal := vertical * arms[i] / s.Height // the same at both ends
		r.Compression = horizontal
		r.Upper[i] = math.Hypot(vertical, horizontal)
		r.Angle[i] = math.Atan2(s.Height, arms[i])
		if least := orElse(s.Angle, flattest); r.Angle[i] < least-1e-9 {
			return Spread{}, fmt.Errorf("%w: upper sling %d is at %.1f° to the horizontal: must be at least %.1f°", ErrRigging, i+1, r.Angle[i]*180/math.Pi, least*180/math.Pi)
		}
	}
	// A pull above the axis compresses the top of the beam all along, as its weight does
	// in the middle.
	ends := r.Compression * s.Eccentricity
	r.Moment = math.Max(math.Abs(ends), math.Abs(ends+s.Weight*s.Length/8))
	return r, nil
}

// Lines derive what [Spreader.Solve] gives: each result is that of the field of
// [Spread]. The error is that of Solve.
func (s Spreader) Lines() ([]formula.Line, error) {
	if _, err := s.Solve(); err != nil {
		return nil, err
	}
	c := &formula.Chain{}
	load, weight := newtons("W", s.Load, "load below the spreader, at rest"), newtons("G_s", s.Weight, "weight of the spreader")
	length, height := metres("l_s", s.Length, "length of the spreader between its pins"), metres("h_s", s.Height, "height of the hook above the pins of the upper slings")
	off := metres("x_G", s.CoG, "centre of gravity of the load from the middle of the spreader")
	second := c.Derive(newtons("F_2", 0, "force in the second lower sling"), "W*(x_G/l_s + 1/2)", formula.Mechanics, load, off, length)
	lower := [2]formula.Quantity{c.Derive(newtons("F_1", 0, "force in the first lower sling"), "W*(1/2 - x_G/l_s)", formula.Mechanics, load, off, length), second}
	above := c.Derive(newtons("F_H", 0, "force at the hook"), "W + G_s", formula.Mechanics, load, weight)
	hook := c.Derive(metres("x_H", 0, "hook from the middle of the spreader, above the common centre of gravity"), "W*x_G/F_H", formula.Mechanics, load, off, above)
	var compression formula.Quantity
	for i, arm := range [2]string{"(l_s/2 + x_H)", "(l_s/2 - x_H)"} {
		n := i + 1
		vertical := c.Derive(newtons(of("V", n), 0, fmt.Sprint("vertical part of upper sling ", n)), lower[i].Symbol+" + G_s/2", formula.Mechanics, lower[i], weight)
		if i == 0 {
			compression = c.Derive(newtons("N_s", 0, "compression of the spreader"), "V_1*"+arm+"/h_s", formula.Mechanics, vertical, length, hook, height)
		}
		c.Derive(newtons(of("S", n), 0, fmt.Sprint("force in upper sling ", n)), "sqrt("+vertical.Symbol+"*"+vertical.Symbol+" + N_s*N_s)", formula.Mechanics, vertical, compression)
		c.Derive(radians(of("β", n), 0, fmt.Sprint("angle to the horizontal of upper sling ", n)), "pi/2 - atan("+arm+"/h_s)", formula.Mechanics, length, hook, height)
	}
	c.Derive(formula.Q("M_s", 0, formula.NewtonMetre, "largest bending moment of the spreader"), "max(abs(N_s*e_s), abs(N_s*e_s + G_s*l_s/8))", formula.Mechanics,
		compression, metres("e_s", s.Eccentricity, "pins of the upper slings above the axis of the spreader"), weight, length)
	return c.Lines()
}
