package tendon

import (
	"fmt"
	"math"
)

// Release is how pretensioned steel is let go.
type Release int

// The zero value is refused: it must be stated.
const (
	Gradual Release = iota + 1 // jacks let down slowly: α1 = 1.0
	Sudden                     // flame cut or sawn under stress: α1 = 1.25
)

// Transmission is the data of the length over which pretensioned steel hands
// its force to the concrete.
type Transmission struct {
	Strand          Strand  // with its Diameter
	IndentedWire    bool    // indented wire instead of strand
	Stress          float64 // σpm0, in the steel just after release, Pa
	TensileMean     float64 // fctm(t) of the concrete at release, Pa, e.g. State.TensileMean
	Release         Release // Gradual or Sudden
	PoorBond        bool    // bond conditions other than good, 8.4.2: η1 = 0.7
	PartialFactor   float64 // γc; 0 means 1.5
	TensileFraction float64 // αct; 0 means 1
}

// TransmissionLength is the basic length and the two design values of EN
// 1992-1-1:2004 8.10.2.2: where less is worse (local stresses at release) take
// Short, where more is worse (shear, anchorage) take Long.
type TransmissionLength struct {
	Bond  float64 // fbpt, Pa
	Basic float64 // lpt, m
	Short float64 // lpt1 = 0.8·lpt, m
	Long  float64 // lpt2 = 1.2·lpt, m
}

// Length is lpt with lpt1 and lpt2 by EN 1992-1-1:2004 8.10.2.2, (8.15) to
// (8.18), for seven-wire strand and indented wire up to 18 mm with bonded
// anchorage in the concrete released upon; confirm against the edition in force.
// The error wraps [ErrTendon].
func (t Transmission) Length() (TransmissionLength, error) {
	gamma, alphaCt := t.PartialFactor, t.TensileFraction
	if gamma == 0 {
		gamma = 1.5
	}
	if alphaCt == 0 {
		alphaCt = 1
	}
	for _, f := range []struct {
		field       string
		value       float64
		unit        string
		least, most float64
	}{
		{"Strand.Diameter", t.Strand.Diameter, "m", 0.002, 0.0181},
		{"Stress", t.Stress, "Pa", 1e6, 2000e6},
		{"TensileMean", t.TensileMean, "Pa", 0.1e6, 10e6},
		{"PartialFactor", gamma, "", 1, 2},
		{"TensileFraction", alphaCt, "", 0.5, 1},
	} {
		if !(f.value >= f.least && f.value <= f.most) {
			return TransmissionLength{}, fmt.Errorf("%w: Transmission.%s = %g %s: allowed %g to %g %s", ErrTendon, f.field, f.value, f.unit, f.least, f.most, f.unit)
		}
	}
	if t.Release != Gradual && t.Release != Sudden {
		return TransmissionLength{}, fmt.Errorf("%w: Transmission.Release is not stated: allowed Gradual or Sudden", ErrTendon)
	}
	eta, alpha1, alpha2 := 3.2, 1.0, 0.19
	if t.IndentedWire {
		eta, alpha2 = 2.7, 0.25
	}
	if t.PoorBond {
		eta *= 0.7
	}
	if t.Release == Sudden {
		alpha1 = 1.25
	}
	l := TransmissionLength{Bond: eta * alphaCt * 0.7 * t.TensileMean / gamma}
	l.Basic = alpha1 * alpha2 * t.Strand.Diameter * t.Stress / l.Bond
	l.Short, l.Long = 0.8*l.Basic, 1.2*l.Basic
	return l, nil
}

// TransferLengthAASHTO is 60 strand diameters (m). AASHTO LRFD 5.9.4.3.1
// (5.11.4.1 before 2017); confirm against the edition in force. The error wraps
// [ErrTendon]: a strand without its Diameter.
func TransferLengthAASHTO(s Strand) (float64, error) {
	if !(s.Diameter >= 0.002 && s.Diameter <= 0.05) {
		return 0, fmt.Errorf("%w: Strand.Diameter = %g m: allowed 0.002 to 0.05 m", ErrTendon, s.Diameter)
	}
	return 60 * s.Diameter, nil
}

