package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// releasedIn are the pretensioned strands that are released from the bed in situation k of
// stage i.
func (a *author) releasedIn(i, k int) []string {
	before := a.before(i, k)
	var marks []string
	for _, t := range a.record.Stages[i].Situations[k].Tendons {
		if a.tendonOf(t.Mark).Pretensioned && !slices.ContainsFunc(before, func(u stages.TendonForce) bool { return u.Mark == t.Mark }) {
			marks = append(marks, t.Mark)
		}
	}
	return marks
}

// releases is true for a stage in which strands are released from the bed.
func (a *author) releases(i int) bool {
	for k := range a.record.Stages[i].Situations {
		if len(a.releasedIn(i, k)) > 0 {
			return true
		}
	}
	return false
}

// releaseSequence is the numbered list of operations of a stage in which strands are
// released from the bed and no tendon is stressed.
func (a *author) releaseSequence(i int) list {
	var points []prose
	for k, s := range a.record.Stages[i].Situations {
		if len(a.releasedIn(i, k)) == 0 {
			points = append(append(points, a.situationHead(i, k)), a.steps(s)...)
			continue
		}
		points = append(append(points, a.stressingHead(i, k).and(plain, ".")), a.releasePoints(i, k)...)
	}
	return list{points: append(append(points, pointsOf(a.movements(i))...), words("Close out this sheet below.")), numbered: true}
}

// releasePoints are what is done to release the strands of a situation: the calculation has
// them released all at once.
func (a *author) releasePoints(i, k int) []prose {
	marks := a.releasedIn(i, k)
	if len(marks) == 0 {
		return nil
	}
	stage, movement := a.record.Stages[i], ""
	if moves := a.shape(a.movesBefore(stage, k), stage.Situations[k]); moves != "" {
		movement = " Movement expected: " + moves
	}
	record := bold("Release of "+strings.Join(marks, ", ")+": ").and(plain, "record of the bed checked (signed) ____________"+a.bedStress(stage.Situations[k])+". Nobody beside or behind strands under tension.")
	return []prose{
		record,
		words("Release at both ends: " + tick + "by jacks, all together and gradually " + tick + "by cutting, one by one and symmetrically, in the order ____________________ (stated by the engineer). A crack or a slip halfway: stop, hold, call the engineer. Then cut the strands at the ends."),
		words("Before the element is moved look at both ends: every strand for slip, at most ____ " + a.shortUnit() + " (specification), the concrete for cracks. Beyond it: leave the element on its supports, call the engineer." + movement),
	}
}

// bedStress is what the record of the bed must show of the strands released in a situation.
func (a *author) bedStress(s stages.SituationRecord) string {
	var jacking, before said
	for _, event := range s.Events {
		for _, l := range a.linesOf(event.Lines) {
			text := a.units.quantity(l.Result.Value, l.Result.Unit)
			switch {
			case l.Result.Unit != formula.Pascal || !strings.Contains(event.Title, "pretensioned"):
			case l.Result.Symbol == "σ_0":
				jacking.once(text)
			case l.Result.Symbol == "σ_p":
				before.once(text)
			}
		}
	}
	if len(jacking) == 0 || len(before) == 0 {
		return ""
	}
	return ": jacked to " + jacking.or() + ", " + before.or() + " assumed just before release"
}
