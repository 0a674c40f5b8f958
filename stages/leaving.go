package stages

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// givenAway is what a support has given away of an entry: its force, and its moments about the
// axes of rotations that it no longer restrains.
type givenAway struct {
	force bool
	axes  []r3.Vec
}

// at is the support of an entry at the same place in the same role that has not gone since;
// −1 for none.
func (e *entry) at(p Support) int {
	i := e.of.index3(p)
	if i >= 0 && e.gave != nil && e.gave[i].force {
		return -1
	}
	return i
}

// gives is what support i gives away of an entry when the body comes to the arrangement a: all
// that it still has where it goes, the moments about axes that it no longer restrains.
func (e *entry) gives(i int, a *arrangement) (now givenAway) {
	var before givenAway
	if e.gave != nil {
		before = e.gave[i]
	}
	q, kept := e.of.supports[i], []r3.Vec(nil)
	if at := a.index3(q); at >= 0 {
		kept = a.supports[at].axes()
	} else {
		now.force = !before.force
	}
	for _, axis := range q.axes() {
		if !slices.Contains(kept, axis) && !slices.Contains(before.axes, axis) {
			now.axes = append(now.axes, axis)
		}
	}
	return now
}

// leaving is what every support gives away of an entry, and the entry after that; false for
// nothing.
func (e entry) leaving(a *arrangement) (now []givenAway, after entry, some bool) {
	after = e
	after.gave = make([]givenAway, len(e.of.supports))
	copy(after.gave, e.gave)
	for i := range e.of.supports {
		g := e.gives(i, a)
		some = some || g.force || len(g.axes) > 0
		now = append(now, g)
		after.gave[i].force = after.gave[i].force || g.force
		after.gave[i].axes = append(slices.Clone(after.gave[i].axes), g.axes...)
	}
	return now, after, some
}

// released are the forces and moments that supports give away of an entry, reversed, on a.
func (r *run) released(a *arrangement, e *entry, now []givenAway, up r3.Vec) beam.SpaceLoads {
	var loads beam.SpaceLoads
	answer, err := r.answer(e.of, e.of.ways[0], e.load, e.state)
	if err != nil { // answered where the entry was made
		return loads
	}
	for i, q := range e.of.supports {
		var p beam.SpacePoint
		if now[i].force {
			p.Force = r3.Scale(-e.coefficient*answer.vertical[i], up)
		}
		for _, axis := range now[i].axes {
			p.Couple = r3.Sub(p.Couple, r3.Scale(e.coefficient*r3.Dot(answer.couples[i], axis), axis))
		}
		if p.Force != (r3.Vec{}) || p.Couple != (r3.Vec{}) {
			p.X, p.Y, p.Z = q.X-a.body.from, q.Y, q.Z
			loads.Points = append(loads.Points, p)
		}
	}
	return loads
}
