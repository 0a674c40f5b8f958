package stages_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// halfOf is an element of an unsymmetric section, a web with a table to the side away
// from y = 0, from y = side·0.1 on, with a straight tendon in its web where it has a
// force (Pa).
func halfOf(t testing.TB, mark string, side, fck, jacked float64) (stages.Element, []tendon.Jacking) {
	corners := section.Outline{{Y: 0.1}, {Y: 0.5}, {Y: 0.5, Z: 1.2}, {Y: 1.2, Z: 1.2}, {Y: 1.2, Z: 1.4}, {Y: 0.1, Z: 1.4}}
	if side < 0 {
		for i := range corners {
			corners[i].Y = -corners[i].Y
		}
		slices.Reverse(corners)
	}
	shape, err := section.New([]section.Outline{corners}, nil)
	require.NoError(t, err)
	e := stages.Element{Mark: mark, Length: 12, Section: shape, WeightTolerance: loads.PlusMinus(0.03), Concrete: concrete.EN1992{Fck: fck, Cement: concrete.ClassR}}
	if jacked == 0 {
		return e, nil
	}
	e.Tendons = []tendon.Tendon{{
		Mark: "T" + mark, Strand: tendon.Y1860S7x157, Strands: 3, Duct: 0.05, Elevation: tendon.Level(0, 12, 0.5), Plan: tendon.Level(0, 12, side*0.3), Friction: 0.19, Wobble: 0.005,
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 25e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}}
	return e, []tendon.Jacking{{Tendons: []string{"T" + mark}, Stress: jacked, Ends: tendon.LeftEnd, DrawIn: 0.004}}
}

// under are supports of a half.
func under(side, inset float64) []stages.Support {
	return []stages.Support{{X: inset, Y: side * 0.15}, {X: inset, Y: side * 0.45}, {X: 12 - inset, Y: side * 0.3}}
}

// pressed are the same with the single one below the centre of gravity: all are pressed.
func pressed(side, inset float64) []stages.Support {
	on := under(side, inset)
	on[2].Y = side * 0.41
	return on
}

// wallOf are the checks of the walls of the first situation of a stage.
func wallOf(t testing.TB, r stages.Record, stage int, kind limits.Kind) (list []stages.Check) {
	for _, c := range r.Stages[stage-1].Situations[0].Checks {
		if c.Kind == kind {
			list = append(list, c)
		}
	}
	require.NotEmpty(t, list)
	return list
}

// Two elements side by side that are not joined yet each meet the limit of their own
// concrete: the check that governs is the one that governs alone, and names its element.
func TestWallsOfElementsSideBySide(t *testing.T) {
	for name, c := range map[string]struct{ fck, jacked [2]float64 }{
		"mirror images":        {[2]float64{50e6, 50e6}, [2]float64{}},
		"unlike concretes":     {[2]float64{30e6, 60e6}, [2]float64{}},
		"one is prestressed":   {[2]float64{40e6, 60e6}, [2]float64{0, 1200e6}},
		"both are prestressed": {[2]float64{60e6, 45e6}, [2]float64{1000e6, 1300e6}},
	} {
		var alone [2]stages.Record
		var girder stages.Girder
		var both []stages.Support
		var pulls []tendon.Jacking
		plan := func(on []stages.Support, jacking []tendon.Jacking) stages.Plan {
			store := stages.Store{Age: 28, On: on}
			if len(jacking) == 0 {
				return stages.Plan{stages.Store{Age: 7, On: on}, store}
			}
			return stages.Plan{stages.Transfer{Age: 7, On: on, Jacking: jacking}, store}
		}
		for i, side := range []float64{1, -1} {
			e, jacking := halfOf(t, []string{"L", "R"}[i], side, c.fck[i], c.jacked[i])
			var err error
			alone[i], err = plan(under(side, 2.5), jacking).Run(e, limits.EN1992{})
			require.NoError(t, err)
			girder.Pieces = append(girder.Pieces, stages.Piece{Element: e})
			both, pulls = append(both, under(side, 2.5)...), append(pulls, jacking...)
		}
		girder.Mark = "D"
		record, err := plan(both, pulls).Run(girder, limits.EN1992{})
		require.NoError(t, err)
		require.NoError(t, record.Check())
		for stage := 1; stage <= 2; stage++ {
			for _, kind := range []limits.Kind{limits.PrincipalTension, limits.WebShear} {
				got := wallOf(t, record, stage, kind)
				require.Len(t, got, 1, "%s, stage %d", name, stage)
				left, right := wallOf(t, alone[0], stage, kind), wallOf(t, alone[1], stage, kind)
				require.Len(t, left, 1, "%s, stage %d", name, stage)
				require.Len(t, right, 1, "%s, stage %d", name, stage)
				want, mark := left[0], "L"
				if right[0].Utilisation > left[0].Utilisation {
					want, mark = right[0], "R"
				}
				if math.Abs(left[0].Utilisation-right[0].Utilisation) > 1e-9 {
					require.True(t, strings.HasPrefix(got[0].Place, mark+", wall at"), "%s: %s", name, got[0].Place)
				}
				require.InEpsilon(t, want.Utilisation, got[0].Utilisation, 1e-9, "%s, stage %d", name, stage)
				require.NotEqual(t, stages.NotEvaluated, got[0].State)
				require.NotEmpty(t, got[0].Tables, "shown")
				if name == "mirror images" {
					require.InEpsilon(t, left[0].Utilisation, right[0].Utilisation, 1e-9)
				}
			}
		}
	}
}

