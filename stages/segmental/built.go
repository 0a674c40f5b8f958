package segmental

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Built is a deck calculated through its steps.
type Built struct {
	Girder   stages.Girder
	Plan     stages.Plan
	Analysis *stages.Analysis
	Record   stages.Record // with the table of [Built.Moves] behind its stages
	Moves    []MoveResult  // in the order of the plan
}

// MoveResult is what governs after a move.
type MoveResult struct {
	Step, Move int // from 1
	Name       string
	Day        float64 // of the project, d

	Joint          string  // with the smallest margin against tension; "" where none acts
	Tension, Limit float64 // there, Pa, tension +
	Bounded        bool    // a tendon near a joint has not spread: a bound is left to a document

	Epoxied                 string  // joint that the move presses; "" for none
	EpoxyMean, EpoxyMinimum float64 // pressure on it, Pa
	Piers                   []PierResult
}

// PierResult is what a pier receives from a free cantilever after a move.
type PierResult struct {
	Pier                    string
	Vertical, Along, Across float64 // of weights and equipment, nominal: N; N·m, + where the right arm, the left side goes down
	Largest                 float64 // magnitude of the out-of-balance moment in the worst combination of the rule, N·m
	LeastRow                float64 // smallest force of a row in these, N, negative where it pulls; of a built-in pier 0
	Tie                     float64 // force of ties at a row with which the wanted factor is met in service, N; of a built-in pier 0
}

// Build calculates a deck through its steps on supports, see [Deck.Plan], against a
// standard, and writes the record with a table of what governs after each move. The error wraps
// [ErrSegmental] or that of [stages.Plan.Analyse].
func (d Deck) Build(on []stages.Support, standard limits.Standard, steps ...Step) (Built, error) {
	var b Built
	var err error
	if b.Girder, err = d.Girder(); err != nil {
		return b, err
	}
	var wrong error
	b.Plan, err = d.plan(on, func(step, move int, after *state, m Move) {
		piers, err := after.pierResults(m, standard)
		if err != nil && wrong == nil {
			wrong = err
		}
		b.Moves = append(b.Moves, MoveResult{Step: step + 1, Move: move + 1, Name: m.words(), Day: after.day, Piers: piers})
	}, steps...)
	if err == nil {
		err = wrong
	}
	if err != nil {
		return b, err
	}
	if b.Analysis, err = b.Plan.Analyse(b.Girder, standard); err != nil {
		return b, err
	}
	if b.Record, err = b.Analysis.Record(); err != nil {
		return b, err
	}
	if err := d.read(&b, steps); err != nil {
		return b, err
	}
	return b, b.Record.Append(b.result(d))
}

// standing is the balance without working load and wind.
func (b Balance) standing() Balance {
	b.Parts = slices.DeleteFunc(slices.Clone(b.Parts), func(p Part) bool { return p.Kind == limits.Personnel || p.Kind == limits.Wind })
	return b
}

// pierResults are what the piers of free cantilevers receive after a move.
func (s *state) pierResults(m Move, standard limits.Standard) (list []PierResult, err error) {
	for _, p := range s.deck.Piers {
		if !s.free(p) {
			continue
		}
		b, err := s.balance(p, m)
		if err != nil {
			return nil, err
		}
		k, err := p.under(b, s.deck.Rule, standard)
		if err != nil {
			return nil, err
		}
		nominal, err := b.standing().Nominal()
		if err != nil {
			return nil, err
		}
		of := PierResult{Pier: p.Mark, Vertical: nominal.Vertical, Along: nominal.Along, Across: nominal.Across, LeastRow: math.Inf(1)}
		for _, c := range k.combinations {
			for _, side := range [2]float64{-1, 1} {
				of.Largest = max(of.Largest, b.most(c, func(r Resultant) float64 { return side * r.Along }).Value)
				if p.Rows == 0 {
					continue
				}
				of.LeastRow = min(of.LeastRow, -b.most(c, func(r Resultant) float64 { return side*r.Along/p.Rows - r.Vertical/2 }).Value)
				if c.characteristic {
					of.Tie = max(of.Tie, b.most(c, k.turned(k.wanted())(side)).Value/p.Rows)
				}
			}
		}
		if p.Rows == 0 {
			of.LeastRow = 0
		}
		list = append(list, of)
	}
	return list, nil
}

// read takes what the record says of joints and pressures into the results of the moves.
func (d Deck) read(b *Built, steps []Step) error {
	n := 0
	for i, stage := range b.Record.Stages {
		if i >= len(steps) || len(stage.Situations) != len(steps[i].Moves) {
			return fmt.Errorf("%w: step %d has %d situations: must be one for each of its moves", ErrSegmental, i+1, len(stage.Situations))
		}
		for k, s := range stage.Situations {
			of := &b.Moves[n]
			n++
			for _, j := range s.Joints {
				if j.Checked && (of.Joint == "" || j.Margin() < of.Limit-of.Tension) {
					of.Joint, of.Tension, of.Limit = j.Name, j.Tension, j.Limit
				}
			}
			if m := steps[i].Moves[k]; m.Do == Attach {
				if err := d.pressures(b, i, k, m, of); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// pressures are those on the epoxy of the joint that a move has closed.
func (d Deck) pressures(b *Built, step, move int, m Move, of *MoveResult) error {
	e, err := b.Analysis.Effects(step+1, move+1)
	if err != nil {
		return err
	}
	s := d.begin(nil)
	i, err := s.one(m)
	if err != nil || d.joint(max(i, s.inner(i))) != stages.Epoxied {
		return err
	}
	checks, err := d.pressed(e, b.Girder, s.jointOf(i), m.Segments[0])
	if err != nil || len(checks) < 2 {
		return err
	}
	of.Epoxied, of.EpoxyMean, of.EpoxyMinimum = s.jointOf(i), checks[0].Demand.Value, checks[1].Demand.Value
	return nil
}
