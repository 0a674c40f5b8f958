package segmental

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Stroke is how far a pair of hangers must be lowered until all load is off all pairs.
type Stroke struct {
	Hanger  string
	Force   float64 // of the pair before lowering, largest at rest, N
	Deck    float64 // by which the deck goes down there as it takes the load, m
	Rebound float64 // by which the gantry rises there, m
	Bar     float64 // by which the bars become shorter, m
	Needed  float64 // the sum, m
}

// Strokes are those of all pairs, from a situation of a plan (stage and situation from 1) in
// which the span hangs and touches its jacks: the last one before it is lowered. Each is the
// deflection of the deck on the jacks, uncracked on its gross section, under the forces that
// the hangers had, and the rebound of the gantry and the shortening of the bars without
// them. The error wraps [ErrSegmental], or is that of the plan.
func (h Hangers) Strokes(subject stages.Subject, plan stages.Plan, stage, situation int, standard limits.Standard) ([]Stroke, error) {
	g := subject.Girder()
	if err := h.check(g); err != nil {
		return nil, err
	}
	a, err := plan.Analyse(subject, standard)
	if err != nil {
		return nil, err
	}
	e, err := a.Effects(stage, situation)
	if err != nil {
		return nil, fmt.Errorf("%w: strokes: %w", ErrSegmental, err)
	}
	return h.strokes(g, e)
}

func (h Hangers) strokes(g stages.Girder, e stages.Effects) ([]Stroke, error) {
	var jacks []stages.Support
	for _, s := range e.Situation.Supports {
		if s.Role != stages.LiftPoint {
			jacks = append(jacks, s)
		}
	}
	deck, err := deckOn(g, e.Situation.Age, jacks)
	if err != nil {
		return nil, err
	}
	gantry, err := beam.New(h.Gantry.Layout)
	if err != nil {
		return nil, fmt.Errorf("%w: field Hangers.Gantry: %w", ErrSegmental, err)
	}
	var onDeck, onGantry loads.Set
	list := make([]Stroke, len(h.List))
	for i, k := range h.hung(e) {
		if k < 0 {
			return nil, fmt.Errorf("%w: hanger %s is not in the situation %q: must be one before the hangers are taken off", ErrSegmental, h.List[i].Mark, e.Situation.Name)
		}
		list[i] = Stroke{Hanger: h.List[i].Mark, Force: e.Reactions[k].Static.Most}
		onDeck.Points = append(onDeck.Points, loads.Point{At: h.List[i].X, Force: list[i].Force})
		onGantry.Points = append(onGantry.Points, loads.Point{At: h.List[i].X - h.Gantry.At, Force: list[i].Force})
	}
	down, err := deck.Solve(onDeck)
	if err != nil {
		return nil, fmt.Errorf("%w: the deck on its jacks: %w", ErrSegmental, err)
	}
	up, err := gantry.Solve(onGantry)
	if err != nil {
		return nil, fmt.Errorf("%w: the gantry: %w", ErrSegmental, err)
	}
	for i := range list {
		s := &list[i]
		s.Deck, s.Rebound, s.Bar = -down.Deflection(h.List[i].X), -up.Deflection(h.List[i].X-h.Gantry.At), s.Force/h.stiffness(i)
		s.Needed = s.Deck + s.Rebound + s.Bar
	}
	return list, nil
}

// deckOn is the deck as a beam on its jacks, those at one x together.
func deckOn(g stages.Girder, age float64, jacks []stages.Support) (*beam.Beam, error) {
	l := beam.Layout{Length: g.Length()}
	for _, p := range g.Pieces {
		state, err := p.Element.Concrete.At(age)
		if err != nil {
			return nil, fmt.Errorf("%w: segment %s: %w", ErrSegmental, p.Element.Mark, err)
		}
		inertia := p.Element.Section.At(p.Element.Length / 2).Properties().SecondMomentY
		l.Stiffness = append(l.Stiffness, beam.Stretch{To: p.To(), BendingStiffness: state.Modulus * inertia})
	}
	for _, j := range jacks {
		if i := slices.IndexFunc(l.Supports, func(s beam.Support) bool { return s.At == j.X }); i >= 0 {
			l.Supports[i].Stiffness += j.Stiffness
			continue
		}
		l.Supports = append(l.Supports, beam.Support{At: j.X, Stiffness: j.Stiffness})
	}
	if len(l.Supports) < 2 {
		return nil, fmt.Errorf("%w: the jacks are at %d places along the span: must be at two at least", ErrSegmental, len(l.Supports))
	}
	deck, err := beam.New(l)
	if err != nil {
		return nil, fmt.Errorf("%w: the deck on its jacks: %w", ErrSegmental, err)
	}
	return deck, nil
}

