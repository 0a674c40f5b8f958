package segmental

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Pier is what carries the out-of-balance of a balanced cantilever: two rows of bearings,
// packs or props, with or without vertical ties, or a pier that is built in. Forces of rows
// follow by statics, V/2 ± M/e; ties do not share before their preload is used up.
//
// Neglected: horizontal forces along and sliding, the stiffness of ties and pier, second-order
// effects, bearings within a row.
type Pier struct {
	Mark     string
	At       float64 // x of its axis, m
	Rows     float64 // distance of the two rows of bearings, packs or props, m, 0.2 to 30; 0: built in (monolithic or fixed by the designer)
	Row      float64 // permissible force of a row by Document, N, 1e3 to 1e9; 0: a document must cover it
	Ties     *Ties   // vertical ties at each row; nil: none
	Moment   float64 // permissible out-of-balance moment of pier and fixing by Document, N·m, 1e3 to 1e11; 0: a document must cover it
	Factor   float64 // wanted factor on the out-of-balance moment M, V·e/(2·|M|), with ties (V·e/2 + T·e)/|M|, on characteristic actions, 1 to 5; 0: 1.5 (common practice)
	Document string  // with Row or Moment: number and revision
}

// Ties are vertical ties at each row of a pier.
type Ties struct {
	Number   int     // at each row, 1 to 200
	Preload  float64 // of each, N, 0 to Capacity
	Capacity float64 // working load limit of each with its anchorages, N, 1e3 to 1e8
	Sudden   float64 // factor on the force of one that is lost at once, 1 to 3; 0: 2
	Document string  // of Capacity: number and revision
}

// pierPractice is the source of what is common practice and in no standard.
var pierPractice = formula.Source{Document: "common practice, no source", Confirm: true}

// Checks are those of the pier under a balance by one rule: overturning (its answer to the
// question of a fixed support at At), the maximum and minimum force of a row, the
// ties and the loss of one, moments of a built-in pier, the number of segments on one arm
// only. What no field covers is a question of kind limits.LocalForce with all
// values; a built-in pier without Moment leaves limits.Overturning to a document as well.
// standard answers for EN alone. The error wraps [ErrSegmental].
func (p Pier) Checks(b Balance, rule Rule, standard limits.Standard) ([]stages.OwnCheck, error) {
	k, err := p.under(b, rule, standard)
	if err != nil {
		return nil, err
	}
	ruled, err := k.ruled()
	if err != nil {
		return nil, fmt.Errorf("%w: pier %q: %w", ErrSegmental, p.Mark, err)
	}
	list := []stages.OwnCheck{k.counted()}
	for _, c := range ruled {
		list = append(list, c.OwnCheck)
	}
	return append(list, k.open()...), nil
}

// pierCase is a pier under the combinations of a rule.
type pierCase struct {
	Pier
	balance      Balance
	rule         Rule
	combinations []combination
}

// ruledCheck is a check of a pier that is linear in the weights.
type ruledCheck struct {
	stages.OwnCheck
	limit linearLimit
}

// linearLimit are measures of the resultant that must be at most a capacity in a combination: one for
// each side, of which a check shows the worse.
type linearLimit struct {
	of       combination
	measures []func(Resultant) float64
	capacity float64
	unit     formula.Unit // of both
}

// bothSides are a measure of the left and of the right side.
func bothSides(measure func(side float64) func(Resultant) float64) []func(Resultant) float64 {
	return []func(Resultant) float64{measure(-1), measure(1)}
}

// under is the pier under a balance, when all input is as it must be.
func (p Pier) under(b Balance, rule Rule, standard limits.Standard) (pierCase, error) {
	if err := p.check(); err != nil {
		return pierCase{}, err
	}
	combinations, err := b.combinations(rule, standard)
	return pierCase{p, b, rule, combinations}, err
}

// ruled are the checks that a weight can use up.
func (k pierCase) ruled() (list []ruledCheck, err error) {
	checks := []func(combination) ([]ruledCheck, error){k.moment}
	if k.Rows > 0 {
		checks = []func(combination) ([]ruledCheck, error){k.factor, k.overturning, k.greatest, k.smallest, k.tieLost, k.moment}
	}
	for _, c := range k.combinations {
		for _, of := range checks {
			more, err := of(c)
			if err != nil {
				return nil, err
			}
			list = append(list, more...)
		}
	}
	k.weighed(list)
	return list, nil
}

// counted is the check of the number of segments that one arm has more than the other.
func (k pierCase) counted() stages.OwnCheck {
	marks, arm := k.balance.more()
	limit := limits.Limit{Name: "segments on one arm only, pier " + k.Mark, LimitState: limits.Equilibrium, Sense: limits.AtMost, Source: pierPractice,
		Line: formula.Given(formula.Q("n_max", 1, formula.One, "segments that one arm may have more than the other"), pierPractice)}
	demand := formula.Q("n_seg", float64(len(marks)), formula.One, "segments that one arm has more than the other")
	check := stages.NewCheck(limit, demand)
	check.X, check.Place, check.Note = k.At, arm.words(), string(k.rule)
	if words := k.alone(); words != "" {
		check.Note += "; " + words
	} else {
		check.Place = "both arms alike"
	}
	return check.Derived(formula.Given(demand, formula.Mechanics), limit.Line)
}

