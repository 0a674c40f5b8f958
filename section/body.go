package section

// Body is the volume of the concrete of an element and its centre.
type Body struct {
	Volume  float64 // m³
	X, Y, Z float64 // centre of gravity of even density, m: x from the left end, y and z in the drawing
}

// Volume is the body of an element of the given length (m) with the section
// along it, exact for the laws that [Along] allows. It is the zero Body when
// along is nil or the length is not within 1e-6 to 1e9 m.
func Volume(along Along, length float64) Body {
	var body Body
	for _, piece := range Areas(along, length) {
		b := piece.Body()
		body.Volume += b.Volume
		body.X += b.Volume * b.X
		body.Y += b.Volume * b.Y
		body.Z += b.Volume * b.Z
	}
	if body.Volume > 0 {
		body.X, body.Y, body.Z = body.X/body.Volume, body.Y/body.Volume, body.Z/body.Volume
	}
	return body
}
