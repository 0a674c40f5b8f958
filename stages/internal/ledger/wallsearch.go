package ledger

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/section"
)

// Wall is a wall at its worst.
type Wall struct {
	Found    bool
	X        float64 // m
	Piece    int     // of the girder
	Cut      Cut
	Constant float64       // m⁴
	Centre   section.Point // shear centre of the walls
	At       section.Point // end of the cut with the larger value
	Value    float64       // Pa: principal tension, or shear stress
	Normal   float64       // σ along x at At, Pa
	Shear    float64       // |τ|, Pa
	Factors  []float64     // of each cause
	Apart    []ApartAt
}

// WallQuery is a search for the worst wall.
type WallQuery struct {
	Principal bool // principal tension; false: shear stress
	Filling   func(tendon int) section.Filling
	Cracked   float64 // tensile stress above which a section has cracked, Pa; for principal tension

	filling []section.Filling
}

// wallNode is what walls ask of a node: bounds on the stresses of its cuts.
type wallNode struct {
	stretch, node int
	normal, shear float64 // Pa
	tensile       float64 // largest tensile stress of a corner, Pa; NaN until it is asked for
	bound         float64 // on the value sought, Pa
}

// WorstWall is the wall with the largest value, and the stretches where the section
// has cracked, which are left out. Nodes are looked at in the order of a bound.
func (d *Demand) WorstWall(q WallQuery) (worst Wall, cracked [][2]float64, err error) {
	l := d.ledger
	q.filling = make([]section.Filling, len(l.Girder.Tendons))
	for i := range q.filling {
		q.filling[i] = q.Filling(i)
	}
	nodes, err := d.wallNodes(&q)
	if err != nil {
		return worst, nil, err
	}
	list := make([]wallNode, 0, len(nodes))
	for i := range nodes {
		n := nodes[i]
		p := &l.grid[n.stretch]
		n.bound = n.shear
		if q.Principal {
			is, err := d.cracks(&q, &nodes[i])
			if err != nil {
				return worst, nil, err
			}
			if is {
				cracked = note(cracked, p.At[max(n.node-1, 0)].X, p.At[min(n.node+1, Nodes-1)].X, 1e-3*l.Girder.Length)
				continue
			}
			n.bound, _ = section.PrincipalStresses(n.normal, n.shear)
		}
		list = append(list, n)
	}
	slices.SortStableFunc(list, func(a, b wallNode) int { return cmp.Compare(b.bound, a.bound) })
	for _, n := range list {
		if worst.Found && n.bound <= worst.Value {
			break
		}
		p := &l.grid[n.stretch]
		if err := d.wallAt(&q, p, p.At[n.node], &l.measured(d.situation, n.stretch)[n.node], &worst); err != nil {
			return worst, nil, err
		}
	}
	if worst.Found {
		err = d.refineWall(&q, &worst)
	}
	return worst, cracked, err
}

// note joins a cracked stretch to those known.
func note(list [][2]float64, from, to, near float64) [][2]float64 {
	if n := len(list); n > 0 && from <= list[n-1][1]+near {
		list[n-1][1] = math.Max(list[n-1][1], to)
		return list
	}
	return append(list, [2]float64{from, to})
}

// wallNodes are the nodes with walls, kept for the next limit with the same ranges.
func (d *Demand) wallNodes(q *WallQuery) ([]wallNode, error) {
	if d.nodes != nil && slices.Equal(d.filling, q.filling) {
		return d.nodes, nil
	}
	d.nodes, d.filling = make([]wallNode, 0, Nodes*len(d.ledger.grid)), q.filling
	for k := range d.ledger.grid {
		p := &d.ledger.grid[k]
		if len(p.At[0].Pieces) > 1 || !d.ledger.carries(d.situation, p) {
			continue
		}
		for n := range p.At {
			one := wallNode{stretch: k, node: n}
			if err := d.boundWalls(q, &one); err != nil {
				d.nodes = nil
				return nil, err
			}
			d.nodes = append(d.nodes, one)
		}
	}
	return d.nodes, nil
}

// boundWalls finds stresses that no cut of a node exceeds.
func (d *Demand) boundWalls(q *WallQuery, to *wallNode) error {
	l := d.ledger
	p := &l.grid[to.stretch]
	at, of := p.At[to.node], &l.measured(d.situation, to.stretch)[to.node]
	w, err := l.wallsAt(at, q.filling)
	if err != nil {
		return err
	}
	c, err := d.wallColumns(p, of, w.walls.ShearCentre)
	if err != nil {
		return err
	}
	vy, vz, t := d.wall.largest(c)
	to.shear = vy*w.farthest[0] + vz*w.farthest[1] + t*(w.farthest[2]+w.open)
	to.normal = math.Inf(-1)
	for outer := range c.Corners() {
		one := d.wall.at(outer, c.columns)
		for _, i := range p.hull {
			to.normal = math.Max(to.normal, c.Stress(one.planes, at.Corners[i].Spot(), 1))
		}
	}
	if to.tensile = math.NaN(); len(p.spreading) == 0 {
		to.tensile = to.normal
	}
	return nil
}

