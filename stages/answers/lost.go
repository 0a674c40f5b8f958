package answers

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// Loss is a stage without one of its supports, ties, hangers, jacks or tendons.
type Loss struct {
	What     string       // what is lost, in words
	Suddenly float64      // factor on the reversed force of what is lost; 0: slowly
	Survived bool         // the stage passes without it
	Check    stages.Check // governing check without it
	Reserve  float64      // relative reserve without it; −1 where it is refused
	Refused  error        // why the plan cannot be run without it, as for a mechanism; nil where it can
}

// OneLost is the stage of a case with each of its supports taken out in turn, slowly and,
// for a factor above 1, suddenly: the force of the support, at its maximum, is reversed
// times the factor, at most 2. Then with each tendon taken out in turn, slowly: as one that
// has not been stressed. What is left is checked as the stage is. The error wraps
// [ErrAnswer].
func OneLost(c stages.Case, factor float64) ([]Loss, error) {
	if !(factor >= 1 && factor <= 2) {
		return nil, fmt.Errorf("%w: %s", ErrAnswer, formula.OutOfRange("factor of a sudden loss", factor, "", "", 1, 2))
	}
	list, err := situations(c)
	if err != nil {
		return nil, err
	}
	if len(list[0].Supports) == 0 {
		return nil, fmt.Errorf("%w: stage %d, %s, is on the supports of the stage before: must state its own to lose one", ErrAnswer, c.Stage, list[0].Name)
	}
	a, err := c.Plan[:c.Stage].Analyse(c.Subject, c.Standard)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrAnswer, err)
	}
	intact, err := a.Effects(c.Stage, 1)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrAnswer, err)
	}
	var losses []Loss
	var plans []stages.Plan
	for i, p := range list[0].Supports {
		what := fmt.Sprintf("%s %d, x = %.3f m, y = %.3f m", p.Role, i+1, p.X, p.Y)
		losses, plans = append(losses, Loss{What: what}), append(plans, withoutSupport(c, p, 0, 0))
		if factor > 1 && i < len(intact.Reactions) {
			losses, plans = append(losses, Loss{What: what, Suddenly: factor}), append(plans, withoutSupport(c, p, (factor-1)*reversed(intact.Reactions[i].Characteristic), p.Y))
		}
	}
	for _, mark := range stressedMarks(c) {
		losses, plans = append(losses, Loss{What: "tendon " + mark}), append(plans, withoutTendon(c, mark))
	}
	each(len(losses), func(i int) {
		l := &losses[i]
		without := c
		without.Plan = plans[i]
		l.Check, l.Reserve, l.Refused = without.Worst()
		if l.Survived = l.Refused == nil && l.Reserve >= 0; l.Refused != nil {
			l.Reserve = -1
		}
	})
	return losses, nil
}

// reversed is the force beside the weight (N, downwards) that the loss of a support gives: of one
// that pushes up its reaction downwards, of a tie upwards; the end that is larger without sign.
func reversed(reaction stages.Range) float64 {
	if -reaction.Least > reaction.Most {
		return reaction.Least
	}
	return reaction.Most
}

// withoutSupport is the plan whose stage lacks a support, with a force beside the weight
// where that was (N, downwards).
func withoutSupport(c stages.Case, lost stages.Support, force, y float64) stages.Plan {
	return stages.Altered(c.Plan, c.Stage, func(s *stages.Situation) {
		s.Supports = slices.DeleteFunc(slices.Clone(s.Supports), func(p stages.Support) bool { return p == lost })
		left := 0
		for _, p := range s.Supports {
			if p.Group == lost.Group {
				left++
			}
		}
		for i := range s.Supports { // one support of a group carries its force alone
			if p := &s.Supports[i]; left == 1 && p.Group == lost.Group {
				p.Group = ""
			}
		}
		if force != 0 {
			s.Actions = append(slices.Clone(s.Actions), stages.Action{
				Mark: "sudden loss of a support", Kind: stages.Accidental, Y: y,
				Loads: loads.Set{Points: []loads.Point{{At: lost.X, Force: force}}},
			})
		}
	})
}

// stressedMarks are the tendons that are stressed up to the stage and still there, in order.
func stressedMarks(c stages.Case) (marks []string) {
	plan := c.Plan[:c.Stage]
	for n := range plan {
		plan = stages.Altered(plan, n+1, func(s *stages.Situation) {
			for _, e := range s.Events {
				if e.Jack != nil {
					for _, m := range e.Jack.Tendons {
						if !slices.Contains(marks, m) {
							marks = append(marks, m)
						}
					}
				}
				marks = slices.DeleteFunc(marks, func(m string) bool { return slices.Contains(e.Release, m) })
			}
		})
	}
	c.Plan = plan
	if _, _, err := c.Worst(); err != nil {
		return nil
	}
	return marks
}

// withoutTendon is the plan in which a tendon is not stressed.
func withoutTendon(c stages.Case, mark string) stages.Plan {
	plan := c.Plan
	is := func(m string) bool { return m == mark }
	for n := range plan {
		plan = stages.Altered(plan, n+1, func(s *stages.Situation) {
			var events []stages.Event
			for _, e := range s.Events {
				if e.Jack != nil && slices.Contains(e.Jack.Tendons, mark) {
					jack := *e.Jack
					jack.Tendons = slices.DeleteFunc(slices.Clone(jack.Tendons), is)
					if e.Jack = &jack; len(jack.Tendons) == 0 {
						e.Jack = nil
					}
				}
				e.Grout = slices.DeleteFunc(slices.Clone(e.Grout), is)
				e.Release = slices.DeleteFunc(slices.Clone(e.Release), is)
				if e.Jack != nil || len(e.Transfer)+len(e.Release)+len(e.Grout)+len(e.Add)+len(e.Join) > 0 {
					events = append(events, e)
				}
			}
			s.Events = events
		})
	}
	return plan
}

// LossResult is the losses of a stage as a table for the sheets.
func LossResult(stage int, list []Loss) stages.ResultPart {
	table := stages.ValueTable{
		Title: "Loss of one support or tendon at a time", RowHead: "lost; governing check",
		Columns: []stages.ValueColumn{{Name: "factor on the reversed force (0: slowly)", Unit: formula.One}, {Name: "relative reserve", Unit: formula.One}},
	}
	for _, l := range list {
		name := l.What + "; " + l.Check.Name
		if l.Refused != nil {
			name = l.What + "; not stable, or refused"
		}
		table.RowNames = append(table.RowNames, name)
		table.Rows = append(table.Rows, []float64{l.Suddenly, min(l.Reserve, unlimited)})
	}
	part := stages.ResultPart{Title: fmt.Sprintf("Stage %d: one lost", stage), Notes: []string{"A negative reserve: the loss is not survived. Checked as the stage is, without accidental partial factors; a tendon is lost slowly."}}
	if len(table.Rows) > 0 {
		part.Tables = []stages.ValueTable{table}
	}
	return part
}
