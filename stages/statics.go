package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
)

// system is the element on one set of supports.
type system struct {
	supports  []Support
	lines     []lineOfSupports
	length    float64
	axis      float64 // y of the axis about which torsion is reckoned
	parts     []part
	reactions []float64 // of each support under the weight at factor 1
	response  *beam.Response
}

// newSystem finds reactions and fields of the weight by statics.
func newSystem(supports []Support, parts []part, length, axis float64) (*system, error) {
	lines, err := arrange(supports, length)
	if err != nil {
		return nil, err
	}
	s := &system{supports: supports, lines: lines, length: length, axis: axis}
	for _, l := range lines {
		parts = cut(parts, l.x)
	}
	s.parts = parts
	if err := s.balanced(parts); err != nil {
		return nil, err
	}
	s.reactions = s.share(parts)
	s.response, err = s.solve(loadSet(parts), s.reactions)
	return s, err
}

// cut splits line parts at x, so that each lies on one side of it.
func cut(parts []part, x float64) []part {
	var pieces []part
	for _, p := range parts {
		if !(p.from < x && x < p.to) {
			pieces = append(pieces, p)
			continue
		}
		for _, ends := range [][2]float64{{p.from, x}, {x, p.to}} {
			piece := p
			piece.from, piece.to = ends[0], ends[1]
			piece.line = loads.Line{From: ends[0], To: ends[1], Intensity: shifted(p.line.Intensity, ends[0]-p.from)}
			piece.force, piece.x = piece.line.Resultant(), piece.line.Centre()
			pieces = append(pieces, piece)
		}
	}
	return pieces
}

// shifted is the same polynomial in s + by.
func shifted(p loads.Polynomial, by float64) loads.Polynomial {
	for i := range p { // synthetic division: Taylor coefficients about by
		for k := len(p) - 2; k >= i; k-- {
			p[k] += by * p[k+1]
		}
	}
	return p
}

// balanced refuses a mass centre off the axis between two lines of which none
// can take a torque: the piece would roll.
func (s *system) balanced(parts []part) error {
	for _, l := range s.lines {
		if l.holdsTwist() || s.clamped() {
			return nil
		}
	}
	size, torque := 0.0, 0.0
	for _, p := range parts {
		size += math.Abs(p.force)
		torque += p.force * p.y
	}
	forces := s.lineForces(parts)
	for i, l := range s.lines {
		torque -= forces[i] * l.resultants[0].y
	}
	if off := torque / math.Max(size, 1e-300); math.Abs(off) > 1e-6*s.length {
		return fmt.Errorf("the mass centre lies %.4g m beside the line between the supports: allowed on it, or supports in pairs", off)
	}
	return nil
}

func (s *system) clamped() bool { return s.supports[0].Clamped }

// lineForces are the forces of the lines of supports (N, upwards).
func (s *system) lineForces(parts []part) []float64 {
	total, moment := 0.0, 0.0
	for _, p := range parts {
		total += p.force
		moment += p.force*(p.x-s.lines[0].x) - p.couple
	}
	if len(s.lines) == 1 {
		return []float64{total}
	}
	second := moment / (s.lines[1].x - s.lines[0].x)
	return []float64{total - second, second}
}

// lineTorques are the torques about the axis (N·m, right hand about +x) that the
// lines must give. Where both can, they share like the reactions of a bar of
// uniform torsional stiffness.
func (s *system) lineTorques(parts []part, forces []float64) []float64 {
	torques := make([]float64, len(s.lines))
	if len(s.lines) == 1 {
		for _, p := range parts {
			torques[0] += p.force * (p.y - s.axis)
		}
		return torques
	}
	a, b := s.lines[0], s.lines[1]
	for _, p := range parts {
		torque := p.force * (p.y - s.axis)
		share := math.Max(0, math.Min(1, (p.x-a.x)/(b.x-a.x)))
		torques[0] += torque * (1 - share)
		torques[1] += torque * share
	}
	for i, l := range s.lines { // a line of one resultant takes only what its own offset gives
		if other := 1 - i; !l.holdsTwist() {
			own := forces[i] * (l.resultants[0].y - s.axis)
			torques[other] += torques[i] - own
			torques[i] = own
		}
	}
	return torques
}

