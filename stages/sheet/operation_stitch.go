package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// stitched is the situation of a stage, from 0, in which a stitch cast between elements that
// stand side by side joins them; −1 where none does, or where elements are joined end to end.
func (a *author) stitched(stage stages.StageRecord) int {
	return slices.IndexFunc(a.joinings(stage), func(j joining) bool { return j.sideBySide() })
}

// joining is a situation with the one before it.
type joining struct{ before, after stages.SituationRecord }

// joinings are the situations of a stage, each with the one before it in the record.
func (a *author) joinings(stage stages.StageRecord) []joining {
	var list []joining
	var last stages.SituationRecord
	for _, of := range a.record.Stages {
		for _, s := range of.Situations {
			if of.Number == stage.Number {
				list = append(list, joining{last, s})
			}
			last = s
		}
	}
	return list
}

// sideBySide is true where two bodies that stood side by side, supported over a common
// length, are one.
func (j joining) sideBySide() bool {
	if len(j.after.Joined) == 0 {
		return false
	}
	for i, p := range j.before.Bodies {
		for k, q := range j.before.Bodies[:i] {
			if overlaps(j.before.Reactions, i+1, k+1) && j.as(p, q) {
				return true
			}
		}
	}
	return false
}

// as is true where the elements of two bodies act as one afterwards.
func (j joining) as(p, q stages.BodyRecord) bool {
	if len(j.after.Bodies) == 0 {
		return true
	}
	return slices.ContainsFunc(j.after.Bodies, func(b stages.BodyRecord) bool {
		return slices.ContainsFunc(p.Elements, func(mark string) bool { return slices.Contains(b.Elements, mark) }) &&
			slices.ContainsFunc(q.Elements, func(mark string) bool { return slices.Contains(b.Elements, mark) })
	})
}

// overlaps is true where the supports of two bodies reach over a common length.
func overlaps(reactions []stages.Reaction, one, other int) bool {
	from, to, any := [2]float64{}, [2]float64{}, [2]bool{}
	for _, r := range reactions {
		for n, body := range [2]int{one, other} {
			if r.Body != body {
				continue
			}
			if !any[n] {
				from[n], to[n], any[n] = r.X, r.X, true
			}
			from[n], to[n] = min(from[n], r.X), max(to[n], r.X)
		}
	}
	return any[0] && any[1] && max(from[0], from[1]) < min(to[0], to[1])
}

// matching is what is done before a stitch has its strength: the halves matched, the stitch
// cast and cured.
func (a *author) matching(stage stages.StageRecord) []string {
	s := stage.Situations[a.stitched(stage)]
	marks := strings.Join(s.Joined, ", ")
	return []string{
		"First brace both halves: braced they stay, nothing on the deck but the pour, until the stitch has its strength.",
		"Measure levels of both halves and the gap along all of the stitch, at ____ places. " + a.pulledLevel(stage) + " A limit still exceeded: do not cast, call the engineer.",
		"Before concrete is ordered: joint faces clean, rough, damp; shutter tight, carried by both halves alike; bars as drawn (checked ____________).",
		"Cast " + marks + " in one pour, compact; watch levels and shutter: a half that moves stops the pour. Cure; joined on project day " + days(s.Day, up) + " at the earliest.",
	}
}

// pulledLevel is with what force halves may be pulled level; where the calculation has none
// they are not.
func (a *author) pulledLevel(stage stages.StageRecord) string {
	for _, c := range checksOf(stage) {
		if c.Kind == limits.PullForce && numeric(c) {
			return "Pull them level, if so: with at most " + a.units.safe(c.Limit.Value, formula.Newton, limits.AtMost) + ", by ____________; hold it until the stitch has its strength."
		}
	}
	return "Nothing is pulled level: the calculation has no force for it."
}

// hardened is what is done when a stitch has its strength.
const hardened = "The strength of the stitch verified and signed: take off what pulls level, in steps, then the shutter, then the braces in the order ____________, released by the engineer (signed, time) ____________. Read every support; only then load the deck."

// stitchSequence is the list of operations of a stage in which a stitch joins two halves.
func (a *author) stitchSequence(i int) []prose {
	stage := a.record.Stages[i]
	joins := a.stitched(stage)
	var points []prose
	for k, s := range stage.Situations {
		if k == 0 && joins == 0 {
			points = pointsOf(a.matching(stage))
		}
		head := a.situationHead(i, k)
		if k == 0 && a.alikeReadings(restingAlike(stage)) { // in a table with every support
			head = bold(numbered(stage, k)+" "+s.Name).and(plain, ", on the supports listed below")
		}
		switch k {
		case joins:
			points = append(points, head.and(plain, ". "+hardened))
		case joins - 1:
			steps := a.matching(stage)
			points = append(append(points, head.and(plain, ". "+steps[0])), pointsOf(steps[1:])...)
		default:
			points = append(append(points, head), a.steps(s)...)
		}
	}
	return points
}

// stitchBlanks are what is written down of a stitch.
var stitchBlanks = []string{
	"Greatest level difference measured, at x", "Least and greatest gap measured, at x", "Pulled level by, force, at x",
	"Pour: date, from, to; lighting at night", "Mix, deliveries, slump, temperature", "Curing: how, until", "Cubes: numbers, cured where, tested on",
}

// stitchStop is when work on a stitch stops.
const stitchStop = "a half, a brace or the shutter moves, or the pour is interrupted"

// stays is true for a stage in which nothing is set down: the element, or the halves of a
// stitch, stay where they stood.
func (a *author) stays(stage stages.StageRecord) bool {
	return !slices.ContainsFunc(a.joinings(stage), func(j joining) bool { return !samePlaces(j.after, j.before) })
}

// unread is true for a stage in which the element only stands where it stood, on bearings:
// nothing is set down, and no gauge is there.
func (a *author) unread(stage stages.StageRecord) bool {
	other := func(s stages.SituationRecord) bool {
		return limits.Phase(s.Phase) != limits.Seating || len(s.Events)+len(s.Joined)+len(s.Added) > 0 || slices.ContainsFunc(s.Supports, func(p stages.Support) bool { return p.Role != stages.Bearing })
	}
	return a.stays(stage) && !slices.ContainsFunc(stage.Situations, other)
}
