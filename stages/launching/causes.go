package launching

import (
	"math"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/limits"
)

// cause is what acts on the gantry together, with the range of its factor.
type cause struct {
	name string
	kind limits.ActionKind // "" for its weight
	load loads.Set
	of   Range

	locked bool // a trolley that holds as a counterweight does
	either bool // it acts either way, or not at all
}

// causes are those of a position with the rear end at a place, with characteristic ranges.
func (g Gantry) causes(p Position) []cause {
	least, most, _ := g.Tolerance.Range()
	tolerance := Range{least, most}
	own := cause{name: "structure", of: tolerance}
	counter := cause{name: "counterweights", kind: limits.Counterweight, of: tolerance}
	total := 0.0
	for _, w := range g.Weights {
		total += w.Loads.Total()
		if w.Counterweight {
			counter.load = counter.load.And(w.Loads)
			continue
		}
		own.load = own.load.And(w.Loads)
	}
	for _, h := range p.Hanging {
		total += g.leg(h.Leg).Weight
		own.load = own.load.And(point(h.At, g.leg(h.Leg).Weight))
	}
	list := []cause{own}
	if counter.load.Total() > 0 {
		list = append(list, counter)
	}
	low, high, _ := p.Dynamic.Range()
	for i, t := range p.Trolleys {
		trolley := g.Trolleys[i]
		total += trolley.Weight + t.Hook
		if trolley.Weight > 0 {
			list = append(list, cause{name: "trolley " + trolley.Mark, kind: limits.Equipment, load: point(t.At, trolley.Weight), of: Range{1, 1}, locked: t.Locked})
		}
		if t.Hook > 0 {
			list = append(list, cause{name: "load on the hook of trolley " + trolley.Mark, kind: limits.Equipment, load: point(t.At, t.Hook), of: Range{low, high}})
		}
	}
	couple := func(moment float64) loads.Set {
		return loads.Set{Couples: []loads.Couple{{At: g.Length / 2, Moment: moment}}}
	}
	if down := total * math.Sin(p.Gradient) * g.Height; down != 0 {
		list = append(list, cause{name: "weight down the gradient", load: couple(down), of: Range{1, 1}})
	}
	if wind := p.Wind.pressure()*g.EndArea*g.AreaAt + p.along*g.RopeAt; wind > 0 {
		list = append(list, cause{name: "wind along", kind: limits.Wind, load: couple(wind), of: Range{-1, 1}, either: true})
	}
	if brake := g.braking(p) * g.RopeAt; brake > 0 {
		list = append(list, cause{name: "braking of trolleys", kind: limits.Braking, load: couple(brake), of: Range{-1, 1}, either: true})
	}
	return list
}

// braking is the greatest force along of all trolleys that are not locked (N).
func (g Gantry) braking(p Position) float64 {
	sum := 0.0
	for i, t := range p.Trolleys {
		if !t.Locked {
			sum += g.Trolleys[i].Brake
		}
	}
	return sum
}

// factored are causes with the factors of a limit on their ranges: nothing is favourable
// that may be absent, and a counterweight holds with its own factor.
func factored(causes []cause, f limits.Factors) []cause {
	list := make([]cause, len(causes))
	for i, c := range causes {
		least, most := f.WeightLeast, f.WeightMost
		if c.kind != "" {
			least, most = f.On(c.kind)
		}
		if c.locked {
			least, _ = f.On(limits.Counterweight)
		}
		c.of = Range{least * c.of.Least, most * c.of.Most}
		if c.either {
			c.of = Range{-most, most}
		}
		list[i] = c
	}
	return list
}
