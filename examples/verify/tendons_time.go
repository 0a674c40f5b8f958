package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads/tendon"
)

// asked is a row of the tendon package whose value may be refused.
func asked(name string, ours func() (float64, error)) Check {
	return Check{Name: name, Package: "loads/tendon", Ours: ours}
}

// conventions is one friction law in the forms in which it is stated.
func conventions() []Check {
	left := func(law tendon.Law, theta, length, stress float64) func() (float64, error) {
		return func() (float64, error) {
			mu, k, err := law.EN()
			if err != nil {
				return 0, err
			}
			return frictionLoss(stress, mu, theta, k, length)()
		}
	}
	const mu, k, theta, length = 0.19, 0.006, 0.2, 40
	value := 1395 * -math.Expm1(-mu*(theta+k*length))
	var rows []Check
	for _, c := range []struct {
		name string
		law  tendon.Law
	}{
		{"EN: k = 0.006 rad/m", tendon.Law{Convention: tendon.WobbleEN, Friction: mu, Wobble: k}},
		{"supplier: k = 0.344°/m", tendon.Law{Convention: tendon.WobbleDegrees, Friction: mu, Wobble: k * 180 / math.Pi}},
		{"BPEL: φ = μ·k per metre", tendon.Law{Convention: tendon.WobbleBPEL, Friction: mu, Wobble: mu * k}},
		{"AASHTO: K = μ·k per foot", tendon.Law{Convention: tendon.WobbleAASHTO, Friction: mu, Wobble: mu * k * 0.3048}},
	} {
		rows = append(rows, asked("friction loss of 1395 MPa over 0.2 rad and 40 m, "+c.name, left(c.law, theta, length, 1395)).
			from(ClosedForm, "EN 1992-1-1:2004, (5.45): σ(1 − exp(−μ(θ + k·x)))").is(value, "MPa", same(value), floatRounding))
	}
	return append(rows, asked("K = 0.0002/ft as rad/m, μ 0.25", func() (float64, error) {
		_, k, err := tendon.Law{Convention: tendon.WobbleAASHTO, Friction: 0.25, Wobble: 0.0002}.EN()
		return k, err
	}).from(Recalled, "AASHTO LRFD 5.9.3.2.2, K = μ·k: 0.0002/0.3048/0.25").
		is(0.0002/0.3048/0.25, "rad/m", 1e-15, "the row repeats one division: rounding of float64 arithmetic"))
}

// relaxation is the BPEL formula, and the shape of the EN formula where the
// exponent of time vanishes.
func relaxation() []Check {
	var rows []Check
	for _, stress := range []float64{1250, 1350, 1450} {
		value := 6 * 0.025 * (stress/1860 - 0.43) * stress
		rows = append(rows, asked(fmt.Sprintf("relaxation 6·ρ1000(σ/fprg − 0.43)σ of %g MPa", stress), func() (float64, error) {
			loss, err := tendon.RelaxationBPEL(stress*1e6, 1860e6, 2.5)
			return loss / 1e6, err
		}).from(Recalled, "BPEL, relaxation of prestressing steel").is(value, "MPa", same(value), floatRounding))
	}
	const clause = "EN 1992-1-1:2004, 3.3.2(7), at 1000 h the power of time is 1"
	for _, c := range []struct {
		class        tendon.Relaxation
		factor, rate float64
	}{{tendon.Class1, 5.39 * 8, 6.7}, {tendon.Class2, 0.66 * 2.5, 9.1}, {tendon.Class3, 1.98 * 4, 8}} {
		value := 1302 * c.factor * 1e-5 * math.Exp(0.7*c.rate)
		rows = append(rows, asked(fmt.Sprintf("%v: relaxation of 0.7·1860 MPa after 1000 h", c.class), func() (float64, error) {
			loss, err := c.class.Loss(1302e6, 1860e6, 1000./24)
			return loss / 1e6, err
		}).from(Recalled, clause).is(value, "MPa", same(value), floatRounding))
	}
	return rows
}

// holdDown is the force between two straight parts of a tendon.
func holdDown() Check {
	return asked("force between two bends of 0.1 m/m under 1000 kN: hold-down", func() (float64, error) { return tendon.HoldDown(1000, -0.1, 0.1) }).
		from(ClosedForm, "statics: 2·P·sin(arctan 0.1)").is(200/math.Sqrt(1.01), "kN", 1e-12*200, floatRounding)
}

// anchorZones is bursting and transmission where one line gives the value.
func anchorZones() []Check {
	zone := tendon.AnchorZone{Force: 2500e3, Plate: 0.25, Depth: 1}
	tension := func(f func() (tendon.Bursting, error)) func() (float64, error) {
		return func() (float64, error) {
			b, err := f()
			return b.Tension / 1e3, err
		}
	}
	const strut = "strut and tie: half the force moves from a/4 to h/4 over h/2, P/4(1 − a/h)"
	return []Check{
		asked("2500 kN on a plate of 0.25 m in 1 m: bursting tension, factor 1.2", tension(zone.AASHTO)).
			from(Recalled, "AASHTO LRFD 5.8.4.5.3 and 3.4.3.2: 1.2·468.75; "+strut).is(562.5, "kN", 1e-9, floatRounding),
		asked("the same with γP = 1.2", tension(zone.EN)).
			from(Recalled, "EN 1992-1-1:2004, 8.10.3(4), 2.4.2.2(3): γP,unfav; "+strut).is(562.5, "kN", 1e-9, floatRounding),
		asked("plate of 0.25 m in 1 m: length until spread at arctan 2/3", func() (float64, error) {
			b, err := zone.EN()
			return b.Dispersion, err
		}).from(Recalled, "EN 1992-1-1:2004, 8.10.3(5): 1.5(0.5 − 0.125)").is(0.5625, "m", 1e-12, floatRounding),
		asked("0.6 in strand: transfer length in inches", func() (float64, error) {
			length, err := tendon.TransferLengthAASHTO(tendon.Grade270x06)
			return length / 0.0254, err
		}).from(Recalled, "AASHTO LRFD 5.9.4.3.1: 60 strand diameters").is(36, "in", 1e-9, "60 × 0.6 in, exact"),
	}
}
