package main

import (
	"github.com/tempstage/tempstage/beam/roll"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// ownBows is the lateral bow of a girder whose section has no axis of symmetry,
// against beam elements in principal axes.
func ownBows() []Check {
	const recipe = "recipes/unsymmetric.py, beam elements in principal axes, numpy 1.24.2"
	const digits = "the recipe agrees for 40 and 80 elements to 1e-9; its last digit"
	bowed := func(of, name string, length, left, right, value float64, read func(roll.Result) float64) Check {
		return Check{Name: of + ": " + name, Package: "beam/roll", Source: recipe, Kind: Library, Value: value, Unit: "m", Tolerance: 2e-8 * value, Reason: digits, Ours: func() (float64, error) {
			s, err := oneWebbed()
			if err != nil {
				return 0, err
			}
			p := s.Properties()
			g := roll.Girder{Length: length, Weight: 25e3 * p.Area * length, Modulus: 33e9, Iy: p.SecondMomentY, Iz: p.SecondMomentZ, Iyz: p.ProductMoment, Cracks: 1e6}
			r, err := roll.Hung{Girder: g, Left: left, Right: right, Axis: 1}.Solve()
			return read(r), err
		}}
	}
	own := func(r roll.Result) float64 { return r.OwnBow }
	const short, long = "half-box with one web, 26 m, overhangs of 1.5 m", "half-box with one web, 31 m, overhangs of 2 and 4.5 m"
	return []Check{
		bowed(short, "mean bow laid to the side", 26, 1.5, 1.5, 0.00638152512, bow),
		bowed(short, "mean bow under the upright weight", 26, 1.5, 1.5, 0.00175688461, own),
		bowed(short, "offset without sweep", 26, 1.5, 1.5, 0.00175688461, offset),
		bowed(long, "mean bow laid to the side", 31, 2, 4.5, 0.00623201722, bow),
		bowed(long, "mean bow under the upright weight", 31, 2, 4.5, 0.00171572389, own),
		movedAside(short+", stored at 3 d: bow to the left at mid-length", 0.00317303028, func(m stages.Move) float64 { return m.Bow }).from(Library, recipe),
		movedAside(short+", stored at 3 d: sag at mid-length", 0.00723200401, func(m stages.Move) float64 { return -m.Deflection }).from(Library, recipe),
	}
}

// oneWebbed is a half-box with one web of invented sizes.
func oneWebbed() (section.Shape, error) {
	return section.New([]section.Outline{{{}, {Y: 1.25}, {Y: 1.25, Z: 1.55}, {Y: 2.3, Z: 1.55}, {Y: 2.3, Z: 1.8}, {Z: 1.8}, {Z: 1.55}, {Y: 0.9, Z: 1.55}, {Y: 0.9, Z: 0.25}, {Z: 0.25}}}, nil)
}

// movedAside is a movement of the half-box under its weight, with E of 33 GPa.
func movedAside(name string, value float64, read func(stages.Move) float64) Check {
	return Check{Name: name, Package: "stages", Value: value, Unit: "m", Tolerance: 5e-7 * value, Reason: "nodes of the library lie 5e-8 of the length inside its stretches, which moves a deflection by a few times as much",
		Ours: func() (float64, error) {
			s, err := oneWebbed()
			if err != nil {
				return 0, err
			}
			mix := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}
			state, err := mix.At(3)
			if err != nil {
				return 0, err
			}
			e := stages.Element{Mark: "H", Length: 26, Section: s, WeightTolerance: loads.PlusMinus(0), Concrete: mix}
			a, err := stages.Plan{stages.Store{Age: 3, On: stages.At(1.5, 24.5)}}.Analyse(e, limits.EN1992{})
			if err != nil {
				return 0, err
			}
			effects, err := a.Effects(1, 1)
			if err != nil {
				return 0, err
			}
			moves, err := effects.Moves()
			if err != nil {
				return 0, err
			}
			return read(moves[0].At(13)) * state.Modulus / 33e9, nil
		}}
}
