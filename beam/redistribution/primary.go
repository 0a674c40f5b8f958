package redistribution

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
)

// ErrRedistribution is wrapped by every error about a change of system or a prestress
// that is not as it must be.
var ErrRedistribution = errors.New("redistribution")

// Primary is the bending moment of prestress in a beam free to bend.
type Primary struct {
	Moment func(x float64) float64 // N·m at x (m), sagging positive; smooth between breaks
	Breaks []float64               // m, places of changes of its law, in any order; those beyond the beam are left out
}

// OfTendons is the primary moment of tendons about the centroid, whose level z (m) is
// given at x: −P·cos α·(centroid − z of the tendon) of each, negative for a tendon
// below the centroid (hogging). breaks are places (m) where the law of the centroid
// changes. A nil force counts as none; without a centroid there is no moment, which
// [Restrain] refuses.
func OfTendons(forces []*tendon.Force, centroid func(x float64) float64, breaks ...float64) Primary {
	if centroid == nil {
		return Primary{}
	}
	places := slices.Clone(breaks)
	for _, f := range forces {
		places = append(places, f.Breaks()...)
	}
	return Primary{
		Breaks: places,
		Moment: func(x float64) float64 {
			sum, level := 0.0, centroid(x)
			for _, f := range forces {
				if force := f.At(x); force != 0 {
					along, _, _ := f.Path.Direction(x)
					sum += force * along * (f.Path.At(x).Z - level)
				}
			}
			return sum
		},
	}
}

const (
	// fitError is the error of the polynomial that stands for a curvature in one
	// piece, as a fraction of the largest curvature: below it tendon forces fall
	// by an exponential whose exponent is known to three digits.
	fitError = 1e-9
	// halvings is how often a piece may be halved before the curvature counts as
	// not smooth.
	halvings = 12
)

// polynomials is a law between the places as polynomial pieces; name and unit
// are for its error.
func polynomials(name, unit string, places []float64, law func(x float64) float64) ([]loads.Curvature, error) {
	largest := 0.0
	for i := 1; i < len(places); i++ {
		for n := range 9 {
			x := places[i-1] + (places[i]-places[i-1])*(float64(n)+0.5)/9
			v := math.Abs(law(x))
			if !(v < 1e12) {
				return nil, fmt.Errorf("%w: the %s at x = %.4g m is %g %s: must be below 1e12 %s", ErrRedistribution, name, x, v, unit, unit)
			}
			largest = math.Max(largest, v)
		}
	}
	var pieces []loads.Curvature
	for i := 1; i < len(places); i++ {
		var err error
		if pieces, err = fit(pieces, places[i-1], places[i], law, fitError*largest, halvings); err != nil {
			return nil, err
		}
	}
	return pieces, nil
}

// fit appends polynomials for the law between two places, halving until they
// hold.
func fit(pieces []loads.Curvature, from, to float64, law func(float64) float64, allowed float64, left int) ([]loads.Curvature, error) {
	value := interpolated(from, to, law)
	good := true
	for n := range 7 {
		s := (to - from) * float64(n) / 6
		inside := math.Min(math.Max(s, (to-from)*1e-9), (to-from)*(1-1e-9)) // the law may jump at the ends
		good = good && math.Abs(value.At(inside)-law(from+inside)) <= allowed
	}
	if good {
		return append(pieces, loads.Curvature{From: from, To: to, Value: value}), nil
	}
	if left == 0 {
		return nil, fmt.Errorf("%w: the primary moment between x = %g and %g m is not smooth: must be a smooth law between breaks", ErrRedistribution, from, to)
	}
	middle := (from + to) / 2
	pieces, err := fit(pieces, from, middle, law, allowed, left-1)
	if err != nil {
		return nil, err
	}
	return fit(pieces, middle, to, law, allowed, left-1)
}

// interpolated is the polynomial in s = x − from through the law at Chebyshev
// points, by divided differences.
func interpolated(from, to float64, law func(float64) float64) loads.Polynomial {
	const n = loads.Degree + 1
	var at, difference [n]float64
	for i := range n {
		at[i] = (to - from) / 2 * (1 - math.Cos(math.Pi*(float64(i)+0.5)/n))
		difference[i] = law(from + at[i])
	}
	for order := 1; order < n; order++ {
		for i := n - 1; i >= order; i-- {
			difference[i] = (difference[i] - difference[i-1]) / (at[i] - at[i-order])
		}
	}
	var p loads.Polynomial
	for i := n - 1; i >= 0; i-- { // p = p·(s − at[i]) + difference[i]
		for k := loads.Degree; k > 0; k-- {
			p[k] = p[k-1] - at[i]*p[k]
		}
		p[0] = difference[i] - at[i]*p[0]
	}
	return p
}
