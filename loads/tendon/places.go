package tendon

import "math"

// NullPoint is the place (m along x) that does not move while the jacks pull: where the
// movements to both ends part; the far anchor of a tendon jacked at one end. The force
// of the last jacking is smallest there, but for a tendon without friction, whose
// middle is given. ok is false for a force that is given or pretensioned, and for none.
func (f *Force) NullPoint() (x float64, ok bool) {
	if !f.made() || f.course != nil {
		return 0, false
	}
	return f.parting(), true
}

// Mean is the mean force along the tendon from anchor to anchor after lock-off, ∫P ds
// over its length (N).
func (f *Force) Mean() float64 {
	if !f.made() {
		return 0
	}
	from, to := f.Path.From(), f.Path.To()
	if f.course != nil {
		return f.Path.Mean(from, to, f.At, f.Breaks()...)
	}
	return f.work(f.zones, from, to) / f.Path.Length(to)
}

// Beside is the force just left and just right of x after lock-off (N): at a kink,
// where friction acts at one place, the two differ; 0 on the outer side of an anchor
// and beyond.
func (f *Force) Beside(x float64) (before, after float64) {
	after = f.At(x)
	if !f.made() || x <= f.Path.From() || !(x <= f.Path.To()) {
		return 0, after
	}
	before = after
	if f.course != nil {
		before = f.course.before(x).mean
	} else {
		for i := 1; i < len(f.Path.stretches); i++ {
			if s := &f.Path.stretches[i-1]; math.Abs(x-s.to) <= jumpTolerance {
				before = f.before(f.zones, x, s.angle+s.turn(x))
			}
		}
	}
	if x >= f.Path.To() {
		after = 0
	}
	return before, after
}
