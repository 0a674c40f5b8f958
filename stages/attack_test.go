package stages_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// script is what a user writes: a girder and its plan.
type script struct {
	Girder stages.Girder
	Plan   stages.Plan
}

// scripts are plans with every kind of input, each small.
func scripts(t testing.TB) []script {
	e := block()
	e.Tendons = []tendon.Tendon{{
		Mark: "T", Strand: tendon.Y1860S7x157, Strands: 3, Duct: 0.06, Elevation: tendon.Level(0, 12, 0.3), Plan: tendon.Level(0, 12, 0.05), Friction: 0.19, Wobble: 0.005,
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}}
	e.Extra = []stages.ExtraWeight{{Mark: "block", From: 2, To: 3, Weight: 9e3, Y: 0.1, Z: 0.4}}
	pull := tendon.Jacking{Tendons: []string{"T"}, Stress: 1300e6, Ends: tendon.LeftEnd, DrawIn: 0.004}
	four := paired(stages.Pads(0.2, 1, 11))
	one := script{e.Girder(), stages.Plan{
		stages.Transfer{Age: 3, Jacking: []tendon.Jacking{pull}, On: four, Gradient: 0.01},
		stages.Lift{Age: 4, On: paired(hooks(0.2, 2, 10)), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}, Roll: 0.02, Actions: []stages.Action{
			{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.4, Least: -1, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 12, 200)}}},
		}},
		stages.Store{Age: 5, Until: 9, On: four, Actions: []stages.Action{{Mark: "drum", Loads: point(4, 5e3), Y: 0.1, Least: 1, Most: 1, Stays: true}}},
		stages.Stress{Age: 10, Grout: []string{"T"}, GroutAge: 11},
		stages.Seat{Age: 28, On: paired(stages.Pads(0.2, 0.5, 11.5)), Off: []string{"drum"}, Actions: []stages.Action{
			{Mark: "carrier", Train: &loads.Train{Name: "carrier", Axles: []loads.Axle{{Force: 5e3}, {Force: 4e3, Behind: 2}}}, Y: 0.05},
		}},
	}}
	soft := block()
	soft.Bars = nil
	elastic := script{soft.Girder(), stages.Plan{
		stages.Store{Age: 5, OutOfLevel: 0.001, On: stages.Elastic(5e6, stages.Pads(0.2, 1, 11)...)},
		stages.Lift{Dynamic: loads.AtRest(), Age: 6, On: append(stages.Slings(stages.Hook{X: 2, Z: 4}, stages.Support{X: 1, Z: 0.8}, stages.Support{X: 3, Z: 0.8}), stages.Slings(stages.Hook{X: 10, Z: 4}, stages.Support{X: 9, Z: 0.8}, stages.Support{X: 11, Z: 0.8})...)},
		stages.Haul{Dynamic: loads.AtRest(), Age: 7, On: stages.Pads(0.2, 1, 11), Actions: []stages.Action{{Mark: "brake", Kind: stages.Braking, Direction: stages.Along, Z: 0.4, Loads: point(6, 2e3)}}},
		stages.Seat{Age: 8, On: []stages.Support{{X: 1, Role: stages.Bearing, Holds: stages.HoldsBoth, Y: -0.2}, {X: 1, Y: 0.2, Role: stages.Jack, Friction: 0.3}, {X: 11}, {X: 6, Y: 0.1, Role: stages.Tie, Preload: -1e3, Held: true}}},
	}}
	parts := stages.EndToEnd(stages.Epoxied, segment("A", 4), segment("B", 4.5))
	parts = append(parts, stages.Piece{Element: segment("C", 3.5), At: 8.5, Later: true, Joint: stages.Poured, WeightGroup: "right"})
	joined := script{stages.Girder{Mark: "ABC", Pieces: parts}, stages.Plan{
		stages.Store{Age: 28, On: paired(stages.Pads(0.2, 0.5, 7.5))},
		last{stages.Situation{Name: "add", Age: 29, Standing: true, Phase: limits.Storing, Supports: pads(paired(stages.Pads(0.2, 0.5, 11.5))), Events: []stages.Event{{Add: []string{"C"}, Join: []string{"C"}}}}},
	}}
	return []script{one, elastic, joined}
}

// place is one value of a script that can be changed.
type place struct {
	name string
	at   reflect.Value
}

