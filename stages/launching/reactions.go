package launching

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// Range is the smallest and the largest value.
type Range struct{ Least, Most float64 }

// Received is what a leg receives from its gantry, along gravity, positive downwards on
// the leg, without the preload of bars (N). Bars of the leg pull where it is negative.
type Received struct {
	Leg, On string
	X       float64 // m
	Nominal Range   // over the move, all factors 1, without wind
	Force   Range   // with tolerance, dynamic factors and wind: characteristic
	Linear  bool    // no leg lifts off in any case: effects add up
	Most    []Effect
	Least   []Effect
}

// Effect is the part of one cause in an extreme force of a leg.
type Effect struct {
	Cause  string
	Force  float64 // nominal, N
	Factor float64
}

// standing is a gantry on its legs at a place, without those that are lost. Two legs
// are solved as if they could pull: a negative force is what turns it over. Of more, a
// leg without bars lifts off.
func (g Gantry) standing(p Position, at float64, lost int) (*beam.Beam, bool, error) {
	layout := beam.Layout{Length: g.Length, Stiffness: g.Stiffness}
	if layout.Stiffness == nil {
		layout.Stiffness = []beam.Stretch{{BendingStiffness: 1e12}} // of no effect: two legs are determinate
	}
	lifts := false
	for i, s := range p.Stands {
		if i == lost {
			continue
		}
		contact := s.Bars == nil && len(p.Stands)-min(1, lost+1) > 2
		lifts = lifts || contact
		layout.Supports = append(layout.Supports, beam.Support{At: s.X - at, Stiffness: g.leg(s.Leg).Stiffness, Contact: contact})
	}
	b, err := beam.New(layout)
	return b, lifts, err
}

// Reactions are what the legs receive, the extremes over the move and over all corners
// of the factors. The error wraps [ErrLaunching]; it says so when the gantry cannot stand.
func (g Gantry) Reactions(p Position) ([]Received, error) {
	if err := g.ready(p); err != nil {
		return nil, err
	}
	return g.reactions(p, g.causes(p), -1)
}

func (g Gantry) reactions(p Position, causes []cause, lost int) ([]Received, error) {
	list := make([]Received, 0, len(p.Stands))
	for i, s := range p.Stands {
		if i != lost {
			none := Range{math.Inf(1), math.Inf(-1)}
			list = append(list, Received{Leg: s.Leg, On: s.On, X: s.X, Nominal: none, Force: none, Linear: true})
		}
	}
	for _, at := range p.ends() {
		b, lifts, err := g.standing(p, at, lost)
		if err != nil {
			return nil, fmt.Errorf("%w: position %q: %w", ErrLaunching, p.Name, err)
		}
		if err := g.corners(b, lifts, causes, list); err != nil {
			return nil, fmt.Errorf("%w: position %q: %w", ErrLaunching, p.Name, err)
		}
	}
	return list, nil
}

// corners widens the forces of the legs by every corner of the factors: where no leg can
// lift off by the parts of the causes, which add up, else by solving each.
func (g Gantry) corners(b *beam.Beam, lifts bool, causes []cause, list []Received) error {
	parts, err := g.parts(b, lifts, causes)
	if err != nil {
		return err
	}
	forces := func(factors []float64) ([]float64, error) {
		if parts == nil {
			return solved(b, causes, factors)
		}
		sums := make([]float64, len(list))
		for i := range sums {
			for n := range causes {
				sums[i] += factors[n] * parts[n][i]
			}
		}
		return sums, nil
	}
	factors := make([]float64, len(causes))
	for i, c := range causes {
		factors[i] = 1
		if c.either {
			factors[i] = 0
		}
	}
	nominal, err := forces(factors)
	if err != nil {
		return err
	}
	for i := range list {
		list[i].Nominal = Range{math.Min(list[i].Nominal.Least, nominal[i]), math.Max(list[i].Nominal.Most, nominal[i])}
		list[i].Linear = list[i].Linear && !lifts
	}
	for corner := range 1 << len(causes) {
		for i, c := range causes {
			factors[i] = c.of.Least
			if corner>>i&1 == 1 {
				factors[i] = c.of.Most
			}
		}
		force, err := forces(factors)
		if err != nil {
			return err
		}
		for i := range list {
			l := &list[i]
			if force[i] > l.Force.Most {
				l.Force.Most, l.Most = force[i], effects(causes, factors, parts, i)
			}
			if force[i] < l.Force.Least {
				l.Force.Least, l.Least = force[i], effects(causes, factors, parts, i)
			}
		}
	}
	return nil
}

// solved are the forces of the legs under causes with factors (N).
func solved(b *beam.Beam, causes []cause, factors []float64) ([]float64, error) {
	var set loads.Set
	for i, c := range causes {
		set = set.And(c.load.Scaled(factors[i]))
	}
	r, err := b.Solve(set)
	if err != nil {
		return nil, err
	}
	list := make([]float64, len(r.Reactions))
	for i, at := range r.Reactions {
		list[i] = at.Force
	}
	return list, nil
}

// parts are what the legs get of each cause alone (N); nil where a leg may lift off.
func (g Gantry) parts(b *beam.Beam, lifts bool, causes []cause) ([][]float64, error) {
	if lifts {
		return nil, nil
	}
	var list [][]float64
	for _, c := range causes {
		r, err := solved(b, []cause{c}, []float64{1})
		if err != nil {
			return nil, err
		}
		list = append(list, r)
	}
	return list, nil
}

// effects are the parts of the causes in the force of a leg; none where they do not add up.
func effects(causes []cause, factors []float64, parts [][]float64, leg int) (list []Effect) {
	if parts == nil {
		return nil
	}
	for i, c := range causes {
		list = append(list, Effect{c.name, parts[i][leg], factors[i]})
	}
	return list
}

// Nose is how far the front end of the gantry is below the straight line through its two
// foremost legs (m, positive down), under its nominal weights: at the end of a roll,
// where it lands. The error wraps [ErrLaunching]: Gantry.Stiffness is not stated, or the
// gantry cannot stand.
func (g Gantry) Nose(p Position) (float64, error) {
	if err := g.ready(p); err != nil {
		return 0, err
	}
	if g.Stiffness == nil {
		return 0, fmt.Errorf("%w: field Gantry.Stiffness is not stated: must be stated for the deflection of the nose", ErrLaunching)
	}
	ends := p.ends()
	at := ends[len(ends)-1]
	b, _, err := g.standing(p, at, -1)
	if err != nil {
		return 0, fmt.Errorf("%w: position %q: %w", ErrLaunching, p.Name, err)
	}
	var set loads.Set
	for _, c := range g.causes(p) {
		if !c.either {
			set = set.And(c.load)
		}
	}
	r, err := b.Solve(set)
	if err != nil {
		return 0, fmt.Errorf("%w: position %q: %w", ErrLaunching, p.Name, err)
	}
	n := len(p.Stands)
	rear, front := p.Stands[n-2].X-at, p.Stands[n-1].X-at
	at1, at2 := r.Deflection(rear), r.Deflection(front)
	return at1 + (at2-at1)*(g.Length-rear)/(front-rear) - r.Deflection(g.Length), nil
}
