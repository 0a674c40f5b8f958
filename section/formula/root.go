package formula

import (
	"errors"
	"fmt"
	"math"
)

// ErrNoRoot is wrapped when a function does not change sign over an interval or
// is not a number in it.
var ErrNoRoot = errors.New("no root")

// mostSteps halve an interval some forty magnitudes wider than its root to the last digit.
const mostSteps = 200

// Root finds x between low and high at which f is zero, to the last digits of float64,
// by bracketing: the function must have opposite signs at the ends and be continuous
// (at a jump over zero it returns the place of the jump). Method: Chandrupatla,
// Advances in Engineering Software 28 (1997) 145-149, inverse quadratic interpolation
// where it is safe and bisection elsewhere. The error wraps [ErrNoRoot], also after 200
// steps without a root, or is that of f.
func Root(low, high float64, f func(x float64) (float64, error)) (float64, error) {
	a, b := high, low
	fa, err := value(f, a)
	if err != nil {
		return 0, err
	}
	fb, err := value(f, b)
	if err != nil {
		return 0, err
	}
	if fa == 0 {
		return a, nil
	}
	if fb == 0 {
		return b, nil
	}
	if (fa > 0) == (fb > 0) {
		return 0, fmt.Errorf("%w between %g and %g: the function is %.4g and %.4g there: must be opposite signs", ErrNoRoot, low, high, fb, fa)
	}
	t := 0.5
	for range mostSteps {
		x := a + t*(b-a)
		fx, err := value(f, x)
		if err != nil {
			return 0, err
		}
		var c, fc float64
		if (fx > 0) == (fa > 0) {
			c, fc = a, fa
		} else {
			c, fc = b, fb
			b, fb = a, fa
		}
		a, fa = x, fx
		best := a
		if math.Abs(fb) < math.Abs(fa) {
			best = b
		}
		tolerance := 4e-16*math.Abs(best) + 1e-300
		limit := tolerance / math.Abs(b-a)
		if limit > 0.5 || fa == 0 {
			return best, nil
		}
		t = step(a, b, c, fa, fb, fc)
		t = math.Max(limit, math.Min(1-limit, t))
	}
	if math.Abs(b-a) <= 1e-15*smaller(low, high) { // a root of zero has no last digit
		return a, nil
	}
	return 0, fmt.Errorf("%w between %g and %g: not settled in %d steps: must be an interval of the size of its root", ErrNoRoot, low, high, mostSteps)
}

// smaller is the smaller magnitude of two that is not zero.
func smaller(a, b float64) float64 {
	a, b = math.Abs(a), math.Abs(b)
	if a == 0 || b != 0 && b < a {
		return b
	}
	return a
}

// step is the fraction of the way from a to b to try next.
func step(a, b, c, fa, fb, fc float64) float64 {
	xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
	if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
		return fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
	}
	return 0.5
}

func value(f func(float64) (float64, error), x float64) (float64, error) {
	y, err := f(x)
	if err == nil && math.IsNaN(y) {
		err = fmt.Errorf("%w: the function is not a number at %g", ErrNoRoot, x)
	}
	return y, err
}
