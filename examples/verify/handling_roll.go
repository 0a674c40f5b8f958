package main

import "github.com/tempstage/tempstage/beam/roll"

const rollRecipe = "recipes/roll.py, finite differences, numpy 1.24.2"

// rollRow is a row that compares one number of a rolling girder with finite differences.
func rollRow(of string, solve func() (roll.Result, error), name, unit string, value float64, ours func(roll.Result) float64) Check {
	return Check{
		Name: of + ": " + name, Package: "beam/roll", Source: rollRecipe, Kind: Library, Value: value, Unit: unit, Tolerance: 2e-6 * value, Reason: "error of the recipe, and its last digit",
		Ours: func() (float64, error) {
			r, err := solve()
			return ours(r), err
		},
	}
}

// The numbers of a rolling girder.
func bow(r roll.Result) float64         { return r.Bow }
func offset(r roll.Result) float64      { return r.Offset }
func arm(r roll.Result) float64         { return r.Arm }
func tilt(r roll.Result) float64        { return r.Tilt }
func shift(r roll.Result) float64       { return r.Seat.Shift }
func cracking(r roll.Result) float64    { return r.Cracking }
func overturning(r roll.Result) float64 { return r.Overturning }

// hungRows compare the six numbers of a hung girder.
func hungRows(of string, h roll.Hung, values [6]float64) []Check {
	return []Check{
		rollRow(of, h.Solve, "mean bow laid to the side", "m", values[0], bow),
		rollRow(of, h.Solve, "offset", "m", values[1], offset),
		rollRow(of, h.Solve, "arm", "m", values[2], arm),
		rollRow(of, h.Solve, "tilt at rest", "rad", values[3], tilt),
		rollRow(of, h.Solve, "factor against cracking", "1", values[4], cracking),
		rollRow(of, h.Solve, "factor against overturning", "1", values[5], overturning),
	}
}

// seatedRows compare the five numbers of a seated girder.
func seatedRows(of string, s roll.Seated, values [5]float64) []Check {
	return []Check{
		rollRow(of, s.Solve, "mean bow laid to the side", "m", values[0], bow),
		rollRow(of, s.Solve, "tilt at rest", "rad", values[1], tilt),
		rollRow(of, s.Solve, "shift of the resultant", "m", values[2], shift),
		rollRow(of, s.Solve, "factor against cracking", "1", values[3], cracking),
		rollRow(of, s.Solve, "factor against overturning", "1", values[4], overturning),
	}
}

// rolling compares with finite differences.
func rolling() []Check {
	slender := roll.Girder{Length: 41, Weight: 480e3, Modulus: 33e9, Iy: 0.2, Iz: 0.016, Sweep: 0.04, Camber: 0.06, Cracks: 90e3}
	hung := roll.Hung{Girder: slender, Left: 2.5, Right: 2.5, Axis: 0.9, Offset: 0.006}
	windy := hung
	windy.Wind = roll.Wind{Force: 4800, Height: -0.1}
	unlike := roll.Hung{Girder: roll.Girder{Length: 34, Weight: 620e3, Modulus: 30e9, Iy: 0.3, Iz: 0.03, Sweep: 0.03, Camber: 0.04, Cracks: 150e3}, Left: 1, Right: 5, Axis: 1.1, Offset: 0.01}
	seated := roll.Seated{Girder: roll.Girder{Length: 38, Weight: 550e3, Modulus: 34e9, Iy: 0.3, Iz: 0.02, Sweep: 0.035, Camber: 0.05, Cracks: 120e3}, Left: 2, Right: 3,
		Stiffness: 4.2e6, CrossFall: 0.03, Height: 1.9, RollCentre: 0.7, HalfBase: 0.95, Offset: 0.03}
	rows := hungRows("hung, 41 m", hung, [6]float64{0.2595566, 0.02350545, 0.8737418, 0.03827095, 1.172279, 1.724859})
	rows = append(rows, hungRows("hung, 34 m, unlike overhangs", unlike, [6]float64{0.07229382, 0.0199308, 1.086759, 0.01964661, 3.693731, 5.650485})...)
	rows = append(rows, hungRows("hung in wind, 41 m", windy, [6]float64{0.2595566, 0.02350545, 0.8737418, 0.04989913, 1.11382, 1.632831})...)
	return append(rows, seatedRows("seated, 38 m", seated, [5]float64{0.1719825, 0.04939147, 0.1480803, 1.411207, 2.497279})...)
}

// bulbTeeRolls is a 136 ft bulb-tee 72 in deep, of 37,634.29 in⁴ sideways, hung and on a
// trailer.
func bulbTeeRolls() []Check {
	const inch, kip = 0.0254, 4448.2216152605
	const ksi, in4 = kip / inch / inch, inch * inch * inch * inch
	tee := roll.Girder{Length: 1632 * inch, Weight: 108.664 * kip, Modulus: 4700 * ksi, Iy: 545894 * in4, Iz: 37634.29 * in4, Sweep: 1.7 * inch, Camber: 2.5 * inch, Cracks: 770.607 * kip * inch}
	plain := tee
	plain.Weight = 0.8 * 136 * kip
	hung := func(g roll.Girder, overhang float64) roll.Hung {
		return roll.Hung{Girder: g, Left: overhang * inch, Right: overhang * inch, Axis: 35.3963 * inch, Offset: 0.25 * inch}
	}
	rows := []Check{
		rollRow("bulb-tee, 136 ft of 0.8 kip/ft, overhangs of 0 ft", hung(plain, 0).Solve, "mean bow laid to the side", "m", 0.5659268, bow),
		rollRow("bulb-tee, 136 ft of 0.8 kip/ft, overhangs of 5 ft", hung(plain, 60).Solve, "mean bow laid to the side", "m", 0.3802406, bow),
		rollRow("bulb-tee, 136 ft of 0.8 kip/ft, overhangs of 9 ft", hung(plain, 108).Solve, "mean bow laid to the side", "m", 0.262379, bow),
	}
	rows = append(rows, hungRows("hung bulb-tee, 136 ft, overhangs of 9 ft", hung(tee, 108), [6]float64{0.262051, 0.02446306, 0.8724292, 0.04007854, 1.119238, 1.693241})...)
	rows = append(rows, hungRows("hung bulb-tee, 136 ft, no overhangs", hung(tee, 0), [6]float64{0.5652194, 0.03513667, 0.8567327, 0.1205319, 0.5436229, 0.8475251})...)
	tee.Modulus, tee.Sweep, tee.Camber, tee.Cracks = 5000*ksi, 0, 0, 1129.0287*kip*inch
	return append(rows, seatedRows("seated bulb-tee, 136 ft, overhangs of 9 ft", roll.Seated{Girder: tee, Left: 108 * inch, Right: 108 * inch, Stiffness: 40000 * kip * inch, CrossFall: 0.06,
		Height: 86.295774 * inch, RollCentre: 24 * inch, HalfBase: 36 * inch, Offset: 1.713113 * inch}, [5]float64{0.246328, 0.08746184, 0.2567661, 0.4079418, 2.025873})...)
}
