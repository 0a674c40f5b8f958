package stages

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// stationColumns are the columns of rows of stations; one that is zero throughout is
// left out.
var stationColumns = []string{"x", "N", "Vy", "Vz", "T", "My", "Mz", "NP", "VyP", "VzP", "TP", "MyP", "MzP", "topLeast", "topMost", "bottomLeast", "bottomMost", "yc", "zc"}

// fields are the numbers of a station in the order of stationColumns.
func (s *Station) fields() []*float64 {
	w, p := &s.Weight, &s.Prestress
	return []*float64{&s.X, &w.N, &w.Vy, &w.Vz, &w.T, &w.My, &w.Mz, &p.N, &p.Vy, &p.Vz, &p.T, &p.My, &p.Mz, &s.TopLeast, &s.TopMost, &s.BottomLeast, &s.BottomMost, &s.Axis.Y, &s.Axis.Z}
}

func (s Station) row() []float64 {
	row := make([]float64, len(stationColumns))
	for i, v := range s.fields() {
		row[i] = *v
	}
	return row
}

// StationsOf are the stations of rows of a situation.
func StationsOf(rows derive.Rows) []Station {
	list := make([]Station, len(rows.Values))
	for i, values := range rows.Values {
		if len(values) != len(rows.Columns) {
			return nil
		}
		fields := list[i].fields()
		for j, v := range values {
			if k := slices.Index(stationColumns, rows.Columns[j]); k >= 0 {
				*fields[k] = v
			}
		}
	}
	return list
}

// trifling is a force (N), a moment (N·m) or a stress (Pa) that is rounding of the
// computation: those of an element are many orders larger.
const trifling = 1e-3

// stationRows are rows of stations without the columns that are zero throughout.
func stationRows(rows [][]float64, digits int) (derive.Rows, error) {
	var columns []string
	kept := make([][]float64, len(rows))
	for j, name := range stationColumns {
		if j > 0 && !slices.ContainsFunc(rows, func(row []float64) bool { return math.Abs(row[j]) > trifling }) {
			continue
		}
		columns = append(columns, name)
		for i, row := range rows {
			kept[i] = append(kept[i], row[j])
		}
	}
	return derive.NewRows(columns, kept, digits)
}

// Digits of the largest number of a column: 10 Pa in 20 MPa for the table, a
// thousandth of what can be seen for figures.
const (
	tableDigits   = 6
	diagramDigits = 5
)

// stations are the internal forces and stresses at the places of the table, and the diagram
// where its curves bend or jump.
func (r *run) stations(s *situation) (table, diagram derive.Rows, err error) {
	answers, _, err := r.ask(r.question(s, limits.Compression, s.carried()[0]))
	if err != nil {
		return table, diagram, err
	}
	limit := limits.Limit{}
	if len(answers) > 0 {
		limit = answers[0]
	}
	var rows [][]float64
	for _, x := range r.stationPlaces(s) {
		for _, at := range r.sidesAt(s, x) {
			station, err := r.station(s, limit, at)
			if err != nil {
				return table, diagram, err
			}
			station.X = x
			row := station.row()
			if n := len(rows); n > 0 && rows[n-1][0] == x && !jumps(rows[n-1], row) {
				continue
			}
			rows = append(rows, row)
		}
	}
	if table, err = stationRows(rows, tableDigits); err != nil {
		return table, diagram, err
	}
	rows = nil
	for k, p := range r.ledger.Grid() {
		for _, n := range []int{0, ledger.Nodes / 2, ledger.Nodes - 1} {
			station, err := r.station(s, limit, placeOf{p.At[n].X, k, n})
			if err != nil {
				return table, diagram, err
			}
			rows = append(rows, station.row())
		}
	}
	diagram, err = stationRows(thinned(rows, hairlines(rows)), diagramDigits)
	return table, diagram, err
}

// stationPlaces are the places of the table of a situation, from left to right (m): supports,
// ends and eighths of the length; of a girder of segments that is built in brief situations
// supports, ends of bodies and joints that act.
func (r *run) stationPlaces(s *situation) []float64 {
	length := r.girder.Length()
	var xs []float64
	if r.jointed() {
		for _, j := range r.joints(s) {
			xs = append(xs, j.x)
		}
		for _, of := range r.extents(s) {
			xs = append(xs, of[0], of[1])
		}
	} else {
		for i := range 9 {
			xs = append(xs, length*float64(i)/8)
		}
	}
	for _, support := range s.Supports {
		xs = append(xs, support.X)
	}
	slices.Sort(xs)
	return slices.CompactFunc(xs, func(a, b float64) bool { return math.Abs(b-a) < 1e-6*length })
}

// jointed is true for a girder with joints across its length, in a plan that has brief
// situations: their joints are tabulated, also in those that are not brief.
func (r *run) jointed() bool {
	return slices.ContainsFunc(r.girder.Pieces, func(p Piece) bool { return p.Joint != Monolithic }) &&
		slices.ContainsFunc(r.situations, func(s *situation) bool { return s.Brief })
}

