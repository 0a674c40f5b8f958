package main

import (
	"fmt"

	"github.com/tempstage/tempstage/beam/roll"
)

// onBearings is a stocky beam of 1,049.7 kN on bearings of 2 × 2,200 kN·m/rad, its
// centre of gravity 1.15 m above them, the wind at 1.2 m, pads 0.6 m wide.
func onBearings() []Check {
	const weight, stiffness, height, level = 1049.7e3, 4.4e6, 1.15, 1.2
	// w·L⁴/(120·E·Iz) without overhangs.
	const bowed = weight * 40 * 40 * 40 / (120 * 35e9 * 900)
	var rows []Check
	for _, of := range []struct{ offset, seat, wind float64 }{{0, 0.005, 0}, {0.04, 0, 0}, {0.04, 0.005, 11e3}, {0.1, 0.005, 11e3}} {
		beam := roll.Seated{Girder: roll.Girder{Length: 40, Weight: weight, Modulus: 35e9, Iy: 1, Iz: 900, Cracks: 1e9}, Stiffness: stiffness, CrossFall: of.seat, Height: height, HalfBase: 0.3, Kern: 0.1,
			Offset: of.offset, Wind: roll.Wind{Force: of.wind, Height: level}}
		number := func(read func(roll.Result) float64) func() (float64, error) {
			return func() (float64, error) {
				r, err := beam.Solve()
				return read(r), err
			}
		}
		name := fmt.Sprintf("beam of 1,049.7 kN on bearings, centre of gravity %g mm off, seat %g mrad, wind %g kN", of.offset*1e3, of.seat*1e3, of.wind/1e3)
		push := of.wind / weight
		rigid := (weight*(of.offset+height*of.seat) + of.wind*level) / (stiffness - weight*height)
		// The same with the bow z0 of the girder: K·(θ − α) = W·(e + y·θ + z0·(θ + q)) + F·yw.
		soft := (stiffness/weight*of.seat + of.offset + push*(level+bowed)) / (stiffness/weight - height - bowed)
		arm := stiffness / weight * (soft - of.seat)
		rows = append(rows,
			closedRow(name+": roll of the bearings (W(e + y·α) + F·yw)/(K − W·y)", "beam/roll", "rad", rigid, number(func(r roll.Result) float64 { return r.RigidTilt - of.seat })),
			closedRow(name+": shift of the resultant K·(θ − α)/W", "beam/roll", "m", arm, number(shift)),
			// The resultant reaches the edge of the pad at θ − α = b·W/K.
			closedRow(name+": factor against overturning when the edge of the pad is reached", "beam/roll", "1", edge(of.offset, of.seat, push, bowed), number(overturning)).
				from(ClosedForm, "statics, with the loss of stiffness by cracking of Mast 1993 (unconfirmed), which moves it by less than 1e-5"))
	}
	return append(rows, closedRow("beam of 1,049.7 kN on bearings: K/(W·y)", "beam/roll", "1", stiffness/(weight*height), func() (float64, error) {
		r, err := roll.Seated{Girder: roll.Girder{Length: 40, Weight: weight, Modulus: 35e9, Iy: 1, Iz: 900, Cracks: 1e9}, Stiffness: stiffness, Height: height, HalfBase: 0.3}.Solve()
		return r.Seat.Stiffness, err
	}))
}

// edge is the resisting over the turning arm with the resultant at the edge of a pad of
// half 0.3 m, the wind to the offset side: 0.3/(z0·(1 + 2.5·θ)·(θ + q) + e + q·yw + y·θ)
// with θ = 0.3·W/K + α; unconfirmed softening by cracking of Mast 1993.
func edge(offset, seat, push, bowed float64) float64 {
	tilt := 0.3*1049.7/4400 + seat
	return 0.3 / (bowed*(1+2.5*tilt)*(tilt+push) + offset + 1.2*push + 1.15*tilt)
}
