package launching

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Launch is the self-launch of a gantry, legs of which stand on the deck of the element:
// one more stage of the plan of that element, which rests on its bearings. The other legs
// stand on piers or on other elements. Each position is a situation: the element
// receives the feet on it; the gantry is checked against overturning forward, back and
// across, its feet against uplift, sliding and rated force, its bars, also with one lost.
type Launch struct {
	Name      string  // "" means "self-launch"
	Age       float64 // of the element, d
	Gantry    Gantry
	Positions []Position // in their order, 1 to 40, each from where the one before ends
	Factor    float64    // minimum factor of safety against overturning at nominal values, 1 to 5; 0 means 1.5 (common practice)
	Sudden    float64    // factor on a force that is lost at once, 1 to 3; 0 means 2
	Piers     []Pier     // for the step pictures
	Mortar    *Mortar    // below the bearings of the element; nil: by others
	Stays     bool       // the feet stay on the element after the last position, until their marks are taken off: of leg rear of LG1 "LG1 rear, left foot", right foot, across, along
	Off       []string   // marks of actions of the element that stayed and are taken off
}

// Pier is a pier in the step pictures.
type Pier struct {
	Mark  string
	X     float64 // m
	Top   float64 // z of its top in the element's coordinates, m
	Width float64 // along, m
}

// sudden and factor are the values stated, or the usual ones.
func (l Launch) sudden() float64 { return or(l.Sudden, 2) }
func (l Launch) factor() float64 { return or(l.Factor, simpleFactor) }

// or is a value, or the usual one where it is the zero value.
func or[T comparable](value, usual T) T {
	var zero T
	if value == zero {
		return usual
	}
	return value
}

// as are supports with a role where none is stated.
func as(role stages.Role, supports []stages.Support) []stages.Support {
	list := slices.Clone(supports)
	for i := range list {
		list[i].Role = or(list[i].Role, role)
	}
	return list
}

func (l Launch) check() error {
	if l.Mortar != nil {
		if err := l.Mortar.within("Launch."); err != nil {
			return err
		}
	}
	if err := settings("Launch.", l.factor(), l.sudden(), l.Positions, l.Piers); err != nil {
		return err
	}
	for i, p := range l.Positions {
		if err := l.Gantry.ready(p); err != nil {
			return fmt.Errorf("in Positions[%d] %q: %w", i, p.Name, err)
		}
		if err := l.Gantry.blown(p); err != nil {
			return fmt.Errorf("in Positions[%d] %q: %w", i, p.Name, err)
		}
	}
	return following(l.Positions)
}

// following reports a position that does not begin where the one before it ends.
func following(positions []Position) error {
	for i := 1; i < len(positions); i++ {
		before, p := positions[i-1], positions[i]
		if ends := before.ends(); !(math.Abs(p.At-ends[len(ends)-1]) <= 1e-6) {
			return fmt.Errorf("%w: position %q begins at %g m, the one before it ends at %g m: must be the same place, what is between must be a position", ErrLaunching, p.Name, p.At, ends[len(ends)-1])
		}
	}
	return nil
}

// onBearings reports supports on which the element may not be while something passes over it.
func onBearings(h stages.History) error {
	for i, s := range h.Supports {
		if s.Role == stages.Jack || s.Role == stages.LiftPoint {
			return fmt.Errorf("%w: support %d of the element at x = %g m is a %s: must be on its bearings", ErrLaunching, i+1, s.X, s.Role)
		}
	}
	return nil
}

// settings checks what a launch and a hoist state beside their gantry.
func settings(of string, factor, sudden float64, positions []Position, piers []Pier) error {
	if err := within(of, bound{"Factor", factor, "", 1, 5}, bound{"Sudden", sudden, "", 1, 3}, bound{"Positions, number", float64(len(positions)), "", 1, 40}); err != nil {
		return err
	}
	for i, p := range piers {
		if err := within(fmt.Sprintf("Piers[%d].", i), bound{"X", p.X, "m", -1000, 1000}, bound{"Top", p.Top, "m", -100, 100}, bound{"Width", p.Width, "m", 0.1, 20}); err != nil {
			return err
		}
	}
	return nil
}

