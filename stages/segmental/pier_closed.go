package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// held is true for a pier on which the deck is fixed while it is no free cantilever any more:
// a closure or a part on falsework is joined to it.
func (s *state) held(p Pier) bool {
	on := s.segmentAt(p.At)
	for _, q := range s.supports {
		if q.Fixed && q.X > s.at[on] && q.X < s.at[on+1] {
			return !s.free(p)
		}
	}
	return false
}

// closedPier is a pier below a deck that is closed on one side or on both: what it receives
// is no statics of its arms any more but follows from the deck, as the change of the internal
// forces at its support.
type closedPier struct {
	Pier
	e stages.Effects
}

// closedChecks are those of a pier below a deck that is closed: the maximum and minimum force
// of a row, ties, the moment of a built-in pier; what no field covers is a question.
func (p Pier) closedChecks(e stages.Effects, standard limits.Standard) ([]stages.OwnCheck, error) {
	k := closedPier{p, e}
	sets := []closedSet{{name: "characteristic", limitState: limits.WorkingLoad, source: formula.Source{Document: "EN 1990:2002", Place: "6.5.3, characteristic combination without ψ", Confirm: true}}}
	answers, err := standard.Limits(limits.Question{Kind: limits.Overturning, Phase: limits.Seating})
	if err != nil {
		return nil, fmt.Errorf("%w: pier %q: %w", ErrSegmental, p.Mark, err)
	}
	for _, a := range answers {
		sets = append(sets, closedSet{"equilibrium, EQU", limits.Equilibrium, a.Source, a.Factors, true})
	}
	var list []stages.OwnCheck
	for _, c := range sets {
		of := k.rowChecks
		if p.Rows == 0 {
			of = k.momentChecks
		}
		more, err := of(c)
		if err != nil {
			return nil, fmt.Errorf("%w: pier %q: %w", ErrSegmental, p.Mark, err)
		}
		list = append(list, more...)
	}
	sideways, err := k.sideways()
	if err != nil {
		return nil, fmt.Errorf("%w: pier %q: %w", ErrSegmental, p.Mark, err)
	}
	if sideways != "" {
		list = append(list, k.question(limits.LocalForce, "transverse moment and force at pier "+p.Mark+", deck closed", sideways))
	}
	if len(answers) == 0 {
		list = append(list, k.question(limits.Overturning, "equilibrium of the deck on pier "+p.Mark, "the standard gives no factors for equilibrium"))
	}
	return list, nil
}

// closedSet is one combination with its partial factors.
type closedSet struct {
	name, limitState string
	source           formula.Source
	factors          limits.Factors
	equilibrium      bool
}

// reach are the extremes of what the pier receives: vertical force times a, and moment about
// the pier axis times b, + where the right side goes down.
func (k closedPier) reach(c closedSet, a, b float64) (stages.Range, error) {
	return k.e.Jump(k.At, c.factors, func(f section.Forces) float64 { return a*f.Vz - b*f.My })
}

// sideways are the characteristic moment and force across that the pier receives; "" where there
// are none. No field of a pier covers them.
func (k closedPier) sideways() (string, error) {
	vertical, err := k.reach(closedSet{}, 1, 0)
	if err != nil {
		return "", err
	}
	moment, err := k.e.Jump(k.At, limits.Factors{}, func(f section.Forces) float64 { return f.T })
	if err != nil {
		return "", err
	}
	across, err := k.e.Jump(k.At, limits.Factors{}, func(f section.Forces) float64 { return f.Vy })
	if err != nil {
		return "", err
	}
	small := 1e-6 * max(math.Abs(vertical.Least), math.Abs(vertical.Most)) // N, or of a lever of 1 m
	if max(math.Abs(moment.Least), math.Abs(moment.Most), math.Abs(across.Least), math.Abs(across.Most)) <= small {
		return "", nil
	}
	return fmt.Sprintf("characteristic: M across %.0f to %.0f kN·m, about the axis y = z = 0 of the deck, force across %.0f to %.0f kN",
		math.Floor(moment.Least/1e3), math.Ceil(moment.Most/1e3), math.Floor(across.Least/1e3), math.Ceil(across.Most/1e3)), nil
}

// force are the lines of a row force: from both parts, at the extreme of their sum.
func (k closedPier) force(chain *formula.Chain, c closedSet, symbol, words string, most bool) (formula.Quantity, float64, error) {
	side, value := 1.0, math.Inf(-1)
	sense := 1.0
	if !most {
		sense = -1
	}
	for _, s := range [2]float64{-1, 1} {
		r, err := k.reach(c, 0.5, s/k.Rows)
		if err != nil {
			return formula.Quantity{}, 0, err
		}
		if v := max(sense*r.Least, sense*r.Most); v > value {
			side, value = s, v
		}
	}
	return chain.Given(pierForce(symbol, sense*value, words+": extreme of V/2 ± M/e, V and M the change of shear force and moment of the deck at the pier"), c.source, c.name), side, nil
}