// checks are those of a step: the bars; after the last one the lowering, the stroke and what
// is left on the hangers.
func (l LowerSpan) checks(g stages.Girder, e stages.Effects, last bool) ([]stages.OwnCheck, error) {
	list, err := l.Hangers.worst(g, e)
	if slack := l.Hangers.slack(e); len(slack) > 0 && len(list) > 0 {
		list[0].Note = "slack at rest, nominal: " + strings.Join(slack, ", ")
	}
	if err != nil || !last {
		return list, err
	}
	after := []func(stages.Effects) (stages.OwnCheck, error){l.within}
	if !l.Keep {
		after = append(after, l.enough, l.left)
	}
	for _, of := range after {
		c, err := of(e)
		if err != nil {
			return nil, fmt.Errorf("%w: lowering: %w", ErrSegmental, err)
		}
		list = append(list, c)
	}
	return list, nil
}

// enough is the check of the pair whose lowering has the least reserve over what is needed.
func (l LowerSpan) enough(stages.Effects) (stages.OwnCheck, error) {
	at := 0
	over := func(i int) float64 { return l.lowered(len(l.Steps), i) - l.Strokes[i].Needed }
	for i := range l.Strokes {
		if over(i) < over(at) {
			at = i
		}
	}
	s := l.Strokes[at]
	return comparedHanger("lowering of a pair of hangers", limits.AtLeast, formula.Mechanics, l.Hangers.List[at], func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		bar := c.Derive(formula.Q("δ_bar", 0, formula.Metre, "by which the bars become shorter"), "R_pair*L_bar/(2*E_bar*A_bar)", formula.Mechanics, formula.Q("R_pair", s.Force, formula.Newton, "force of the pair before lowering, largest at rest"),
			formula.Q("L_bar", l.Hangers.List[at].Length, formula.Metre, "length of the bars"), formula.Q("E_bar", l.Hangers.Modulus, formula.Pascal, "modulus of the bars"), formula.Q("A_bar", l.Hangers.Area, formula.SquareMetre, "of a bar"))
		needed := c.Derive(formula.Q("s_req", 0, formula.Metre, "lowering that takes all load off, with the reserve"), "δ_deck + δ_gantry + δ_bar + s_0", formula.Mechanics,
			formula.Q("δ_deck", s.Deck, formula.Metre, "deflection of the deck on its jacks under the forces of the hangers"), formula.Q("δ_gantry", s.Rebound, formula.Metre, "rebound of the gantry without them"), bar, formula.Q("s_0", l.Reserve, formula.Metre, "reserve"))
		return c.Given(formula.Q("s_low", l.lowered(len(l.Steps), at), formula.Metre, "lowering of the pair in all steps"), formula.Source{Document: "input"}, ""), needed
	})
}

// within is the check of the stroke of the hanger jacks, with what was lowered before.
func (l LowerSpan) within(e stages.Effects) (stages.OwnCheck, error) {
	at, most := 0, 0.0
	for i, k := range l.Hangers.hung(e) {
		if down := -e.Situation.Supports[k].Level; down > most {
			at, most = i, down
		}
	}
	maker := formula.Source{Document: "maker's manual of the gantry"}
	return comparedHanger("stroke of a hanger jack", limits.AtMost, maker, l.Hangers.List[at], func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		return c.Given(formula.Q("s_all", most, formula.Metre, "largest lowering so far"), formula.Source{Document: "input"}, ""),
			c.Given(formula.Q("s_jack", l.Stroke, formula.Metre, "stroke of a hanger jack"), maker, "")
	})
}

// left is the check that all load is on the jacks after the last step.
func (l LowerSpan) left(e stages.Effects) (stages.OwnCheck, error) {
	at, sum, weight := 0, 0.0, 0.0
	for i, k := range l.Hangers.hung(e) {
		if most := e.Reactions[k].Characteristic.Most; most > 0 {
			if sum == 0 {
				at = i
			}
			sum += most
		}
	}
	for _, r := range e.Reactions {
		weight += r.Nominal
	}
	c := &formula.Chain{}
	demand := c.Given(formula.Q("R_left", sum, formula.Newton, "of all pairs of hangers, maximum"), formula.Mechanics, "")
	limit := c.Given(formula.Q("R_0", 0, formula.Newton, "before the hangers are taken off"), formula.Mechanics, "")
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: "load left on the hangers after lowering", LimitState: limits.Serviceability, Sense: limits.AtMost, Source: formula.Mechanics, Line: formula.Given(limit, formula.Mechanics),
		Scale: formula.Q("R_all", weight, formula.Newton, "weight of the span")}, demand)
	check.X, check.Place = l.Hangers.List[at].X, "all pairs"
	if sum > 0 {
		check.Place = "hanger " + l.Hangers.List[at].Mark
	}
	return check.Derived(lines...), nil
}

// comparedHanger derives a demand and a limit at a pair of hangers and compares them.
func comparedHanger(name string, sense limits.Sense, source formula.Source, at Hanger, derive func(c *formula.Chain) (demand, limit formula.Quantity)) (stages.OwnCheck, error) {
	c := &formula.Chain{}
	demand, limit := derive(c)
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: name, LimitState: limits.WorkingLoad, Sense: sense, Source: source, Line: formula.Given(limit, source), Scale: formula.Q("scale", max(1, demand.Value), demand.Unit, "of what is compared")}, demand)
	check.X, check.Place = at.X, "hanger "+at.Mark
	return check.Derived(lines...), nil
}
