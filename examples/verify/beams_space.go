package main

import (
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// fourPoints is a member of torsional stiffness GJ on four supports of
// stiffness k in the corners of length × width, one of them high by level, under
// the weight on each.
type fourPoints struct {
	gj, length, width, k, level, weight float64
}

// solve is the response of one-way supports.
func (f fourPoints) solve() (*beam.SpaceResponse, error) {
	box := beam.SpaceLayout{Length: f.length, Section: func(float64) beam.CrossSection {
		return beam.CrossSection{BendingY: 1e12, BendingZ: 1e12, Torsional: f.gj}
	}}
	for _, x := range []float64{0, f.length} {
		for _, y := range []float64{f.width / 2, -f.width / 2} {
			box.Supports = append(box.Supports, beam.Restraint{X: x, Y: y, Direction: r3.Vec{Z: 1}, Stiffness: f.k, OneWay: true})
		}
	}
	space, err := beam.NewSpace(box)
	if err != nil {
		return nil, err
	}
	weight := beam.SpaceLine{To: f.length, Direction: r3.Vec{Z: -1}, Intensity: []float64{4 * f.weight / f.length}}
	return space.Solve(beam.SpaceLoads{Lines: []beam.SpaceLine{weight}}, beam.Setting{Level: []float64{f.level, 0, 0, 0}})
}

// first is the change of the reaction of the high support, in kN.
func (f fourPoints) first() (float64, error) {
	r, err := f.solve()
	if err != nil {
		return 0, err
	}
	return (r.Reactions()[0] - f.weight) / 1e3, nil
}

// liftOff is the level (mm) at which the support beside the high one comes
// free: beyond it the opening grows in proportion.
func (f fourPoints) liftOff() (float64, error) {
	var opened [2]float64
	for i, level := range []float64{.2, .4} {
		f.level = level
		r, err := f.solve()
		if err != nil {
			return 0, err
		}
		gaps := r.Gaps()
		opened[i] = gaps[1] + gaps[2]
	}
	return (.2 - opened[0]*.2/(opened[1]-opened[0])) * 1e3, nil
}

// spaces is members on supports of any place: four-point support of a box.
func spaces() []Check {
	const source = "torsion of a prismatic bar on two pairs of springs: ΔR = d/(s²L/(GJ) + Σ1/k)"
	row := func(name, unit string, value, tolerance float64, reason string, ours func() (float64, error)) Check {
		return Check{
			Name: name, Package: "beam", Source: source, Kind: ClosedForm,
			Value: value, Unit: unit, Tolerance: tolerance, Reason: reason, Ours: ours,
		}
	}
	prism := fourPoints{gj: 9e10, length: 32, width: 4, level: .006, weight: 4000e3}
	springs := prism
	springs.k = 3e8
	rigid, soft := .006*9e10/(16*32)/1e3, .006/(16*32/9e10+4/3e8)/1e3
	rows := []Check{
		row("four rigid supports, 4 m and 32 m apart, GJ = 9e10 N·m², one 6 mm high: d·GJ/(s²L)", "kN", rigid, same(rigid), floatRounding, prism.first),
		row("the same on springs of 300 MN/m: d/(s²L/GJ + 4/k)", "kN", soft, same(soft), floatRounding, springs.first),
	}
	for _, w := range []struct {
		name string
		k    float64
	}{
		{"rigid supports", 0}, {"supports of 2,000 kN/mm", 2000e6}, {"supports of 500 kN/mm", 500e6}, {"supports of 100 kN/mm", 100e6},
	} {
		box := fourPoints{gj: 2.4e11, length: 31, width: 4.6, k: w.k, level: .001, weight: 1800e3}
		yielding := 0.
		if w.k > 0 {
			yielding = 4 / w.k
		}
		change := .001 / (4.6*4.6*31/2.4e11 + yielding) / 1e3 // kN for 1 mm
		const what = "box of 7200 kN, GJ = 2.4e11 N·m², on four points 31 m × 4.6 m, "
		rows = append(rows,
			row(what+w.name+": change of reaction for 1 mm of warp", "kN", change, same(change), floatRounding, box.first),
			row(what+w.name+": warp at lift-off", "mm", 1800/change, same(1800/change), floatRounding, box.liftOff))
	}
	return rows
}