// Debonding is a number of pretensioned strands sleeved over the same length at
// each end.
type Debonding struct {
	Strands     int     // how many
	Left, Right float64 // sleeved length from each end of the element, m
}

// Pretension is the pretensioned strands of one layer.
type Pretension struct {
	Mark   string      // its name on the drawing
	Strand Strand      // the steel
	Groups []Debonding // strands by debonded length; bonded ones have 0
	Length float64     // of the element, m
}

// Check reports the first field that is not allowed; the error wraps
// [ErrTendon].
func (p Pretension) Check() error {
	if !(p.Length > 0 && p.Length <= farthest) {
		return fmt.Errorf("%w: pretension %s: Length = %g m: allowed above 0 to %d m", ErrTendon, p.Mark, p.Length, farthest)
	}
	if !(p.Strand.Area >= 1e-6 && p.Strand.Area <= 0.01) {
		return fmt.Errorf("%w: pretension %s: Strand.Area = %g m²: allowed 1e-6 to 0.01 m²", ErrTendon, p.Mark, p.Strand.Area)
	}
	if len(p.Groups) == 0 {
		return fmt.Errorf("%w: pretension %s: Groups is empty: allowed at least one", ErrTendon, p.Mark)
	}
	for i, g := range p.Groups {
		if g.Strands < 1 || g.Strands > 1000 {
			return fmt.Errorf("%w: pretension %s: Groups[%d].Strands = %d: allowed 1 to 1000", ErrTendon, p.Mark, i, g.Strands)
		}
		if !(g.Left >= 0 && g.Right >= 0 && g.Left+g.Right < p.Length) {
			return fmt.Errorf("%w: pretension %s: Groups[%d] sleeved %g m and %g m: allowed 0 or more, together below the length %g m", ErrTendon, p.Mark, i, g.Left, g.Right, p.Length)
		}
	}
	return nil
}

// Force is the force of the layer at x (m from the left end; N) at a stress in
// fully anchored steel (Pa) and a transmission length (m): nothing within the
// sleeve, then linear over the transmission length, EN 1992-1-1:2004 8.10.2.2(1).
// Ask with both lengths of [TransmissionLength]. 0 beyond the ends. The error
// wraps [ErrTendon].
func (p Pretension) Force(x, stress, transmission float64) (float64, error) {
	if err := p.Check(); err != nil {
		return 0, err
	}
	switch {
	case math.IsNaN(x):
		return 0, fmt.Errorf("%w: pretension %s: x is not a number: allowed a place", ErrTendon, p.Mark)
	case !(stress >= 0 && stress <= 2500e6):
		return 0, fmt.Errorf("%w: pretension %s: stress = %g Pa: allowed 0 to 2500e6 Pa", ErrTendon, p.Mark, stress)
	case !(transmission > 0 && transmission <= 100):
		return 0, fmt.Errorf("%w: pretension %s: transmission = %g m: allowed above 0 to 100 m", ErrTendon, p.Mark, transmission)
	}
	force := 0.0
	for _, g := range p.Groups {
		bonded := math.Min(x-g.Left, p.Length-g.Right-x)
		force += float64(g.Strands) * p.Strand.Area * stress * math.Min(1, math.Max(0, bonded/transmission))
	}
	return force, nil
}

// HoldDown is the force (N, upwards on the device that holds harped strands
// down) at a bend between two slopes (m/m, rising positive) under a force along
// the strands (N, tension) that is the same on both sides. The error wraps
// [ErrTendon].
func HoldDown(force, slopeBefore, slopeAfter float64) (float64, error) {
	err := within("",
		bound{"force", force, "N", 0, 1e12}, bound{"slopeBefore", slopeBefore, "m/m", -steepest, steepest}, bound{"slopeAfter", slopeAfter, "m/m", -steepest, steepest})
	if err != nil {
		return 0, err
	}
	return force * (math.Sin(math.Atan(slopeAfter)) - math.Sin(math.Atan(slopeBefore))), nil
}
