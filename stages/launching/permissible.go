package launching

import (
	"errors"
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Reserve is the smallest reserve of the checks of the gantry in a position, numbered from 0:
// 1 less the utilisation, negative where one fails; −998 for one that fails though its limit
// is zero, as uplift. Checks that are not evaluated have none. The error wraps [ErrLaunching].
func (l Launch) Reserve(position int, standard limits.Standard) (float64, error) {
	_, reserve, err := l.governing(position, standard)
	return reserve, err
}

// governing is the check of the gantry with the smallest reserve in a position, and that.
func (l Launch) governing(position int, standard limits.Standard) (governs stages.OwnCheck, least float64, err error) {
	if err := l.check(); err != nil {
		return governs, 0, err
	}
	if position < 0 || position >= len(l.Positions) {
		return governs, 0, fmt.Errorf("%w: position number %d: must be 0 to %d", ErrLaunching, position, len(l.Positions)-1)
	}
	checks, err := l.checks(l.Positions[position], standard)
	if err != nil {
		return governs, 0, err
	}
	least = math.Inf(1)
	for _, c := range checks {
		if c.State == stages.NotEvaluated {
			continue
		}
		reserve := 1 - c.Utilisation
		if c.Margin < 0 {
			reserve = math.Min(reserve, -1e-12)
		}
		if reserve < least {
			governs, least = c, reserve
		}
	}
	if math.IsInf(least, 1) {
		return governs, 0, fmt.Errorf("%w: no check of the gantry is evaluated in position %q: the standard must give factors for equilibrium", ErrLaunching, l.Positions[position].Name)
	}
	return governs, least, nil
}

// PermissibleWind is the greatest wind speed (m/s) in a position, numbered from 0, in the averaging time and at the
// height stated for the position, at which every check of the gantry passes, from 1 to
// 80 m/s. The error wraps [ErrLaunching]; it says so where one fails at 1 m/s.
func (l Launch) PermissibleWind(position int, standard limits.Standard) (float64, error) {
	if position < 0 || position >= len(l.Positions) {
		return 0, fmt.Errorf("%w: position number %d: must be 0 to %d", ErrLaunching, position, len(l.Positions)-1)
	}
	if l.Positions[position].Wind.Averaging == 0 {
		return 0, fmt.Errorf("%w: field Wind of position %q is not stated: must say over which time and at which height the speed counts", ErrLaunching, l.Positions[position].Name)
	}
	return l.greatest(position, standard, 1, 80, "m/s", func(p *Position, v float64) { p.Wind.Speed = v })
}

// PermissiblePlace is the place of a trolley farthest in front (m from the rear end of the
// gantry), from where it is, at which every check of the gantry passes: the limit of its
// position. The error wraps [ErrLaunching]; it says so where one fails where it is.
func (l Launch) PermissiblePlace(position, trolley int, standard limits.Standard) (float64, error) {
	if position < 0 || position >= len(l.Positions) || trolley < 0 || trolley >= len(l.Positions[position].Trolleys) {
		return 0, fmt.Errorf("%w: position number %d, trolley number %d: must be 0 to %d and 0 to %d", ErrLaunching, position, trolley, len(l.Positions)-1, len(l.Gantry.Trolleys)-1)
	}
	from := l.Positions[position].Trolleys[trolley].At
	return l.greatest(position, standard, from, l.Gantry.Trolleys[trolley].end(l.Gantry.Length), "m", func(p *Position, v float64) { p.Trolleys[trolley].At = v })
}

// greatest is the greatest value from low to high up to which the reserve of a position is
// not negative, looked for at 64 steps and then by bracketing.
func (l Launch) greatest(position int, standard limits.Standard, low, high float64, unit string, set func(*Position, float64)) (float64, error) {
	with := func(v float64) Launch {
		changed := l
		changed.Positions = append([]Position(nil), l.Positions...)
		p := &changed.Positions[position]
		p.Trolleys = append([]Placed(nil), p.Trolleys...)
		set(p, v)
		return changed
	}
	reserve := func(v float64) (float64, error) { return with(v).Reserve(position, standard) }
	const steps = 64
	before := low
	for i := range steps + 1 {
		v := low + (high-low)*float64(i)/steps
		r, err := reserve(v)
		if err != nil {
			return 0, err
		}
		if r >= 0 {
			before = v
			continue
		}
		if i == 0 {
			c, _, err := with(low).governing(position, standard)
			return 0, errors.Join(fmt.Errorf("%w: position %q: %s, %s, fails already at %g %s", ErrLaunching, l.Positions[position].Name, c.Name, c.Place, low, unit), err)
		}
		at, err := formula.Root(before, v, reserve)
		if err != nil {
			return 0, fmt.Errorf("%w: position %q: %w", ErrLaunching, l.Positions[position].Name, err)
		}
		return math.Max(before, at-1e-9*math.Max(1, math.Abs(at))), nil
	}
	return high, nil
}

// windWords say what the wind of a position is.
func (p Position) windWords() string {
	if p.Parked {
		return "speed of the storm for which it is parked, " + p.Wind.words()
	}
	return "speed, " + p.Wind.words()
}

// answers are the wind and the place of each trolley that use up the reserve of a position,
// as checks of those that are stated: what the site may not exceed.
func (l Launch) answers(position int, standard limits.Standard) (list []stages.OwnCheck, err error) {
	p := l.Positions[position]
	reserve, err := l.Reserve(position, standard)
	if err != nil || reserve < 0 {
		return nil, err // a check fails: there is nothing to permit
	}
	source := formula.Source{Document: "the checks of the gantry in this position, solved for their limit"}
	add := func(name string, limit, demand formula.Quantity, hold *stages.Hold) {
		check := stages.NewCheck(limits.Limit{Name: name, LimitState: limits.Equilibrium, Sense: limits.AtMost, Source: source, Line: formula.Given(limit, source)}, demand)
		check.X, check.Place = p.Stands[len(p.Stands)-1].X, p.Name
		own := check.Derived(formula.Given(demand, source), formula.Given(limit, source))
		own.Hold = hold
		list = append(list, own)
	}
	if p.Wind.Speed > 0 {
		wind, err := l.PermissibleWind(position, standard)
		if err != nil {
			return nil, err
		}
		speed := formula.Q("v", p.Wind.Speed, formula.MetrePerSecond, p.windWords())
		add("wind speed, "+p.Wind.words(), formula.Q("v_max", math.Floor(10*wind)/10, formula.MetrePerSecond, "permissible wind speed"), speed,
			&stages.Hold{Kind: "wind limit", Required: speed, AtMost: true, Assumed: speed}) // the element is calculated for no more
	}
	for i, t := range p.Trolleys {
		place, err := l.PermissiblePlace(position, i, standard)
		if err != nil {
			return nil, err
		}
		mark := l.Gantry.Trolleys[i].Mark
		add("place of trolley "+mark+" from the rear end", formula.Q("x_max", math.Floor(100*place)/100, formula.Metre, "permissible place of the trolley, forward"), formula.Q("x_T", t.At, formula.Metre, "place of the trolley"), nil)
	}
	return list, nil
}
