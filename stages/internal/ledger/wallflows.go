package ledger

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
)

// BodyFlow is how the shear stress at a line across a wall follows from forces on a body of
// several pieces: of each, Vy, Vz (1/m²) and T about the shear centre (1/m³).
type BodyFlow struct {
	Cut      section.Cut   // of the body, from face to face, on that line
	Net      float64       // its thickness less the allowance for ducts, each piece times its modulus over that of the piece looked at, m
	Constant float64       // torsion constant of the walls, m⁴
	Centre   section.Point // their shear centre
	Unit     [3]float64    // across the line
	Beside   [3]float64    // where the wall of the body has another direction: across that, by magnitude
	Face     float64       // of T at the face of an open wall, by magnitude

	body, group int
}

// Under is the shear stress of forces with T about the girder's axis: across the line, and
// what counts by magnitude, in a wall of another direction and at the face.
func (f *BodyFlow) Under(by section.Forces) (across float64, magnitudes [2]float64) {
	by = f.About(by)
	return f.Unit[0]*by.Vy + f.Unit[1]*by.Vz + f.Unit[2]*by.T, [2]float64{f.Beside[0]*by.Vy + f.Beside[1]*by.Vz + f.Beside[2]*by.T, f.Face * by.T}
}

// About are forces with T about the shear centre.
func (f *BodyFlow) About(by section.Forces) section.Forces {
	by.T += f.Centre.Y*by.Vz - f.Centre.Z*by.Vy
	return by
}

// lineFlow is the flow across a line for unit forces, and what it passes.
type lineFlow struct {
	cut    section.Cut
	flow   [3]float64 // 1/m, 1/m²
	parts  []linePart
	beside *lineFlow // in a wall of another direction
	face   float64
}

// linePart is what of a line is in one piece.
type linePart struct {
	thickness, ratio float64
	ducts            [][2]int // 0 and tendon
}

// net is the thickness by which a flow is divided.
func (l *Ledger) net(parts []linePart, filling []section.Filling) (sum float64, err error) {
	for i := range parts {
		net, err := l.netOf(parts[i].thickness, parts[i].ducts, filling)
		if err != nil {
			return 0, err
		}
		sum += net * parts[i].ratio
	}
	return sum, nil
}

// units are stresses for unit forces.
func (l *Ledger) units(f *lineFlow, filling []section.Filling) (unit [3]float64, net float64, err error) {
	if f == nil {
		return unit, 0, nil
	}
	if net, err = l.net(f.parts, filling); err != nil {
		return unit, 0, err
	}
	for k, v := range f.flow {
		unit[k] = v / net
	}
	return unit, net, nil
}

// partsOf are those of a line in the pieces of a body, ratios over that of one of them.
// Along a seam the shear is the same on both sides.
func (l *Ledger) partsOf(at *Station, slot int, ratios bodyAt, c section.Cut, seam bool) (list []linePart) {
	if seam {
		return []linePart{{c.Thickness(), 1, l.ductsOn(at, slot, c)}}
	}
	for _, k := range ratios.pieces() {
		for _, part := range at.Pieces[k].Shape.Within(c) {
			if !part.Face {
				list = append(list, linePart{part.Thickness(), ratios[k] / ratios[slot], l.ductsOn(at, k, part.Cut)})
			}
		}
	}
	return list
}

// ductsOn are the ducts in a piece that a line crosses.
func (l *Ledger) ductsOn(at *Station, slot int, c section.Cut) (list [][2]int) {
	for i := range at.Tendons {
		if l.ductIn(at, slot, i) && crosses(&c, at.Tendons[i].At, l.Girder.Tendons[i].Duct/2*(1-1e-6)) {
			list = append(list, [2]int{0, i})
		}
	}
	return list
}

// flowOn is the flow across a line of forces on a body.
func (l *Ledger) flowOn(at *Station, slot int, net *bodyNet, one *line, native *section.WallCut) (*lineFlow, error) {
	if native != nil {
		f := l.flowOf(at, slot, net, native, one.face)
		return f, nil
	}
	full, ok := net.shape.Extended(one.Cut)
	if !ok {
		return nil, fmt.Errorf("%w: line at y = %g m, z = %g m: must be in the joined outline", ErrLedger, middle(one.Cut).Y, middle(one.Cut).Z)
	}
	cut, err := net.walls.Across(full)
	if err != nil {
		return nil, err
	}
	f := l.flowOf(at, slot, net, &cut, one.face)
	wall, ok := net.walls.At(middle(one.Cut))
	if !ok {
		return f, nil
	}
	if !one.along && otherWay(wall.Cut, full) {
		f.beside = l.flowOf(at, slot, net, &wall, false)
	}
	if wall.Open || cut.Open {
		f.face = wallThickness(net.shape, full) / net.walls.Constant * net.ratios[slot]
	}
	return f, nil
}

