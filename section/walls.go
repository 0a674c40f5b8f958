package section

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Walls is a section as a net of walls: the shear flows of thin-wall theory at the
// governing cuts. Across every cut that parts the section, alone or with others, the
// flows are in exact equilibrium with bending on the true outline; only the flow round
// a cell, the torsion constant and the shear centre are those of thin walls.
// [Shape.Torsion] is exact and about a hundred times slower.
type Walls struct {
	Cuts        []WallCut // where a wall begins beside a junction or a haunch, in its middle, where it is thinnest, and at the level of the centroid
	Constant    float64   // torsion constant, m⁴: Bredt's for the cells and Σ b·t³/3 for all walls
	ShearCentre Point     // m, in the coordinates of the drawing
	Cells       int       // voids

	shape      bare
	net        *wallNet
	properties Properties
	cells      cells
	unit       unitFlows
	candidates []candidate // while the cuts are chosen
}

// WallCut is a cut across a wall with the shear flows there for unit forces, in
// the direction Towards of a [WallShear]: to the left when going from From to To,
// on the face towards +x. Vy and Vz act through the shear centre of [Walls].
type WallCut struct {
	Cut
	Y, Z float64 // flow for unit Vy and unit Vz, 1/m
	T    float64 // flow for unit torque about the shear centre, 1/m²
	Face float64 // largest shear stress of the torque at the faces beside that of the flow, t/J, 1/m³, by magnitude
	Open bool    // the wall is of no cell: Face alone carries the torque
}

// unitFlows is how flows follow from those of the sources: for each void the
// closing flows under the sources 1, y and z and under a unit torque.
type unitFlows struct {
	byVy, byVz flows // factors of the sources
	closing    []flows
	twist      []float64
}

// Walls finds the walls of a shape and solves the flows, once for all copies of it.
// Corners on a straight edge have no effect, nor has the corner at which an outline
// begins. The error wraps [ErrShape] when the shape is empty or in separate pieces, or
// when no walls are found round a void.
func (s Shape) Walls() (Walls, error) {
	w, err := keep(s, func(k *kept) *found[Walls] { return &k.walls }, Shape.solveWalls)
	w.Cuts = slices.Clone(w.Cuts)
	return w, err
}

func (s Shape) solveWalls() (Walls, error) {
	if s.solids != 1 {
		return Walls{}, fmt.Errorf("%w: walls of %d solid outlines: must be one connected piece", ErrShape, s.solids)
	}
	return s.wallsWith(s.bare().Properties(), nil)
}

// wallsWith are the walls of one connected piece, of parts with unlike moduli if any.
func (s Shape) wallsWith(p Properties, parts *unlike) (Walls, error) {
	shape := s.bare()
	w := Walls{Cells: len(s.outlines) - 1, shape: shape, properties: p, net: newWallNet(shape.Shape, p.Centroid, parts)}
	if err := w.solve(); err != nil {
		return Walls{}, err
	}
	if v := w.Constant + w.ShearCentre.Y + w.ShearCentre.Z; !(w.Constant > 0) || math.IsNaN(v) || math.IsInf(v, 0) {
		return Walls{}, fmt.Errorf("%w: walls: torsion constant %g m⁴: must be positive", ErrShape, w.Constant)
	}
	w.choose()
	return w, nil
}

func (w *Walls) solve() error {
	var err error
	if w.cells, err = w.net.closing(); err != nil {
		return err
	}
	w.Constant = w.net.constant()
	w.unit.closing, w.unit.twist = make([]flows, w.Cells), make([]float64, w.Cells)
	if w.Cells > 0 {
		right := mat.NewDense(w.Cells, 4, nil)
		for k, base := range w.cells.base {
			right.SetRow(k, []float64{-base[0], -base[1], -base[2], w.cells.torque[k]})
		}
		closing, err := w.cells.solve(right)
		if err != nil {
			return err
		}
		for k := range w.Cells {
			w.unit.closing[k] = flows{closing.At(k, 0), closing.At(k, 1), closing.At(k, 2)}
			w.unit.twist[k] = closing.At(k, 3)
			w.Constant += closing.At(k, 3) * w.cells.torque[k]
		}
		for k := range w.unit.twist {
			w.unit.twist[k] /= w.Constant
		}
	}
	w.centre()
	return nil
}

// centre sets the shear centre: about it the flows of Vy and Vz have no torque.
func (w *Walls) centre() {
	p := w.properties
	byZ, byY := p.shearSources(Forces{Vy: 1})
	w.unit.byVy = flows{0, byY, byZ}
	byZ, byY = p.shearSources(Forces{Vz: 1})
	w.unit.byVz = flows{0, byY, byZ}
	torque := func(by flows) float64 {
		return w.net.torque(func(s *station) float64 { return w.closed(s.flow, s.near, s.far).times(by) })
	}
	// On the face towards +x the resultants are −Vy and −Vz.
	w.ShearCentre = Point{p.Centroid.Y - torque(w.unit.byVz), p.Centroid.Z + torque(w.unit.byVy)}
}

