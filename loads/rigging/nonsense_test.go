package rigging_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/formula"
)

// Numbers that make no sense give words, or finite numbers.
func TestRiggingMayBeNonsense(t *testing.T) {
	c, o, s := tandem(), rigging.Outriggers{Along: 8, Across: 7, Carrier: 300e3, Upper: 500e3, UpperRadius: -1.2, Load: 400e3, Radius: 6}, rigging.Spreader{Length: 12, Height: 7, Weight: 30e3, Load: 600e3}
	p := rigging.Pick{Chart: chart(), Radius: 9, Load: rigging.Range{Least: 60 * tonne, Most: 62 * tonne}, Dynamic: 1.1, Rigging: 3 * tonne, HookBlock: 1 * tonne, Part: 0.75}
	m := rigging.Mat{Length: 3, Width: 1, Weight: 10e3, Force: 300e3, Foot: 0.6, Bending: 1e6, Ground: 150e3, Edge: 4, EdgeNeeded: 3}
	g := rigging.Sling{Hook: r3.Vec{Z: 6}, Legs: corners(3, 1, 1), Weight: 400e3, CoG: r3.Vec{X: 0.1}, Tilt: 0.1, Angle: 0.6}
	e, k, a, n := endLift(), crawler(), anchors(), cone()
	for _, of := range []struct {
		input any
		solve func() (any, error)
		lines func() ([]formula.Line, error)
	}{
		{&c, func() (any, error) { return c.Solve() }, func() ([]formula.Line, error) { return c.Lines() }},
		{&o, func() (any, error) { return o.Worst(0, 1) }, func() ([]formula.Line, error) { return o.Lines(0.5) }},
		{&s, func() (any, error) { return s.Solve() }, func() ([]formula.Line, error) { return s.Lines() }},
		{&p, func() (any, error) { return p.Solve() }, func() ([]formula.Line, error) { return p.Lines() }},
		{&m, func() (any, error) { return m.Solve() }, func() ([]formula.Line, error) { return m.Lines() }},
		{&g, func() (any, error) { return g.Solve() }, func() ([]formula.Line, error) { return g.Lines() }},
		{&e, func() (any, error) { return e.Solve() }, func() ([]formula.Line, error) { return e.Lines() }},
		{&k, func() (any, error) { return k.Worst(0, 1) }, func() ([]formula.Line, error) { return k.Lines(0.5) }},
		{&a, func() (any, error) { return a.Solve() }, func() ([]formula.Line, error) { return a.Lines() }},
		{&n, func() (any, error) { return n.Solve() }, func() ([]formula.Line, error) { return n.Lines() }},
	} {
		numbers(reflect.ValueOf(of.input).Elem(), func(field string, v reflect.Value) {
			kept := v.Float()
			for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, -1e300, 5e-324} {
				v.SetFloat(x)
				r, err := of.solve()
				if err != nil {
					require.ErrorIs(t, err, rigging.ErrRigging, "%s = %g", field, x)
					require.Regexp(t, "must ", err.Error(), "%s = %g", field, x)
					continue
				}
				out := reflect.New(reflect.TypeOf(r)).Elem()
				out.Set(reflect.ValueOf(r))
				numbers(out, func(name string, n reflect.Value) {
					require.False(t, math.IsNaN(n.Float()) || math.IsInf(n.Float(), 0), "%s = %g: %s = %g", field, x, name, n.Float())
				})
				lines, err := of.lines()
				require.NoError(t, err, "%s = %g", field, x)
				for _, l := range lines {
					_, err := l.Recompute()
					require.NoError(t, err, "%s = %g", field, x)
				}
			}
			v.SetFloat(kept)
		})
	}
}

func numbers(v reflect.Value, visit func(string, reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.Kind() == reflect.Float64 {
				visit(v.Type().Field(i).Name, f)
			} else {
				numbers(f, visit)
			}
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			if f := v.Index(i); f.Kind() == reflect.Float64 {
				visit("element", f)
			} else {
				numbers(f, visit)
			}
		}
	}
}
