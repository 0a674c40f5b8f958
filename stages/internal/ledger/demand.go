package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Demand is a question to a situation: its causes with the ranges that a limit
// gives them.
type Demand struct {
	ledger    *Ledger
	situation *Situation
	causes    []Cause
	layouts   [2][]*Combination // prestress outer or inner, by the number of tendons kept apart
	inner     bool              // prestress may be inner: it multiplies no other cause
	planes    [][]Plane         // of each stretch, see columnsOf
	envelope  Envelope
	reach     Reach
	rows      []float64 // Bernstein coefficients of the columns, coefficient by coefficient
	whole     []float64 // those of a whole stretch
	terms     []float64 // of a corner
	sums      []float64 // of its columns
	order     []stretchBound
	corners   []int
	list      []candidate
	best      candidate // the worst so far, at bestAt (m)
	bestAt    float64
	nodes     []wallNode        // for the walls
	filling   []section.Filling // for which they are
	walled    []int             // pieces of which they are; nil for all
	wall      wallRoom
	forces    []bool // of each tendon: stressed
	marked    []bool // anchors of a stretch
	apart     []int  // those marked
	reached   nearAnchors
	tension   tensionRoom
}

// Demand lays out the causes of a situation, one range for each.
func (l *Ledger) Demand(s *Situation, causes []Cause) (*Demand, error) {
	d := &Demand{ledger: l, situation: s, causes: causes, inner: true, forces: make([]bool, len(l.Girder.Tendons))}
	for _, step := range l.Steps[:s.Steps] {
		for _, i := range step.Tendons {
			d.forces[i] = !step.Release
		}
	}
	for _, g := range s.products {
		if slices.Contains(g.outer, s.Prestress) && (g.inner >= 0 || len(g.outer) > 1) {
			d.inner = false
		}
	}
	_, err := d.combination(0)
	return d, err
}

// combination is the layout with a number of tendons kept apart, each with a
// factor from 0 to 1 while a point is not within its spread. Prestress is an inner
// cause where it can be, and the factor of a tendon one of a part of it.
func (d *Demand) combination(apart int) (*Combination, error) { return d.layout(apart, d.inner) }

// layout is a combination with prestress as an inner or as an outer cause.
func (d *Demand) layout(apart int, inner bool) (*Combination, error) {
	laid := &d.layouts[0]
	if inner {
		laid = &d.layouts[1]
	}
	for len(*laid) <= apart {
		*laid = append(*laid, nil)
	}
	if (*laid)[apart] != nil {
		return (*laid)[apart], nil
	}
	s := d.situation
	causes := slices.Clone(d.causes)
	terms := make([]Term, 0, len(s.products)+apart)
	for _, g := range s.products {
		t := Term{Inner: g.inner, Outer: g.outer}
		if inner && slices.Contains(g.outer, s.Prestress) {
			t = Term{Inner: s.Prestress}
		}
		terms = append(terms, t)
	}
	causes[s.Prestress].Outer = !inner
	for range apart {
		causes = append(causes, Cause{Least: 0, Most: 1})
		t := terms[0]
		if inner {
			t.Part = []int{len(causes) - 1}
		} else {
			t.Inner = len(causes) - 1
		}
		terms = append(terms, t)
	}
	c, err := NewCombination(causes, terms)
	(*laid)[apart] = c
	return c, err
}
