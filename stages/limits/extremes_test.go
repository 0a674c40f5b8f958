package limits_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
)

// floats visits every exported float64 that a value holds.
func floats(v reflect.Value, path string, visit func(path string, f reflect.Value)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			floats(v.Elem(), path, visit)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if field := v.Type().Field(i); field.IsExported() {
				floats(v.Field(i), path+"."+field.Name, visit)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			floats(v.Index(i), fmt.Sprintf("%s[%d]", path, i), visit)
		}
	case reflect.Float64:
		visit(path, v)
	}
}

// Whatever number a value of the annex or of a question holds, the answer is finite or
// says in words what it must be.
func TestHostileValuesAndQuestions(t *testing.T) {
	for _, kind := range kinds {
		standard, q := limits.EN1992{Aggregate: 0.016}, question(kind)
		for _, input := range []any{&standard, &q} {
			floats(reflect.ValueOf(input), string(kind), func(path string, f reflect.Value) {
				meant := f.Float()
				for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, -1e300, 5e-324} {
					f.SetFloat(bad)
					list, err := standard.Limits(q)
					if err != nil {
						require.ErrorIs(t, err, limits.ErrLimits)
						require.True(t, strings.Contains(err.Error(), "must "), "%s = %g: %v", path, bad, err)
						continue
					}
					floats(reflect.ValueOf(list), "limits", func(result string, f reflect.Value) {
						require.False(t, math.IsNaN(f.Float()) || math.IsInf(f.Float(), 0), "%s = %g gives %s = %g", path, bad, result, f.Float())
					})
				}
				f.SetFloat(meant)
			})
		}
	}
}
