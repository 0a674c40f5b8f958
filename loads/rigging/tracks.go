package rigging

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Tracks is a crane on two tracks that it may slew over, on even, rigid ground.
type Tracks struct {
	Length      float64 // of a track on the ground, m, 1 to 20
	Shoe        float64 // width of a track, m, 0.2 to 3
	Gauge       float64 // distance of the middles of the tracks, m, 1 to 20, at least a Shoe
	Ahead       float64 // of the slewing axis before the middle of the tracks, m, at most half of Length
	Carrier     float64 // weight of car body and tracks, N, 1e3 to 20e6
	CarrierAt   float64 // its centre of gravity before the middle of the tracks, m, ±15
	Upper       float64 // weight of all that slews, counterweight and boom included, without load, N, 1e3 to 20e6
	UpperRadius float64 // of its centre of gravity from the slewing axis to the side of the boom, m, ±50; negative on the side of the counterweight
	Load        float64 // gross, with hook block and rigging, N, 0 to 100e6
	Radius      float64 // of the hook from the slewing axis, m, 0 to 200
}

// Track is what the ground below a track gets.
type Track struct {
	Force   float64 // N
	Contact float64 // length that presses, m; less than Length where the resultant is out of the middle third
	Most    float64 // pressure at the end that is pressed more, Pa
	Least   float64 // pressure at the other end, Pa; 0 where the track lifts there
}

// Tracked is what the ground below both tracks gets at a slew angle.
type Tracked struct {
	Slew        float64 // of the boom from ahead, anticlockwise seen from above, rad
	Ahead       float64 // of the resultant before the middle of the tracks, m
	Left, Right Track
}

// At is the ground pressure at a slew angle (rad), characteristic, by statics: across,
// the tracks share as supports of a beam; along, the resultant of each is where that of
// the whole crane is, and the pressure is linear: trapezoidal, or triangular where the
// resultant is out of the middle third. Pressure is even over the width of a shoe. It
// neglects that the ground gives way. The error wraps [ErrRigging]; it says so when the
// crane tips over.
func (t Tracks) At(slew float64) (Tracked, error) {
	if err := t.check(); err != nil {
		return Tracked{}, err
	}
	if err := checkSlew(slew); err != nil {
		return Tracked{}, err
	}
	total, x, y := t.slewing().resultant(slew)
	if !(math.Abs(x) < t.Length/2 && math.Abs(y) < t.Gauge/2) {
		return Tracked{}, fmt.Errorf("%w: at a slew of %.0f° the resultant is at x = %.2f m, y = %.2f m, outside the tracks: must be within ±%.2f and ±%.2f m: the crane tips", ErrRigging, slew*180/math.Pi, x, y, t.Length/2, t.Gauge/2)
	}
	return Tracked{slew, x, t.below(total*(1./2+y/t.Gauge), x), t.below(total*(1./2-y/t.Gauge), x)}, nil
}

// below is the pressure below a track with the resultant at x.
func (t Tracks) below(force, x float64) Track {
	x = math.Abs(x)
	if x > t.Length/6 {
		contact := 3 * (t.Length/2 - x)
		return Track{force, contact, 2 * force / (t.Shoe * contact), 0}
	}
	mean := force / (t.Shoe * t.Length)
	return Track{force, t.Length, mean * (1 + 6*x/t.Length), math.Max(0, mean*(1-6*x/t.Length))}
}

// Worst is the slew angle, of those from one to another (rad), at which the largest
// pressure is largest, looked at every half degree and then closer. The error wraps
// [ErrRigging].
func (t Tracks) Worst(from, to float64) (Tracked, error) {
	slew, err := worstSlew(from, to, func(slew float64) (float64, error) {
		r, err := t.At(slew)
		return math.Max(r.Left.Most, r.Right.Most), err
	})
	if err != nil {
		return Tracked{}, err
	}
	return t.At(slew)
}

func (t Tracks) slewing() slewing {
	return slewing{t.Ahead, t.Carrier, t.CarrierAt, t.Upper, t.UpperRadius, t.Load, t.Radius}
}

func (t Tracks) check() error {
	err := within("Tracks", bound{"Length", t.Length, "m", 1, 20}, bound{"Shoe", t.Shoe, "m", 0.2, 3}, bound{"Gauge", t.Gauge, "m", math.Max(1, t.Shoe), 20})
	if err != nil {
		return err
	}
	return t.slewing().check("Tracks", t.Length/2)
}

// Lines derive what [Tracks.At] gives at a slew angle (rad): each result is that of the
// field of [Tracked]. The error is that of At.
func (t Tracks) Lines(slew float64) ([]formula.Line, error) {
	r, err := t.At(slew)
	if err != nil {
		return nil, err
	}
	c := &formula.Chain{}
	total, along, across := t.slewing().lines(c, slew)
	length, shoe, gauge := metres("l_t", t.Length, "length of a track on the ground"), metres("b_t", t.Shoe, "width of a track"), metres("g_t", t.Gauge, "distance of the middles of the tracks")
	e := c.Derive(metres("e_x", 0, "resultant ahead of the middle of the tracks"), "M_x/Q", formula.Mechanics, along, total)
	triangular := math.Abs(r.Ahead) > t.Length/6
	contact := length
	if triangular {
		contact = c.Derive(metres("l_c", 0, "length of a track that presses"), "3*(l_t/2 - abs(e_x))", formula.Mechanics, length, e)
		c.Note("the resultant is out of the middle third: the pressure is triangular")
	}
	for i, words := range [2]string{"the left track", "the right track"} {
		n, sign := i+1, [2]string{" + ", " - "}[i]
		force := c.Derive(newtons(of("F_t", n), 0, "force on "+words), "Q/2"+sign+"M_y/g_t", formula.Mechanics, total, across, gauge)
		pressure := func(symbol, name, expression string, operands ...formula.Quantity) {
			c.Derive(formula.Q(symbol, 0, formula.NewtonPerSquareMetre, name+" of the ground below "+words), expression, formula.Mechanics, append([]formula.Quantity{force, shoe}, operands...)...)
		}
		if triangular {
			pressure(of("p_max", n), "largest pressure", "2*"+force.Symbol+"/(b_t*l_c)", contact)
			continue
		}
		pressure(of("p_max", n), "largest pressure", force.Symbol+"/(b_t*l_t)*(1 + 6*abs(e_x)/l_t)", length, e)
		pressure(of("p_min", n), "smallest pressure", "max(0, "+force.Symbol+"/(b_t*l_t)*(1 - 6*abs(e_x)/l_t))", length, e)
	}
	return c.Lines()
}
