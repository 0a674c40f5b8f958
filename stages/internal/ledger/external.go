package ledger

import (
	"math"
	"slices"
	"sort"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// sample is a station for means along external tendons, with the length along x
// that it stands for (m).
type sample struct {
	*Station
	dx float64
}

// Gauss points and weights of order 8 on −1 to 1, one half of them: Abramowitz and
// Stegun, Table 25.4, n = 8.
var gauss = [4][2]float64{
	{0.1834346424956498, 0.3626837833783620}, {0.5255324099163290, 0.3137066458778873},
	{0.7966664774136267, 0.2223810344533745}, {0.9602898564975363, 0.1012285362903763},
}

// free is the number of the free length of an external tendon at x, from one place
// where it is held to the next.
func (t *Tendon) free(x float64) int {
	n := sort.SearchFloat64s(t.Held, x) - 1
	return max(0, min(n, len(t.Held)-2))
}

// layExternal runs through the steps at places along the external tendons: the
// concrete strains each free length as a whole, so that the force changes by the
// mean strain, and what the next step does follows from it.
func (l *Ledger) layExternal() {
	l.along, l.stretched = nil, make([][][]float64, len(l.Steps))
	for k := range l.stretched {
		l.stretched[k] = make([][]float64, len(l.Girder.Tendons))
	}
	external := func(x float64) bool {
		return slices.ContainsFunc(l.Girder.Tendons, func(t Tendon) bool { return t.External && x > t.Path.From() && x < t.Path.To() })
	}
	breaks := l.breaks()
	for i := range l.Girder.Tendons {
		breaks = append(breaks, l.Girder.Tendons[i].Held...)
	}
	slices.Sort(breaks)
	for n := 1; n < len(breaks); n++ {
		a, b := breaks[n-1], breaks[n]
		if b-a < 5*Inset*l.Girder.Length || !external((a+b)/2) {
			continue
		}
		for _, half := range [2][2]float64{{a, (a + b) / 2}, {(a + b) / 2, b}} {
			for _, g := range gauss {
				for _, sign := range [2]float64{-1, 1} {
					s := l.station((half[0]+half[1])/2 + sign*g[0]*(half[1]-half[0])/2)
					l.along = append(l.along, sample{s, g[1] * (half[1] - half[0]) / 2})
				}
			}
		}
	}
	added, forces := make([][]Part, len(l.along)), make([][]float64, len(l.along))
	for n := range l.along {
		added[n], forces[n] = l.begin(l.along[n].Station, len(l.Steps)), make([]float64, len(l.Girder.Tendons))
	}
	for k := range l.Steps {
		for n := range l.along {
			l.pull(l.along[n].Station, k, forces[n], added[n])
		}
		l.stretch(k, added)
		for n := range l.along {
			l.follow(l.along[n].Station, k, forces[n], added[n])
		}
	}
}

// stretch finds by how much step k strains each free length of each external
// tendon: the mean of ε·cos² along it, ε the strain of the concrete in x.
func (l *Ledger) stretch(k int, added [][]Part) {
	step := &l.Steps[k]
	for i := range l.Girder.Tendons {
		t := &l.Girder.Tendons[i]
		if !t.External {
			continue
		}
		l.stretched[k][i] = make([]float64, len(t.Held)-1)
		for j := range l.stretched[k][i] {
			n := 0
			l.stretched[k][i][j] = l.mean(i, j, func(s *Station) float64 {
				for l.along[n].Station != s {
					n++
				}
				at := &s.Tendons[i]
				if s.body(step.States, at.Slot) == nil {
					return 0
				}
				strain := added[n][at.Slot].Plane.Plane.At(at.At) / step.Modulus(s.Pieces[at.Slot].Index)
				return strain * at.Direction[0] * at.Direction[0]
			})
		}
	}
}

// mean is the mean of a quantity along a free length of an external tendon, ∫f
// ds/∫ds.
func (l *Ledger) mean(i, j int, f func(*Station) float64) float64 {
	t := &l.Girder.Tendons[i]
	sum, length := 0.0, 0.0
	for _, s := range l.along {
		if !s.Tendons[i].Here || t.free(s.X) != j {
			continue
		}
		ds := s.dx / s.Tendons[i].Direction[0]
		sum += ds * f(s.Station)
		length += ds
	}
	return sum / math.Max(length, 1e-12)
}

// meanLoss is the loss by creep, shrinkage and relaxation of a free length of an
// external tendon: (5.46) with the means along it (EN 1992-1-1:2004 5.10.6(3)).
func (l *Ledger) meanLoss(s *Situation, i, j int) tendon.Losses {
	if loss, ok := s.means[[2]int{i, j}]; ok {
		return loss
	}
	places := map[*Station]tendon.Place{}
	stiffening := l.mean(i, j, func(at *Station) float64 {
		places[at] = l.place(s, at, i, l.stressed(s, at, i), l.lasting(s, at, offGrid))
		return places[at].Stiffening
	})
	var loss tendon.Losses
	parts := func(of *tendon.Losses) [3]*float64 { return [3]*float64{&of.Shrinkage, &of.Creep, &of.Relaxation} }
	for n, part := range parts(&loss) {
		*part = l.mean(i, j, func(at *Station) float64 {
			along := at.Tendons[i].Direction[0]
			place := places[at]
			place.CreepStrain, place.Stiffening = place.CreepStrain*along*along, stiffening
			one := s.Times[at.Pieces[at.Tendons[i].Slot].Index].Periods[i].Losses(place)
			return *parts(&one)[n]
		})
	}
	if s.means == nil {
		s.means = map[[2]int]tendon.Losses{}
	}
	s.means[[2]int{i, j}] = loss
	return loss
}

// nearestOf is the point of the outline of a shape that is nearest to p, and its
// distance (m): where the force of an anchor beside the outline, on a diaphragm,
// reaches the section.
func nearestOf(shape section.Shape, p section.Point) (at section.Point, distance float64) {
	distance = math.Inf(1)
	for _, o := range append(shape.Solids(), shape.Voids()...) {
		for i := range o {
			a, b := o[i], o[(i+1)%len(o)]
			dy, dz := b.Y-a.Y, b.Z-a.Z
			t := math.Max(0, math.Min(1, ((p.Y-a.Y)*dy+(p.Z-a.Z)*dz)/(dy*dy+dz*dz)))
			q := section.Point{Y: a.Y + t*dy, Z: a.Z + t*dz}
			if d := math.Hypot(p.Y-q.Y, p.Z-q.Z); d < distance {
				at, distance = q, d
			}
		}
	}
	return at, distance
}
