package segmental

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// LostHanger is a span whose hangers share when one pair is lost at once: without it, and
// with its force reversed times the dynamic part above that as an accidental action. Made
// by [HangerLost].
type LostHanger struct {
	Age     float64
	Hangers Hangers
	Jacks   []stages.Support // as in the situation before
	Lost    string           // mark of the pair
	Loss    stages.Action    // from stages.Effects.Loss
}

// Situations is the span without the pair, a transient situation. The error wraps
// [ErrSegmental].
func (l LostHanger) Situations(h stages.History) ([]stages.Situation, error) {
	on, err := l.Hangers.joined(h, l.Jacks)
	if err != nil {
		return nil, err
	}
	at, err := l.Hangers.index(l.Lost)
	if err != nil {
		return nil, err
	}
	return []stages.Situation{{
		Name: "hanger " + l.Lost + " lost", Age: l.Age, Phase: limits.Stressing, Supports: slices.Delete(on, at, at+1), Actions: []stages.Action{l.Loss},
		Check: func(e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
			return l.Hangers.worst(h.Girder, e)
		},
		Equip: func(e stages.Effects, _ limits.Standard) ([]stages.EquipmentItem, error) {
			return l.Hangers.items(e), nil
		},
		Draw: func(e stages.Effects) []stages.Figure { return l.Hangers.forces(e) },
	}}, nil
}

// index is the place of a pair in List.
func (h Hangers) index(mark string) (int, error) {
	i := slices.IndexFunc(h.List, func(one Hanger) bool { return one.Mark == mark })
	if i < 0 {
		return 0, fmt.Errorf("%w: hanger %q: must be the mark of one in Hangers.List", ErrSegmental, mark)
	}
	return i, nil
}

// HangerLost is the stage after a plan in which a pair of hangers is lost at once: each is
// tried, and the one kept after which the stage has the least reserve. The factor is the
// dynamic part above the force at rest, above 0 and at most 1 on an elastic structure. The
// jacks are those of the last situation of the plan; documents are those that cover the
// stage, see stages.Covered. The error wraps [ErrSegmental].
func HangerLost(subject stages.Subject, plan stages.Plan, standard limits.Standard, h Hangers, factor float64, documents ...stages.Document) (LostHanger, error) {
	if err := h.check(subject.Girder()); err != nil {
		return LostHanger{}, err
	}
	if !(factor > 0 && factor <= 1) {
		return LostHanger{}, fmt.Errorf("%w: loss of a hanger: factor = %g: must be above 0, at most 1", ErrSegmental, factor)
	}
	a, err := plan.Analyse(subject, standard)
	if err != nil {
		return LostHanger{}, err
	}
	e, err := lastOf(a, len(plan))
	if err != nil {
		return LostHanger{}, fmt.Errorf("%w: loss of a hanger: %w", ErrSegmental, err)
	}
	var worst LostHanger
	least, found := 0.0, false
	for i, k := range h.hung(e) {
		if k < 0 {
			return LostHanger{}, fmt.Errorf("%w: hanger %s is not in the last situation of the plan, %q", ErrSegmental, h.List[i].Mark, e.Situation.Name)
		}
		loss, err := e.Loss(k, factor)
		if err != nil {
			return LostHanger{}, fmt.Errorf("%w: hanger %s: %w", ErrSegmental, h.List[i].Mark, err)
		}
		one := LostHanger{Age: e.Situation.Age, Hangers: h, Lost: h.List[i].Mark, Loss: loss}
		for _, s := range e.Situation.Supports {
			if s.Role != stages.LiftPoint {
				one.Jacks = append(one.Jacks, s)
			}
		}
		_, margin, err := append(slices.Clone(plan), stages.Covered(one, documents...), asBefore(one.Age)).Margin(subject, standard, len(plan)+1)
		if err != nil {
			return LostHanger{}, fmt.Errorf("%w: hanger %s lost: %w", ErrSegmental, h.List[i].Mark, err)
		}
		if !found || margin < least {
			worst, least, found = one, margin, true
		}
	}
	return worst, nil
}

// asBefore is a stage at an age in which the span is where it was: what follows a trial.
type asBefore float64

// Situations is the span on the supports of the last standing situation.
func (age asBefore) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{Name: "as before", Age: float64(age), Standing: true, Phase: limits.Storing}}, nil
}

// lastOf are the effects of the last situation of a stage.
func lastOf(a *stages.Analysis, stage int) (e stages.Effects, err error) {
	for n := 1; ; n++ {
		next, nextErr := a.Effects(stage, n)
		if nextErr != nil {
			if n == 1 {
				err = nextErr
			}
			return e, err
		}
		e = next
	}
}
