package main

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam/roll"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/rigging"
)

// handling is roll of girders, slings, tandem lifts, outriggers.
func handling() []Check {
	rows := append(rolling(), slings()...)
	return append(rows, cranes()...)
}

// rolling compares with finite differences.
func rolling() []Check {
	const recipe = "recipes/roll.py, finite differences, numpy 1.24.2"
	slender := roll.Girder{Length: 41, Weight: 480e3, Modulus: 33e9, Iy: 0.2, Iz: 0.016, Sweep: 0.04, Camber: 0.06, Cracks: 90e3}
	hung := roll.Hung{Girder: slender, Left: 2.5, Right: 2.5, Axis: 0.9, Offset: 0.006}
	windy := hung
	windy.Wind = roll.Wind{Force: 4800, Height: -0.1}
	unlike := roll.Hung{Girder: roll.Girder{Length: 34, Weight: 620e3, Modulus: 30e9, Iy: 0.3, Iz: 0.03, Sweep: 0.03, Camber: 0.04, Cracks: 150e3}, Left: 1, Right: 5, Axis: 1.1, Offset: 0.01}
	seated := roll.Seated{Girder: roll.Girder{Length: 38, Weight: 550e3, Modulus: 34e9, Iy: 0.3, Iz: 0.02, Sweep: 0.035, Camber: 0.05, Cracks: 120e3}, Left: 2, Right: 3,
		Stiffness: 4.2e6, CrossFall: 0.03, Height: 1.9, RollCentre: 0.7, HalfBase: 0.95, Offset: 0.03}
	var rows []Check
	add := func(of string, solve func() (roll.Result, error), name, unit string, value float64, ours func(roll.Result) float64) {
		rows = append(rows, Check{
			Name: of + ": " + name, Package: "beam/roll", Source: recipe, Kind: Library, Value: value, Unit: unit, Tolerance: 2e-6 * value, Reason: "error of the recipe, and its last digit",
			Ours: func() (float64, error) {
				r, err := solve()
				return ours(r), err
			},
		})
	}
	bow, offset := func(r roll.Result) float64 { return r.Bow }, func(r roll.Result) float64 { return r.Offset }
	arm, tilt := func(r roll.Result) float64 { return r.Arm }, func(r roll.Result) float64 { return r.Tilt }
	cracking, overturning := func(r roll.Result) float64 { return r.Cracking }, func(r roll.Result) float64 { return r.Overturning }
	for _, of := range []struct {
		name   string
		hung   roll.Hung
		values [6]float64
	}{
		{"hung, 41 m", hung, [6]float64{0.2595566, 0.02350545, 0.8737418, 0.03827095, 1.172279, 1.724859}},
		{"hung, 34 m, unlike overhangs", unlike, [6]float64{0.07229382, 0.0199308, 1.086759, 0.01964661, 3.693731, 5.650485}},
		{"hung in wind, 41 m", windy, [6]float64{0.2595566, 0.02350545, 0.8737418, 0.04989913, 1.11382, 1.632831}},
	} {
		for i, part := range []struct {
			name, unit string
			ours       func(roll.Result) float64
		}{{"mean bow laid to the side", "m", bow}, {"offset", "m", offset}, {"arm", "m", arm}, {"tilt at rest", "rad", tilt}, {"factor against cracking", "1", cracking}, {"factor against overturning", "1", overturning}} {
			add(of.name, of.hung.Solve, part.name, part.unit, of.values[i], part.ours)
		}
	}
	add("seated, 38 m", seated.Solve, "mean bow laid to the side", "m", 0.1719825, bow)
	add("seated, 38 m", seated.Solve, "tilt at rest", "rad", 0.04939147, tilt)
	add("seated, 38 m", seated.Solve, "shift of the resultant", "m", 0.1480803, func(r roll.Result) float64 { return r.Seat.Shift })
	add("seated, 38 m", seated.Solve, "factor against cracking", "1", 1.411207, cracking)
	add("seated, 38 m", seated.Solve, "factor against overturning", "1", 2.497279, overturning)
	return rows
}

