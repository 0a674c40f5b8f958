package section

import "sort"

// Part is one side of a cut section: its area and first moments about the axes of the
// drawing.
type Part struct {
	Area         float64 // m²
	FirstMomentY float64 // ∫z dA, m³
	FirstMomentZ float64 // ∫y dA, m³
}

// Centroid is that of the part (m); the origin of the drawing when it has no area.
func (p Part) Centroid() Point {
	if p.Area == 0 {
		return Point{}
	}
	return Point{p.FirstMomentZ / p.Area, p.FirstMomentY / p.Area}
}

// Above is the part of the shape with z ≥ level (m).
func (s Shape) Above(level float64) Part { return s.Beyond(Point{Z: 1}, level) }

// Beyond is the part of the shape where normal·(y, z) ≥ offset; normal need not
// be a unit vector, offset is in m times its length.
func (s Shape) Beyond(normal Point, offset float64) Part {
	if dot(normal, normal) == 0 { // 0 ≥ offset everywhere or nowhere
		if offset > 0 || s.Empty() {
			return Part{}
		}
		p := s.Properties()
		return Part{p.Area, p.Area * p.Centroid.Z, p.Area * p.Centroid.Y}
	}
	// An origin on the cut makes the closing edges along it add nothing.
	k := offset / dot(normal, normal)
	origin := Point{normal.Y * k, normal.Z * k}
	var p Part
	for _, o := range s.outlines {
		for i := range o {
			a, b := o[i].minus(origin), o.next(i).minus(origin)
			da, db := dot(normal, a), dot(normal, b)
			if da < 0 && db < 0 {
				continue
			}
			if da < 0 {
				a = between(b, a, db/(db-da))
			} else if db < 0 {
				b = between(a, b, da/(da-db))
			}
			c := cross(a, b)
			p.Area += c / 2
			p.FirstMomentY += c * (a.Z + b.Z) / 6
			p.FirstMomentZ += c * (a.Y + b.Y) / 6
		}
	}
	p.FirstMomentY += p.Area * origin.Z
	p.FirstMomentZ += p.Area * origin.Y
	return p
}

func between(a, b Point, t float64) Point {
	return Point{a.Y + t*(b.Y-a.Y), a.Z + t*(b.Z-a.Z)}
}

// Chord is a horizontal cut through concrete.
type Chord struct {
	From, To float64 // y of its ends, m, From < To
}

// Chords are the cuts through concrete at the level z (m), from small to large
// y; at the level of a horizontal edge they are those just above it.
func (s Shape) Chords(level float64) []Chord { return s.chords(level, false) }

// chords are those just above a level, or just below it.
func (s Shape) chords(level float64, below bool) []Chord {
	beyond := func(p Point) bool { return p.Z > level || below && p.Z == level }
	var ys []float64
	for _, o := range s.outlines {
		for i := range o {
			a, b := o[i], o.next(i)
			if beyond(a) != beyond(b) {
				ys = append(ys, a.Y+(level-a.Z)/(b.Z-a.Z)*(b.Y-a.Y))
			}
		}
	}
	sort.Float64s(ys)
	chords := make([]Chord, 0, len(ys)/2)
	for i := 0; i+1 < len(ys); i += 2 {
		if ys[i+1] > ys[i] {
			chords = append(chords, Chord{ys[i], ys[i+1]})
		}
	}
	return chords
}

// Force is the resultant of a linear stress on the part (N, tension +).
func (p Part) Force(s Plane) float64 {
	return s.Constant*p.Area + s.SlopeZ*p.FirstMomentY + s.SlopeY*p.FirstMomentZ
}

// TensionForce is the force in the zone where a linear stress is tensile
// (N, ≥ 0), on the full shape, and the area of that zone (m²).
func (s Shape) TensionForce(stress Plane) (force, area float64) {
	normal := Point{stress.SlopeY, stress.SlopeZ}
	if dot(normal, normal) == 0 {
		if stress.Constant <= 0 {
			return 0, 0
		}
		p := s.Beyond(Point{Z: 1}, -2*largestCoordinate)
		return p.Force(stress), p.Area
	}
	zone := s.Beyond(normal, -stress.Constant)
	return zone.Force(stress), zone.Area
}
