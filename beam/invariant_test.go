package beam_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

const seeds = 60

func TestReactionsBalanceTheLoads(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		layout := s.layout()
		set := s.set(layout.Length)
		r := solved(t, layout, set)
		force, moment, scale := 0.0, 0.0, 0.0
		for _, reaction := range r.Reactions {
			force += reaction.Force
			moment += reaction.Force*reaction.At + reaction.Moment
			scale += math.Abs(reaction.Force)*layout.Length + math.Abs(reaction.Moment)
		}
		require.InDelta(t, set.Total(), force, 1e-9*scale/layout.Length, "seed %d", seed)
		require.InDelta(t, set.FirstMoment(), moment, 1e-9*scale, "seed %d", seed)
	}
}

func TestSuperpositionAndScale(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		layout := s.still()
		a, b := s.set(layout.Length), s.set(layout.Length)
		both := solved(t, layout, a.And(b))
		first, second := solved(t, layout, a), solved(t, layout, b)
		size := both.MomentRange().Most.Value - both.MomentRange().Least.Value
		for _, x := range stations(layout.Length) {
			require.InDelta(t, both.Moment(x), first.Moment(x)+second.Moment(x), 1e-9*size, "seed %d, x = %g", seed, x)
		}
		same(t, solved(t, layout, a.Scaled(-2.5)), first, -2.5)
	}
}

// Maxwell and Betti: the work of one set of forces on the movements of another
// is the same both ways round.
func TestReciprocity(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		layout := s.still()
		x, y := s.in(0, layout.Length), s.in(0, layout.Length)
		force := solved(t, layout, loads.Set{Points: []loads.Point{{At: x, Force: 1e5}}})
		couple := solved(t, layout, loads.Set{Couples: []loads.Couple{{At: y, Moment: 1e5}}})
		other := solved(t, layout, loads.Set{Points: []loads.Point{{At: y, Force: 1e5}}})
		size := max(math.Abs(force.Deflection(x)), math.Abs(other.Deflection(y)))
		require.InDelta(t, force.Deflection(y), other.Deflection(x), 1e-9*size, "seed %d", seed)
		turn := (force.MomentRange().Most.Value - force.MomentRange().Least.Value) * layout.Length / 1e9
		require.InDelta(t, force.Slope(y), -couple.Deflection(x), 1e-9*turn, "seed %d", seed)
	}
}

func TestMirroredBeam(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		layout := s.layout()
		points := loads.Set{
			Points:  []loads.Point{{At: s.in(0, layout.Length), Force: 4e5}},
			Lines:   []loads.Line{loads.Trapezoid(0, layout.Length/3, 1e4, 5e4)},
			Couples: []loads.Couple{{At: s.in(0, layout.Length), Moment: 3e5}},
		}
		a := solved(t, layout, points)
		b := solved(t, mirrored(layout), mirroredLoads(points, layout.Length))
		size := a.MomentRange().Most.Value - a.MomentRange().Least.Value
		sag := a.DeflectionRange().Most.Value - a.DeflectionRange().Least.Value
		for _, x := range stations(layout.Length) {
			p, q := a.At(x, beam.RightOf), b.At(layout.Length-x, beam.LeftOf)
			require.InDelta(t, p.Moment, q.Moment, 1e-9*size, "seed %d, x = %g", seed, x)
			require.InDelta(t, p.Shear, -q.Shear, 1e-9*size, "seed %d, x = %g", seed, x)
			require.InDelta(t, p.Deflection, q.Deflection, 1e-9*sag, "seed %d, x = %g", seed, x)
			require.InDelta(t, p.Slope, -q.Slope, 1e-9*sag, "seed %d, x = %g", seed, x)
		}
	}
}

func mirrored(l beam.Layout) beam.Layout {
	m := l
	m.Supports = slices.Clone(l.Supports)
	for i := range m.Supports {
		m.Supports[i].At = l.Length - l.Supports[i].At
	}
	m.Hinges = slices.Clone(l.Hinges)
	for i := range m.Hinges {
		m.Hinges[i] = l.Length - l.Hinges[i]
	}
	m.Stiffness = nil
	for i := len(l.Stiffness) - 1; i >= 0; i-- {
		from := 0.0
		if i > 0 {
			from = l.Stiffness[i-1].To
		}
		stretch := l.Stiffness[i]
		stretch.To = l.Length - from
		m.Stiffness = append(m.Stiffness, stretch)
	}
	return m
}

