package section

import "math"

// Body is the concrete of an element: how much and where its middle is.
type Body struct {
	Volume  float64 // m³
	X, Y, Z float64 // mass centre of even density, m: x from the left end, y and z in the drawing
}

// gaussNodes and gaussWeights integrate polynomials of degree 7 over [-1, 1]
// exactly (Gauss-Legendre, four points): first moments of a section whose
// corners move quadratically are of degree 6 in x.
var gaussNodes, gaussWeights = gauss4()

func gauss4() (nodes, weights [4]float64) {
	inner := math.Sqrt(3.0/7 - 2.0/7*math.Sqrt(6.0/5))
	outer := math.Sqrt(3.0/7 + 2.0/7*math.Sqrt(6.0/5))
	large, small := (18+math.Sqrt(30))/36, (18-math.Sqrt(30))/36
	return [4]float64{-outer, -inner, inner, outer}, [4]float64{small, large, large, small}
}

// Volume is the body of an element of the given length (m) with the section
// along it, exact for the laws that [Along] allows. It is the zero Body when
// along is nil or the length is not finite and positive.
func Volume(along Along, length float64) Body {
	var body Body
	ends := ends(along, length)
	for i := 1; i < len(ends); i++ {
		half := (ends[i] - ends[i-1]) / 2
		for k, node := range gaussNodes {
			x := (ends[i]+ends[i-1])/2 + half*node
			p := along.At(x).Properties()
			volume := gaussWeights[k] * half * p.Area
			body.Volume += volume
			body.X += volume * x
			body.Y += volume * p.Centroid.Y
			body.Z += volume * p.Centroid.Z
		}
	}
	if body.Volume > 0 {
		body.X, body.Y, body.Z = body.X/body.Volume, body.Y/body.Volume, body.Z/body.Volume
	}
	return body
}
