package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
)

// held are the places where an external tendon is fixed to the concrete (m): its
// anchors and, where there is friction, its deviators. Changes of force by the strain
// of the concrete are a few per cent, less than what a deviator takes by friction.
func held(t tendon.Tendon, path *tendon.Path) []float64 {
	if !t.External {
		return nil
	}
	places := []float64{path.From()}
	if t.Friction > 0 {
		places = append(places, path.Deviators()...)
	}
	return append(places, path.To())
}

// checkFree checks that an external tendon leaves the concrete between any two of
// its anchors and deviators, and enters it there only.
func (g Girder) checkFree(t tendon.Tendon, path *tendon.Path) error {
	places := g.placesOf(path)
	slices.Sort(places)
	held := append(append([]float64{path.From()}, path.Deviators()...), path.To())
	for n := 1; n < len(held); n++ {
		var xs []float64
		for _, x := range places {
			if x >= held[n-1] && x <= held[n] {
				xs = append(xs, x)
			}
		}
		inside := func(x float64) bool { return g.clearance(x, path.At(x)) > -t.Duct/2 }
		for len(xs) > 0 && inside(xs[0]) {
			xs = xs[1:]
		}
		for len(xs) > 0 && inside(xs[len(xs)-1]) {
			xs = xs[:len(xs)-1]
		}
		if len(xs) == 0 {
			return fmt.Errorf("%w: external tendon %s runs in the concrete all the way from x = %.3f to %.3f m: must be outside it between anchors and deviators", ErrStage, t.Mark, held[n-1], held[n])
		}
		if at := slices.IndexFunc(xs, inside); at >= 0 {
			to := at + slices.IndexFunc(xs[at:], func(x float64) bool { return !inside(x) }) - 1
			return fmt.Errorf("%w: external tendon %s runs in the concrete from about x = %.3f to %.3f m: must be outside it but at anchors and deviators", ErrStage, t.Mark, xs[at], xs[to])
		}
	}
	return nil
}

// localForces are what acts on parts of the element that no beam shows: brackets, and
// forces of tendons with their size, in the situation in which they begin.
func (r *run) localForces(s *situation) []string {
	var words []string
	if slices.ContainsFunc(s.Supports, func(p Support) bool { return p.Bracket }) {
		words = append(words, "brackets and frames between supports and concrete, and their fixing")
	}
	for _, pull := range r.pullsIn(s) {
		i, t := pull.tendon, r.tendons[pull.tendon]
		if r.pretensioned(i) {
			words = append(words, fmt.Sprintf("end zones of pretension %s: splitting and spalling, and stresses not linear over the section within the dispersion length, %.2f m from the ends (EN 1992-1-1:2004 8.10.2.2(4))", t.Mark, r.dispersion(i)))
		}
		if !t.External && !r.pretensioned(i) {
			continue
		}
		for n, d := range pull.force.DeviationsAtJack() {
			after := pull.force.Deviations()[n]
			words = append(words, fmt.Sprintf("deviator of %s at x = %.3f m: %.1f kN before lock-off, %.1f kN after it (along %.1f, to the left %.1f, upwards %.1f kN): its fixing, the pull-out and the local bending",
				t.Mark, d.At, d.Force/1e3, after.Force/1e3, after.X/1e3, after.Y/1e3, after.Z/1e3))
		}
	}
	return words
}
