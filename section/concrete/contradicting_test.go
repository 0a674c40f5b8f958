package concrete_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
)

// crushed are tests on six cubes.
func crushed(pairs ...[2]float64) []concrete.Test {
	var tests []concrete.Test
	for _, p := range pairs {
		tests = append(tests, concrete.Test{Age: p[0], Strength: p[1], Specimen: concrete.Cube, Specimens: 6, Statistic: concrete.Mean, Report: "invented"})
	}
	return tests
}

// withTests is each model with the same tests.
func withTests(tests []concrete.Test) map[string]concrete.Model {
	return map[string]concrete.Model{
		"EN":     concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Tests: tests},
		"fib":    concrete.FIB2010{Fck: 50e6, Cement: concrete.ClassR, Tests: tests},
		"AASHTO": concrete.AASHTO{Strength: 50e6, Cement: concrete.TypeIII, Tests: tests},
	}
}

// Cubes of 46 MPa at 2 d and of 25 MPa at 5 d: from 2 d on the concrete is what 25 MPa
// show, and both tests are named; from 5 d on it is as with that test alone.
func TestALaterTestBelowAnEarlierOneGoverns(t *testing.T) {
	both, late := withTests(crushed([2]float64{2, 46e6}, [2]float64{5, 25e6})), withTests(crushed([2]float64{5, 25e6}))
	for name, model := range both {
		shown, err := late[name].At(5)
		require.NoError(t, err)
		for _, age := range []float64{2, 2.5, 3.1, 4.99} {
			s, err := model.At(age)
			require.NoError(t, err, name)
			require.Equal(t, [2]float64{shown.Characteristic, shown.Mean}, [2]float64{s.Characteristic, s.Mean}, "%s at %g d", name, age)
			require.False(t, s.NeedsTest)
			for _, said := range []string{s.Basis, s.Derivation[0].Operands[0].Name} {
				require.Contains(t, said, "test at 5 d: 6 cubes, mean 25.0 MPa", name)
				require.Contains(t, said, "less than the earlier test at 2 d: 6 cubes, mean 46.0 MPa", name)
			}
			require.Less(t, s.Modulus, 0.95*modulusOf(t, withTests(crushed([2]float64{2, 46e6}))[name], age))
		}
		for _, age := range []float64{5, 5.1, 28, 400} {
			s, err := model.At(age)
			require.NoError(t, err)
			alone, err := late[name].At(age)
			require.NoError(t, err)
			require.Equal(t, alone, s, "%s at %g d", name, age)
		}
	}
}

func modulusOf(t *testing.T, m concrete.Model, age float64) float64 {
	t.Helper()
	s, err := m.At(age)
	require.NoError(t, err)
	return s.Modulus
}

// The lowest of several later ones governs; what grows is left alone; so is a strength
// that is asked for and not tested.
func TestWhatContradictsATest(t *testing.T) {
	for name, model := range withTests(crushed([2]float64{1, 40e6}, [2]float64{2, 46e6}, [2]float64{4, 44e6}, [2]float64{7, 42e6}, [2]float64{28, 60e6})) {
		s, err := model.At(2.5)
		require.NoError(t, err)
		require.Contains(t, s.Basis, "test at 7 d", name)
		s, err = model.At(1)
		require.NoError(t, err)
		require.Equal(t, "test at 1 d: 6 cubes, mean 40.0 MPa, invented", s.Basis, name)
		s, err = model.At(28)
		require.NoError(t, err)
		require.NotContains(t, s.Basis, "less than")
		before, err := model.Shown(5, 10e6).At(2)
		require.NoError(t, err)
		require.NotContains(t, before.Basis, "asked for", name)
	}
	for name, model := range withTests(crushed([2]float64{2, 46e6}, [2]float64{5, 9e6})) {
		_, err := model.At(3)
		require.ErrorContains(t, err, "test at 5 d: 6 cubes, mean 9.0 MPa", name)
		require.ErrorContains(t, err, "less than the earlier test at 2 d", name)
	}
}
