package tendon_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
)

// callable is an argument of a type made from one number; a function gives zeros.
func callable(of reflect.Type, number float64) reflect.Value {
	v := reflect.New(of).Elem()
	switch of.Kind() {
	case reflect.Float64:
		v.SetFloat(number)
	case reflect.Int:
		v.SetInt(int64(math.Max(-2, math.Min(number, 999))))
	case reflect.Func:
		zeros := make([]reflect.Value, of.NumOut())
		for i := range zeros {
			zeros[i] = reflect.Zero(of.Out(i))
		}
		return reflect.MakeFunc(of, func([]reflect.Value) []reflect.Value { return zeros })
	}
	return v
}

// asked calls every method of a value with arguments made from a number and gives what
// each returned.
func asked(t *testing.T, value any, number float64, result func(method string, out []reflect.Value)) {
	v := reflect.ValueOf(value)
	for i := range v.NumMethod() {
		method, name := v.Method(i), v.Type().String()+"."+v.Type().Method(i).Name
		var args []reflect.Value
		for n := range method.Type().NumIn() {
			if method.Type().IsVariadic() && n == method.Type().NumIn()-1 {
				continue
			}
			args = append(args, callable(method.Type().In(n), number))
		}
		require.NotPanics(t, func() { result(name, method.Call(args)) }, "%s with %g", name, number)
	}
}

// without is that what a method gives holds no NaN, or comes with an error.
func without(t *testing.T, method string, out []reflect.Value) {
	for _, o := range out {
		if o.Kind() == reflect.Float64 {
			failed := out[len(out)-1].Type().Name() == "error" && !out[len(out)-1].IsNil()
			require.True(t, failed || !math.IsNaN(o.Float()), method)
		}
	}
}

// What nobody made answers with zeros or with words, whatever it is asked.
func TestZeroValuesDoNotPanic(t *testing.T) {
	for _, number := range []float64{0, -1, 1, 5e-324, 1e300} {
		for _, value := range []any{
			&tendon.Force{}, (*tendon.Force)(nil), &tendon.Force{Tendon: draped()}, &tendon.Path{}, (*tendon.Path)(nil), tendon.Curve{}, tendon.Curve(nil), tendon.Piece{},
			tendon.Tendon{}, tendon.Pretension{}, tendon.Jacking{}, tendon.Law{}, tendon.ApproximateLoss{}, tendon.AnchorZone{}, tendon.Transmission{}, tendon.Sustained{},
			tendon.Period{}, tendon.Relaxing{}, tendon.Losses{}, tendon.Relaxation(0), tendon.Ends(0),
			tendon.Sustained{Concrete: (*concrete.EN1992)(nil)},
		} {
			asked(t, value, number, func(method string, out []reflect.Value) { without(t, method, out) })
		}
	}
	path := &tendon.Path{}
	require.Zero(t, path.From()+path.To()+path.Angle(3)+path.Curvature(3))
	require.Empty(t, path.Breaks())
	for _, f := range []*tendon.Force{nil, {}} {
		require.Zero(t, f.At(3)+f.AtJack(3)+f.Gripped(3))
		for _, err := range []error{
			func() error { _, err := f.Retained(0.9); return err }(), func() error { _, err := f.Derivation(1, ""); return err }(),
			func() error { _, err := f.Elongation(tendon.Measuring{Tolerance: 0.05}); return err }(),
			func() error { _, err := f.Restress(step("D", 1400e6, tendon.LeftEnd, 0)); return err }(),
		} {
			require.ErrorIs(t, err, tendon.ErrTendon)
			require.ErrorContains(t, err, "of a Force that is none: must be made by Tendon.Jack")
		}
	}
}

// A model that is a nil pointer is none.
func TestNoModelIsSaid(t *testing.T) {
	for _, none := range []concrete.TimeModel{nil, (*concrete.EN1992)(nil), (*given)(nil)} {
		s := mid
		s.Concrete = none
		_, err := s.Simplified()
		require.ErrorContains(t, err, "Sustained.Concrete is missing")
		_, err = s.Stepwise(5)
		require.ErrorIs(t, err, tendon.ErrTendon)
		_, err = tendon.NewPeriod(none, 195e9, 7, 90, tendon.Relaxing{})
		require.ErrorContains(t, err, "must be a model")
		_, err = tendon.CreepModulus(none, 7)
		require.ErrorIs(t, err, tendon.ErrTendon)
	}
}

// A draw-in of less than any path can hold, and a tendon shorter than its anchors.
func TestHardlyAnyTendonAndHardlyAnySlip(t *testing.T) {
	for _, slip := range []float64{1e-300, 1e-17, 1e-12, 0.99e-9} {
		require.ErrorContains(t, jackedTo(1400e6, slip), "must be 0, or 1e-09 to 0.1 m")
	}
	none := jack(t, draped(), tendon.LeftEnd, 0)
	least := jack(t, draped(), tendon.LeftEnd, 1e-9)
	for x := 0.0; x <= 34; x += 0.5 {
		require.InEpsilon(t, none.At(x), least.At(x), 1e-4, "x = %g", x)
	}
	for _, length := range []float64{1e-6, 1e-9, 0.099, math.Nextafter(0.1, 0)} {
		_, err := straight(length, 0.2, 0.005).Path()
		require.ErrorIs(t, err, tendon.ErrTendon)
		require.ErrorContains(t, err, "must be 0.1 to 2000 m")
		_, err = straight(length, 0.2, 0.005).Jack(step("S", 1400e6, tendon.LeftEnd, 0))
		require.Error(t, err)
	}
	short, err := straight(0.1, 0.2, 0.005).Path()
	require.NoError(t, err)
	require.InDelta(t, 0.1, short.Length(0.1), 1e-15)
}
