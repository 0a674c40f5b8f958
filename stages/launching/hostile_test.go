package launching_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// number is one number of an input that can be changed.
type number struct {
	name string
	at   reflect.Value
}

// numbers are all numbers of an input, found by reflection.
func numbers(name string, v reflect.Value, list *[]number) {
	switch v.Kind() {
	case reflect.Float64:
		*list = append(*list, number{name, v})
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				numbers(name+"."+f.Name, v.Field(i), list)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			numbers(fmt.Sprintf("%s[%d]", name, i), v.Index(i), list)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			numbers(name, v.Elem(), list)
		}
	}
}

// standing runs a stage after the element is on its bearings.
func standing(t testing.TB, s stages.Stage) (stages.Record, error) {
	plan := stages.Plan{stages.Seat{Age: 28, On: bearings()}, s}
	if _, ok := s.(launching.Hoist); ok {
		plan = append(plan, stages.Seat{Age: 28, On: bearings()})
	}
	return plan.Run(span(t), limits.EN1992{})
}

// refused requires an error in words of this package or of the engine.
func refused(t *testing.T, err error, words ...string) {
	t.Helper()
	require.Error(t, err, words)
	require.True(t, errors.Is(err, launching.ErrLaunching) || errors.Is(err, stages.ErrStage), "of nobody: %v", err)
	require.Contains(t, err.Error(), "must")
	require.NotContains(t, err.Error(), "must be NaN")
	for _, w := range words {
		require.ErrorContains(t, err, w)
	}
}

// barred is a launch on three legs, one of them with bars, one that may be lost.
func barred() launching.Launch {
	l := launch(rolling(40))
	three(&l)
	p := &l.Positions[0]
	p.Roll, p.Lost = 0, []string{"rear"}
	p.Stands[0].Bars = &launching.Bars{Number: 8, Preload: 20e3, Capacity: 900e3, Document: "LG-1 manual"}
	return l
}

// short is a ride of a carrier of two axles.
func short() launching.Ride {
	r := ride(0.3)
	r.Carrier.Train.Axles = []loads.Axle{{Force: 430e3}, {Force: 430e3, Behind: 2}}
	return r
}

// In any field of a stage of this package, what is not a number or not finite is refused.
func TestNoNumberMayBeEndless(t *testing.T) {
	h, j, l, r := hoist(), jackDown(), barred(), short()
	h.Piers = l.Piers
	for name, of := range map[string]struct {
		at    any
		stage func() stages.Stage
	}{
		"Hoist":    {&h, func() stages.Stage { return h }},
		"JackDown": {&j, func() stages.Stage { return j }},
		"Launch":   {&l, func() stages.Stage { return l }},
		"Ride":     {&r, func() stages.Stage { return r }},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := standing(t, of.stage())
			require.NoError(t, err)
			var list []number
			numbers(name, reflect.ValueOf(of.at).Elem(), &list)
			require.Greater(t, len(list), 15)
			for _, n := range list {
				kept := n.at.Float()
				for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
					n.at.SetFloat(v)
					_, err := standing(t, of.stage())
					require.Error(t, err, "%s = %g", n.name, v)
					refused(t, err)
				}
				n.at.SetFloat(kept)
			}
		})
	}
}
