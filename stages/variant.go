package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// variant is a situation with one way chosen for every arrangement.
type variant struct {
	*situation
	ways    map[*arrangement]*way
	ledger  *ledger.Situation
	nominal *ledger.Situation // the same in contact under nominal factors; nil until asked

	demands []demandOf
	touched []touchedUnder
}

// mostVariants is how many are looked at in one situation.
const mostVariants = 64

// makeCases finds the fields of every entry and lays out the variants of every
// situation.
func (r *run) makeCases() error {
	if err := r.prune(); err != nil {
		return err
	}
	next := 0
	for _, s := range r.situations { // in order: what is set down later has the shape of what came before
		for ; next < len(r.lasting) && r.lasting[next].situation == s.index; next++ {
			e := r.lasting[next]
			if err := r.settle(e.of); err != nil {
				return s.where(err)
			}
			answer, err := r.answer(e.of, e.of.ways[0], e.load, e.state)
			if err != nil {
				return s.where(err)
			}
			r.ledger.Lasting[e.at].Entry.Field = bodyField{answer, e.of.body}
		}
		for _, a := range s.acts {
			if err := r.settle(a); err != nil {
				return s.where(err)
			}
		}
	}
	for _, s := range r.situations {
		if err := r.vary(s); err != nil {
			return s.where(err)
		}
	}
	return nil
}

// where says in which situation an error is.
func (s *situation) where(err error) error {
	return fmt.Errorf("%w %d, %s at age %g d: %w", ErrStage, s.stage+1, s.Name, s.Age, err)
}

// vary lays out the variants of a situation.
func (r *run) vary(s *situation) error {
	open := slices.Clone(s.acts) // where a support only touches, nothing has acted on it yet
	for _, e := range append(slices.Clone(s.entries), s.current...) {
		if !slices.Contains(open, e.of) {
			open = append(open, e.of)
		}
	}
	choices := []map[*arrangement]*way{{}}
	for _, a := range open {
		var next []map[*arrangement]*way
		for _, chosen := range choices {
			for _, w := range a.ways {
				with := map[*arrangement]*way{a: w}
				for k, v := range chosen {
					with[k] = v
				}
				next = append(next, with)
			}
		}
		if choices = next; len(choices) > mostVariants {
			return fmt.Errorf("supports of this and of earlier situations may share in more than %d ways together: must be stated by groups, or by Stiffness and OutOfLevel", mostVariants)
		}
	}
	if len(s.trains) > 0 {
		return r.varyTrains(s, choices)
	}
	for _, ways := range choices {
		if err := r.addVariant(s, ways); err != nil {
			return err
		}
	}
	return nil
}

// varyTrains adds a variant for each position of a train, on a copy of the
// situation that has it.
func (r *run) varyTrains(s *situation, choices []map[*arrangement]*way) error {
	for _, e := range s.trains {
		with := *s
		with.entries = append(slices.Clone(s.entries), e)
		with.current = append(slices.Clone(s.current), e)
		with.cases = nil
		for _, ways := range choices {
			if err := r.addVariant(&with, ways); err != nil {
				return err
			}
		}
		for i, v := range with.cases {
			v.ledger.Moves = 1 + e.inner
			if len(s.cases) > i {
				v.ledger.Like = s.cases[i].ledger // with the first position, shared in the same way
			}
		}
		s.cases = append(s.cases, with.cases...)
	}
	return nil
}

// addVariant adds a variant of a situation.
func (r *run) addVariant(s *situation, ways map[*arrangement]*way) error {
	v := &variant{situation: s, ways: ways, ledger: &ledger.Situation{Steps: s.steps, Prestress: r.cause(causePrestress, ""), Times: s.times}}
	for _, e := range s.entries {
		answer, err := r.answer(e.of, ways[e.of], e.load, e.state)
		if err != nil {
			return err
		}
		v.ledger.Entries = append(v.ledger.Entries, ledger.Entry{
			Name: e.name, State: e.state, Field: bodyField{answer, e.of.body}, Coefficient: e.coefficient, Inner: e.inner, Outer: e.outer,
		})
	}
	v.ledger.Lay()
	if len(s.cases) > 0 {
		v.ledger.Like = s.cases[0].ledger
	}
	s.cases = append(s.cases, v)
	return nil
}

