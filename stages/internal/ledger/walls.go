package ledger

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Cut is a wall cut with what its ducts take off its thickness.
type Cut struct {
	section.WallCut
	Net   float64 // thickness less the allowance for ducts, m
	Ducts int     // that it crosses
	Taper taper   // flow for unit N, My and Mz about the girder's axis

	Beside [3]float64 // of pieces that act as one with others: see BodyFlow.Beside
}

// crossings are the cuts of the walls of a piece at a station that matter, those
// through its ducts included, and the ducts that each crosses.
type crossings struct {
	walls  *section.Walls
	own    []section.WallCut // through ducts, behind those of the walls
	ducts  [][2]int          // cut and tendon, cut by cut
	warps  [][2]float64      // ω at the ends of each cut of an open section, m²; nil for another
	taper  []taper           // of each cut; nil where the section does not vary
	*asOne                   // with bodies of several pieces; nil for a piece alone

	filled []*wallsAt // by how the ducts are filled
	near   []nearEnd  // of each end of the cuts through ducts
}

// nearEnd is the end of a cut of the walls that is nearest to a point, and its
// distance (m).
type nearEnd struct {
	end      int // in side.ends
	distance float64
}

// nearest is the end nearest to an end of a cut in a constant stretch: of a cut of the
// walls itself.
func (c *crossings) nearest(p *side, cut, at int) nearEnd {
	n := len(c.walls.Cuts)
	if cut < n {
		return nearEnd{2*cut + at, 0}
	}
	if c.near == nil {
		c.near = make([]nearEnd, 0, 2*len(c.own))
		for i := range c.own {
			for _, at := range [2]section.Point{c.own[i].From, c.own[i].To} {
				end, distance := p.nearestEnd(at)
				c.near = append(c.near, nearEnd{end, distance})
			}
		}
	}
	return c.near[2*(cut-n)+at]
}

// ends are the ends of a cut.
func (c *crossings) ends(i int) [2]Spot {
	cut := c.cut(i)
	ends := [2]Spot{{Point: cut.From}, {Point: cut.To}}
	if c.warps != nil {
		ends[0].Warping, ends[1].Warping = c.warps[i][0], c.warps[i][1]
	}
	return ends
}

// number of cuts.
func (c *crossings) number() int { return len(c.walls.Cuts) + len(c.own) }

func (c *crossings) cut(i int) *section.WallCut {
	if n := len(c.walls.Cuts); i >= n {
		return &c.own[i-n]
	}
	return &c.walls.Cuts[i]
}

// wallsAt are the walls of a station with their ducts filled in one way.
type wallsAt struct {
	*crossings
	filling  []section.Filling // of each tendon
	net      []float64         // of each cut: thickness less the allowance for ducts, m
	farthest [3]float64        // largest |Y|, |Z|, |T| over thickness of a cut
	steepest [3]float64        // the same of its taper
	open     float64           // largest Face of an open wall, 1/m³
	beside   [][3]float64      // of each cut: see BodyFlow.Beside, of the piece alone; nil where no other acts with it
	aside    [3]float64        // the largest of them by magnitude
	bodies   []bodyUnits       // of bodies of several pieces
}

// at is a cut with what its ducts take off.
func (w *wallsAt) at(i int) Cut {
	c := Cut{WallCut: *w.cut(i), Net: w.net[i]}
	if w.taper != nil {
		c.Taper = w.taper[i]
	}
	if w.beside != nil {
		c.Beside = w.beside[i]
	}
	for _, d := range w.ducts {
		if d[0] == i {
			c.Ducts++
		}
	}
	return c
}

// most is a shear stress that no forces up to these by magnitude exceed at a cut.
func (w *wallsAt) most(i int, of *largest) float64 {
	cut, own := w.cut(i), &of.on[0]
	most := own[0]*math.Abs(cut.Y) + own[1]*math.Abs(cut.Z) + own[2]*math.Abs(cut.T)
	if w.taper != nil {
		for k, v := range of.bends {
			most += v * math.Abs(w.taper[i][k])
		}
	}
	most /= w.net[i]
	if cut.Open {
		most += own[2] * cut.Face
	}
	if w.beside != nil {
		most += times(own, w.beside[i])
	}
	for k := range w.bodies {
		most += times(&of.on[1+k], w.bodies[k].flows[i].most())
	}
	return most
}

// times is forces by magnitude times stresses for unit ones.
func times(forces *[3]float64, unit [3]float64) float64 {
	return forces[0]*math.Abs(unit[0]) + forces[1]*math.Abs(unit[1]) + forces[2]*math.Abs(unit[2])
}

// any is the same at whatever cut.
func (w *wallsAt) any(of *largest) float64 {
	own := &of.on[0]
	most := own[0]*w.farthest[0] + own[1]*w.farthest[1] + own[2]*(w.farthest[2]+w.open) + times(own, w.aside)
	for k, v := range of.bends {
		most += v * w.steepest[k]
	}
	for k := range w.bodies {
		most += times(&of.on[1+k], w.bodies[k].farthest)
	}
	return most
}