// cracks is true where a corner of a node has a larger tensile stress than a query
// allows, with the parts of the tendons within whose spread it lies.
func (d *Demand) cracks(q *WallQuery, n *wallNode) (bool, error) {
	if !(n.normal > q.Cracked) {
		return false, nil
	}
	if !math.IsNaN(n.tensile) {
		return n.tensile > q.Cracked, nil
	}
	p := &d.ledger.grid[n.stretch]
	at, u := p.At[n.node], &d.wall
	c, err := d.wallColumns(p, &d.ledger.measured(d.situation, n.stretch)[n.node], section.Point{})
	if err != nil {
		return false, err
	}
	n.tensile = math.Inf(-1)
	u.flow = resize(u.flow, c.columns)
	for number, corner := range at.Corners {
		apart := d.apartAt(p, number, at.X)
		for outer := range c.Corners() {
			planes := u.at(outer, c.columns).planes
			if c.Stress(planes, corner.Spot(), 1) <= n.tensile { // with every part free
				continue
			}
			c.At(u.flow, planes, corner.Spot())
			d.inFull(u.flow, c, apart)
			n.tensile = math.Max(n.tensile, c.Extreme(u.flow, 1))
		}
	}
	return n.tensile > q.Cracked, nil
}

// wallRoom is the columns of a station for its walls, at each corner of the outer
// causes, and room for a look at a cut.
type wallRoom struct {
	planes        []Plane
	vy, vz, t     []float64 // about the shear centre
	flow, torsion []float64 // of each column at a cut
	twist         []float64 // torsion at one of its ends
	free          [1][]float64
	sums          []r2.Vec
	values        []float64
	factors       []float64
	hint          int          // the cut that was the worst
	layout        *Combination // of the nodes
	nodes         [Nodes]wallCurve
}

// at is the columns at one corner of the outer causes.
func (u *wallRoom) at(outer, columns int) (one wallRoom) {
	from, to := outer*columns, (outer+1)*columns
	return wallRoom{planes: u.planes[from:to], vy: u.vy[from:to], vz: u.vz[from:to], t: u.t[from:to]}
}

// wallColumns sums what acts at a station by columns, every tendon that spreads with
// a column of its own. V acts in full at once; what pretensioned strands have
// transmitted may be less in shear too.
func (d *Demand) wallColumns(p *Stretch, of *effect, centre section.Point) (*Combination, error) {
	u, apart := &d.wall, len(p.spreading)
	c, err := d.layout(apart, d.inner && apart == 0)
	if err != nil {
		return nil, err
	}
	n := c.Corners() * c.columns
	u.planes = slices.Grow(u.planes[:0], n)[:n]
	u.vy, u.vz, u.t = resize(u.vy, n), resize(u.vz, n), resize(u.t, n)
	clear(u.planes)
	clear(u.vy)
	clear(u.vz)
	clear(u.t)
	products, columns := len(d.situation.products), d.columnOf(p, c)
	for outer := range c.Corners() {
		one := u.at(outer, c.columns)
		for e := range products + apart {
			part, w, column := of.part(e, 0), c.weights[outer][e], columns[e]
			addPlane(&one.planes[column], &part.Plane, w)
			if e >= products && p.spreading[e-products].grows == 0 {
				column = columns[0]
			}
			f := &part.Forces
			one.vy[column] += w * f.Vy
			one.vz[column] += w * f.Vz
			one.t[column] += w * (f.T + centre.Y*f.Vz - centre.Z*f.Vy)
		}
	}
	return c, nil
}

// wallAt looks at every cut of a station under the worst factors.
func (d *Demand) wallAt(q *WallQuery, p *Stretch, at *Station, of *effect, worst *Wall) error {
	w, err := d.ledger.wallsAt(at, q.filling)
	if err != nil {
		return err
	}
	if err := d.ledger.measureEnds(p); err != nil {
		return err
	}
	c, err := d.wallColumns(p, of, w.walls.ShearCentre)
	if err != nil {
		return err
	}
	d.wallCuts(q, p, at, w, c, worst)
	return nil
}

