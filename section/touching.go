package section

import "math"

// tie is how much the radii of circles may differ that are one, whatever the
// rounding.
const tie = 1 - 1e-9

// touching is the largest circle in the concrete that touches a face at a spot, with
// its centre in the direction of the unit vector in. Where it touches again in two
// places at once the wall changes there: behind goes with the wall up to the spot,
// ahead with that from it on. So nothing depends on the order of the faces.
type touching struct {
	near          spot
	in            Point
	radius        float64
	behind, ahead spot
}

// touch takes a circle that touches again at far, unless a smaller one does. Along
// the walk the radius falls by the lean of the chord to far, r' = −lean, and round a
// corner by r·lean: the wall that leans most goes on.
func (c *touching) touch(radius float64, far spot) {
	switch {
	case radius < c.radius*tie:
		c.radius, c.behind, c.ahead = radius, far, far
	case c.lean(far) < c.lean(c.behind):
		c.behind = far
	case c.lean(far) > c.lean(c.ahead):
		c.ahead = far
	}
}

// lean is that of a chord along the walk.
func (c *touching) lean(far spot) float64 {
	way := far.at.minus(c.near.at)
	return (way.Y*c.in.Z - way.Z*c.in.Y) / dot(way, c.in)
}

// stations are those of the circle behind and ahead; one where both touch in one
// place.
func (c *touching) stations() (reached, left station) {
	left = station{near: c.near, far: c.ahead, radius: c.radius}
	left.centre = Point{c.near.at.Y + c.radius*c.in.Y, c.near.at.Z + c.radius*c.in.Z}
	if !(distance(c.behind.at, c.ahead.at) > 1e-6*c.radius) {
		return left, left
	}
	reached = left
	reached.far = c.behind
	return reached, left
}

// inscribed is the station at a spot, with the circle's centre in the direction of
// the unit vector in, as it is reached and as it is left.
func (n *wallNet) inscribed(near spot, in Point) (reached, left station) {
	c := touching{near: near, in: in, radius: math.Inf(1)}
	p := near.at
	own := &n.faces[near.face]
	for j := range n.faces {
		f := &n.faces[j]
		d := p.minus(f.from)
		if f.turnFrom < 0 {
			if ahead := -dot(in, d); ahead > n.least {
				if r := dot(d, d) / (2 * ahead); r*tie <= c.radius {
					c.touch(r, spot{j, 0, f.from})
				}
			}
		}
		height := dot(d, f.in)
		if height <= n.least || j == near.face || j == own.after && own.turnTo < gentlest || j == own.before && own.turnFrom < gentlest {
			continue
		}
		facing := 1 - dot(in, f.in)
		if height*tie > c.radius*facing {
			continue
		}
		r := height / facing
		at := Point{p.Y + r*(in.Y-f.in.Y), p.Z + r*(in.Z-f.in.Z)}
		if along := dot(at.minus(f.from), f.along); along >= -n.least && along <= f.length+n.least {
			c.touch(r, spot{j, math.Max(0, math.Min(1, along/f.length)), at})
		}
	}
	return c.stations()
}
