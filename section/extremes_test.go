package section_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// hostile are values that a script may hold by mistake.
var hostile = []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, -1e300, 5e-324, -5e-324}

// floats visits every exported float64 that a value holds.
func floats(v reflect.Value, path string, visit func(path string, f reflect.Value)) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
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

// subject is an input, a pointer to what is made hostile, and what is asked of it.
type subject struct {
	input any
	ask   func() (any, error)
}

// answered is what is wrong with the answer: it must come soon, be finite or say in
// words what must be.
func answered(s subject) (wrong string) {
	defer func() {
		if r := recover(); r != nil {
			wrong = fmt.Sprint("panics: ", r)
		}
	}()
	start := time.Now()
	result, err := s.ask()
	switch took := time.Since(start); {
	case took > 2*time.Second:
		return fmt.Sprint("takes ", took)
	case err != nil && !(errors.Is(err, section.ErrShape) && strings.Contains(err.Error(), "must ")):
		return "has no words: " + err.Error()
	case err != nil:
		return ""
	}
	floats(reflect.ValueOf(result), "result", func(path string, f reflect.Value) {
		if v := f.Float(); wrong == "" && (math.IsNaN(v) || math.IsInf(v, 0)) {
			wrong = fmt.Sprintf("gives %s = %g", path, v)
		}
	})
	return wrong
}