// wallCuts looks at the cuts that may be worse than the worst by the largest forces of
// the station.
func (d *Demand) wallCuts(q *WallQuery, p *Stretch, at *Station, w *wallsAt, c *Combination, worst *Wall) {
	u := &d.wall
	normal := math.Inf(1)
	if p.constant {
		normal = u.normal(c, p)
	}
	vy, vz, t := u.largest(c)
	look := func(i int) {
		most := w.most(i, vy, vz, t)
		if q.Principal {
			most, _ = section.PrincipalStresses(normal, most)
		}
		if !worst.Found || !(most <= worst.Value) {
			d.wallCut(q, p, at, w, i, c, worst)
		}
	}
	first := u.hint // the worst of another station
	if first < len(w.net) {
		look(first)
	}
	for i := range w.net {
		if i != first {
			look(i)
		}
	}
}

// largest are the largest shear forces and torque at a station by magnitude.
func (u *wallRoom) largest(c *Combination) (vy, vz, t float64) {
	for outer := range c.Corners() {
		one := u.at(outer, c.columns)
		vy = math.Max(vy, math.Max(c.Extreme(one.vy, 1), -c.Extreme(one.vy, -1)))
		vz = math.Max(vz, math.Max(c.Extreme(one.vz, 1), -c.Extreme(one.vz, -1)))
		t = math.Max(t, math.Max(c.Extreme(one.t, 1), -c.Extreme(one.t, -1)))
	}
	return vy, vz, t
}

// normal is the largest stress of a corner at a station of a stretch (Pa).
func (u *wallRoom) normal(c *Combination, p *Stretch) float64 {
	most := math.Inf(-1)
	for outer := range c.Corners() {
		one := u.at(outer, c.columns)
		for _, i := range p.hull {
			most = math.Max(most, c.Stress(one.planes, p.At[0].Corners[i].Spot(), 1))
		}
	}
	return most
}

// wallCut looks at both ends of a cut where they may be worse than the worst: with
// every part of a tendon that spreads free.
func (d *Demand) wallCut(q *WallQuery, p *Stretch, at *Station, w *wallsAt, i int, c *Combination, worst *Wall) {
	u, cut := &d.wall, w.cut(i)
	u.flow, u.torsion = resize(u.flow, c.columns), resize(u.torsion, c.columns)
	for outer := range c.Corners() {
		one := u.at(outer, c.columns)
		for j := range u.flow {
			u.flow[j] = (one.vy[j]*cut.Y + one.vz[j]*cut.Z + one.t[j]*cut.T) / w.net[i]
			u.torsion[j] = one.t[j] * cut.Face
		}
		free := u.free[:0]
		if cut.Open { // torsion at its faces counts by magnitude
			free = append(free, u.torsion)
		}
		shear := c.Shear(nil, outer, &d.reach, u.flow, free...)
		for _, end := range w.ends(i) {
			most := shear
			if q.Principal {
				most, _ = section.PrincipalStresses(c.Stress(one.planes, end, 1), shear)
			}
			if worst.Found && most <= worst.Value {
				continue
			}
			d.wallEnd(q, p, at, w, i, end, c, outer, worst)
		}
	}
}

// wallEnd looks at one end of a cut, with the parts of the tendons within whose
// spread it lies, and keeps it if it is the worst.
func (d *Demand) wallEnd(q *WallQuery, p *Stretch, at *Station, w *wallsAt, i int, end Spot, c *Combination, outer int, worst *Wall) {
	u, one := &d.wall, d.wall.at(outer, c.columns)
	u.sums = slices.Grow(u.sums[:0], c.columns)[:c.columns]
	u.twist = append(u.twist[:0], u.torsion...)
	for j := range u.sums {
		u.sums[j] = r2.Vec{X: one.planes[j].At(end), Y: u.flow[j]}
	}
	apart := d.apartIn(p, at.X, end.Point)
	d.pairsInFull(u.sums, u.twist, c, apart)
	free := u.free[:0]
	if w.cut(i).Open {
		free = append(free, u.twist)
	}
	found := Wall{Found: true, X: at.X, Piece: at.Pieces[0].Index, Constant: w.walls.Constant, Centre: w.walls.ShearCentre, At: end.Point}
	u.factors = resize(u.factors, len(d.causes)+len(p.spreading))
	if q.Principal {
		var pair r2.Vec
		found.Value, pair = c.PrincipalTension(u.factors, outer, &d.reach, u.sums, free...)
		found.Normal, found.Shear = pair.X, pair.Y
	} else {
		u.values = resize(u.values, c.columns)
		for j := range u.sums {
			u.values[j] = u.sums[j].Y
		}
		found.Value = c.Shear(u.factors, outer, &d.reach, u.values, free...)
		for j := range u.sums {
			u.values[j] = u.sums[j].X
		}
		found.Normal, found.Shear = c.Under(u.values, u.factors), found.Value
	}
	if worst.Found && found.Value <= worst.Value {
		return
	}
	found.Cut, found.Factors = w.at(i), slices.Clone(u.factors[:len(d.causes)])
	for _, n := range apart {
		found.Apart = append(found.Apart, ApartAt{p.spreading[n].tendon, u.factors[len(d.causes)+n]})
	}
	*worst, u.hint = found, i
}

