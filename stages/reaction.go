package stages

import (
	"math"

	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// Range is a minimum (Least) and a maximum (Most).
type Range = derive.Range

// Reaction is the force of one support along gravity, + upwards on the element (N), in
// three ranges, each for its own use.
type Reaction struct {
	Body           int     `json:"body,omitempty"` // number of its body, from 1; 0 where there is one
	X              float64 `json:"x"`              // m
	Y              float64 `json:"y,omitempty"`    // m
	Z              float64 `json:"z,omitempty"`    // m
	Role           Role    `json:"role,omitempty"` // of the support
	Group          string  `json:"g,omitempty"`    // of supports with equal forces
	Nominal        float64 `json:"n"`              // self-weight and mean prestress; of a bounded one in the first way of sharing
	Static         Range   `json:"s"`              // at rest: weight tolerance, prestress, levels, actions always present; for readings
	Share          *Range  `json:"p,omitempty"`    // of the measured total of its body at rest, a fraction; nil for a bounded reaction, which has no measuring band
	Characteristic Range   `json:"c"`              // with dynamic factors, other actions and the characteristic range of prestress; against rated capacities
	Ultimate       Range   `json:"u"`              // with partial factors for strength; for ground, concrete, stacks
	Sling          float64 `json:"f,omitempty"`    // force along its sling divided by this vertical force; 0 without a sling
	Bounded        bool    `json:"b,omitempty"`    // sharing is not stated: extremes over every statically determinate set
}

// reactions are the forces of the supports of every body.
func (r *run) reactions(s *situation) ([]Reaction, error) {
	ultimate, err := r.strengthFactors(s)
	if err != nil {
		return nil, err
	}
	characteristic, err := r.characteristic(s)
	if err != nil {
		return nil, err
	}
	var list []Reaction
	for b, a := range s.acts {
		for i, p := range a.supports {
			one := Reaction{Body: numberOf(s, b), X: p.X, Y: p.Y - r.girder.offset(p.X), Z: p.Z, Role: p.Role, Group: p.Group, Bounded: a.bounded}
			empty := Range{Least: math.Inf(1), Most: math.Inf(-1)}
			one.Static, one.Characteristic, one.Ultimate = empty, empty, empty
			share := empty
			measured := !a.bounded
			for n, v := range s.cases {
				m, err := r.supportSums(v, a, i)
				if err != nil {
					return nil, err
				}
				if n == 0 {
					of := empty
					if err := r.widen(v, a, &m, &of, r.exactly(s, r.nominal(s))); err != nil {
						return nil, err
					}
					one.Nominal = of.Most
				}
				for _, of := range v.ways[a].spaces {
					one.Sling = math.Max(one.Sling, of.incline(i, v.ways[a].up))
				}
				list := []struct {
					into   *Range
					causes []ledger.Cause
				}{{&one.Static, r.atRest(s)}, {&one.Characteristic, characteristic}}
				for _, f := range ultimate {
					list = append(list, struct {
						into   *Range
						causes []ledger.Cause
					}{&one.Ultimate, r.ranges(s, f)})
				}
				for _, of := range list {
					if err := r.widen(v, a, &m, of.into, of.causes); err != nil {
						return nil, err
					}
				}
				if measured, err = r.shares(v, a, &m, &share, measured); err != nil {
					return nil, err
				}
			}
			if measured {
				one.Share = &share
			}
			if a.bounded {
				one.Static, one.Characteristic, one.Ultimate = within(one.Static, p), within(one.Characteristic, p), within(one.Ultimate, p)
				one.Nominal = within(Range{Least: one.Nominal, Most: one.Nominal}, p).Most
			}
			list = append(list, one)
		}
	}
	return list, nil
}

// within is a range limited to the sense of a support. A way of sharing that is valid
// under some factors is calculated under all: where the support would act against its
// sense, another way is valid and the support carries nothing.
func within(r Range, s Support) Range {
	switch sense := s.sense(); {
	case sense > 0:
		return Range{Least: math.Max(0, r.Least), Most: math.Max(0, r.Most)}
	case sense < 0:
		return Range{Least: math.Min(0, r.Least), Most: math.Min(0, r.Most)}
	}
	return r
}

// numberOf is the number of a body in the record: 0 for the only one.
func numberOf(s *situation, b int) int {
	if len(s.acts) == 1 {
		return 0
	}
	return b + 1
}

// bodiesOf are the bodies of a situation with their totals at rest; none for one.
func (r *run) bodiesOf(s *situation) ([]BodyRecord, error) {
	if len(s.acts) == 1 {
		return nil, nil
	}
	var list []BodyRecord
	for _, a := range s.acts {
		of := BodyRecord{}
		for _, k := range a.body.pieces {
			of.Elements = append(of.Elements, r.girder.Pieces[k].Element.Mark)
		}
		var err error
		if of.Total, err = r.totalOf(s, []*arrangement{a}); err != nil {
			return nil, err
		}
		list = append(list, of)
	}
	return list, nil
}

// total is the range of the sum of all reactions at rest (N).
func (r *run) total(s *situation) (Range, error) { return r.totalOf(s, s.acts) }

// totalOf is the range of the sum of the reactions of bodies at rest (N), each with its
// own tolerance. A contact that opens changes how they share, not their sum.
func (r *run) totalOf(s *situation, acts []*arrangement) (Range, error) {
	causes := r.atRest(s)
	of := Range{Least: math.Inf(1), Most: math.Inf(-1)}
	for _, v := range s.cases {
		var all supportSums
		for _, a := range acts {
			m, err := r.supportSums(v, a, 0)
			if err != nil {
				return of, err
			}
			if all.part == nil {
				all.terms, all.part = m.terms, make([]float64, len(m.totals))
			}
			for k, force := range m.totals {
				all.part[k] += force
			}
		}
		if err := all.widen(&of, causes); err != nil {
			return of, err
		}
	}
	return of, nil
}

// characteristic are the causes with their characteristic ranges: prestress, which reaches
// supports that share by stiffness, from its lower to its upper characteristic value by the
// limits of serviceability of the standard.
func (r *run) characteristic(s *situation) ([]ledger.Cause, error) {
	answers, _, err := r.ask(r.question(s, limits.Compression, s.carried()[0]))
	if err != nil {
		return nil, err
	}
	f := limits.Factors{PrestressLeast: 1, PrestressMost: 1}
	for _, a := range answers {
		if of := a.Factors.Filled(); a.LimitState == limits.Serviceability {
			f.PrestressLeast, f.PrestressMost = math.Min(f.PrestressLeast, of.PrestressLeast), math.Max(f.PrestressMost, of.PrestressMost)
		}
	}
	return r.ranges(s, f), nil
}

// strengthFactors are the partial factors for strength of the standard, of each of
// its combinations.
func (r *run) strengthFactors(s *situation) ([]limits.Factors, error) {
	answers, _, err := r.ask(r.question(s, limits.WebShear, s.carried()[0]))
	if err != nil || len(answers) == 0 {
		return []limits.Factors{{}}, err
	}
	var list []limits.Factors
	for _, a := range answers {
		list = append(list, a.Factors)
	}
	return list, nil
}

// exactly are the causes with one factor each.
func (r *run) exactly(s *situation, factors []float64) []ledger.Cause {
	causes := r.ranges(s, limits.Factors{})
	for i, f := range factors {
		causes[i].Least, causes[i].Most = f, f
	}
	return causes
}

// present are the causes without dynamic factor, with what may be absent.
func (r *run) present(s *situation) []ledger.Cause {
	causes := r.ranges(s, limits.Factors{})
	for i, c := range r.causes {
		if c.kind == causeDynamic {
			causes[i].Least, causes[i].Most = 1, 1
		}
	}
	return causes
}

// atRest are the causes without dynamic factor and without what may be absent.
func (r *run) atRest(s *situation) []ledger.Cause {
	causes := r.ranges(s, limits.Factors{})
	for i, c := range r.causes {
		switch c.kind {
		case causeDynamic:
			causes[i].Least, causes[i].Most = 1, 1
		case causeAction:
			if least, _ := c.action.presence(); least <= 0 {
				causes[i].Least, causes[i].Most = 0, 0
			}
		}
	}
	return causes
}
