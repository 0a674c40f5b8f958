package ledger

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// line is a line across a wall of a piece that acts as one with others, or along its face
// where another piece is on that.
type line struct {
	section.Cut
	face  bool
	along bool             // it runs along a wall, through a centroid: what passes the wall itself is no matter of it
	own   *section.WallCut // where it is a cut of the piece alone
	of    []*section.WallCut
}

// Lines that are one, and those between two that are side by side on a wall.
const (
	besideTurn   = 0.2  // rad between lines side by side
	besideWider  = 1.5  // how many times wider a line between them may be
	linesBetween = 7    // lines between two: a parabola is met to 1/256 of what it rises from one to the other
	turned       = 0.35 // rad: from which on a wall of a body has another direction
)

// linesOf are the lines of a piece of a station to look at: its own cuts where something
// acts on it alone, what is in it of those of the bodies, and its seams with others; where
// forces act on more than one section, lines between them, for the worst place of a sum is
// that of none.
func (l *Ledger) linesOf(at *Station, slot int, on *acting, nets []*bodyNet, own *section.Walls) []line {
	shape := at.Pieces[slot].Shape
	list := &lineList{number: len(nets), near: 1e-7 * size(shape)}
	if on.alone {
		for i := range own.Cuts {
			list.add(line{Cut: own.Cuts[i].Cut, along: runsAlong(own, own.Cuts[i].Cut), own: &own.Cuts[i]}, -1, nil)
		}
	}
	for k, net := range nets {
		if k+1 < len(nets) && net.ratios.alike(nets[k+1].ratios) { // of bodies of the same pieces the last
			continue
		}
		for i := range net.walls.Cuts {
			list.within(shape, k, &net.walls.Cuts[i], runsAlong(&net.walls, net.walls.Cuts[i].Cut))
		}
	}
	for other := range at.Pieces {
		if other == slot || !slices.ContainsFunc(nets, func(n *bodyNet) bool { return n.ratios[other] != 0 }) {
			continue
		}
		for _, seam := range seams(shape, at.Pieces[other].Shape) {
			list.add(line{Cut: seam, face: true}, -1, nil)
		}
	}
	if on.alone || len(nets) > 1 {
		list.fill(shape)
	}
	return list.lines
}

// runsAlong is true for a cut along a wall that another, shorter one crosses at its middle.
func runsAlong(walls *section.Walls, c section.Cut) bool {
	wall, ok := walls.At(middle(c))
	return ok && otherWay(wall.Cut, c)
}

// size is the larger dimension of a shape (m).
func size(s section.Shape) float64 {
	p := s.Properties()
	return math.Max(p.Top+p.Bottom, p.Left+p.Right)
}

// seams are the parts of the edges of a shape on which another is.
func seams(shape, other section.Shape) (list []section.Cut) {
	for _, o := range edges(shape) {
		for i, p := range o {
			for _, part := range other.Within(section.Cut{From: p, To: o[(i+1)%len(o)]}) {
				if part.Face {
					list = append(list, part.Cut)
				}
			}
		}
	}
	return list
}

// lineList is lines, each once.
type lineList struct {
	lines  []line
	number int     // of bodies
	near   float64 // m
}

// add adds a line, which may be in a cut of a body.
func (n *lineList) add(one line, body int, cut *section.WallCut) {
	k := slices.IndexFunc(n.lines, func(other line) bool { return repeats(other.Cut, one.Cut, n.near) })
	if k < 0 {
		one.of = make([]*section.WallCut, n.number)
		k, n.lines = len(n.lines), append(n.lines, one)
	}
	if body >= 0 && n.lines[k].of[body] == nil {
		n.lines[k].of[body] = cut
	}
	if n.lines[k].own == nil {
		n.lines[k].own = one.own
	}
}

// within adds what is in a piece of a cut of a body.
func (n *lineList) within(shape section.Shape, body int, cut *section.WallCut, along bool) {
	for _, part := range shape.Within(cut.Cut) {
		n.add(line{Cut: part.Cut, face: part.Face, along: along}, body, cut)
	}
}

// fill adds lines between those that are side by side on a wall.
func (n *lineList) fill(shape section.Shape) {
	known := slices.Clone(n.lines)
	for i := range known {
		for j := range i {
			a, b := known[i].Cut, known[j].Cut
			if (b.To.Y-b.From.Y)*(a.To.Y-a.From.Y)+(b.To.Z-b.From.Z)*(a.To.Z-a.From.Z) < 0 {
				b.From, b.To = b.To, b.From
			}
			if angle(a, b) > besideTurn || !neighbours(known, i, j) || !(shape.Clearance(middle(section.Cut{From: middle(a), To: middle(b)})) > 0) {
				continue
			}
			for k := 1; k <= linesBetween; k++ {
				n.addAt(shape, a, b, float64(k)/(linesBetween+1), known[i].along && known[j].along)
			}
		}
	}
}

// addAt adds the line at a part of the way from one to another.
func (n *lineList) addAt(shape section.Shape, a, b section.Cut, part float64, along bool) {
	one, ok := shape.Extended(section.Cut{From: on(section.Cut{From: a.From, To: b.From}, part), To: on(section.Cut{From: a.To, To: b.To}, part)})
	if ok && one.Thickness() <= besideWider*math.Max(a.Thickness(), b.Thickness()) {
		n.add(line{Cut: one, along: along}, -1, nil)
	}
}

// neighbours is true for lines that are beside each other across the wall with none between
// them.
func neighbours(lines []line, i, j int) bool {
	a, b := middle(lines[i].Cut), middle(lines[j].Cut)
	way := section.Cut{From: a, To: b}
	length := way.Thickness()
	if !(length > 0) || angle(way, lines[i].Cut) < 1 {
		return false
	}
	for k := range lines {
		m := middle(lines[k].Cut)
		along := ((m.Y-a.Y)*(b.Y-a.Y) + (m.Z-a.Z)*(b.Z-a.Z)) / (length * length)
		off := math.Abs((m.Y-a.Y)*(b.Z-a.Z)-(m.Z-a.Z)*(b.Y-a.Y)) / length
		if k != i && k != j && along > 1e-6 && along < 1-1e-6 && off < lines[i].Thickness()/2 && angle(lines[k].Cut, lines[i].Cut) <= besideTurn {
			return false
		}
	}
	return true
}

// middle of a line.
func middle(c section.Cut) section.Point { return on(c, 0.5) }

// on is the point at a part of a line.
func on(c section.Cut, part float64) section.Point {
	return section.Point{Y: c.From.Y + part*(c.To.Y-c.From.Y), Z: c.From.Z + part*(c.To.Z-c.From.Z)}
}

// angle is the angle between two lines, 0 to π/2 (rad).
func angle(a, b section.Cut) float64 {
	y, z, v, w := a.To.Y-a.From.Y, a.To.Z-a.From.Z, b.To.Y-b.From.Y, b.To.Z-b.From.Z
	return math.Atan2(math.Abs(y*w-z*v), math.Abs(y*v+z*w))
}

// repeats is true for lines between the same ends.
func repeats(a, b section.Cut, near float64) bool {
	off := func(p, q section.Point) float64 { return math.Hypot(p.Y-q.Y, p.Z-q.Z) }
	return off(a.From, b.From)+off(a.To, b.To) <= near || off(a.From, b.To)+off(a.To, b.From) <= near
}
