package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// ageing is a concrete with one φ and one shrinkage whatever the ages.
type ageing struct {
	concrete.EN1992
	phi, shrinkage float64
}

func (a ageing) At(float64) (concrete.State, error)           { return concrete.State{Modulus: ecm}, nil }
func (a ageing) Creep(age, loaded float64) (float64, error)   { return a.phi, nil }
func (a ageing) CreepModulus(loaded float64) (float64, error) { return 1.05 * ecm, nil }
func (a ageing) Shrinkage(age float64) (concrete.Shrinkage, error) { // all of it after day 1
	if age > 1 {
		return concrete.Shrinkage{Total: a.shrinkage}, nil
	}
	return concrete.Shrinkage{}, nil
}

// over is the period from day 1 of the concrete.
func over(t testing.TB, phi, shrinkage float64, relaxing tendon.Relaxing) tendon.Period {
	t.Helper()
	p, err := tendon.NewPeriod(ageing{phi: phi, shrinkage: shrinkage}, ep, 1, 100, relaxing)
	require.NoError(t, err)
	return p
}

// equation is (5.46) with the stiffness of the tendons that shorten together: Ap and
// zcp of all of them from the middle of a concrete section.
func equation(strain, creepStrain, relaxation, phi, ap, zcp, ac, ic float64) float64 {
	return (ep*strain + 0.8*relaxation + ep*creepStrain) / (1 + ep/ecm*ap/ac*(1+ac/ic*zcp*zcp)*(1+0.8*phi))
}

// relaxed is the relaxation of a steel of class 2 by (3.29): 0.66·ρ·e^{9.1·μ}·(t/1000)^{0.75·(1−μ)}·10⁻⁵.
func relaxed(stress, fpk, days float64) float64 {
	mu := stress / fpk
	return stress * 0.66 * 2.5 * math.Exp(9.1*mu) * math.Pow(24*days/1000, 0.75*(1-mu)) * 1e-5
}

// lasting is every step of stressing as a lasting change, then entries.
func lasting(l *ledger.Ledger, entries ...ledger.Entry) {
	for k := range l.Steps {
		l.Lasting = append(l.Lasting, ledger.Lasting{Name: "step", Day: l.Steps[k].Day, Step: k})
	}
	for i := range entries {
		l.Lasting = append(l.Lasting, ledger.Lasting{Name: "entry", Entry: &entries[i]})
	}
}

