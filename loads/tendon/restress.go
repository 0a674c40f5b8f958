package tendon

import "fmt"

// Restress is the force after the tendon is jacked again at the ends named: the new
// force applies where it is above the present one, beyond that nothing moves; then the
// wedges draw in again. Stressing one end first and the other later is Jack with
// LeftEnd and Restress with RightEnd. The error wraps [ErrTendon], also where the
// jacking stress is below the lift-off force. Losses of force since the last jacking
// are not in f: see [Force.Retained].
func (f *Force) Restress(j Jacking) (*Force, error) {
	next, jack, err := f.next(j, "Restress")
	if err != nil {
		return nil, err
	}
	for _, end := range j.Ends.sides() {
		anchor := f.atAnchor(end)
		if jack <= anchor {
			return nil, fmt.Errorf("%w: tendon %s: Jacking.Stress = %g Pa is below the lift-off force: must be above %g Pa, the stress there", ErrTendon, f.Tendon.Mark, j.Stress, anchor/f.Tendon.Area())
		}
		if j.Given == nil {
			next.jacked = next.replace(next.jacked, end, next.pulled(end, jack), true)
		}
	}
	return next.locked()
}

// Detension is the force after the anchors at the ends named have been let down to
// Jacking.Stress, with the draw-in of locking off there again: friction reverses from
// the anchor as far as the tendon moves. Neglected: the force that first frees the
// wedges. The error wraps [ErrTendon], also where the stress is not below that at the
// anchor.
func (f *Force) Detension(j Jacking) (*Force, error) {
	next, force, err := f.next(j, "Detension")
	if err != nil {
		return nil, err
	}
	for _, end := range j.Ends.sides() {
		anchor := f.atAnchor(end)
		if force >= anchor {
			return nil, fmt.Errorf("%w: tendon %s: Jacking.Stress = %g Pa does not let the anchor down: must be below %g Pa, the stress there", ErrTendon, f.Tendon.Mark, j.Stress, anchor/f.Tendon.Area())
		}
		if j.Given == nil {
			next.jacked = next.replace(next.jacked, end, next.eased(end, force), false)
		}
	}
	next.letDown = true
	return next.locked()
}

// Retained is the force after losses since the last jacking, in proportion to the
// force: fraction of it remains, above 0 to 1. Use it before Restress when time has
// passed. The error wraps [ErrTendon].
func (f *Force) Retained(fraction float64) (*Force, error) {
	if !f.made() {
		return nil, f.unmade("Retained")
	}
	if !(fraction > 0 && fraction <= 1) {
		return nil, fmt.Errorf("%w: tendon %s: fraction = %g of the force retained: must be above 0 to 1", ErrTendon, f.Tendon.Mark, fraction)
	}
	next := *f
	next.course = f.course.times(fraction)
	if f.bond != nil {
		next.bond = &bond{f.bond.layer, f.bond.stress * fraction, f.bond.lengths}
	}
	next.zones = make([]zone, len(f.zones))
	for i, z := range f.zones {
		next.zones[i] = z
		next.zones[i].at0 *= fraction
		next.zones[i].jack *= fraction
	}
	return &next, nil
}

// next starts a further event from the force that is there.
func (f *Force) next(j Jacking, event string) (*Force, float64, error) {
	if !f.made() {
		return nil, 0, f.unmade(event)
	}
	if err := j.of(f.Tendon.Mark); err != nil {
		return nil, 0, err
	}
	if j.Given != nil && f.bond == nil {
		next, err := f.Tendon.given(j, f.Path)
		return next, j.Stress * f.Tendon.Area(), err
	}
	if err := f.calculated(event); err != nil {
		return nil, 0, err
	}
	next := *f
	next.Jacking, next.earlier, next.jacked, next.letDown = j, f.zones, f.zones, false
	return &next, j.Stress * f.Tendon.Area(), nil
}

// atAnchor is the force at an end (N).
func (f *Force) atAnchor(end side) float64 {
	if end == right {
		return f.At(f.Path.To())
	}
	return f.At(f.Path.From())
}

// sides are the ends that move.
func (e Ends) sides() []side {
	switch e {
	case LeftEnd:
		return []side{left}
	case RightEnd:
		return []side{right}
	}
	return []side{left, right}
}