// pairsInFull is inFull of pairs and of the torsion that counts by magnitude.
func (d *Demand) pairsInFull(pairs []r2.Vec, torsion []float64, c *Combination, apart []int) {
	base := c.column[0]
	for i, column := range c.column[len(d.situation.products):] {
		if len(apart) > 0 && apart[0] == i {
			apart = apart[1:]
			continue
		}
		pairs[base], pairs[column] = r2.Add(pairs[base], pairs[column]), r2.Vec{}
		torsion[base], torsion[column] = torsion[base]+torsion[column], 0
	}
}

// refineWall narrows the place of the largest value by golden section between the
// neighbours of its node.
func (d *Demand) refineWall(q *WallQuery, worst *Wall) error {
	l := d.ledger
	for k := range l.grid {
		p := &l.grid[k]
		if worst.X < p.At[0].X || worst.X > p.At[Nodes-1].X {
			continue
		}
		n := 0
		for i, at := range p.At {
			if math.Abs(at.X-worst.X) < math.Abs(p.At[n].X-worst.X) {
				n = i
			}
		}
		return d.golden(q, k, p.At[max(n-1, 0)].X, p.At[min(n+1, Nodes-1)].X, worst)
	}
	return nil
}

// golden looks between the nodes on the polynomials through them, then at the best
// place itself.
func (d *Demand) golden(q *WallQuery, k int, a, b float64, worst *Wall) error {
	const ratio = 0.6180339887498949
	l, best, failed := d.ledger, Wall{Value: worst.Value}, error(nil)
	p := &l.grid[k]
	if err := d.wallCurves(k); err != nil {
		return err
	}
	if err := l.measureEnds(p); err != nil {
		return err
	}
	value := func(x float64) float64 {
		at := l.outline(x)
		w, err := l.wallsAt(at, q.filling)
		if err != nil {
			failed = err
			return 0
		}
		one := Wall{}
		d.wallCuts(q, p, at, w, d.wall.interpolate(p, x, w.walls.ShearCentre), &one)
		if one.Value > best.Value {
			best = one
		}
		return one.Value
	}
	x1, x2 := b-ratio*(b-a), a+ratio*(b-a)
	v1, v2 := value(x1), value(x2)
	for range 10 {
		if v1 > v2 {
			b, x2, v2 = x2, x1, v1
			x1 = b - ratio*(b-a)
			v1 = value(x1)
		} else {
			a, x1, v1 = x1, x2, v2
			x2 = a + ratio*(b-a)
			v2 = value(x2)
		}
	}
	if failed != nil || !best.Found {
		return failed
	}
	at := l.at(best.X, p, d.situation.Steps)
	of := l.measure(d.situation, at)
	return d.wallAt(q, p, at, &of, worst)
}

// wallCurves keeps the columns at the nodes of a stretch, about its axis.
func (d *Demand) wallCurves(k int) error {
	p, u := &d.ledger.grid[k], &d.wall
	for n := range p.At {
		c, err := d.wallColumns(p, &d.ledger.measured(d.situation, k)[n], section.Point{})
		if err != nil {
			return err
		}
		u.layout = c
		u.nodes[n].copy(u)
	}
	return nil
}

// wallCurve is the columns at one node.
type wallCurve struct {
	planes    []Plane
	vy, vz, t []float64
}

func (w *wallCurve) copy(u *wallRoom) {
	w.planes = append(w.planes[:0], u.planes...)
	w.vy, w.vz, w.t = append(w.vy[:0], u.vy...), append(w.vz[:0], u.vz...), append(w.t[:0], u.t...)
}

// interpolate makes the columns those at x, by the polynomials through the nodes.
func (u *wallRoom) interpolate(p *Stretch, x float64, centre section.Point) *Combination {
	clear(u.planes)
	clear(u.vy)
	clear(u.vz)
	clear(u.t)
	for n, share := range p.Shares(x) {
		of := &u.nodes[n]
		for j := range u.planes {
			addPlane(&u.planes[j], &of.planes[j], share)
			u.vy[j] += share * of.vy[j]
			u.vz[j] += share * of.vz[j]
			u.t[j] += share * of.t[j]
		}
	}
	for j := range u.t {
		u.t[j] += centre.Y*u.vz[j] - centre.Z*u.vy[j]
	}
	return u.layout
}
