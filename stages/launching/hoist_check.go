package launching

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
)

// check reports the first field that is not as it must be.
func (h Hoist) check() error {
	if err := within("Hoist.", bound{"Stop", h.Stop, "", 0, 0.5}, bound{"Hooks, number", float64(len(h.Hooks)), "", 1, 8}); err != nil {
		return err
	}
	_, most, err := h.Dynamic.Range()
	if err != nil {
		return fmt.Errorf("%w: field Hoist.Dynamic: %w", ErrLaunching, err)
	}
	if h.Stop > most-1+1e-12 {
		return fmt.Errorf("%w: field Hoist.Stop = %g: must be at most %.4g, which the dynamic factor covers", ErrLaunching, h.Stop, most-1)
	}
	if err := h.checkHooks(); err != nil {
		return err
	}
	return h.checkPositions()
}

// checkHooks reports the first hook that cannot be as described, or a lift point on none:
// the gantry would not get its load.
func (h Hoist) checkHooks() error {
	var held []int
	on := as(stages.LiftPoint, h.On)
	for i, k := range h.Hooks {
		if err := within(fmt.Sprintf("Hooks[%d].", i), bound{"Rated", k.Rated, "N", 1e3, 20e6}); err != nil {
			return err
		}
		if len(k.Supports) == 0 {
			return fmt.Errorf("%w: field Hooks[%d].Supports is empty: must be the numbers of its lift points", ErrLaunching, i)
		}
		for _, n := range k.Supports {
			if n < 1 || n > len(on) || slices.Contains(held, n) {
				return fmt.Errorf("%w: field Hooks[%d].Supports has number %d: must be 1 to %d and on no other hook", ErrLaunching, i, n, len(on))
			}
			if role := on[n-1].Role; role != stages.LiftPoint {
				return fmt.Errorf("%w: field Hooks[%d].Supports has number %d, a %s: must be a lift point", ErrLaunching, i, n, role)
			}
			held = append(held, n)
		}
		if h.Gantry != nil && (k.Trolley < 0 || k.Trolley >= len(h.Gantry.Trolleys)) {
			return fmt.Errorf("%w: field Hooks[%d].Trolley = %d: must be 0 to %d", ErrLaunching, i, k.Trolley, len(h.Gantry.Trolleys)-1)
		}
	}
	for i, s := range on {
		if s.Role == stages.LiftPoint && !slices.Contains(held, i+1) {
			return fmt.Errorf("%w: support %d is a lift point on no hook: must be in Hooks", ErrLaunching, i+1)
		}
	}
	return nil
}

// checkPositions reports the first thing that is not as it must be for the gantry.
func (h Hoist) checkPositions() error {
	if h.Gantry == nil {
		if len(h.Positions) > 0 {
			return fmt.Errorf("%w: field Hoist.Positions without a Gantry: must be none", ErrLaunching)
		}
		return nil
	}
	l := h.launch()
	if err := settings("Hoist.", l.factor(), l.sudden(), h.Positions, h.Piers); err != nil {
		return err
	}
	for i, p := range h.Positions {
		for _, t := range p.Trolleys {
			if t.Hook != 0 {
				return fmt.Errorf("%w: Positions[%d] %q has a load on a hook: must be 0, it is what the element gives", ErrLaunching, i, p.Name)
			}
		}
		if p.Parked {
			return fmt.Errorf("%w: Positions[%d] %q is Parked: must be a position of a Launch, it has the element on its hooks", ErrLaunching, i, p.Name)
		}
		if p.Dynamic != (loads.Dynamic{}) {
			return fmt.Errorf("%w: Positions[%d] %q has a Dynamic of its own: must be none, it is that of the Hoist", ErrLaunching, i, p.Name)
		}
		if err := h.Gantry.ready(p); err != nil {
			return fmt.Errorf("in Positions[%d] %q: %w", i, p.Name, err)
		}
		if err := within("Gantry.", bound{"RopeAt", h.Gantry.RopeAt, "m", 0.1, 60}); err != nil {
			return err
		}
		if err := h.Gantry.blown(p); err != nil {
			return fmt.Errorf("in Positions[%d] %q: %w", i, p.Name, err)
		}
		if err := h.plumb(p); err != nil {
			return fmt.Errorf("in Positions[%d] %q: %w", i, p.Name, err)
		}
		if err := h.swayed(p); err != nil {
			return fmt.Errorf("in Positions[%d] %q: %w", i, p.Name, err)
		}
	}
	return following(h.Positions)
}

// shift is how far the element is in front of its place where a hook is over its lift points (m).
func (h Hoist) shift(p Position, k Hook) float64 {
	sum := 0.0
	for _, n := range k.Supports {
		sum += h.On[n-1].X
	}
	return p.At + p.Trolleys[k.Trolley].At - sum/float64(len(k.Supports))
}

// plumb reports trolleys that are not as far apart as the lift points below them.
func (h Hoist) plumb(p Position) error {
	const out = 0.1 // m
	first := h.shift(p, h.Hooks[0])
	for i, k := range h.Hooks[1:] {
		if other := h.shift(p, k); !(math.Abs(other-first) <= out) {
			return fmt.Errorf("%w: Hooks[%d] puts the element %.3f m in front of its place and Hooks[0] %.3f m: must be within %g m, trolleys as far apart as their lift points", ErrLaunching, i+1, other, first, out)
		}
	}
	return nil
}

// swayed reports an element that hangs freely without wind across, or in less than blows on
// the gantry.
func (h Hoist) swayed(p Position) error {
	for _, s := range as(stages.LiftPoint, h.On) {
		if s.Role != stages.LiftPoint {
			return nil // what carries one end holds it
		}
	}
	for _, a := range h.Actions {
		if a.Kind != stages.Wind || a.Direction != stages.Transverse {
			continue
		}
		if a.Wind != nil && a.Wind.Averaging == p.Wind.Averaging && a.Wind.Height == p.Wind.Height && a.Wind.Speed < p.Wind.Speed {
			return fmt.Errorf("%w: action %q has a wind of %g m/s, on the gantry are %g m/s: must be as much at least", ErrLaunching, a.Mark, a.Wind.Speed, p.Wind.Speed)
		}
		return nil
	}
	return fmt.Errorf("%w: field Hoist.Actions has no wind across on the element, on the gantry are %g m/s: must be stated, the gantry takes both", ErrLaunching, p.Wind.Speed)
}
