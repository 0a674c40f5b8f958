package segmental

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// Result is the casting curve as tables and figures for [stages.Record.Append]: of each arm
// from its pier outwards what the cell or the form sets, of each step the target levels, and
// what an error at a joint does to the tip.
func (c CastingCurve) Result() stages.ResultPart {
	part := stages.ResultPart{Title: "Casting curve, " + string(c.Rule), Notes: slices.Clone(c.Notes)}
	for _, arm := range c.arms() {
		part.Tables = append(part.Tables, c.table(arm))
	}
	if t := c.errors(); len(t.Rows) > 0 {
		part.Tables = append(part.Tables, t)
	}
	for _, s := range c.Levels {
		part.Tables = append(part.Tables, s.table())
	}
	part.Figures = []stages.Figure{c.drawnCurve(), c.drawnSteps()}
	return part
}

// arms are the joints of each arm, from its pier outwards.
func (c CastingCurve) arms() (list [][]CastingJoint) {
	at := map[string]int{}
	for _, j := range c.Joints {
		k, known := at[j.Arm]
		if !known {
			k = len(list)
			at[j.Arm], list = k, append(list, nil)
		}
		list[k] = append(list[k], j)
	}
	for _, arm := range list {
		if n := len(arm); arm[0].Lever < arm[n-1].Lever {
			slices.Reverse(arm)
		}
	}
	return list
}

// column is the head of a column of small lengths or angles, or of one in metres.
func column(name string, unit formula.Unit, small bool) stages.ValueColumn {
	return stages.ValueColumn{Name: name, Unit: unit, Small: small}
}

func (c CastingCurve) table(arm []CastingJoint) stages.ValueTable {
	t := stages.ValueTable{RowHead: "Joint", Columns: []stages.ValueColumn{column("x", formula.Metre, false), column("deflection", formula.Metre, true),
		column("min", formula.Metre, true), column("max", formula.Metre, true), column("camber", formula.Metre, true)}}
	switch c.Rule {
	case FormReset:
		t.Title = "Form levels, " + arm[0].Arm + ": deflection after the form is set, ordinate above the line of the pier segment, angle of the form against the chord of the segment before it"
		t.Columns = append(t.Columns, column("ordinate", formula.Metre, true), column("angle", formula.Radian, true))
	default:
		t.Title = "Casting curve, " + arm[0].Arm + ": total deflection, ordinate above the line of the pier segment, angle of the new segment and offset of the far end of the old one in the cell, + upwards"
		t.Columns = append(t.Columns, column("ordinate", formula.Metre, true), column("angle", formula.Radian, true), column("offset", formula.Metre, true))
	}
	for _, j := range arm {
		row := []float64{j.X, j.Deflection, j.Least, j.Most, j.Camber, j.Ordinate, j.Angle}
		if c.Rule == MatchCast {
			row = append(row, j.Offset)
		}
		name := j.Name
		if j.Cast == "" {
			name += " (nothing cast against it)"
		}
		t.RowNames, t.Rows = append(t.RowNames, name), append(t.Rows, row)
	}
	return t
}

// errors is the table of what an error at a joint does to the tip of its arm.
func (c CastingCurve) errors() stages.ValueTable {
	const angle, wedge = 1e-3, 1e-3 // rad, m
	t := stages.ValueTable{Title: "Error at a joint: how far it moves the tip of the arm, for 1 mrad and for epoxy 1 mm thicker at one end of the face", RowHead: "Joint",
		Columns: []stages.ValueColumn{column("lever", formula.Metre, false), column("depth", formula.Metre, false), column("tip, 1 mrad", formula.Metre, true), column("tip, 1 mm of epoxy", formula.Metre, true)}}
	for _, j := range c.Joints {
		if j.Cast == "" {
			continue
		}
		t.RowNames, t.Rows = append(t.RowNames, j.Name), append(t.Rows, []float64{j.Lever, j.Depth, angle * j.Lever, wedge / j.Depth * j.Lever})
	}
	return t
}

