package concrete_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
)

func TestTimeRefuses(t *testing.T) {
	en := func(change func(*concrete.EN1992)) concrete.TimeModel {
		m := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: girderExposure}
		change(&m)
		return m
	}
	fib := func(change func(*concrete.FIB2010)) concrete.TimeModel {
		m := concrete.FIB2010{Fck: 50e6, Cement: concrete.ClassR, Exposure: girderExposure}
		change(&m)
		return m
	}
	lrfd := func(change func(*concrete.AASHTO)) concrete.TimeModel {
		m := concrete.AASHTO{Strength: 6 * ksi, Cement: concrete.TypeI, Exposure: girderExposure}
		change(&m)
		return m
	}
	for words, model := range map[string]concrete.TimeModel{
		"Humidity = 70: must be 0.4 to 1": en(func(m *concrete.EN1992) { m.Exposure.Humidity = 70 }),
		"Humidity = 0.35":                 fib(func(m *concrete.FIB2010) { m.Exposure.Humidity = 0.35 }),
		"Humidity = NaN":                  lrfd(func(m *concrete.AASHTO) { m.Exposure.Humidity = math.NaN() }),
		"NotionalSize = 0 m":              en(func(m *concrete.EN1992) { m.Exposure.NotionalSize = 0 }),
		"volume to surface 7.87 in":       lrfd(func(m *concrete.AASHTO) { m.Exposure.NotionalSize = 0.4 }),
		"DryingFrom = -1 d":               en(func(m *concrete.EN1992) { m.Exposure.DryingFrom = -1 }),
		"Curing[0].Celsius = 90 °C":       en(func(m *concrete.EN1992) { m.Curing = concrete.Curing{{Until: 1, Celsius: 90}} }),
		"Curing[1].Until = 1 d": fib(func(m *concrete.FIB2010) {
			m.Curing = concrete.Curing{{Until: 1, Celsius: 20}, {Until: 1, Celsius: 20}}
		}),
		"Fck = 1.3e+08 Pa":                                  fib(func(m *concrete.FIB2010) { m.Fck = 130e6 }),
		"Cement is not stated: must be Cl":                  fib(func(m *concrete.FIB2010) { m.Cement = 9 }),
		"Cement is not stated: must be Ty":                  lrfd(func(m *concrete.AASHTO) { m.Cement = 0 }),
		"Edition = 7":                                       lrfd(func(m *concrete.AASHTO) { m.Edition = 7 }),
		"Strength = 6 Pa":                                   lrfd(func(m *concrete.AASHTO) { m.Strength = 6 }),
		"TransferStrength = 1e+06 Pa":                       lrfd(func(m *concrete.AASHTO) { m.TransferStrength = 1e6 }),
		"TransferStrength = 6e+07 Pa: must be 10e6 to 41.3": lrfd(func(m *concrete.AASHTO) { m.TransferStrength = 60e6 }),
		"DryingFrom = 15 d: must be 0 to 14 d":              fib(func(m *concrete.FIB2010) { m.Exposure.DryingFrom = 15 }),
		"characteristic cylinder strength would be": fib(func(m *concrete.FIB2010) {
			m.Tests = []concrete.Test{{Age: 5, Strength: 5e6, Specimen: concrete.Cylinder, Specimens: 1, Statistic: concrete.Mean}}
		}),
		"Accelerated = 30 d":    lrfd(func(m *concrete.AASHTO) { m.Accelerated = 30 }),
		"Density = 0.145 kg/m³": lrfd(func(m *concrete.AASHTO) { m.Density = 0.145 }),
	} {
		for _, ask := range []func() error{
			func() error { _, err := model.Creep(90, 7); return err },
			func() error { _, err := model.CreepLines(90, 7); return err },
			func() error { _, err := model.CreepUnder(90, 7, 1e6); return err },
		} {
			require.ErrorIs(t, ask(), concrete.ErrConcrete, words)
			require.ErrorContains(t, ask(), words)
			require.ErrorContains(t, ask(), "must ", words)
		}
		require.NotPanics(t, func() { model.Inputs() })
	}
	for name, m := range timeModels() {
		for words, ages := range map[string][2]float64{"loaded = 0 d": {7, 0}, "at least the age at loading, 8 d": {7, 8}, "loaded = NaN d": {7, math.NaN()}, "age = +Inf d": {math.Inf(1), 7}} {
			_, err := m.Creep(ages[0], ages[1])
			require.ErrorIs(t, err, concrete.ErrConcrete, name)
			if name != "fib" || ages[1] >= 1 {
				require.ErrorContains(t, err, words[:6], name)
			}
		}
		_, err := m.Shrinkage(-3)
		require.ErrorContains(t, err, "age = -3 d")
		_, err = m.ShrinkageLines(math.NaN())
		require.ErrorContains(t, err, "age = NaN d")
		_, err = m.CreepModulus(-1)
		require.ErrorIs(t, err, concrete.ErrConcrete)
		_, err = m.CreepUnder(90, 7, -1)
		require.ErrorContains(t, err, "stress = -1 Pa")
		_, err = m.CreepUnder(90, 7, 60e6)
		require.ErrorContains(t, err, "must ", name)
		_, err = concrete.Compliance(m, 3, 7)
		require.ErrorIs(t, err, concrete.ErrConcrete)
		_, err = concrete.Compliance(m, 3, -7)
		require.ErrorIs(t, err, concrete.ErrConcrete)
	}
	for name, m := range timeModels() {
		_, err := m.Creep(1e307, 1)
		require.ErrorContains(t, err, "age = 1e+307 d", name)
		last, err := m.Creep(1e9, 1)
		sound(t, last, err)
		require.NoError(t, err)
	}
	_, err := fib(func(m *concrete.FIB2010) { m.Exposure.DryingFrom = 15 }).Shrinkage(90)
	require.ErrorContains(t, err, "DryingFrom = 15 d")
	_, err = fib(func(*concrete.FIB2010) {}).Creep(7, 0.5)
	require.ErrorContains(t, err, "must be 1 d or later")
	_, err = lrfd(func(*concrete.AASHTO) {}).Creep(7, 0.3)
	require.ErrorContains(t, err, "maturity of 0.5 d")
	_, err = concrete.NonlinearCreep(math.NaN())
	require.ErrorIs(t, err, concrete.ErrConcrete)
}

