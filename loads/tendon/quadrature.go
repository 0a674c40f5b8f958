package tendon

import "gonum.org/v1/gonum/integrate/quad"

// The Gauss-Legendre rule of 10 points on (−1, 1).
var gaussAt, gaussWeight = gauss()

func gauss() (at, weight [10]float64) {
	quad.Legendre{}.FixedLocations(at[:], weight[:], -1, 1)
	return at, weight
}

// integrate is ∫ f dx from a to b for an f that is smooth there, in equal
// panels of one Gauss rule each.
func integrate(a, b float64, panels int, f func(float64) float64) float64 {
	half := (b - a) / float64(2*panels)
	sum := 0.0
	for panel := range panels {
		middle := a + half*float64(2*panel+1)
		for i, t := range gaussAt {
			sum += gaussWeight[i] * f(middle+t*half)
		}
	}
	return sum * half
}
