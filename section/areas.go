package section

import "math"

// AreaPiece is the area of a section along a stretch and its first moments about
// the axes of the drawing, as polynomials in x − From: where corners move at
// most quadratically in x, an area is of degree 4 and a first moment of degree 6.
type AreaPiece struct {
	From, To     float64    // m
	Coefficients [5]float64 // area = Σ c[i]·(x−From)^i, m²
	FirstMomentY [7]float64 // ∫z dA = Σ c[i]·(x−From)^i, m³
	FirstMomentZ [7]float64 // ∫y dA = Σ c[i]·(x−From)^i, m³
}

// Areas is the area along 0 ≤ x ≤ length (m) in pieces between the breaks. It
// is exact for the laws that [Along] allows; the weight per length is density
// times it. It is nil when along is nil or the length is not within 1e-6 to 1e9 m.
func Areas(along Along, length float64) []AreaPiece {
	ends := ends(along, length)
	pieces := make([]AreaPiece, 0, len(ends))
	for i := 1; i < len(ends); i++ {
		pieces = append(pieces, areaPiece(along, ends[i-1], ends[i]))
	}
	return pieces
}

// At is the section at x (m) of the stretch.
func (p AreaPiece) At(x float64) Part {
	s := x - p.From
	return Part{value(p.Coefficients[:], s), value(p.FirstMomentY[:], s), value(p.FirstMomentZ[:], s)}
}

// Body is the concrete of the stretch: its centre is at ∫y dA dx/∫dA dx, not
// at the centroid of any one section where the section changes.
func (p AreaPiece) Body() Body {
	s := p.To - p.From
	volume := integralTo(p.Coefficients[:], s, 0)
	if !(volume > 0) {
		return Body{}
	}
	return Body{
		Volume: volume, X: p.From + integralTo(p.Coefficients[:], s, 1)/volume,
		Y: integralTo(p.FirstMomentZ[:], s, 0) / volume, Z: integralTo(p.FirstMomentY[:], s, 0) / volume,
	}
}

// value is a polynomial at s.
func value(coefficients []float64, s float64) float64 {
	sum := 0.0
	for i := len(coefficients) - 1; i >= 0; i-- {
		sum = sum*s + coefficients[i]
	}
	return sum
}

// integralTo is ∫ s^power · polynomial ds from 0 to s.
func integralTo(coefficients []float64, s float64, power int) float64 {
	sum := 0.0
	for i := len(coefficients) - 1; i >= 0; i-- {
		sum = sum*s + coefficients[i]/float64(i+power+1)
	}
	return sum * math.Pow(s, float64(power+1))
}

// areaPlaces are the seven Chebyshev points of a stretch, as fractions, in an
// order in which the first five are spread over it too: five fix a quartic.
var areaPlaces = func() (places [7]float64) {
	for i, k := range [7]float64{0, 6, 3, 2, 4, 1, 5} {
		places[i] = (1 - math.Cos(math.Pi*(2*k+1)/14)) / 2
	}
	return places
}()

// areaPiece interpolates area and first moments between from and to.
func areaPiece(along Along, from, to float64) AreaPiece {
	piece := AreaPiece{From: from, To: to}
	var at, area, momentY, momentZ [7]float64
	for i, place := range areaPlaces {
		at[i] = (to - from) * place
		p := along.At(from + at[i]).Properties()
		area[i], momentY[i], momentZ[i] = p.Area, p.Area*p.Centroid.Z, p.Area*p.Centroid.Y
	}
	interpolate(piece.Coefficients[:], at[:], area[:])
	interpolate(piece.FirstMomentY[:], at[:], momentY[:])
	interpolate(piece.FirstMomentZ[:], at[:], momentZ[:])
	return piece
}

// interpolate gives the coefficients of the polynomial through as many of the
// values as it has coefficients, by divided differences (Newton).
func interpolate(coefficients, at, values []float64) {
	n := len(coefficients)
	difference := append([]float64(nil), values[:n]...)
	for order := 1; order < n; order++ {
		for i := n - 1; i >= order; i-- {
			difference[i] = (difference[i] - difference[i-1]) / (at[i] - at[i-order])
		}
	}
	for i := n - 1; i >= 0; i-- { // Horner: c ← c·(s − at[i]) + difference[i]
		for k := n - 1; k > 0; k-- {
			coefficients[k] = coefficients[k-1] - at[i]*coefficients[k]
		}
		coefficients[0] = difference[i] - at[i]*coefficients[0]
	}
}
