package main

import (
	"fmt"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/concrete"
)

// redistributions is every check of restraint moments and changes of system.
func redistributions() []Check { return append(closures(), restraints()...) }

// moved is a row of the redistribution package.
func moved(name string, ours func() (float64, error)) Check {
	return Check{Name: name, Package: "beam/redistribution", Ours: ours}
}

// closures is a span made of two cantilevers that are closed at mid-span: the
// share of the monolithic moment that creep brings.
func closures() []Check {
	const recipe = "recipes/creep.py: superposition by trapezoids, numpy 1.24.2; EN 1992-1-1:2004, Annex B.1"
	const form = "recipes/creep.py: numpy 1.24.2; EN 1992-2:2005, Annex KK, (KK.119), χ = 0.8"
	const digits = "the creep coefficients carry seven digits"
	const steps = "grids agree to 3e-6; 400 steps of ours come within 2e-5"
	share := func(loaded, closed float64, of func(redistribution.Change) (redistribution.Share, error)) func() (float64, error) {
		return func() (float64, error) {
			s, err := of(redistribution.Change{Loaded: loaded, Changed: closed, Until: 36500, Concrete: concrete.EN1992{
				Fck: 45e6, Cement: concrete.ClassN, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.6}}})
			return s.Value, err
		}
	}
	stepwise := func(c redistribution.Change) (redistribution.Share, error) { return c.Stepwise(400) }
	withModulus := func(c redistribution.Change) (redistribution.Share, error) { return c.Aged(true) }
	without := func(c redistribution.Change) (redistribution.Share, error) { return c.Aged(false) }
	var rows []Check
	for _, c := range []struct{ loaded, closed, stepwise, withModulus, without float64 }{
		{7, 60, 0.57276, 0.592900, 0.537141}, {28, 365, 0.28486, 0.296050, 0.280424}, {90, 180, 0.33082, 0.328953, 0.324947},
	} {
		name := fmt.Sprintf("cantilevers loaded at %g d, closed at %g d: ", c.loaded, c.closed)
		rows = append(rows,
			moved(name+"share of the monolithic moment, step by step", share(c.loaded, c.closed, stepwise)).
				from(Library, recipe).is(c.stepwise, "1", 2e-5, steps),
			moved(name+"ageing form with E(tc)/E(t0)", share(c.loaded, c.closed, withModulus)).
				from(Library, form).is(c.withModulus, "1", 2e-6, digits),
			moved(name+"ageing form without", share(c.loaded, c.closed, without)).
				from(Library, form).is(c.without, "1", 2e-6, digits))
	}
	return rows
}

// restraints is the secondary moment of tendons with P = 1 and span 1.
func restraints() []Check {
	const force = "force method: the restraint moment makes ∫(M0 + Ms)·m dx vanish"
	restraint := func(supports []float64, fixed bool, primary redistribution.Primary, x float64) func() (float64, error) {
		return func() (float64, error) {
			layout := beam.Layout{Length: supports[len(supports)-1], Stiffness: []beam.Stretch{{BendingStiffness: 1}}}
			for _, at := range supports {
				layout.Supports = append(layout.Supports, beam.Support{At: at, Fixed: fixed})
			}
			r, err := redistribution.Restrain(layout, primary)
			if err != nil {
				return 0, err
			}
			return r.Secondary(x), nil
		}
	}
	straight := redistribution.Primary{Moment: func(float64) float64 { return -1 }}
	sagging := func(ends ...float64) redistribution.Primary { // a parabola of sag 1 in every span
		return redistribution.Primary{Breaks: ends, Moment: func(x float64) float64 {
			for x > 1 {
				x--
			}
			return -4 * x * (1 - x)
		}}
	}
	row := func(name string, ours func() (float64, error), value float64) Check {
		return moved(name, ours).from(ClosedForm, force).is(value, "P·e", 1e-9, floatRounding)
	}
	return []Check{
		row("two spans, straight tendon e below: 3/2 over the middle", restraint([]float64{0, 1, 2}, false, straight, 1), 1.5),
		row("three spans, straight tendon: 6/5 over both inner supports", restraint([]float64{0, 1, 2, 3}, false, straight, 2), 1.2),
		row("fixed span, straight tendon: 1", restraint([]float64{0, 1}, true, straight, 0.3), 1),
		row("two spans, parabola of sag e in each: 1 over the middle", restraint([]float64{0, 1, 2}, false, sagging(1), 1), 1),
		row("fixed span, parabola of sag e: 2/3", restraint([]float64{0, 1}, true, sagging(), 0.5), 2./3),
		row("one span, parabola: no restraint", restraint([]float64{0, 1}, false, sagging(), 0.5), 0),
		moved("one concrete of one age: the staged march is the share", stagedShare).
			from(ClosedForm, "one concrete of one age: M = M0 + ρ(Mc − M0)").is(0, "wL²", 1e-9, floatRounding),
	}
}

// stagedShare is what the march of a span closed at its middle differs there
// from the share of the monolithic moment 1/24.
func stagedShare() (float64, error) {
	mix := concrete.EN1992{Fck: 45e6, Cement: concrete.ClassN, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.6}}
	layout := beam.Layout{Length: 1, Stiffness: []beam.Stretch{{BendingStiffness: 1}}, Hinges: []float64{0.5},
		Supports: []beam.Support{{Fixed: true}, {At: 1, Fixed: true}}}
	open, err := beam.New(layout)
	if err != nil {
		return 0, err
	}
	before, err := open.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, 1, 1)}})
	if err != nil {
		return 0, err
	}
	layout.Hinges = nil
	end, err := redistribution.Staged{Parts: []redistribution.Part{{Concrete: mix, Inertia: 1}}, Final: layout,
		Before: []redistribution.Body{{Response: before}}, Loaded: 28, Changed: 365, Until: 36500}.March(40)
	if err != nil {
		return 0, err
	}
	share, err := redistribution.Change{Concrete: mix, Loaded: 28, Changed: 365, Until: 36500}.Stepwise(40)
	return end.Moment(0.5) - share.Of(0, 1./24), err
}
