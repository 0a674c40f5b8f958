package main

import (
	"fmt"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

const falseworkRecipe = "recipes/falsework.py: force method, one redundant"

// falseworks are checks on a span that is cast in place: three rows under the equivalent
// loads of a parabolic tendon, its middle row that unloads and lifts off.
func falseworks() (rows []Check) {
	for _, c := range []struct{ q, stiffness, middle, end float64 }{
		{3, 30e3, 48.9898519627, 35.5050740186}, {3, 300e3, 39.6261521212, 40.1869239394}, {14, 60e3, 0, 60},
	} {
		name := fmt.Sprintf("beam of 12 m cast on three rows of %g MN/m, then %g kN/m upwards between its ends", c.stiffness/1e3, c.q)
		for _, of := range []struct {
			row   string
			first int
			value float64
		}{{"force of the middle row", 2, c.middle}, {"force of an end row", 0, c.end}} {
			check := Check{Name: name + ": " + of.row, Package: "stages", Ours: func() (float64, error) { return onThreeRows(c.q*1e3, c.stiffness*1e3, of.first) }}
			rows = append(rows, check.from(ClosedForm, falseworkRecipe).is(of.value, "kN", 1e-8*60, "1e-8 of the largest force: the recipe prints 12 digits"))
		}
	}
	return rows
}

// threeRows is a beam that has hardened on three rows, then has a load upwards; its ends stay
// on their rows.
type threeRows struct {
	on []stages.Support
	up float64 // N/m
}

// Situations are the beam as it has hardened, and loaded.
func (t threeRows) Situations(h stages.History) ([]stages.Situation, error) {
	length := h.Girder.Length()
	ends := []loads.Point{{At: 0, Force: t.up * length / 2}, {At: length, Force: t.up * length / 2}}
	load := stages.Action{Mark: "equivalent loads", Least: 1, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, length, -t.up)}, Points: ends}}
	first := stages.Situation{Name: "hardened", Age: 28, Standing: true, Phase: limits.Stressing, Cast: true, Supports: t.on}
	return []stages.Situation{first, {Name: "loaded", Age: 28, Standing: true, Phase: limits.Stressing, Actions: []stages.Action{load}}}, nil
}

// onThreeRows is the force of a row of two towers, from one of its supports on (kN).
func onThreeRows(up, stiffness float64, first int) (float64, error) {
	shape, err := section.New([]section.Outline{{{Y: -0.25, Z: 0}, {Y: 0.25, Z: 0}, {Y: 0.25, Z: 0.8}, {Y: -0.25, Z: 0.8}}}, nil)
	if err != nil {
		return 0, err
	}
	element := stages.Element{Mark: "C", Length: 12, Section: shape, Concrete: concrete.EN1992{Fck: 40e6, Cement: concrete.ClassR}, WeightTolerance: loads.PlusMinus(0)}
	on := stages.Elastic(stiffness/2, stages.Pads(0.2, 0, 6, 12)...)
	for i := range on {
		on[i].Role = stages.Falsework
	}
	analysis, err := stages.Plan{threeRows{on, up}}.Analyse(element, limits.EN1992{})
	if err != nil {
		return 0, err
	}
	effects, err := analysis.Effects(1, 2)
	if err != nil {
		return 0, err
	}
	return (effects.Reactions[first].Nominal + effects.Reactions[first+1].Nominal) / 1e3, nil
}
