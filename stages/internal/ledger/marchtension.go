package ledger

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

// MostTension is [Demand.MostTension] over all situations, and the number of the one that
// has it. Least is an area (m²) that bars reached by tension at x have at least, given the points
// that tension may reach.
func (m *March) MostTension(piece int, bars BarsIn, least LeastBars) (TensionZone, int, error) {
	if len(m.of) == 1 {
		worst, err := m.of[0].MostTension(piece, bars)
		return worst, m.Numbers[0], err
	}
	s := marchTension{March: m, piece: piece, bars: bars, least: least, best: -1, found: make([]tensionNode, len(m.of))}
	if err := s.nodes(); err != nil {
		return s.worst, 0, err
	}
	for i, of := range s.found {
		if !of.zone.Found || of.zone.ratio() < s.worst.ratio()*(1-near) {
			continue
		}
		if err := m.of[i].narrowTension(of.stretch, of.node, piece, bars, &of.zone); err != nil {
			return s.worst, 0, err
		}
		if of.zone.ratio() > s.worst.ratio() {
			s.worst, s.best = of.zone, i
		}
	}
	if s.best < 0 {
		return s.worst, 0, nil
	}
	return s.worst, m.Numbers[s.best], nil
}

// LeastBars is the least area of bars at x (m²) that tension reaches where it may.
type LeastBars func(x float64, may func(section.Point) bool) float64

// marchTension is the search for the tension zone that uses its bars most.
type marchTension struct {
	*March
	piece int
	bars  BarsIn
	least LeastBars
	worst TensionZone
	best  int
	found []tensionNode // of each situation: its worst
}

// tensionNode is a tension zone at a node.
type tensionNode struct {
	zone          TensionZone
	stretch, node int
}

// tensionLine is the situations at a node along the multiples of one plane, with the largest
// forces at both ends.
type tensionLine struct {
	stretch, node int
	at            []float64 // of each situation, 0 to 1; nil where they have no plane in common
	force         [2]float64
	area          float64 // of the bars that it reaches at least, m²
}

// nodes looks at the ends of all lines first, then at what may be worse between them: the
// force is convex along a line, whatever bars it reaches.
func (s *marchTension) nodes() error {
	l := s.of[0].ledger
	var lines []tensionLine
	for _, k := range l.of[s.piece] {
		p := &l.grid[k]
		for n, at := range p.At {
			if slot := at.Slot([]int{s.piece}); slot >= 0 && s.bars(at.X, func(section.Point) float64 { return 1 }) > 0 {
				line, err := s.line(k, n, slot)
				if err != nil {
					return err
				}
				lines = append(lines, line)
			}
		}
	}
	for _, line := range lines {
		for i := range s.of {
			if line.at != nil {
				t := line.at[i]
				force := (line.force[0]*(1-t) + line.force[1]*t) * (1 + 1e-9)
				if force == 0 || line.area > 0 && s.worst.Found && force/line.area < s.worst.ratio()*(1-near) {
					continue
				}
			}
			if err := s.look(i, line.stretch, line.node); err != nil {
				return err
			}
		}
	}
	return nil
}

// look looks at a node in one situation.
func (s *marchTension) look(i, k, n int) error {
	d := s.of[i]
	p := &d.ledger.grid[k]
	zone := TensionZone{Found: s.worst.Found, Force: s.worst.Force * (1 - near), Bars: s.worst.Bars}
	changed, err := d.tensionAt(p, p.At[n], &d.ledger.measured(d.situation, k)[n], s.piece, s.bars, &zone)
	if err != nil || !changed {
		return err
	}
	if of := &s.found[i]; !of.zone.Found || zone.ratio() > of.zone.ratio() {
		*of = tensionNode{zone, k, n}
	}
	if !s.worst.Found || zone.ratio() > s.worst.ratio() {
		s.worst, s.best = zone, i
	}
	return nil
}

// line finds the line of a node and looks at its ends.
func (s *marchTension) line(k, n, slot int) (tensionLine, error) {
	line := tensionLine{stretch: k, node: n}
	at, low, high := s.along(k, n, slot)
	if line.at = at; at == nil {
		return line, nil
	}
	var may [2]func(Spot) bool
	for end, i := range [2]int{low, high} {
		d, zone := s.of[i], TensionZone{}
		p := &d.ledger.grid[k]
		of := &d.ledger.measured(d.situation, k)[n]
		all := func(float64, func(section.Point) float64) float64 { return 1 }
		if _, err := d.tensionAt(p, p.At[n], of, s.piece, all, &zone); err != nil {
			return line, err
		}
		if line.force[end] = zone.Force; zone.Force > 0 {
			if err := s.look(i, k, n); err != nil {
				return line, err
			}
		}
		var err error
		if may[end], err = d.tensile(p, of, slot); err != nil {
			return line, err
		}
		d.tension.free = nil // kept for the other end
	}
	station := s.of[0].ledger.grid[k].At[n]
	sectorial, open := s.of[0].ledger.sectorial(&station.Pieces[slot])
	line.area = s.least(station.X, func(p section.Point) bool { // the largest stress of a point is convex along the line
		spot := spotOf(sectorial, open, p)
		return may[0](spot) || may[1](spot)
	})
	return line, nil
}

// along is where each situation is between the least and the largest multiple, where the
// stresses of the product that differs are multiples of one plane at a node; nil where they are not.
func (m *March) along(k, n, slot int) (at []float64, low, high int) {
	slots := m.of[0].ledger.grid[k].At[n].slots()
	plane := func(i int) [4]float64 {
		p := &m.does(i, k).parts[n*slots+slot].Plane
		return [4]float64{p.Constant, p.SlopeY, p.SlopeZ, p.Warping}
	}
	unit, most := plane(0), 0.0
	for i := range m.of {
		one := plane(i)
		if size := dot(&one, &one); size > most {
			unit, most = one, size
		}
	}
	at = make([]float64, len(m.of))
	for i := range m.of {
		if most == 0 {
			break
		}
		one := plane(i)
		at[i] = dot(&one, &unit) / most
		for j := range one {
			if math.Abs(one[j]-at[i]*unit[j]) > 1e-12*math.Sqrt(most) {
				return nil, 0, 0
			}
		}
		if at[i] < at[low] {
			low = i
		}
		if at[i] > at[high] {
			high = i
		}
	}
	from, to := at[low], at[high]
	for i := range at {
		if at[i] -= from; to > from {
			at[i] /= to - from
		}
	}
	return at, low, high
}

func dot(a, b *[4]float64) (sum float64) {
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