// rowChecks are the force of the rows against what they may carry, and against uplift.
func (k closedPier) rowChecks(c closedSet) (list []stages.OwnCheck, err error) {
	up := &formula.Chain{}
	force, side, err := k.force(up, c, "R_min", "minimum force of a row", false)
	if err != nil {
		return nil, err
	}
	capacity, source := 0.0, formula.Mechanics
	if k.Ties != nil {
		capacity, source = k.tied(), formula.Source{Document: k.Ties.Document}
		if c.equilibrium { // what resists, with its favourable factor
			capacity *= min(1, c.factors.Filled().WeightLeast)
		}
	}
	resists := up.Given(pierForce("F_res", capacity, "resistance of the ties of a row, with the favourable factor of weights in equilibrium"), source, "")
	pull := up.Derive(pierForce("F_up", 0, "pull at the row"), "max(0, -R_min)", formula.Mechanics, force)
	limit := limits.Limit{Kind: limits.Overturning, Name: "uplift at a row of pier " + k.Mark + ", deck closed", LimitState: c.limitState, Sense: limits.AtMost, Source: source, Line: formula.Given(resists, source), Scale: pierForce("F_scale", math.Max(1e3, math.Abs(force.Value)), "force of the row")}
	check, err := k.finished(limit, pull, side, c, up)
	if err != nil {
		return nil, err
	}
	list = append(list, check)
	if c.equilibrium {
		return list, nil
	}
	if k.Row == 0 {
		return append(list, k.question(limits.LocalForce, "rows of bearings of pier "+k.Mark, "no permissible force of a row is stated")), nil
	}
	down := &formula.Chain{}
	if force, side, err = k.force(down, c, "R", "maximum force of a row", true); err != nil {
		return nil, err
	}
	if k.Ties != nil {
		force = down.Derive(pierForce("R_max", 0, "force of the row with the preload of its ties"), "R + n_T*P_T", formula.Mechanics, force,
			formula.Q("n_T", float64(k.Ties.Number), formula.One, "ties at each row"), pierForce("P_T", k.Ties.Preload, "preload of each tie"))
	}
	of := formula.Source{Document: k.Document}
	permissible := down.Given(pierForce("R_perm", k.Row, "permissible force of a row"), of, "")
	check, err = k.finished(limits.Limit{Name: "force of a row of bearings of pier " + k.Mark + ", deck closed", LimitState: c.limitState, Sense: limits.AtMost, Source: of, Line: formula.Given(permissible, of)}, force, side, c, down)
	return append(list, check), err
}

// momentChecks are the moment of a pier that is built in.
func (k closedPier) momentChecks(c closedSet) ([]stages.OwnCheck, error) {
	r, err := k.reach(c, 0, 1)
	if err != nil {
		return nil, err
	}
	if k.Moment == 0 {
		words := fmt.Sprintf("%s: moment of the fixing %.0f to %.0f kN·m", c.name, math.Floor(r.Least/1e3), math.Ceil(r.Most/1e3))
		return []stages.OwnCheck{k.question(limits.Overturning, "fixing of the deck on pier "+k.Mark+", deck closed", words)}, nil
	}
	chain, source := &formula.Chain{}, formula.Source{Document: k.Document}
	demand := chain.Given(pierMoment("M_max", math.Max(math.Abs(r.Least), math.Abs(r.Most)), "moment of the fixing without sign: the change of the moment of the deck at the pier"), c.source, c.name)
	permissible := chain.Given(pierMoment("M_perm", k.Moment, "permissible moment of the pier and its fixing"), source, "")
	limit := limits.Limit{Kind: limits.Overturning, Name: "moment of pier " + k.Mark + ", deck closed", LimitState: c.limitState, Sense: limits.AtMost, Source: source, Line: formula.Given(permissible, source)}
	check, err := k.finished(limit, demand, 0, c, chain)
	return []stages.OwnCheck{check}, err
}

// finished is a check with its lines and its place.
func (k closedPier) finished(limit limits.Limit, demand formula.Quantity, side float64, c closedSet, chain *formula.Chain) (stages.OwnCheck, error) {
	lines, err := chain.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limit, demand)
	check.X, check.Place = k.At, fmt.Sprintf("pier %s at x = %.2f m", k.Mark, k.At)
	if side != 0 {
		check.Place = pierCase{Pier: k.Pier}.rowWords(side)
	}
	check.Note = c.name
	return check.Derived(lines...), nil
}

// question is what a document must answer.
func (k closedPier) question(kind limits.Kind, name, note string) stages.OwnCheck {
	return stages.OwnCheck{Check: stages.Check{Kind: kind, Name: name, State: stages.NotEvaluated, Sense: limits.AtMost, X: k.At, Place: fmt.Sprintf("pier %s at x = %.2f m", k.Mark, k.At), Note: note}}
}