// Situations is one situation for each position, the element on its bearings. The error wraps [ErrLaunching].
func (l Launch) Situations(h stages.History) ([]stages.Situation, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	if err := onBearings(h); err != nil {
		return nil, err
	}
	mark, length := h.Element.Mark, h.Element.Length
	if len(h.Girder.Pieces) > 1 {
		mark, length = h.Girder.Mark, 0
		for _, p := range h.Girder.Pieces {
			length = math.Max(length, p.At+p.Element.Length)
		}
	}
	name := or(l.Name, "self-launch")
	deck := deck{mark, length, h.Girder}
	var list []stages.Situation
	for number, p := range l.Positions {
		actions, err := l.onDeck(p, deck)
		if err != nil {
			return nil, fmt.Errorf("in position %q: %w", p.Name, err)
		}
		list = append(list, stages.Situation{
			Name: name + ", " + p.Name, Age: l.Age, Standing: true, Phase: limits.Seating, Actions: actions, Off: l.Off,
			Check: func(e stages.Effects, standard limits.Standard) ([]stages.OwnCheck, error) {
				list, err := l.checks(p, standard)
				if err != nil {
					return nil, err
				}
				if l.Mortar != nil {
					bed, err := l.Mortar.check(e)
					if err != nil {
						return nil, err
					}
					list = append(list, bed)
				}
				answers, err := l.answers(number, standard)
				list = append(list, answers...)
				for i := range list {
					list[i].X = min(max(list[i].X, 0), length) // the nearest place of the element; Place says where the leg is
				}
				return list, err
			},
			Equip: func(_ stages.Effects, _ limits.Standard) ([]stages.EquipmentItem, error) {
				item, err := l.item([]Position{p})
				return []stages.EquipmentItem{item}, err
			},
			Draw: func(stages.Effects) []stages.Figure { return []stages.Figure{l.step(p, deck, nil)} },
		})
	}
	for i := range list {
		if i > 0 {
			list[i].Off = nil
		}
		for k := range list[i].Actions {
			list[i].Actions[k].Stays = l.Stays && i+1 == len(list)
		}
	}
	return list, nil
}

// onDeck are the feet of a position on the deck of an element as actions on it: the left
// and the right foot each with its range, horizontal forces at the top of the deck.
func (l Launch) onDeck(p Position, d deck) (list []stages.Action, err error) {
	feet, err := l.Gantry.Across(p)
	if err != nil {
		return nil, err
	}
	for _, f := range feet {
		if f.On != d.mark {
			if f.X > 0 && f.X < d.length && !slices.ContainsFunc(l.Piers, func(p Pier) bool { return p.Mark == f.On }) {
				return nil, fmt.Errorf("%w: leg %q at x = %g m, over element %s, stands on %q: must be the element or one of Piers", ErrLaunching, f.Leg, f.X, d.mark, f.On)
			}
			continue
		}
		var z float64
		for i, side := range [2]string{"left foot", "right foot"} {
			y := f.Off + f.Width/2*float64(1-2*i)
			if z, err = d.top(f.X, y); err != nil {
				return nil, fmt.Errorf("%w: %s of leg %q: %w", ErrLaunching, side, f.Leg, err)
			}
			list = append(list, ranged(l.Gantry.Mark+" "+f.Leg+", "+side, stages.Down, f.X, f.Foot, y, z))
		}
		if f.Across > 0 {
			list = append(list, ranged(l.Gantry.Mark+" "+f.Leg+", across", stages.Transverse, f.X, Range{-f.Across, f.Across}, f.Off, z))
		}
		if f.Along > 0 {
			list = append(list, ranged(l.Gantry.Mark+" "+f.Leg+", along", stages.Along, f.X, Range{-f.Along, f.Along}, f.Off, z))
		}
	}
	return list, nil
}

// deck is the element that legs stand on.
type deck struct {
	mark   string
	length float64 // m
	girder stages.Girder
}

// top is the top face of the concrete at a place (m).
func (d deck) top(x, y float64) (float64, error) {
	for _, p := range d.girder.Pieces {
		if at := x - p.At; at >= 0 && at <= p.Element.Length {
			if z, ok := p.Element.Section.At(at).Top(y); ok {
				return z, nil
			}
		}
	}
	return 0, fmt.Errorf("at x = %g m, y = %g m there is no deck of %s: must be on its top face", x, y, d.mark)
}

// ranged is a force at a place whose value has a range.
func ranged(mark string, direction stages.Direction, x float64, force Range, y, z float64) stages.Action {
	base := math.Max(math.Abs(force.Least), math.Abs(force.Most))
	a := stages.Action{Mark: mark, Kind: stages.Equipment, Direction: direction, Loads: loads.Set{Points: []loads.Point{{At: x, Force: base}}}, Y: y, Z: z, Least: force.Least / base, Most: force.Most / base}
	if a.Most == 0 {
		a.Most = 1e-12 // 0 would mean 1
	}
	return a
}
