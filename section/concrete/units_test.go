package concrete_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
)

// A strength or a size in the unit of a report in place of SI is named, with its range
// and the unit that it seems to be in.
func TestAQuantityInAnotherUnitIsAsked(t *testing.T) {
	tested := func(strength float64) error {
		m := rapid50
		m.Tests = []concrete.Test{{Age: 2, Strength: strength, Specimen: concrete.Cube, Specimens: 6, Statistic: concrete.Mean}}
		_, err := m.At(2)
		return err
	}
	exposed := func(e concrete.Exposure) error {
		_, err := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: e}.Creep(90, 7)
		return err
	}
	lrfd := func(c concrete.AASHTO) error { c.Cement = concrete.TypeI; _, err := c.At(7); return err }
	under := func(stress float64) error {
		_, err := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: girderExposure}.CreepUnder(90, 7, stress)
		return err
	}
	for words, err := range map[string]error{
		"Fck = 50 Pa: must be 12e6 to 90e6 Pa (EN 1992-1-1 Table 3.1); is it in MPa?": func() error {
			_, err := concrete.EN1992{Fck: 50, Cement: concrete.ClassR}.At(7)
			return err
		}(),
		"Test.Strength = 46 Pa: must be 0.1e6 to 150e6 Pa; is it in MPa?":                                 tested(46),
		"Exposure.Humidity = 70: must be 0.4 to 1 (70 % is 0.70); is it in percent?":                      exposed(concrete.Exposure{Humidity: 70, NotionalSize: 0.3}),
		"Exposure.NotionalSize = 300 m: must be 0.1 to 5 m; is it in mm?":                                 exposed(concrete.Exposure{Humidity: 0.7, NotionalSize: 300}),
		"Accelerated = 16 d: must be 0 to 7 d; is it in hours?":                                           lrfd(concrete.AASHTO{Strength: 41e6, Accelerated: 16}),
		"Strength = 6 Pa: must be 16.5e6 to 103.5e6 Pa; is it in ksi?":                                    lrfd(concrete.AASHTO{Strength: 6}),
		"Density = 2.4 kg/m³: must be 1440 to 2485 kg/m³; is it in t/m³?":                                 lrfd(concrete.AASHTO{Strength: 41e6, Density: 2.4}),
		"stress = 10 Pa: must be 1000 to 1000e6 Pa as a magnitude, or 0; is it in MPa":                    under(10),
		"cylinder strength = 34 Pa: must be 0.1e6 to 90e6 Pa (the last class of Ta":                       func() error { _, err := concrete.CubeFor(34); return err }(),
		"Test.Strength = 1.6e+08 Pa: must be 0.1e6 to 150e6 Pa":                                           tested(160e6),
		"test at 2 d: 6 cubes, mean 0.50 MPa, no reference given: characteristic cylinder strength would": tested(0.5e6),
	} {
		require.ErrorIs(t, err, concrete.ErrConcrete, words)
		require.ErrorContains(t, err, words)
	}
	require.NoError(t, under(1e-6), "rounding of a difference")
	require.NoError(t, under(1000))
	require.Error(t, under(999.9))
}
