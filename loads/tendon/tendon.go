package tendon

import (
	"errors"
	"fmt"
	"math"
)

// ErrTendon is wrapped by every error about a tendon that cannot be built or
// stressed as described.
var ErrTendon = errors.New("tendon")

// Tendon is a post-tensioning tendon: in a duct, or External.
type Tendon struct {
	Mark      string   // its name on the drawing
	Strand    Strand   // the steel
	Strands   int      // number of strands, 1 to 200
	Duct      float64  // outer diameter of the duct, m, at least that of the steel as one bar, up to 0.5; may be 0 for an External tendon, which leaves no hole
	Plastic   bool     // the duct is plastic: grouted it reduces a web as much as empty (EN 1992-1-1 6.2.3(6))
	Elevation Curve    // z along x
	Plan      Curve    // y along x, over the same length as Elevation
	Harped    bool     // kinks at the joints of segments are intended (deviators)
	External  bool     // outside the concrete, e.g. in the void of a box: see [Path.Deviators]
	Friction  float64  // μ, 1/rad, at most 1; 0 must be stated by NoFriction
	Wobble    float64  // k, rad/m, as in μ(θ + k·s), at most 0.1; 0 must be stated by NoWobble, External or NoFriction
	Approval  Approval // of its post-tensioning system; not needed by [Tendon.Jack]

	// NoFriction and NoWobble state that a Friction or Wobble of 0 is intended: a
	// straight bar that is free in its duct.
	NoFriction, NoWobble bool

	// DeviatorAngle is added to the friction angle at each kink of a Harped tendon for
	// inexact setting out, rad, 0 to 0.2; 0.04 in AASHTO LRFD ([DeviatorAllowance]).
	DeviatorAngle float64
}

// Area is Ap, the area of all strands (m²).
func (t Tendon) Area() float64 { return float64(t.Strands) * t.Strand.Area }

// Check reports the first field that is out of range; the error wraps [ErrTendon] and
// names the tendon, the field, the value and what it must be.
func (t Tendon) Check() error {
	if err := t.checkSteel(); err != nil {
		return err
	}
	return within("tendon "+t.Mark+": ",
		bound{"Approval.MeanStrength", t.Approval.MeanStrength, "Pa", 1e6, 150e6},
		bound{"Approval.AnchorSpacing", t.Approval.AnchorSpacing, "m", 0.01, 5},
		bound{"Approval.EdgeDistance", t.Approval.EdgeDistance, "m", 0.01, 5},
	)
}

// checkSteel is Check without what the approval of its post-tensioning system asks for.
func (t Tendon) checkSteel() error {
	if t.Mark == "" {
		return fmt.Errorf("%w: Mark is empty: must be a name, unique in the element", ErrTendon)
	}
	name := "tendon " + t.Mark
	err := within(name+": ", append(t.Strand.bounds(), []bound{
		{"Strands", float64(t.Strands), "", 1, 200},
		{"Duct", t.Duct, "m", t.leastDuct(), 0.5},
		{"Friction", t.Friction, "1/rad", 0, 1},
		{"Wobble", t.Wobble, "rad/m", 0, 0.1},
		{"DeviatorAngle", t.DeviatorAngle, "rad", 0, 0.2},
	}...)...)
	if err != nil {
		return err
	}
	if err := t.checkRun(name); err != nil {
		return err
	}
	if t.External {
		if err := t.checkExternal(name); err != nil {
			return err
		}
	}
	return t.checkFriction(name)
}

// checkFriction refuses coefficients that are left out: a tendon without losses
// of friction is one on purpose.
func (t Tendon) checkFriction(name string) error {
	switch {
	case t.NoFriction && t.Friction != 0:
		return fmt.Errorf("%w: %s: Friction = %g 1/rad and NoFriction: must be one or the other", ErrTendon, name, t.Friction)
	case t.NoWobble && t.Wobble != 0:
		return fmt.Errorf("%w: %s: Wobble = %g rad/m and NoWobble: must be one or the other", ErrTendon, name, t.Wobble)
	case t.Friction == 0 && !t.NoFriction:
		return fmt.Errorf("%w: %s: Friction is not stated: must be above 0 1/rad, or NoFriction where none is meant", ErrTendon, name)
	case t.Wobble == 0 && !t.NoWobble && !t.NoFriction && !t.External:
		return fmt.Errorf("%w: %s: Wobble is not stated: must be above 0 rad/m, or NoWobble where none is meant", ErrTendon, name)
	}
	return nil
}

// leastDuct is the diameter of the steel as one bar (m); 0 for an external tendon.
func (t Tendon) leastDuct() float64 {
	if t.External {
		return 0
	}
	return math.Sqrt(4 * t.Area() / math.Pi)
}

// bounds are what the fields of a steel may be.
func (s Strand) bounds() []bound {
	return []bound{
		{"Strand.Area", s.Area, "m²", 1e-6, 0.01},
		{"Strand.Fpk", s.Fpk, "Pa", 100e6, mostSteel},
		{"Strand.Fp01k", s.Fp01k, "Pa", 100e6, s.Fpk},
		{"Strand.Modulus", s.Modulus, "Pa", 50e9, 300e9},
	}
}

// checkRun reports the first segment of Elevation or Plan that is out of range.
func (t Tendon) checkRun(name string) error {
	if err := t.Elevation.check(name+": Elevation", t.Harped || t.External); err != nil {
		return err
	}
	if err := t.Plan.check(name+": Plan", t.Harped || t.External); err != nil {
		return err
	}
	if math.Abs(t.Plan.From()-t.Elevation.From()) > jumpTolerance || math.Abs(t.Plan.To()-t.Elevation.To()) > jumpTolerance {
		return fmt.Errorf("%w: %s: Plan runs from x = %g to %g m: must be %g to %g m as in Elevation",
			ErrTendon, name, t.Plan.From(), t.Plan.To(), t.Elevation.From(), t.Elevation.To())
	}
	return nil
}
