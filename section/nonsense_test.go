package section_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// lengthsOf visits every number of a struct with its name.
func lengthsOf(v reflect.Value, name string, visit func(name string, number reflect.Value)) {
	for i := range v.NumField() {
		field, called := v.Field(i), name+v.Type().Field(i).Name
		switch field.Kind() {
		case reflect.Struct:
			lengthsOf(field, called+".", visit)
		case reflect.Float64:
			visit(called, field)
		}
	}
}

// No dimension of a trade shape may be negative, infinite or not a number, one that
// is zero by default included; only a cross-fall has a sign.
func TestTradeShapesRefuseNonsenseInEveryDimension(t *testing.T) {
	full := girder
	full.Bottom.Fillet = section.Haunch{Width: 0.05, Height: 0.05}
	for _, shape := range []drawn{
		usual, half, trough, full, tee,
		section.VoidedSlab{Width: 6, Depth: 0.9, Voids: 5, VoidDiameter: 0.55, VoidSpacing: 1.1},
		section.VoidedSlab{Width: 6, Depth: 0.9, Voids: 1, VoidDiameter: 0.55},
		section.VoidedSlab{Width: 6, Depth: 0.9},
		section.Trough{Depth: 1.6, TopWidth: 2.4, BottomWidth: 1.4, WebThickness: 0.2, BottomSlab: 0.25},
	} {
		copied := reflect.New(reflect.TypeOf(shape)).Elem()
		copied.Set(reflect.ValueOf(shape))
		lengthsOf(copied, "", func(name string, number reflect.Value) {
			was := number.Float()
			for _, nonsense := range []float64{-0.01, -1, -1e-9, math.Inf(1), math.Inf(-1), math.NaN(), 1e300} {
				if name == "CrossFall" && math.Abs(nonsense) < 0.25 {
					continue
				}
				number.SetFloat(nonsense)
				_, err := copied.Interface().(drawn).Shape()
				require.ErrorIs(t, err, section.ErrShape, fmt.Sprintf("%T.%s = %g", shape, name, nonsense))
			}
			number.SetFloat(was)
		})
		_, err := copied.Interface().(drawn).Shape()
		require.NoError(t, err)
	}
}

// A nil pointer in an Along is as little a section as nil is.
func TestNilSectionsAreRefused(t *testing.T) {
	var none *section.Shape
	require.Zero(t, section.Volume(none, 3))
	require.Empty(t, section.Areas(none, 3))
	_, err := section.Stepped{{Until: 2, Section: none}}.Along()
	require.ErrorIs(t, err, section.ErrShape)
	require.ErrorContains(t, err, "stretch 1: Section is empty")
	shape := plain(t, 1, 2)
	require.InDelta(t, 6, section.Volume(&shape, 3).Volume, 1e-12, "a pointer to a shape is one")
}

// Zero values answer in words or with nothing.
func TestZeroValuesDoNotPanic(t *testing.T) {
	_, err := section.Torsion{}.EdgeShear(at(0, 0))
	require.ErrorContains(t, err, "zero Torsion")
	_, err = section.Torsion{}.LargestEdgeShear(1)
	require.ErrorIs(t, err, section.ErrShape)
	_, err = section.Torsion{}.WallShear(section.Cut{}, section.Forces{})
	require.ErrorIs(t, err, section.ErrShape)
	_, err = section.Torsion{}.ShearStress(at(0, 0), section.Forces{})
	require.ErrorIs(t, err, section.ErrShape)
	_, err = section.Walls{}.Between(section.Change{Distance: 1})
	require.ErrorIs(t, err, section.ErrShape)
	_, err = section.Walls{}.Across(section.Cut{})
	require.ErrorIs(t, err, section.ErrShape)
	lips := trough
	lips.Lip.Thickness = 0
	_, err = lips.Shape()
	require.ErrorContains(t, err, "Trough.Lip.Thickness = 0 m with Outer = 0.2 m")
	_, err = section.Ways{}.Lengths([]section.Point{{}}, nil)
	require.ErrorIs(t, err, section.ErrShape)
	require.Zero(t, section.Sectorial{}.Tension(section.Plane{Constant: 1}, 1))
	require.Zero(t, section.Shape{}.Above(1))
	require.Empty(t, section.Shape{}.Chords(1))
	require.Zero(t, section.Shape{}.Mirrored().Properties())
	force, area := section.Shape{}.TensionForce(section.Plane{Constant: 1})
	require.Zero(t, force+area)
}

// Without a direction there is no line: all concrete lies beyond an offset of zero
// or less, none beyond a positive one.
func TestBeyondWithoutADirection(t *testing.T) {
	shape := hollow(t)
	require.InDelta(t, 4, shape.Beyond(section.Point{}, 0).Area, 1e-12)
	require.InDelta(t, 4, shape.Beyond(section.Point{}, -3).Area, 1e-12)
	require.Zero(t, shape.Beyond(section.Point{}, 1e-9))
}