// positions are the situation, or where a train rolls over it, the situation with
// the train in each position.
func (s *situation) positions() []*situation {
	var list []*situation
	for _, v := range s.cases {
		if !slices.Contains(list, v.situation) {
			list = append(list, v.situation)
		}
	}
	return list
}

// service is the range of a cause in a situation without partial factors.
func (r *run) service(s *situation, i int) (least, most float64) {
	if i < 0 {
		return 1, 1
	}
	c := r.ranged(s, i, limits.Factors{})
	return c.Least, c.Most
}

// ranges are the causes with the ranges of a situation and a limit's partial
// factors.
func (r *run) ranges(s *situation, f limits.Factors) []ledger.Cause {
	causes := make([]ledger.Cause, len(r.causes))
	for i := range causes {
		causes[i] = r.ranged(s, i, f)
	}
	return causes
}

func (r *run) ranged(s *situation, i int, f limits.Factors) ledger.Cause {
	f = f.Filled()
	switch c := &r.causes[i]; c.kind {
	case causePrestress:
		if s.steps == 0 {
			return ledger.Cause{Least: 1, Most: 1, Outer: true}
		}
		return ledger.Cause{Least: f.PrestressLeast, Most: f.PrestressMost, Outer: true}
	case causeDynamic:
		return ledger.Cause{Least: s.dynamic[0], Most: s.dynamic[1], Outer: true}
	case causeLevel:
		return ledger.Cause{Least: -1, Most: 1}
	case causeBed:
		return ledger.Cause{Least: 0, Most: 1, Outer: true}
	case causeWeight:
		least, most := r.tolerance(c.key)
		return ledger.Cause{Least: least * f.WeightLeast, Most: most * f.WeightMost}
	case causeAction:
		least, most := c.action.presence()
		favourable, unfavourable := f.On(c.action.kind())
		if least > 0 && favourable == 0 { // always there: what helps counts once
			favourable = 1
		}
		return ledger.Cause{
			Least: min(least*favourable, least*unfavourable, most*favourable, most*unfavourable),
			Most:  max(least*favourable, least*unfavourable, most*favourable, most*unfavourable),
		}
	}
	return ledger.Cause{Least: 1, Most: 1}
}

// tolerance is the range of the weight of a group: the widest of its pieces.
func (r *run) tolerance(group string) (least, most float64) {
	least, most = 1, 1
	for _, p := range r.girder.Pieces {
		if p.WeightGroup == group {
			low, high, _ := p.Element.WeightTolerance.Range() // checked with the element
			least, most = min(least, low), max(most, high)
		}
	}
	return least, most
}

// factorsOf are the factors of the causes that act in a situation.
func (r *run) factorsOf(s *situation, factors []float64, apart []ledger.ApartAt) []Factor {
	var list []Factor
	for i, c := range r.causes {
		if !r.acts(s, i) {
			continue
		}
		name := string(c.kind)
		switch {
		case c.kind == causeAction:
			name = c.key
		case c.kind == causeWeight && c.key != "":
			name += " " + c.key
		case c.kind == causeLevel:
			name = c.key
		}
		list = append(list, Factor{name, factors[i]})
	}
	for _, a := range apart {
		if r.pretensioned(a.Tendon) {
			list = append(list, Factor{"force of " + r.tendons[a.Tendon].Mark + " from the long (0) to the short (1) transmission length", a.Factor})
			continue
		}
		list = append(list, Factor{"part of tendon " + r.tendons[a.Tendon].Mark + " before it has spread", a.Factor})
	}
	return list
}

// acts is true for a cause of any entry of a situation.
func (r *run) acts(s *situation, i int) bool {
	if r.causes[i].kind == causePrestress {
		return s.steps > 0
	}
	return slices.ContainsFunc(s.entries, func(e entry) bool { return e.inner == i || slices.Contains(e.outer, i) })
}
