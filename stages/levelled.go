package stages

import "slices"

// outOfLevel is the distance of one support from the plane of the others (m) that acts in a
// situation: the largest of its own and of those of the standing situations before it on
// the same supports, whose forces it keeps.
func (r *run) outOfLevel(s *situation) float64 {
	most := 0.0
	for i := s.index; i >= 0; i-- {
		t := r.situations[i]
		switch {
		case i < s.index && !t.Standing:
			continue
		case !slices.EqualFunc(t.Supports, s.Supports, samePlace):
			return most
		}
		most = max(most, t.OutOfLevel)
	}
	return most
}

// samePlace is true for supports at one place with one stiffness.
func samePlace(p, q Support) bool {
	return p.X == q.X && p.Y == q.Y && p.Z == q.Z && p.Stiffness == q.Stiffness && p.Group == q.Group && p.Role == q.Role
}
