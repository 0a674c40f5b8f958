package tendon

import (
	"fmt"
	"math"
)

// Tolerances of measured against calculated elongation, EN 13670:2009 7.5
// (confirm against the edition in force and the project's specification).
const (
	ToleranceOfTendon = 0.15 // of one tendon
	ToleranceOfMean   = 0.05 // of the mean of all tendons of a section
)

// Measuring is the method by which force and elongation of a tendon are read on site.
type Measuring struct {
	From      float64 // datum: stress at which reading starts, the slack taken up, Pa; 0 (from zero) or at least 1e6 and below the jacking stress
	Tail      float64 // length of strand from the anchor to the jack's grip, m, 0 or 0.001 to 5, at each jacked end
	Tolerance float64 // permissible difference, as a fraction of the elongation, 1e-4 to 0.5, e.g. ToleranceOfMean

	// JackFriction is the share of the force at the gauge that friction in the jack and
	// the anchor takes, 0 to 0.15: the force in the strand at the jack is the rest.
	JackFriction float64

	GaugeUnit GaugeUnit // of the pressure gauges; 0: not stated, left open on the operation sheet
}

// check reports the first field that is out of range under a jacking stress (Pa); the
// Tolerance is left to [Force.Elongation], which asks for it.
func (m Measuring) check(stress float64) error {
	if m.From >= stress {
		return fmt.Errorf("%w: Measuring.From = %g Pa: must be below the jacking stress, %g Pa", ErrTendon, m.From, stress)
	}
	if m.GaugeUnit < 0 || m.GaugeUnit > GaugePSI {
		return fmt.Errorf("%w: Measuring.GaugeUnit = %d: must be GaugeBar, GaugeMPa, GaugePSI or 0, not stated", ErrTendon, int(m.GaugeUnit))
	}
	return withinOrZero("Measuring.", bound{"From", m.From, "Pa", leastSteel, stress}, bound{"Tail", m.Tail, "m", 1e-3, 5},
		bound{"JackFriction", m.JackFriction, "", 1e-4, 0.15}, bound{"Tolerance", m.Tolerance, "", 1e-4, 0.5})
}

// Elongation is the calculated elongation for the stressing record.
type Elongation struct {
	Left, Right float64 // read at each end before lock-off, m; 0 where there is no jack
	Total       float64 // of both, m
	Least, Most float64 // permissible for Total, m
	Kept        float64 // of Total when the wedges have drawn in: without the tails, which spring back, m
}

// Elongation is the elongation at the jacks during the last jacking: ∫ΔP ds/(Ap·Ep) on
// the side of each jack, and its tail from zero, less the part below Measuring.From,
// which is not read. A tail stretches in proportion to the jacking stress, the tendon
// in proportion to how far that is above the stress at the anchor before, at which the
// wedges lift off. Neglected: the shortening of the concrete, usually 1 to 2 % of it.
// The error wraps [ErrTendon].
func (f *Force) Elongation(m Measuring) (Elongation, error) {
	if err := f.calculated("elongation"); err != nil {
		return Elongation{}, err
	}
	if f.letDown {
		return Elongation{}, fmt.Errorf("%w: tendon %s: elongation after a Detension: must be after Jack or Restress", ErrTendon, f.Tendon.Mark)
	}
	if err := within("Measuring.", bound{"Tolerance", m.Tolerance, "", 1e-4, 0.5}); err != nil {
		return Elongation{}, err
	}
	if err := m.check(f.Jacking.Stress); err != nil {
		return Elongation{}, err
	}
	stiffness := f.Tendon.Area() * f.Tendon.Strand.Modulus
	parted := f.parting()
	tail := m.Tail * (f.Jacking.Stress - m.From) / f.Tendon.Strand.Modulus
	drawn := func(end side, a, b float64) float64 {
		stretched := f.work(f.jacked, a, b)
		anchor := 0.0 // stress at which the tendon begins to move at this end
		if f.earlier != nil {
			stretched -= f.work(f.earlier, a, b)
			anchor = f.anchored(end) / f.Tendon.Area()
		}
		if m.From > anchor { // part of it is over when reading starts
			stretched *= (f.Jacking.Stress - m.From) / (f.Jacking.Stress - anchor)
		}
		return stretched / stiffness
	}
	var e Elongation
	if f.Jacking.Ends != RightEnd {
		between := drawn(left, f.Path.From(), parted)
		e.Left, e.Kept = between+tail, between
	}
	if f.Jacking.Ends != LeftEnd {
		between := drawn(right, parted, f.Path.To())
		e.Right, e.Kept = between+tail, e.Kept+between
	}
	e.Total = e.Left + e.Right
	spread := m.Tolerance * math.Abs(e.Total)
	e.Least, e.Most = e.Total-spread, e.Total+spread
	e.Kept -= float64(len(f.Jacking.Ends.sides())) * f.Jacking.DrawIn
	return e, nil
}

// anchored is the force at an end before the last jacking (N).
func (f *Force) anchored(end side) float64 {
	if end == right {
		return f.value(f.earlier, f.Path.To())
	}
	return f.value(f.earlier, f.Path.From())
}

// parting is the place up to which the tendon moves to the left jack.
func (f *Force) parting() float64 {
	switch f.Jacking.Ends {
	case LeftEnd:
		return f.Path.To()
	case RightEnd:
		return f.Path.From()
	}
	if f.total == 0 { // without friction the middle stays
		return (f.Path.From() + f.Path.To()) / 2
	}
	for i := len(f.jacked) - 1; i >= 0; i-- { // the last zone that the left end moves
		if l := f.jacked[i].law; l == fromLeft || l == leftWhole && f.earlier != nil {
			return f.jacked[i].to
		}
	}
	return f.Path.From()
}
