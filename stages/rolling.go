package stages

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/beam/roll"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// rolling is an element that rolls and bends sideways, solved.
type rolling struct {
	result roll.Result
	lines  []formula.Line
	seated *roll.Seated // nil: it hangs
	has    formula.Line // height of the roll axis, roll stiffness
	kern   float64      // m; 0 for none
}

// rollingChecks are those of an element that rolls and bends sideways: one that hangs free
// to turn, and one on supports that give way.
func (r *run) rollingChecks(s *situation, b int) ([]checked, []unanswered, error) {
	a := s.acts[b]
	x := a.supports[0].X
	free := a.suspended && !a.rollHeld
	switch {
	case free && s.Slender == nil:
		return []checked{unevaluated(limits.RollOverturning, x, "the element hangs free to turn: state its sweep and the offset of its lift points (Slender)")}, nil, nil
	case a.suspended && !free, s.Slender == nil:
		return r.rigidRoll(s, b), nil, nil
	}
	of, err := r.slimOf(s, b)
	var rolls rolling
	switch {
	case err != nil:
	case free:
		rolls, err = of.hung(s, a)
	default:
		rolls, err = of.seated(s, a)
	}
	if err != nil {
		return []checked{unevaluated(limits.RollOverturning, x, err.Error())}, nil, nil
	}
	return r.rolled(s, b, rolls)
}

// hung is the roll of an element that hangs free to turn.
func (of slim) hung(s *situation, a *arrangement) (rolling, error) {
	axis := a.rollAxis(of.mass.X)
	h := roll.Hung{
		Girder: of.girder, Left: of.left, Right: of.right, Axis: axis.Z - of.mass.Z, Offset: s.Slender.Offset + math.Abs(axis.Y-of.mass.Y), Wind: of.wind,
	}
	result, err := h.Solve()
	if err != nil {
		return rolling{}, err
	}
	lines, err := h.Lines()
	return rolling{result: result, lines: lines, has: formula.Given(formula.Q("h_a", h.Axis, formula.Metre, "height of the roll axis above the centre of gravity of the straight girder"), formula.Mechanics)}, err
}

// seated is the roll of an element on what gives way.
func (of slim) seated(s *situation, a *arrangement) (rolling, error) {
	seat := s.Slender.Seat
	if seat == nil {
		var err error
		if seat, err = a.rollingSeat(of.mass.X); err != nil {
			return rolling{}, err
		}
	}
	d := roll.Seated{
		Girder: of.girder, Left: of.left, Right: of.right, Stiffness: seat.Stiffness, CrossFall: s.Roll, Height: of.mass.Z - of.middle.Z + seat.Below,
		RollCentre: seat.RollCentre, HalfBase: seat.HalfBase, Kern: seat.Kern, Offset: s.Slender.Offset + math.Abs(of.middle.Y-of.mass.Y), Wind: of.wind,
	}
	if d.Wind.Force > 0 {
		d.Wind.Height += d.Height
	}
	has := stiffnessOf(seat)
	if b := s.Slender.Braces; b != nil {
		var err error
		if has, err = b.with(seat.Stiffness); err != nil {
			return rolling{}, err
		}
		d = b.braced(d)
	}
	result, err := d.Solve()
	if err != nil {
		return rolling{}, err
	}
	lines, err := d.Lines()
	return rolling{result, lines, &d, has, d.Kern}, err
}

// stiffnessOf is the line of the roll stiffness of supports.
func stiffnessOf(seat *RollingSeat) formula.Line {
	line := formula.Given(formula.Q("K", seat.Stiffness, formula.NewtonMetrePerRadian, "roll stiffness of all supports together"), formula.Source{Document: "input"})
	if seat.sum != "" {
		line.Source, line.Note = formula.Mechanics, seat.sum
	}
	return line
}

