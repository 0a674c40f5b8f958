package stages_test

import (
	"math"
	"math/rand/v2"
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

// scattered is the element without symmetry with weights thrown about, and no
// tendons: what acts is weight and reactions alone.
func scattered(t testing.TB, r *rand.Rand) stages.Element {
	e := unlike(t)
	e.Tendons, e.Extra = nil, nil
	for range 1 + r.IntN(5) {
		from := 20 * r.Float64()
		to := from + (20-from)*r.Float64()*float64(r.IntN(2))
		e.Extra = append(e.Extra, stages.ExtraWeight{Mark: "w", From: from, To: to, Weight: 1e3 + 40e3*r.Float64(), Y: 0.8*r.Float64() - 0.4, Z: 1.5 * r.Float64()})
	}
	return e
}

// standsOn are three supports, or two and a linked pair, that enclose the middle.
func standsOn(r *rand.Rand) []stages.Support {
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	list := []stages.Support{{X: in(0.2, 5), Y: in(-2, -1), Z: in(-0.2, 0)}, {X: in(0.2, 5), Y: in(1, 2), Z: in(-0.2, 0)}}
	last := stages.Support{X: in(15, 19.8), Y: in(-0.2, 0.2), Z: in(-0.2, 0)}
	if r.IntN(2) == 0 {
		return bracketed(append(list, last))
	}
	other := last
	other.X, other.Y, other.Z = in(15, 19.8), last.Y+0.7, in(-0.2, 0)
	last.Y -= 0.6
	return bracketed(append(list, stages.Equalised("pair", last, other)...))
}

// weights are the weight left of x and its first moments about x = y = z = 0, by
// Simpson's rule, exact for what is cubic along x.
func weights(e stages.Element, x float64) (force, momentX, momentY, momentZ float64) {
	const strips = 2
	add := func(f, at, y, z float64) {
		force += f
		momentX += f * at
		momentY += f * y
		momentZ += f * z
	}
	for i := range strips {
		a, b := x*float64(i)/strips, x*float64(i+1)/strips
		for k, c := range [5]float64{7, 32, 12, 32, 7} { // Boole: exact to the fifth power
			at := a + (b-a)*float64(k)/4
			p := e.Section.At(at).Properties()
			add(25e3*p.Area*c/90*(b-a), at, p.Centroid.Y, p.Centroid.Z)
		}
	}
	for _, w := range e.Extra {
		switch {
		case w.To == w.From && w.To < x:
			add(w.Weight, w.From, w.Y, w.Z)
		case w.To > w.From && w.From < x:
			to := math.Min(w.To, x)
			add(w.Weight*(to-w.From)/(w.To-w.From), (w.From+to)/2, w.Y, w.Z)
		}
	}
	return force, momentX, momentY, momentZ
}

// byStatics are the forces of supports along a direction up, by three equations of
// equilibrium in the plane square to it; linked ones are equal.
func byStatics(t *testing.T, e stages.Element, on []stages.Support, roll, gradient float64) []float64 {
	up := [3]float64{math.Sin(gradient), math.Sin(roll) * math.Cos(gradient), math.Cos(roll) * math.Cos(gradient)}
	// Two directions in the plane: each square to up.
	u, v := [3]float64{up[2], 0, -up[0]}, [3]float64{0, up[2], -up[1]}
	dot := func(a [3]float64, x, y, z float64) float64 { return a[0]*x + a[1]*y + a[2]*z }
	force, mx, my, mz := weights(e, e.Length)
	column := []int{0, 1, 2, 2}[:len(on)]
	a, b := mat.NewDense(3, 3, nil), mat.NewVecDense(3, []float64{force, dot(u, mx, my, mz), dot(v, mx, my, mz)})
	for i, s := range on {
		a.Set(0, column[i], a.At(0, column[i])+1)
		a.Set(1, column[i], a.At(1, column[i])+dot(u, s.X, s.Y, s.Z))
		a.Set(2, column[i], a.At(2, column[i])+dot(v, s.X, s.Y, s.Z))
	}
	var x mat.VecDense
	require.NoError(t, x.SolveVec(a, b))
	forces := make([]float64, len(on))
	for i := range on {
		forces[i] = x.AtVec(column[i])
	}
	return forces
}

// Whatever the plan, the reactions balance the weight in space, in every tilt, and
// what is inside balances what is left of the cut.
func TestReactionsAndForcesAreInEquilibrium(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for trial := range 25 {
		e := scattered(t, r)
		roll, gradient := 0.1*r.Float64()*float64(r.IntN(2)), 0.1*r.Float64()*float64(r.IntN(2))
		lift := standsOn(r)
		for i := range lift {
			lift[i].Z += 2
		}
		plan := stages.Plan{
			stages.Store{Age: 5, On: standsOn(r), Roll: roll}, stages.Lift{Dynamic: loads.AtRest(), Age: 6, On: lift, Roll: roll, Gradient: gradient},
			stages.Seat{Age: 7, On: standsOn(r), Gradient: gradient},
		}
		tilts := [3][2]float64{{roll, 0}, {roll, gradient}, {0, gradient}}
		a, err := plan.Analyse(e, limits.EN1992{})
		require.NoError(t, err)
		for n := range plan {
			got, err := a.Effects(n+1, 1)
			require.NoError(t, err)
			on := got.Situation.Supports
			level := byStatics(t, e, on, 0, 0)
			least, most := slices.Clone(level), slices.Clone(level)
			for _, s1 := range []float64{-1, 0, 1} {
				for _, s2 := range []float64{-1, 0, 1} {
					for i, f := range byStatics(t, e, on, s1*tilts[n][0], s2*tilts[n][1]) {
						least[i], most[i] = math.Min(least[i], f), math.Max(most[i], f)
					}
				}
			}
			total, _, _, _ := weights(e, e.Length)
			for i, p := range got.Reactions {
				require.InDelta(t, level[i], p.Nominal, 1e-9*total, "trial %d, stage %d, support %d", trial, n+1, i+1)
				require.InDelta(t, least[i], p.Static.Least, 1e-9*total)
				require.InDelta(t, most[i], p.Static.Most, 1e-9*total)
			}
			for range 6 {
				x := 20 * r.Float64()
				force, mx, my, _ := weights(e, x)
				vz, moment, torque := -force, -(force*x - mx), my
				for i, s := range on {
					if s.X < x {
						vz += level[i]
						moment += level[i] * (x - s.X)
						torque -= level[i] * s.Y
					}
				}
				f := got.Forces(x)
				require.InDelta(t, vz, f.Vz, 1e-8*total, "trial %d, stage %d, x = %g m", trial, n+1, x)
				require.InDelta(t, moment, f.My, 1e-7*total)
				require.InDelta(t, torque, f.T, 1e-8*total)
				require.InDelta(t, 0, math.Abs(f.N)+math.Abs(f.Vy)+math.Abs(f.Mz), 1e-8*total)
			}
		}
	}
}

// reflected is an element in the mirror y → −y.
func reflected(t testing.TB, e stages.Element) stages.Element {
	turn := func(x float64) section.Shape {
		outline := slices.Clone(e.Section.At(x).Solids()[0])
		for i := range outline {
			outline[i].Y = -outline[i].Y
		}
		slices.Reverse(outline)
		s, err := section.New([]section.Outline{outline}, nil)
		require.NoError(t, err)
		return s
	}
	along, err := section.Taper{Left: turn(0), Right: turn(e.Length), To: e.Length}.Along()
	require.NoError(t, err)
	e.Section = along
	e.Extra, e.Tendons = slices.Clone(e.Extra), slices.Clone(e.Tendons)
	for i := range e.Extra {
		e.Extra[i].Y = -e.Extra[i].Y
	}
	for i := range e.Tendons {
		p, err := e.Tendons[i].Path()
		require.NoError(t, err)
		e.Tendons[i].Plan = tendon.Curve{tendon.Straight(tendon.Point{X: 0, Ordinate: -p.At(0).Y}, tendon.Point{X: 20, Ordinate: -p.At(20).Y})}
	}
	return e
}

// reflectedPlan is a plan in the mirror: supports and actions at −y.
func reflectedPlan(plan stages.Plan) stages.Plan {
	mirror := slices.Clone(plan)
	for i := range mirror {
		mirror = stages.Altered(mirror, i+1, func(s *stages.Situation) {
			s.Supports, s.Actions = slices.Clone(s.Supports), slices.Clone(s.Actions)
			for k := range s.Supports {
				s.Supports[k].Y = -s.Supports[k].Y
			}
			for k := range s.Actions {
				s.Actions[k].Y = -s.Actions[k].Y
			}
		})
	}
	return mirror
}

// In the mirror about the vertical plane reactions, stresses and margins are the
// same, shear and torsion have the other sign across.
func TestAnElementInTheMirrorIsTheSame(t *testing.T) {
	plan := unlikePlan(loads.Dynamic{Least: 0.9, Most: 1.15})
	seat := plan[4].(stages.Seat)
	seat.Roll, seat.Gradient = 0.03, 0.02
	plan[4] = seat
	e := unlike(t)
	m := reflected(t, e)
	a, err := plan.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	b, err := reflectedPlan(plan).Analyse(m, limits.EN1992{})
	require.NoError(t, err)
	for stage := 1; stage <= 5; stage++ {
		one, err := a.Effects(stage, 1)
		require.NoError(t, err)
		other, err := b.Effects(stage, 1)
		require.NoError(t, err)
		for i, p := range one.Reactions {
			q := other.Reactions[i]
			require.InEpsilon(t, p.Nominal, q.Nominal, 1e-9)
			require.Equal(t, p.Y, -q.Y)
			for _, pair := range [][2]stages.Range{{p.Static, q.Static}, {p.Characteristic, q.Characteristic}, {p.Ultimate, q.Ultimate}, {*p.Share, *q.Share}} {
				require.InEpsilon(t, pair[0].Least, pair[1].Least, 1e-9)
				require.InEpsilon(t, pair[0].Most, pair[1].Most, 1e-9)
			}
		}
		for _, x := range []float64{1.7, 8.3, 14.9, 19.3} {
			f, g := one.Forces(x), other.Forces(x)
			require.InDeltaSlice(t, []float64{f.N, f.Vz, f.My, -f.Vy, -f.T, -f.Mz}, []float64{g.N, g.Vz, g.My, g.Vy, g.T, g.Mz}, 1e-3)
			for _, c := range e.Section.At(x).Corners() {
				require.InDelta(t, one.Stress(x).At(c), other.Stress(x).At(section.Point{Y: -c.Y, Z: c.Z}), 1e-2)
			}
		}
	}
	r, err := a.Record()
	require.NoError(t, err)
	q, err := b.Record()
	require.NoError(t, err)
	compared := 0
	for i, stage := range r.Stages {
		for k, s := range stage.Situations {
			require.Len(t, q.Stages[i].Situations[k].Checks, len(s.Checks))
			for n, c := range s.Checks {
				d := q.Stages[i].Situations[k].Checks[n]
				require.Equal(t, c.Kind, d.Kind)
				require.Equal(t, c.State, d.State, "%s in %s", c.Name, s.Name)
				near := 1e-5
				if c.Kind == limits.PrincipalTension || c.Kind == limits.WebShear {
					// Cuts across walls are chosen along the faces in the order of the outline,
					// those nearer than a tenth of the thickness being one.
					near = 1e-3
				}
				require.InDelta(t, c.Demand.Value, d.Demand.Value, near*math.Max(1, math.Abs(c.Demand.Value)), "%s in %s", c.Name, s.Name)
				require.InDelta(t, c.Margin, d.Margin, near*math.Max(1, math.Abs(c.Demand.Value)), c.Name)
				compared++
			}
		}
	}
	require.Greater(t, compared, 40)
}

// An element k times as large weighs k³ times as much and has k times the stress; one
// of c times the unit weight has c times both.
func TestScaling(t *testing.T) {
	const k, c = 1.7, 1.3
	scaled := func(e stages.Element, k, c float64) stages.Element {
		turn := func(x float64) section.Shape {
			outline := slices.Clone(e.Section.At(x).Solids()[0])
			for i := range outline {
				outline[i] = section.Point{Y: k * outline[i].Y, Z: k * outline[i].Z}
			}
			s, err := section.New([]section.Outline{outline}, nil)
			require.NoError(t, err)
			return s
		}
		along, err := section.Taper{Left: turn(0), Right: turn(20), To: 20 * k}.Along()
		require.NoError(t, err)
		e.Section, e.Length, e.UnitWeight, e.Extra = along, 20*k, 25e3*c, slices.Clone(e.Extra)
		for i := range e.Extra {
			w := &e.Extra[i]
			w.From, w.To, w.Y, w.Z, w.Weight = k*w.From, k*w.To, k*w.Y, k*w.Z, k*k*k*c*w.Weight
		}
		return e
	}
	e := unlike(t)
	e.Tendons = nil
	on := func(k float64) stages.Plan {
		list := []stages.Support{{X: 2.2, Y: -0.5}, {X: 2.2, Y: 0.3}, {X: 17.6, Y: -0.05}}
		for i := range list {
			list[i].X, list[i].Y = k*list[i].X, k*list[i].Y
		}
		return stages.Plan{stages.Store{Age: 28, On: list, Roll: 0.02}}
	}
	one := run(t, scaled(e, 1, 1), on(1)).Stages[0].Situations[0]
	large := run(t, scaled(e, k, 1), on(k)).Stages[0].Situations[0]
	heavy := run(t, scaled(e, 1, c), on(1)).Stages[0].Situations[0]
	for i, p := range one.Reactions {
		require.InEpsilon(t, k*k*k*p.Characteristic.Most, large.Reactions[i].Characteristic.Most, 1e-9)
		require.InEpsilon(t, c*p.Characteristic.Least, heavy.Reactions[i].Characteristic.Least, 1e-9)
	}
	for _, of := range []struct {
		kind  limits.Kind
		power float64
	}{{limits.Compression, 1}, {limits.Tension, 1}, {limits.WebShear, 1}, {limits.Uplift, 3}, {limits.Overturning, 4}, {limits.Sliding, 3}} {
		demand := check(t, one, of.kind).Demand.Value
		require.NotZero(t, demand, of.kind)
		require.InEpsilon(t, math.Pow(k, of.power)*demand, check(t, large, of.kind).Demand.Value, 1e-5, of.kind)
		require.InEpsilon(t, c*demand, check(t, heavy, of.kind).Demand.Value, 1e-5, of.kind)
	}
	// Principal tension is looked for where the section has not cracked: under a limit
	// that is never reached it scales as well.
	principal := func(k, c float64) float64 {
		r, err := on(k).Run(scaled(e, k, c), atMost(limits.PrincipalTension, 1e9))
		require.NoError(t, err)
		return check(t, r.Stages[0].Situations[0], limits.PrincipalTension).Demand.Value
	}
	require.InEpsilon(t, k*principal(1, 1), principal(k, 1), 1e-5)
	require.InEpsilon(t, c*principal(1, 1), principal(1, c), 1e-5)
}
