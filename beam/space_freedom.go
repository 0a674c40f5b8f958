package beam

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Freedom is a rigid-body motion: a translation of the point at the origin
// and a rotation about it (right hand), scaled so that its largest component
// is 1 (m or rad).
type Freedom struct {
	Translation, Rotation r3.Vec
}

// String is the motion in words.
func (f Freedom) String() string {
	names := [...]struct {
		size float64
		word string
	}{
		{f.Rotation.X, "roll about the axis"}, {f.Rotation.Y, "pitch"}, {f.Rotation.Z, "turn in plan"},
		{f.Translation.X, "move along"}, {f.Translation.Y, "move sideways"}, {f.Translation.Z, "move up and down"},
	}
	for i, n := range names {
		if i == 0 && n.size != 0 && (f.Translation.Y != 0 || f.Translation.Z != 0) {
			// The translation at the origin is ω × (0 − r), so the axis of rotation is here.
			y, z := -f.Translation.Z/n.size, f.Translation.Y/n.size
			return fmt.Sprintf("roll about y = %.4g m, z = %.4g m", y, z)
		}
		if n.size != 0 {
			return n.word
		}
	}
	return "rest"
}

// findFreedoms completes the basis of what is held to all six motions and
// writes the rest so that each freedom moves in as few ways as possible.
func (s *Space) findFreedoms() {
	all := primary{basis: append([]vector6(nil), s.primary.basis...)}
	for len(all.basis) < 6 {
		var best vector6
		most := 0.0
		for k := range 6 {
			var v vector6
			v[k] = 1
			for i := range all.basis {
				v.add(-v.dot(&all.basis[i]), &all.basis[i])
			}
			if size := v.dot(&v); size > most*(1+heldBelow) {
				best, most = v, size
			}
		}
		all.orthogonal(&best)
		all.basis = append(all.basis, best)
	}
	free := all.basis[s.primary.rank():]
	tidy(free)
	s.unheld = free
	s.free = make([]Freedom, len(free))
	for i := range free {
		s.free[i] = s.freedom(free[i])
	}
}

// tidy is Gauss-Jordan elimination with the largest term as pivot; what is
// rounding becomes zero.
func tidy(rows []vector6) {
	var used [6]bool
	for range rows {
		row, column, most := -1, 0, heldBelow
		for i := range rows {
			if used[i] {
				continue
			}
			for k, v := range rows[i] {
				if math.Abs(v) > most*(1+heldBelow) {
					row, column, most = i, k, math.Abs(v)
				}
			}
		}
		if row < 0 {
			return
		}
		used[row] = true
		pivot := 1 / rows[row][column]
		for k := range rows[row] {
			rows[row][k] *= pivot
		}
		for i := range rows {
			if i != row {
				rows[i].add(-rows[i][column], &rows[row])
			}
		}
	}
	for i := range rows {
		for k := range rows[i] {
			if math.Abs(rows[i][k]) < heldBelow {
				rows[i][k] = 0
			}
		}
	}
}

// freedom is a motion about the reference point as one about the origin.
func (s *Space) freedom(v vector6) Freedom {
	turn := r3.Scale(1/s.size, r3.Vec{X: v[3], Y: v[4], Z: v[5]})
	shift := r3.Vec{X: v[0], Y: v[1], Z: v[2]}
	shift = r3.Add(shift, r3.Cross(turn, r3.Vec{X: -s.layout.Length / 2}))
	largest := 0.0
	for _, c := range [...]float64{shift.X, shift.Y, shift.Z, turn.X, turn.Y, turn.Z} {
		if math.Abs(c) > math.Abs(largest)*(1+heldBelow) {
			largest = c
		}
	}
	return Freedom{r3.Scale(1/largest, shift), r3.Scale(1/largest, turn)}
}
