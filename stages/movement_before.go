package stages

import "slices"

// movementsBefore are the movements of every body of the situation before s, on the day of
// s and on the supports before: what has come by then, without what s does.
func (r *run) movementsBefore(s *situation) ([]*Movement, error) {
	if s.index == 0 {
		return nil, nil
	}
	before := r.situations[s.index-1]
	if err := r.liftsOff(before); err != nil {
		return nil, err
	}
	var list []*Movement
	for i, b := range before.bodies {
		on := r.stood(before.index, i)
		m, err := r.movement(b, on, s, r.motion.before[s.index], s.from)
		if err != nil {
			return nil, err
		}
		m.places(r, b, on)
		list = append(list, m)
	}
	return list, nil
}

// CreepPart is the part of deflection and slope at x (m, rad) that has come by creep,
// shrinkage and the losses that grow with them: the part on which the band of 30 % is.
func (m *Movement) CreepPart(x float64) (deflection, slope float64) { return m.up[1].at(x) }

// Datum are the x (m) at which the deflection is zero: of the first and the last line of
// supports; one where there is one line, and of a fixed support, at which the slope is zero
// as well.
func (m *Movement) Datum() []float64 { return slices.Clone(m.datum) }