// closed adds the closing flows to those of the stream.
func (w *Walls) closed(q flows, near, far spot) flows {
	add := func(void int, sign float64) {
		if void >= 0 {
			for i, c := range w.unit.closing[void] {
				q[i] += sign * c
			}
		}
	}
	add(w.net.void(near), 1)
	add(w.net.void(far), -1)
	return q
}

// cut is the cut between two spots, with thickness that of the wall there.
func (w *Walls) cut(near, far spot, thickness float64) WallCut {
	q := w.closed(w.net.stream.across(w.net.faces, near, far), near, far)
	c := WallCut{Cut: Cut{w.drawn(near.at), w.drawn(far.at)}, Y: q.times(w.unit.byVy), Z: q.times(w.unit.byVz), Face: thickness / w.Constant}
	from, to := w.net.void(near), w.net.void(far)
	c.Open = from == to
	if from >= 0 {
		c.T += w.unit.twist[from]
	}
	if to >= 0 {
		c.T -= w.unit.twist[to]
	}
	return c
}

// drawn turns a place from the centroid into one of the drawing.
func (w *Walls) drawn(p Point) Point {
	return Point{p.Y + w.properties.Centroid.Y, p.Z + w.properties.Centroid.Z}
}

// At is the cut through p (m) square to the face nearest to it, with its flows;
// false when p is not in the concrete.
func (w Walls) At(p Point) (WallCut, bool) {
	if w.net == nil || math.IsNaN(p.Y+p.Z) || math.IsInf(p.Y+p.Z, 0) {
		return WallCut{}, false
	}
	ends, ok := w.through(p.minus(w.properties.Centroid))
	if !ok {
		return WallCut{}, false
	}
	return w.cut(ends[0], ends[1], distance(ends[0].at, ends[1].at)), true
}

// through is the ends of the cut through p, from the centroid, square to the
// nearest face.
func (w *Walls) through(p Point) (ends [2]spot, ok bool) { return w.from(w.net.foot(p), p) }

// allThrough are those square to each of the nearest faces.
func (w *Walls) allThrough(p Point) [][2]spot {
	var cuts [][2]spot
	for _, foot := range w.net.feet(p) {
		if ends, ok := w.from(foot, p); ok {
			cuts = append(cuts, ends)
		}
	}
	return cuts
}

// from is the ends of the cut from a foot through p.
func (w *Walls) from(foot spot, p Point) (ends [2]spot, ok bool) {
	ends[0] = foot
	back := p.minus(ends[0].at)
	length := math.Hypot(back.Y, back.Z)
	if !(length > w.net.least) || !w.shape.contains(w.drawn(p)) {
		return ends, false
	}
	ends[1], ok = w.net.hit(p, Point{back.Y / length, back.Z / length})
	return ends, ok
}

// Across is a given cut with its flows, such as a level one. The error wraps
// [ErrShape] when the ends are not on the outline or the line between them leaves
// the concrete.
func (w Walls) Across(cut Cut) (WallCut, error) {
	near, far, err := w.ends(cut)
	if err != nil {
		return WallCut{}, err
	}
	return w.cut(near, far, cut.Thickness()), nil
}

// ends are the spots where a cut ends.
func (w Walls) ends(cut Cut) (near, far spot, err error) {
	if w.net == nil {
		return near, far, fmt.Errorf("%w: cut of zero Walls: must be made by Shape.Walls", ErrShape)
	}
	tolerance := thinnest * extent(w.shape.outlines)
	spots := [2]spot{}
	for i, p := range [2]Point{cut.From, cut.To} {
		spots[i] = w.net.foot(p.minus(w.properties.Centroid))
		if !(distance(p, w.drawn(spots[i].at)) <= tolerance) {
			return near, far, fmt.Errorf("%w: cut that ends at y = %g m, z = %g m: must end on the outline", ErrShape, p.Y, p.Z)
		}
	}
	near, far = spots[0], spots[1]
	length := distance(near.at, far.at)
	if !(length > tolerance) {
		return near, far, fmt.Errorf("%w: cut of no length at y = %g m, z = %g m: must run from face to face", ErrShape, cut.From.Y, cut.From.Z)
	}
	way, middle := far.at.minus(near.at), between(near.at, far.at, 0.5)
	ahead, found := w.net.hit(middle, Point{way.Y / length, way.Z / length})
	behind, also := w.net.hit(middle, Point{-way.Y / length, -way.Z / length})
	if !found || !also || w.shape.Clearance(w.drawn(middle)) <= 0 ||
		math.Min(distance(ahead.at, middle), distance(behind.at, middle)) < 0.499*length {
		return near, far, fmt.Errorf("%w: cut from y = %g m, z = %g m that leaves the concrete: must run across one wall", ErrShape, cut.From.Y, cut.From.Z)
	}
	return near, far, nil
}

func distance(p, q Point) float64 { return math.Hypot(p.Y-q.Y, p.Z-q.Z) }
