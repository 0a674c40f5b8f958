package tendon

import "math"

// course is a force that is stated place by place and linear between: the other
// form, beside zones of friction, that a [Force] can have. Two ordinates at one x
// are a step.
type course []ordinate

// ordinate is the force at a place (N) and the range in which it may be.
type ordinate struct{ x, least, mean, most float64 }

// at is the force at x, right of a step. x must be within the course.
func (c course) at(x float64) ordinate {
	i := len(c) - 2
	for i > 0 && x < c[i].x {
		i--
	}
	return c.between(i, x)
}

// before is the force just left of x.
func (c course) before(x float64) ordinate {
	i := len(c) - 2
	for i > 0 && x <= c[i].x {
		i--
	}
	return c.between(i, x)
}

// between is the force at x on the line from ordinate i to the next.
func (c course) between(i int, x float64) ordinate {
	a, b := c[i], c[i+1]
	t := math.Max(0, math.Min(1, (x-a.x)/(b.x-a.x)))
	mix := func(a, b float64) float64 { return a*(1-t) + b*t }
	return ordinate{x, mix(a.least, b.least), mix(a.mean, b.mean), mix(a.most, b.most)}
}

// times is the course of a fraction of the force.
func (c course) times(fraction float64) course {
	if c == nil {
		return nil
	}
	scaled := make(course, len(c))
	for i, o := range c {
		scaled[i] = ordinate{o.x, o.least * fraction, o.mean * fraction, o.most * fraction}
	}
	return scaled
}
