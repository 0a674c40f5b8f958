package roll

import (
	"errors"
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// ErrRoll is wrapped by every error about a girder that cannot roll as described.
var ErrRoll = errors.New("roll")

// Girder is what rolls: of even weight and the same section along its length.
type Girder struct {
	Length  float64 // m, 1 to 200
	Weight  float64 // of the whole, N, 1e3 to 100e6
	Modulus float64 // of the concrete on the day, Pa, 5e9 to 80e9
	Iy, Iz  float64 // second moments about the horizontal and the vertical axis through the centroid, m⁴, 1e-6 to 1e3
	Iyz     float64 // product moment, m⁴; 0 for a section with an axis of symmetry
	Sweep   float64 // lateral bow at mid-length of a parabola between the ends, m, 0 to 1
	Camber  float64 // rise at mid-length of a parabola between the ends, m, −1 to 1
	Cracks  float64 // lateral moment beside the full self-weight at which the weakest section cracks, N·m, 1 to 1e9
}

// LateralInertia is the second moment that resists a load to the side of a section
// free to bend both ways: (Iy·Iz − Iyz²)/Iy (m⁴). Iz for a section with an axis of
// symmetry.
func (g Girder) LateralInertia() float64 { return g.Iz - g.Iyz*g.Iyz/g.Iy }

// bound is a field with the values it may have.
type bound struct {
	field       string
	value       float64
	unit        string
	least, most float64
}

// within reports the first field that is out of its bounds or not a number.
func within(of string, bounds ...bound) error {
	for _, b := range bounds {
		if !(b.value >= b.least && b.value <= b.most) {
			return fmt.Errorf("%w: %s", ErrRoll, formula.OutOfRange(of+"."+b.field, b.value, b.unit, "", b.least, b.most))
		}
	}
	return nil
}

func (g Girder) check() error {
	err := within("Girder", bound{"Length", g.Length, "m", 1, 200}, bound{"Weight", g.Weight, "N", 1e3, 100e6}, bound{"Modulus", g.Modulus, "Pa", 5e9, 80e9},
		bound{"Iy", g.Iy, "m⁴", 1e-6, 1e3}, bound{"Iz", g.Iz, "m⁴", 1e-6, 1e3}, bound{"Sweep", g.Sweep, "m", 0, 1}, bound{"Camber", g.Camber, "m", -1, 1},
		bound{"Cracks", g.Cracks, "N·m", 1, 1e9})
	if err != nil {
		return err
	}
	if !(g.Iyz*g.Iyz < (1-1e-9)*g.Iy*g.Iz) {
		return fmt.Errorf("%w: Girder.Iyz = %g m⁴: must be less than √(Iy·Iz) = %g m⁴ by magnitude", ErrRoll, g.Iyz, math.Sqrt(g.Iy*g.Iz))
	}
	return nil
}

// spans are the supports of a girder along its length: left and right overhang (m).
type spans struct{ left, right float64 }

func (g Girder) checkSpans(of string, s spans) error {
	most := 0.45 * g.Length
	return within(of, bound{"Left", s.left, "m", 0, most}, bound{"Right", s.right, "m", 0, most})
}

// bow is z0, the mean over the length of the deflection of the girder under its whole
// weight laid to the side, supported at Left and Right from its ends (m): by
// integration of the bending moment twice, exact.
func (g Girder) bow(s spans) float64 {
	l, a, b := g.Length, s.left, s.right
	w := g.Weight / l
	between := l - a - b
	first := g.Weight * (l/2 - b) / between
	second := g.Weight - first
	// E·I·v = −w·x⁴/24 + R1·⟨x − a⟩³/6 + R2·⟨x − (l − b)⟩³/6 + c·x + d, 0 at both supports.
	v := func(x float64) float64 {
		return -w*math.Pow(x, 4)/24 + first*math.Pow(math.Max(0, x-a), 3)/6
	}
	c := -(v(l-b) - v(a)) / between
	d := -v(a) - c*a
	integral := -w*math.Pow(l, 5)/120 + first*math.Pow(l-a, 4)/24 + second*math.Pow(b, 4)/24 + c*l*l/2 + d*l
	return -integral / l / (g.Modulus * g.LateralInertia())
}

// mean is the mean over the length of a parabola with the rise 1 at mid-length and 0
// at the ends, above the line through its points at the supports, at mid-length. For
// equal overhangs (l1/l)² − 1/3.
func (g Girder) mean(s spans) float64 {
	at := func(x float64) float64 { return 1 - math.Pow(2*x/g.Length-1, 2) }
	from, to := s.left, g.Length-s.right
	line := at(from) + (at(to)-at(from))*(g.Length/2-from)/(to-from)
	return 2./3 - line
}

// moment is the largest moment of the self-weight by magnitude, between the supports or
// over them (N·m).
func (g Girder) moment(s spans) float64 {
	w := g.Weight / g.Length
	first := g.Weight * (g.Length/2 - s.right) / (g.Length - s.left - s.right)
	sags := first*first/(2*w) - first*s.left
	return max(sags, w*s.left*s.left/2, w*s.right*s.right/2)
}
