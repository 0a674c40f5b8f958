package stages

import (
	"fmt"
	"math"
	"regexp"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

var symbolic = regexp.MustCompile(`^[\pL][\pL\pN_]*$`)

// checkTendons checks each tendon, that its duct is in the concrete and that it
// does not run into another, at the places of its path.
func (g Girder) checkTendons() error {
	marks := map[string]bool{}
	list, piece := g.tendons()
	paths := make([]*tendon.Path, 0, len(list))
	for i, t := range list {
		path, err := t.Path()
		if err != nil {
			return fmt.Errorf("%w: %w", ErrStage, err)
		}
		if marks[t.Mark] {
			return fmt.Errorf("%w: there are two tendons %s: must be marks that differ", ErrStage, t.Mark)
		}
		if !symbolic.MatchString(t.Mark) {
			return fmt.Errorf("%w: tendon mark %q: must be a letter, then letters, digits and underscores", ErrStage, t.Mark)
		}
		marks[t.Mark] = true
		from, to := 0.0, g.Length()
		if k := piece[i]; k >= 0 {
			from, to = g.Pieces[k].At, g.Pieces[k].To()
		}
		if path.From() < from-g.near() || path.To() > to+g.near() {
			return fmt.Errorf("%w: tendon %s runs from x = %g to %g m: must be within %g to %g m", ErrStage, t.Mark, path.From(), path.To(), from, to)
		}
		places := g.placesOf(path)
		if err := g.checkDuct(t, path, places); err != nil {
			return err
		}
		if err := g.checkBarsApart(t, path); err != nil {
			return err
		}
		for k, other := range paths {
			if err := g.checkApart(t, list[k], path, other, places); err != nil {
				return err
			}
		}
		paths = append(paths, path)
	}
	return g.checkLayers(marks)
}

// placesOf are where a path is looked at: 24 places of each of its pieces, and
// both sides of each step of the section.
func (g Girder) placesOf(path *tendon.Path) []float64 {
	xs := placesBetween(path.From(), path.To(), path.Breaks())
	hair := 1e-9 * g.Length()
	for _, p := range g.Pieces {
		for _, list := range [2][]float64{{0, p.Element.Length}, p.Element.Section.Breaks()} {
			for _, b := range list {
				for _, x := range [3]float64{p.At + b - hair, p.At + b, p.At + b + hair} {
					if x >= path.From() && x <= path.To() {
						xs = append(xs, x)
					}
				}
			}
		}
	}
	return xs
}

// clearance is how far a point is inside the concrete of any piece at x (m).
func (g Girder) clearance(x float64, at section.Point) float64 {
	clear := math.Inf(-1)
	for _, p := range g.Pieces {
		if x >= p.At && x <= p.To() {
			clear = math.Max(clear, p.Element.Section.At(x-p.At).Clearance(at))
		}
	}
	return clear
}

func (g Girder) checkDuct(t tendon.Tendon, path *tendon.Path, places []float64) error {
	if t.External {
		return g.checkFree(t, path)
	}
	for _, x := range places {
		p := path.At(x)
		switch c := g.clearance(x, p); {
		case c < 0:
			return fmt.Errorf("%w: tendon %s at x = %.3f m, y = %.3f m, z = %.3f m: its centre is %.3f m outside the concrete: must be inside; one in a void is External",
				ErrStage, t.Mark, x, p.Y, p.Z, -c)
		case !(c >= t.Duct/2):
			return fmt.Errorf("%w: tendon %s at x = %.3f m, y = %.3f m, z = %.3f m: its centre is %.3f m inside the edge of the concrete: must be at least half its duct, %.3f m",
				ErrStage, t.Mark, x, p.Y, p.Z, c, t.Duct/2)
		}
	}
	return nil
}

// checkApart checks at the places of the first that the ducts of two tendons do not overlap.
func (g Girder) checkApart(t, u tendon.Tendon, path, other *tendon.Path, places []float64) error {
	if t.External || u.External {
		return nil
	}
	from, to := other.From(), other.To()
	for _, x := range places {
		if x < from || x > to {
			continue
		}
		p, q := path.At(x), other.At(x)
		if d := math.Hypot(p.Y-q.Y, p.Z-q.Z); d < (t.Duct+u.Duct)/2-1e-9 {
			return fmt.Errorf("%w: tendons %s and %s at x = %.3f m are %.3f m apart: must be at least half of both ducts, %.3f m", ErrStage, u.Mark, t.Mark, x, d, (t.Duct+u.Duct)/2)
		}
	}
	return nil
}