// Once they are joined each element has its walls still, the strip by its own concrete; the
// rows of a wall are on the element alone and on the joined section, and recompute.
func TestWallsOfJoinedElements(t *testing.T) {
	left, _ := halfOf(t, "L", 1, 50e6, 0)
	right, _ := halfOf(t, "R", -1, 50e6, 0)
	on := stages.Elastic(1e9, as(stages.Pad, append(pressed(1, 2.5), pressed(-1, 2.5)...))...)
	joined := event{age: 20, on: on, level: 1e-6, events: []stages.Event{{Add: []string{"S"}, Join: []string{"S"}}}}
	for _, fck := range []float64{50e6, 12e6} {
		strip := bar(t, "S", 12, -0.1, 0.2, 1.4, fck)
		strip.WeightTolerance = loads.PlusMinus(0.03)
		girder := stages.Girder{Mark: "D", Pieces: []stages.Piece{{Element: left}, {Element: right}, {Element: strip, Later: true, Joint: stages.Monolithic}}}
		imposed := stages.Action{Mark: "pump", Kind: stages.Imposed, Y: 0.2, Z: 1.4, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(2.5, 9.5, 8e3)}}}
		record, err := stages.Plan{stages.Seat{Age: 10, On: on, OutOfLevel: 1e-6}, joined, stages.Seat{Age: 30, On: on, OutOfLevel: 1e-6, Actions: []stages.Action{imposed}}}.Run(girder, limits.EN1992{})
		require.NoError(t, err)
		require.NoError(t, record.Check())
		for _, kind := range []limits.Kind{limits.PrincipalTension, limits.WebShear} {
			require.Len(t, wallOf(t, record, 1, kind), 1)
			for stage := 2; stage <= 3; stage++ {
				after := wallOf(t, record, stage, kind)
				require.Len(t, after, 1)
				require.NotEqual(t, stages.NotEvaluated, after[0].State)
				require.Positive(t, after[0].Demand.Value)
				require.NotEmpty(t, after[0].Tables)
			}
		}
		check := wallOf(t, record, 3, limits.WebShear)[0]
		tension := wallOf(t, record, 3, limits.PrincipalTension)[0]
		t.Log(fck, tension.Place, tension.Limit.Value, tension.Demand.Value, check.Place)
		rows := record.Tables[check.Tables[0]-1].Rows
		flows := map[string]bool{}
		for _, row := range rows {
			flows[record.Flows[row.On-1].Name] = true
		}
		require.Greater(t, len(flows), 1, "each row by the flow of its own section")
		require.True(t, slices.ContainsFunc(rows, func(row derive.Row) bool { return strings.Contains(record.Flows[row.On-1].Name, "L + R + S as one") }))
	}
}

// Where an element that varies acts as one with others its walls are not evaluated, and the
// check says so.
func TestWallsOfVaryingElementsJoined(t *testing.T) {
	left, _ := halfOf(t, "L", 1, 50e6, 0)
	low, high := rectangleShape(t, 0.2, 0.15), rectangleShape(t, 0.2, 0.2)
	at := func(s section.Shape) section.Shape {
		moved, err := s.Moved(section.Point{Z: 1.2})
		require.NoError(t, err)
		return moved
	}
	along, err := section.Taper{Left: at(low), Right: at(high), To: 12}.Along()
	require.NoError(t, err)
	strip := bar(t, "S", 12, -0.1, 0.2, 1.4, 50e6)
	strip.Section = along
	girder := stages.Girder{Mark: "D", Pieces: []stages.Piece{{Element: left}, {Element: strip, Later: true, Joint: stages.Monolithic}}}
	on := under(1, 2.5)
	joined := event{age: 20, on: stages.Elastic(1e9, as(stages.Pad, on)...), level: 1e-6, events: []stages.Event{{Add: []string{"S"}, Join: []string{"S"}}}}
	record, err := stages.Plan{stages.Seat{Age: 10, On: on}, joined}.Run(girder, limits.EN1992{})
	require.NoError(t, err)
	for _, kind := range []limits.Kind{limits.PrincipalTension, limits.WebShear} {
		list := wallOf(t, record, 2, kind)
		require.Equal(t, stages.NotEvaluated, list[len(list)-1].State)
		require.Contains(t, list[len(list)-1].Note, "several elements act as one section, of which one varies along its length, x = 0.00 to 12.00 m: the walls are not evaluated there")
	}
}