// rollingSeat is what elastic supports side by side resist a roll with: K = Σ k·(y − y0)²
// of those that are not linked, about the middle of all. Linked ones carry their part of
// the weight, with its centre at x (m), and no moment: the resultant of all may lie off by
// the part of the others of their distance.
func (a *arrangement) rollingSeat(x float64) (*RollingSeat, error) {
	var middle, total float64
	for _, p := range a.supports {
		if p.Stiffness == 0 {
			return nil, errors.New("nothing says how the supports give way when the element rolls: state their stiffness, or Slender.Seat")
		}
		middle, total = middle+p.Stiffness*p.Y, total+p.Stiffness
	}
	seat := &RollingSeat{HalfBase: math.Inf(1), sum: "sum of stiffness × (y − middle)² of the supports that are not linked"}
	for _, p := range a.supports {
		off := p.Y - middle/total
		seat.HalfBase = math.Min(seat.HalfBase, math.Abs(off))
		if p.Group == "" {
			seat.Stiffness += p.Stiffness * off * off
		}
	}
	if seat.Stiffness == 0 {
		return nil, errors.New("the supports are linked or on one line: nothing resists a roll")
	}
	part, err := a.unlinked(x)
	if err != nil {
		return nil, err
	}
	seat.HalfBase *= part
	seat.Kern = seat.HalfBase // beyond it a support lifts
	return seat, nil
}

// unlinked is the part of the weight, with its centre at x (m), on lines of supports that
// are not linked.
func (a *arrangement) unlinked(x float64) (float64, error) {
	if !slices.ContainsFunc(a.supports, func(p Support) bool { return p.Group != "" }) {
		return 1, nil
	}
	lines := a.linesAcross()
	if len(lines) != 2 {
		return 0, fmt.Errorf("roll on %d lines of supports, of which some are linked, is not evaluated: must be two", len(lines))
	}
	part := 0.0
	for i, line := range lines {
		linked := slices.ContainsFunc(a.supports, func(p Support) bool { return p.Group != "" && math.Abs(p.X-line.X) < 1e-3 })
		if !linked {
			part += (lines[1-i].X - x) / (lines[1-i].X - line.X)
		}
	}
	return part, nil
}

// rigidRoll is the check of a rigid element on elastic supports: K above W·h.
func (r *run) rigidRoll(s *situation, b int) []checked {
	a := s.acts[b]
	mass, level, most := massOf(r.partsOf(a.body)), 0.0, 1.0
	seat, err := a.rollingSeat(mass.X)
	if err != nil || a.suspended {
		return nil // rigid supports: overturning about their line is checked
	}
	for _, p := range a.supports {
		level += p.Z / float64(len(a.supports))
	}
	for _, k := range a.body.pieces {
		_, high := r.tolerance(r.girder.Pieces[k].WeightGroup)
		most = math.Max(most, high)
	}
	needs, err := formula.Derive(formula.Q("K_rigid", 0, formula.NewtonMetrePerRadian, "roll stiffness below which a rigid element overturns"), "γ_w*W*h_G", formula.Mechanics,
		formula.Q("γ_w", most, formula.One, "weight tolerance, maximum"), formula.Q("W", mass.Weight, formula.Newton, "weight, nominal"),
		formula.Q("h_G", math.Max(0, mass.Z-level), formula.Metre, "height of the centre of gravity above the supports"))
	if err != nil {
		return []checked{unevaluated(limits.Roll, a.supports[0].X, err.Error())}
	}
	return []checked{rollLimit(a.supports[0].X, stiffnessOf(seat), needs)}
}

// rollLimit is the check of what resists a roll against the least that is stable.
func rollLimit(x float64, shown formula.Line, needs formula.Line) checked {
	has := shown.Result
	limit := limits.Limit{
		Kind: limits.Roll, Name: string(limits.Roll), LimitState: limits.Equilibrium, Sense: limits.AtLeast, Source: formula.Mechanics, Line: needs,
		Scale: formula.Q("scale", math.Max(1, math.Abs(has.Value)), has.Unit, has.Name),
	}
	c := checked{Check: NewCheck(limit, has)}
	c.X, c.Place, c.proof = x, "about the axis along the element", &lineProof{lines: []formula.Line{shown, needs}}
	return c
}

