package main

import (
	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// pair is two half beams of one bed, seated, matched, stitched and loaded.
func pair() (stages.Record, error) {
	left, err := beam("H-12L", +1)
	if err != nil {
		return stages.Record{}, err
	}
	right, err := beam("H-12R", -1)
	if err != nil {
		return stages.Record{}, err
	}
	shape, err := section.New([]section.Outline{{{Y: -0.2, Z: 1.40}, {Y: 0.2, Z: 1.40}, {Y: 0.2, Z: 1.60}, {Y: -0.2, Z: 1.60}}}, nil)
	if err != nil {
		return stages.Record{}, err
	}
	concrete, err := mix(shape, 3)
	if err != nil {
		return stages.Record{}, err
	}
	stitch := stages.Element{
		Mark: "S-12", Length: length, Section: shape, Cast: 60, WeightTolerance: loads.PlusMinus(0.03), Concrete: concrete, LongTerm: concrete,
		Bars: []stages.BondedBars{{To: length, At: section.Point{Z: 1.45}, Area: 1000e-6}, {To: length, At: section.Point{Z: 1.55}, Area: 1000e-6}},
	}
	girder := stages.Girder{Mark: "H-12", Pieces: []stages.Piece{{Element: left}, {Element: right}, {Element: stitch, Later: true, Joint: stages.Monolithic}}}
	mass, err := left.CentreOfGravity()
	if err != nil {
		return stages.Record{}, err
	}
	plan, err := joined(mass.Y)
	if err != nil {
		return stages.Record{}, err
	}
	return plan.Run(girder, standard)
}

// joined is what the pair goes through from the release of both on.
func joined(y float64) (stages.Plan, error) {
	both := func(at func(y float64) []stages.Support) []stages.Support {
		other := at(-y)
		for i := range other {
			if other[i].Group != "" {
				other[i].Group += ", right half"
			}
		}
		return append(at(y), other...)
	}
	bearings := func(side float64) []stages.Support {
		list, _ := stages.Bearings(side, 600*unit.Mega, 14*unit.Mega, 0.4, length-0.4) // both stiffnesses are in range
		return list
	}
	deck := stages.Action{
		Mark: "deck concrete and parapets", Kind: stages.Imposed, Z: 1.6, Least: 1, Most: 1, Stays: true,
		Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, length, 14*unit.Kilo)}},
	}
	return stages.Plan{
		onDay{2, stages.Transfer{Pretension: append(released("L"), released("R")...), On: both(func(y float64) []stages.Support { return across(y, 0.5, 0.3, length-0.3) })}},
		onDay{40, stages.Seat{Name: "both halves on their bearings", On: both(bearings), OutOfLevel: 2 * unit.Milli}},
		stages.Stitch{
			Day: 60, Joined: 67, Pieces: []string{"S-12"}, On: both(bearings), OutOfLevel: 2 * unit.Milli,
			Match: stages.Match{Level: 10 * unit.Milli, Gap: 15 * unit.Milli, Pull: 150 * unit.Kilo, Bars: 2000e-6, Stress: 200 * unit.Mega, Document: "invented drawing EL-H-45"},
		},
		onDay{74, stages.Seat{Name: "deck on the joined section", Actions: []stages.Action{deck}, On: both(bearings), OutOfLevel: 2 * unit.Milli}},
	}, nil
}

// onDay is a stage on a day of the project: the elements are not of one age.
type onDay struct {
	day   float64
	stage stages.Stage
}

// Situations are those of the stage on the day.
func (o onDay) Situations(h stages.History) ([]stages.Situation, error) {
	list, err := o.stage.Situations(h)
	for i := range list {
		list[i].Day, list[i].Age = o.day, 0
	}
	return list, err
}
