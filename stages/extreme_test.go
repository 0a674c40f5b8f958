package stages

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages/limits"
)

// randomGirder is a rectangle with a draped tendon, jacked from one end or both,
// and weights and supports anywhere.
func randomGirder(r *rand.Rand) (Element, Plan, error) {
	length, depth := 10+20*r.Float64(), 0.9+0.6*r.Float64()
	shape, err := section.New([]section.Outline{{{Y: -0.3}, {Y: 0.3}, {Y: 0.3, Z: depth}, {Y: -0.3, Z: depth}}}, nil)
	if err != nil {
		return Element{}, nil, err
	}
	low := tendon.Point{X: length * (0.3 + 0.15*r.Float64()), Ordinate: 0.12}
	drape := tendon.Drape(tendon.Point{Ordinate: depth * (0.3 + 0.3*r.Float64())}, length*0.1, low, length)
	e := Element{
		Mark: "R", Length: length, Section: shape, WeightTolerance: loads.PlusMinus(0.05 * r.Float64()),
		Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR},
		Extra:    []ExtraWeight{{Mark: "block", From: length * 0.2 * r.Float64(), To: length * (0.3 + 0.6*r.Float64()), Weight: 60e3 * (0.1 + r.Float64())}},
		Tendons: []tendon.Tendon{{
			Mark: "T", Strand: tendon.Y1860S7x157, Strands: 4 + r.IntN(8), Duct: 0.09, Elevation: drape, Plan: tendon.Level(0, length, 0), Friction: 0.19, Wobble: 0.005,
			Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
		}},
	}
	ends := []tendon.Ends{tendon.LeftEnd, tendon.RightEnd, tendon.BothEnds}[r.IntN(3)]
	on := func() []Support { return At(length*0.3*r.Float64(), length*(0.7+0.3*r.Float64())) }
	return e, Plan{
		Transfer{Age: 5, Jacking: []tendon.Jacking{{Tendons: []string{"T"}, Stress: 1350e6, Ends: ends, DrawIn: 0.006}}, On: on()},
		Lift{Age: 6, On: on(), Dynamic: loads.Dynamic{Least: 1 - 0.3*r.Float64(), Most: 1 + 0.4*r.Float64()}},
		Stress{Age: 20, Grout: []string{"T"}, On: on()},
		Seat{Age: 28, On: on(), Loads: loads.Set{Points: []loads.Point{{At: length * r.Float64(), Force: 80e3 * r.Float64()}}}},
	}, nil
}

// The extreme stress of every situation, with the factors of the limit, is not
// passed by any of 41 places in each piece: found again here by force.
func TestExtremesWithFactorsAgainstBruteForce(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 5))
	for range 60 {
		e, plan, err := randomGirder(random)
		require.NoError(t, err)
		r, err := newRun(plan, e, limits.EN1992{})
		require.NoError(t, err)
		require.NoError(t, r.makeGrid())
		for _, s := range r.situations {
			factors := r.rangesOf(s, limits.Factors{PrestressLeast: 0.9, PrestressMost: 1.1})
			for _, sign := range []float64{-1, 1} {
				found := r.extreme(s, sign, factors, func(*piece, section.Point) bool { return true })
				require.True(t, found.found)
				most := bruteForce(r, s, sign, factors)
				require.GreaterOrEqual(t, sign*found.value, most-1e-7*math.Abs(most), "%s at x = %g", s.Name, found.x)
				require.InDelta(t, most, sign*found.value, 2e-3*math.Abs(most)+2e3)
			}
		}
	}
}

func bruteForce(r *run, s *situation, sign float64, factors ranges) float64 {
	most, zones := math.Inf(-1), r.disturbed(s.steps)
	for i := range r.grid {
		p := &r.grid[i]
		if within(p.middle(), zones) {
			continue
		}
		for k := range 41 {
			at := r.at(p.from + (p.to-p.from)*(1e-7+(1-2e-7)*float64(k)/40))
			b := r.basis(s, at)
			for _, corner := range at.corners {
				_, value := b.worst(sign, corner, factors)
				most = math.Max(most, sign*value)
			}
		}
	}
	return most
}
