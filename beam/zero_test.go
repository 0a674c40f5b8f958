package beam_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
)

// What nobody made answers with zeros or with words, whatever it is asked.
func TestZeroValuesDoNotPanic(t *testing.T) {
	for _, number := range []float64{0, -1, 1, 5e-324, 1e300, math.NaN()} {
		for _, value := range []any{
			&beam.Beam{}, (*beam.Beam)(nil), &beam.Response{}, (*beam.Response)(nil), &beam.Influence{}, (*beam.Influence)(nil), beam.Envelope{},
			&beam.Space{}, (*beam.Space)(nil), &beam.SpaceResponse{}, (*beam.SpaceResponse)(nil),
		} {
			v := reflect.ValueOf(value)
			for i := range v.NumMethod() {
				method, name := v.Method(i), v.Type().String()+"."+v.Type().Method(i).Name
				var args []reflect.Value
				for n := range method.Type().NumIn() {
					arg := reflect.New(method.Type().In(n)).Elem()
					switch arg.Kind() {
					case reflect.Float64:
						arg.SetFloat(number)
					case reflect.Int:
						arg.SetInt(int64(math.Max(-2, math.Min(number, 9))))
					}
					args = append(args, arg)
				}
				if method.Type().IsVariadic() {
					args = args[:len(args)-1]
				}
				require.NotPanics(t, func() { method.Call(args) }, "%s with %g", name, number)
			}
		}
	}
}
