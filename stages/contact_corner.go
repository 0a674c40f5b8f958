package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// contactCorner is a set of factors with the contact that belongs to it: factors, fixed
// where they reach the supports, and what the contact adds to the superposed fields.
type contactCorner struct {
	factors  []float64
	reach    []int // causes that are fixed; any other keeps its range
	entry    ledger.Entry
	vertical map[*arrangement][]float64 // of each support, N, upwards
}

// contacts are the corners of the factors of a variant with their own contact;
// none where no closed contact opens and no gap closes, so that superposition is
// exact.
func (r *run) contacts(v *variant, causes []ledger.Cause) ([]contactCorner, error) {
	for i := range v.touched {
		if sameCauses(v.touched[i].causes, causes) {
			return v.touched[i].corners, nil
		}
	}
	corners, err := r.findContacts(v, causes)
	if err == nil {
		v.touched = append(v.touched, touchedUnder{causes, corners})
	}
	return corners, err
}

// touchedUnder are the corners found for ranges.
type touchedUnder struct {
	causes  []ledger.Cause
	corners []contactCorner
}

func (r *run) findContacts(v *variant, causes []ledger.Cause) ([]contactCorner, error) {
	var all []contactCorner
	for b, a := range v.acts {
		if !a.elastic {
			continue
		}
		opens, reach, err := r.opens(v, a, causes)
		if err != nil {
			return nil, err
		}
		if !opens {
			continue
		}
		if len(reach) > mostOuter {
			return nil, fmt.Errorf("%d causes reach supports of which one may lift: must be at most %d, or supports that stay in contact", len(reach), mostOuter)
		}
		one, err := r.contactsOf(v, b, a, causes, reach)
		if err != nil {
			return nil, err
		}
		all = append(all, one...)
	}
	return all, nil
}

// opens is true when a closed contact opens under some factors, or one is open at
// rest; reach are the causes with a range that reach the supports.
func (r *run) opens(v *variant, a *arrangement, causes []ledger.Cause) (opens bool, reach []int, err error) {
	opens = a.open
	for i, p := range a.supports {
		m, err := r.supportSums(v, a, i)
		if err != nil {
			return false, nil, err
		}
		for k, t := range m.terms {
			for _, c := range append([]int{t.Inner}, t.Outer...) {
				if c >= 0 && m.part[k] != 0 && causes[c].Least != causes[c].Most && !slices.Contains(reach, c) {
					reach = append(reach, c)
				}
			}
		}
		if p.sense() == 0 || p.Held {
			continue
		}
		of := Range{Least: math.Inf(1), Most: math.Inf(-1)}
		if err := m.widen(&of, causes); err != nil {
			return false, nil, err
		}
		opens = opens || p.sense() > 0 && of.Least < 0 || p.sense() < 0 && of.Most > 0
	}
	slices.Sort(reach)
	return opens, reach, nil
}

// contactsOf solves every corner, and the points of edges where the contact
// changes.
func (r *run) contactsOf(v *variant, b int, a *arrangement, causes []ledger.Cause, reach []int) ([]contactCorner, error) {
	w := v.ways[a]
	base := make([]float64, len(causes))
	for i, c := range causes {
		base[i] = c.Most
	}
	solve := func(factors []float64) (contactCorner, uint64, error) {
		t, err := r.touch(a, w, v, v.current, factors)
		if err != nil {
			return contactCorner{}, 0, err
		}
		c := contactCorner{factors: slices.Clone(factors), reach: reach, vertical: map[*arrangement][]float64{a: t.vertical}}
		c.entry = ledger.Entry{Name: "contact", State: v.states[b], Coefficient: 1, Inner: -1, Field: &contactField{r, v, a, t.response, c.factors, t.vertical}}
		return c, t.pattern(), nil
	}
	var list []contactCorner
	patterns := make([]uint64, 1<<len(reach))
	at := func(corner int) []float64 {
		factors := slices.Clone(base)
		for k, c := range reach {
			if corner>>k&1 == 0 {
				factors[c] = causes[c].Least
			}
		}
		return factors
	}
	for corner := range patterns {
		c, pattern, err := solve(at(corner))
		if err != nil {
			return nil, err
		}
		patterns[corner] = pattern
		list = append(list, c)
	}
	for corner := range patterns {
		for k := range reach {
			other := corner | 1<<k
			if other == corner || patterns[corner] == patterns[other] {
				continue
			}
			changes, err := changesAlong(at(corner), at(other), patterns[corner], solve)
			if err != nil {
				return nil, err
			}
			list = append(list, changes...)
		}
	}
	return list, nil
}

// changesAlong are the points of an edge where the contact changes, found by
// halving from its beginning on, one after the other.
func changesAlong(from, to []float64, pattern uint64, solve func([]float64) (contactCorner, uint64, error)) ([]contactCorner, error) {
	between := func(t float64) []float64 {
		factors := make([]float64, len(from))
		for i := range factors {
			factors[i] = from[i] + t*(to[i]-from[i])
		}
		return factors
	}
	var list []contactCorner
	begin := 0.0
	for range 8 { // changes of contact along one edge
		low, high := begin, 1.0
		_, last, err := solve(between(1))
		if err != nil {
			return nil, err
		}
		if last == pattern {
			return list, nil
		}
		for high-low > 1e-9 {
			middle := (low + high) / 2
			_, p, err := solve(between(middle))
			if err != nil {
				return nil, err
			}
			if p == pattern {
				low = middle
			} else {
				high = middle
			}
		}
		c, _, err := solve(between(high))
		if err != nil {
			return nil, err
		}
		list = append(list, c)
		begin = math.Min(1, high+1e-9)
		if _, pattern, err = solve(between(begin)); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// inContact is the ledger of a variant with the contact that belongs to the nominal
// factors.
func (r *run) inContact(v *variant) (*ledger.Situation, error) {
	if v.nominal != nil {
		return v.nominal, nil
	}
	v.nominal = v.ledger
	corners, err := r.contacts(v, r.exactly(v.situation, r.nominal(v.situation)))
	if err != nil || len(corners) == 0 {
		return v.nominal, err
	}
	v.nominal = v.with(corners...)
	return v.nominal, nil
}

// with is the ledger of a variant with what the contact of corners adds.
func (v *variant) with(corners ...contactCorner) *ledger.Situation {
	with := *v.ledger
	with.Entries = slices.Clone(v.ledger.Entries)
	for _, c := range corners {
		with.Entries = append(with.Entries, c.entry)
	}
	with.Lay()
	return &with
}

// contactField is what contact adds to the superposed fields under fixed factors.
type contactField struct {
	run      *run
	of       *variant
	a        *arrangement
	response *beam.SpaceResponse
	factors  []float64
	vertical []float64 // of each support, N, upwards
}

func (f *contactField) At(x float64) section.Forces {
	if x < f.a.body.from || x > f.a.body.to {
		return section.Forces{}
	}
	sum := bodyField{&answer{response: f.response}, f.a.body}.At(x)
	for i := range f.of.current {
		e := &f.of.current[i]
		if e.of != f.a {
			continue
		}
		answer, err := f.run.answer(e.of, f.of.ways[e.of], e.load, e.state)
		if err != nil { // answered before
			continue
		}
		sum = sum.Plus(bodyField{answer, e.of.body}.At(x).Times(-e.coefficient * e.under(f.factors)))
	}
	return sum
}
