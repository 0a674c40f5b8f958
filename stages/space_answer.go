package stages

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// answer is the effect of a load on a way, with the stiffness of a section where that
// matters.
func (r *run) answer(a *arrangement, w *way, l *load, state *ledger.State) (*answer, error) {
	if !a.elastic {
		state = nil
	}
	for _, known := range w.answers {
		if known.load == l && known.state == state {
			return known, nil
		}
	}
	modulus := l.modulus
	if modulus == 0 {
		modulus = a.modulus
	}
	loads, on := l.at(w.up), state
	if l.began != nil {
		loads = l.net(w)
	}
	if len(loads.Points)+len(loads.Lines)+len(loads.Strains) == 0 && l.level == nil && l.rise == nil && l.preload == nil && !l.held {
		on, modulus = a.state, a.modulus // nothing, on whatever section
	}
	of, err := r.space(a, w, on, modulus, false)
	if err != nil {
		return nil, err
	}
	setting := of.setting(a, l)
	if l.began != nil {
		setting.Preload = nil // among the loads, so that what is in balance has no effect
	}
	response, err := of.space.Solve(loads, setting)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", l.name, err)
	}
	found := &answer{load: l, state: state, response: response, vertical: of.upwards(a, response), couples: of.couplesOf(response)}
	for _, i := range w.set {
		if l.began != nil {
			found.vertical[i] += l.began[i]
		}
	}
	if len(of.hooks) > 0 {
		if found.slung, err = of.space.Solve(of.slung(a, w, response.Reactions()), beam.Setting{}); err != nil {
			return nil, fmt.Errorf("%s: %w", l.name, err)
		}
	}
	w.answers = append(w.answers, found)
	return found, nil
}

// setting is the levels and preloads that come with a load.
func (of *spaceOf) setting(a *arrangement, l *load) beam.Setting {
	var g beam.Setting
	if level := l.levels(); level != nil {
		g.Level = make([]float64, of.number)
		for i, at := range of.vertical {
			if at >= 0 {
				g.Level[at] = level[i]
			}
		}
	}
	if l.began != nil {
		g.Preload = make([]float64, of.number)
		for i, at := range of.vertical {
			if at >= 0 {
				g.Preload[at] = l.began[i]
			}
		}
	}
	if l.held {
		g.Preload = make([]float64, of.number)
		for i, at := range of.vertical {
			if s := a.supports[i]; at >= 0 && (s.Held || a.elastic) {
				g.Preload[at] = math.Abs(s.Preload)
			}
		}
	}
	if l.preload != nil {
		g.Preload = make([]float64, of.number)
		for i, at := range of.vertical {
			if at >= 0 {
				g.Preload[at] = l.preload[i] * a.supports[i].along()
			}
		}
	}
	return g
}

// upwards are the forces of the supports, N, upwards.
func (of *spaceOf) upwards(a *arrangement, response *beam.SpaceResponse) []float64 {
	forces := make([]float64, len(a.supports))
	reactions := response.Reactions()
	for i, at := range of.vertical {
		if at < 0 {
			continue
		}
		forces[i] = reactions[at] * of.part[i]
		if a.supports[i].sense() < 0 {
			forces[i] = -forces[i]
		}
	}
	return forces
}

// couplesOf are the couples that the supports put on the element, N·m, right hand.
func (of *spaceOf) couplesOf(response *beam.SpaceResponse) []r3.Vec {
	couples := make([]r3.Vec, len(of.turns))
	reactions := response.Reactions()
	for i, turns := range of.turns {
		for _, turn := range turns {
			couples[i] = r3.Add(couples[i], r3.Scale(reactions[turn.number], turn.about))
		}
	}
	return couples
}

// influence is the force of a support (N, upwards) under 1 N downwards at x on the
// line of action of a part: by the reciprocity of Betti how far that place rises
// when the support is moved by 1 m along its force.
func (r *run) influence(a *arrangement, w *way, support int) (func(part, float64) (float64, error), error) {
	of, err := r.space(a, w, a.state, a.modulus, false)
	if err != nil {
		return nil, err
	}
	moved := make([]float64, of.number)
	moved[of.vertical[support]] = 1
	response, err := of.space.Solve(beam.SpaceLoads{}, beam.Setting{Level: moved})
	if err != nil {
		return nil, err
	}
	sense := of.part[support]
	if a.supports[support].sense() < 0 {
		sense = -sense
	}
	return func(p part, x float64) (float64, error) {
		y, z := p.lineAt(x)
		shift, turn := response.Move(x - a.body.from)
		return sense * r3.Dot(w.up, r3.Add(shift, r3.Cross(turn, r3.Vec{Y: y, Z: z}))), nil
	}, nil
}

// given is what a part of the weight gives to the supports (N, upwards), kept.
func (r *run) given(a *arrangement, w *way, p *part) ([]float64, error) {
	if known, ok := w.given[p]; ok {
		return known, nil
	}
	forces, err := r.carry(a, w, p)
	if err != nil {
		return nil, err
	}
	if w.given == nil {
		w.given = map[*part][]float64{}
	}
	w.given[p] = forces
	return forces, nil
}

// carry is what any part gives to the supports (N, upwards).
func (r *run) carry(a *arrangement, w *way, p *part) ([]float64, error) {
	of, err := r.space(a, w, a.state, a.modulus, false)
	if err != nil {
		return nil, err
	}
	response, err := of.space.Solve(along([]part{*p}, a.body.from, r3.Scale(-1, w.up)), beam.Setting{})
	if err != nil {
		return nil, err
	}
	return of.upwards(a, response), nil
}