// slings are the factors of their angle, and how many legs count.
func slings() []Check {
	var rows []Check
	for _, degrees := range []float64{85, 80, 75, 70, 65, 60, 55, 50, 45, 40, 35} {
		a := degrees * math.Pi / 180
		rows = append(rows, closedRow(fmt.Sprintf("leg of a sling at %g° to the horizontal: 1/sin", degrees), "loads/rigging", "1", 1/math.Sin(a), func() (float64, error) {
			r, err := rigging.Sling{Hook: r3.Vec{Z: 4 * math.Sin(a)}, Legs: []r3.Vec{{X: -4 * math.Cos(a)}, {X: 4 * math.Cos(a)}}, Weight: 1e5, CoG: r3.Vec{Z: -1}}.Solve()
			if err != nil {
				return 0, err
			}
			return r.Legs[0].Factor, nil
		}))
	}
	four := rigging.Sling{Hook: r3.Vec{Z: 5}, Legs: []r3.Vec{{X: -3, Y: -1}, {X: 3, Y: -1}, {X: 3, Y: 1}, {X: -3, Y: 1}}, Weight: 100e3, CoG: r3.Vec{Z: -0.5}}
	leg := func(s rigging.Sling) func() (float64, error) {
		return func() (float64, error) {
			r, err := s.Solve()
			if err != nil {
				return 0, err
			}
			return r.Legs[0].Force.Most / 1e3, nil
		}
	}
	equal := four
	equal.Sharing = rigging.Equalised
	return append(rows,
		closedRow("four legs, not equalised: W/2 on each diagonal leg, along it", "loads/rigging", "kN", 50*math.Sqrt(35)/5, leg(four)),
		closedRow("four legs, equalised: W/4 on each, along it", "loads/rigging", "kN", 25*math.Sqrt(35)/5, leg(equal)))
}

// cranes are the shares of two hooks and the forces below an outrigger.
func cranes() []Check {
	share := func(change func(*rigging.Tandem)) func() (float64, error) {
		return func() (float64, error) {
			t := rigging.Tandem{Weight: 1e6, Tolerance: loads.PlusMinus(0), Dynamic: loads.AtRest(), Second: 34, CoG: 17}
			change(&t)
			r, err := t.Solve()
			return r.First.Static.Most / 1e6, err
		}
	}
	most := func(radius float64) func() (float64, error) {
		return func() (float64, error) {
			o := rigging.Outriggers{Along: 8, Across: 7, Carrier: 300e3, Upper: 500e3, UpperRadius: -1.2, Load: 400e3, Radius: radius}
			r, err := o.At(math.Pi / 4)
			return r.Forces[0] / 1e3, err
		}
	}
	arm := (400*7 - 500*1.2) / math.Sqrt2
	return []Check{
		closedRow("tandem lift, 34 m between hooks, centre of gravity 0.25 m off: share", "loads/rigging", "1", 0.5+0.25/34, share(func(t *rigging.Tandem) { t.CoGTolerance = 0.25 })),
		closedRow("tandem lift, 34 m between hooks 4 m above the centre of gravity, ends 1 m out of level: share", "loads/rigging", "1", 0.5+4./34/34,
			share(func(t *rigging.Tandem) { t.Height, t.EndLevel = 4, 1 })),
		closedRow("four outriggers, boom over a corner: V/4 + Ml/(2·8) + Mt/(2·7)", "loads/rigging", "kN", 1200./4+arm/16+arm/14, most(7)),
		closedRow("wind limit of a load: v·√(1.2 m²/t · m/A)", "loads/rigging", "m/s", 9*math.Sqrt(1.2*20/60), func() (float64, error) { return rigging.Chart{Wind: 9}.WindLimit(20e3, 60) }),
	}
}

func closedRow(name, of, unit string, value float64, ours func() (float64, error)) Check {
	return Check{Name: name, Package: of, Source: "statics", Kind: ClosedForm, Value: value, Unit: unit, Tolerance: same(value), Reason: floatRounding, Ours: ours}
}
