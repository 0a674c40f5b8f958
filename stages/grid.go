package stages

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"github.com/tempstage/tempstage/section"
)

// nodes is how many Chebyshev points carry a piece: polynomials of degree 8.
const nodes = 9

// resolved is how well the polynomial through the nodes of a piece must meet
// the stress between them, relative to the largest stress.
const resolved = 1e-9

// piece is a stretch of the element on which every stress is smooth.
type piece struct {
	from, to float64
	at       [nodes]*station // from left to right, the ends a hair inside
}

// inset keeps the end nodes of a piece on its own side of a jump, as a fraction
// of the element's length; stresses change by less than that.
const inset = 4e-9

// makeGrid cuts the length at every place where a law changes, and further until
// the prestress stress is resolved in each piece.
func (r *run) makeGrid() error {
	length := r.element.Length
	breaks := append([]float64{0, length}, r.element.Section.Breaks()...)
	for _, p := range r.parts {
		breaks = append(breaks, p.from, p.to)
	}
	for _, s := range r.situations {
		for _, support := range s.Supports {
			breaks = append(breaks, support.X)
		}
		for _, l := range s.Loads.Lines {
			breaks = append(breaks, l.From, l.To)
		}
		for _, p := range s.Loads.Points {
			breaks = append(breaks, p.At)
		}
		for _, c := range s.Loads.Couples {
			breaks = append(breaks, c.At)
		}
		for _, zone := range r.disturbed(s.steps) {
			breaks = append(breaks, zone[0], zone[1])
		}
	}
	for i, f := range r.forces {
		breaks = append(breaks, r.paths[i].Breaks()...)
		if f != nil {
			breaks = append(breaks, f.Breaks()...)
		}
	}
	for _, b := range r.element.Bars {
		breaks = append(breaks, b.From, b.To)
	}
	sort.Float64s(breaks)
	last := math.Inf(-1)
	for _, x := range breaks {
		if x < 0 || x > length || x-last < 5*inset*length { // one place
			continue
		}
		if last >= 0 {
			if err := r.addPiece(last, x, 6); err != nil {
				return err
			}
		}
		last = x
	}
	return nil
}

// addPiece adds the piece, or its halves where it is not resolved.
func (r *run) addPiece(from, to float64, halvings int) error {
	p := piece{from: from, to: to}
	for i := range p.at {
		t := math.Cos(math.Pi * float64(nodes-1-i) / (nodes - 1))
		p.at[i] = r.at((from+to)/2 + t*((to-from)/2-inset*r.element.Length))
		if len(p.at[i].corners) != len(p.at[0].corners) {
			return fmt.Errorf("%w: Element.Section has %d corners at x = %g m and %d at x = %g m: allowed the same number between its Breaks",
				ErrStage, len(p.at[0].corners), p.at[0].x, len(p.at[i].corners), p.at[i].x)
		}
	}
	if halvings > 0 && !r.smooth(&p) {
		middle := (from + to) / 2
		if err := r.addPiece(from, middle, halvings-1); err != nil {
			return err
		}
		return r.addPiece(middle, to, halvings-1)
	}
	r.grid = append(r.grid, p)
	return nil
}

// smooth compares the stress at the highest and the lowest corner halfway
// between nodes with the polynomial through the nodes: prestress, and a unit
// moment on each section.
func (r *run) smooth(p *piece) bool {
	x := p.from + 0.45*(p.to-p.from) // no node
	between := r.at(x)
	for _, sample := range r.samples() {
		var values [nodes]float64
		scale := 0.0
		for i, s := range p.at {
			values[i] = sample(s)
			scale = math.Max(scale, math.Abs(values[i]))
		}
		if math.Abs(p.interpolate(values, x)-sample(between)) > resolved*scale {
			return false
		}
	}
	return true
}

func (r *run) samples() []func(*station) float64 {
	var samples []func(*station) float64
	for k := range r.steps {
		for _, low := range []bool{true, false} {
			samples = append(samples, func(s *station) float64 { return s.steps[k+1].plane.At(s.extremeCorner(low)) })
		}
	}
	for k := range r.situations {
		if r.element.LongTerm != nil {
			samples = append(samples, func(s *station) float64 { return s.longTerm[k].plane.At(s.extremeCorner(true)) })
		}
	}
	for k := range r.sections {
		samples = append(samples, func(s *station) float64 {
			return s.states[k].Stress(section.Forces{My: 1}, s.extremeCorner(true))
		})
	}
	return samples
}

