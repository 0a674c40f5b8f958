package section

import (
	"fmt"
	"math"
)

// mostChords is how finely a circle may be asked for.
const mostChords = 1000

// Circle is a regular polygon with exactly the area of the circle, nowhere
// farther from it than chordError (m). The error wraps [ErrShape] when the
// centre or the diameter (m) is not finite and positive, or the chord error is
// not between 0 and a quarter of the diameter or asks for more than 1000 chords.
func Circle(centre Point, diameter, chordError float64) (Outline, error) {
	chords, err := chordsOf(centre, diameter/2, chordError)
	if err != nil {
		return nil, err
	}
	step := 2 * math.Pi / float64(chords)
	radius := diameter / 2 * math.Sqrt(step/math.Sin(step))
	circle := make(Outline, chords)
	for i := range circle {
		sin, cos := math.Sincos(step * float64(i))
		circle[i] = Point{centre.Y + radius*cos, centre.Z + radius*sin}
	}
	return circle, nil
}

// chordsOf is how many chords keep their rise over the arc within chordError:
// a multiple of four, so that the polygon has the circle's symmetries. Since
// corners outside and chords inside share the rise, the polygon of equal area
// is nearer than that.
func chordsOf(centre Point, radius, chordError float64) (int, error) {
	if !(radius > 0 && radius <= largestCoordinate) || math.IsNaN(centre.Y+centre.Z) || math.IsInf(centre.Y+centre.Z, 0) {
		return 0, fmt.Errorf("%w: circle of diameter %g m at y = %g m, z = %g m: must be finite and positive", ErrShape, 2*radius, centre.Y, centre.Z)
	}
	if !(chordError > 0 && chordError <= radius/2) {
		return 0, fmt.Errorf("%w: chord error %g m: must be positive, at most %g m for this circle", ErrShape, chordError, radius/2)
	}
	quarters := math.Ceil(math.Pi / 4 / math.Acos(1-chordError/radius))
	if !(4*quarters <= mostChords) {
		return 0, fmt.Errorf("%w: chord error %g m: must be at most %d chords around a circle of radius %g m", ErrShape, chordError, mostChords, radius)
	}
	return 4 * int(quarters), nil
}

// RoundedRectangle is a rectangle (m) with arcs of the given radius (m) at its
// corners, drawn as chords whose ends are on the arc and whose middles are
// inside it by at most chordError (m). The error wraps [ErrShape]; see [Circle].
func RoundedRectangle(centre Point, width, depth, radius, chordError float64) (Outline, error) {
	chords, err := chordsOf(centre, radius, chordError)
	if err != nil {
		return nil, err
	}
	if !(width >= 2*radius && depth >= 2*radius && width <= largestCoordinate && depth <= largestCoordinate) {
		return nil, fmt.Errorf("%w: rounded rectangle %g × %g m: must be sides of at least twice the radius %g m", ErrShape, width, depth, radius)
	}
	var outline Outline
	for quarter, sign := range [4]Point{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
		for i := range chords/4 + 1 {
			sin, cos := math.Sincos(math.Pi / 2 * (float64(quarter) + float64(4*i)/float64(chords)))
			outline = append(outline, Point{
				centre.Y + sign.Y*(width/2-radius) + radius*cos,
				centre.Z + sign.Z*(depth/2-radius) + radius*sin,
			})
		}
	}
	return outline, nil
}
