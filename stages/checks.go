package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// checks are all checks of a situation, and what was asked of the standard
// without an answer.
func (r *run) checks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	for _, ask := range []func(*situation) ([]checked, []unanswered, error){
		r.stressChecks, r.jointChecks, r.wallChecks, r.tendonChecks, r.balanceChecks, r.ownChecks,
	} {
		more, not, err := ask(s)
		if err != nil {
			return nil, nil, err
		}
		checks = append(checks, more...)
		notChecked = append(notChecked, not...)
	}
	return checks, notChecked, nil
}

// ask puts a question; without an answer it returns the words for the list of
// what is not checked. Factors that make no sense are an error.
func (r *run) ask(q limits.Question) ([]limits.Limit, []unanswered, error) {
	answers, err := r.standard.Limits(q)
	if err != nil {
		return nil, nil, err
	}
	for i := range answers {
		if err := answers[i].Factors.Check(); err != nil {
			return nil, nil, err
		}
		answers[i].Kind = q.Kind
		r.remember(answers[i])
	}
	if len(answers) == 0 {
		return nil, []unanswered{{q.Kind, fmt.Sprintf("%s: the standard gives no limit", q.Kind)}}, nil
	}
	return answers, nil, nil
}

// question is the question about a piece; the mark is left out where there is one piece
// only.
func (r *run) question(s *situation, kind limits.Kind, piece int) limits.Question {
	q := limits.Question{Kind: kind, Phase: s.Phase, Concrete: s.concrete[piece]}
	if len(r.girder.Pieces) > 1 {
		q.Place.Piece = r.girder.Pieces[piece].Element.Mark
	}
	for _, e := range s.entries {
		if e.inner >= 0 && r.causes[e.inner].kind == causeAction && r.causes[e.inner].action.kind() == limits.Accidental {
			q.Accidental = true
		}
	}
	return q
}

// carried are the pieces carried in a situation.
func (s *situation) carried() []int {
	var list []int
	for _, b := range s.bodies {
		list = append(list, b.pieces...)
	}
	return list
}

// sought is one search for an extreme stress.
type sought struct {
	question limits.Question
	piece    int
	sign     float64
	count    func(*ledger.Stretch, ledger.Corner) bool
}

// searches are those of the concrete of a piece: compression, tension where no
// bonded bars run and where they do.
func (r *run) searches(s *situation, piece int) []sought {
	slot := func(p *ledger.Stretch, c ledger.Corner) bool { return p.At[0].Pieces[c.Slot].Index == piece }
	compression, tension := r.question(s, limits.Compression, piece), r.question(s, limits.Tension, piece)
	list := []sought{{compression, piece, -1, slot}, {tension, piece, 1, slot}}
	if e := r.girder.Pieces[piece].Element; len(e.Bars) > 0 {
		list[1].count = func(p *ledger.Stretch, c ledger.Corner) bool { return slot(p, c) && !r.barsNear(piece, p, c) }
		tension.Place.Bars = true
		list = append(list, sought{tension, piece, 1, func(p *ledger.Stretch, c ledger.Corner) bool { return slot(p, c) && r.barsNear(piece, p, c) }})
	}
	return list
}

// stressChecks are compression and tension of the concrete, and the bars that the
// tension needs; of the pieces of a girder the governing one is kept.
func (r *run) stressChecks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	var kept keeper
	found := map[limits.Kind]bool{}
	for _, piece := range s.carried() {
		for _, search := range r.searches(s, piece) {
			answers, not, err := r.ask(search.question)
			if err != nil {
				return nil, nil, err
			}
			notChecked = append(notChecked, not...)
			found[search.question.Kind] = found[search.question.Kind] || len(answers) == 0
			for n, limit := range answers {
				worst, v, err := r.extreme(s, search, limit)
				if err != nil {
					return nil, nil, err
				}
				if !worst.Found {
					continue
				}
				found[search.question.Kind] = true
				check := r.stressCheck(v, search, limit, worst)
				kept.keep(fmt.Sprint(search.question.Kind, search.question.Place.Bars, n), check)
			}
		}
	}
	checks = kept.checks
	for _, kind := range []limits.Kind{limits.Compression, limits.Tension} {
		if !found[kind] {
			checks = append(checks, unevaluated(kind, r.girder.Length()/2, "no corner of the section is evaluated"))
		}
	}
	steel, not, err := r.tensionSteel(s)
	return append(checks, steel...), append(notChecked, not...), err
}

// keeper keeps, of checks of one key, the one that governs.
type keeper struct {
	keys   []string
	checks []checked
}

