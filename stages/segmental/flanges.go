package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
)

// flanges are the slabs of a section with their effective parts.
type flanges struct {
	full, effective [2]float64 // width of the top and of the bottom slab, m
	bands           []section.Band
}

// reduced is true where a part of a slab does not count.
func (f flanges) reduced() bool { return len(f.bands) > 0 }

// effectiveFlanges are the slabs of a section of a length between points of zero moment (m). The
// webs are the chords a quarter of the depth inside; of a slab between two webs half belongs
// to each. The error wraps [section.ErrShape].
func effectiveFlanges(shape section.Shape, zeroMoments float64) (f flanges, err error) {
	p := shape.Properties()
	top, bottom := p.Centroid.Z+p.Top, p.Centroid.Z-p.Bottom
	middle, quarter := (top+bottom)/2, (top-bottom)/4
	for k, of := range [2]struct{ low, high, level float64 }{{middle, top + quarter, top - quarter}, {bottom - quarter, middle, bottom + quarter}} {
		webs := shape.Chords(of.level)
		if len(webs) == 0 {
			return f, fmt.Errorf("%w: no web at z = %.3f m: must have one between the slabs", section.ErrShape, of.level)
		}
		from, to := math.Inf(1), math.Inf(-1)
		for _, c := range shape.Corners() {
			if c.Z >= of.low && c.Z <= of.high {
				from, to = math.Min(from, c.Y), math.Max(to, c.Y)
			}
		}
		out, err := gaps(webs, from, to, zeroMoments)
		if err != nil {
			return f, err
		}
		f.full[k], f.effective[k] = to-from, to-from
		for _, b := range out {
			f.bands = append(f.bands, section.Band{From: section.Point{Y: b[0], Z: of.low}, To: section.Point{Y: b[1], Z: of.high}})
			f.effective[k] -= b[1] - b[0]
		}
	}
	return f, nil
}

// gaps are the stretches of a slab from one edge to the other that do not count (m).
func gaps(webs []section.Chord, from, to, zeroMoments float64) (out [][2]float64, err error) {
	leave := func(from, to float64, sides int, first float64) error {
		if to-from < 1e-6 {
			return nil
		}
		b := (to - from) / float64(sides)
		part, err := section.EffectiveWidth(zeroMoments, 1, b) // with a web of 1 m
		if part--; err == nil && b-part > 1e-9 {
			out = append(out, [2]float64{from + first*part, to - (float64(sides)-first)*part})
		}
		return err
	}
	if err := leave(from, webs[0].From, 1, 0); err != nil {
		return nil, err
	}
	for i := 1; i < len(webs); i++ {
		if err := leave(webs[i-1].To, webs[i].From, 2, 1); err != nil {
			return nil, err
		}
	}
	return out, leave(webs[len(webs)-1].To, to, 1, 1)
}
