package roll

import "math"

// Hung is a girder that hangs from two lift points, free to roll about the line
// through them.
type Hung struct {
	Girder      Girder
	Left, Right float64 // of the lift points from the ends, m, at most 0.45 of the length
	Axis        float64 // height of the roll axis above the centre of gravity of the straight girder, m, −20 to 20: that of the lift points; with rigid links of the pins above them
	Offset      float64 // of the lift points from the centre of gravity, by setting out, m, 0 to 1
	Wind        Wind    // its Height is above the centre of gravity
}

// Solve is how the girder hangs. The error wraps [ErrRoll].
func (h Hung) Solve() (Result, error) {
	r, err := h.solve()
	return r.Result, err
}

func (h Hung) solve() (solved, error) {
	g, s := h.Girder, spans{h.Left, h.Right}
	if err := h.check(s); err != nil {
		return solved{}, err
	}
	r := g.begin(s, h.Offset)
	rise := g.Camber * g.mean(s)
	r.Arm, r.Needed = h.Axis-rise, r.Bow+rise
	if r.Stable = r.Arm > r.Bow; !r.Stable {
		return r.stuck(), nil
	}
	below := r.Arm - h.Wind.Height // of the wind below the roll axis
	for _, push := range h.Wind.sides(g.Weight) {
		offset := r.Offset - push*below
		r.Tilt = math.Max(r.Tilt, math.Abs(offset+push*r.Bow)/(r.Arm-r.Bow))
		r.RigidTilt = math.Max(r.RigidTilt, math.Abs(offset)/r.Arm)
		b := balance{push, func(tilt float64) float64 { return r.Arm * tilt }, func(tilt, bow float64) float64 { return bow*(tilt+push) + offset }}
		r.cracking(b)
		tilt, f := r.largest(b)
		r.overturning(b, tilt, f)
	}
	return r.rests(), nil
}

// largest is the tilt up to the steepest at which the factor against overturning is
// largest, and the factor. The turning arm is c + B·θ + 2.5·z0·θ², the resisting one in
// proportion to θ: at √(c/(2.5·z0)). With c = 0 both vanish at no tilt, in the ratio
// that is given.
func (r *solved) largest(b balance) (tilt, most float64) {
	c := b.turns(0, r.Bow)
	if c == 0 {
		return 0, factor(r.Arm, r.Bow*(1+softening*b.push))
	}
	tilt = math.Min(steepest, math.Sqrt(math.Max(0, c)/(softening*r.Bow)))
	return tilt, r.cracked(b, tilt)
}

func (h Hung) check(s spans) error {
	if err := h.Girder.check(); err != nil {
		return err
	}
	if err := h.Girder.checkSpans("Hung", s); err != nil {
		return err
	}
	if err := within("Hung", bound{"Axis", h.Axis, "m", -20, 20}, bound{"Offset", h.Offset, "m", 0, 1}); err != nil {
		return err
	}
	return h.Wind.check("Hung", h.Girder.Weight)
}
