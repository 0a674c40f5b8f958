package stages

import (
	"cmp"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/limits"
)

// webSearch looks for the worst level of a situation.
type webSearch struct {
	*run
	situation *situation
	kind      limits.Kind
	factors   ranges
	limit     float64 // Pa
	worst     web
	found     bool
	cracked   [][2]float64 // left out of principal tension: the section cracks in bending
	peaks     []webPeak
}

// webPeak is the best node of a piece under a corner of factors, to be looked
// around.
type webPeak struct {
	from, to float64 // its neighbours, m
	corner   corner
	bound    float64 // what the value may rise to between them
}

// value is what the search makes largest.
func (w *webSearch) value(level web) float64 {
	if w.kind == limits.WebShear {
		return level.shear
	}
	return level.principal
}

// all looks, under every corner of factors, at every node of each piece, then
// between the neighbours of the best, and at the ends of cracked stretches.
func (w *webSearch) all() error {
	zones := w.disturbed(w.situation.steps)
	for i := range w.grid {
		p := &w.grid[i]
		if within(p.middle(), zones) {
			continue
		}
		for _, c := range w.factors.all() {
			if err := w.piece(p, c); err != nil {
				return err
			}
		}
	}
	slices.SortFunc(w.peaks, func(a, b webPeak) int { return cmp.Compare(b.bound, a.bound) })
	for _, peak := range w.peaks {
		if peak.bound < w.value(w.worst) {
			continue
		}
		if err := w.refine(peak); err != nil {
			return err
		}
	}
	return nil
}

// piece searches one piece under one corner of factors.
func (w *webSearch) piece(p *piece, c corner) error {
	best := -1
	var cracks, values [nodes]float64 // cracks: positive where the section cracks
	for k, at := range p.at {
		cracks[k], values[k] = w.cracks(at, c), math.Inf(-1)
		if cracks[k] > 0 {
			continue
		}
		value, ok, err := w.at(at, c)
		if err != nil {
			return err
		}
		if ok {
			values[k] = value
		}
		if ok && (best < 0 || values[k] > values[best]) {
			best = k
		}
	}
	if err := w.crackEnds(p, cracks, c); err != nil || best < 0 {
		return err
	}
	// A smooth value does not rise above a node by more than the step to its
	// neighbours; where there is none to compare with it is looked at anyway.
	step := 0.0
	for _, k := range []int{max(best-1, 0), min(best+1, nodes-1)} {
		step = math.Max(step, values[best]-values[k])
	}
	w.peaks = append(w.peaks, webPeak{p.at[max(best-1, 0)].x, p.at[min(best+1, nodes-1)].x, c, values[best] + step})
	return nil
}

// cracks is by how much the largest bending stress exceeds the limit: the reach
// of a limit on principal tension ends there. Web shear has no such end.
func (w *webSearch) cracks(at *station, c corner) float64 {
	if w.kind != limits.PrincipalTension {
		return -1
	}
	return at.tensile(w.basis(w.situation, at).under(c)) - w.limit
}

// crackEnds notes the cracked stretch of a piece and looks just outside it.
func (w *webSearch) crackEnds(p *piece, cracks [nodes]float64, c corner) error {
	for k := range nodes {
		if cracks[k] <= 0 {
			continue
		}
		stretch := [2]float64{p.at[k].x, p.at[k].x}
		if k > 0 && cracks[k-1] <= 0 {
			x, err := w.crackEnd(p.at[k-1].x, p.at[k].x, c)
			if err != nil {
				return err
			}
			stretch[0] = x
		}
		if k < nodes-1 && cracks[k+1] <= 0 {
			x, err := w.crackEnd(p.at[k+1].x, p.at[k].x, c)
			if err != nil {
				return err
			}
			stretch[1] = x
		} else if k < nodes-1 {
			stretch[1] = p.at[k+1].x
		}
		w.note(stretch)
	}
	return nil
}

// crackEnd looks at the last uncracked place on the way from an uncracked to a
// cracked one and returns it.
func (w *webSearch) crackEnd(uncracked, cracked float64, c corner) (float64, error) {
	for range 30 {
		middle := (uncracked + cracked) / 2
		if w.cracks(w.run.at(middle), c) > 0 {
			cracked = middle
		} else {
			uncracked = middle
		}
	}
	_, _, err := w.at(w.run.at(uncracked), c)
	return uncracked, err
}

