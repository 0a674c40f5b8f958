package beam

import (
	"fmt"
	"math"
)

// panel is a part of a member in which the flexibility follows one law.
type panel struct {
	from, to float64   // m
	bending  []float64 // 1/EI as a power series in s = x − from, 1/(N·m²)
	shear    []float64 // 1/GA likewise, 1/N; empty = rigid in shear
}

// uniform says that bending and shear flexibility do not vary.
func (p *panel) uniform() bool { return len(p.bending) == 1 && len(p.shear) <= 1 }

// uniformPanel is a panel of constant flexibility; shear 0 = rigid in shear.
func uniformPanel(bending, shear float64) panel {
	p := panel{bending: []float64{1 / bending}}
	if shear != 0 {
		p.shear = []float64{1 / shear}
	}
	return p
}

const (
	// fitted is the degree of the polynomial that stands for a varying
	// flexibility in one panel.
	fitted = 8
	// fitError is the largest relative error of that polynomial: below what a
	// stiffness computed from outlines repeats (1e-13 to 1e-12, some hundred
	// roundings) nothing can be fitted, and no stiffness is known to 1e-6.
	fitError = 1e-11
	// halvings is how often a panel may be halved before the stiffness counts
	// as not smooth. A taper whose stiffness grows a hundredfold needs five.
	halvings = 14
)

// lawsOf appends the panels of stretch number i between from and to. A varying
// flexibility is represented once and for all by polynomials, each exact to
// fitError; every later integral is exact.
func (b *Beam) lawsOf(i int, from, to float64) error {
	s := &b.layout.Stiffness[i]
	if s.BendingAt == nil && s.ShearAt == nil {
		p := b.uniform[i]
		p.from, p.to = from, to
		b.panels = append(b.panels, p)
		return nil
	}
	return b.fit(i, from, to, halvings)
}

// fit appends panels between from and to, halving until the polynomials hold.
func (b *Beam) fit(i int, from, to float64, left int) error {
	s := &b.layout.Stiffness[i]
	p := b.uniform[i]
	p.from, p.to = from, to
	good := true
	for _, law := range []struct {
		at    func(float64) float64
		unit  string
		name  string
		known *[]float64
	}{
		{s.BendingAt, "N·m²", "BendingAt", &p.bending},
		{s.ShearAt, "N", "ShearAt", &p.shear},
	} {
		if law.at == nil {
			continue
		}
		x, ok := positiveBetween(law.at, from, to)
		if !ok {
			return fmt.Errorf("%w: Stiffness[%d].%s(%g m) = %g %s: must be a finite stiffness > 0", ErrBeam, i, law.name, x, law.at(x), law.unit)
		}
		*law.known = interpolate(law.at, from, to)
		if x, ok = follows(*law.known, law.at, from, to); !ok && left == 0 {
			return fmt.Errorf("%w: Stiffness[%d].%s near %g m: must be a smooth function; end the stretch where it jumps or has a kink", ErrBeam, i, law.name, x)
		}
		good = good && ok
	}
	if good {
		b.panels = append(b.panels, p)
		return nil
	}
	middle := from + (to-from)/2
	if err := b.fit(i, from, middle, left-1); err != nil {
		return err
	}
	return b.fit(i, middle, to, left-1)
}

// chebyshev is place number k of n in 0..1, dense towards the ends.
func chebyshev(k, n int) float64 {
	return (1 - math.Cos(math.Pi*(float64(k)+.5)/float64(n))) / 2
}

// checks is how many places between the interpolated ones are compared.
const checks = 2*fitted + 3

// positiveBetween is the first place that is looked at where the stiffness is
// not a finite number above zero; ok says there is none.
func positiveBetween(stiffness func(float64) float64, from, to float64) (x float64, ok bool) {
	for k := range fitted + 1 {
		if x = from + (to-from)*chebyshev(k, fitted+1); !positive(stiffness(x)) {
			return x, false
		}
	}
	for k := range checks {
		if x = from + (to-from)*chebyshev(k, checks); !positive(stiffness(x)) {
			return x, false
		}
	}
	return 0, true
}

// interpolate is 1/stiffness as a power series in x − from.
func interpolate(stiffness func(float64) float64, from, to float64) []float64 {
	h := to - from
	var values [fitted + 1]float64
	for k := range values {
		values[k] = 1 / stiffness(from+h*chebyshev(k, fitted+1))
	}
	return through(values, h)
}

// through is the power series in s from the left end of a length h through
// values at the Chebyshev places, by Newton's divided differences.
func through(values [fitted + 1]float64, h float64) []float64 {
	var places [fitted + 1]float64
	for k := range places {
		places[k] = chebyshev(k, fitted+1)
	}
	for order := 1; order <= fitted; order++ {
		for k := fitted; k >= order; k-- {
			values[k] = (values[k] - values[k-1]) / (places[k] - places[k-order])
		}
	}
	law := make([]float64, fitted+1)
	for k := fitted; k >= 0; k-- { // multiply by (t − place k) and add
		for j := fitted; j > 0; j-- {
			law[j] = law[j-1] - places[k]*law[j]
		}
		law[0] = values[k] - places[k]*law[0]
	}
	scale := 1.0
	for k := range law {
		law[k] *= scale
		scale /= h
	}
	return law
}

// follows is where the polynomial is furthest from 1/stiffness, and whether it
// is within fitError there.
func follows(law []float64, stiffness func(float64) float64, from, to float64) (worst float64, ok bool) {
	largest := 0.0
	for k := range checks {
		x := from + (to-from)*chebyshev(k, checks)
		if off := math.Abs(horner(law, x-from)*stiffness(x) - 1); !(off <= largest) {
			worst, largest = x, off
		}
	}
	return worst, largest <= fitError
}
