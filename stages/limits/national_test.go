package limits_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages/limits"
)

// kinds are all that can be asked for.
var kinds = []limits.Kind{
	limits.Compression, limits.Tension, limits.TensionSteel, limits.PrincipalTension, limits.WebShear, limits.JackStress, limits.LockOffStress,
	limits.StressingStrength, limits.AnchorSpacing, limits.AnchorEdge, limits.DuctSpacing, limits.Uplift, limits.Overturning, limits.Sliding, limits.SetDown, limits.Roll,
}

// plain is a concrete with round numbers: fck 40, fctm 3.5, fctk 2.4 MPa.
var plain = concrete.State{Age: 7, Characteristic: 40e6, Mean: 48e6, TensileMean: 3.5e6, TensileLow: 2.4e6, Modulus: 33e9}

// round is a steel with fpk 2000 and fp0.1k 1800 MPa, in a duct of 0.03 m.
func round() *tendon.Tendon {
	return &tendon.Tendon{Mark: "T", Duct: 0.03, Strand: tendon.Strand{Fpk: 2000e6, Fp01k: 1800e6},
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 28e6, AnchorSpacing: 0.3, EdgeDistance: 0.15}}
}

// question has everything that any kind may ask for, bars included.
func question(kind limits.Kind) limits.Question {
	return limits.Question{Kind: kind, Phase: limits.Stressing, Place: limits.Place{Bars: true}, Concrete: plain, Tendon: round(), Neighbour: round(), TensionZone: limits.TensionZone{Force: 3e5, Bars: 2e-3}}
}

// all is every answer of a standard.
func all(t *testing.T, s limits.EN1992) map[limits.Kind][]limits.Limit {
	t.Helper()
	m := map[limits.Kind][]limits.Limit{}
	for _, kind := range kinds {
		list, err := s.Limits(question(kind))
		require.NoError(t, err, kind)
		m[kind] = list
	}
	return m
}

// value is the limit of the only answer.
func value(kind limits.Kind) func(map[limits.Kind][]limits.Limit) float64 {
	return func(m map[limits.Kind][]limits.Limit) float64 { return m[kind][0].Line.Result.Value }
}

// factor is one of the factors of the only answer.
func factor(kind limits.Kind, of func(limits.Factors) float64) func(map[limits.Kind][]limits.Limit) float64 {
	return func(m map[limits.Kind][]limits.Limit) float64 { return of(m[kind][0].Factors) }
}

// on is the unfavourable factor on a kind of action.
func on(action limits.ActionKind) func(limits.Factors) float64 {
	return func(f limits.Factors) float64 { _, v := f.On(action); return v }
}

// national is each nationally determined value: what it gives when it is not stated,
// and stated, by hand.
var national = []struct {
	field  string
	stated float64
	answer func(map[limits.Kind][]limits.Limit) float64
	usual  float64 // answer by the recommended value
	other  float64 // by the stated one
}{
	{"Compression", 0.5, value(limits.Compression), 0.6 * 40e6, 0.5 * 40e6},
	{"TensionWithBars", 0.8, value(limits.Tension), 3.5e6, 0.8 * 3.5e6},
	{"BarStress", 160e6, func(m map[limits.Kind][]limits.Limit) float64 { return m[limits.TensionSteel][0].BarStress.Value }, 200e6, 160e6},
	{"ConcreteFactor", 1.6, value(limits.PrincipalTension), 2.4e6 / 1.5, 2.4e6 / 1.6},
	{"ConcreteFactor", 1.6, value(limits.WebShear), 0.3 * (1 - 40.0/250) * 40e6 / 1.5, 0.3 * (1 - 40.0/250) * 40e6 / 1.6},
	{"TensionCoefficient", 0.8, value(limits.PrincipalTension), 2.4e6 / 1.5, 0.8 * 2.4e6 / 1.5},
	{"CompressionCoefficient", 0.85, value(limits.WebShear), 0.3 * 0.84 * 40e6 / 1.5, 0.85 * 0.3 * 0.84 * 40e6 / 1.5},
	{"JackTensile", 0.75, value(limits.JackStress), math.Min(0.8*2000, 0.9*1800) * 1e6, 0.75 * 2000e6},
	{"JackProof", 0.8, value(limits.JackStress), 1600e6, 0.8 * 1800e6},
	{"LockOffTensile", 0.7, value(limits.LockOffStress), math.Min(0.75*2000, 0.85*1800) * 1e6, 0.7 * 2000e6},
	{"LockOffProof", 0.8, value(limits.LockOffStress), 1500e6, 0.8 * 1800e6},
	{"PrestressInferior", 0.95, factor(limits.Compression, func(f limits.Factors) float64 { return f.PrestressLeast }), 0.9, 0.95},
	{"PrestressSuperior", 1.05, factor(limits.TensionSteel, func(f limits.Factors) float64 { return f.PrestressMost }), 1.1, 1.05},
	{"PermanentUltimate", 1.2, factor(limits.WebShear, func(f limits.Factors) float64 { return f.WeightMost }), 1.35, 1.2},
	{"VariableUltimate", 1.3, factor(limits.PrincipalTension, on(limits.Wind)), 1.5, 1.3},
	{"EquilibriumMost", 1.1, factor(limits.Overturning, func(f limits.Factors) float64 { return f.WeightMost }), 1.05, 1.1},
	{"EquilibriumLeast", 0.9, factor(limits.Uplift, func(f limits.Factors) float64 { return f.WeightLeast }), 0.95, 0.9},
	{"EquilibriumVariable", 1.6, factor(limits.Sliding, on(limits.Wind)), 1.5, 1.6},
	{"EquilibriumConstruction", 1.5, factor(limits.Overturning, on(limits.Equipment)), 1.35, 1.5},
	{"EquilibriumCounterweight", 0.9, factor(limits.Overturning, func(f limits.Factors) float64 { v, _ := f.On(limits.Counterweight); return v }), 0.8, 0.9},
	{"FrictionFactor", 2, func(m map[limits.Kind][]limits.Limit) float64 { return m[limits.Sliding][0].Friction.Value }, 1.2, 2},
	{"DuctBeside", 0.06, value(limits.DuctSpacing), 0.05, 0.06},
}

