package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// PlacedForces are the forces of tendons at the places where checks of a situation govern,
// with what they have lost there: a row for each place and tendon, or for tendons that are
// alike. Its columns are x (m), tendons (number of the group, from 1), angle (rad) and length
// (m) from the left anchor, locked (force after friction and draw-in, N), elastic (loss by
// tendons stressed later, Pa), stiffening and crept (of [tendon.Place]), shrinkage, creep and
// relaxation (losses, Pa), and force (N). Tendons outside of the concrete and pretensioned
// ones are not among them.
type PlacedForces struct {
	Groups []PlacedGroup `json:"t,omitempty"`
	derive.Rows
}

// PlacedGroup is tendons that are alike at a place.
type PlacedGroup struct {
	Tendons []string `json:"m"` // their marks
	Area    float64  `json:"a"` // of the strands of one, m²
}

// Of are the tendons of row i, counted from 0; none where the row has no such number.
func (p PlacedForces) Of(i int) PlacedGroup {
	if i < 0 || i >= len(p.Values) || len(p.Values[i]) < 2 {
		return PlacedGroup{}
	}
	if group := int(p.Values[i][1]); group >= 1 && group <= len(p.Groups) {
		return p.Groups[group-1]
	}
	return PlacedGroup{}
}

// placedColumns are the columns of placed forces; those of losses with time are left out
// where there are none.
var placedColumns = []string{"x", "tendons", "angle", "length", "locked", "elastic", "force", "stiffening", "crept", "shrinkage", "creep", "relaxation"}

// timeless is the number of columns without losses with time.
const timeless = 7

// placedForces are those at some places of a situation, in order.
func (r *run) placedForces(s *situation, places []float64) (PlacedForces, error) {
	var p PlacedForces
	var rows [][]float64
	columns := timeless
	for _, x := range places {
		for _, at := range r.placedAt(s, x) {
			group := slices.IndexFunc(p.Groups, func(g PlacedGroup) bool { return slices.Equal(g.Tendons, at.group.Tendons) })
			if group < 0 {
				group = len(p.Groups)
				p.Groups = append(p.Groups, at.group)
			}
			at.row[1] = float64(group + 1)
			rows = append(rows, at.row)
			if at.lost {
				columns = len(placedColumns)
			}
		}
	}
	if rows == nil {
		return p, nil
	}
	for i := range rows {
		rows[i] = rows[i][:columns]
	}
	var err error
	p.Rows, err = derive.NewRows(placedColumns[:columns], rows, 6)
	return p, err
}

// placed is a row of placed forces.
type placed struct {
	group PlacedGroup
	row   []float64
	lost  bool // with time
}

// placedAt are the rows at one place: those of tendons alike to 1e-9 are one.
func (r *run) placedAt(s *situation, x float64) []placed {
	var list []placed
	v := s.cases[0].ledger
	for i, path := range r.paths {
		if r.forceAt(s.steps, i) == nil || r.pretensioned(i) || r.tendons[i].External || x < path.From() || x > path.To() {
			continue
		}
		area := r.tendons[i].Area()
		one := placed{group: PlacedGroup{[]string{r.tendons[i].Mark}, area}}
		hair := ledger.Inset * r.girder.Length()
		at := math.Max(path.From()+hair, math.Min(path.To()-hair, x)) // an anchor may be at a joint
		force, elastic := r.ledger.TendonForce(v, at, i)
		parts, ok := r.ledger.PartsOfLoss(v, at, i)
		lost := r.ledger.TimeLosses(v, at, i)
		one.lost = ok
		one.row = []float64{x, 0, path.Angle(x), path.Length(x), force + area*lost.Total() + elastic, elastic / area, force, parts.Place.Stiffening, parts.Place.CreepStrain, lost.Shrinkage, lost.Creep, lost.Relaxation}
		k := slices.IndexFunc(list, func(p placed) bool { return p.group.Area == area && slices.EqualFunc(p.row, one.row, nearly) })
		if k < 0 {
			list = append(list, one)
			continue
		}
		list[k].group.Tendons = append(list[k].group.Tendons, r.tendons[i].Mark)
	}
	return list
}

// nearly is true for numbers of which no record tells the difference.
func nearly(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(1e-6, math.Abs(a)) }

// apartAlong is a distance of two places of which no table tells the difference (m).
const apartAlong = 1e-5

// placesOf are the places of checks of which a table is newer than one of the record so far.
func placesOf(checks []Check, before int) []float64 {
	var places []float64
	for _, c := range checks {
		if slices.ContainsFunc(c.Tables, func(n int) bool { return n > before }) && !slices.ContainsFunc(places, func(x float64) bool { return math.Abs(x-c.X) < apartAlong }) {
			places = append(places, c.X)
		}
	}
	return places
}

// valid reports rows of other columns, of a group that is not there, off the element, or
// whose force is not what is left of that after draw-in.
func (p PlacedForces) valid(r Record) error {
	if n := len(p.Columns); n == 0 && len(p.Values) == 0 && len(p.Groups) == 0 {
		return nil
	} else if (n != timeless && n != len(placedColumns)) || !slices.Equal(p.Columns, placedColumns[:n]) {
		return fmt.Errorf("columns %q: must be %q, or the first %d of them", p.Columns, placedColumns, timeless)
	}
	for _, g := range p.Groups {
		if len(g.Tendons) == 0 || !(g.Area > 0 && g.Area < 1) {
			return fmt.Errorf("tendons %q of %g m²: must be at least one, of above 0, below 1 m²", g.Tendons, g.Area)
		}
	}
	for i, row := range p.Values {
		if len(row) != len(p.Columns) || !finite(row...) {
			return fmt.Errorf("row %d with %d numbers: must be %d, each finite", i+1, len(row), len(p.Columns))
		}
		group := int(row[1])
		if !r.on(row[0]) || float64(group) != row[1] || group < 1 || group > len(p.Groups) {
			return fmt.Errorf("row %d at x = %g m of tendons %g: must be on the element, 0 to %g m, and 1 to %d", i+1, row[0], row[1], r.Length, len(p.Groups))
		}
		left := row[4] - row[5]*p.Groups[group-1].Area
		for _, loss := range row[min(len(row), timeless+2):] {
			left -= loss * p.Groups[group-1].Area
		}
		if !(math.Abs(left-row[6]) <= 20+1e-6*math.Abs(row[4])) {
			return fmt.Errorf("row %d: force at x = %g m = %g N: must be %g N, what its losses leave of %g N", i+1, row[0], row[6], left, row[4])
		}
	}
	return nil
}
