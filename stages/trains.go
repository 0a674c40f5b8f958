package stages

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// Positions of a train are looked at in steps of the girder's length over
// trainSteps, and with every axle at every place where an influence line of a
// determinate girder has a kink: supports, ends, and the eighths of the length.
const trainSteps = 40

// beside is how far beside a support an axle is looked at as well, as a part of the
// girder's length: the shear beside a support is largest with an axle just there, and none
// of one above it.
const beside = 1e-4

// rolling are the variants of a train: one entry for each position.
func (p *progress) rolling(s *situation, of *Action) error {
	if len(p.bodies) != 1 {
		return fmt.Errorf("in Actions: train %s rolls over a girder of %d bodies: must be joined to one before", of.Mark, len(p.bodies))
	}
	b, a := p.bodies[0], s.acts[0]
	if a.bounded {
		return fmt.Errorf("in Actions: train %s rolls over supports about whose sharing nothing is stated: must be stated by groups, or by Stiffness and OutOfLevel", of.Mark)
	}
	cause := p.run.newAction(of)
	for _, front := range fronts(*of.Train, b, a) {
		set := of.Train.On(b.to-b.from, front)
		if len(set.Points) == 0 {
			continue
		}
		parts := partsOf(of.Mark, set, of.Y, of.Z)
		for i := range parts {
			parts[i].from, parts[i].to, parts[i].x = parts[i].from+b.from, parts[i].to+b.from, parts[i].x+b.from
		}
		parts = p.run.girder.curved(parts)
		l := &load{name: of.Mark, parts: parts, modulus: s.concrete[b.pieces[0]].Modulus, at: func(up r3.Vec) beam.SpaceLoads { return along(parts, b.from, r3.Scale(-1, up)) }}
		name := fmt.Sprintf("%s, front at x = %.2f m", of.Mark, front+b.from)
		s.trains = append(s.trains, entry{name, a, l, s.states[0], 1, cause, nil, false, nil})
	}
	return nil
}

// fronts are the positions of the front axle, m from the left end of a body.
func fronts(t loads.Train, b *body, a *arrangement) []float64 {
	length := b.to - b.from
	kinks := []float64{0, length}
	for i := 1; i < 8; i++ {
		kinks = append(kinks, length*float64(i)/8)
	}
	for _, s := range a.supports {
		x := s.X - b.from
		kinks = append(kinks, x, math.Max(0, x-beside*length), math.Min(length, x+beside*length))
	}
	var list []float64
	behind := 0.0
	for _, axle := range t.Axles {
		behind += axle.Behind
		for _, x := range kinks {
			list = append(list, x+behind)
		}
	}
	on := math.Inf(-1) // up to where an axle is on the girder
	behind = 0
	for _, axle := range t.Axles {
		behind += axle.Behind
		from := math.Max(behind, on)
		on = behind + length
		for i := range int(math.Ceil((on-from)*trainSteps/length)) + 1 {
			list = append(list, math.Min(on, from+float64(i)*length/trainSteps))
		}
	}
	slices.Sort(list)
	return slices.CompactFunc(list, func(p, q float64) bool { return math.Abs(p-q) < 1e-6*length })
}