func (k *keeper) keep(key string, c checked) {
	for i := range k.keys {
		if k.keys[i] == key {
			needs := append(k.checks[i].needs, c.needs...)
			if c.worse(k.checks[i].Check) {
				k.checks[i] = c
			}
			k.checks[i].needs = needs
			return
		}
	}
	k.keys, k.checks = append(k.keys, key), append(k.checks, c)
}

// extreme is the governing stress of a search over the variants of a situation.
func (r *run) extreme(s *situation, search sought, limit limits.Limit) (worst ledger.Worst, of *variant, err error) {
	for _, v := range s.cases {
		demands, err := r.demands(v, limit)
		if err != nil {
			return worst, nil, err
		}
		for _, d := range demands {
			floor := math.Inf(-1)
			if worst.Found {
				floor = search.sign * worst.Value
			}
			w, err := d.ExtremeBeyond(floor, search.sign, search.piece, search.count)
			if err != nil {
				return worst, nil, err
			}
			if w.Found && (!worst.Found || search.sign*w.Value > search.sign*worst.Value) {
				worst, of = w, d.variant
			}
		}
	}
	return worst, of, nil
}

// demands are a variant under the partial factors of a limit: one, or where
// contact changes one for each corner of the factors. Limits that have the same
// factors share them.
func (r *run) demands(v *variant, limit limits.Limit) ([]demand, error) {
	causes := r.ranges(v.situation, limit.Factors)
	for i := range v.demands {
		if sameCauses(v.demands[i].causes, causes) {
			return v.demands[i].list, nil
		}
	}
	corners, err := r.contacts(v, causes)
	if err != nil {
		return nil, err
	}
	var list []demand
	if len(corners) == 0 {
		d, err := r.ledger.Demand(v.ledger, causes)
		if err != nil {
			return nil, err
		}
		list = []demand{{d, v}}
	}
	for _, c := range corners {
		fixed := slices.Clone(causes)
		for i, f := range c.factors {
			fixed[i].Least, fixed[i].Most = f, f
		}
		of := *v
		of.ledger = v.with(c)
		d, err := r.ledger.Demand(of.ledger, fixed)
		if err != nil {
			return nil, err
		}
		list = append(list, demand{d, &of})
	}
	v.demands = append(v.demands, demandOf{causes, list})
	return list, nil
}

// demand is a question to a variant of a situation.
type demand struct {
	*ledger.Demand
	variant *variant
}

// demandOf are demands with the ranges that they were made for.
type demandOf struct {
	causes []ledger.Cause
	list   []demand
}

func sameCauses(a, b []ledger.Cause) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// barsNear is true where bonded bars run through the whole stretch in the same
// half of the depth as the corner. Whether they are enough is a check of its own.
func (r *run) barsNear(piece int, p *ledger.Stretch, c ledger.Corner) bool {
	of := r.girder.Pieces[piece]
	middle := p.At[ledger.Nodes/2].Pieces[c.Slot].Gross.Centroid.Z
	for _, b := range of.Element.Bars {
		if of.At+b.From <= p.From && p.To <= of.At+b.To && (b.At.Z > middle) == (c.At.Z > middle) {
			return true
		}
	}
	return false
}

// stressCheck is the check of one stress limit at its governing place.
func (r *run) stressCheck(v *variant, search sought, limit limits.Limit, worst ledger.Worst) checked {
	name, symbol := "compressive stress", "σ_comp"
	if search.sign > 0 {
		name, symbol = "tensile stress", "σ_tens"
	}
	demand := formula.Q(symbol, search.sign*worst.Value, formula.Pascal, name)
	check := r.finish(v.situation, search.question, search.piece, limit, demand)
	check.X, check.Place, check.Factors = worst.X, r.cornerWords(worst), r.factorsOf(v.situation, worst.Factors, worst.Apart)
	check.proof = &stressProof{v, worst, search.sign, limit}
	return check
}

// cornerWords are piece and corner of an extreme.
func (r *run) cornerWords(w ledger.Worst) string {
	words := fmt.Sprintf("corner %d, %s", w.Corner+1, pointWords(w.At))
	if len(r.girder.Pieces) > 1 {
		words = r.girder.Pieces[w.Piece].Element.Mark + ", " + words
	}
	return words
}