// extremeCorner is the lowest or the highest corner.
func (s *station) extremeCorner(low bool) section.Point {
	best := s.corners[0]
	for _, c := range s.corners {
		if (c.Z < best.Z) == low && c.Z != best.Z {
			best = c
		}
	}
	return best
}

// interpolate is the value at x of the polynomial through the nodes of the
// piece (barycentric form on Chebyshev points of the second kind; Berrut and
// Trefethen, SIAM Review 46 (2004), (5.4)).
func (p *piece) interpolate(values [nodes]float64, x float64) float64 {
	top, bottom := 0.0, 0.0
	for i, v := range values {
		d := x - p.at[i].x
		if d == 0 {
			return v
		}
		w := 1 / d
		if i%2 == 1 {
			w = -w
		}
		if i == 0 || i == nodes-1 {
			w /= 2
		}
		top += w * v
		bottom += w
	}
	return top / bottom
}

// peak is where the polynomial through the nodes is largest between the
// neighbours of node i, by golden section.
func (p *piece) peak(values [nodes]float64, i int) (x, value float64) {
	const ratio = 0.6180339887498949
	a, b := p.at[max(i-1, 0)].x, p.at[min(i+1, nodes-1)].x
	x, value = p.at[i].x, values[i]
	for range 45 { // the bracket shrinks to 4e-10 of itself
		x1, x2 := b-ratio*(b-a), a+ratio*(b-a)
		v1, v2 := p.interpolate(values, x1), p.interpolate(values, x2)
		if v1 > v2 {
			b = x2
		} else {
			a = x1
		}
		if v := math.Max(v1, v2); v > value {
			value = v
			x = x1
			if v2 > v1 {
				x = x2
			}
		}
	}
	return x, value
}

// spread is the half-angle of dispersion of an anchor force, EN 1992-1-1:2004
// 8.10.3(5): arctan 2/3.
const spread = 2.0 / 3

// anchorGroup is the anchors of one end face.
type anchorGroup struct {
	x, ahead float64 // place, and +1 for anchors that press to the right, −1 to the left
	points   []section.Point
}

// disturbed are the stretches within the dispersion length of the anchors
// stressed in the first steps: from an anchor to where every corner of the
// section lies in the cone of the nearest anchor of that end.
func (r *run) disturbed(steps int) [][2]float64 {
	if zones, ok := r.zones[steps]; ok {
		return zones
	}
	var groups []anchorGroup
	add := func(x, ahead float64, p section.Point) {
		for i := range groups {
			if g := &groups[i]; g.ahead == ahead && math.Abs(g.x-x) < 1e-6*r.element.Length {
				g.points = append(g.points, p)
				return
			}
		}
		groups = append(groups, anchorGroup{x, ahead, []section.Point{p}})
	}
	for _, step := range r.steps[:steps] {
		for _, i := range step.tendons {
			path := r.paths[i]
			add(path.From(), 1, path.At(path.From()))
			add(path.To(), -1, path.At(path.To()))
		}
	}
	zones := [][2]float64{}
	for _, g := range groups {
		end := math.Max(0, math.Min(r.element.Length, g.x+g.ahead*r.farthest(g)/spread))
		zones = append(zones, [2]float64{math.Min(g.x, end), math.Max(g.x, end)})
	}
	slices.SortFunc(zones, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	if r.zones == nil {
		r.zones = map[int][][2]float64{}
	}
	r.zones[steps] = zones
	return zones
}

// farthest is the largest distance of a corner from the nearest anchor, on the
// side to which the group presses.
func (r *run) farthest(g anchorGroup) float64 {
	farthest := 0.0
	for _, corner := range r.element.Section.At(g.x + g.ahead*inset*r.element.Length).Corners() {
		nearest := math.Inf(1)
		for _, p := range g.points {
			nearest = math.Min(nearest, math.Hypot(corner.Y-p.Y, corner.Z-p.Z))
		}
		farthest = math.Max(farthest, nearest)
	}
	return farthest
}

// within is true when x lies inside one of the stretches.
func within(x float64, stretches [][2]float64) bool {
	for _, s := range stretches {
		if x >= s[0] && x <= s[1] {
			return true
		}
	}
	return false
}

// middle is the middle of a piece.
func (p *piece) middle() float64 { return (p.from + p.to) / 2 }
