package tendon

import (
	"errors"
	"fmt"
	"math"
)

// ErrTendon is wrapped by every error about a tendon that cannot be built or
// stressed as described.
var ErrTendon = errors.New("tendon")

// Tendon is a post-tensioning tendon in a duct.
type Tendon struct {
	Mark      string   // its name on the drawing
	Strand    Strand   // the steel
	Strands   int      // number of strands
	Duct      float64  // outer diameter of the duct, m
	Plastic   bool     // the duct is plastic: grouted it costs a web as much as empty (EN 1992-1-1 6.2.3(6))
	Elevation Curve    // z along x
	Plan      Curve    // y along x, over the same length as Elevation
	Harped    bool     // kinks at the joints of pieces are meant (deviators)
	Friction  float64  // μ, 1/rad
	Wobble    float64  // k, rad/m, as in μ(θ + k·s)
	Approval  Approval // of its anchorage

	// DeviatorAngle is added to the friction angle at each kink of a Harped tendon
	// for its being set out inexactly, rad; 0.04 in AASHTO LRFD ([DeviatorAllowance]).
	DeviatorAngle float64
}

// Area is Ap, the area of all strands (m²).
func (t Tendon) Area() float64 { return float64(t.Strands) * t.Strand.Area }

// Check reports the first field that is not allowed; the error wraps
// [ErrTendon] and names the tendon, the field, the value and what is allowed.
func (t Tendon) Check() error {
	if t.Mark == "" {
		return fmt.Errorf("%w: Mark is empty: allowed a name, unique in the element", ErrTendon)
	}
	name := "tendon " + t.Mark
	for _, f := range []struct {
		field       string
		value       float64
		unit        string
		least, most float64
	}{
		{"Strand.Area", t.Strand.Area, "m²", 1e-6, 0.01},
		{"Strand.Fpk", t.Strand.Fpk, "Pa", 100e6, 3000e6},
		{"Strand.Fp01k", t.Strand.Fp01k, "Pa", 100e6, t.Strand.Fpk},
		{"Strand.Modulus", t.Strand.Modulus, "Pa", 50e9, 300e9},
		{"Strands", float64(t.Strands), "", 1, 200},
		{"Duct", t.Duct, "m", math.Sqrt(4 * t.Area() / math.Pi), 0.5},
		{"Friction", t.Friction, "1/rad", 0, 1},
		{"Wobble", t.Wobble, "rad/m", 0, 0.1},
		{"DeviatorAngle", t.DeviatorAngle, "rad", 0, 0.2},
		{"Approval.MeanStrength", t.Approval.MeanStrength, "Pa", 1e6, 150e6},
		{"Approval.AnchorSpacing", t.Approval.AnchorSpacing, "m", 0.01, 5},
		{"Approval.EdgeDistance", t.Approval.EdgeDistance, "m", 0.01, 5},
	} {
		if !(f.value >= f.least && f.value <= f.most) {
			return fmt.Errorf("%w: %s: %s = %g %s: allowed %.4g to %.4g %s", ErrTendon, name, f.field, f.value, f.unit, f.least, f.most, f.unit)
		}
	}
	if err := t.Elevation.check(name+": Elevation", t.Harped); err != nil {
		return err
	}
	if err := t.Plan.check(name+": Plan", t.Harped); err != nil {
		return err
	}
	if math.Abs(t.Plan.From()-t.Elevation.From()) > jumpTolerance || math.Abs(t.Plan.To()-t.Elevation.To()) > jumpTolerance {
		return fmt.Errorf("%w: %s: Plan runs from x = %g to %g m: allowed %g to %g m as in Elevation",
			ErrTendon, name, t.Plan.From(), t.Plan.To(), t.Elevation.From(), t.Elevation.To())
	}
	return nil
}