// set is the standard with one field stated.
func set(field string, v float64) limits.EN1992 {
	var s limits.EN1992
	reflect.ValueOf(&s).Elem().FieldByName(field).SetFloat(v)
	return s
}

// A share in percent, a stress in MPa, a partial factor turned over: what would make a
// limit a hundred times as large, or a factor help, is refused.
func TestNationalValuesInWrongUnits(t *testing.T) {
	for field, wrong := range map[string]float64{
		"Compression": 60, "TensionWithBars": 100, "BarStress": 200, "ConcreteFactor": 1 / 1.5, "TensionCoefficient": 100, "CompressionCoefficient": 85,
		"JackTensile": 80, "JackProof": 90, "LockOffTensile": 75, "LockOffProof": 85, "PrestressInferior": 90, "PrestressSuperior": 110, "FrictionFactor": 1 / 1.2,
		"DuctBeside": 50, "DuctAbove": 40, "Aggregate": 16,
	} {
		for _, kind := range kinds {
			list, err := set(field, wrong).Limits(question(kind))
			require.ErrorIs(t, err, limits.ErrLimits, field)
			require.ErrorContains(t, err, "EN1992."+field)
			if wrong > 2 {
				require.Regexp(t, "; is it in (percent|MPa|mm)\\?$", err.Error(), field)
			}
			require.Empty(t, list)
		}
	}
}

// Every national value by hand, not stated and stated.
func TestEveryNationalValue(t *testing.T) {
	usual := all(t, limits.EN1992{})
	for _, n := range national {
		require.InEpsilon(t, n.usual, n.answer(usual), 1e-12, n.field)
		require.InEpsilon(t, n.other, n.answer(all(t, set(n.field, n.stated))), 1e-12, n.field)
	}
}

// A national value changes what it is for and nothing else: the kinds whose answers
// differ.
func TestANationalValueChangesItsOwnAnswersOnly(t *testing.T) {
	service := []limits.Kind{limits.Compression, limits.Tension, limits.TensionSteel}
	strength := []limits.Kind{limits.PrincipalTension, limits.WebShear}
	balance := []limits.Kind{limits.Uplift, limits.Overturning, limits.Sliding}
	touched := map[string][]limits.Kind{
		"Compression": service[:1], "TensionWithBars": service[1:2], "BarStress": service[2:], "ConcreteFactor": strength, "TensionCoefficient": strength[:1],
		"CompressionCoefficient": strength[1:], "JackTensile": {limits.JackStress}, "JackProof": {limits.JackStress}, "LockOffTensile": {limits.LockOffStress},
		"LockOffProof": {limits.LockOffStress}, "PrestressInferior": service, "PrestressSuperior": service, "PermanentUltimate": strength, "VariableUltimate": strength,
		"EquilibriumMost": balance, "EquilibriumLeast": balance, "EquilibriumVariable": balance, "EquilibriumConstruction": balance, "EquilibriumCounterweight": balance, "FrictionFactor": balance[2:],
		"DuctBeside": {limits.DuctSpacing},
	}
	usual := all(t, limits.EN1992{})
	for _, n := range national {
		var changed []limits.Kind
		other := all(t, set(n.field, n.stated))
		for _, kind := range kinds {
			if !reflect.DeepEqual(usual[kind], other[kind]) {
				changed = append(changed, kind)
			}
		}
		require.Equal(t, touched[n.field], changed, n.field)
	}
	above := question(limits.DuctSpacing)
	above.Above = true
	list, err := set("DuctAbove", 0.06).Limits(above)
	require.NoError(t, err)
	require.Equal(t, 0.06, list[0].Line.Result.Value)
	list, err = set("DuctBeside", 0.06).Limits(above)
	require.NoError(t, err)
	require.Equal(t, 0.04, list[0].Line.Result.Value)
}

