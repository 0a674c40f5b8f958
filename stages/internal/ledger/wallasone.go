package ledger

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// asOne is what the cuts of a piece have of bodies of it and others.
type asOne struct {
	on     *acting
	beside []*lineFlow   // of each cut, on the piece alone
	bodies [][]*lineFlow // of each body, of each cut
	groups []int         // of each body: 1, 2, … for bodies of the same pieces
	nets   []*bodyNet
}

// bodyUnits are the stresses of the cuts for unit forces on a body.
type bodyUnits struct {
	flows    []BodyFlow // of each cut
	farthest [3]float64 // largest of each by magnitude
}

// lined is a piece of a station whose cuts were found.
type lined struct {
	*Station
	slot  int
	cross *crossings
}

// crossAsOne finds the cuts of a piece of a station on which bodies of several pieces
// act too. The error is that of the walls of the piece or of the bodies.
func (l *Ledger) crossAsOne(at *Station, bodies []bodyAt, slot int, on *acting) (*crossings, error) {
	if c := l.linedAlike(at, slot, on); c != nil {
		return c, nil
	}
	own, err := l.wallsOf(&at.Pieces[slot])
	if err != nil {
		return nil, err
	}
	t := &asOne{on: on, bodies: make([][]*lineFlow, len(on.bodies))}
	for _, number := range on.bodies {
		net, err := l.netOn(at, bodies, number)
		if err != nil {
			return nil, err
		}
		group := slices.IndexFunc(t.nets, func(other *bodyNet) bool { return other.ratios.alike(net.ratios) })
		if group < 0 {
			group = len(t.nets)
		}
		t.nets, t.groups = append(t.nets, net), append(t.groups, 1+group)
	}
	bare := *own
	bare.Cuts = nil
	c := &crossings{walls: &bare, asOne: t}
	lines := l.linesOf(at, slot, on, t.nets, own)
	lines = l.throughDucts(at, slot, on, t.nets, own, lines)
	for i := range lines {
		if err := l.addLine(at, slot, own, &lines[i], c); err != nil {
			return nil, err
		}
	}
	if sectorial, ok := l.sectorial(&at.Pieces[slot]); ok {
		for i := range c.own {
			c.warps = append(c.warps, [2]float64{sectorial.At(c.own[i].From), sectorial.At(c.own[i].To)})
		}
	}
	l.lined = append(l.lined, lined{at, slot, c})
	return c, nil
}

// throughDucts adds the cuts through the ducts of the pieces.
func (l *Ledger) throughDucts(at *Station, slot int, on *acting, nets []*bodyNet, own *section.Walls, lines []line) []line {
	shape := at.Pieces[slot].Shape
	list := &lineList{lines: lines, number: len(nets), near: 1e-7 * size(shape)}
	for i := range at.Tendons {
		t := &at.Tendons[i]
		if on.alone && l.ductIn(at, slot, i) {
			if cut, ok := own.At(t.At); ok {
				list.add(line{Cut: cut.Cut, own: &cut}, -1, nil)
			}
		}
		for k, net := range nets {
			if !t.Here || net.ratios[t.Slot] == 0 || !l.ductIn(at, t.Slot, i) {
				continue
			}
			if cut, ok := net.walls.At(t.At); ok {
				list.within(shape, k, &cut, false)
			}
		}
	}
	return list.lines
}

// addLine adds a line with its flows.
func (l *Ledger) addLine(at *Station, slot int, own *section.Walls, one *line, c *crossings) error {
	cut, beside, err := l.ownFlow(at, slot, own, one)
	if err != nil {
		return err
	}
	t := c.asOne
	for k, net := range t.nets {
		f, err := l.flowOn(at, slot, net, one, one.of[k])
		if err != nil {
			return err
		}
		t.bodies[k] = append(t.bodies[k], f)
	}
	for _, d := range l.ductsOn(at, slot, cut.Cut) {
		c.ducts = append(c.ducts, [2]int{len(c.own), d[1]})
	}
	c.own, t.beside = append(c.own, cut), append(t.beside, beside)
	return nil
}

// linedAlike are the cuts of the same piece on which the same bodies act, where all ducts
// are in the same places.
func (l *Ledger) linedAlike(at *Station, slot int, on *acting) *crossings {
	for i := len(l.lined) - 1; i >= 0; i-- {
		known := &l.lined[i]
		t := known.cross.asOne
		if known.slot != slot || t.on.alone != on.alone || !slices.Equal(t.on.bodies, on.bodies) || !slices.EqualFunc(known.Pieces, at.Pieces, samePiece) {
			continue
		}
		if known.Station == at || !slices.ContainsFunc(at.here, func(k int) bool { return !l.sameDuct(known.Station, at, k) }) && len(known.here) == len(at.here) {
			return known.cross
		}
	}
	return nil
}

func samePiece(a, b PieceAt) bool { return a.Index == b.Index }

// sameDuct is true where a tendon has the same duct, or none, at two stations.
func (l *Ledger) sameDuct(a, b *Station, i int) bool {
	s, t := &a.Tendons[i], &b.Tendons[i]
	if l.Girder.Tendons[i].Duct == 0 || l.Girder.Tendons[i].External {
		return s.Here == t.Here
	}
	return s.Here == t.Here && s.Slot == t.Slot && s.At == t.At
}

// unitsOf finds the stresses for unit forces with the ducts filled in one way.
func (l *Ledger) unitsOf(w *wallsAt) (err error) {
	t := w.asOne
	if t == nil {
		return nil
	}
	w.beside = make([][3]float64, w.number())
	for i, f := range t.beside {
		if w.beside[i], _, err = l.units(f, w.filling); err != nil {
			return err
		}
		for k, v := range w.beside[i] {
			w.aside[k] = math.Max(w.aside[k], math.Abs(v))
		}
	}
	w.bodies = make([]bodyUnits, len(t.nets))
	for k, net := range t.nets {
		of := &w.bodies[k]
		of.flows = make([]BodyFlow, w.number())
		for i, f := range t.bodies[k] {
			one := BodyFlow{Cut: f.cut, Constant: net.walls.Constant, Centre: net.walls.ShearCentre, Face: f.face, body: t.on.bodies[k], group: t.groups[k]}
			if one.Unit, one.Net, err = l.units(f, w.filling); err != nil {
				return err
			}
			if one.Beside, _, err = l.units(f.beside, w.filling); err != nil {
				return err
			}
			of.flows[i] = one
			for n, v := range one.most() {
				of.farthest[n] = math.Max(of.farthest[n], v)
			}
		}
	}
	return nil
}

// most is the stress for each unit force by magnitude.
func (f *BodyFlow) most() (sum [3]float64) {
	for k := range sum {
		sum[k] = math.Abs(f.Unit[k]) + math.Abs(f.Beside[k])
	}
	sum[2] += f.Face
	return sum
}

// centres are the shear centres: of the piece alone, then of each body.
func (w *wallsAt) centres() []section.Point {
	list := []section.Point{w.walls.ShearCentre}
	for k := range w.bodies {
		list = append(list, w.asOne.nets[k].walls.ShearCentre)
	}
	return list
}
