package segmental

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// bend is a place of a tendon where it presses towards the inside of a curve or of a kink.
type bend struct {
	mark     string
	x        float64       // m
	segment  string        // at x
	force    float64       // jacking force, N
	turn     float64       // 1/R, 1/m; of a kink its angle, rad
	to       section.Point // unit vector in the section towards the inside
	cover    float64       // of concrete that way, from the axis of the tendon to the face, m; of a kink 0
	strength float64       // characteristic cylinder strength there, Pa
	held     *Held
}

// push is the deviation force: per metre (N/m), of a kink in all (N).
func (b bend) push(kink bool) float64 {
	if kink {
		return 2 * b.force * math.Sin(b.turn/2)
	}
	return b.force * b.turn
}

// bends are the places of a stressed tendon at which its curvature, with that of the deck in
// plan, can govern: both ends and the middle of each stretch of one law in one segment. Of an
// external tendon there are none.
func (s *state) bends(t Tendon, g stages.Girder) (list []bend, err error) {
	path := s.paths[t.Mark]
	if t.External {
		return nil, nil
	}
	places := slices.Concat(path.Breaks(), s.at)
	slices.Sort(places)
	for i, from := range places[:len(places)-1] {
		to := places[i+1]
		if to-from < 4*clearOf || from < path.From()-nearly || to > path.To()+nearly {
			continue
		}
		for _, x := range [3]float64{from + clearOf, (from + to) / 2, to - clearOf} {
			y, z := s.turned(path, x)
			turn := math.Hypot(y, z)
			if turn < 1e-9 {
				continue
			}
			b := bend{mark: t.Mark, x: x, turn: turn, to: section.Point{Y: y / turn, Z: z / turn}, force: s.pulled[t.Mark] * t.Area(), held: t.Held}
			b.cover = coverTowards(grossBeside(g, x, 1), path.At(x), b.to)
			if err := s.into(&b); err != nil {
				return nil, err
			}
			list = append(list, b)
		}
	}
	return list, nil
}

// into puts segment and strength at the place of a bend.
func (s *state) into(b *bend) error {
	i := s.segmentAt(b.x)
	if i < 0 {
		i = s.segmentAt(b.x - clearOf)
	}
	e := s.deck.Segments[i].Element
	of, err := e.Concrete.At(s.day - e.Cast)
	b.segment, b.strength = e.Mark, of.Characteristic
	return err
}

// turned is the curvature of a tendon in space with that of the axis of the deck (1/m), across
// and upwards.
func (s *state) turned(path *tendon.Path, x float64) (y, z float64) {
	const step = clearOf / 2
	_, y0, z0 := path.Direction(x - step)
	_, y1, z1 := path.Direction(x + step)
	if size := math.Hypot(y1-y0, z1-z0); size > 0 {
		k := path.Curvature(x) / size
		y, z = k*(y1-y0), k*(z1-z0)
	}
	if s.deck.Radius != 0 {
		y += 1 / s.deck.Radius
	}
	return y, z
}

// coverTowards is the distance from a point in the concrete to the first face in a direction
// (m); 0 where it is not in the concrete.
func coverTowards(shape section.Shape, at, to section.Point) float64 {
	const far = 200
	parts := shape.Within(section.Cut{From: at, To: section.Point{Y: at.Y + far*to.Y, Z: at.Z + far*to.Z}})
	if len(parts) == 0 || math.Hypot(parts[0].From.Y-at.Y, parts[0].From.Z-at.Z) > nearly {
		return 0
	}
	return parts[0].Thickness()
}

// kinks are the kinks and deviators of a stressed tendon.
func (s *state) kinks(t Tendon) (list []bend, err error) {
	path := s.paths[t.Mark]
	for _, x := range path.Deviators() {
		x0, y0, z0 := path.Direction(x - clearOf)
		x1, y1, z1 := path.Direction(x + clearOf)
		half := math.Hypot(math.Hypot(x1-x0, y1-y0), z1-z0) / 2
		b := bend{mark: t.Mark, x: x, turn: 2 * math.Asin(math.Min(1, half)), force: s.pulled[t.Mark] * t.Area(), held: t.Held}
		if size := math.Hypot(y1-y0, z1-z0); size > 0 {
			b.to = section.Point{Y: (y1 - y0) / size, Z: (z1 - z0) / size}
		}
		if err := s.into(&b); err != nil {
			return nil, err
		}
		list = append(list, b)
	}
	return list, nil
}
