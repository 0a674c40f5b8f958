package stages

import (
	"errors"
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// places are the places of Moves.
func (m *Movement) places(r *run, b *body, a *arrangement) {
	m.at = append(m.at, place{b.from, "left end"}, place{b.to, "right end"})
	var lines []float64
	for _, i := range a.ways[0].set {
		lines = append(lines, a.supports[i].X)
	}
	slices.Sort(lines)
	lines = slices.CompactFunc(lines, func(p, q float64) bool { return math.Abs(q-p) < r.girder.near() })
	for i, x := range lines {
		m.at = append(m.at, place{x, "support"})
		if i > 0 {
			m.at = append(m.at, place{(lines[i-1] + x) / 2, "mid-span"})
		}
	}
	for _, k := range b.pieces {
		for _, x := range []float64{r.girder.Pieces[k].At, r.girder.Pieces[k].To()} {
			if x > b.from && x < b.to {
				m.at = append(m.at, place{x, "joint"})
			}
		}
	}
	m.peaks(m.up, "highest", "lowest")
	m.peaks(m.aside, "largest bow", "largest bow")
	slices.SortStableFunc(m.at, func(p, q place) int {
		if p.x < q.x {
			return -1
		} else if p.x > q.x {
			return 1
		}
		return 0
	})
	m.at = slices.CompactFunc(m.at, func(p, q place) bool { return math.Abs(q.x-p.x) < r.girder.near() })
}

// peaks adds the highest and the lowest place of a line between its ends.
func (m *Movement) peaks(of [2]*referred, highest, lowest string) {
	at := func(x float64) (value, slope float64) {
		for _, part := range of {
			v, s := part.at(x)
			value, slope = value+v, slope+s
		}
		return value, slope
	}
	high, low := place{math.NaN(), highest}, place{math.NaN(), lowest}
	most, least := math.Inf(-1), math.Inf(1)
	for _, x := range ledger.Turns(at, m.stretches) {
		v, _ := at(x)
		if v > most {
			most, high.x = v, x
		}
		if v < least {
			least, low.x = v, x
		}
	}
	if most > 0 {
		m.at = append(m.at, high)
	}
	if least < 0 {
		m.at = append(m.at, low)
	}
}

// moveColumns are the columns of rows of movements.
var moveColumns = []string{"body", "x", "deflection", "least", "most", "bow", "along"}

// moves are the movements of a situation as rows, and what they leave out.
func (r *run) moves(s *situation) (rows derive.Rows, notes []string, err error) {
	list, err := r.movements(s)
	switch {
	case errors.Is(err, errLiftsOff):
		return rows, []string{"not evaluated: a support lifts off, movements cannot be followed"}, nil
	case err != nil:
		return rows, nil, err
	}
	var values [][]float64
	for i, m := range list {
		for _, v := range m.Moves() {
			values = append(values, []float64{float64(i + 1), v.X, v.Deflection, v.Least, v.Most, v.Bow, v.Along})
		}
	}
	if len(values) > 0 {
		rows, err = derive.NewRows(moveColumns, values, tableDigits)
	}
	return rows, r.moveNotes(s), err
}

// moveNotes says what the movements of a situation leave out.
func (r *run) moveNotes(s *situation) []string {
	var notes []string
	if !s.Standing {
		return nil
	}
	if !r.longTerm() {
		notes = append(notes, "without creep and shrinkage: no element has a LongTerm model")
	}
	notes = append(notes,
		"referred to the supports as level and rigid: their own compression is not included",
		"curvature from shrinkage restrained by bonded steel off the centroid is neglected")
	if r.girder.Radius != 0 {
		notes = append(notes, "curved in plan: bending along the axis only; what twist adds to the deflection of a curved element is left out")
	}
	for _, a := range s.acts {
		if a.bounded {
			notes = append(notes, "supports about whose sharing nothing is stated: deflections are those of the first way, redistribution by creep is not evaluated")
			break
		}
	}
	if slices.ContainsFunc(s.bodies, func(b *body) bool { return r.sideBySide(b) }) {
		notes = append(notes, "pieces side by side: the movement is that of the first piece; unlike creep and shrinkage of pieces of one body are neglected")
	}
	return notes
}

// sideBySide is true for a body with pieces side by side or on top of each other.
func (r *run) sideBySide(b *body) bool {
	for i, k := range b.pieces {
		for _, j := range b.pieces[:i] {
			p, q := r.girder.Pieces[k], r.girder.Pieces[j]
			if math.Min(p.To(), q.To())-math.Max(p.At, q.At) > r.girder.near() {
				return true
			}
		}
	}
	return false
}
