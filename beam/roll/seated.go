package roll

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Seated is a girder on supports that give way when it rolls: bearings, bunks, a
// trailer.
type Seated struct {
	Girder      Girder
	Left, Right float64 // of the supports from the ends, m, at most 0.45 of the length
	Stiffness   float64 // K, roll stiffness of all supports together, N·m/rad, 1e3 to 1e12
	CrossFall   float64 // of the ground or the seat, to either side, rad, 0 to 0.2
	Height      float64 // y, of the centre of gravity of the straight girder above the roll centre, m, −5 to 20
	RollCentre  float64 // of the roll centre above the ground or the seat, m, 0 to 5
	HalfBase    float64 // from the middle to the line about which the supports tip: half the wheel spacing, half the width of a pad, m, 0.01 to 5
	Kern        float64 // within which the resultant must stay for K to be linear, m, 0 to 5: a sixth of the width of a pad; 0 where K does not depend on it
	Offset      float64 // of the centre of gravity from the middle of the supports, by setting out, m, 0 to 5
	Wind        Wind    // its Height is above the roll centre
}

// Solve is how the girder sits. The error wraps [ErrRoll].
func (d Seated) Solve() (Result, error) {
	r, err := d.solve()
	return r.Result, err
}

func (d Seated) solve() (solved, error) {
	g, s := d.Girder, spans{d.Left, d.Right}
	if err := d.check(s); err != nil {
		return solved{}, err
	}
	r := g.begin(s, d.Offset)
	y := d.Height + g.Camber*g.mean(s)
	spring := d.Stiffness / g.Weight
	r.Arm, r.Needed = spring-y, math.Max(0, g.Weight*(y+r.Bow))
	if y > 0 {
		r.Seat.Stiffness = spring / y
	}
	if r.Stable = r.Arm > r.Bow; !r.Stable {
		return r.stuck(), nil
	}
	lifts := (d.HalfBase-d.RollCentre*d.CrossFall)/spring + d.CrossFall
	at := math.Min(lifts, steepest)
	for _, push := range d.Wind.sides(g.Weight) {
		offset := r.Offset + push*d.Wind.Height
		r.Tilt = math.Max(r.Tilt, (d.CrossFall*spring+math.Abs(offset+push*r.Bow))/(r.Arm-r.Bow))
		r.RigidTilt = math.Max(r.RigidTilt, (d.CrossFall*spring+math.Abs(offset))/r.Arm)
		b := balance{push, func(tilt float64) float64 { return spring * (tilt - d.CrossFall) }, func(tilt, bow float64) float64 {
			return bow*(tilt+push) + offset + y*tilt
		}}
		r.cracking(b)
		r.overturning(b, at, r.cracked(b, at))
	}
	r.Seat.Shift = spring * (r.Tilt - d.CrossFall)
	r.Seat.LeavesKern = d.Kern > 0 && r.Seat.Shift > d.Kern
	return r.rests(), nil
}

// StiffnessFor is the least roll stiffness (N·m/rad) with which the girder has a factor
// against overturning. The error wraps [ErrRoll]: a factor that is not above 0, at most
// 10, or one that no stiffness up to 1e12 N·m/rad reaches.
func (d Seated) StiffnessFor(factor float64) (float64, error) {
	if !(factor > 0 && factor <= 10) {
		return 0, fmt.Errorf("%w: factor against overturning = %g: must be above 0, at most 10", ErrRoll, factor)
	}
	const least, most = 1e3, 1e12
	d.Stiffness = most
	if _, err := d.Solve(); err != nil {
		return 0, err
	}
	of := func(x float64) (Result, error) {
		d.Stiffness = math.Min(math.Max(math.Exp(x), least), most)
		return d.Solve()
	}
	root, err := formula.Root(math.Log(least), math.Log(most), func(x float64) (float64, error) {
		r, err := of(x)
		return r.Overturning - factor, err
	})
	if err != nil {
		return 0, fmt.Errorf("%w: no stiffness from %g to %g N·m/rad gives a factor of %g against overturning: must be a smaller offset, cross-fall or wind, or a wider base: %w", ErrRoll, least, most, factor, err)
	}
	if r, _ := of(root); r.Overturning < factor { // solved without error before
		_, _ = of(root + 1e-12)
	}
	return d.Stiffness, nil
}

func (d Seated) check(s spans) error {
	if err := d.Girder.check(); err != nil {
		return err
	}
	if err := d.Girder.checkSpans("Seated", s); err != nil {
		return err
	}
	err := within("Seated", bound{"Stiffness", d.Stiffness, "N·m/rad", 1e3, 1e12}, bound{"CrossFall", d.CrossFall, "rad", 0, 0.2}, bound{"Height", d.Height, "m", -5, 20},
		bound{"RollCentre", d.RollCentre, "m", 0, 5}, bound{"HalfBase", d.HalfBase, "m", 0.01, 5}, bound{"Kern", d.Kern, "m", 0, 5}, bound{"Offset", d.Offset, "m", 0, 5})
	if err != nil {
		return err
	}
	return d.Wind.check("Seated", d.Girder.Weight)
}
