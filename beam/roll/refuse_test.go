package roll_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam/roll"
	"github.com/tempstage/tempstage/section/formula"
)

// Numbers that no girder has are refused in words; whatever is not refused gives
// finite numbers.
func TestRollRefuses(t *testing.T) {
	hung := roll.Hung{Girder: tee(), Left: 2.7, Right: 2.7, Axis: 0.9, Offset: 0.01, Wind: roll.Wind{Force: 3e3, Height: 0.1}}
	seated := roll.Seated{Girder: tee(), Left: 2.7, Right: 2.7, Stiffness: 5e6, CrossFall: 0.02, Height: 1.5, RollCentre: 0.6, HalfBase: 0.9, Kern: 0.3, Offset: 0.02, Wind: roll.Wind{Force: 3e3, Height: 1.6}}
	var floats func(name string, v reflect.Value, try func(string, reflect.Value))
	floats = func(name string, v reflect.Value, try func(string, reflect.Value)) {
		for i := range v.NumField() {
			switch f := v.Field(i); f.Kind() {
			case reflect.Float64:
				try(v.Type().Field(i).Name, f)
			case reflect.Struct:
				floats(name, f, try)
			}
		}
	}
	attack := func(v reflect.Value, solve func() (roll.Result, error), derive func() ([]formula.Line, error)) {
		floats("", v, func(field string, f reflect.Value) {
			kept := f.Float()
			for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, -1e300, 5e-324} {
				f.SetFloat(x)
				r, err := solve()
				if err != nil {
					require.ErrorIs(t, err, roll.ErrRoll, field)
					require.ErrorContains(t, err, field+" = ", field)
					require.ErrorContains(t, err, "must be")
					continue
				}
				floats("", reflect.ValueOf(r), func(name string, of reflect.Value) {
					require.False(t, math.IsNaN(of.Float()) || math.IsInf(of.Float(), 0), "%s = %g: %s", field, x, name)
				})
				lines, err := derive()
				require.NoError(t, err, "%s = %g", field, x)
				for _, l := range lines {
					_, err := l.Recompute()
					require.NoError(t, err, "%s = %g", field, x)
				}
			}
			f.SetFloat(kept)
		})
	}
	attack(reflect.ValueOf(&hung).Elem(), func() (roll.Result, error) { return hung.Solve() }, func() ([]formula.Line, error) { return hung.Lines() })
	attack(reflect.ValueOf(&seated).Elem(), func() (roll.Result, error) { return seated.Solve() }, func() ([]formula.Line, error) { return seated.Lines() })
	_, err := seated.StiffnessFor(0)
	require.ErrorContains(t, err, "must be above 0, at most 10")
	seated.Offset = 1
	_, err = seated.StiffnessFor(2)
	require.ErrorContains(t, err, "no stiffness from 1000 to 1e+12 N·m/rad")
}
