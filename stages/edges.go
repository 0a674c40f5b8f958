package stages

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// plan is a point in the horizontal plane: along and across, m.
type plan struct{ along, across float64 }

func (p plan) minus(q plan) plan { return plan{p.along - q.along, p.across - q.across} }

// inPlan is a point of the element seen along gravity.
func inPlan(up r3.Vec, x, y, z float64) plan {
	across, ahead := horizontal(up)
	p := r3.Vec{X: x, Y: y, Z: z}
	return plan{r3.Dot(p, ahead), r3.Dot(p, across)}
}

// edge is a side of the polygon of the supports: what is inside has a positive
// distance.
type edge struct {
	from, to plan
	level    float64 // of its supports, along up, m
}

// inside is the distance of a point inside the edge (m).
func (e edge) inside(p plan) float64 {
	d := e.to.minus(e.from)
	q := p.minus(e.from)
	return (d.along*q.across - d.across*q.along) / math.Hypot(d.along, d.across)
}

// outward is the direction in which an edge is overturned.
func (e edge) outward() plan {
	d := e.to.minus(e.from)
	l := math.Hypot(d.along, d.across)
	return plan{d.across / l, -d.along / l}
}

// edges are the sides of the hull of the support resultants that push: a linked
// group is one point. Of supports on one line they are the two ends, square to it.
func (a *arrangement) edges(up r3.Vec) []edge {
	type place struct {
		plan
		level float64
	}
	var points []place
	for _, c := range a.columns(nil) {
		if len(c.members) == 0 || a.supports[c.members[0]].sense() < 0 {
			continue
		}
		var p place
		n := float64(len(c.members))
		for _, i := range c.members {
			s := a.supports[i]
			q := inPlan(up, s.X, s.Y, s.Z)
			p.along, p.across = p.along+q.along/n, p.across+q.across/n
			p.level += r3.Dot(r3.Vec{X: s.X, Y: s.Y, Z: s.Z}, up) / n
		}
		points = append(points, p)
	}
	slices.SortFunc(points, func(p, q place) int {
		return cmp.Or(cmp.Compare(p.along, q.along), cmp.Compare(p.across, q.across))
	})
	chain := func(list []place) []place {
		var hull []place
		for _, p := range list {
			for len(hull) > 1 {
				u, v := hull[len(hull)-1].minus(hull[len(hull)-2].plan), p.minus(hull[len(hull)-2].plan)
				if u.along*v.across-u.across*v.along > 1e-9 {
					break
				}
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, p)
		}
		return hull
	}
	if len(points) < 2 {
		return nil
	}
	lower := chain(points)
	slices.Reverse(points)
	upper := chain(points)
	hull := append(lower[:len(lower)-1:len(lower)-1], upper[:len(upper)-1]...)
	if len(hull) == 2 { // on one line
		d := hull[1].minus(hull[0].plan)
		l := math.Hypot(d.along, d.across)
		square := plan{-d.across / l, d.along / l}
		end := func(p place, sign float64) edge {
			return edge{plan{p.along - sign*square.along, p.across - sign*square.across}, plan{p.along + sign*square.along, p.across + sign*square.across}, p.level}
		}
		return []edge{end(hull[0], -1), end(hull[1], 1)}
	}
	var list []edge
	for i, p := range hull {
		q := hull[(i+1)%len(hull)]
		list = append(list, edge{p.plan, q.plan, math.Min(p.level, q.level)})
	}
	return list
}