// places are all values of a script, found by reflection; what an interface holds is
// copied so that it can be set.
func places(name string, v reflect.Value, list *[]place) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && v.Field(i).Type() != reflect.TypeFor[section.Shape]() {
				places(name+"."+f.Name, v.Field(i), list)
			}
		}
		return
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			places(fmt.Sprintf("%s[%d]", name, i), v.Index(i), list)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			places(name, v.Elem(), list)
		}
	case reflect.Interface:
		if v.IsNil() || v.Elem().Kind() != reflect.Struct || v.Elem().Type() == reflect.TypeFor[section.Shape]() {
			break
		}
		copied := reflect.New(v.Elem().Type())
		copied.Elem().Set(v.Elem())
		if copied.Type().Implements(v.Type()) {
			v.Set(copied)
			places(name, copied.Elem(), list)
		}
	}
	*list = append(*list, place{name, v})
}

// hostile are the values put in place of one.
func hostile(v reflect.Value) []reflect.Value {
	var list []reflect.Value
	add := func(x any) { list = append(list, reflect.ValueOf(x).Convert(v.Type())) }
	switch v.Kind() {
	case reflect.Float64:
		x := v.Float()
		for _, y := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -x, -1, 1, 1e300, -1e300, 1e-300, 1e-9, x * (1 + 1e-12), 100 * x, x / 100} {
			add(y)
		}
	case reflect.Int:
		for _, y := range []int{0, -1, 1, 7, 1 << 20} {
			add(y)
		}
	case reflect.String:
		for _, y := range []string{"", "x", "T", "drum", "tie", "both", "across", "left", "\x00%d"} {
			add(y)
		}
	case reflect.Bool:
		add(!v.Bool())
	case reflect.Slice:
		add(reflect.Zero(v.Type()).Interface())
		if n := v.Len(); n > 0 {
			twice := reflect.AppendSlice(reflect.AppendSlice(reflect.Zero(v.Type()), v), v)
			back := reflect.MakeSlice(v.Type(), n, n)
			for i := range n {
				back.Index(i).Set(v.Index(n - 1 - i))
			}
			list = append(list, twice, back, v.Slice(0, n-1), v.Slice(0, 1))
		}
	case reflect.Pointer, reflect.Interface, reflect.Func:
		list = append(list, reflect.Zero(v.Type()))
	}
	return list
}

// said are words that tell what a value must be.
var said = regexp.MustCompile("must")

// survives runs a script: it gives a record of finite numbers or an error in words.
func survives(t *testing.T, name string, s script) {
	t.Helper()
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("%s: panic: %v", name, p)
		}
	}()
	begin := time.Now()
	r, err := s.Plan.Run(s.Girder, limits.EN1992{})
	if d := time.Since(begin); d > 20*time.Second {
		t.Errorf("%s: took %v", name, d)
	}
	if err != nil {
		if !said.MatchString(err.Error()) || !errors.Is(err, stages.ErrStage) {
			t.Errorf("%s: error without what it must be, or of nobody: %v", name, err)
		}
	}
	if _, wrong := json.Marshal(r); wrong != nil {
		t.Errorf("%s: record: %v", name, wrong)
	}
}

// Whatever single value of a script is wrong, there is no panic, no number that is
// not finite, and an error in words.
func TestEveryValueMayBeWrong(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 34))
	for n, of := range scripts(t) {
		t.Run(fmt.Sprint("script ", n), func(t *testing.T) { attack(t, r, of) })
	}
}

func attack(t *testing.T, r *rand.Rand, of script) {
	r0, err := of.Plan.Run(of.Girder, limits.EN1992{})
	require.NoError(t, err)
	require.Len(t, r0.Stages, len(of.Plan))
	var list []place
	places("", reflect.ValueOf(&of).Elem(), &list)
	for _, p := range list {
		kept := reflect.New(p.at.Type()).Elem()
		kept.Set(p.at)
		for k, v := range hostile(p.at) {
			if r.IntN(attackShare) != 0 || underRace && r.IntN(4) != 0 {
				continue
			}
			p.at.Set(v)
			survives(t, fmt.Sprintf("%s, value %d = %v", p.name, k, v), of)
			p.at.Set(kept)
		}
	}
}

// attackShare is one in how many wrong values is tried.
const attackShare = 40

// Two values may be wrong at once.
func FuzzTwoValuesWrong(f *testing.F) {
	for seed := range uint64(40) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		r := rand.New(rand.NewPCG(seed, 55))
		list := scripts(t)
		of := list[r.IntN(len(list))]
		name := fmt.Sprintf("seed %d:", seed)
		for range 2 {
			var at []place
			places("", reflect.ValueOf(&of).Elem(), &at)
			p := at[r.IntN(len(at))]
			if values := hostile(p.at); len(values) > 0 {
				v := values[r.IntN(len(values))]
				name += fmt.Sprintf(" %s = %v", p.name, v)
				p.at.Set(v)
			}
		}
		survives(t, name, of)
	})
}

