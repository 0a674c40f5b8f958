package concrete_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
)

// A minute after a test the concrete is what the test showed, not what its mean
// less 8 MPa would be; later it only grows, and every line recomputes.
func TestStrengthGoesOnFromTheTest(t *testing.T) {
	random := rand.New(rand.NewSource(7))
	for range 500 {
		test := concrete.Test{Age: 4 + 30*random.Float64(), Strength: (20 + 60*random.Float64()) * 1e6, Specimen: concrete.Cylinder,
			Specimens: 1 + random.Intn(6), Statistic: concrete.Statistic(1 + random.Intn(2))}
		fck := (25 + 40*random.Float64()) * 1e6
		for _, model := range []concrete.Model{
			concrete.EN1992{Fck: fck, Cement: concrete.ClassN, Tests: []concrete.Test{test}},
			concrete.FIB2010{Fck: fck, Cement: concrete.ClassN, Tests: []concrete.Test{test}},
		} {
			then, err := model.At(test.Age)
			require.NoError(t, err)
			before := then.Characteristic
			for _, later := range []float64{1e-6, 1, 7, 30, 1000} {
				state, err := model.At(test.Age + later)
				require.NoError(t, err)
				require.GreaterOrEqual(t, state.Characteristic, before*(1-1e-12))
				if later == 1e-6 {
					plain, err := model.Shown(test.Age, 1e6).At(test.Age - 1e-6) // by the formula alone
					require.NoError(t, err)
					require.LessOrEqual(t, state.Characteristic, math.Max(then.Characteristic, plain.Characteristic)*(1+1e-5))
				}
				before = state.Characteristic
				for _, line := range state.Derivation {
					value, err := line.Recompute()
					require.NoError(t, err)
					require.InEpsilon(t, line.Result.Value, value, 1e-12)
				}
				require.InEpsilon(t, state.Characteristic, valueOf(t, state, "f_ck_t"), 1e-15)
			}
		}
	}
}

func valueOf(t *testing.T, state concrete.State, symbol string) float64 {
	for _, line := range state.Derivation {
		if line.Result.Symbol == symbol {
			return line.Result.Value
		}
	}
	t.Fatalf("no line of %s", symbol)
	return 0
}

// One specimen of 30 MPa at 7 d of C40: 8·√2 MPa are kept while it grows.
func TestDeductionOfAMeanIsKept(t *testing.T) {
	c := concrete.EN1992{Fck: 40e6, Cement: concrete.ClassN, Tests: []concrete.Test{
		{Age: 7, Strength: 30e6, Specimen: concrete.Cylinder, Specimens: 1, Statistic: concrete.Mean}}}
	state, err := c.At(28)
	require.NoError(t, err)
	mean := 30e6 / math.Exp(0.25*(1-2))
	require.InEpsilon(t, mean, state.Mean, 1e-12)
	require.InEpsilon(t, mean-8e6*math.Sqrt2, state.Characteristic, 1e-12)
}

// A concrete that turned out weak creeps like the weaker one that it is; one
// that turned out strong keeps what was designed.
func TestMeasuredStrengthReachesCreep(t *testing.T) {
	exposure := concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3}
	with := func(fck, test float64) []concrete.TimeModel {
		var tests []concrete.Test
		if test > 0 {
			tests = []concrete.Test{{Age: 28, Strength: test, Specimen: concrete.Cylinder, Specimens: 3, Statistic: concrete.Mean}}
		}
		return []concrete.TimeModel{
			concrete.EN1992{Fck: fck, Cement: concrete.ClassN, Exposure: exposure, Tests: tests},
			concrete.FIB2010{Fck: fck, Cement: concrete.ClassN, Exposure: exposure, Tests: tests},
		}
	}
	weak, weaker, strong, plain := with(50e6, 38e6), with(30e6, 0), with(50e6, 70e6), with(50e6, 0)
	for i := range weak {
		for _, pair := range [][2]concrete.TimeModel{{weaker[i], weak[i]}, {plain[i], strong[i]}} {
			want, err := pair[0].Creep(3650, 14)
			require.NoError(t, err)
			phi, err := pair[1].Creep(3650, 14)
			require.NoError(t, err)
			require.InEpsilon(t, want, phi, 1e-12)
			modulus, err := pair[0].CreepModulus(14)
			require.NoError(t, err)
			related, err := pair[1].CreepModulus(14)
			require.NoError(t, err)
			require.InEpsilon(t, modulus, related, 1e-12)
			lines, err := pair[1].CreepLines(3650, 14)
			require.NoError(t, err)
			require.InEpsilon(t, phi, lastOf(t, lines), 1e-12)
		}
	}
	cube := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassN, Exposure: exposure, Tests: []concrete.Test{
		{Age: 28, Strength: 140e6, Specimen: concrete.Cube, Specimens: 3, Statistic: concrete.Mean}}}
	_, err := cube.Creep(3650, 14)
	require.ErrorIs(t, err, concrete.ErrConcrete)
	_, err = cube.CreepModulus(14)
	require.ErrorIs(t, err, concrete.ErrConcrete)
	_, err = cube.CreepLines(3650, 14)
	require.ErrorIs(t, err, concrete.ErrConcrete)
}
