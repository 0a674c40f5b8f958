package stages_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// furtherScripts hold the inputs that the scripts of attack_test.go leave out: strands
// cast in, a girder curved in plan, hangers on a girder, the losses of a long stage.
func furtherScripts(t testing.TB) []script {
	mix := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.25, DryingFrom: 2}}
	cast := bedBeam(t)
	cast.LongTerm, cast.Concrete = mix, mix
	on := []stages.Support{{X: 1, Y: 0.05}, {X: 1, Y: 0.25}, {X: 15, Y: 0.1}}
	strands := script{cast.Girder(), stages.Plan{
		stages.Transfer{Age: 2, Pretension: fromBed(1200e6, "P1", "P2"), On: on},
		stages.Store{Age: 3, Until: 60, On: on},
		stages.Haul{Age: 60, On: stages.Elastic(5e6, on...), OutOfLevel: 0.001, Dynamic: loads.Dynamic{Least: 0.8, Most: 1.2}},
		stages.Seat{Age: 61, Until: 90, On: on},
	}}
	bent := stages.Girder{Mark: "C", Radius: 200, Pieces: stages.EndToEnd(stages.Epoxied, segment("A", 4), segment("B", 4))}
	curve := script{bent, stages.Plan{
		stages.Store{Age: 28, On: paired(stages.Pads(0.2, 0.5, 7.5))},
		last{stages.Situation{Name: "hung", Age: 29, Until: 30, Day: 29, Standing: true, Phase: limits.Storing, Roll: 0.01, Gradient: 0.01, Supports: []stages.Support{{X: 0, Fixed: true, RotationalStiffness: 0}}}},
	}}
	return append(scripts(t), strands, curve)
}

// Every number of every input may be nonsense: one place of each field takes each
// value, and there are words or a record of finite numbers.
func TestEveryNumberOfEveryInputMayBeNonsense(t *testing.T) {
	values := []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, -1e300, 5e-324}
	if underRace {
		values = values[3:5]
	}
	tried := map[string]bool{}
	for n, of := range furtherScripts(t) {
		_, err := of.Plan.Run(of.Girder, limits.EN1992{})
		require.NoError(t, err, "script %d", n)
		numbers(reflect.ValueOf(&of).Elem(), func(field string, v reflect.Value) {
			if tried[field] {
				return
			}
			tried[field] = true
			kept := v.Float()
			for _, x := range values {
				v.SetFloat(x)
				survives(t, fmt.Sprintf("%s = %g", field, x), of)
			}
			v.SetFloat(kept)
		})
	}
	for _, of := range []any{
		stages.Action{}, stages.BondedBars{}, stages.Element{}, stages.ExtraWeight{}, stages.Girder{}, stages.Haul{}, stages.Hook{}, stages.Lift{},
		stages.Piece{}, stages.PretensionRelease{}, stages.Seat{}, stages.Situation{}, stages.Store{}, stages.Stress{}, stages.Support{}, stages.Transfer{},
	} {
		kind := reflect.TypeOf(of)
		for i := range kind.NumField() {
			if f := kind.Field(i); f.Type.Kind() == reflect.Float64 {
				require.True(t, tried[kind.Name()+"."+f.Name], "%s.%s was not tried", kind.Name(), f.Name)
			}
		}
	}
}

// numbers visits every number of a value with the name of its type and field.
func numbers(v reflect.Value, visit func(field string, v reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			switch {
			case !f.IsExported() || f.Type == reflect.TypeFor[section.Shape]():
			case f.Type.Kind() == reflect.Float64 && v.Field(i).CanSet():
				visit(v.Type().Name()+"."+f.Name, v.Field(i))
			default:
				numbers(v.Field(i), visit)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			numbers(v.Index(i), visit)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			numbers(v.Elem(), visit)
		}
	case reflect.Interface:
		if v.IsNil() || v.Elem().Kind() != reflect.Struct || v.Elem().Type() == reflect.TypeFor[section.Shape]() {
			return
		}
		if copied := reflect.New(v.Elem().Type()); copied.Type().Implements(v.Type()) {
			copied.Elem().Set(v.Elem())
			v.Set(copied)
			numbers(copied.Elem(), visit)
		}
	}
}

// A loss and a search get the same values.
func TestFactorsAndRangesMayBeNonsense(t *testing.T) {
	a, err := stages.Plan{stages.Store{Age: 28, On: dunnage(1, 11)}}.Analyse(block(), limits.EN1992{})
	require.NoError(t, err)
	e, err := a.Effects(1, 1)
	require.NoError(t, err)
	set := stages.Input{Symbol: "γ", Unit: "N/m³", Set: func(g *stages.Girder, _ *stages.Plan, v float64) error {
		g.Pieces[0].Element.UnitWeight = v
		return nil
	}}
	c := stages.Case{Subject: block(), Plan: stages.Plan{stages.Store{Age: 28, On: dunnage(1, 11)}}, Stage: 1, Standard: limits.EN1992{}}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, -1e300, 5e-324} {
		loss, err := e.Loss(0, x)
		require.True(t, err != nil || loss.Loads.Points[0].Force == 5e-324*e.Reactions[0].Static.Most || x > 0, "%g", x)
		if err != nil {
			require.ErrorIs(t, err, stages.ErrStage)
			require.ErrorContains(t, err, "must be")
		}
		for _, ends := range [][2]float64{{x, 25e3}, {25e3, x}, {x, x}} {
			_, _, err = c.Solve(set, ends[0], ends[1])
			require.Error(t, err)
			require.ErrorContains(t, err, "must be", "%v", ends)
		}
	}
}
