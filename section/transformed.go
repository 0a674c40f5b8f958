package section

import "fmt"

// Piece is a part of a section with its own modulus.
type Piece struct {
	Shape        Shape   // in the coordinates of the whole section
	ModularRatio float64 // its modulus over the reference modulus, 0.01 to 300
}

// Transformed is the properties of parts that act as one, such as a girder and its deck
// slab: every area is multiplied by its modular ratio, so that the stress in a part is
// that of [Properties.Plane] times the ratio of the part. Perimeters and fibre
// distances are those of the joined outline. The error wraps [ErrShape] when a ratio is
// out of range or the pieces do not meet or overlap; see [Joined].
func Transformed(pieces ...Piece) (Properties, error) {
	var sum Properties
	var parts []Shape
	for i, piece := range pieces {
		if !sensibleRatio(piece.ModularRatio) {
			return Properties{}, fmt.Errorf("%w: piece %d: ModularRatio = %g: must be %g to %d", ErrShape, i+1, piece.ModularRatio, leastRatio, mostRatio)
		}
		parts = append(parts, piece.Shape)
	}
	whole, err := Joined(parts...)
	if err != nil {
		return Properties{}, err
	}
	joined := whole.Properties()
	for _, piece := range pieces { // about the centroid of the joined outline
		p, n := piece.Shape.Properties(), piece.ModularRatio
		d := p.Centroid.minus(joined.Centroid)
		sum.Area += n * p.Area
		sum.Centroid.Y += n * p.Area * d.Y
		sum.Centroid.Z += n * p.Area * d.Z
		sum.SecondMomentY += n * (p.SecondMomentY + p.Area*d.Z*d.Z)
		sum.SecondMomentZ += n * (p.SecondMomentZ + p.Area*d.Y*d.Y)
		sum.ProductMoment += n * (p.ProductMoment + p.Area*d.Y*d.Z)
	}
	y, z := sum.Centroid.Y/sum.Area, sum.Centroid.Z/sum.Area
	sum.Centroid = Point{joined.Centroid.Y + y, joined.Centroid.Z + z}
	sum.SecondMomentY -= sum.Area * z * z
	sum.SecondMomentZ -= sum.Area * y * y
	sum.ProductMoment -= sum.Area * y * z
	sum.Top, sum.Bottom = joined.Top-z, joined.Bottom+z
	sum.Left, sum.Right = joined.Left-y, joined.Right+y
	sum.OuterPerimeter, sum.InnerPerimeter = joined.OuterPerimeter, joined.InnerPerimeter
	return sum, nil
}