// note joins a cracked stretch to those known.
func (w *webSearch) note(stretch [2]float64) {
	near := 1e-3 * w.element.Length
	for i := range w.cracked {
		if known := &w.cracked[i]; stretch[0] <= known[1]+near && stretch[1] >= known[0]-near {
			known[0], known[1] = math.Min(known[0], stretch[0]), math.Max(known[1], stretch[1])
			return
		}
	}
	w.cracked = append(w.cracked, stretch)
}

// refine narrows the place of the largest value by golden section.
func (w *webSearch) refine(peak webPeak) error {
	const ratio = 0.6180339887498949
	a, b, c := peak.from, peak.to, peak.corner
	value := func(x float64) (float64, error) {
		at := w.run.at(x)
		if w.cracks(at, c) > 0 {
			return math.Inf(-1), nil
		}
		value, _, err := w.at(at, c)
		return value, err
	}
	x1, x2 := b-ratio*(b-a), a+ratio*(b-a)
	v1, err := value(x1)
	if err != nil {
		return err
	}
	v2, err := value(x2)
	for range 12 {
		if err != nil {
			return err
		}
		if v1 > v2 {
			b, x2, v2 = x2, x1, v1
			x1 = b - ratio*(b-a)
			v1, err = value(x1)
		} else {
			a, x1, v1 = x1, x2, v2
			x2 = a + ratio*(b-a)
			v2, err = value(x2)
		}
	}
	return err
}

// at is the largest value at a station under a corner of factors; the worst level
// of all is kept. Where a bound on the value lies well below what is found
// already, the bound is returned and no level looked at.
func (w *webSearch) at(at *station, c corner) (value float64, ok bool, err error) {
	levels, err := w.measured(w.situation, at)
	if err != nil || len(levels) == 0 {
		return 0, false, err
	}
	_, forces := at.prestressIn(w.situation)
	force := c.weight*c.dynamic*w.situation.system.forces(at.x).Vz + c.prestress*forces.Vz
	if w.situation.other != nil {
		force += c.other * w.situation.other.Shear(at.x)
	}
	stress := w.basis(w.situation, at).under(c)
	shear := math.Abs(force) / at.gross.SecondMomentY // × S/b is τ
	if bound := w.bound(shear*mostSheared(levels), at.tensile(stress)); w.found && bound < 0.9*w.value(w.worst) {
		return bound, true, nil
	}
	var worst web
	for _, level := range levels {
		level.corner, level.force, level.shear = c, force, shear*level.moment/level.width
		for _, end := range level.ends {
			level.point, level.normal = end, stress.At(end)
			level.principal, _ = section.PrincipalStresses(level.normal, level.shear)
			if !ok || w.value(level) > w.value(worst) {
				worst, ok = level, true
			}
		}
	}
	if !w.found || w.value(worst) > w.value(w.worst) {
		w.worst, w.found = worst, true
	}
	return w.value(worst), true, nil
}

// bound is no less than the value of any level where the shear stress is at most
// shear and the stress along x at most normal: principal tension rises with both.
func (w *webSearch) bound(shear, normal float64) float64 {
	if w.kind == limits.WebShear {
		return shear
	}
	principal, _ := section.PrincipalStresses(normal, shear)
	return principal
}

// mostSheared is the largest S/b of levels.
func mostSheared(levels []web) float64 {
	most := 0.0
	for i := range levels {
		most = math.Max(most, levels[i].moment/levels[i].width)
	}
	return most
}

// tensile is the largest stress at the corners of the outline.
func (s *station) tensile(stress section.Plane) float64 {
	most := math.Inf(-1)
	for _, c := range s.corners {
		most = math.Max(most, stress.At(c))
	}
	return most
}

// all is every corner of the ranges.
func (f ranges) all() []corner {
	var corners []corner
	for _, w := range distinct(f.weight) {
		for _, d := range distinct(f.dynamic) {
			for _, p := range distinct(f.prestress) {
				corners = append(corners, corner{weight: w, dynamic: d, prestress: p})
				if f.other > 0 {
					corners = append(corners, corner{w, d, p, f.other})
				}
			}
		}
	}
	return corners
}

func distinct(pair [2]float64) []float64 {
	if pair[0] == pair[1] {
		return pair[:1]
	}
	return pair[:]
}
