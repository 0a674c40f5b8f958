package rigging

import (
	"fmt"
	"math"
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
