package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// castings is every check on casting curves: errors at a joint, camber of a cantilever, ballast
// on its tip.
func castings() []Check {
	const lever = "rigid arm beyond the joint: angle × lever"
	rows := []Check{
		Check{Name: "0.5 mrad at a joint, 24.5 m of arm beyond it: tip off its level", Package: "stages/segmental", Ours: func() (float64, error) {
			off, err := segmental.TipError(0.5e-3, 24.5)
			return off * 1e3, err
		}}.from(ClosedForm, lever).is(12.25, "mm", same(12.25), "1e-9: one product"),
		Check{Name: "epoxy 1 mm thicker at the bottom of a face of 3 m: angle", Package: "stages/segmental", Ours: func() (float64, error) {
			angle, err := segmental.WedgeAngle(1e-3, 3)
			return angle * 1e3, err
		}}.from(ClosedForm, "wedge: thickness / depth").is(1.0/3, "mrad", same(1.0/3), "1e-9: one quotient"),
		Check{Name: "the same wedge, 24.5 m of arm beyond it: tip off its level", Package: "stages/segmental", Ours: func() (float64, error) {
			angle, err := segmental.WedgeAngle(1e-3, 3)
			if err != nil {
				return 0, err
			}
			off, err := segmental.TipError(angle, 24.5)
			return off * 1e3, err
		}}.from(ClosedForm, lever).is(24.5/3, "mm", same(24.5/3), "1e-9: one product"),
	}
	return append(append(rows, builtOut()...), levelledTips()...)
}

// constantModulus is a concrete of 36 GPa at every age.
type constantModulus struct{}

func (constantModulus) At(age float64) (concrete.State, error) {
	return concrete.State{Age: age, Characteristic: 50e6, Mean: 58e6, TensileMean: 4e6, TensileLow: 3e6, Modulus: 36e9, Basis: "constant"}, nil
}
func (c constantModulus) Shown(float64, float64) concrete.Model { return c }
func (constantModulus) Inputs() []formula.Line                  { return nil }

// The cantilevers of these checks: solid, 4 × 2 m, 25 kN/m³, EI = 96 GN·m².
const (
	fanLoad      = 200e3 // N/m
	fanStiffness = 36e9 * 4 * 8 / 12
	fanHalf      = 2.0 // m, half the segment on the pier
	fanLength    = 3.0 // m, of a segment
)

// fans are cantilevers of n segments on each arm, with closures of 1 m between them, built
// pair by pair.
func fans(piers, n int) (d segmental.Deck, on []stages.Support, steps []segmental.Step, err error) {
	shape, err := section.New([]section.Outline{{{Y: -2, Z: -2}, {Y: 2, Z: -2}, {Y: 2}, {Y: -2}}}, nil)
	if err != nil {
		return d, nil, nil, err
	}
	d = segmental.Deck{Mark: "D", Dynamic: loads.AtRest()}
	x := 0.0
	add := func(mark string, length float64, of segmental.Type) {
		d.Segments = append(d.Segments, segmental.Segment{Type: of, Joint: stages.Poured, Element: stages.Element{
			Mark: mark, Length: length, Section: shape, Concrete: constantModulus{}, WeightTolerance: loads.PlusMinus(0)}})
		x += length
	}
	for p := range piers {
		if p > 0 {
			add(fmt.Sprint("C", p), 1, segmental.Closure)
		}
		for k := n; k >= 1; k-- {
			add(fmt.Sprintf("%dL%d", p, k), fanLength, segmental.Typical)
		}
		on = append(on, stages.Support{X: x + fanHalf, Fixed: true, Role: stages.Pad})
		add(fmt.Sprint("P", p), 2*fanHalf, segmental.OnPier)
		for k := 1; k <= n; k++ {
			add(fmt.Sprintf("%dR%d", p, k), fanLength, segmental.Typical)
			steps = append(steps, segmental.Step{Day: float64(10 + 10*p + k), Moves: []segmental.Move{
				{Do: segmental.Attach, Segments: []string{fmt.Sprintf("%dL%d", p, k)}}, {Do: segmental.Attach, Segments: []string{fmt.Sprintf("%dR%d", p, k)}}}})
		}
	}
	return d, on, steps, nil
}

