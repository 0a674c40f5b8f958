package stages_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

const (
	castLength = 24.0
	castDepth  = 1.2
	castDuct   = 0.08
)

// poured is a beam with two tendons, parabolas with their anchors on the axis, without
// friction: of a force that bends it upwards in proportion to the strands.
func poured(t testing.TB, strands int, low float64) stages.Element {
	shape, err := section.New([]section.Outline{{{Y: -0.3, Z: 0}, {Y: 0.3, Z: 0}, {Y: 0.3, Z: castDepth}, {Y: -0.3, Z: castDepth}}}, nil)
	require.NoError(t, err)
	e := block()
	e.Mark, e.Length, e.Section, e.Bars = "C", castLength, shape, nil
	middle, drop := castLength/2, castDepth/2-low
	elevation := tendon.Curve{
		tendon.Parabola(tendon.Point{Ordinate: castDepth / 2}, -4*drop/castLength, tendon.Point{X: middle, Ordinate: low}),
		tendon.Parabola(tendon.Point{X: middle, Ordinate: low}, 0, tendon.Point{X: castLength, Ordinate: castDepth / 2}),
	}
	for i, y := range []float64{-0.15, 0.15} {
		e.Tendons = append(e.Tendons, tendon.Tendon{
			Mark: []string{"R", "L"}[i], Strand: tendon.Y1860S7x157, Strands: strands, Duct: castDuct, Elevation: elevation, Plan: tendon.Level(0, castLength, y),
			NoFriction: true, Approval: tendon.Approval{Reference: "invented", MeanStrength: 25e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
		})
	}
	return e
}

// towers are pairs of falsework towers, each of a stiffness.
func towers(stiffness float64, xs ...float64) []stages.Support {
	return stages.Elastic(stiffness, as(stages.Falsework, stages.Pads(0.2, xs...))...)
}

// onTowers is a cast beam, stressed on its towers in one step, then on those of each
// further set.
func onTowers(on []stages.Support, then ...[]stages.Support) stages.Plan {
	one := func(name string, age float64, on []stages.Support) stages.Situation {
		return stages.Situation{Name: name, Age: age, Standing: true, Phase: limits.Stressing, Supports: on}
	}
	first, second := one("hardened", 5, on), one("stressed", 5, nil)
	first.Cast, second.Events = true, []stages.Event{{Jack: &tendon.Jacking{Tendons: []string{"R", "L"}, Stress: 1300e6, Ends: tendon.BothEnds}}}
	list := steps{first, second}
	for i, of := range then {
		list = append(list, one(fmt.Sprintf("pass %d", i+1), 5+float64(i), of))
	}
	return stages.Plan{list}
}

// row is a pair of towers of the beam by hand.
type row struct{ x, stiffness, tributary, level float64 }

// beamByHand is a beam on rows that push only, free of bending when it was cast: w (N/m) on
// rows through forms or, in the bays that are free, on the beam itself. Every set of rows
// that touch is tried; the forces of the one that is possible are returned, and the moment.
func beamByHand(t testing.TB, e stages.Element, force, modulus float64, cast []float64, rows []row, free []bool) ([]float64, func(float64) float64) {
	w, length := 0.6*castDepth*25e3, e.Length
	hole := math.Pi * castDuct * castDuct / 4
	tendonAt := func(x float64) (z, cos float64) {
		drop := castDepth/2 - lowOf(e)
		s := 1 - 2*x/length
		slope := -4 * drop / length * s
		return castDepth/2 - drop*(1-s*s), 1 / math.Sqrt(1+slope*slope)
	}
	net := func(x float64) (centre, second float64) {
		z, _ := tendonAt(x)
		area := 0.6*castDepth - 2*hole
		centre = (0.6*castDepth*castDepth/2 - 2*hole*z) / area
		second = 0.6*math.Pow(castDepth, 3)/12 + 0.6*castDepth*math.Pow(castDepth/2-centre, 2) - 2*(math.Pi*math.Pow(castDuct, 4)/64+hole*(z-centre)*(z-centre))
		return centre, second
	}
	bay := func(i int) float64 { return cast[i+1] - cast[i] }
	given := func(x float64) float64 { // moment of the loads alone
		m := 0.0
		for i := range cast[1:] {
			from, to := cast[i], cast[i+1]
			switch {
			case free[i]:
				a, b := math.Max(0, x-from), math.Max(0, x-to)
				m -= w * (a*a - b*b) / 2
			default:
				m -= w * bay(i) / 2 * (math.Max(0, x-from) + math.Max(0, x-to))
			}
		}
		return m
	}
	stress := func(x float64) float64 {
		z, cos := tendonAt(x)
		c, _ := net(x)
		return -2 * force * cos * (c - z)
	}
	// double is ∫(x − t)·m(t)/EI dt from 0 to x, Gauss with five points on short pieces.
	double := func(x float64, m func(float64) float64) float64 {
		at, weight := []float64{-0.906179845938664, -0.538469310105683, 0, 0.538469310105683, 0.906179845938664}, []float64{0.236926885056189, 0.478628670499366, 0.568888888888889, 0.478628670499366, 0.236926885056189}
		sum, n := 0.0, int(math.Round(x/0.25))
		for k := range n {
			h := x / float64(n)
			for g := range at {
				s := h * (float64(k) + (1+at[g])/2)
				_, second := net(s)
				sum += weight[g] * h / 2 * (x - s) * m(s) / (modulus * second)
			}
		}
		return sum
	}
	lever := func(x float64) func(float64) float64 { return func(s float64) float64 { return math.Max(0, s-x) } }
	total := w * length
	bent, under := make([][]float64, len(rows)), make([]float64, len(rows)) // of a row by the others, and by loads and prestress
	for i, q := range rows {
		for _, o := range rows {
			bent[i] = append(bent[i], double(q.x, lever(o.x)))
		}
		under[i] = double(q.x, given) + double(q.x, stress)
	}
	for set := range 1 << len(rows) {
		var on []int
		for i := range rows {
			if set>>i&1 == 1 {
				on = append(on, i)
			}
		}
		if len(on) < 2 {
			continue
		}
		n := len(on) + 2
		a, b := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
		for r, i := range on { // R/k + u(x) = F0/k + level
			q := rows[i]
			a.Set(r, r, 1/q.stiffness)
			for c, j := range on {
				a.Set(r, c, a.At(r, c)+bent[i][j])
			}
			a.Set(r, n-2, 1)
			a.Set(r, n-1, q.x)
			b.SetVec(r, q.tributary/q.stiffness+q.level-under[i])
			a.Set(n-2, r, 1)
			a.Set(n-1, r, q.x)
		}
		b.SetVec(n-2, total)
		b.SetVec(n-1, total*length/2)
		var x mat.VecDense
		if err := x.SolveVec(a, b); err != nil {
			continue
		}
		forces := make([]float64, len(rows))
		for r, i := range on {
			forces[i] = x.AtVec(r)
		}
		moment := func(s float64) float64 {
			m := given(s)
			for i, q := range rows {
				m += forces[i] * lever(q.x)(s)
			}
			return m
		}
		possible := true
		for i, q := range rows {
			u := x.AtVec(n-2) + x.AtVec(n-1)*q.x + under[i]
			for j, f := range forces {
				u += f * bent[i][j]
			}
			possible = possible && forces[i] >= 0 && (slices.Contains(on, i) || u >= q.tributary/q.stiffness+q.level)
		}
		if possible {
			return forces, moment
		}
	}
	t.Fatal("no set of rows is possible")
	return nil, nil
}

// tendonMoment is the moment of 1 N in a tendon at x about y = z = 0.
func tendonMoment(x float64) float64 {
	s := 1 - 2*x/castLength
	return (castDepth/2 - (castDepth/2-0.2)*(1-s*s)) / math.Hypot(1, 4*(castDepth/2-0.2)/castLength*s)
}

// lowOf is the level of the tendons at mid-span.
func lowOf(e stages.Element) float64 {
	path, err := e.Tendons[0].Path()
	if err != nil {
		panic(err)
	}
	return path.At(e.Length / 2).Z
}

// rowsOf are the reactions of pairs, each pair together.
func rowsOf(list []stages.Reaction, of func(stages.Reaction) float64) (rows []float64) {
	for i := 0; i < len(list); i += 2 {
		rows = append(rows, of(list[i])+of(list[i+1]))
	}
	return rows
}

func nominalOf(r stages.Reaction) float64 { return r.Nominal }

var castAt = []float64{0, 4, 8, 12, 16, 20, 24}

// tributaries are those of rows every 4 m.
func tributaries() (list []float64) {
	w := 0.6 * castDepth * 25e3
	for i := range castAt {
		list = append(list, w*4)
		if i == 0 || i == len(castAt)-1 {
			list[i] /= 2
		}
	}
	return list
}

// When it has hardened each row has its tributary weight, the span is free of bending.
func TestCastInPlaceIsFreeOfBending(t *testing.T) {
	e := poured(t, 8, 0.2)
	e.WeightTolerance = loads.PlusMinus(0.04)
	a, err := onTowers(towers(30e6, castAt...)).Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	of, err := a.Effects(1, 1)
	require.NoError(t, err)
	require.InDeltaSlice(t, tributaries(), rowsOf(of.Reactions, nominalOf), 1e-6)
	for i, f := range tributaries() {
		r := of.Reactions[2*i]
		require.InDelta(t, 0.96*f/2, r.Static.Least, 1e-6)
		require.InDelta(t, 1.04*f/2, r.Static.Most, 1e-6)
	}
	for _, x := range []float64{1, 4, 6, 11.3, 12, 23} {
		f := of.Forces(x)
		require.InDelta(t, 0, f.My, 1e-3, "x = %g", x)
		require.InDelta(t, 0, f.Vz, 1e-3)
	}
}

// A beam on elastic rows after a parabolic prestress agrees with a dense solution that knows
// nothing of this library, over every set of rows that may touch.
func TestStressedOnTowersByHand(t *testing.T) {
	for _, strands := range []int{2, 5, 8} {
		for _, stiffness := range []float64{2e6, 3e7, 1e9} {
			e := poured(t, strands, 0.2)
			a, err := onTowers(towers(stiffness, castAt...)).Analyse(e, limits.EN1992{})
			require.NoError(t, err)
			of, err := a.Effects(1, 2)
			require.NoError(t, err)
			state, err := e.Concrete.At(5)
			require.NoError(t, err)
			var rows []row
			for i, f := range tributaries() {
				rows = append(rows, row{castAt[i], 2 * stiffness, f, 0})
			}
			want, moment := beamByHand(t, e, 1300e6*e.Tendons[0].Area(), state.Modulus, castAt, rows, make([]bool, 6))
			got := rowsOf(of.Reactions, nominalOf)
			sum := 0.0
			for i := range want {
				require.InDelta(t, want[i], got[i], 1e-6*360e3, "%d strands, %g N/m, row %d", strands, stiffness, i+1)
				require.InDelta(t, got[i], got[len(got)-1-i], 1e-3, "mirror")
				sum += got[i]
			}
			require.InDelta(t, 432e3, sum, 1e-2)
			for _, x := range []float64{3, 8.5, 12} {
				require.InDelta(t, moment(x)+2*1300e6*e.Tendons[0].Area()*tendonMoment(x), of.Forces(x).My, 50, "x = %g", x)
			}
		}
	}
}
