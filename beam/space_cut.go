package beam

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// cuts is the internal forces along a member: a polynomial for each component
// between two neighbouring places where something acts or the section changes.
type cuts struct {
	places []float64    // m, rising, first 0 and last Length
	terms  int          // of each polynomial
	law    []float64    // of interval i and component c: terms numbers from (6·i + c)·terms
	loaded []bool       // a line load acts in the interval
	jump   []resultants // what acts at each place
}

func (c *cuts) length(i int) float64 { return c.places[i+1] - c.places[i] }

func (c *cuts) of(i, component int) []float64 {
	from := (6*i + component) * c.terms
	return c.law[from : from+c.terms]
}

// at is the forces at s (m) from the left end of interval i.
func (c *cuts) at(i int, s float64) (f resultants) {
	law := c.law[6*i*c.terms : 6*(i+1)*c.terms]
	for k := range f {
		own := law[k*c.terms : (k+1)*c.terms]
		sum := 0.0
		for j := len(own) - 1; j >= 0; j-- {
			sum = sum*s + own[j]
		}
		f[k] = sum
	}
	return f
}

// find is the last place at or left of x, within near.
func find(places []float64, x, near float64) int {
	low, high := 0, len(places)
	for low < high {
		if middle := (low + high) / 2; places[middle] <= x+near {
			low = middle + 1
		} else {
			high = middle
		}
	}
	return max(low-1, 0)
}

// cut is the internal forces of the loads and of the supports with a given
// force alone, summed from the left.
func (s *Space) cut(l *SpaceLoads, kept []float64) *cuts {
	c := &cuts{places: s.cutPlaces(l), terms: 2}
	for i := range l.Lines {
		c.terms = max(c.terms, len(l.Lines[i].Intensity)+2, len(l.Lines[i].FirstMomentY)+2, len(l.Lines[i].FirstMomentZ)+2)
	}
	n := len(c.places) - 1
	c.law = make([]float64, 6*n*c.terms)
	c.loaded = make([]bool, n)
	c.jump = make([]resultants, n+1)
	near := samePlace * s.layout.Length
	for i := range l.Points {
		p := &l.Points[i]
		c.act(find(c.places, p.X, near), p.X, p.Y, p.Z, p.Force, p.Couple)
	}
	for i := range l.Lines {
		c.spread(&l.Lines[i], near)
	}
	for i, force := range kept {
		if r := &s.layout.Supports[i]; r.Kept {
			at := find(c.places, r.X, near)
			f := r.unitField(c.places[at])
			for k := range f {
				c.jump[at][k] += force * f[k]
			}
		}
	}
	c.sum()
	return c
}

// cutPlaces is where the laws of the internal forces change.
func (s *Space) cutPlaces(l *SpaceLoads) []float64 {
	if len(l.Points)+len(l.Lines)+len(l.Strains) == 0 {
		return s.grid
	}
	places := make([]float64, 0, len(s.grid)+len(l.Points)+2*len(l.Lines)+2*len(l.Strains))
	places = append(places, s.grid...)
	for i := range l.Points {
		places = append(places, l.Points[i].X)
	}
	for i := range l.Lines {
		places = append(places, l.Lines[i].From, l.Lines[i].To)
	}
	for i := range l.Strains {
		places = append(places, l.Strains[i].From, l.Strains[i].To)
	}
	return distinct(places, s.layout.Length)
}

// distinct sorts places and drops those that count as one. The ends stay.
func distinct(places []float64, length float64) []float64 {
	slices.Sort(places)
	near := samePlace * length
	kept := places[:1]
	for _, x := range places[1:] {
		if x-kept[len(kept)-1] > near {
			kept = append(kept, x)
		}
	}
	kept[0], kept[len(kept)-1] = 0, length
	return kept
}

// act adds a force at (x, y, z) and a couple to what acts at place i.
func (c *cuts) act(i int, x, y, z float64, force, couple r3.Vec) {
	arm := r3.Vec{X: x - c.places[i], Y: y, Z: z}
	f := fromLeft(force, r3.Add(couple, r3.Cross(arm, force)))
	c.jump[i].add(&f)
}

// spread adds the rates of a line load to the laws of the intervals it covers:
// forces per metre as they change N, Vy, Vz, T, My and Mz of a cut.
func (c *cuts) spread(l *SpaceLine, near float64) {
	d := r3.Unit(l.Direction)
	for i := find(c.places, l.From, near); i < len(c.loaded) && c.places[i] < l.To-near; i++ {
		c.loaded[i] = true
		by := c.places[i] - l.From
		// A force (dx, dy, dz) at (y, z) has the moment (y·dz − z·dy, z·dx, −y·dx).
		c.rate(i, l.Intensity, by, [6]float64{-d.X, d.Y, d.Z, 0, 0, 0})
		c.rate(i, l.FirstMomentY, by, [6]float64{0, 0, 0, -d.Z, 0, d.X})
		c.rate(i, l.FirstMomentZ, by, [6]float64{0, 0, 0, d.Y, d.X, 0})
	}
}

// rate adds factors × the polynomial terms(s + by) to the rates of interval i,
// which are kept one power up, in the terms they will be integrated to.
func (c *cuts) rate(i int, terms []float64, by float64, factors [6]float64) {
	if len(terms) == 0 {
		return
	}
	var room [8]float64
	moved := append(room[:0], terms...)
	if by != 0 {
		for j := range moved { // Taylor: synthetic division, term by term
			for k := len(moved) - 2; k >= j; k-- {
				moved[k] += by * moved[k+1]
			}
		}
	}
	for component, factor := range factors {
		if factor == 0 {
			continue
		}
		law := c.of(i, component)
		for k, v := range moved {
			law[k+1] += factor * v
		}
	}
}

// sum integrates the rates from the left: V = dM/dx, so a bending moment grows
// by its shear and by what moment the load itself brings.
func (c *cuts) sum() {
	var now resultants
	for i := range c.loaded {
		now.add(&c.jump[i])
		c.integrate(i, now)
		now = c.at(i, c.length(i))
	}
}

func (c *cuts) integrate(i int, start resultants) {
	law := c.law[6*i*c.terms : 6*(i+1)*c.terms]
	if !c.loaded[i] {
		for k, v := range start {
			law[k*c.terms] = v
		}
		law[4*c.terms+1], law[5*c.terms+1] = start[2], start[1]
		return
	}
	for component, v := range start {
		own := law[component*c.terms : (component+1)*c.terms]
		own[0] = v
		var shear []float64
		switch component { // the shears come first and are whole by now
		case 4:
			shear = law[2*c.terms : 3*c.terms]
		case 5:
			shear = law[c.terms : 2*c.terms]
		}
		for k := 1; k < c.terms; k++ {
			if shear != nil {
				own[k] += shear[k-1]
			}
			own[k] /= float64(k)
		}
	}
}

// size is the sum of the sizes of all forces at the ends of the intervals.
func (c *cuts) size() float64 {
	sum := 0.0
	for i := range c.loaded {
		f := c.at(i, c.length(i))
		for k := range f {
			sum += math.Abs(f[k]) + math.Abs(c.law[(6*i+k)*c.terms])
		}
	}
	return sum
}