// Much at once: each is refused in words or carried out, in little time.
func TestMuchAtOnce(t *testing.T) {
	four := paired(stages.Pads(0.2, 1, 11))
	var crowd []stages.Support
	for i := range 30 {
		crowd = append(crowd, stages.Support{X: 0.2 + 0.4*float64(i), Y: 0.2 * float64(i%3-1)})
	}
	var actions []stages.Action
	for i := range 50 {
		actions = append(actions, stages.Action{Mark: fmt.Sprint("a", i), Y: 0.01 * float64(i%7-3), Least: -1, Most: 1, Loads: point(12*float64(i)/49, 1e3)})
	}
	long := &loads.Train{Name: "long"}
	for i := range 30 {
		long.Axles = append(long.Axles, loads.Axle{Force: 2e3, Behind: map[bool]float64{true: 0, false: 3}[i == 0]})
	}
	stick := block()
	stick.Length, stick.Bars = 1e-9, nil
	with := func(e stages.Element, plan ...stages.Stage) script { return script{e.Girder(), plan} }
	parts := stages.EndToEnd(stages.Epoxied, segment("A", 4), segment("B", 4))
	parts = append(parts, stages.Piece{Element: segment("C", 4), At: 8, Later: true})
	event := func(e stages.Event) stages.Stage {
		return last{stages.Situation{Name: "event", Age: 29, Standing: true, Phase: limits.Storing, Supports: pads(four), Events: []stages.Event{e}}}
	}
	stored := stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1, 7))}
	for name, s := range map[string]script{
		"thirty supports":             with(block(), stages.Store{Age: 5, On: crowd}),
		"thirty elastic supports":     with(block(), stages.Store{Age: 5, OutOfLevel: 1e-3, On: stages.Elastic(1e7, crowd...)}),
		"thirty soft supports, stays": with(block(), stages.Store{Age: 5, OutOfLevel: 1e-5, On: stages.Elastic(1e6, crowd...)}, stages.Store{Age: 6, OutOfLevel: 1e-5, On: stages.Elastic(1e6, crowd[2:]...)}),
		"fifty actions":               with(block(), stages.Store{Age: 5, On: four, Actions: actions}),
		"a train longer than it":      with(block(), stages.Seat{Age: 5, On: four, Actions: []stages.Action{{Mark: "t", Train: long}}}),
		"a stick":                     with(stick, stages.Store{Age: 5, On: stages.At(0, 1e-9)}),
		"hung below its centre":       with(block(), stages.Store{Age: 5, On: four}, stages.Lift{Dynamic: loads.AtRest(), Age: 6, On: stages.Slings(stages.Hook{X: 6, Z: -3}, stages.Pads(0.2, 1, 11)...)}),
		"levels of a metre":           with(block(), stages.Store{Age: 5, On: []stages.Support{{X: 1, Level: 1}, {X: 11, Level: -1}}}),
		"supports at one end":         with(block(), stages.Store{Age: 5, On: stages.Pads(0.2, 0.1, 0.4)}),
		"all held":                    with(block(), stages.Store{Age: 5, On: []stages.Support{{X: 1, Held: true, Preload: 6e4}, {X: 11, Held: true, Preload: 6e4}}}),
		"fixed and a pad":             with(block(), stages.Store{Age: 5, On: []stages.Support{{X: 0, Fixed: true}, {X: 11}}}),
		"joined at nothing":           {stages.Girder{Mark: "G", Pieces: parts}, stages.Plan{stored, event(stages.Event{Join: []string{"C"}})}},
		"added twice":                 {stages.Girder{Mark: "G", Pieces: parts}, stages.Plan{stored, event(stages.Event{Add: []string{"C", "C"}})}},
		"released and unknown":        {stages.Girder{Mark: "G", Pieces: parts}, stages.Plan{stored, event(stages.Event{Release: []string{"T"}, Grout: []string{"?"}})}},
		"nil section in a piece":      {stages.Girder{Mark: "G", Pieces: []stages.Piece{{Element: stages.Element{Mark: "x", Length: 3}}}}, stages.Plan{stored}},
	} {
		survives(t, name, s)
	}
}
