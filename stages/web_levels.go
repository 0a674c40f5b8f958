package stages

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"github.com/tempstage/tempstage/section"
)

// web is the elastic shear and principal stress at one level of a section.
type web struct {
	x, level  float64
	ends      [2]section.Point // outer ends of the cut: σx is linear between them
	point     section.Point    // the end with the larger value
	corner    corner
	shear     float64 // τ, Pa, a magnitude
	normal    float64 // σx at point, Pa
	principal float64 // largest principal tension, Pa
	force     float64 // V of the concrete, N
	moment    float64 // first moment of what lies above about the centroid, m³
	width     float64 // net width of the walls, m
	chord     float64 // concrete cut by the level, m
	ducts     int     // that the level cuts
}

// measured are the levels of a station with their geometry, kept for the next
// limit. Grouting only ever adds tendons, so their number says which are grouted.
func (r *run) measured(s *situation, at *station) ([]web, error) {
	if list, ok := at.webs[len(s.grouted)]; ok {
		return list, nil
	}
	var list []web
	for _, c := range append(r.outlineCuts(at), r.ductCuts(at)...) {
		if len(c.chords) == 0 {
			continue
		}
		w := web{x: at.x, level: c.level, moment: c.moment}
		if err := r.measure(s, at, &w, c.chords); err != nil {
			return nil, err
		}
		list = append(list, w)
	}
	list = sheared(list)
	if at.webs == nil {
		at.webs = map[int][]web{}
	}
	at.webs[len(s.grouted)] = list
	return list, nil
}

// levelCut is the outline cut at a level: its chords and the first moment of
// what lies above about the centroid.
type levelCut struct {
	level  float64
	chords []section.Chord
	moment float64
}

func (s *station) cut(level float64) levelCut {
	above := s.shape.Above(level)
	return levelCut{level, s.shape.Chords(level), math.Abs(above.FirstMomentY - above.Area*s.gross.Centroid.Z)}
}

// outlineCuts are the cuts that only the outline decides: the centroid, just
// inside every corner level, and three levels between each two. A constant
// section is cut once.
func (r *run) outlineCuts(at *station) []levelCut {
	_, constant := r.element.Section.(section.Shape)
	if constant && r.cuts != nil {
		return slices.Clone(r.cuts)
	}
	low, high := at.gross.Centroid.Z-at.gross.Bottom, at.gross.Centroid.Z+at.gross.Top
	hair := 1e-7 * (high - low)
	corners := []float64{at.gross.Centroid.Z}
	for _, c := range at.corners {
		corners = append(corners, c.Z)
	}
	sort.Float64s(corners)
	levels := []float64{at.gross.Centroid.Z}
	for i, z := range corners {
		levels = append(levels, z-hair, z+hair)
		if i > 0 && z-corners[i-1] > 4*hair {
			for _, share := range []float64{0.25, 0.5, 0.75} {
				levels = append(levels, corners[i-1]+share*(z-corners[i-1]))
			}
		}
	}
	sort.Float64s(levels)
	levels = slices.CompactFunc(levels, func(a, b float64) bool { return math.Abs(b-a) < hair/2 })
	cuts := make([]levelCut, 0, len(levels))
	for _, z := range levels {
		if z > low+hair && z < high-hair {
			cuts = append(cuts, at.cut(z))
		}
	}
	if constant {
		r.cuts = slices.Clone(cuts)
	}
	return cuts
}

// ductCuts are the cuts through each duct: its centre and its edges.
func (r *run) ductCuts(at *station) []levelCut {
	var levels []float64
	for i, t := range at.tendons {
		if half := r.element.Tendons[i].Duct / 2 * (1 - 1e-6); t.here {
			levels = append(levels, t.at.Z-half, t.at.Z, t.at.Z+half)
		}
	}
	sort.Float64s(levels)
	levels = slices.CompactFunc(levels, func(a, b float64) bool { return math.Abs(b-a) < 1e-9 })
	cuts := make([]levelCut, 0, len(levels))
	for _, z := range levels {
		cuts = append(cuts, at.cut(z))
	}
	return cuts
}

// sheared are the levels where the shear stress is at least half of the largest
// of the section: the web. Slabs and outer fibres, where bending alone acts, have
// their own limits.
func sheared(list []web) []web {
	most := 0.0
	for _, w := range list {
		most = math.Max(most, w.moment/w.width)
	}
	return slices.DeleteFunc(list, func(w web) bool { return w.moment/w.width < most/2 })
}

// measure fills the width of a level, each wall less its duct allowance, and the
// outer ends of the cut.
func (r *run) measure(s *situation, at *station, w *web, chords []section.Chord) error {
	for _, c := range chords {
		width := c.To - c.From
		w.chord += width
		for filling, ducts := range r.ducts(s, at, w.level, c) {
			if len(ducts) == 0 {
				continue
			}
			w.ducts += len(ducts)
			net, err := section.WebWidth(width, section.Filling(filling), ducts...)
			if err != nil {
				return fmt.Errorf("web at x = %.3f m, z = %.3f m: %w", at.x, w.level, err)
			}
			width = net
		}
		w.width += width
	}
	w.ends = [2]section.Point{{Y: chords[0].From, Z: w.level}, {Y: chords[len(chords)-1].To, Z: w.level}}
	return nil
}

// ducts are the diameters of the ducts that a level cuts in one wall: those not
// grouted, then those grouted.
func (r *run) ducts(s *situation, at *station, level float64, wall section.Chord) [2][]float64 {
	var diameters [2][]float64
	for i, t := range at.tendons {
		steel := &r.element.Tendons[i]
		if !t.here || math.Abs(t.at.Z-level) > steel.Duct/2 || t.at.Y < wall.From || t.at.Y > wall.To {
			continue
		}
		filling := section.NotGrouted
		if slices.Contains(s.grouted, steel.Mark) && !steel.Plastic {
			filling = section.GroutedMetal
		}
		diameters[filling] = append(diameters[filling], steel.Duct)
	}
	return diameters
}