// wallsOf is the net of walls of a piece; a constant section has one.
func (l *Ledger) wallsOf(at *PieceAt) (*section.Walls, error) {
	if l.walls == nil {
		l.walls = make([]*section.Walls, len(l.Girder.Pieces))
	}
	known := l.walls[at.Index]
	if known != nil {
		return known, nil
	}
	walls, err := at.Shape.Walls()
	if err != nil {
		return nil, err
	}
	if l.constant(at.Index) {
		l.walls[at.Index] = &walls
	}
	return &walls, nil
}

// cross finds the cuts of a piece of a station. The error is that of [section.Shape.Walls].
func (l *Ledger) cross(at *Station, slot int) (*crossings, error) {
	piece := &at.Pieces[slot]
	if piece.crossings != nil {
		return piece.crossings, nil
	}
	walls, err := l.wallsOf(piece)
	if err != nil {
		return nil, err
	}
	if c := l.crossedAlike(at, slot); c != nil {
		piece.crossings = c
		return c, nil
	}
	c := &crossings{walls: walls, own: make([]section.WallCut, 0, len(at.Tendons)), ducts: make([][2]int, 0, 2*len(at.Tendons))}
	for i := range at.Tendons {
		if l.ductIn(at, slot, i) {
			if cut, ok := walls.At(at.Tendons[i].At); ok {
				c.own = append(c.own, cut)
			}
		}
	}
	for k := range c.number() {
		cut := c.cut(k)
		for i := range at.Tendons {
			if l.ductIn(at, slot, i) && crosses(&cut.Cut, at.Tendons[i].At, l.Girder.Tendons[i].Duct/2*(1-1e-6)) {
				c.ducts = append(c.ducts, [2]int{k, i})
			}
		}
	}
	if sectorial, ok := l.sectorial(piece); ok {
		c.warps = make([][2]float64, c.number())
		for i := range c.warps {
			cut := c.cut(i)
			c.warps[i] = [2]float64{sectorial.At(cut.From), sectorial.At(cut.To)}
		}
	}
	if c.taper, err = l.taperAt(at, slot, c); err != nil {
		return nil, err
	}
	piece.crossings, l.crossed[piece.Index] = c, crossedAt{at, slot}
	return c, nil
}

// crossedAt is a piece of a station whose cuts were found.
type crossedAt struct {
	*Station
	slot int
}

// crossedAlike are the cuts of the station of the same constant piece that was looked
// at last, if its ducts are in the same places.
func (l *Ledger) crossedAlike(at *Station, slot int) *crossings {
	if l.crossed == nil {
		l.crossed = make([]crossedAt, len(l.Girder.Pieces))
	}
	piece := at.Pieces[slot].Index
	last := l.crossed[piece]
	if last.Station == nil || l.walls[piece] == nil {
		return nil
	}
	for i := range at.Tendons {
		duct := l.ductIn(at, slot, i)
		if duct != l.ductIn(last.Station, last.slot, i) || duct && at.Tendons[i].At != last.Tendons[i].At {
			return nil
		}
	}
	return last.Pieces[last.slot].crossings
}

// wallsAt are the walls of a piece at a station, kept with its cuts. The error is that
// of [section.Shape.Walls] or of a duct as wide as its wall.
func (l *Ledger) wallsAt(at *Station, slot int, filling []section.Filling) (*wallsAt, error) {
	c, err := l.cross(at, slot)
	if err != nil {
		return nil, err
	}
	return l.fillDucts(c, filling)
}

// fillDucts are crossed walls with the ducts filled in one way.
func (l *Ledger) fillDucts(c *crossings, filling []section.Filling) (_ *wallsAt, err error) {
	for _, w := range c.filled {
		if slices.Equal(w.filling, filling) {
			return w, nil
		}
	}
	w := &wallsAt{crossings: c, filling: filling, net: make([]float64, c.number())}
	ducts := c.ducts
	for i := range w.net {
		cut, n := c.cut(i), 0
		for n < len(ducts) && ducts[n][0] == i {
			n++
		}
		if w.net[i], err = l.netOf(cut.Thickness(), ducts[:n], filling); err != nil {
			return nil, err
		}
		ducts = ducts[n:]
		for k, v := range [3]float64{cut.Y, cut.Z, cut.T} {
			w.farthest[k] = math.Max(w.farthest[k], math.Abs(v)/w.net[i])
		}
		if w.taper != nil {
			for k, v := range w.taper[i] {
				w.steepest[k] = math.Max(w.steepest[k], math.Abs(v)/w.net[i])
			}
		}
		if cut.Open {
			w.open = math.Max(w.open, cut.Face)
		}
	}
	if err := l.unitsOf(w); err != nil {
		return nil, err
	}
	c.filled = append(c.filled, w)
	return w, nil
}