// builtOut is the camber of a cantilever of five segments on each arm.
func builtOut() []Check {
	const n, l = 5, fanHalf + 5*fanLength
	curve := func(rule segmental.CastingRule, read func(segmental.CastingCurve) float64) func() (float64, error) {
		return func() (float64, error) {
			d, on, steps, err := fans(1, n)
			if err != nil {
				return 0, err
			}
			first := segmental.Step{Day: 5, Moves: []segmental.Move{{Do: segmental.Wait}}}
			steps = append([]segmental.Step{first}, steps...)
			girder, err := d.Girder()
			if err != nil {
				return 0, err
			}
			plan, err := d.Plan(on, steps...)
			if err != nil {
				return 0, err
			}
			a, err := plan.Analyse(girder, limits.All())
			if err != nil {
				return 0, err
			}
			c, err := segmental.Casting{Rule: rule}.Curve(d, a, on, steps...)
			if err != nil {
				return 0, err
			}
			return read(c) * 1e3, nil
		}
	}
	tip := func(c segmental.CastingCurve) float64 { return c.Joints[0].Camber }
	angle := func(c segmental.CastingCurve) float64 { return c.Joints[1].Angle }
	camber := fanLoad * math.Pow(l, 4) / 8 / fanStiffness
	// the last segment alone: a load w on the last a of a cantilever of length l
	const p = l - fanLength
	last := fanLoad * (3*math.Pow(l, 4) - 4*p*p*p*l + math.Pow(p, 4)) / 24 / fanStiffness
	v := func(x float64) float64 { return fanLoad * x * x * (6*l*l - 4*l*x + x*x) / 24 / fanStiffness }
	turned := (v(l) - 2*v(l-fanLength) + v(l-2*fanLength)) / fanLength
	const reason = "1e-6: nodes of the integration are a hair inside the ends of the stretches"
	row := func(name string, value float64, unit string, source string, ours func() (float64, error)) Check {
		return Check{Name: "five segments of 3 m on 2 m of pier segment, 200 kN/m, EI = 96 GN·m²: " + name, Package: "stages/segmental", Ours: ours}.
			from(ClosedForm, source).is(value, unit, 1e-6*value, reason)
	}
	return []Check{
		row("match-cast camber of the tip", camber*1e3, "mm", "cantilever: w·L⁴/8EI, whatever the order in which it is built", curve(segmental.MatchCast, tip)),
		row("form reset, camber of the tip", last*1e3, "mm", "cantilever under w on its last 3 m: w(3L⁴ − 4p³L + p⁴)/24EI", curve(segmental.FormReset, tip)),
		row("angle of the last segment in the casting cell", turned*1e3, "mrad", "second difference of w·x²(6L² − 4Lx + x²)/24EI", curve(segmental.MatchCast, angle)),
	}
}

// levelledTips is the ballast that evens two tips of 11 m.
func levelledTips() []Check {
	ours := func() (float64, error) {
		d, on, steps, err := fans(2, 3)
		if err != nil {
			return 0, err
		}
		b, err := segmental.Ballast{Closure: "C1", After: len(steps), Largest: 1e6, Document: "stated"}.On(d, 0.001, on, steps...)
		return b.Weight / 1e3, err
	}
	const l = fanHalf + 3*fanLength
	value := 3 * fanStiffness / (l * l * l) * 0.001 / 1e3
	return []Check{Check{Name: "tip of 11 m, EI = 96 GN·m², 1 mm above the other: ballast on it", Package: "stages/segmental", Ours: ours}.
		from(ClosedForm, "cantilever: 3EI·Δ/L³").is(value, "kN", 1e-6*value, "1e-6: nodes of the integration are a hair inside the ends of the stretches")}
}
