package main

import (
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/launching"
)

// launchings is every check on the full-span method: warp of four supports, self-launch
// of a gantry, hoist on three points, a carrier over a joint of spans.
func launchings() []Check {
	rows := warpedBox()
	rows = append(rows, unevenSupports()...)
	rows = append(rows, selfLaunches()...)
	return append(append(rows, hoists()...), jointOfSpans())
}

const warpRecipe = "recipes/warp.py: equilibrium and compatibility of four supports in fractions"

// onFour is a row of four supports by the recipe.
func onFour(name string, f launching.FourPoints, value float64, unit string, read func(launching.FourPoints) (float64, error)) Check {
	return Check{Name: name, Package: "stages/launching", Ours: func() (float64, error) { return read(f) }}.
		from(ClosedForm, warpRecipe).is(value, unit, same(value), "1e-9: the recipe prints 12 digits")
}

// The answers on four supports: change of the force of the third one, how far it may be out
// of the plane of the others for 5 % of a force, and until one lifts off.
var (
	perMillimetre = func(f launching.FourPoints) (float64, error) {
		w, err := f.Warp(2)
		return w.PerMetre / 1e6, err
	}
	usedUp = func(f launching.FourPoints) (float64, error) {
		p, _, err := f.Permissible(0.05)
		return p[2] * 1e3, err
	}
	liftOff = func(f launching.FourPoints) (float64, error) {
		w, err := f.Warp(2)
		return w.LiftOff * 1e3, err
	}
)

// warpedBox is a box span of 32.6 m and 719.8 t, its walls 6.0 and 5.0 m by 2.7 m between
// centre lines, 0.30, 0.28 and 0.36 m thick, 34 GPa, ν = 0.2, on packs 31.5 m and 4.5 m
// apart; and an open U, which warps without much force.
func warpedBox() []Check {
	const shear = 34e9 / 2.4
	middle := section.Outline{{Y: -2.5, Z: 0}, {Y: 2.5, Z: 0}, {Y: 3, Z: 2.7}, {Y: -3, Z: 2.7}}
	box := func(stiffness float64) launching.FourPoints {
		f := launching.FourPoints{Length: 31.5, Widths: [2]float64{4.5, 4.5}, Level: [4]float64{1765e3, 1765e3, 1765e3, 1765e3}}
		for i := range f.Stiffness {
			f.Stiffness[i] = stiffness
		}
		return f
	}
	closed := func(read func(launching.FourPoints) (float64, error)) func(launching.FourPoints) (float64, error) {
		return func(f launching.FourPoints) (float64, error) {
			j, err := section.Bredt(middle, 0.28, 0.36, 0.30, 0.36)
			if err != nil {
				return 0, err
			}
			f.Torsion = shear * j
			return read(f)
		}
	}
	var rows []Check
	for _, of := range []struct {
		packs                          string
		stiffness, change, used, lifts float64
	}{
		{"rigid packs", 0, 368.850939773, 0.239256541015, 4.78513082029},
		{"packs of 2,000 kN/mm", 2e9, 212.263647818, 0.415756541015, 8.31513082029},
		{"packs of 500 kN/mm", 500e6, 93.3608985189, 0.945256541015, 18.9051308203},
		{"packs of 100 kN/mm", 100e6, 23.4131052211, 3.76925654101, 75.3851308203},
	} {
		name := "box of 719.8 t on four " + of.packs + ", one out of the plane of the others: "
		rows = append(rows,
			onFour(name+"change of its force", box(of.stiffness), of.change, "kN/mm", closed(perMillimetre)),
			onFour(name+"distance that uses up 5 % of a force", box(of.stiffness), of.used, "mm", closed(usedUp)),
			onFour(name+"lift-off", box(of.stiffness), of.lifts, "mm", closed(liftOff)))
	}
	const quarter = 190 * tonne / 4
	open := launching.FourPoints{Length: 25, Widths: [2]float64{3.5, 3.5}, Torsion: shear * 0.044, Level: [4]float64{quarter, quarter, quarter, quarter}}
	return append(rows, onFour("open U of 190 t, J = 0.044 m⁴, on four rigid packs: change of a force", open, 2.03537414966, "kN/mm", perMillimetre))
}

// unevenSupports is four supports of unlike forces, stiffness and widths, the third one up
// or down, at last until the fourth lifts off.
func unevenSupports() []Check {
	f := launching.FourPoints{Length: 30, Widths: [2]float64{4.5, 3.2}, Torsion: 2e11, Stiffness: [4]float64{900e6, 400e6, 600e6, 250e6}, Level: [4]float64{1500e3, 1300e3, 900e3, 1100e3}}
	force := func(support int, out float64) func(launching.FourPoints) (float64, error) {
		return func(f launching.FourPoints) (float64, error) {
			forces, err := f.At(2, out)
			return forces[support] / 1e3, err
		}
	}
	const name = "four unlike supports on widths of 4.5 and 3.2 m, third one "
	return []Check{
		onFour(name+"out of plane: distance that uses up 5 % of a force", f, 0.406292839506, "mm", usedUp),
		onFour(name+"out of plane: lift-off", f, 8.12585679012, "mm", liftOff),
		onFour(name+"4 mm down: its force", f, 456.969794942, "kN", force(2, -0.004)),
		onFour(name+"30 mm up, the fourth off its support: force of the first", f, 717.777777778, "kN", force(0, 0.03)),
		onFour(name+"30 mm up, the fourth off its support: its force", f, 2000, "kN", force(2, 0.03)),
	}
}