func (s StepLevels) table() stages.ValueTable {
	t := stages.ValueTable{Title: fmt.Sprintf("Target levels after step %d, %s, day %g; %s", s.Step, s.Name, s.Day, s.Equipment), RowHead: "Joint",
		Columns: []stages.ValueColumn{column("x", formula.Metre, false), column("level", formula.Metre, false), column("deflection so far", formula.Metre, true), column("creep ±", formula.Metre, true), column("slope", formula.Radian, true)}}
	for i, j := range s.Joints {
		t.RowNames, t.Rows = append(t.RowNames, j.Name), append(t.Rows, []float64{j.X, j.Level, j.Deflection, (j.Most - j.Least) / 2, j.Slope})
		if j.New {
			t.Stage, t.Stated = s.Step, append(t.Stated, i+1)
		}
	}
	return t
}

// drawnCurve is the figure of deflection and camber.
func (c CastingCurve) drawnCurve() stages.Figure {
	lines := []stages.Polyline{{Name: "camber"}, {Name: "deflection"}, {Name: "deflection, minimum"}, {Name: "deflection, maximum"}}
	for _, j := range c.Joints {
		for k, z := range [4]float64{j.Camber, j.Deflection, j.Least, j.Most} {
			lines[k].Points = append(lines[k].Points, [2]float64{j.X, z})
		}
	}
	return stages.Figure{Title: "Camber and deflection after the last step, " + string(c.Rule), XUnit: string(formula.Metre), YUnit: string(formula.Metre), Exaggerated: true, Lines: lines}
}

// mostDrawn is how many steps are told apart by their lines.
const mostDrawn = 5

// drawnSteps is the figure of deflections by step: of all, or of steps evenly apart and the
// last.
func (c CastingCurve) drawnSteps() stages.Figure {
	f := stages.Figure{Title: "Deflection by step, " + string(c.Rule), XUnit: string(formula.Metre), YUnit: string(formula.Metre), Exaggerated: true}
	n := min(mostDrawn, len(c.Levels))
	for k := 1; k <= n; k++ {
		s := c.Levels[(k*len(c.Levels)+n-1)/n-1]
		line := stages.Polyline{Name: fmt.Sprintf("step %d.%d", s.Step, s.Move)}
		for _, j := range s.Joints {
			line.Points = append(line.Points, [2]float64{j.X, j.Deflection})
		}
		f.Lines = append(f.Lines, line)
	}
	return f
}

// notes are what the values are and what is neglected.
func (f *follower) notes() []string {
	list := map[CastingRule][]string{
		MatchCast: {"Match-cast: camber is minus the total deflection of all stages; segments not placed yet are carried along on the tangent of the tip.",
			"In the cell the far end of the old segment is set by the offset above the extended axis of the new one. Adjust for measured as-cast geometry before the next segment is cast."},
		FormReset: {"Cast in place: only the deflection after the form of a segment is set counts; its outer joint is set at design level + camber. The deflection of the form traveller itself under the wet concrete is not included."},
	}[f.casting.Rule]
	last := f.seen[len(f.seen)-1]
	list = append(list,
		fmt.Sprintf("The deck is at its design profile after the last step of the plan, %s, day %g; what comes later is not included.", last.name, last.day),
		"Target levels are of the deck with its frames where they are stated, without a segment on the hook and without working loads; survey at an even temperature, at dawn.",
		"Minimum and maximum: creep 30 % less and more; its effect on the forces by redistribution is that of the mean.",
		"New supports are set to the deck as it is; where supports change the deck stays where it was.",
		"Neglected: shear deformation, compression of supports, temperature, cracking, twist, slip and thickness of epoxy.")
	if len(f.state.frames) > 0 {
		list = append(list, fmt.Sprintf("The deck is at its design profile with the equipment of that step on it, %s: what the deck does when that leaves is not included.", f.state.equipment()))
	}
	if len(f.casting.Shifts) == 0 {
		return append(list, "Neglected: rotation and settlement of piers and foundations.")
	}
	for _, s := range f.casting.Shifts {
		list = append(list, fmt.Sprintf("Stated: pier segment %s turns by %.3f mrad (+ raises the right arm) and settles by %.1f mm in step %d.", s.Segment, s.Rotation*1e3, s.Settlement*1e3, s.Step))
	}
	return list
}
