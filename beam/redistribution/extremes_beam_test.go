package redistribution_test

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/loads"
)

func TestHostileLoadsAndBeams(t *testing.T) {
	tolerance, dynamic := loads.Tolerance{Under: 0.02, Over: 0.03}, loads.Dynamic{Least: 0.9, Most: 1.1}
	train := loads.Train{Axles: []loads.Axle{{Force: 1e5}, {Force: 2e5, Behind: 3}, {Force: 2e5, Behind: 4}}, Dynamic: 1.1}
	layout := beam.Layout{Length: 30, Stiffness: []beam.Stretch{{To: 12, BendingStiffness: 3e9, ShearStiffness: 1e9}, {BendingStiffness: 4e9}}, Hinges: []float64{20},
		Supports: []beam.Support{{At: 0}, {At: 15, Stiffness: 1e8, RotationalStiffness: 1e8, Settlement: 0.002}, {At: 30, Fixed: true}}}
	pads := beam.Layout{Length: 30, Stiffness: []beam.Stretch{{BendingStiffness: 3e9}},
		Supports: []beam.Support{{At: 1, Contact: true}, {At: 15, Contact: true, Stiffness: 1e8, Settlement: 0.01}, {At: 29, Contact: true}}}
	set := loads.Set{Points: []loads.Point{{At: 3, Force: 1e5}}, Lines: []loads.Line{loads.Trapezoid(2, 18, 1e4, 2e4)}, Couples: []loads.Couple{{At: 5, Moment: 1e4}}, Curvatures: []loads.Curvature{{From: 4, To: 9, Value: loads.Polynomial{1e-4}}}}
	weight := loads.Set{Lines: []loads.Line{loads.Uniform(0, 30, 2e4)}}
	bent := func(l beam.Layout, set loads.Set) ([]any, error) {
		b, err := beam.New(l)
		if err != nil {
			return nil, err
		}
		r, err := b.Solve(set)
		if err != nil {
			return nil, err
		}
		return []any{r.Reactions, r.MomentRange(), r.ShearRange(), r.DeflectionRange(), r.At(7, beam.LeftOf), set.Total(), set.FirstMoment()}, nil
	}
	stations := []float64{3, 22}
	crossed := func() ([]any, error) {
		b, err := beam.New(layout)
		if err != nil {
			return nil, err
		}
		return many(of(b.Cross(beam.Crossing{Train: train, BothWays: true, Stations: stations})))
	}
	up := r3.Vec{Z: 1}
	cross := beam.CrossSection{BendingY: 4e10, BendingZ: 7e10, BendingYZ: 1e9, Torsional: 6e9, Axial: 3e10}
	space := beam.SpaceLayout{Length: 30, Breaks: []float64{12}, Supports: []beam.Restraint{
		{X: 1, Y: 1, Direction: up, OneWay: true, Stiffness: 1e9}, {X: 1, Y: -1, Direction: up, OneWay: true, Stiffness: 1e9}, {X: 29, Y: 1, Direction: up, OneWay: true}, {X: 29, Y: -1, Direction: up},
		{X: 0, Direction: r3.Vec{X: 1}}, {X: 0, Direction: r3.Vec{Y: 1}}, {X: 30, Direction: r3.Vec{Y: 1}}}}
	acts := beam.SpaceLoads{Points: []beam.SpacePoint{{X: 7, Y: 0.2, Z: 1, Force: r3.Vec{Z: -1e5}, Couple: r3.Vec{X: 1e4}}},
		Lines: []beam.SpaceLine{{From: 0, To: 30, Direction: r3.Vec{Z: -1}, Intensity: []float64{5e4, 10}, FirstMomentY: []float64{100}, FirstMomentZ: []float64{100}}}}
	setting := beam.Setting{Level: []float64{0.001, 0, 0, 0, 0, 0, 0}, Preload: []float64{1e4, 0, 0, 0, 0, 0, 0}}
	inSpace := func() ([]any, error) {
		l := space
		l.Section = func(float64) beam.CrossSection { return cross }
		s, err := beam.NewSpace(l)
		if err != nil {
			return nil, err
		}
		r, err := s.Solve(acts, setting)
		if err != nil {
			return nil, err
		}
		shift, turn := r.Move(9)
		return []any{r.Reactions(), r.Gaps(), r.At(9, beam.LeftOf), shift, turn}, nil
	}
	survive(t, map[string]subject{
		"Tolerance":    {&tolerance, func() ([]any, error) { a, b, err := tolerance.Range(); return []any{a, b}, err }},
		"Dynamic":      {&dynamic, func() ([]any, error) { a, b, err := dynamic.Range(); return []any{a, b}, err }},
		"Train":        {&train, crossed},
		"stations":     {&stations, crossed},
		"crossed":      {&layout, crossed},
		"Layout":       {&layout, func() ([]any, error) { return bent(layout, set) }},
		"contact":      {&pads, func() ([]any, error) { return bent(pads, weight) }},
		"Set":          {&set, func() ([]any, error) { return bent(layout, set) }},
		"weight":       {&weight, func() ([]any, error) { return bent(pads, weight) }},
		"CrossSection": {&cross, inSpace},
		"SpaceLayout":  {&space, inSpace},
		"SpaceLoads":   {&acts, inSpace},
		"Setting":      {&setting, inSpace},
	})
}

func TestHostileRedistribution(t *testing.T) {
	change := soon
	left, right := arms(t)
	staged := redistribution.Staged{Final: fixed(), Loaded: 128, Changed: 190, Until: 20100, Parts: []redistribution.Part{{To: 60, Concrete: deck, Cast: 100, Inertia: 3}, {Concrete: deck, Cast: 90, Inertia: 3}},
		Before: []redistribution.Body{{Response: left}, {From: 60, Response: right}}}
	primary := redistribution.Primary{Breaks: []float64{30}, Moment: func(x float64) float64 { return 1e5 * x }}
	final := fixed()
	survive(t, map[string]subject{
		"Change": {&change, func() ([]any, error) { return many(of(change.Aged(true)), of(change.Stepwise(5))) }},
		"Staged": {&staged, func() ([]any, error) {
			m, err := staged.March(4)
			if err != nil {
				return nil, err
			}
			return []any{m.Reactions, m.Moment(9), m.Restraint(80)}, nil
		}},
		"Primary": {&primary, func() ([]any, error) {
			r, err := redistribution.Restrain(final, primary)
			if err != nil {
				return nil, err
			}
			return []any{r.Secondary(3), r.Total(50)}, nil
		}},
		"Restrain": {&final, func() ([]any, error) {
			r, err := redistribution.Restrain(final, primary)
			if err != nil {
				return nil, err
			}
			return []any{r.Secondary(3), r.Total(50)}, nil
		}},
	})
}