// share are the forces of the supports (N, upwards) under parts of the weight.
func (s *system) share(parts []part) []float64 {
	reactions := make([]float64, len(s.supports))
	forces := s.lineForces(parts)
	torques := s.lineTorques(parts, forces)
	for i, l := range s.lines {
		split := []float64{forces[i]}
		if l.holdsTwist() {
			y0, y1 := l.resultants[0].y-s.axis, l.resultants[1].y-s.axis
			second := (torques[i] - forces[i]*y0) / (y1 - y0)
			split = []float64{forces[i] - second, second}
		}
		for k, r := range l.resultants {
			for _, member := range r.members {
				reactions[member] = split[k] / float64(len(r.members))
			}
		}
	}
	return reactions
}

// solve gives the fields under a set of loads whose reactions are known: the
// beam rests on one support of each line, the other forces act as loads.
func (s *system) solve(set loads.Set, reactions []float64) (*beam.Response, error) {
	layout := beam.Layout{Length: s.length, Stiffness: []beam.Stretch{{BendingStiffness: 1e9}}}
	held := map[int]bool{}
	for _, l := range s.lines {
		first := l.resultants[0].members[0]
		held[first] = true
		layout.Supports = append(layout.Supports, beam.Support{At: s.supports[first].X, Clamped: s.clamped()})
	}
	for i, r := range reactions {
		if !held[i] {
			set.Points = append(set.Points, loads.Point{At: s.supports[i].X, Force: -r})
		}
	}
	b, err := beam.New(layout)
	if err != nil {
		return nil, err
	}
	return b.Solve(set)
}

// other are reactions and fields of other vertical loads on the axis.
func (s *system) other(set loads.Set) ([]float64, *beam.Response, error) {
	parts := partsOf(set, s.axis)
	if err := s.balanced(parts); err != nil {
		return nil, nil, fmt.Errorf("other loads: %w", err)
	}
	reactions := s.share(parts)
	response, err := s.solve(set, reactions)
	return reactions, response, err
}

// coupleMark names a part that is a couple: it has no force of its own.
const coupleMark = "couple"

// partsOf are other loads as parts on the axis.
func partsOf(set loads.Set, axis float64) []part {
	var parts []part
	for _, p := range set.Points {
		parts = append(parts, part{mark: "point load", from: p.At, to: p.At, force: p.Force, x: p.At, y: axis})
	}
	for _, l := range set.Lines {
		parts = append(parts, part{mark: "line load", from: l.From, to: l.To, line: l, force: l.Resultant(), x: l.Centre(), y: axis})
	}
	for _, c := range set.Couples {
		parts = append(parts, part{mark: coupleMark, from: c.At, to: c.At, couple: c.Moment, x: c.At, y: axis})
	}
	return parts
}

// forces are My, Vz and T of the weight at factor 1 at x.
func (s *system) forces(x float64) section.Forces {
	state := s.response.At(x, beam.RightOf)
	return section.Forces{My: state.Moment, Vz: state.Shear, T: s.torsion(x)}
}

// torsion is T at x: what the part to the left of x gives to the rest.
func (s *system) torsion(x float64) float64 {
	sum := 0.0
	for _, p := range s.parts {
		if p.from >= x || p.y == s.axis {
			continue
		}
		force := p.force
		if p.to > x {
			force = p.line.Intensity.Integral(x - p.from)
		}
		sum += force * (p.y - s.axis)
	}
	for i, r := range s.reactions {
		if y := s.supports[i].Y - s.axis; s.supports[i].X < x && y != 0 {
			sum -= r * y
		}
	}
	return sum
}

// same is true for systems on the same supports.
func (s *system) same(supports []Support) bool {
	if len(s.supports) != len(supports) {
		return false
	}
	for i := range supports {
		if s.supports[i] != supports[i] {
			return false
		}
	}
	return true
}
