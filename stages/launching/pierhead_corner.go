package launching

import (
	"math"

	"github.com/tempstage/tempstage/stages/limits"
)

// Directions of the nominal horizontal force.
const (
	none = iota
	forward
	aside
)

// nominalWord is the mark of the nominal horizontal force.
const nominalWord = "nominal horizontal force"

// sought is the weight of each resultant in what is made as large as it can be.
type sought struct{ down, along, across, momentAlong, momentAcross float64 }

func (w *sought) scale(by float64) {
	w.down, w.along, w.across, w.momentAlong, w.momentAcross = by*w.down, by*w.along, by*w.across, by*w.momentAlong, by*w.momentAcross
}

// headPart are the chosen parts of a force.
type headPart struct{ down, along, across, turn float64 }

// of is the part of a force with chosen parts in what is sought.
func (w sought) of(f HeadForce, p headPart) float64 {
	return w.down*p.down + w.along*p.along + w.across*p.across + w.momentAlong*(p.down*f.X+p.along*f.Z) + w.momentAcross*(p.down*f.Y+p.across*f.Z+p.turn)
}

// corner is the corner at which what is sought is largest, with the nominal horizontal
// force in a direction and sense: 2.5 % of the vertical force without the known horizontal
// forces of that direction, as far as they may be absent, or 1 % beside them. Both are
// linear in every part, so that each is at an end of its range.
func (h PierHead) corner(w sought, direction int, sense float64) (best HeadCorner) {
	per := map[int]float64{none: 0, forward: sense * (w.along + w.momentAlong*h.NominalAt), aside: sense * (w.across + w.momentAcross*h.NominalAt)}[direction] // per newton of the nominal force
	most := math.Inf(-1)
	for _, share := range [3]float64{limits.NominalAlone, limits.NominalBeside, 0} { // without any where nothing presses
		linear := w
		linear.down += share * per
		c := h.chosen(linear, direction, sense, share)
		if value := w.down*c.Down + w.along*c.Along + w.across*c.Across + w.momentAlong*c.MomentAlong + w.momentAcross*c.MomentAcross; value > most {
			most, best = value, c
			best.Governs = h.governs(w, c)
		}
	}
	return best
}

// chosen is the corner with every part at the end of its range that makes a linear sum
// large, and a nominal force of a share of the vertical force.
func (h PierHead) chosen(w sought, direction int, sense, share float64) (c HeadCorner) {
	c.direction, c.sense, c.share = direction, sense, share
	for _, f := range h.Forces {
		p := headPart{
			down: end(f.Down, w.down+w.momentAlong*f.X+w.momentAcross*f.Y), along: end(f.Along, w.along+w.momentAlong*f.Z),
			across: end(f.Across, w.across+w.momentAcross*f.Z), turn: end(f.Turn, w.momentAcross),
		}
		if share == limits.NominalAlone {
			switch direction {
			case forward:
				p.along = absent(f.Along)
			case aside:
				p.across = absent(f.Across)
			}
		}
		c.parts = append(c.parts, p)
		c.Down, c.Along, c.Across = c.Down+p.down, c.Along+p.along, c.Across+p.across
		c.MomentAlong += p.down*f.X + p.along*f.Z
		c.MomentAcross += p.down*f.Y + p.across*f.Z + p.turn
	}
	c.nominal = math.Max(0, share*c.Down)
	switch direction {
	case forward:
		c.Along, c.MomentAlong = c.Along+sense*c.nominal, c.MomentAlong+sense*c.nominal*h.NominalAt
	case aside:
		c.Across, c.MomentAcross = c.Across+sense*c.nominal, c.MomentAcross+sense*c.nominal*h.NominalAt
	}
	return c
}

// absent is the value of a range nearest to nothing.
func absent(r Range) float64 {
	return math.Min(math.Max(0, r.Least), math.Max(0, r.Most)) + math.Min(0, r.Most)
}

// end is the end of a range with the larger product; where that is 0, the larger value.
func end(r Range, per float64) float64 {
	if per < 0 || per == 0 && math.Abs(r.Least) > math.Abs(r.Most) {
		return r.Least
	}
	return r.Most
}

// governs is the mark of what has the largest part in what is sought.
func (h PierHead) governs(w sought, c HeadCorner) (mark string) {
	most := math.Inf(-1)
	for i, f := range h.Forces {
		if part := w.of(f, c.parts[i]); part > most {
			most, mark = part, f.Mark
		}
	}
	force := HeadForce{Z: h.NominalAt}
	p := headPart{}
	switch c.direction {
	case forward:
		p.along = c.sense * c.nominal
	case aside:
		p.across = c.sense * c.nominal
	}
	if c.nominal > 0 && w.of(force, p) > most {
		return nominalWord
	}
	return mark
}
