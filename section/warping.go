package section

import (
	"math"
	"sort"
)

// WarpingConstant is Cw = ∫ω² dA about the shear centre for Poisson's ratio 0,
// with the warping function ω of mean zero (m⁶): for torsion restrained warping. The area is swept in level strips between corners, with Gauss points
// in each, where ω follows from the boundary; it takes about as long as the
// solution itself. It is 0 for a zero Torsion.
func (t Torsion) WarpingConstant() float64 {
	if t.Nodes == 0 {
		return 0
	}
	pole := t.shearCentre(0).minus(t.properties.Centroid)
	levels := t.shape.levels()
	var area, first, second float64
	for i := 1; i < len(levels); i++ {
		half := (levels[i] - levels[i-1]) / 2
		for k, node := range gaussNodes {
			z := levels[i-1] + half*(1+node)
			for _, chord := range t.shape.Chords(z) {
				a, s, ss := t.sweep(chord, z, pole)
				weight := gaussWeights[k] * half
				area, first, second = area+weight*a, first+weight*s, second+weight*ss
			}
		}
	}
	return math.Max(0, second-first*first/area) // round shapes do not warp
}

// levels are the heights of the corners, in order, with the strips between them
// cut in two; strips thinner than a millionth of the whole add nothing.
func (s Shape) levels() []float64 {
	var corners []float64
	for _, p := range s.Corners() {
		corners = append(corners, p.Z)
	}
	sort.Float64s(corners)
	least := thinnest * (corners[len(corners)-1] - corners[0])
	levels := corners[:1:1]
	for _, z := range corners {
		if last := levels[len(levels)-1]; z-last > least {
			levels = append(levels, (z+last)/2, z)
		}
	}
	return levels
}

// sweep is the integrals of 1, ω and ω² along a chord, in up to sixteen pieces
// not longer than the chord's least wall.
func (t Torsion) sweep(chord Chord, z float64, pole Point) (length, first, second float64) {
	length = chord.To - chord.From
	wall := t.shape.behind(Point{(chord.From + chord.To) / 2, z}, Point{1, 0})
	pieces := math.Max(1, math.Min(16, math.Ceil(length/(2*wall))))
	weight := length / pieces / 2
	for i := range int(pieces) {
		for k, node := range gaussNodes {
			y := chord.From + (float64(i)+(1+node)/2)*length/pieces
			p := Point{y, z}.minus(t.properties.Centroid)
			ω := t.boundary.value(t.warping, p) - pole.Z*p.Y + pole.Y*p.Z
			first += weight * gaussWeights[k] * ω
			second += weight * gaussWeights[k] * ω * ω
		}
	}
	return length, first, second
}

// Warping is the sectorial coordinate ω (m²) at the corners, in the order of
// [Shape.Corners]: the displacement along x for unit twist about the shear centre
// for Poisson's ratio 0, with mean zero over the area. A bimoment B = E·Cw·θ″
// gives the stress B·ω/Cw, with no resultant: ∫ω dA = ∫ω·y dA = ∫ω·z dA = 0. It
// is nil for a zero Torsion.
func (t Torsion) Warping() []float64 {
	if t.Nodes == 0 {
		return nil
	}
	pole, mean := t.shearCentre(0).minus(t.properties.Centroid), t.meanWarping()
	var values []float64
	for _, corner := range t.asDrawn.Corners() {
		p := corner.minus(t.properties.Centroid)
		k, ξ, _ := t.boundary.nearest(p)
		c := t.boundary.elements[k].coefficients(t.warping.nodes)
		values = append(values, c[0]+ξ*(c[1]+ξ*c[2])-mean-pole.Z*p.Y+pole.Y*p.Z)
	}
	return values
}

// meanWarping is the mean over the area of the warping function about the
// centroid; twisting about another pole adds what is linear and has none. With
// ∇²(r²/4) = 1 Green's formula is ∫ω dA = ∮(ω·r·n/2 − r²/4·∂ω/∂n) ds.
func (t Torsion) meanWarping() float64 {
	sum := 0.0
	for i := range t.boundary.elements {
		e := &t.boundary.elements[i]
		shape := e.coefficients(t.warping.nodes)
		for k, node := range gaussNodes {
			ξ := (1 + node) / 2
			p := e.place(ξ)
			ω := shape[0] + ξ*(shape[1]+ξ*shape[2])
			sum += gaussWeights[k] * e.length / 2 * (ω*dot(p, e.out)/2 - dot(p, p)/4*dot(p, e.along))
		}
	}
	return sum / t.properties.Area
}
