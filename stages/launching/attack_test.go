package launching_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// Numbers that no site has, in any field, are refused in words or give finite numbers.
func TestBadNumbers(t *testing.T) {
	bad := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1e300, 1e-300}
	finite := func(name string, v float64, values ...float64) {
		for _, x := range values {
			require.False(t, math.IsNaN(x), "%s = %g", name, v)
		}
	}
	for name, set := range map[string]func(*launching.Gantry, *launching.Position, float64){
		"Length":             func(g *launching.Gantry, _ *launching.Position, v float64) { g.Length = v },
		"Height":             func(g *launching.Gantry, _ *launching.Position, v float64) { g.Height = v },
		"SideArea":           func(g *launching.Gantry, _ *launching.Position, v float64) { g.SideArea = v },
		"Trolleys[0].Weight": func(g *launching.Gantry, _ *launching.Position, v float64) { g.Trolleys[0].Weight = v },
		"Legs[1].Width":      func(g *launching.Gantry, _ *launching.Position, v float64) { g.Legs[1].Width = v },
		"Legs[1].Capacity":   func(g *launching.Gantry, _ *launching.Position, v float64) { g.Legs[1].Capacity = v },
		"At":                 func(_ *launching.Gantry, p *launching.Position, v float64) { p.At = v },
		"Roll":               func(_ *launching.Gantry, p *launching.Position, v float64) { p.Roll = v },
		"CrossFall":          func(_ *launching.Gantry, p *launching.Position, v float64) { p.CrossFall = v },
		"Gradient":           func(_ *launching.Gantry, p *launching.Position, v float64) { p.Gradient = v },
		"Stands[1].X":        func(_ *launching.Gantry, p *launching.Position, v float64) { p.Stands[1].X = v },
		"Trolleys[0].At":     func(_ *launching.Gantry, p *launching.Position, v float64) { p.Trolleys[0].At = v },
		"Trolleys[0].Brake":  func(g *launching.Gantry, _ *launching.Position, v float64) { g.Trolleys[0].Brake = v },
		"Drag":               func(_ *launching.Gantry, p *launching.Position, v float64) { p.Drag = v },
		"Stands[1].Friction": func(_ *launching.Gantry, p *launching.Position, v float64) { p.Stands[1].Friction = v },
		"Bars.Clamp": func(_ *launching.Gantry, p *launching.Position, v float64) {
			p.Stands[0].Bars = &launching.Bars{Number: 4, Preload: 1e5, Capacity: 2e5, Clamp: v, Document: "d"}
		},
		"Wind.Speed": func(_ *launching.Gantry, p *launching.Position, v float64) { p.Wind.Speed = v },
	} {
		for _, v := range bad {
			g, p := gantry(), rolling(12)
			set(&g, &p, v)
			list, err := g.Balances(p)
			if err != nil {
				require.ErrorIs(t, err, launching.ErrLaunching, "%s = %g", name, v)
				continue
			}
			for _, b := range list {
				factor, _ := b.Simple()
				finite(name, v, factor)
			}
		}
	}
	for i, set := range []func(*launching.FourPoints, float64){
		func(f *launching.FourPoints, v float64) { f.Length = v }, func(f *launching.FourPoints, v float64) { f.Torsion = v },
		func(f *launching.FourPoints, v float64) { f.Widths[1] = v }, func(f *launching.FourPoints, v float64) { f.Stiffness[2] = v },
		func(f *launching.FourPoints, v float64) { f.Level[0] = v },
	} {
		for _, v := range bad {
			f := launching.FourPoints{Length: 31.5, Widths: [2]float64{4.5, 4.5}, Torsion: 235e9, Stiffness: [4]float64{1e9, 1e9, 1e9, 1e9}, Level: [4]float64{1e6, 1e6, 1e6, 1e6}}
			set(&f, v)
			w, err := f.Warp(2)
			if err != nil {
				require.ErrorIs(t, err, launching.ErrLaunching, "%d: %g", i, v)
				continue
			}
			finite("four points", v, w.PerMetre, w.LiftOff)
		}
	}
	for i, set := range []func(*launching.Ride, float64){
		func(r *launching.Ride, v float64) { r.Off = v }, func(r *launching.Ride, v float64) { r.Gradient = v }, func(r *launching.Ride, v float64) { r.Carrier.Wheel = v },
		func(r *launching.Ride, v float64) { r.Carrier.Brake = v }, func(r *launching.Ride, v float64) { r.Carrier.Drag = v }, func(r *launching.Ride, v float64) { r.Line.Before = v },
		func(r *launching.Ride, v float64) { r.Line.Bearings = v }, func(r *launching.Ride, v float64) { r.Mortar = &launching.Mortar{Strength: v, Area: 0.3} }, func(r *launching.Ride, v float64) { r.Carrier.Speed = v }, func(r *launching.Ride, v float64) { r.HoldBack = v },
		func(r *launching.Ride, v float64) {
			r.Carrier.Train.Axles = append([]loads.Axle{{Force: v}}, r.Carrier.Train.Axles...)
		},
	} {
		for _, v := range bad {
			r := ride(0.1)
			set(&r, v)
			left, right, err := r.Piers(34)
			if err != nil {
				require.ErrorIs(t, err, launching.ErrLaunching, "%d: %g", i, v)
				continue
			}
			finite("ride", v, left, right)
		}
	}
}

// The minimum age is the first of the steps back from the end from which on the stage passes.
func TestEarliestAgeBadInput(t *testing.T) {
	standing := func(age float64) stages.Plan {
		return stages.Plan{stages.Seat{Age: 1, On: bearings()}, stages.Seat{Age: age, On: bearings()}}
	}
	for _, v := range []float64{math.NaN(), 0, -1, math.Inf(1)} {
		_, err := launching.EarliestAge(span(t), standing(20), 2, limits.EN1992{}, 2, 30, v)
		require.ErrorIs(t, err, launching.ErrLaunching)
		require.ErrorContains(t, err, "step")
	}
}
