package section

// TensionZone is the zone of tensile stress along the element.
type TensionZone struct {
	Force  float64 // N, ≥ 0
	Area   float64 // m²
	Centre Point   // of its area, m
}

// Tension is the zone where a plane of stress and warping·ω together are tensile,
// with warping = B/Cw (Pa/m²), on the full shape.
func (s Sectorial) Tension(stress Plane, warping float64) TensionZone {
	var zone TensionZone
	if s.walls == nil {
		return zone
	}
	g := s.walls.properties.Centroid
	at := func(v [4]float64) float64 {
		ω := v[3] - s.level[0] - s.level[1]*v[1] - s.level[2]*v[2]
		return stress.At(Point{v[1] + g.Y, v[2] + g.Z}) + warping*ω
	}
	var first Point
	s.triangles(func(a, b, c [4]float64) {
		corners := [3]Point{{a[1], a[2]}, {b[1], b[2]}, {c[1], c[2]}}
		values := [3]float64{at(a), at(b), at(c)}
		tensile(corners, values, func(p, q, r Point, sum float64) {
			area := cross(q.minus(p), r.minus(p)) / 2
			zone.Force += area * sum / 3
			zone.Area += area
			first.Y += area * (p.Y + q.Y + r.Y) / 3
			first.Z += area * (p.Z + q.Z + r.Z) / 3
		})
	})
	if zone.Area > 0 {
		zone.Centre = Point{first.Y/zone.Area + g.Y, first.Z/zone.Area + g.Z}
	}
	return zone
}

// tensile visits the part of a triangle where a linear function is positive, in
// triangles, with the sum of its values at their corners.
func tensile(p [3]Point, v [3]float64, visit func(a, b, c Point, sum float64)) {
	var room [4]Point
	var values [4]float64
	n := 0
	keep := func(at Point, value float64) { room[n], values[n], n = at, value, n+1 }
	for i := range 3 {
		j := (i + 1) % 3
		if v[i] > 0 {
			keep(p[i], v[i])
		}
		if v[i] > 0 != (v[j] > 0) {
			keep(between(p[i], p[j], v[i]/(v[i]-v[j])), 0)
		}
	}
	for i := 2; i < n; i++ {
		visit(room[0], room[i-1], room[i], values[0]+values[i-1]+values[i])
	}
}