// Creep of prestress and weight, shrinkage and relaxation of one tendon by (5.46).
func TestTimeLossByHand(t *testing.T) {
	const b, h, force, phi, shrinkage, m = 0.5, 1.2, 1.2e6, 2.1, 3e-4, 4e5
	ac, ic := b*h, b*h*h*h/12
	l := one(20, rectangle(t, b, h, 0, 0), straight(t, point{0, 0, 0.2}, point{20, 0, 0.2}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, force, 0)
	weight := ledger.Entry{State: on, Field: level(section.Forces{My: m}), Coefficient: 1.25, Inner: -1}
	lasting(l, weight)
	require.NoError(t, l.MakeGrid())
	relaxing, err := tendon.Class2.Over(99, 1860e6, 1400e6)
	require.NoError(t, err)
	s := situation(l, weight)
	s.Times = []*ledger.Time{{Since: [][]float64{{phi, 0.5 * phi}}, Modulus: []float64{ecm, 28e9}, Days: []float64{99}, Periods: []tendon.Period{over(t, phi, shrinkage, relaxing)}, Concrete: on}}
	s.Lay()
	e := 0.2 - h/2
	// the weight pulls the concrete there, e < 0: less creep
	creep := phi*force*(1/ac+e*e/ic)/ecm + 0.5*phi*(1.25*m*e/ic)/28e9
	loss := equation(shrinkage, creep, relaxed(force/1e-3, 1860e6, 99), phi, 1e-3, e, ac, ic)
	parts := l.TimeLosses(s, 10, 0)
	require.InEpsilon(t, loss, parts.Total(), 1e-9)
	require.InEpsilon(t, equation(shrinkage, 0, 0, phi, 1e-3, e, ac, ic), parts.Shrinkage, 1e-9)
	require.InEpsilon(t, equation(0, creep, 0, phi, 1e-3, e, ac, ic), parts.Creep, 1e-9)
	left, elastic := l.TendonForce(s, 10, 0)
	require.InDelta(t, force-loss*1e-3, left, 1e-3)
	require.InDelta(t, 0, elastic, 1e-6)
	require.InDelta(t, -(force - loss*1e-3), l.Forces(s, 10, []float64{1}).N, 1e-3, "the concrete is relieved")
	at := section.Point{Z: 1}
	require.InDelta(t, -(force-loss*1e-3)*(1/ac+e*(1-h/2)/ic)-1.25*m*(1-h/2)/ic, l.Plane(s, 10, []float64{1}).At(at), 1)
	require.InDelta(t, -0.9*(force-loss*1e-3)*(1/ac+e*(1-h/2)/ic)-1.25*m*(1-h/2)/ic, l.Plane(s, 10, []float64{0.9}).At(at), 1, "the loss has the factor of the prestress")
	s = situation(l, weight) // without times
	require.Zero(t, l.TimeLosses(s, 10, 0))
	left, _ = l.TendonForce(s, 10, 0)
	require.InDelta(t, force, left, 1e-6)
}

// Of two tendons the first stressed shortens alone from the beginning: only its own
// steel stiffens the concrete then; with the second one both do, about their centre.
func TestTendonsStiffenFromTheirDay(t *testing.T) {
	const b, h, phi, shrinkage = 0.5, 1.2, 1.8, 4e-4
	ac, ic := b*h, b*h*h*h/12
	for _, order := range [][2]float64{{50, 20}, {20, 50}, {30, 30}} {
		l, _ := two(t, 0)
		on := state(l, 0)
		jack(l, on, 1e6, 0, 1)
		lasting(l)
		require.NoError(t, l.MakeGrid())
		s := situation(l)
		period := over(t, phi, shrinkage, tendon.Relaxing{})
		s.Times = []*ledger.Time{{Since: [][]float64{{0}, {0}}, Modulus: []float64{ecm}, Days: []float64{order[0], order[1]}, Periods: []tendon.Period{period, period}, Concrete: on}}
		s.Lay()
		centre := (1e-3*0.2+1.5e-3*0.5)/2.5e-3 - h/2
		both := equation(shrinkage, 0, 0, phi, 2.5e-3, centre, ac, ic)
		alone := [2]float64{equation(shrinkage, 0, 0, phi, 1e-3, 0.2-h/2, ac, ic), equation(shrinkage, 0, 0, phi, 1.5e-3, 0.5-h/2, ac, ic)}
		want := [2]float64{both, both}
		switch {
		case order[0] > order[1]:
			want[0] = alone[0]
		case order[0] < order[1]:
			want[1] = alone[1]
		}
		for i := range want {
			require.InEpsilon(t, want[i], l.TimeLosses(s, 10, i).Total(), 1e-9, "tendon %d of %v", i, order)
		}
	}
}

// A tendon stressed today has lost nothing but stiffens nobody before; one not
// stressed yet (negative) neither; one released neither loses nor stiffens.
func TestTendonsThatHaveNotLost(t *testing.T) {
	const b, h, phi, shrinkage = 0.5, 1.2, 1.8, 4e-4
	ac, ic := b*h, b*h*h*h/12
	for _, days := range []float64{0, -1} {
		l, _ := two(t, 0)
		on := state(l, 0)
		jack(l, on, 1e6, 0)
		lasting(l)
		require.NoError(t, l.MakeGrid())
		s := situation(l)
		period := over(t, phi, shrinkage, tendon.Relaxing{})
		s.Times = []*ledger.Time{{Since: [][]float64{{0}, {0}}, Modulus: []float64{ecm}, Days: []float64{40, days}, Periods: []tendon.Period{period, period}, Concrete: on}}
		s.Lay()
		require.InEpsilon(t, equation(shrinkage, 0, 0, phi, 1e-3, 0.2-h/2, ac, ic), l.TimeLosses(s, 10, 0).Total(), 1e-9)
		require.Zero(t, l.TimeLosses(s, 10, 1).Total())
	}
}

// Relaxation starts from the force at the end of the last stressing, elastic losses
// by later steps notwithstanding; a force stressed again starts anew.
func TestRelaxationStartsFromTheLastStressing(t *testing.T) {
	const phi = 1.5
	ac, ic := 0.6, 0.5*1.2*1.2*1.2/12
	for n, steps := range [][][2]float64{{{0, 1.1e6}, {1, 1e6}}, {{0, 1e6}, {1, 1e6}, {0, 1.3e6}}} { // tendon, force
		l, _ := two(t, 0)
		on := state(l, 0)
		for _, step := range steps {
			jack(l, on, step[1], int(step[0]))
		}
		lasting(l)
		require.NoError(t, l.MakeGrid())
		relaxing, err := tendon.Class2.Over(60, 1860e6, 1500e6)
		require.NoError(t, err)
		s := situation(l)
		zero := make([]float64, len(steps))
		s.Times = []*ledger.Time{{Since: [][]float64{zero, zero}, Modulus: []float64{ecm, ecm, ecm}[:len(steps)], Days: []float64{60, -1},
			Periods: []tendon.Period{over(t, phi, 0, relaxing), {}}, Concrete: on}}
		s.Lay()
		last := []float64{1.1e6, 1.3e6}[n] / 1e-3
		require.InEpsilon(t, equation(0, 0, relaxed(last, 1860e6, 60), phi, 1e-3, 0.2-0.6, ac, ic), l.TimeLosses(s, 10, 0).Relaxation, 1e-9)
	}
}

// Creep of what a release took away: the concrete creeps back by φ of its own.
func TestCreepOfEachLastingChange(t *testing.T) {
	const phi = 2.0
	ac, ic := 0.6, 0.5*1.2*1.2*1.2/12
	l, stress := two(t, 0)
	on := state(l, 0)
	jack(l, on, 1e6, 1)
	jack(l, on, 0.8e6, 0)
	release(l, on, 1)
	lasting(l)
	require.NoError(t, l.MakeGrid())
	s := situation(l)
	s.Times = []*ledger.Time{{Since: [][]float64{{0.3, 1.2, 0.9}, nil}, Modulus: []float64{20e9, 25e9, 29e9}, Days: []float64{70, -1},
		Periods: []tendon.Period{over(t, phi, 0, tendon.Relaxing{}), {}}, Concrete: on}}
	s.Lay()
	// Tendon 1 has 1 MN − its loss by the second step; the release gives tendon 0 a gain.
	lost := ep / ecm * stress(0.8e6, 0.2, 0.5) * 1.5e-3
	left := 1e6 - lost
	gain := ep / ecm * stress(left, 0.5, 0.2) * 1e-3
	first := stress(1e6, 0.5, 0.2)
	second := stress(0.8e6, 0.2, 0.2) - stress(lost, 0.5, 0.2)
	third := -stress(left, 0.5, 0.2) + stress(gain, 0.2, 0.2)
	creep := 0.3*first/20e9 + 1.2*second/25e9 + 0.9*third/29e9
	require.InEpsilon(t, equation(0, creep, 0, phi, 1e-3, 0.2-0.6, ac, ic), l.TimeLosses(s, 10, 0).Creep, 1e-9)
	require.Zero(t, l.TimeLosses(s, 10, 1).Total(), "it is not there any more")
}

// A loss acts on the concrete that is named for it, here without the bonded steel.
func TestLossActsOnTheConcreteAlone(t *testing.T) {
	l, _ := two(t, 0)
	on := state(l, 0)
	bonded := &ledger.State{Index: 1, Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true, false}, SteelOut: true}
	l.States = append(l.States, bonded)
	jack(l, on, 1e6, 0)
	lasting(l)
	require.NoError(t, l.MakeGrid())
	s := situation(l)
	s.Times = []*ledger.Time{{Since: [][]float64{{0}, {0}}, Modulus: []float64{ecm}, Days: []float64{40, -1}, Periods: []tendon.Period{over(t, 2, 4e-4, tendon.Relaxing{}), {}}, Concrete: bonded}}
	s.Lay()
	loss := l.TimeLosses(s, 10, 0).Total() * 1e-3
	area, z := 0.6-1e-3, (0.36-0.2e-3)/(0.6-1e-3)
	iy := 0.5*1.2*1.2*1.2/12 + 0.6*(0.6-z)*(0.6-z) - 1e-3*(0.2-z)*(0.2-z) - 1e-3*1e-3/(4*math.Pi)
	at := section.Point{Z: 0.1}
	want := -1e6/0.6 - 1e6*(0.2-0.6)*(0.1-0.6)/(0.5*1.2*1.2*1.2/12) + loss/area + loss*(0.2-z)*(0.1-z)/iy
	require.InDelta(t, want, l.Plane(s, 10, []float64{1}).At(at), 1e-3)
}