// finish makes the check of a demand, and makes it conditional where it depends on a
// strength that no test has shown.
func (r *run) finish(s *situation, q limits.Question, piece int, limit limits.Limit, demand formula.Quantity) checked {
	check := checked{Check: NewCheck(limit, demand)}
	if check.State == NotEvaluated {
		return check
	}
	if !limit.LeansOnStrength {
		return check
	}
	if strength, ok := r.strengthFor(s, q, piece, demand.Value); ok {
		check.Required = strengthShown(strength)
		if check.State == Pass {
			check.needs = []need{{piece, strength}}
		}
	}
	if s.concrete[piece].NeedsTest && check.State == Pass {
		check.State = Conditional
		check.Condition = fmt.Sprintf("strength to be proved by test at age %g d: no standard gives a strength up to 3 d", s.Age)
	}
	return check
}

// leastShown is the smallest strength that is asked for (Pa, characteristic,
// cylinder), however small the demand.
const leastShown = 1e6

// strengthFor is the characteristic cylinder strength, shown by test at the age,
// at which the demand just meets the limit.
func (r *run) strengthFor(s *situation, q limits.Question, piece int, demand float64) (float64, bool) {
	of := r.girder.Pieces[piece]
	age := s.day - of.Element.Cast
	reserve := func(strength float64) (float64, error) {
		state, err := of.Element.Concrete.Shown(age, strength).At(age)
		if err != nil {
			return 0, err
		}
		return r.reserve(q, state, demand)
	}
	if least, err := reserve(leastShown); err == nil && least >= 0 {
		return leastShown, true
	}
	need, err := formula.Root(leastShown, 120e6, reserve)
	return need, err == nil
}

// reserve is the margin of a demand with another concrete.
func (r *run) reserve(q limits.Question, state concrete.State, demand float64) (float64, error) {
	if q.Kind == limits.StressingStrength {
		demand = state.Mean
	}
	q.Concrete = state
	answers, err := r.standard.Limits(q)
	if err != nil {
		return 0, err
	}
	least := math.Inf(1)
	for _, limit := range answers {
		least = math.Min(least, NewCheck(limit, formula.Quantity{Value: demand}).Margin)
	}
	return least, nil
}

// ownChecks are those of the operation itself.
func (r *run) ownChecks(s *situation) ([]checked, []unanswered, error) {
	if s.Check == nil {
		return nil, nil, nil
	}
	effects, err := r.effects(s)
	if err != nil {
		return nil, nil, err
	}
	own, err := s.Check(effects, r.standard)
	var checks []checked
	for _, c := range own {
		if err == nil {
			err = c.validOwn(r.girder.Length())
		}
		checks = append(checks, c.checked())
	}
	return checks, nil, err
}

// checked is a check of a stage's own with what shows it and what it asks to be shown.
func (c OwnCheck) checked() checked {
	return checked{Check: c.Check, extra: c.Derivation, holds: c.Hold.point()}
}

// point is a hold point of the record; nil for none.
func (h *Hold) point() *derive.HoldPoint {
	if h == nil {
		return nil
	}
	p := &derive.HoldPoint{Kind: h.Kind, Required: h.Required, AtMost: h.AtMost}
	if h.Assumed.Symbol != "" {
		assumed := h.Assumed
		p.Assumed = &assumed
	}
	return p
}

// effects is the situation for the functions of a stage's own: about its first
// variant, all factors 1.
func (r *run) effects(s *situation) (Effects, error) {
	reactions, err := r.reactions(s)
	if err != nil {
		return Effects{}, err
	}
	one := r.nominal(s)
	in, err := r.inContact(s.cases[0])
	if err != nil {
		return Effects{}, err
	}
	return Effects{
		Situation: s.Situation, Reactions: reactions, Strength: s.concrete[s.carried()[0]].Characteristic,
		Forces:   func(x float64) section.Forces { return r.ledger.Forces(in, r.inside(x), one) },
		Together: func(numbers []int) (Together, error) { return r.sumFor(s, numbers) },
		Stress:   func(x float64) section.Plane { return r.ledger.Plane(in, r.inside(x), one) },
		Moves:    func() ([]*Movement, error) { return r.movements(s) },
	}, nil
}

// nominal is every cause at 1, levels and actions that may be absent at 0.
func (r *run) nominal(s *situation) []float64 {
	factors := make([]float64, len(r.causes))
	for i, c := range r.causes {
		switch c.kind {
		case causeLevel:
		case causeAction:
			if least, _ := c.action.presence(); least > 0 {
				factors[i] = 1
			}
		default:
			factors[i] = 1
		}
	}
	return factors
}

// inside is a place moved a little away from the ends.
func (r *run) inside(x float64) float64 {
	hair := ledger.Inset * r.girder.Length()
	return math.Max(hair, math.Min(r.girder.Length()-hair, x))
}