// wallThickness is what of a line is the thickness of its wall, not its length along that
// (m): no more than the diameter of the largest circle in the concrete about a point of it.
func wallThickness(shape section.Shape, c section.Cut) float64 {
	const parts = 32
	radius, step := 0.0, c.Thickness()/parts
	for i := range parts + 1 {
		radius = math.Max(radius, shape.Clearance(on(c, float64(i)/parts)))
	}
	return math.Min(c.Thickness(), 2*(radius+step/2)) // a circle is smaller by no more than its centre is off
}

// otherWay is true where a wall is not crossed by a line but by another, shorter cut.
func otherWay(wall, line section.Cut) bool {
	return angle(wall, line) > turned && wall.Thickness() <= line.Thickness()
}

// flowOf is the flow of a cut of the walls of a body.
func (l *Ledger) flowOf(at *Station, slot int, net *bodyNet, cut *section.WallCut, seam bool) *lineFlow {
	f := &lineFlow{cut: cut.Cut, flow: [3]float64{cut.Y, cut.Z, cut.T}, parts: l.partsOf(at, slot, net.ratios, cut.Cut, seam)}
	if cut.Open {
		f.face = cut.Face * net.ratios[slot]
	}
	return f
}

// ownFlow is the cut of a line in the walls of its piece alone, and where the wall has another
// direction that across it. Along a face nothing passes.
func (l *Ledger) ownFlow(at *Station, slot int, own *section.Walls, one *line) (section.WallCut, *lineFlow, error) {
	if one.own != nil {
		return *one.own, nil, nil
	}
	shape, inside := at.Pieces[slot].Shape, middle(one.Cut)
	cut := section.WallCut{Cut: one.Cut}
	if one.face {
		inside = into(shape, one.Cut)
	} else {
		var err error
		if cut, err = own.Across(one.Cut); err != nil {
			return cut, nil, err
		}
	}
	wall, ok := own.At(inside)
	if !ok {
		return cut, nil, nil
	}
	cut.Open = cut.Open || wall.Open
	if cut.Face = wallThickness(shape, one.Cut) / own.Constant; one.face {
		cut.Face = wallThickness(shape, wall.Cut) / own.Constant
	}
	if one.along || !otherWay(wall.Cut, one.Cut) {
		return cut, nil, nil
	}
	return cut, &lineFlow{
		cut: wall.Cut, flow: [3]float64{wall.Y, wall.Z, wall.T}, parts: []linePart{{wall.Thickness(), 1, l.ductsOn(at, slot, wall.Cut)}},
	}, nil
}

// into is a point a little into a shape from the middle of a line along its face.
func into(shape section.Shape, c section.Cut) section.Point {
	m, off := middle(c), 1e-4
	aside := section.Point{Y: -(c.To.Z - c.From.Z) * off, Z: (c.To.Y - c.From.Y) * off}
	if one := (section.Point{Y: m.Y + aside.Y, Z: m.Z + aside.Z}); shape.Clearance(one) > 0 {
		return one
	}
	return section.Point{Y: m.Y - aside.Y, Z: m.Z - aside.Z}
}

// FlowOn is the flow of a wall for forces on a state: of the body of several pieces that acts
// as one in it, or of the piece alone.
func (l *Ledger) FlowOn(w *Wall, state *State) BodyFlow {
	at := l.grid[l.stretchAt(w.X)].At[0]
	for k := range w.Bodies {
		if at.holds[state.Index] == len(at.Pieces)+w.Bodies[k].body {
			return w.Bodies[k]
		}
	}
	cut := &w.Cut
	f := BodyFlow{Cut: cut.Cut, Net: cut.Net, Constant: w.Constant, Centre: w.Centre, Unit: [3]float64{cut.Y / cut.Net, cut.Z / cut.Net, cut.T / cut.Net}, Beside: cut.Beside}
	if cut.Open {
		f.Face = cut.Face
	}
	return f
}

// Group is 0 for the piece alone, and the same number for bodies of the same pieces: what
// counts by magnitude is summed over each group.
func (f *BodyFlow) Group() int { return f.group }