// rolled are the checks of a roll: that it is stable, the two factors, and the kern.
func (r *run) rolled(s *situation, b int, of rolling) (checks []checked, notChecked []unanswered, err error) {
	a := s.acts[b]
	x := a.supports[0].X
	symbol := "h_min"
	if of.seated != nil {
		symbol = "K_min"
	}
	needs, until := upTo(of.lines, symbol)
	stable := rollLimit(x, of.has, needs)
	stable.proof = &lineProof{lines: append([]formula.Line{of.has}, until...)}
	checks = append(checks, stable)
	for _, ask := range []struct {
		kind   limits.Kind
		demand formula.Quantity
	}{
		{limits.RollCracking, formula.Q("FS_cr", of.result.Cracking, formula.One, "factor against cracking when the element rolls")},
		{limits.RollOverturning, formula.Q("FS_f", of.result.Overturning, formula.One, "factor against overturning of the cracked element")},
	} {
		answers, not, err := r.ask(r.question(s, ask.kind, a.body.pieces[0]))
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		for _, limit := range answers {
			check := checked{Check: NewCheck(limit, ask.demand), proof: &lineProof{lines: append(showing(of.lines, ask.demand, mast), limit.Line)}}
			check.X, check.Place, check.Note = x, "the worse side", of.saved(ask.kind, limit.Line.Result.Value)
			checks = append(checks, check)
		}
	}
	if of.seated == nil && of.result.Stable {
		checks = append(checks, of.tilted(a, x))
	}
	if braces := s.Slender.Braces; braces != nil && of.seated != nil && of.result.Stable {
		check, err := braces.force(x, of.result.Tilt)
		if err != nil {
			return nil, nil, err
		}
		checks = append(checks, check)
	}
	if of.kern > 0 && of.result.Stable {
		checks = append(checks, of.inKern(x))
	}
	return checks, notChecked, nil
}

// mast is where the method comes from.
var mast = formula.Source{Document: "R. F. Mast, PCI Journal", Place: "1989 and 1993", Confirm: true}

// saved is how stiff the supports must be for a factor that is not reached.
func (of rolling) saved(kind limits.Kind, factor float64) string {
	if kind != limits.RollOverturning || of.seated == nil || of.result.Overturning >= factor {
		return ""
	}
	k, err := of.seated.StiffnessFor(factor)
	if err != nil {
		return "no roll stiffness of the supports gives this factor: brace before the slings are released"
	}
	return fmt.Sprintf("a roll stiffness of at least %.4g kN·m/rad gives this factor", math.Ceil(k/1e3))
}

// tilted is the check of the tilt at which an element hangs against that for which its
// stresses are calculated.
func (of rolling) tilted(a *arrangement, x float64) checked {
	most := 0.0
	for _, up := range a.ups {
		most = math.Max(most, math.Atan2(math.Abs(up.Y), up.Z))
	}
	limit := limits.Limit{
		Kind: limits.RollTilt, Name: string(limits.RollTilt), LimitState: limits.Serviceability, Sense: limits.AtMost, Source: formula.Mechanics,
		Line:  formula.Given(formula.Q("θ_calc", most, formula.Radian, "roll for which the stresses are calculated: that of the stage, of the lift points off the centre of gravity and of the swing in wind"), formula.Source{Document: "input"}),
		Scale: formula.Q("scale", 0.01, formula.Radian, "tilt"),
	}
	rest := formula.Q("θ", of.result.Tilt, formula.Radian, "tilt at rest")
	c := checked{Check: NewCheck(limit, rest), proof: &lineProof{lines: append(showing(of.lines, rest, mast), limit.Line)}}
	c.X, c.Place = x, "the worse side"
	return c
}

// inKern is the check of the resultant against the kern of the supports.
func (of rolling) inKern(x float64) checked {
	limit := limits.Limit{
		Kind: limits.RollKern, Name: string(limits.RollKern), LimitState: limits.Equilibrium, Sense: limits.AtMost, Source: formula.Mechanics,
		Line: formula.Given(formula.Q("s_kern", of.kern, formula.Metre, "kern of the supports"), formula.Mechanics),
	}
	shift := formula.Q("s_R", of.result.Seat.Shift, formula.Metre, "distance of the resultant from the middle of the supports")
	c := checked{Check: NewCheck(limit, shift)}
	c.X, c.Place, c.Note = x, "the worse side", "beyond it the roll stiffness is no longer linear"
	c.proof = &lineProof{lines: append(showing(of.lines, shift, mast), limit.Line)}
	return c
}

// upTo are the line of a symbol and the lines up to it.
func upTo(lines []formula.Line, symbol string) (formula.Line, []formula.Line) {
	for i, l := range lines {
		if l.Result.Symbol == symbol {
			return l, lines[: i+1 : i+1]
		}
	}
	return formula.Line{}, nil
}

// showing are lines that end with a quantity: with a line of it where none gives it.
func showing(lines []formula.Line, q formula.Quantity, source formula.Source) []formula.Line {
	for _, l := range lines {
		if l.Result.Symbol == q.Symbol {
			return lines[:len(lines):len(lines)]
		}
	}
	return append(lines[:len(lines):len(lines)], formula.Given(q, source))
}