// alone names the segments that one arm has more than the other; "" for none.
func (k pierCase) alone() string {
	marks, arm := k.balance.more()
	switch len(marks) {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("segment %s is on the %s only", marks[0], arm.words())
	}
	return fmt.Sprintf("segments %s are on the %s only", strings.Join(marks, ", "), arm.words())
}

// note says by which rule and combination, with which set of factors, and what has the
// largest share.
func (k pierCase) note(c combination, e Extreme) string {
	words := []string{string(k.rule) + ": " + c.name}
	if e.Words != "" {
		words = append(words, e.Words)
	}
	if e.Largest != "" {
		words = append(words, "governing part: "+e.Largest)
	}
	for i, p := range k.balance.Parts {
		if p.Handled && e.Factors[i] == 0 {
			words = append(words, "segment "+p.Mark+" not on its frame")
		}
	}
	if alone := k.alone(); alone != "" {
		words = append(words, alone)
	}
	return strings.Join(words, "; ")
}

// made is a check of the pier from its limit, demand and lines.
func (k pierCase) made(limit limits.Limit, demand formula.Quantity, place, note string, chain *formula.Chain) (stages.OwnCheck, error) {
	lines, err := chain.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limit, demand)
	check.X, check.Place = k.At, place
	if check.State == stages.NotEvaluated {
		note += "; " + check.Note
	}
	check.Note = note
	return check.Derived(lines...), nil
}

// worst is the side on which a measure is the larger, 1 for the right row, and there.
func (k pierCase) worst(c combination, measure func(side float64) func(Resultant) float64) (side float64, e Extreme) {
	left, right := k.balance.most(c, measure(-1)), k.balance.most(c, measure(1))
	if left.Value > right.Value {
		return -1, left
	}
	return 1, right
}

// rowWords are a row in words.
func (k pierCase) rowWords(side float64) string {
	name := "right"
	if side < 0 {
		name = "left"
	}
	return fmt.Sprintf("%s row of pier %s at x = %.2f m", name, k.Mark, k.At+side*k.Rows/2)
}

// wanted is the wanted factor on the out-of-balance moment.
func (p Pier) wanted() float64 {
	if p.Factor == 0 {
		return 1.5
	}
	return p.Factor
}

// tied is the capacity of the ties of a row (N).
func (p Pier) tied() float64 {
	if p.Ties == nil {
		return 0
	}
	return float64(p.Ties.Number) * p.Ties.Capacity
}

// sudden is the factor on the force of a tie that is lost at once.
func (t Ties) sudden() float64 {
	if t.Sudden == 0 {
		return 2
	}
	return t.Sudden
}

// check reports the first value of a pier that is not as it must be.
func (p Pier) check() error {
	type bound struct {
		field       string
		value       float64
		unit, also  string
		least, most float64
	}
	zero := "0, or "
	bounds := []bound{{"At", p.At, "m", "", 0, 1e5}, {"Rows", p.Rows, "m", zero, 0.2, 30}, {"Row", p.Row, "N", zero, 1e3, 1e9}, {"Moment", p.Moment, "N·m", zero, 1e3, 1e11}, {"Factor", p.Factor, "", zero, 1, 5}}
	if t := p.Ties; t != nil {
		bounds = append(bounds, bound{"Ties.Number", float64(t.Number), "", "", 1, 200}, bound{"Ties.Capacity", t.Capacity, "N", "", 1e3, 1e8},
			bound{"Ties.Preload", t.Preload, "N", "", 0, math.Max(0, t.Capacity)}, bound{"Ties.Sudden", t.Sudden, "", zero, 1, 3})
	}
	if strings.TrimSpace(p.Mark) == "" {
		return fmt.Errorf("%w: field Pier.Mark is empty: must name the pier", ErrSegmental)
	}
	for _, f := range bounds {
		if !(f.value >= f.least && f.value <= f.most) && !(f.also != "" && f.value == 0) {
			return fmt.Errorf("%w: pier %q: field %s", ErrSegmental, p.Mark, formula.OutOfRange(f.field, f.value, f.unit, f.also, f.least, f.most))
		}
	}
	switch {
	case p.Rows == 0 && p.Ties != nil:
		return fmt.Errorf("%w: pier %q: field Ties without Rows: must be ties at two rows, or none at a built-in pier", ErrSegmental, p.Mark)
	case p.Rows == 0 && p.Row != 0:
		return fmt.Errorf("%w: pier %q: field Row = %g N without Rows: must be 0 at a built-in pier", ErrSegmental, p.Mark, p.Row)
	case (p.Row > 0 || p.Moment > 0) && strings.TrimSpace(p.Document) == "":
		return fmt.Errorf("%w: pier %q: field Document is empty: must name the document of Row = %g N or Moment = %g N·m", ErrSegmental, p.Mark, p.Row, p.Moment)
	case p.Ties != nil && strings.TrimSpace(p.Ties.Document) == "":
		return fmt.Errorf("%w: pier %q: field Ties.Document is empty: must name the document of Capacity = %g N", ErrSegmental, p.Mark, p.Ties.Capacity)
	}
	return nil
}