func mirroredLoads(s loads.Set, length float64) (m loads.Set) {
	for _, p := range s.Points {
		m.Points = append(m.Points, loads.Point{At: length - p.At, Force: p.Force})
	}
	for _, c := range s.Couples {
		m.Couples = append(m.Couples, loads.Couple{At: length - c.At, Moment: -c.Moment})
	}
	for _, l := range s.Lines {
		start, end := l.Intensity.At(0), l.Intensity.At(l.To-l.From)
		m.Lines = append(m.Lines, loads.Trapezoid(length-l.To, length-l.From, end, start))
	}
	return m
}

// A support movement that is a rigid-body movement strains nothing.
func TestRigidBodyMovementGivesNoForce(t *testing.T) {
	supports := []beam.Support{{At: 2}, {At: 11, Stiffness: 3e8}, {At: 25}, {At: 40}}
	for i := range supports {
		supports[i].Settlement = 0.01 + 0.002*supports[i].At
	}
	layout := beam.Layout{Length: 43, Stiffness: []beam.Stretch{{BendingStiffness: 2e10}}, Supports: supports}
	r := solved(t, layout, loads.Set{})
	for _, x := range stations(43) {
		require.InDelta(t, -0.01-0.002*x, r.Deflection(x), 1e-14)
		require.InDelta(t, -0.002, r.Slope(x), 1e-14)
		require.InDelta(t, 0, r.Moment(x), 1e-4, "against EI/L² × 0.1 m = 1e6 N·m")
	}
}

// The reported extremes bound the field everywhere, and are values of it.
func TestExtremesBoundTheField(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		layout := s.layout()
		r := solved(t, layout, s.set(layout.Length))
		fields := []struct {
			extremes []beam.Extreme
			bounds   beam.Range
			at       func(beam.State) float64
		}{
			{r.MomentExtremes(), r.MomentRange(), func(s beam.State) float64 { return s.Moment }},
			{r.ShearExtremes(), r.ShearRange(), func(s beam.State) float64 { return s.Shear }},
			{r.DeflectionExtremes(), r.DeflectionRange(), func(s beam.State) float64 { return s.Deflection }},
		}
		for _, f := range fields {
			least, most := math.Inf(1), math.Inf(-1)
			for _, e := range f.extremes {
				least, most = min(least, e.Value), max(most, e.Value)
			}
			size := max(most, -least)
			require.InDelta(t, f.bounds.Least.Value, least, 1e-9*size)
			require.InDelta(t, f.bounds.Most.Value, most, 1e-9*size)
			for i := range 2000 {
				v := f.at(r.At(layout.Length*float64(i)/1999, beam.RightOf))
				require.LessOrEqual(t, v, most+1e-9*size, "seed %d", seed)
				require.GreaterOrEqual(t, v, least-1e-9*size, "seed %d", seed)
			}
			require.True(t, slices.IsSortedFunc(f.extremes, func(a, b beam.Extreme) int {
				if a.At < b.At {
					return -1
				}
				return int(math.Ceil(a.At - b.At))
			}), "seed %d", seed)
		}
	}
}

// M, V, slope and deflection are each other's derivatives, but for the shear
// strain.
func TestFieldsAreDerivatives(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		layout := s.layout()
		r := solved(t, layout, s.set(layout.Length))
		size := r.MomentRange().Most.Value - r.MomentRange().Least.Value
		for _, p := range r.Pieces() {
			middle, h := (p.From+p.To)/2, (p.To-p.From)*1e-4
			slope := (r.Moment(middle+h) - r.Moment(middle-h)) / (2 * h)
			require.InDelta(t, slope, r.Shear(middle), 1e-6*size/(p.To-p.From)+1e-6*math.Abs(slope), "seed %d", seed)
			rise := (r.Deflection(middle+h) - r.Deflection(middle-h)) / (2 * h)
			if ga := layout.Stiffness[1].ShearStiffness; ga > 0 && middle > layout.Stiffness[0].To {
				rise += r.Shear(middle) / ga // the section turns less than the axis
			}
			require.InDelta(t, rise, r.Slope(middle), 1e-5*math.Abs(r.Slope(middle))+1e-8, "seed %d", seed)
			require.InDelta(t, r.Moment(middle), p.At(middle-p.From), 1e-9*size, "seed %d", seed)
		}
	}
}
