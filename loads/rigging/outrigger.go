package rigging

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Outriggers is a crane on four supports that it may slew over.
type Outriggers struct {
	Along, Across float64 // distances of the supports along and across the carrier, m, 1 to 30
	Ahead         float64 // of the slewing axis before the middle of the supports, m, at most half of Along
	Carrier       float64 // weight of the carrier, N, 1e3 to 20e6
	CarrierAt     float64 // its centre of gravity before the middle of the supports, m, ±15
	Upper         float64 // weight of all that slews, counterweight and boom included, without load, N, 1e3 to 20e6
	UpperRadius   float64 // of its centre of gravity from the slewing axis to the side of the boom, m, ±50; negative on the side of the counterweight
	Load          float64 // gross, with hook block and rigging, N, 0 to 100e6
	Radius        float64 // of the hook from the slewing axis, m, 0 to 200
}

// Legs are the forces of the supports at a slew angle.
type Legs struct {
	Slew   float64    // of the boom from ahead, anticlockwise seen from above, rad
	Forces [4]float64 // front left, front right, rear right, rear left, N; 0 where a support lifts
	Lifts  int        // how many do
}

// At is the forces of the supports at a slew angle (rad): of a rigid carrier on four
// like springs, which push only. The error wraps [ErrRigging]; it says so when the
// crane tips over.
func (o Outriggers) At(slew float64) (Legs, error) {
	if err := o.check(); err != nil {
		return Legs{}, err
	}
	if err := checkSlew(slew); err != nil {
		return Legs{}, err
	}
	total, x, y := o.slewing().resultant(slew)
	places := [4][2]float64{{o.Along / 2, o.Across / 2}, {o.Along / 2, -o.Across / 2}, {-o.Along / 2, -o.Across / 2}, {-o.Along / 2, o.Across / 2}}
	if math.Abs(x) >= o.Along/2 || math.Abs(y) >= o.Across/2 {
		return Legs{}, fmt.Errorf("%w: at a slew of %.0f° the resultant is at x = %.2f m, y = %.2f m, outside the supports: must be within ±%.2f and ±%.2f m: the crane tips", ErrRigging, slew*180/math.Pi, x, y, o.Along/2, o.Across/2)
	}
	down := [4]bool{true, true, true, true}
	for range 8 {
		forces, ok := onSprings(places, down, total, x, y)
		if !ok {
			break
		}
		r, again := Legs{Slew: slew}, false
		for i, f := range forces {
			if down[i] && f < 0 {
				down[i], again = false, true
			}
			if down[i] {
				r.Forces[i] = f
			} else {
				r.Lifts++
			}
		}
		if !again {
			return r, nil
		}
	}
	return Legs{}, fmt.Errorf("%w: at a slew of %.0f° fewer than three supports carry: must be a smaller load or radius: the crane tips", ErrRigging, slew*180/math.Pi)
}

// onSprings are the forces of supports that are down, a plane over their places, with
// a resultant at x and y; not ok where they are fewer than three.
func onSprings(places [4][2]float64, down [4]bool, total, x, y float64) (forces [4]float64, ok bool) {
	a, b := mat.NewDense(3, 3, nil), mat.NewVecDense(3, []float64{total, total * x, total * y})
	number := 0
	for i, p := range places {
		if !down[i] {
			continue
		}
		number++
		row := [3]float64{1, p[0], p[1]}
		for j := range 3 {
			for k := range 3 {
				a.Set(j, k, a.At(j, k)+row[j]*row[k])
			}
		}
	}
	var plane mat.VecDense
	if number < 3 || plane.SolveVec(a, b) != nil {
		return forces, false
	}
	for i, p := range places {
		if down[i] {
			forces[i] = plane.AtVec(0) + plane.AtVec(1)*p[0] + plane.AtVec(2)*p[1]
		}
	}
	return forces, true
}

// Worst is the slew angle, of those from one to another (rad), at which a support has its
// largest force, looked at every half degree and then closer. The error wraps
// [ErrRigging].
func (o Outriggers) Worst(from, to float64) (Legs, error) {
	slew, err := worstSlew(from, to, func(slew float64) (float64, error) {
		l, err := o.At(slew)
		return math.Max(math.Max(l.Forces[0], l.Forces[1]), math.Max(l.Forces[2], l.Forces[3])), err
	})
	if err != nil {
		return Legs{}, err
	}
	return o.At(slew)
}

func (o Outriggers) slewing() slewing {
	return slewing{o.Ahead, o.Carrier, o.CarrierAt, o.Upper, o.UpperRadius, o.Load, o.Radius}
}

func (o Outriggers) check() error {
	if err := within("Outriggers", bound{"Along", o.Along, "m", 1, 30}, bound{"Across", o.Across, "m", 1, 30}); err != nil {
		return err
	}
	return o.slewing().check("Outriggers", o.Along/2)
}
