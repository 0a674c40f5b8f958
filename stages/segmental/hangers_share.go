package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
)

// UniformTransfer is a span on hangers for which the part of its weight that leaves them
// with the prestress has a closed form: uniform weight, a parabolic tendon from support to
// support, close and rigid hangers that stay taut, ends on jacks, and a gantry of one
// stiffness on the same span. Everything else needs the engine, see [StressHung].
type UniformTransfer struct {
	Span, GantrySpan float64       // between the supports of the deck and of the gantry, m, 5 to 200, equal
	Weight           float64       // of the deck, N/m, 1e3 to 1e6
	Deck, Gantry     float64       // bending stiffness EI, N·m², 1e6 to 1e14
	Force            float64       // of the tendons at the stage of stressing, N, 1e3 to 1e9
	Profile          tendon.Tendon // whose Elevation is the mean of the tendons from x = 0 to Span
	Axis             float64       // z of the centroid of the deck, m
	Hangers          int           // over the span, 12 to 1000, at equal distances
	HangerStiffness  float64       // of one, N/m; 0: rigid
}

// fewest is the number of hangers from which the closed form agrees with discrete ones to
// four digits.
const fewest = 12

// Share is the part of the weight that leaves the hangers, with its derivation:
//
//	β/(1 + EI_deck/EI_gantry), β = 8·P·f/(w·L²)
//
// from equal deflections of deck and gantry under uniform loads (statics). The error wraps
// [ErrSegmental] where a condition is not met.
func (u UniformTransfer) Share() (share float64, lines []formula.Line, err error) {
	if err := inRange("UniformTransfer.", hangerBound{"Span", u.Span, "m", 5, 200}, hangerBound{"GantrySpan", u.GantrySpan, "m", 5, 200}, hangerBound{"Weight", u.Weight, "N/m", 1e3, 1e6},
		hangerBound{"Deck", u.Deck, "N·m²", 1e6, 1e14}, hangerBound{"Gantry", u.Gantry, "N·m²", 1e6, 1e14}, hangerBound{"Force", u.Force, "N", 1e3, 1e9}, hangerBound{"HangerStiffness", u.HangerStiffness, "N/m", 0, 1e12}); err != nil {
		return 0, nil, err
	}
	if math.Abs(u.GantrySpan-u.Span) > 1e-6*u.Span {
		return 0, nil, fmt.Errorf("%w: the gantry spans %g m and the deck %g m: must be equal for the closed form", ErrSegmental, u.GantrySpan, u.Span)
	}
	if u.Hangers < fewest || u.Hangers > 1000 {
		return 0, nil, fmt.Errorf("%w: %d hangers: must be %d to 1000 for the closed form", ErrSegmental, u.Hangers, fewest)
	}
	sag, err := u.sag()
	if err != nil {
		return 0, nil, err
	}
	if err := u.rigid(); err != nil {
		return 0, nil, err
	}
	c := &formula.Chain{}
	beta := c.Derive(formula.Q("β", 0, formula.One, "part of the weight that the tendons balance"), "8*P*f/(w*L*L)", formula.Mechanics, formula.Q("P", u.Force, formula.Newton, "force of the tendons"),
		formula.Q("f", sag, formula.Metre, "sag of the parabola"), formula.Q("w", u.Weight, formula.NewtonPerMetre, "weight of the deck"), formula.Q("L", u.Span, formula.Metre, "span"))
	left := c.Derive(formula.Q("p_off", 0, formula.One, "part of the weight that leaves the hangers"), "β/(1 + EI_d/EI_g)", formula.Mechanics, beta,
		formula.Q("EI_d", u.Deck, formula.NewtonSquareMetre, "bending stiffness of the deck"), formula.Q("EI_g", u.Gantry, formula.NewtonSquareMetre, "bending stiffness of the gantry"))
	if lines, err = c.Lines(); err != nil {
		return 0, nil, fmt.Errorf("%w: %w", ErrSegmental, err)
	}
	if !(left.Value < 1) {
		return 0, nil, fmt.Errorf("%w: the tendons balance %.3g of the weight, so that %.3g would leave the hangers: must be less than 1, they would be slack", ErrSegmental, beta.Value, left.Value)
	}
	return left.Value, lines, nil
}

// sag is that of the tendon, which must be one parabola whose ends are on the centroid.
func (u UniformTransfer) sag() (float64, error) {
	path, err := u.Profile.Path()
	if err != nil {
		return 0, fmt.Errorf("%w: field UniformTransfer.Profile: %w", ErrSegmental, err)
	}
	if from, to := path.From(), path.To(); math.Abs(from) > 1e-6*u.Span || math.Abs(to-u.Span) > 1e-6*u.Span {
		return 0, fmt.Errorf("%w: the tendon is from x = %g to %g m: must be from 0 to the span, %g m", ErrSegmental, from, to, u.Span)
	}
	sag := u.Axis - path.At(u.Span/2).Z
	if !(sag > 0) {
		return 0, fmt.Errorf("%w: the tendon is %.3f m below the centroid at mid-span: must be above 0", ErrSegmental, sag)
	}
	const parts = 24
	for i := range parts + 1 {
		t := float64(i) / parts
		want := u.Axis - 4*sag*t*(1-t)
		if off := path.At(t*u.Span).Z - want; math.Abs(off) > 0.01*sag {
			return 0, fmt.Errorf("%w: the tendon at x = %.2f m is %.3f m beside the parabola through its ends on the centroid: must be within 1 %% of its sag, %.3f m", ErrSegmental, t*u.Span, off, sag)
		}
	}
	return sag, nil
}

// rigid refuses hangers that become longer by more than a hundredth of what the gantry
// goes down by.
func (u UniformTransfer) rigid() error {
	if u.HangerStiffness == 0 {
		return nil
	}
	longer := u.Weight * u.Span / float64(u.Hangers) / u.HangerStiffness
	down := 5 * u.Weight * math.Pow(u.Span, 4) / (384 * u.Gantry)
	if !(longer <= 0.01*down) {
		return fmt.Errorf("%w: a hanger becomes %.2g m longer and the gantry goes down by %.2g m: must be at most a hundredth of it for the closed form", ErrSegmental, longer, down)
	}
	return nil
}

// GantryFor is the bending stiffness of a gantry (N·m²) that goes down by a part of its span
// (0.0005 to 0.05, 1/500 = 0.002) under a uniform weight (N/m) on it: 5·w·L³/(384·part). The
// error wraps [ErrSegmental].
func GantryFor(weight, span, part float64) (float64, error) {
	if err := inRange("", hangerBound{"weight", weight, "N/m", 1e2, 1e6}, hangerBound{"span", span, "m", 5, 200}, hangerBound{"part", part, "", 0.0005, 0.05}); err != nil {
		return 0, err
	}
	return 5 * weight * math.Pow(span, 3) / (384 * part), nil
}
