package redistribution_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// hostile are values that a script may hold by mistake.
var hostile = []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, -1e300, 5e-324, -5e-324}

// floats visits every exported float64 that a value holds.
func floats(v reflect.Value, path string, visit func(path string, f reflect.Value)) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() && v.Type().Name() != "error" {
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

// subject is an input and what it is asked.
type subject struct {
	input any // pointer to what is made hostile
	ask   func() ([]any, error)
}

// answered is what was asked of a subject once: words, or a result that is finite.
func answered(s subject) (wrong string) {
	defer func() {
		if r := recover(); r != nil {
			wrong = fmt.Sprint("panics: ", r)
		}
	}()
	start := time.Now()
	results, err := s.ask()
	if took := time.Since(start); took > 2*time.Second {
		return fmt.Sprint("takes ", took)
	}
	if err != nil {
		if !strings.Contains(err.Error(), "must ") {
			return "has no words: " + err.Error()
		}
		return ""
	}
	for i, result := range results {
		floats(reflect.ValueOf(result), fmt.Sprintf("result %d", i), func(path string, f reflect.Value) {
			if v := f.Float(); wrong == "" && (math.IsNaN(v) || math.IsInf(v, 0)) {
				wrong = fmt.Sprintf("gives %s = %g", path, v)
			}
		})
	}
	return wrong
}

// survive makes every float of every subject hostile in turn.
func survive(t *testing.T, subjects map[string]subject) {
	t.Helper()
	tried := 0
	for name, s := range subjects {
		require.Empty(t, answered(s), name)
		_, err := s.ask()
		require.NoError(t, err, "%s as it is meant", name)
		floats(reflect.ValueOf(s.input), name, func(path string, f reflect.Value) {
			if !f.CanSet() {
				return
			}
			meant := f.Float()
			for _, bad := range hostile {
				f.SetFloat(bad)
				if wrong := answered(s); wrong != "" {
					t.Errorf("%s = %g %s", path, bad, wrong)
				}
				tried++
			}
			f.SetFloat(meant)
		})
	}
	require.Greater(t, tried, 5*len(subjects))
}

// many joins results whose errors must all be nil.
func many(asks ...func() (any, error)) ([]any, error) {
	var results []any
	for _, ask := range asks {
		result, err := ask()
		if err != nil {
			return nil, err
		}
		results = append(results, result)
	}
	return results, nil
}

// of is one ask of a function with a result and an error.
func of[T any](result T, err error) func() (any, error) {
	return func() (any, error) { return result, err }
}

// sure is one ask of a result that has no error.
func sure(results ...any) func() (any, error) { return of[any](results, nil) }
