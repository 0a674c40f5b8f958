package tendon_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
)

var yard = concrete.EN1992{Fck: 45e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.25, DryingFrom: 1}}

func month(t *testing.T) tendon.Period {
	over, err := tendon.Class2.Over(25, 1860e6, 1400e6)
	require.NoError(t, err)
	p, err := tendon.NewPeriod(yard, 195e9, 3, 28, over)
	require.NoError(t, err)
	return p
}

// The printed formula in plain arithmetic with Ecm of Table 3.1, for two stresses
// of different age: φ relates to 1.05·Ecm, but (5.46) divides it by Ecm. Taking
// 1.05·Ecm gives 5 % less creep than the standard.
func TestPeriodIsThePrintedFormula(t *testing.T) {
	p := month(t)
	v := of(t)
	ecm := 22e9 * math.Pow(53e6/10e6, 0.3)
	require.InEpsilon(t, ecm, v(tendon.CreepModulus(yard, 3)), 1e-12)
	require.InEpsilon(t, 1.05*ecm, v(yard.CreepModulus(3)), 1e-12)
	begin, err := yard.Shrinkage(3)
	require.NoError(t, err)
	end, err := yard.Shrinkage(28)
	require.NoError(t, err)
	phi, later := v(yard.Creep(28, 3)), v(yard.Creep(28, 10))
	relaxed := v(tendon.Class2.Loss(1350e6, 1860e6, 25))
	const prestress, weight, steel, area, inertia, z = 9e6, -2.5e6, 4200e-6, 0.62, 0.11, -0.48
	n := 195e9 / ecm
	want := (195e9*(end.Total-begin.Total) + 0.8*relaxed + n*(phi*prestress+later*weight)) / (1 + n*steel/area*(1+area/inertia*z*z)*(1+0.8*phi))
	l := p.Losses(tendon.Place{
		CreepStrain: (phi*prestress + later*weight) / ecm, Stress: 1350e6,
		Stiffening: tendon.Stiffening(section.Properties{Area: area, SecondMomentY: inertia, SecondMomentZ: 0.02, Centroid: section.Point{Z: 0.9}}, steel, section.Point{Z: 0.9 + z}),
	})
	require.InEpsilon(t, want, l.Total(), 1e-12)
	require.InEpsilon(t, n*(phi*prestress+later*weight), l.Creep*(1+n*steel/area*(1+area/inertia*z*z)*(1+0.8*phi)), 1e-12)
	require.Zero(t, l.Friction+l.DrawIn+l.Elastic)
}

// One sustained stress through [tendon.Sustained] and through a Period is one loss.
func TestSustainedIsAPeriod(t *testing.T) {
	p := month(t)
	s := tendon.Sustained{
		Concrete: yard, From: 3, To: 28, Area: 0.62, Inertia: 0.11, Distance: -0.48, Stress: 7e6, TendonArea: 4200e-6,
		TendonModulus: 195e9, TendonStress: 1350e6, TensileStrength: 1860e6, Relaxation: tendon.Class2,
	}
	simple, err := s.Simplified()
	require.NoError(t, err)
	l := p.Losses(tendon.Place{CreepStrain: p.Creep * 7e6 / p.CreepModulus, Stress: 1350e6, Stiffening: 4200e-6 * (1/0.62 + 0.48*0.48/0.11)})
	require.InEpsilon(t, simple.Shrinkage, l.Shrinkage, 1e-12)
	require.InEpsilon(t, simple.Creep, l.Creep, 1e-12)
	require.InEpsilon(t, simple.Relaxation, l.Relaxation, 1e-12)
}

// A unit stress of the tendons presses the concrete beside them by Stiffening, off
// both axes and in a section without symmetry.
func TestStiffeningIsTheStressBesideTheTendon(t *testing.T) {
	random := rand.New(rand.NewSource(7))
	for range 500 {
		iy, iz := 0.05+random.Float64(), 0.05+random.Float64()
		p := section.Properties{
			Area: 0.2 + random.Float64(), Centroid: section.Point{Y: random.NormFloat64(), Z: random.NormFloat64()},
			SecondMomentY: iy, SecondMomentZ: iz, ProductMoment: 0.9 * (2*random.Float64() - 1) * math.Sqrt(iy*iz),
		}
		at, steel := section.Point{Y: random.NormFloat64(), Z: random.NormFloat64()}, 0.001+0.01*random.Float64()
		y, z := at.Y-p.Centroid.Y, at.Z-p.Centroid.Z
		beside := p.Stress(section.Forces{N: -steel, My: steel * z, Mz: steel * y}, at)
		require.InEpsilon(t, -beside, tendon.Stiffening(p, steel, at), 1e-9)
	}
}

func TestPeriodRefuses(t *testing.T) {
	for words, ask := range map[string]func() error{
		"the concrete is missing":             func() error { _, err := tendon.NewPeriod(nil, 195e9, 3, 28, tendon.Relaxing{}); return err },
		"modulus of the tendon = 195 Pa":      func() error { _, err := tendon.NewPeriod(yard, 195, 3, 28, tendon.Relaxing{}); return err },
		"modulus of the concrete at 28 d = 0": func() error { _, err := tendon.NewPeriod(given{phi: 2}, 195e9, 3, 28, tendon.Relaxing{}); return err },
		"φ = NaN": func() error {
			_, err := tendon.NewPeriod(given{phi: math.NaN(), modulus: 33e9}, 195e9, 3, 28, tendon.Relaxing{})
			return err
		},
		"shrinkage = NaN": func() error {
			_, err := tendon.NewPeriod(given{phi: 1, strain: math.Inf(1), modulus: 33e9}, 195e9, 3, 28, tendon.Relaxing{})
			return err
		},
	} {
		require.ErrorIs(t, ask(), tendon.ErrTendon, words)
		require.ErrorContains(t, ask(), words)
	}
	_, err := tendon.NewPeriod(yard, 195e9, 28, 3, tendon.Relaxing{})
	require.ErrorIs(t, err, concrete.ErrConcrete, "backwards")
	require.Zero(t, tendon.Period{}.Losses(tendon.Place{CreepStrain: 1e-3, Stress: 1e9, Stiffening: 0.1}), "an empty period loses nothing and is a number")
}

func BenchmarkPeriodLosses(b *testing.B) {
	over, err := tendon.Class2.Over(25, 1860e6, 1400e6)
	require.NoError(b, err)
	p, err := tendon.NewPeriod(yard, 195e9, 3, 28, over)
	require.NoError(b, err)
	section := section.Properties{Area: 0.62, SecondMomentY: 0.11, SecondMomentZ: 0.02}
	at := section.Centroid
	b.ReportAllocs()
	for b.Loop() {
		p.Losses(tendon.Place{CreepStrain: 3e-4, Stress: 1350e6, Stiffening: tendon.Stiffening(section, 4200e-6, at)})
	}
}
