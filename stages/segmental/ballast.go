package segmental

import (
	"errors"
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Ballast is weight on one of two tips that brings both to one level before the closure
// between them is poured. Slopes are not made equal by it.
type Ballast struct {
	Closure  string     // mark of the closure between the tips
	After    int        // number of the step after which the tips are levelled, from 1; both stand then and the closure is not poured
	Back     [2]float64 // of the ballast from the face of the left and of the right tip into the deck, m, 0 to 50
	Largest  float64    // maximum ballast on a tip as stated by the designer, N, 1e3 to 50e6
	Document string     // that states it; must not be empty
}

// BallastOnTip is the ballast for a difference of levels.
type BallastOnTip struct {
	Segment   string          // at whose tip it is; "" for no difference
	X         float64         // of its centre, m
	Weight    float64         // N
	Stiffness [2]float64      // of the left and the right tip: ballast there for a metre of difference between the tips, N/m
	Slope     float64         // by which the weight turns the loaded tip, rad, + rising to the right
	Check     stages.OwnCheck // of the weight against Largest
}

// On is the ballast for a difference of levels (m, + left tip above the right one, within
// ±1), which is surveyed, or that of two targets: elastic, with the moduli and sections of the
// day, on the supports and with the frames of that step. The higher tip is loaded. It is an
// analysis of the plan of these supports and steps with a unit load on each tip, then with
// the weight found. The error wraps [ErrSegmental], also where that weight would lift the
// deck off a support. What the ballast does to the balance about the pier and to the joints
// is checked when the plan has it as an action.
func (b Ballast) On(d Deck, difference float64, on []stages.Support, steps ...Step) (BallastOnTip, error) {
	t, err := b.tips(d, on, steps)
	if err != nil {
		return BallastOnTip{}, err
	}
	if err := within("", bound{"difference", difference, "m", -1, 1}); err != nil {
		return BallastOnTip{}, err
	}
	fail := func(err error) (BallastOnTip, error) {
		return BallastOnTip{}, fmt.Errorf("%w: ballast at closure %s: %w", ErrSegmental, b.Closure, err)
	}
	const unit = 1e3 // N, too little to lift anything off
	still, err := t.moved(0, 0)
	if err != nil {
		return fail(err)
	}
	var of BallastOnTip
	var turned [2]float64
	for k := range 2 {
		loaded, err := t.moved(k, unit)
		if err != nil {
			return fail(err)
		}
		sense := 1 - 2*float64(k) // the left tip goes down against the right one, or the other way round
		by := -sense * ((loaded[0].all - loaded[1].all) - (still[0].all - still[1].all))
		if of.Stiffness[k] = unit / by; !(of.Stiffness[k] > 0 && !math.IsInf(of.Stiffness[k], 0)) {
			return fail(fmt.Errorf("a load on tip %s does not bring it down against the other: must be tips that deflect", t.mark(k)))
		}
		turned[k] = (loaded[k].slope - still[k].slope) / unit
	}
	higher := 0
	if difference < 0 {
		higher = 1
	}
	if err := of.weigh(b, t, higher, math.Abs(difference)); err != nil {
		return fail(err)
	}
	of.Slope = turned[higher] * of.Weight
	if _, err := t.moved(higher, of.Weight); err != nil {
		return fail(fmt.Errorf("with %.1f kN on %s: %w", of.Weight/1e3, t.mark(higher), err))
	}
	return of, nil
}

// weigh finds the weight on a tip and compares it with the maximum.
func (of *BallastOnTip) weigh(b Ballast, t *tipsOf, tip int, above float64) error {
	c, source := &formula.Chain{}, formula.Source{Document: b.Document}
	weight := c.Derive(formula.Q("W_B", 0, formula.Newton, "ballast on tip "+t.mark(tip)), "k_tip*Δ_z", formula.Mechanics,
		formula.Q("k_tip", of.Stiffness[tip], formula.NewtonPerMetre, "ballast for a metre of difference between the tips, from a unit load on the deck of that step"),
		formula.Q("Δ_z", above, formula.Metre, "this tip above the other"))
	limit := c.Given(formula.Q("W_B_max", b.Largest, formula.Newton, "maximum ballast on a tip"), source, "")
	lines, err := c.Lines()
	if err != nil {
		return err
	}
	of.Weight, of.X = weight.Value, t.x[tip]
	if above > 0 {
		of.Segment = t.mark(tip)
	}
	check := stages.NewCheck(limits.Limit{Kind: limits.LocalForce, Name: "ballast on tip " + t.mark(tip), LimitState: limits.Serviceability, Sense: limits.AtMost, Source: source, Line: formula.Given(limit, source)}, weight)
	check.X, check.Place = of.X, "tip "+t.mark(tip)
	of.Check = check.Derived(lines...)
	return nil
}

// tipsOf are two tips before a closure.
type tipsOf struct {
	deck    Deck
	on      []stages.Support
	steps   []Step
	day     float64
	closure int
	x       [2]float64 // of the ballast
}

func (t *tipsOf) mark(k int) string { return t.deck.Segments[t.closure-1+2*k].Element.Mark }

// tips checks the input and finds the tips.
func (b Ballast) tips(d Deck, on []stages.Support, steps []Step) (*tipsOf, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	i, err := d.index(b.Closure)
	if err != nil {
		return nil, fmt.Errorf("%w: field Ballast.Closure: %w", ErrSegmental, err)
	}
	if d.Segments[i].Type != Closure || i == 0 || i+1 == len(d.Segments) {
		return nil, fmt.Errorf("%w: field Ballast.Closure: segment %s is a %q: must be a closure between two segments", ErrSegmental, b.Closure, d.Segments[i].Type)
	}
	if err := within("Ballast.", bound{"After", float64(b.After), "", 1, float64(len(steps))}, bound{"Back[0]", b.Back[0], "m", 0, 50}, bound{"Back[1]", b.Back[1], "m", 0, 50}, bound{"Largest", b.Largest, "N", 1e3, 50e6}); err != nil {
		return nil, err
	}
	if b.Document == "" {
		return nil, fmt.Errorf("%w: field Ballast.Document is empty: must name the document that states the maximum ballast", ErrSegmental)
	}
	s := d.begin(on)
	for n, step := range steps[:b.After] {
		for _, m := range step.Moves {
			if _, err := s.move(step, m); err != nil {
				return nil, fmt.Errorf("%w: %s, %s: %w", ErrSegmental, step.title(n), m.Do, err)
			}
		}
	}
	t := &tipsOf{deck: d, on: on, steps: steps[:b.After:b.After], day: s.day, closure: i, x: [2]float64{s.at[i] - b.Back[0], s.at[i+1] + b.Back[1]}}
	for k, side := range [2]int{i - 1, i + 1} {
		left, right := s.tips(side)
		switch {
		case !s.carried[side]:
			return nil, fmt.Errorf("%w: closure %s: segment %s beside it is not in the deck after step %d: must be there", ErrSegmental, b.Closure, t.mark(k), b.After)
		case t.x[k] < s.at[left] || t.x[k] > s.at[right+1]:
			return nil, fmt.Errorf("%w: field Ballast.Back[%d] = %g m: must be on the deck from x = %.3f to %.3f m", ErrSegmental, k, b.Back[k], s.at[left], s.at[right+1])
		}
	}
	if s.poured[b.Closure] || s.carried[i] {
		return nil, fmt.Errorf("%w: closure %s is poured after step %d: must be levelled before", ErrSegmental, b.Closure, b.After)
	}
	return t, nil
}

// tipMoved is deflection and slope of a tip.
type tipMoved struct{ all, slope float64 }

// moved are both tips with a weight on one of them, by an analysis without checks.
func (t *tipsOf) moved(tip int, weight float64) (tips [2]tipMoved, err error) {
	m := Move{Do: Wait}
	if weight > 0 {
		m.Actions = []stages.Action{{Mark: "ballast on tip " + t.mark(tip), Kind: limits.Imposed, Least: 1, Most: 1, Stays: true,
			Loads: loads.Set{Points: []loads.Point{{At: t.x[tip], Force: weight}}}}}
	}
	plan, err := t.deck.Plan(t.on, append(t.steps, Step{Name: "ballast", Day: t.day, Moves: []Move{m}})...)
	if err != nil {
		return tips, err
	}
	girder, err := t.deck.Girder()
	if err != nil {
		return tips, err
	}
	for i := range plan {
		plan = stages.Altered(plan, i+1, func(q *stages.Situation) { q.Check, q.Equip, q.Draw = nil, nil, nil })
	}
	a, err := plan.Analyse(girder, limits.All()) // no limit is asked: movements alone
	if err != nil {
		return tips, err
	}
	e, err := a.Effects(len(plan), 1)
	if err != nil {
		return tips, err
	}
	if weight > 0 {
		if err := lifted(e); err != nil {
			return tips, err
		}
	}
	list, err := e.Moves()
	if err != nil {
		return tips, err
	}
	for k, at := range [2]int{t.closure, t.closure + 1} {
		x := t.deck.at()[at]
		found := false
		for _, body := range list {
			for _, mark := range body.Pieces {
				if mark == t.mark(k) {
					slope, _ := body.Slopes(x)
					tips[k], found = tipMoved{body.At(x).Deflection, slope}, true
				}
			}
		}
		if !found || math.IsNaN(tips[k].all) {
			return tips, errors.New("the movement of a tip is not known: must be a deck that stands")
		}
	}
	return tips, nil
}

// lifted reports a support that only pushes and may have no force left, at rest with the
// weight tolerances. Where the deck needs it to stand, nothing else would say so.
func lifted(e stages.Effects) error {
	for _, r := range e.Reactions {
		for _, q := range e.Situation.Supports {
			pushes := !q.Fixed && q.OneWay != stages.PushAndPull && q.OneWay != stages.Pull && q.Role != stages.Tie && q.Role != stages.LiftPoint
			if q.X == r.X && q.Y == r.Y && pushes && r.Static.Least < 0 {
				return fmt.Errorf("the deck lifts off the support at x = %.3f m, whose reaction falls to %.1f kN: must be less ballast", q.X, r.Static.Least/1e3)
			}
		}
	}
	return nil
}
