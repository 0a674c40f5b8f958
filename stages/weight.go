package stages

import (
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
)

// part is one part of the weight or of an action: a line with its line of action,
// or a force at one place.
type part struct {
	mark         string
	piece        int       // of the girder; −1 for an action
	own          bool      // of the outline, not an extra weight
	from, to     float64   // equal for a point, m
	line         []float64 // N/m in s = x − from
	lineY, lineZ []float64 // ∫y dF, ∫z dF per metre, N
	force        float64   // N
	couple       float64   // N·m, anticlockwise, of a part that is a couple
	x, y, z      float64   // of the resultant, m
	uniform      bool
}

// weight is the parts of the element's weight, nominal.
func (e Element) weight() []part {
	var parts []part
	unit := e.unitWeight()
	for _, a := range section.Areas(e.Section, e.Length) {
		p := part{mark: "self-weight", own: true, from: a.From, to: a.To, uniform: true}
		p.line, p.lineY, p.lineZ = times(a.Coefficients[:], unit), times(a.FirstMomentZ[:], unit), times(a.FirstMomentY[:], unit)
		body := a.Body()
		p.force, p.x, p.y, p.z = body.Volume*unit, body.X, body.Y, body.Z
		length := a.To - a.From
		step := length
		for i, c := range a.Coefficients {
			if i > 0 {
				p.uniform = p.uniform && c*step < 1e-12*a.Coefficients[0] && -c*step < 1e-12*a.Coefficients[0]
				step *= length
			}
		}
		if p.uniform {
			p.line = p.line[:1]
		}
		parts = append(parts, p)
	}
	for _, w := range e.Extra {
		p := part{mark: w.Mark, from: w.From, to: w.To, force: w.Weight, x: (w.From + w.To) / 2, y: w.Y, z: w.Z, uniform: true}
		if w.To > w.From {
			p.line = []float64{w.Weight / (w.To - w.From)}
			p.lineY, p.lineZ = times(p.line, w.Y), times(p.line, w.Z)
		}
		parts = append(parts, p)
	}
	return parts
}

func times(coefficients []float64, factor float64) []float64 {
	scaled := make([]float64, len(coefficients))
	for i, c := range coefficients {
		scaled[i] = c * factor
	}
	return scaled
}

// partsOf are loads of an action as parts on its line of action.
func partsOf(mark string, set loads.Set, y, z float64) []part {
	var parts []part
	for _, p := range set.Points {
		parts = append(parts, part{mark: mark, piece: -1, from: p.At, to: p.At, force: p.Force, x: p.At, y: y, z: z})
	}
	for _, l := range set.Lines {
		c := l.Intensity[:]
		parts = append(parts, part{mark: mark, piece: -1, from: l.From, to: l.To, line: c, lineY: times(c, y), lineZ: times(c, z), force: l.Resultant(), x: l.Centre(), y: y, z: z})
	}
	for _, c := range set.Couples {
		parts = append(parts, part{mark: mark, piece: -1, from: c.At, to: c.At, couple: c.Moment, x: c.At, y: y, z: z})
	}
	return parts
}

// along are the parts as loads on a member that begins at from, in a direction.
func along(parts []part, from float64, direction r3.Vec) beam.SpaceLoads {
	var l beam.SpaceLoads
	for _, p := range parts {
		if p.to > p.from {
			l.Lines = append(l.Lines, beam.SpaceLine{
				From: p.from - from, To: p.to - from, Direction: direction, Intensity: p.line, FirstMomentY: p.lineY, FirstMomentZ: p.lineZ,
			})
			continue
		}
		l.Points = append(l.Points, beam.SpacePoint{
			X: p.x - from, Y: p.y, Z: p.z, Force: r3.Scale(p.force, direction), Couple: r3.Vec{Y: -p.couple},
		})
	}
	return l
}

// upTo is the force of a line part between its beginning and s, and its first
// moments about its beginning along x and about y = 0, z = 0.
func (p part) integral(s float64, c []float64, power int) float64 {
	sum, at := 0.0, 1.0
	for range power + 1 {
		at *= s
	}
	for i, v := range c {
		sum += v / float64(i+power+1) * at
		at *= s
	}
	return sum
}

// cutAt splits a part at x, so that each is on one side of it.
func (p part) cutAt(x float64) []part {
	if !(p.from < x && x < p.to) {
		return []part{p}
	}
	left, right := p, p
	left.to, right.from = x, x
	by := x - p.from
	right.line, right.lineY, right.lineZ = shifted(p.line, by), shifted(p.lineY, by), shifted(p.lineZ, by)
	left.resultant()
	right.resultant()
	return []part{left, right}
}

// resultant fills force and place of a line part from its polynomials.
func (p *part) resultant() {
	s := p.to - p.from
	p.force = p.integral(s, p.line, 0)
	if p.force == 0 {
		p.x = p.from + s/2
		return
	}
	p.x = p.from + p.integral(s, p.line, 1)/p.force
	p.y = p.integral(s, p.lineY, 0) / p.force
	p.z = p.integral(s, p.lineZ, 0) / p.force
}

// shifted is the same polynomial in s + by.
func shifted(c []float64, by float64) []float64 {
	p := append([]float64(nil), c...)
	for i := range p { // synthetic division: Taylor coefficients about by
		for k := len(p) - 2; k >= i; k-- {
			p[k] += by * p[k+1]
		}
	}
	return p
}
