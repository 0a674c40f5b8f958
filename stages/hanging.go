package stages

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// rollCheck is the check of the restraint of an element about its axis. A suspended one
// may be free to turn if its roll axis is above its centre of gravity; one that is may
// not.
func (r *run) rollCheck(s *situation, b int) []checked {
	a := s.acts[b]
	if a.rollHeld || a.suspended && s.Slender != nil { // see rollingChecks
		return nil
	}
	c := checked{Check: Check{Kind: limits.Roll, Name: string(limits.Roll), LimitState: limits.Equilibrium, Sense: limits.AtLeast, Source: formula.Mechanics, X: a.supports[0].X}}
	switch {
	case a.suspended:
		return []checked{r.hanging(s, b)}
	case a.onAxis:
		c.State, c.Note = NotEvaluated, "the supports are on one line along the element: they carry in the vertical plane only; state the supports across"
	default:
		c.State, c.Note = Fail, "nothing restrains the element about its axis, each line of supports acts at one point across: must be at least one pair that is not linked"
	}
	return []checked{c}
}

// rollAxis is the place at x of the axis about which an element turns on lift points
// that do not restrain it: the line through the first and the last of the points, hooks
// and middles of linked points at which it hangs. Slings that are not side by side turn
// on their lift points, however high their hook is.
func (a *arrangement) rollAxis(x float64) section.Point {
	var first, last r3.Vec
	for n, c := range a.columns(nil) {
		var at r3.Vec
		for _, i := range c.members {
			p := a.supports[i]
			q := r3.Vec{X: p.X, Y: p.Y, Z: p.Z}
			if p.Hook != nil && a.sideBySide(c.members) {
				q = r3.Vec{X: p.Hook.X, Y: p.Hook.Y, Z: p.Hook.Z}
			}
			at = r3.Add(at, r3.Scale(1/float64(len(c.members)), q))
		}
		if n == 0 || at.X < first.X {
			first = at
		}
		if n == 0 || at.X > last.X {
			last = at
		}
	}
	t := 0.0
	if last.X > first.X {
		t = (x - first.X) / (last.X - first.X)
	}
	at := r3.Add(first, r3.Scale(t, r3.Sub(last, first)))
	return section.Point{Y: at.Y, Z: at.Z}
}

// sideBySide is true for lift points of a hook that are not all at one y.
func (a *arrangement) sideBySide(members []int) bool {
	return slices.ContainsFunc(members, func(i int) bool {
		return math.Abs(a.supports[i].Y-a.supports[members[0]].Y) > rankTolerance
	})
}

// rolls are the angles about x that an element can have: as stated both ways, and
// for one that hangs free to turn about the angle at which its centre of gravity,
// and with transverse actions the resultant, is under the roll axis.
func (p *progress) rolls(s *situation, of *body, on []Support, stayed []Action) ([]float64, error) {
	trial := &arrangement{body: of, supports: on}
	free := rankOf(trial.columns(nil)) < 3 && !slices.ContainsFunc(on, func(q Support) bool { return !q.suspends() })
	if !free {
		return bothWays(s.Roll), nil
	}
	mass := massOf(p.run.partsOf(of))
	axis := trial.rollAxis(mass.X)
	hang, err := section.Hang(axis, section.Point{Y: mass.Y, Z: mass.Z})
	if err != nil { // the check of the roll axis fails in words
		return bothWays(s.Roll), nil
	}
	low, turning := 1.0, 0.0
	for _, k := range of.pieces {
		least, _ := p.run.tolerance(p.run.girder.Pieces[k].WeightGroup)
		low = math.Min(low, least)
	}
	for _, a := range append(slices.Clone(stayed), s.Actions...) {
		if a.Direction == Transverse && !slices.Contains(s.Off, a.Mark) {
			least, most := a.presence()
			turning += math.Abs(math.Max(-least, most) * a.Loads.Total() * (a.Z - axis.Z))
		}
	}
	swing := math.Atan2(turning, low*s.dynamic[0]*mass.Weight*math.Hypot(axis.Y-mass.Y, axis.Z-mass.Z))
	if s.Roll+swing == 0 {
		return []float64{hang.Tilt}, nil
	}
	return []float64{hang.Tilt, hang.Tilt - s.Roll - swing, hang.Tilt + s.Roll + swing}, nil
}

// hanging is the check of an element that hangs free to turn: its roll axis, at
// the level of the lift points or of the hooks, above its centre of gravity.
func (r *run) hanging(s *situation, b int) checked {
	a := s.acts[b]
	mass := massOf(r.partsOf(a.body))
	axis, off := a.rollAxis(mass.X), r.girder.offset(mass.X) // of the axis of a curved girder
	above, err := formula.Derive(formula.Q("h_roll", 0, formula.Metre, "height of the roll axis above the centre of gravity"), "z_axis - z_G", formula.Mechanics,
		formula.Q("z_axis", axis.Z, formula.Metre, "of the roll axis"), formula.Q("z_G", mass.Z, formula.Metre, "of the centre of gravity"))
	if err != nil {
		return unevaluated(limits.Roll, a.supports[0].X, err.Error())
	}
	height := above.Result
	limit := limits.Limit{
		Kind: limits.Roll, Name: string(limits.Roll), LimitState: limits.Equilibrium, Sense: limits.AtLeast, Source: formula.Mechanics,
		Line:  formula.Given(formula.Q("h_min", 0, formula.Metre, "the element overturns below it"), formula.Mechanics),
		Scale: formula.Q("h_scale", math.Max(math.Abs(height.Value), 1), formula.Metre, "height"),
	}
	c := checked{Check: NewCheck(limit, height)}
	c.X, c.Place = a.supports[0].X, fmt.Sprintf("roll axis at %s", pointWords(section.Point{Y: axis.Y - off, Z: axis.Z}))
	c.proof = &lineProof{lines: []formula.Line{above, limit.Line}}
	if height.Value <= 0 {
		c.State = Fail
		return c
	}
	line, err := formula.Derive(formula.Q("θ_hang", 0, formula.Radian, "angle of the suspended element"), "(y_axis - y_G)/h_roll", formula.Mechanics,
		formula.Q("y_axis", axis.Y-off, formula.Metre, "of the roll axis"), formula.Q("y_G", r.rounded(mass.Y-off), formula.Metre, "of the centre of gravity"), height)
	if err == nil {
		c.proof = &lineProof{lines: []formula.Line{above, line, limit.Line}}
	}
	return c
}
