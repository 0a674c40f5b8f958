package ledger

import (
	"bytes"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Demand is a question to a situation: its causes with the ranges that a limit
// gives them.
type Demand struct {
	ledger    *Ledger
	situation *Situation
	causes    []Cause
	layouts   [2]map[string]*Combination // prestress outer or inner, by the tendons kept apart and those of them that have a column
	laid      [2][]*Combination          // the same of each stretch
	counted   []byte                     // room
	inner     bool                       // prestress may be inner: it multiplies no other cause
	full      bool                       // all tendons count in full wherever they are
	planes    [][]Plane                  // of each stretch, see columnsOf
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

// InFull is the same question with all tendons in full before they have spread.
func (d *Demand) InFull() (*Demand, error) {
	of, err := d.ledger.Demand(d.situation, d.causes)
	if err == nil {
		of.full = true
	}
	return of, err
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
	d.counted = d.counted[:0]
	for range apart {
		d.counted = append(d.counted, 1)
	}
	return d.layoutFor(d.counted, inner)
}

// stretchLayout is the combination of a stretch: the tendons that spread in it and are
// stressed have a column of their own, the others count in full whatever the place.
func (d *Demand) stretchLayout(p *Stretch) (*Combination, error) { return d.layoutIn(p, d.inner) }

// layoutIn is stretchLayout with prestress as an inner or as an outer cause.
func (d *Demand) layoutIn(p *Stretch, inner bool) (*Combination, error) {
	laid := &d.laid[index(inner)]
	if *laid == nil {
		*laid = make([]*Combination, len(d.ledger.grid))
	}
	if c := (*laid)[p.number]; c != nil {
		return c, nil
	}
	d.counted = d.counted[:0]
	for i := range p.spreading {
		d.counted = append(d.counted, byte(index(d.hasColumn(p, i))))
	}
	c, err := d.layoutFor(d.counted, inner)
	(*laid)[p.number] = c
	return c, err
}

// hasColumn is true for an anchor of a stretch at which the part of a stressed tendon is kept.
func (d *Demand) hasColumn(p *Stretch, i int) bool {
	s := &p.spreading[i]
	return s.own == i && d.stressed(s)
}

func index(second bool) int {
	if second {
		return 1
	}
	return 0
}

// layoutFor is the layout with tendons kept apart of which those with 1 have a column.
func (d *Demand) layoutFor(counted []byte, inner bool) (*Combination, error) {
	laid := &d.layouts[index(inner)]
	if c := (*laid)[string(counted)]; c != nil {
		return c, nil
	}
	if *laid == nil {
		*laid = map[string]*Combination{}
	}
	apart := len(counted)
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
	for _, has := range counted {
		causes = append(causes, Cause{Least: 0, Most: 1})
		t := terms[0]
		switch {
		case has == 0: // with the others
		case inner:
			t.Part = []int{len(causes) - 1}
		default:
			t.Inner = len(causes) - 1
		}
		terms = append(terms, t)
	}
	c, err := NewCombination(causes, terms)
	if err != nil {
		return nil, err
	}
	c.apart = bytes.Count(counted, []byte{1})
	(*laid)[string(counted)] = c
	return c, nil
}
