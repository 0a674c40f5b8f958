package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// atLast is the age of the stitch at which shrinkage counts as final, 100 years (d).
const atLast = 36500

// shrunk are the checks of the bars along each element of the stitch: what it shrinks
// more than the halves makes a tie force in it, relaxed by its own creep.
func (t Stitch) shrunk(h History) ([]OwnCheck, error) {
	area, halves := 0.0, []Piece{}
	for _, p := range h.Girder.Pieces {
		if slices.Contains(h.Added, p.Element.Mark) {
			halves = append(halves, p)
			area += p.Element.Section.At(p.Element.Length / 2).Properties().Area
		}
	}
	var list []OwnCheck
	for _, p := range h.Girder.Pieces {
		if !slices.Contains(t.Pieces, p.Element.Mark) {
			continue
		}
		lines, err := t.tie(p, halves, area)
		if err != nil {
			return nil, fmt.Errorf("stitch: %s: %w", p.Element.Mark, err)
		}
		source := formula.Source{Document: t.Match.Document}
		limit := limits.Limit{
			Kind: limits.StitchTie, Name: string(limits.StitchTie), LimitState: limits.Serviceability, Sense: limits.AtMost, Source: source,
			Line: formula.Given(formula.Q("σ_bars_max", t.Match.Stress, formula.Pascal, "permissible stress in the bars along the stitch"), source),
		}
		if lines == nil || t.Match.Bars == 0 {
			list = append(list, OwnCheck{Check: Check{
				Kind: limits.StitchTie, Name: string(limits.StitchTie), State: NotEvaluated, Sense: limits.AtMost, X: p.At, Place: p.Element.Mark,
				Note: "state the bars (Stitch.Match.Bars) and a model of shrinkage of halves and stitch (Element.LongTerm)",
			}})
			continue
		}
		bars, err := formula.Derive(formula.Q("σ_bars", 0, formula.Pascal, "stress in the bars along the stitch"), "N_tie/A_bars", formula.Mechanics,
			lines[len(lines)-1].Result, formula.Q("A_bars", t.Match.Bars, formula.SquareMetre, "area of the bars along the stitch"))
		if err != nil {
			return nil, err
		}
		check := NewCheck(limit, bars.Result).Derived(append(lines, bars, limit.Line)...)
		check.X, check.Place, check.Note = p.At, p.Element.Mark, "creep of the halves under their prestress presses the stitch and is left out"
		list = append(list, check)
	}
	return list, nil
}

// tie are the lines of the tie force in an element of the stitch; none without a model of
// shrinkage of it and of the halves.
func (t Stitch) tie(p Piece, halves []Piece, area float64) ([]formula.Line, error) {
	if p.Element.LongTerm == nil {
		return nil, nil
	}
	own, err := p.Element.LongTerm.Shrinkage(atLast)
	if err != nil {
		return nil, err
	}
	least := own.Total // of the halves from the joining on, the one that shrinks least
	for _, half := range halves {
		if half.Element.LongTerm == nil {
			return nil, nil
		}
		before, err := half.Element.LongTerm.Shrinkage(t.Day - half.Element.Cast)
		if err != nil {
			return nil, err
		}
		after, err := half.Element.LongTerm.Shrinkage(t.Day - half.Element.Cast + atLast)
		if err != nil {
			return nil, err
		}
		least = min(least, after.Total-before.Total)
	}
	first := max(1, t.Joined-t.Day)
	creep, err := p.Element.LongTerm.Creep(atLast, first)
	if err != nil {
		return nil, err
	}
	modulus, err := p.Element.LongTerm.CreepModulus(first)
	if err != nil {
		return nil, err
	}
	model := formula.Source{Document: "model of creep and shrinkage of the element", Place: "as its inputs"}
	strip := p.Element.Section.At(p.Element.Length / 2).Properties().Area
	strain, err := formula.Derive(formula.Q("Δε_cs", 0, formula.One, "strain that the stitch shrinks more than the halves"), "ε_stitch - ε_half", model,
		formula.Q("ε_stitch", own.Total, formula.One, "final shrinkage of the stitch"), formula.Q("ε_half", least, formula.One, "shrinkage of the halves from the day of the stitch on"))
	if err != nil {
		return nil, err
	}
	force, err := formula.Derive(formula.Q("N_tie", 0, formula.Newton, "tie force in the stitch, uncracked, relaxed by creep"), "Δε_cs*E_st/(1 + χ*φ_st)*A_st/(1 + A_st/A_halves)", formula.Mechanics,
		strain.Result, formula.Q("E_st", modulus, formula.Pascal, "modulus of the stitch to which its creep refers"), formula.Q("χ", ageing, formula.One, "ageing coefficient"),
		formula.Q("φ_st", creep, formula.One, "creep coefficient of the stitch"), formula.Q("A_st", strip, formula.SquareMetre, "area of the stitch"),
		formula.Q("A_halves", area, formula.SquareMetre, "area of both halves"))
	return []formula.Line{strain, force}, err
}