// survive makes every float of every subject hostile in turn.
func survive(t *testing.T, subjects map[string]subject) {
	t.Helper()
	for name, s := range subjects {
		require.Empty(t, answered(s), name)
		_, err := s.ask()
		require.NoError(t, err, "%s as it is meant", name)
		tried := 0
		floats(reflect.ValueOf(s.input), name, func(path string, f reflect.Value) {
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
		require.GreaterOrEqual(t, tried, len(hostile), name)
	}
}

// described is everything that is found of a shape.
func described(shape section.Shape, err error) (any, error) {
	if err != nil {
		return nil, err
	}
	size, err := shape.NotionalSize(nil)
	if err != nil {
		return nil, err
	}
	walls, err := shape.Walls()
	if err != nil {
		return nil, err
	}
	results := []any{shape.Properties(), size, walls, shape.PrincipalModuli(), shape.Kern(), shape.Properties().Principal(), shape.Level(0.5), shape.Mirrored().Properties()}
	if walls.Cells == 0 {
		warping, err := walls.Warping()
		if err != nil {
			return nil, err
		}
		results = append(results, warping)
	}
	return results, nil
}

func TestHostileDimensionsOfShapes(t *testing.T) {
	grooved, kneed, full := half, usual, girder
	grooved.InnerWall = 0.12
	full.Bottom.Fillet = section.Haunch{Width: 0.05, Height: 0.05}
	kneed.LeftWebThickness, kneed.CrossFall = 0.4, 0.02
	slab := section.VoidedSlab{Width: 6, Depth: 0.9, Voids: 5, VoidDiameter: 0.55, VoidSpacing: 1.1}
	subjects := map[string]subject{}
	for _, d := range []any{&grooved, &kneed, &full, &trough, &tee, &slab} {
		subjects[fmt.Sprintf("%T", d)] = subject{d, func() (any, error) { return described(d.(drawn).Shape()) }}
	}
	outer := section.Outline{{Y: 0, Z: 0}, {Y: 2, Z: 0.1}, {Y: 2.2, Z: 1.8}, {Y: 0.1, Z: 2}}
	cell := section.Outline{{Y: 0.3, Z: 0.4}, {Y: 1.7, Z: 0.4}, {Y: 1.6, Z: 1.6}}
	by := section.Point{Y: 1, Z: 2}
	subjects["outlines"] = subject{[]section.Outline{outer, cell}, func() (any, error) {
		shape, err := section.New([]section.Outline{outer}, []section.Outline{cell})
		return described(shape, err)
	}}
	subjects["moved"] = subject{&by, func() (any, error) { return described(plain(t, 1, 2).Moved(by)) }}
	survive(t, subjects)
}

func TestHostileOutlinesInTheExactSolution(t *testing.T) {
	outer, cell := section.Outline{{Y: 0, Z: 0}, {Y: 2, Z: 0}, {Y: 1, Z: 2}}, section.Outline{{Y: 0.8, Z: 0.4}, {Y: 1.2, Z: 0.4}, {Y: 1, Z: 0.8}}
	survive(t, map[string]subject{"torsion": {[]section.Outline{outer, cell}, func() (any, error) {
		shape, err := section.New([]section.Outline{outer}, []section.Outline{cell})
		if err != nil {
			return nil, err
		}
		torsion, err := shape.Torsion()
		if err != nil {
			return nil, err
		}
		centre, err := torsion.ShearCentre(0.2)
		return []any{torsion, centre, torsion.ShearAreas(), torsion.WarpingConstant(), torsion.Warping()}, err
	}}})
}

func TestHostileArgumentsOfSections(t *testing.T) {
	shape := plain(t, 1, 2)
	var diameters, overhangs, thickness = []float64{0.1, 0.07}, []float64{1.2, 0.8}, []float64{0.3, 0.2, 0.3, 0.2}
	var circle = [4]float64{0.5, 0.4, 0.8, 0.01}
	var rounded = [6]float64{0.5, 0.4, 2, 1, 0.2, 0.01}
	hung, mass := section.Point{Y: 0, Z: 3}, section.Point{Y: 0.1, Z: 1}
	middle := rectangle(0, 0, 2, 3)
	strips := []section.Strip{{Length: 2, Thickness: 0.2}, {Length: 1, Thickness: 0.3}}
	bands := []section.Band{{From: at(-0.2, 0), To: at(0.3, 0.5)}, {From: at(-0.2, 1), To: at(0.3, 1.5)}}
	inclusions := []section.Inclusion{{At: at(0, 0.5), Area: 0.01}, section.BondedSteel(at(0, 1.5), 0.001, 6)}
	pieces := []section.Piece{{Shape: shape, ModularRatio: 1}, {Shape: shapeOf(t, []section.Outline{rectangle(-0.5, 2, 1, 0.2)}), ModularRatio: 0.8}}
	share, web := 0.5, [2]float64{20, 0.4}
	survive(t, map[string]subject{
		"circle": {&circle, func() (any, error) {
			return section.Circle(at(circle[0], circle[1]), circle[2], circle[3])
		}},
		"rounded rectangle": {&rounded, func() (any, error) {
			return section.RoundedRectangle(at(rounded[0], rounded[1]), rounded[2], rounded[3], rounded[4], rounded[5])
		}},
		"hang":        {[]*section.Point{&hung, &mass}, func() (any, error) { return section.Hang(hung, mass) }},
		"Bredt":       {[]any{&middle, &thickness}, func() (any, error) { return section.Bredt(middle, thickness...) }},
		"thin-walled": {strips, func() (any, error) { return section.ThinWalled(strips...) }},
		"web width":   {[]any{&diameters, &web[1]}, func() (any, error) { return section.WebWidth(web[1], section.NotGrouted, diameters...) }},
		"flange":      {[]any{&overhangs, &web}, func() (any, error) { return section.EffectiveWidth(web[0], web[1], overhangs...) }},
		"bands":       {bands, func() (any, error) { return shape.Without(bands...) }},
		"inclusions":  {inclusions, func() (any, error) { return shape.With(inclusions...) }},
		"pieces":      {pieces, func() (any, error) { return section.Transformed(pieces...) }},
		"exposed":     {&share, func() (any, error) { return shape.NotionalSize(func(section.Face) float64 { return share }) }},
	})
}

func TestHostileStretchesAndTapers(t *testing.T) {
	taper := section.Taper{From: 0, To: 6, Left: plain(t, 1, 2), Right: plain(t, 1, 1)}
	stepped := section.Stepped{{Until: 3, Section: plain(t, 1, 2)}, {Until: 8, Section: plain(t, 2, 2)}}
	length, x := 6.0, 2.0
	found := func(along section.Along, err error) (any, error) {
		if err != nil {
			return nil, err
		}
		return []any{along.At(x).Properties(), along.Breaks(), section.Volume(along, length), section.Areas(along, length)}, nil
	}
	survive(t, map[string]subject{
		"taper":   {[]any{&taper, &length, &x}, func() (any, error) { return found(taper.Along()) }},
		"stepped": {[]any{stepped, &length, &x}, func() (any, error) { return found(stepped.Along()) }},
	})
}

func TestHostileQuestionsOfWallsAndTorsion(t *testing.T) {
	box, err := usual.Shape()
	require.NoError(t, err)
	walls, torsion := wallsOf(t, box), torsionOf(t, box)
	cut, forces := walls.Cuts[0].Cut, section.Forces{N: 1, Vy: 2, Vz: 3, T: 4, My: 5, Mz: 6}
	change := section.Change{Distance: 1, Before: box, After: box, From: forces, To: forces}
	edge, inside, poisson, radius := at(0, 0), at(0.1, 0.1), 0.2, 0.2
	from, to := []section.Point{at(0, 0.1)}, []section.Point{at(0, 2.2), at(1, 0.1)}
	open, err := half.Shape()
	require.NoError(t, err)
	survive(t, map[string]subject{
		"across":        {&cut, func() (any, error) { return walls.Across(cut) }},
		"between":       {&change, func() (any, error) { return walls.Between(change) }},
		"between a cut": {&cut, func() (any, error) { return walls.Between(change, section.WallCut{Cut: cut}) }},
		"wall shear":    {[]any{&cut, &forces}, func() (any, error) { return torsion.WallShear(cut, forces) }},
		"shear stress":  {[]any{&inside, &forces}, func() (any, error) { return torsion.ShearStress(inside, forces) }},
		"edge shear":    {&edge, func() (any, error) { return torsion.EdgeShear(edge) }},
		"largest":       {&radius, func() (any, error) { return torsion.LargestEdgeShear(radius) }},
		"modulus":       {&radius, func() (any, error) { return torsion.Modulus(radius) }},
		"shear centre":  {&poisson, func() (any, error) { return torsion.ShearCentre(poisson) }},
		"ways":          {[]any{&from, &to}, func() (any, error) { return box.Ways().Lengths(from, to) }},
		"cut":           {&inside, func() (any, error) { return box.Across(inside) }},
		"at": {&inside, func() (any, error) {
			cut, _ := walls.At(inside)
			return []any{cut, sectorialOf(t, open).At(inside)}, nil
		}},
	})
}
