package stages

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// restraint is what prestress that bends or twists a girder on supports that
// share by stiffness does to them: steps from to to of stressing.
func (p *progress) restraint(a *arrangement, state *ledger.State, from, to int) entry {
	r := p.run
	l := &load{name: "restraint of the prestress", at: func(r3.Vec) beam.SpaceLoads { return r.prestressStrains(a, state, from, to) }}
	return entry{l.name, a, l, state, 1, -1, []int{r.cause(causePrestress, "")}, true, nil}
}

// prestressStrains are the strains of a body under the prestress of some steps.
func (r *run) prestressStrains(a *arrangement, state *ledger.State, from, to int) beam.SpaceLoads {
	var loads beam.SpaceLoads
	twist, err := r.twist(a.body)
	if err != nil {
		return loads
	}
	for k := range r.ledger.Grid() {
		p := &r.ledger.Grid()[k]
		if p.From < a.body.from || p.To > a.body.to {
			continue
		}
		var nodes [4]ledger.Curve
		size := 0.0
		for n, at := range p.At {
			e := strainOf(stiff(at.States[state.Index], a.modulus, twist, at.X), at.PrestressForces(from, to))
			for i, v := range [4]float64{e.Axial, e.CurvatureY, e.CurvatureZ, e.Twist} {
				nodes[i][n] = v
				size += math.Abs(v)
			}
		}
		if size == 0 {
			continue
		}
		loads.Strains = append(loads.Strains, beam.SpaceStrain{From: p.From - a.body.from, To: p.To - a.body.from, At: func(x float64) beam.Strain {
			share := p.Shares(x + a.body.from)
			return beam.Strain{Axial: nodes[0].Sum(&share), CurvatureY: nodes[1].Sum(&share), CurvatureZ: nodes[2].Sum(&share), Twist: nodes[3].Sum(&share)}
		}})
	}
	return loads
}