// A value stated as the recommended one gives the same as one not stated.
func TestRecommendedValuesStated(t *testing.T) {
	stated := limits.EN1992{
		Compression: 0.6, TensionWithBars: 1, BarStress: 200e6, ConcreteFactor: 1.5, TensionCoefficient: 1, CompressionCoefficient: 1, JackTensile: 0.8, JackProof: 0.9,
		LockOffTensile: 0.75, LockOffProof: 0.85, PrestressInferior: 0.9, PrestressSuperior: 1.1, PermanentUltimate: 1.35, VariableUltimate: 1.5, EquilibriumMost: 1.05,
		EquilibriumLeast: 0.95, EquilibriumVariable: 1.5, EquilibriumConstruction: 1.35, EquilibriumCounterweight: 0.8, FrictionFactor: 1.2, DuctBeside: 0.05, DuctAbove: 0.04,
	}
	require.Equal(t, all(t, limits.EN1992{}), all(t, stated))
}

// Factors that would be favourable, or a hair beyond what anybody uses, are refused by
// name; at the very ends they are not. A value that is negative or not finite is
// refused whatever it is for.
func TestNationalValuesAHairBeyond(t *testing.T) {
	for field, ends := range map[string][2]float64{
		"Compression": {0, 1}, "TensionWithBars": {0, 1.2}, "BarStress": {1e6, 600e6}, "ConcreteFactor": {1, 10}, "TensionCoefficient": {0, 1.2}, "CompressionCoefficient": {0, 1.2},
		"JackTensile": {0, 1}, "JackProof": {0, 1}, "LockOffTensile": {0, 1}, "LockOffProof": {0, 1}, "PrestressInferior": {0, 1}, "PrestressSuperior": {1, 10}, "PermanentUltimate": {1, 10}, "VariableUltimate": {1, 10}, "EquilibriumMost": {1, 10},
		"EquilibriumLeast": {0, 1}, "EquilibriumVariable": {1, 10}, "EquilibriumConstruction": {1, 10}, "EquilibriumCounterweight": {0, 1}, "FrictionFactor": {1, 10}, "DuctBeside": {0.01, 1},
		"DuctAbove": {0.01, 1}, "Aggregate": {0, 0.1},
	} {
		for i, end := range ends {
			_, err := set(field, end).Limits(question(limits.Uplift))
			require.NoError(t, err, "%s at %g", field, end)
			beyond := end * (1 - 1e-9)
			if i == 1 {
				beyond = end * (1 + 1e-9)
			}
			if beyond == 0 {
				continue // zero stands for the recommended value
			}
			_, err = set(field, beyond).Limits(question(limits.Uplift))
			require.ErrorIs(t, err, limits.ErrLimits, "%s at %g", field, beyond)
			require.ErrorContains(t, err, "EN1992."+field+" = ")
			require.ErrorContains(t, err, "must be ")
		}
	}
	fields := reflect.TypeFor[limits.EN1992]()
	tried := 0
	for i := range fields.NumField() {
		if fields.Field(i).Type.Kind() != reflect.Float64 {
			continue
		}
		for _, bad := range []float64{-1e-9, math.NaN(), math.Inf(1), math.Inf(-1)} {
			_, err := set(fields.Field(i).Name, bad).Limits(question(limits.Compression))
			require.ErrorIs(t, err, limits.ErrLimits, "%s = %g", fields.Field(i).Name, bad)
			require.ErrorContains(t, err, "EN1992."+fields.Field(i).Name)
		}
		tried++
	}
	require.Equal(t, 23, tried)
}
