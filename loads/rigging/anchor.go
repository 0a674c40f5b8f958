package rigging

import (
	"fmt"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
)

// AtStrength is the working load limit of an anchor at a strength of the concrete.
type AtStrength struct {
	Strength float64 // of the concrete on the day, Pa, 1e6 to 200e6
	Load     float64 // N, 100 to 10e6
}

// AtAngle is the share of the working load limit at an angle of pull.
type AtAngle struct {
	FromAxis float64 // of the pull from the axis of the anchor, rad, 0 to 1.571
	Share    float64 // above 0, at most 1
}

// AtEdge is the share of the working load limit at a distance from an edge.
type AtEdge struct {
	Distance float64 // of the axis of the anchor from the nearest edge, m, 0.01 to 10
	Share    float64 // above 0, at most 1
}

// Anchor is a lifting anchor cast into the concrete, with the working load limits that
// its maker gives, for the anchor with its reinforcement as the maker asks. Where a limit
// lies between two rows of a table, the safe one counts.
type Anchor struct {
	Mark        string            // maker's name and size
	Source      formula.Source    // the maker's document, with its edition
	Specimen    concrete.Specimen // of the strengths of Loads: Cylinder or Cube; must be stated
	Loads       []AtStrength      // strength ascending, loads not falling, 1 to 50 rows
	Interpolate bool              // the maker permits loads between the strengths; else the next lower strength counts
	Angles      []AtAngle         // ascending, shares not rising, 1 to 50 rows: the next larger angle counts
	Edges       []AtEdge          // distance ascending, shares not falling, 1 to 50 rows: the next smaller distance counts
}

// AnchorLimit is the working load limit of an anchor in one place.
type AnchorLimit struct {
	Row   AtStrength // that counts
	Angle AtAngle    // that counts
	Edge  AtEdge     // that counts
	Load  float64    // the limit: the load of the row times both shares, N
}

// Check reports the first thing that no anchor has; the error wraps [ErrRigging].
func (a Anchor) Check() error {
	switch {
	case a.Mark == "":
		return fmt.Errorf("%w: Anchor.Mark is empty: must be the maker's name and size", ErrRigging)
	case a.Source.Document == "":
		return fmt.Errorf("%w: Anchor.Source of %s is empty: must name the maker's document", ErrRigging, a.Mark)
	case a.Specimen != concrete.Cylinder && a.Specimen != concrete.Cube:
		return fmt.Errorf("%w: Anchor.Specimen of %s is not stated: must be Cylinder or Cube", ErrRigging, a.Mark)
	}
	for _, table := range []struct {
		name string
		rows int
	}{{"Loads", len(a.Loads)}, {"Angles", len(a.Angles)}, {"Edges", len(a.Edges)}} {
		if table.rows < 1 || table.rows > 50 {
			return fmt.Errorf("%w: Anchor.%s of %s has %d rows: must be 1 to 50", ErrRigging, table.name, a.Mark, table.rows)
		}
	}
	return a.checkRows()
}

func (a Anchor) checkRows() error {
	const leastShare = 1e-3
	for i, r := range a.Loads {
		if err := within(fmt.Sprintf("Anchor.Loads[%d]", i), bound{"Strength", r.Strength, "Pa", 1e6, 200e6}, bound{"Load", r.Load, "N", 100, 10e6}); err != nil {
			return err
		}
		if i > 0 && (r.Strength <= a.Loads[i-1].Strength || r.Load < a.Loads[i-1].Load) {
			return fmt.Errorf("%w: Anchor.Loads[%d] of %s: %g N at %g Pa: must be at a higher strength than the row before, with a load that does not fall", ErrRigging, i, a.Mark, r.Load, r.Strength)
		}
	}
	for i, r := range a.Angles {
		if err := within(fmt.Sprintf("Anchor.Angles[%d]", i), bound{"FromAxis", r.FromAxis, "rad", 0, 1.571}, bound{"Share", r.Share, "", leastShare, 1}); err != nil {
			return err
		}
		if i > 0 && (r.FromAxis <= a.Angles[i-1].FromAxis || r.Share > a.Angles[i-1].Share) {
			return fmt.Errorf("%w: Anchor.Angles[%d] of %s: %g at %g rad: must be at a larger angle than the row before, with a share that does not rise", ErrRigging, i, a.Mark, r.Share, r.FromAxis)
		}
	}
	for i, r := range a.Edges {
		if err := within(fmt.Sprintf("Anchor.Edges[%d]", i), bound{"Distance", r.Distance, "m", 0.01, 10}, bound{"Share", r.Share, "", leastShare, 1}); err != nil {
			return err
		}
		if i > 0 && (r.Distance <= a.Edges[i-1].Distance || r.Share < a.Edges[i-1].Share) {
			return fmt.Errorf("%w: Anchor.Edges[%d] of %s: %g at %g m: must be at a larger distance than the row before, with a share that does not fall", ErrRigging, i, a.Mark, r.Share, r.Distance)
		}
	}
	return nil
}

// Limit is the working load limit at a strength of the concrete on the day (Pa, of the
// anchor's Specimen), an angle of the pull from the axis of the anchor (rad) and a
// distance from the nearest edge (m). Above the highest strength and the largest
// distance of the tables their last rows count. The error wraps [ErrRigging]: a strength
// or a distance below the tables, an angle beyond them.
func (a Anchor) Limit(strength, fromAxis, edge float64) (AnchorLimit, error) {
	if err := a.Check(); err != nil {
		return AnchorLimit{}, err
	}
	lowest, flattest, nearest := a.Loads[0].Strength, a.Angles[len(a.Angles)-1].FromAxis, a.Edges[0].Distance
	err := within("Anchor.Limit", bound{"strength", strength, "Pa", lowest, 200e6}, bound{"fromAxis", fromAxis, "rad", 0, flattest}, bound{"edge", edge, "m", nearest, 1000})
	if err != nil {
		return AnchorLimit{}, fmt.Errorf("%w, the tables of %s", err, a.Mark)
	}
	angle, near := 0, 0
	for a.Angles[angle].FromAxis < fromAxis {
		angle++
	}
	for near+1 < len(a.Edges) && a.Edges[near+1].Distance <= edge {
		near++
	}
	row, next := a.rows(strength)
	r := AnchorLimit{Row: row, Angle: a.Angles[angle], Edge: a.Edges[near]}
	if next != nil {
		r.Row = AtStrength{strength, row.Load + (next.Load-row.Load)*(strength-row.Strength)/(next.Strength-row.Strength)}
	}
	r.Load = r.Row.Load * r.Angle.Share * r.Edge.Share
	return r, nil
}

// rows are the row of the highest strength that is reached, and the next one where the
// load is interpolated.
func (a Anchor) rows(strength float64) (row AtStrength, next *AtStrength) {
	i := 0
	for i+1 < len(a.Loads) && a.Loads[i+1].Strength <= strength {
		i++
	}
	if a.Interpolate && i+1 < len(a.Loads) && strength > a.Loads[i].Strength {
		next = &a.Loads[i+1]
	}
	return a.Loads[i], next
}