// Whatever is put in, what comes out is finite or an error.
func FuzzTimeModels(f *testing.F) {
	f.Add(50e6, 2, 0.7, 0.3, 1.0, 90.0, 3.0, 60.0, 15e6)
	f.Add(120e6, 1, 1.0, 0.1, 0.0, 1e9, 1.0, 0.0, 1e6)
	f.Fuzz(func(t *testing.T, strength float64, cement int, humidity, size, from, age, loaded, celsius, stress float64) {
		e := concrete.Exposure{Humidity: humidity, NotionalSize: size, DryingFrom: from}
		curing := concrete.Curing{{Until: 1, Celsius: celsius}}
		models := []concrete.TimeModel{
			concrete.EN1992{Fck: strength, Cement: concrete.Cement(cement), Curing: curing, Exposure: e},
			concrete.FIB2010{Fck: strength, Cement: concrete.Cement(cement), Curing: curing, Exposure: e},
		}
		for edition := range 3 {
			models = append(models, concrete.AASHTO{Strength: strength, Cement: concrete.ASTMCement(cement), Edition: concrete.Edition(edition), Exposure: e})
		}
		for _, m := range models {
			phi, err := m.Creep(age, loaded)
			sound(t, phi, err)
			phi, err = m.CreepUnder(age, loaded, stress)
			sound(t, phi, err)
			s, err := m.Shrinkage(age)
			sound(t, s.Total, err)
			state, err := m.At(age)
			sound(t, state.Characteristic, err)
			sound(t, state.Modulus, err)
		}
	})
}

func sound(t *testing.T, value float64, err error) {
	t.Helper()
	if err != nil {
		require.ErrorIs(t, err, concrete.ErrConcrete)
		return
	}
	require.False(t, math.IsNaN(value) || math.IsInf(value, 0))
}

func BenchmarkCreep(b *testing.B) {
	m := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: girderExposure, Curing: concrete.Curing{{Until: 1, Celsius: 50}}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.Creep(3000, 7); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAt(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := rapid50.At(7); err != nil {
			b.Fatal(err)
		}
	}
}
