package rigging

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// slewing are the weights of a crane that slews over its supports; see [Outriggers].
type slewing struct{ ahead, carrier, carrierAt, upper, upperRadius, load, radius float64 }

func (s slewing) check(of string, mostAhead float64) error {
	return within(of, bound{"Ahead", s.ahead, "m", -mostAhead, mostAhead}, bound{"Carrier", s.carrier, "N", 1e3, 20e6}, bound{"CarrierAt", s.carrierAt, "m", -15, 15},
		bound{"Upper", s.upper, "N", 1e3, 20e6}, bound{"UpperRadius", s.upperRadius, "m", -50, 50}, bound{"Load", s.load, "N", 0, 100e6}, bound{"Radius", s.radius, "m", 0, 200})
}

// checkSlew reports a slew angle (rad) that is out of its range.
func checkSlew(slew float64) error {
	if !(math.Abs(slew) <= 7) {
		return fmt.Errorf("%w: slew = %g rad: must be within ±7 rad", ErrRigging, slew)
	}
	return nil
}

// resultant is the weight of all and where it acts, from the middle of the supports.
func (s slewing) resultant(slew float64) (total, x, y float64) {
	total = s.carrier + s.upper + s.load
	arm := s.upper*s.upperRadius + s.load*s.radius
	return total, (s.carrier*s.carrierAt + (s.upper+s.load)*s.ahead + arm*math.Cos(slew)) / total, arm * math.Sin(slew) / total
}

// lines are those of the weight of all and of its moments about the middle of the
// supports.
func (s slewing) lines(c *formula.Chain, slew float64) (total, along, across formula.Quantity) {
	moment := func(symbol, name string) formula.Quantity { return formula.Q(symbol, 0, formula.NewtonMetre, name) }
	carrier, upper, load := newtons("G_c", s.carrier, "weight of the carrier"), newtons("G_u", s.upper, "weight of all that slews"), newtons("F_g", s.load, "gross load")
	angle := radians("ψ", slew, "slew of the boom from ahead, anticlockwise seen from above")
	total = c.Derive(newtons("Q", 0, "weight of crane and load"), "G_c + G_u + F_g", formula.Mechanics, carrier, upper, load)
	boom := c.Derive(moment("M_b", "moment of load and upper part about the slewing axis"), "F_g*r + G_u*r_u", formula.Mechanics, load, metres("r", s.radius, "radius of the hook"),
		upper, metres("r_u", s.upperRadius, "radius of the centre of gravity of all that slews"))
	along = c.Derive(moment("M_x", "moment along the carrier about the middle of the supports"), "G_c*x_c + (G_u + F_g)*x_s + M_b*cos(ψ)", formula.Mechanics,
		carrier, metres("x_c", s.carrierAt, "centre of gravity of the carrier ahead of the middle"), upper, load, metres("x_s", s.ahead, "slewing axis ahead of the middle"), boom, angle)
	across = c.Derive(moment("M_y", "moment across the carrier about the middle of the supports"), "M_b*sin(ψ)", formula.Mechanics, boom, angle)
	return total, along, across
}

// worstSlew is the slew angle, of those from one to another (rad), at which a value is
// largest, looked at every half degree and then closer.
func worstSlew(from, to float64, of func(slew float64) (float64, error)) (float64, error) {
	if !(from <= to && to-from <= 7) {
		return 0, fmt.Errorf("%w: slew from %g to %g rad: must rise, by at most 7 rad", ErrRigging, from, to)
	}
	const step = math.Pi / 360
	n := int(math.Ceil((to-from)/step)) + 1
	worst, largest := from, math.Inf(-1)
	look := func(slew float64) error {
		value, err := of(slew)
		if err == nil && value > largest {
			worst, largest = slew, value
		}
		return err
	}
	for i := range n {
		if err := look(from + (to-from)*float64(i)/math.Max(1, float64(n-1))); err != nil {
			return 0, err
		}
	}
	middle := worst
	for i := -50; i <= 50; i++ {
		if slew := middle + step*float64(i)/50; slew >= from && slew <= to {
			if err := look(slew); err != nil {
				return 0, err
			}
		}
	}
	return worst, nil
}
