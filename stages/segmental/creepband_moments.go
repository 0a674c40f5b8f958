package segmental

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// CreepBand is the moments of a deck with less and with more creep: the whole analysis anew,
// losses of tendons included, without its checks, with the creep of every concrete times a factor.
type CreepBand struct {
	Places []float64 // x of the moments, m, within the deck; none: both sides of every pier, and the middle of every closure
	Less   float64   // factor, 0.1 to 1; 0 means 0.7 (common practice)
	More   float64   // factor, 1 to 3; 0 means 1.3 (common practice)
}

// BandMoment is the moment at one place (N·m, sagging +), about the centroid of the gross section,
// the mean prestress and its losses included.
type BandMoment struct {
	X               float64 // m
	Closed          float64 // when the last closure begins to act
	Less, End, More float64 // at the end, with less creep, with that of the models, with more
}

// Moments are the moments of a deck that is built by steps on supports. The steps close at
// least one closure; the end is that of the last one. The number of situations after the
// closure decides how near redistribution comes to superposition in time: see [Waits]. The
// error wraps [ErrSegmental] or is that of the analysis.
func (b CreepBand) Moments(d Deck, on []stages.Support, standard limits.Standard, steps ...Step) ([]BandMoment, error) {
	factors := [3]float64{b.Less, 1, b.More}
	for i, usual := range [3]float64{0.7, 1, 1.3} {
		if factors[i] == 0 {
			factors[i] = usual
		}
	}
	if err := within("CreepBand.", bound{"Less", factors[0], "", 0.1, 1}, bound{"More", factors[2], "", 1, 3}); err != nil {
		return nil, err
	}
	if err := d.check(); err != nil {
		return nil, err
	}
	places, err := b.places(d, on, steps)
	if err != nil {
		return nil, err
	}
	list := make([]BandMoment, len(places))
	for i, factor := range factors {
		scaled, err := d.withCreep(factor)
		if err != nil {
			return nil, err
		}
		closed, end, err := scaled.closedAndEnd(on, standard, steps)
		if err != nil {
			return nil, fmt.Errorf("with creep times %g: %w", factor, err)
		}
		for k, x := range places {
			list[k].X = x
			if factor == 1 && i == 1 {
				list[k].Closed = d.momentAt(closed, x)
			}
			*[3]*float64{&list[k].Less, &list[k].End, &list[k].More}[i] = d.momentAt(end, x)
		}
	}
	return list, nil
}

// places are those asked for, or the usual ones.
func (b CreepBand) places(d Deck, on []stages.Support, steps []Step) ([]float64, error) {
	at := d.at()
	length := at[len(at)-1]
	for i, x := range b.Places {
		if err := within("CreepBand.", bound{fmt.Sprintf("Places[%d]", i), x, "m", 0, length}); err != nil {
			return nil, err
		}
	}
	if len(b.Places) > 0 {
		return b.Places, nil
	}
	all := slices.Clone(on)
	for _, step := range steps {
		for _, m := range step.Moves {
			all = append(all, m.On...)
		}
	}
	var list []float64
	for _, s := range all {
		list = append(list, math.Max(0, s.X-beside*length), math.Min(length, s.X+beside*length))
	}
	for i, g := range d.Segments {
		if g.Type == Closure {
			list = append(list, (at[i]+at[i+1])/2)
		}
	}
	slices.Sort(list)
	return slices.Compact(list), nil
}

// beside is how far beside a support its moments are taken, as a part of the length of the deck.
const beside = 1e-6

// closedAndEnd are the effects when the last closure begins to act, and in the last situation.
func (d Deck) closedAndEnd(on []stages.Support, standard limits.Standard, steps []Step) (closed, end stages.Effects, err error) {
	plan, err := d.Plan(on, steps...)
	if err != nil {
		return closed, end, err
	}
	g, err := d.Girder()
	if err != nil {
		return closed, end, err
	}
	a, err := plan.Follow(g, standard)
	if err != nil {
		return closed, end, err
	}
	some := false
	for stage := range plan {
		for number := 1; ; number++ {
			e, err := a.Effects(stage+1, number)
			if err != nil {
				break // there are no more
			}
			if d.closes(e.Situation) && !(some && closed.Situation.Name == e.Situation.Name) {
				closed, some = e, true
			}
			end = e
		}
	}
	if !some {
		return closed, end, fmt.Errorf("%w: deck %q: no move closes a closure: must be at least one, for the moments before and after creep", ErrSegmental, d.Mark)
	}
	return closed, end, nil
}

// closes is true for a situation in which a closure of the deck begins to act.
func (d Deck) closes(s stages.Situation) bool {
	return slices.ContainsFunc(d.Segments, func(g Segment) bool {
		return g.Type == Closure && slices.ContainsFunc(s.Events, func(e stages.Event) bool { return slices.Contains(e.Join, g.Element.Mark) })
	})
}

// momentAt is the moment about the centroid of the gross section at x (m).
func (d Deck) momentAt(e stages.Effects, x float64) float64 {
	at := d.at()
	for i, g := range d.Segments {
		if x <= at[i+1] || i == len(d.Segments)-1 {
			f := e.Forces(x)
			return aboutCentroid(f, g.Element.Section.At(math.Min(math.Max(x-at[i], 0), g.Element.Length)))
		}
	}
	return math.NaN()
}

// aboutCentroid is the bending moment about the centroid of forces about y = z = 0.
func aboutCentroid(f section.Forces, shape section.Shape) float64 {
	return f.My + f.N*shape.Properties().Centroid.Z
}

// Table is the moments as a table of a calculation sheet.
func (b CreepBand) Table(moments []BandMoment) (stages.ValueTable, error) {
	if len(moments) == 0 {
		return stages.ValueTable{}, fmt.Errorf("%w: CreepBand.Table without moments: must be those of Moments", ErrSegmental)
	}
	percent := func(factor, usual float64) string {
		if factor == 0 {
			factor = usual
		}
		return strings.ReplaceAll(fmt.Sprintf("M at the end, creep %+.0f %%", 100*(factor-1)), "-", "−")
	}
	t := stages.ValueTable{Title: "Bending moments by redistribution, with a band of creep", Columns: []stages.ValueColumn{
		{Name: "x", Unit: formula.Metre}, {Name: "M at closure", Unit: formula.NewtonMetre}, {Name: percent(b.Less, 0.7), Unit: formula.NewtonMetre},
		{Name: "M at the end", Unit: formula.NewtonMetre}, {Name: percent(b.More, 1.3), Unit: formula.NewtonMetre},
	}}
	for _, m := range moments {
		t.Rows = append(t.Rows, []float64{m.X, m.Closed, m.Less, m.End, m.More})
	}
	return t, nil
}
