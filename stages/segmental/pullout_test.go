package segmental

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// soffited is the bare cantilever with a tendon of 12 strands from the left face of L2 to the
// right face of L1 (x = 0 to 6 m) along its soffit, stressed as the last move.
func soffited(t testing.TB, elevation tendon.Curve, harped bool) (Deck, []stages.Support, []Step) {
	d, on, steps := bare(t)
	b := d.Tendons[0]
	b.Tendon.Mark, b.Elevation, b.Plan, b.Harped, b.First, b.Last = "B1", elevation, tendon.Level(0, 6, 1.2), harped, "L2", "L1"
	d.Tendons = append(d.Tendons, b)
	steps[1].Moves = append(steps[1].Moves[:5:5], Move{Do: Stress, Jacking: &tendon.Jacking{Tendons: []string{"B1"}, Stress: 1300e6, Ends: tendon.LeftEnd, DrawIn: 0.006}})
	return d, on, steps
}

// pulls are the checks of pull-out of the last move.
func pulls(t testing.TB, d Deck, on []stages.Support, steps []Step) (list []stages.Check) {
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	last, _ := lastMove(t, b, 2)
	for _, c := range last.Checks {
		if strings.HasPrefix(c.Name, "pull-out") {
			list = append(list, c)
		}
	}
	return list
}

// A parabola with z” = −0.005/m along an arched soffit pulls P/R downwards; the shear of the
// concrete beside the duct, between duct and soffit, carries it. By hand at both ends and the
// middle of each segment.
func TestPullOutOfACurvedSoffitTendon(t *testing.T) {
	const slope, bent, z0 = -0.44 / 6, -0.005, -3.07
	curve := tendon.Curve{tendon.Parabola(tendon.Point{Ordinate: z0}, slope, tendon.Point{X: 6, Ordinate: -3.6})}
	d, on, steps := soffited(t, curve, false)
	of := pulls(t, d, on, steps)
	require.Len(t, of, 1)
	depth := func(x float64) float64 { u := 1 - (8-x)/35; return 2.2 + 1.8*u*u }
	const force = 1300e6 * 12 * 150e-6
	demand, limit := 0.0, 1.0
	for _, x := range [6]float64{0, 1.5, 3, 3, 4.5, 6} {
		joint := 3 * math.Floor(math.Min(x, 5.9)/3)
		soffit := -(depth(joint)*(joint+3-x) + depth(joint+3)*(x-joint)) / 3 // straight between joints
		dz := slope + bent*x
		q := 1.2 * force * 0.005 / math.Pow(1+dz*dz, 1.5)
		// 0.75 × 0.125·d_c·√f′ci in kip, inch: 50 MPa are 7.25 ksi; 1 ksi·in = 0.175127 MN/m
		carried := 0.75 * 0.125 * (z0 + slope*x + bent*x*x/2 - soffit) / 0.0254 * math.Sqrt(50/6.894757) * 175126.8
		if q/carried > demand/limit {
			demand, limit = q, carried
		}
	}
	require.InEpsilon(t, demand, of[0].Demand.Value, 1e-4)
	require.InEpsilon(t, limit, of[0].Limit.Value, 1e-4)
	require.Equal(t, stages.Pass, of[0].State)
	require.Contains(t, of[0].Place, "towards the soffit")

	// Ties count where they carry more.
	d.Tendons[len(d.Tendons)-1].Held = &Held{PerMetre: 3e-3, Yield: 500e6, Document: "TB-2"}
	of = pulls(t, d, on, steps)
	require.InEpsilon(t, 3e-3*500e6/1.15, of[0].Limit.Value, 1e-9)

	d.Tendons[len(d.Tendons)-1].Held.PerMetre = 1e-6
	of = pulls(t, d, on, steps)
	require.InEpsilon(t, limit, of[0].Limit.Value, 1e-4)

	// A deck that curves to the left pulls all tendons to the left as well.
	d.Tendons[len(d.Tendons)-1].Held = nil
	d.Radius = 100
	straight := d.Tendons[0]
	s := d.begin(on)
	s.paths = map[string]*tendon.Path{}
	g, err := d.Girder()
	require.NoError(t, err)
	s.paths, err = paths(g)
	require.NoError(t, err)
	s.pulled["T1L"], s.day = 1400e6, 40
	bends, err := s.bends(straight, g)
	require.NoError(t, err)
	require.NotEmpty(t, bends)
	for _, b := range bends {
		require.InEpsilon(t, 1400e6*12*150e-6/100, b.push(false), 1e-9)
		require.InDelta(t, 1, b.to.Y, 1e-9)
		require.InDelta(t, 5-1.75, b.cover, 1e-6, "to the edge of the top slab")
	}
}

// Where the concrete does not carry the force and no ties are stated, the largest such force
// is asked for; the governing one of the others is checked.
func TestPullOutAsked(t *testing.T) {
	thin := bend{mark: "A", force: 3e6, turn: 0.05, cover: 0.06, strength: 40e6}
	thick, other := thin, thin
	thick.mark, thick.cover = "B", 0.6
	other.mark, other.turn, other.cover = "C", 0.04, 0.02
	require.Less(t, thin.byCover(), 1.2*3e6*0.05)
	list, err := governingBends([]bend{other, thick, thin}, false)
	require.NoError(t, err)
	require.Len(t, list, 2)
	require.Equal(t, "pull-out of B inside its curve", list[0].Name)
	require.Equal(t, stages.Pass, list[0].State)
	require.Equal(t, "pull-out of A inside its curve", list[1].Name)
	require.Equal(t, stages.NotEvaluated, list[1].State)
	require.Contains(t, list[1].Note, "180.0 kN/m")
	require.Contains(t, list[1].Note, fmt.Sprintf("the concrete carries %.1f kN/m", math.Floor(0.75*0.125*0.06*math.Sqrt(40e6*6.894757e6)/100)/10))
}

// At a kink of 0.14 rad between two straights the concrete alone is not counted.
func TestPullOutAtAKink(t *testing.T) {
	at := func(x, z float64) tendon.Point { return tendon.Point{X: x, Ordinate: z} }
	curve := tendon.Curve{tendon.Straight(at(0, -3.04), at(3, -3.2)), tendon.Straight(at(3, -3.2), at(6, -3.57))}
	d, on, steps := soffited(t, curve, true)
	angle := math.Atan(0.37/3) - math.Atan(0.16/3)
	force := 1.2 * 2 * 1300e6 * 12 * 150e-6 * math.Sin(angle/2)
	of := pulls(t, d, on, steps)
	require.Len(t, of, 1)
	require.Equal(t, stages.NotEvaluated, of[0].State)
	require.Equal(t, limits.LocalForce, of[0].Kind)
	require.Contains(t, of[0].Note, fmt.Sprintf("required for %.1f kN towards the soffit", math.Ceil(force/100)/10))
	d.Tendons[len(d.Tendons)-1].Held = &Held{AtKink: 0.5e-3, Yield: 500e6, Document: "TB-2"}
	of = pulls(t, d, on, steps)
	require.Len(t, of, 1)
	require.InEpsilon(t, force, of[0].Demand.Value, 1e-6)
	require.InEpsilon(t, 0.5e-3*500e6/1.15, of[0].Limit.Value, 1e-9)
	require.InDelta(t, 3, of[0].X, 1e-9)
	d.Tendons[0].Held = &Held{AtKink: 1, Yield: 500e6, Document: "TB-2"}
	_, err := d.Plan(on, steps...)
	require.ErrorIs(t, err, ErrSegmental)
	require.ErrorContains(t, err, "Tendon T1L Held.AtKink = 1 m²")
}