// sidesAt are the places at which a row of the table is looked at: both sides of a joint, the
// side of an end that is in the body.
func (r *run) sidesAt(s *situation, x float64) []placeOf {
	any := []placeOf{{x: r.inside(x), stretch: -1}}
	if !r.jointed() {
		return any
	}
	var list []placeOf
	for _, at := range r.ledger.Beside(x) {
		nodes := r.ledger.Grid()[at[0]].At
		middle := nodes[len(nodes)/2].X
		if slices.ContainsFunc(r.extents(s), func(of [2]float64) bool { return of[0] < middle && middle < of[1] }) {
			list = append(list, placeOf{nodes[at[1]].X, at[0], at[1]})
		}
	}
	if len(list) == 0 {
		return any
	}
	return list
}

// jumps is true for rows of two sides of a place that a table shows as different.
func jumps(left, right []float64) bool {
	for j := 1; j < len(left); j++ {
		if math.Abs(left[j]-right[j]) > math.Max(jumpOf(stationColumns[j]), 1e-4*math.Abs(left[j])) {
			return true
		}
	}
	return false
}

// jumpOf is the least jump of a column that is written down: 0.1 mm, 100 N or N·m, 1 kPa.
func jumpOf(column string) float64 {
	switch column {
	case "yc", "zc":
		return 1e-4
	case "topLeast", "topMost", "bottomLeast", "bottomMost":
		return 1e3
	}
	return 100
}

// placeOf is a place along the girder: a node of a stretch, or any x.
type placeOf struct {
	x             float64 // m
	stretch, node int     // the stretch -1 for any x
}

// forces are the internal forces of a variant, by its ledger, at a place.
func (r *run) forces(in *ledger.Situation, p placeOf, factors []float64) section.Forces {
	if p.stretch < 0 {
		return r.ledger.Forces(in, p.x, factors)
	}
	return r.ledger.ForcesAt(in, p.stretch, p.node, factors)
}

// fibres are the stresses of the lowest and the highest corners at a place.
func (m march) fibres(p placeOf) (low, high [2]float64, err error) {
	if p.stretch < 0 {
		return m.Fibres(p.x)
	}
	return m.FibresAt(p.stretch, p.node)
}

// station is one row of a situation.
func (r *run) station(s *situation, limit limits.Limit, p placeOf) (Station, error) {
	v := s.cases[0]
	one := r.nominal(s)
	none := slices.Clone(one)
	none[v.ledger.Prestress] = 0
	record := Station{X: p.x}
	for i := range s.current {
		e := &s.current[i]
		factor := 1.0
		if e.inner >= 0 {
			factor = one[e.inner]
		}
		if slices.Contains(e.outer, v.ledger.Prestress) {
			continue
		}
		answer, err := r.answer(e.of, v.ways[e.of], e.load, e.state)
		if err != nil {
			return record, err
		}
		record.Weight = record.Weight.Plus(bodyField{answer, e.of.body}.At(p.x).Times(e.coefficient * factor))
	}
	in, err := r.inContact(v) // what opens under the prestress counts as its effect
	if err != nil {
		return record, err
	}
	record.Prestress = r.forces(in, p, one).Plus(r.forces(v.ledger, p, none).Times(-1))
	record.Axis = r.centroidAt(s, p)
	record.Weight, record.Prestress = about(record.Weight, record.Axis), about(record.Prestress, record.Axis)
	empty := Range{Least: math.Inf(1), Most: math.Inf(-1)}
	top, bottom := empty, empty
	marches, err := r.marches(s, limit)
	if err != nil {
		return record, err
	}
	for _, m := range marches {
		low, high, err := m.fibres(p)
		if err != nil {
			return record, err
		}
		bottom = Range{Least: math.Min(bottom.Least, low[0]), Most: math.Max(bottom.Most, low[1])}
		top = Range{Least: math.Min(top.Least, high[0]), Most: math.Max(top.Most, high[1])}
	}
	record.TopLeast, record.TopMost, record.BottomLeast, record.BottomMost = top.Least, top.Most, bottom.Least, bottom.Most
	return record, nil
}

// centroidAt is the centroid of the gross section of the first element that is carried
// at a place, on the side of its stretch.
func (r *run) centroidAt(s *situation, p placeOf) section.Point {
	x := p.x
	if p.stretch >= 0 {
		at := r.ledger.Grid()[p.stretch].At
		x += ledger.Inset * (at[len(at)/2].X - x)
	}
	for _, k := range s.carried() {
		if of := r.girder.Pieces[k]; x >= of.At && x <= of.To() {
			return of.Element.Section.At(x - of.At).Properties().Centroid
		}
	}
	return section.Point{}
}

// about are forces about y = z = 0 with their bending moments about another axis.
func about(f section.Forces, axis section.Point) section.Forces {
	f.My += f.N * axis.Z
	f.Mz += f.N * axis.Y
	return f
}
