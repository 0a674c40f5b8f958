package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// sagging is a diagram of weight of 750 kN on the ends of 20 m: 750 · 20 / 8 = 1875 kN·m
// in the middle, 375 kN at the ends, and stresses of −6 and 4 MPa.
func sagging(r *stages.Record) {
	r.Stages[0].Situations[0].Diagram = derive.Rows{Columns: []string{"x", "My", "Vz", "topLeast", "topMost", "bottomLeast", "bottomMost"}, Values: [][]float64{
		{0, 0, 375e3, 0, 0, 0, 0}, {10, 1875e3, 0, -6e6, -5e6, 3e6, 4e6}, {20, 0, -375e3, 0, 0, 0, 0},
	}}
}

// prestressed adds a hogging moment and an upward force from prestress.
func prestressed(r *stages.Record) {
	rows := &r.Stages[0].Situations[0].Diagram
	rows.Columns = append(rows.Columns, "MyP", "VzP")
	for i, values := range [][2]float64{{0, -100e3}, {-1000e3, 0}, {0, 100e3}} {
		rows.Values[i] = append(rows.Values[i], values[0], values[1])
	}
}

// figuresOf are the diagrams of the first situation by name.
func figuresOf(a *author) map[string]figure {
	figures := map[string]figure{}
	for _, f := range figuresIn(a.diagrams(a.record.Stages[0], 0)) {
		figures[f.name] = f
	}
	return figures
}

// The diagrams are named and captioned for what they show.
func TestTheDiagramsOfASituation(t *testing.T) {
	figures := figuresOf(passed(t, Settings{}, sagging))
	for name, caption := range map[string]string{
		"stage-1-moment": "Bending moment, nominal: self-weight and actions always present, mean prestress.", "stage-1-shear": "Shear, nominal: self-weight and actions always present, vertical part of the mean prestress.",
		"stage-1-top": "Stress at the top over all service factors, with the least margin to a limit at that age.", "stage-1-bottom": "Stress at the bottom over all service factors, with the least margin to a limit at that age.",
	} {
		require.Equal(t, caption, figures[name].caption)
	}
	require.Len(t, figures, 4)
	require.Empty(t, figuresOf(passed(t, Settings{})), "no diagram without numbers")
}

// peak is the highest and the lowest point of the curve of a pen.
func peak(t *testing.T, svg, pen string) (high, low vgPoint) {
	for _, d := range drawnIn(t, svg) {
		if d.pen == pen && len(d.points) == 3 {
			high, low = d.points[0], d.points[0]
			for _, p := range d.points {
				if p.Y > high.Y {
					high = p
				}
				if p.Y < low.Y {
					low = p
				}
			}
			return high, low
		}
	}
	require.Fail(t, "no curve of this pen")
	return
}

// A sagging moment is drawn downwards, a hogging one of the prestress upwards, and the
// values at their extremes are written.
func TestASaggingMomentIsDrawnDownwards(t *testing.T) {
	svg := figuresOf(passed(t, Settings{}, sagging))["stage-1-moment"].svg
	high, low := peak(t, svg, thinPen)
	require.Less(t, float64(low.Y), float64(high.Y)-20)
	require.Contains(t, svg, ">1875<")
	require.Contains(t, svg, ">M kN·m, sagging down<")
	require.NotContains(t, svg, ">prestress<", "none is there")
	svg = figuresOf(passed(t, Settings{}, sagging, prestressed))["stage-1-moment"].svg
	zero, _ := peak(t, svg, thinPen) // the weight begins at zero
	hogging, _ := peak(t, svg, dashedPen)
	_, total := peak(t, svg, thickPen)
	require.Greater(t, float64(hogging.Y), float64(zero.Y)+10)
	require.Less(t, float64(total.Y), float64(zero.Y)-5, "875 kN·m are left")
	for _, words := range []string{">−1000<", ">875<", ">1875<", ">weight<", ">prestress<", ">total<"} {
		require.Contains(t, svg, words)
	}
}

// A positive shear is drawn upwards: +375 kN at the left end.
func TestAPositiveShearIsDrawnUpwards(t *testing.T) {
	svg := figuresOf(passed(t, Settings{}, sagging))["stage-1-shear"].svg
	high, low := peak(t, svg, thinPen)
	require.Less(t, float64(high.X), float64(low.X), "positive at the left end")
	require.Contains(t, svg, ">375<")
	require.Contains(t, svg, ">−375<")
	require.Contains(t, svg, ">V kN<")
}

// Top and bottom have their own stresses, minimum dashed and maximum full.
func TestStressesAtTopAndBottom(t *testing.T) {
	figures := figuresOf(passed(t, Settings{}, sagging))
	top, bottom := figures["stage-1-top"].svg, figures["stage-1-bottom"].svg
	require.Contains(t, top, ">Stress, top MPa, tension +<")
	require.Contains(t, bottom, ">Stress, bottom MPa, tension +<")
	require.Contains(t, top, ">limit −18<")
	require.Contains(t, bottom, ">limit −18<")
	_, low := peak(t, top, dashedPen)
	_, less := peak(t, top, limitPen)
	require.Less(t, float64(low.Y), float64(less.Y), "the minimum is below the maximum")
	require.Contains(t, top, ">−6<")
	require.NotContains(t, bottom, ">−6<")
	require.Contains(t, bottom, ">4<")
	high, _ := peak(t, bottom, limitPen)
	zero, _ := peak(t, bottom, dashedPen)
	require.GreaterOrEqual(t, float64(high.Y), float64(zero.Y), "tension is up")
}

// In US units: 1875 kN·m / 1.355818 = 1382.9 kip·ft, 20 m = 65.6 ft, 18 MPa = 2.61 ksi.
func TestDiagramsInUSUnits(t *testing.T) {
	figures := figuresOf(passed(t, Settings{Units: US}, sagging))
	require.Contains(t, figures["stage-1-moment"].svg, ">1383<")
	require.Contains(t, figures["stage-1-moment"].svg, ">M kip·ft, sagging down<")
	require.Contains(t, figures["stage-1-moment"].svg, ">60 ft<")
	require.Contains(t, figures["stage-1-top"].svg, ">Stress, top ksi, tension +<")
	require.Contains(t, figures["stage-1-top"].svg, ">limit −2.61<")
	require.Contains(t, figures["stage-1-top"].svg, ">margin 0.87 ksi to the limit −2.61<", "18 − 12 MPa")
	require.Contains(t, figures["stage-1-top"].svg, ">−0.8702<", "−6 / 6.894757")
}

// The limits are those of compression (minus) and tension (plus) that were checked, each
// hatched beyond itself, and rounded to the safe side in words.
func TestLimitsOfADiagram(t *testing.T) {
	a := passed(t, Settings{})
	check := func(kind limits.Kind, value float64, unit formula.Unit, state stages.State) stages.Check {
		return stages.Check{Kind: kind, Limit: formula.Q("l", value, unit, ""), Sense: limits.AtMost, State: state}
	}
	bounds := a.bounds(stages.SituationRecord{Checks: []stages.Check{
		check(limits.Compression, 16.4159e6, formula.Pascal, stages.Pass), check(limits.Tension, 2.0019e6, formula.Pascal, stages.Fail), check(limits.Tension, 2.0019e6, formula.Pascal, stages.Pass),
		check(limits.Tension, 3e6, formula.Pascal, stages.NotEvaluated), check(limits.WebShear, 4e6, formula.Pascal, stages.Pass), check(limits.Tension, 5, formula.SquareMetre, stages.Pass),
	}})
	require.Equal(t, []bound{{-16.4159, false, "limit −16.41"}, {2.0019, true, "limit 2.001"}}, bounds)
	require.Empty(t, a.bounds(stages.SituationRecord{}))
}

// The tendon force has a curve a group of tendons alike, named, with its force.
func TestTheFigureOfTendonForces(t *testing.T) {
	a := passed(t, Settings{}, withCables)
	f, ok := a.forceFigure(a.record.Stages[0], 0)
	require.True(t, ok)
	require.Equal(t, "stage-1-tendons", f.name)
	for _, words := range []string{">Tendon force kN<", ">A, B<", ">C<", ">20 m<"} {
		require.Contains(t, f.svg, words)
	}
	_, ok = a.forceFigure(a.record.Stages[1], 0)
	require.False(t, ok, "no tendon, no figure")
}

// A figure of an operation is drawn in the units of the sheet, to one scale where it is
// a place against a place.
func TestAFigureOfAnOperation(t *testing.T) {
	of := func(units Units, f stages.Figure) chart { return passed(t, Settings{Units: units}).recordChart(f) }
	f := stages.Figure{Title: "Path", XUnit: "m", YUnit: "m", Lines: []stages.Polyline{{Name: "hook", Points: [][2]float64{{0, 0}, {3.048, 6.096}}}}, Texts: []stages.Text{{At: [2]float64{3.048, 6.096}, Text: "x = 3.048 m"}}}
	c := of(US, f)
	require.True(t, c.equal)
	require.InDelta(t, 10, c.curves[0].parts[0][1].X, 1e-9)
	require.InDelta(t, 20, c.curves[0].parts[0][1].Y, 1e-9)
	require.Equal(t, "x = 10.000 ft (3.048 m)", c.notes[0].words)
	require.InDelta(t, 20, c.notes[0].y, 1e-9)
	f.YUnit = "N"
	c = of(SI, f)
	require.False(t, c.equal)
	require.Equal(t, []string{"kN", "m", "hook"}, []string{c.title, c.unit, c.curves[0].name})
	require.InDelta(t, 0.006096, c.curves[0].parts[0][1].Y, 1e-12)
	a := passed(t, Settings{}, first(func(s *stages.SituationRecord) { s.Figures = []stages.Figure{f} }))
	require.Equal(t, "Path", figuresOf(a)["stage-1-figure-1"].caption)
}

// The force of a tendon is drawn over its own range: a loss of 50 kN of 1300 can be read.
func TestALossOfForceCanBeRead(t *testing.T) {
	a := passed(t, Settings{}, withCables)
	f, ok := a.forceFigure(a.record.Stages[0], 0)
	require.True(t, ok)
	for _, d := range drawnIn(t, f.svg) {
		if d.pen == thickPen && d.points[0].Y != d.points[1].Y {
			require.Greater(t, float64(d.points[0].Y-d.points[1].Y), 25.0)
			return
		}
	}
	require.Fail(t, "no curve that falls")
}

// The limits of a situation are drawn in its diagrams of stress, hatched, and not in one
// whose checks have none.
func TestLimitsAreDrawnInTheDiagramsOfStress(t *testing.T) {
	hatched := func(svg string) (n int) {
		for _, d := range drawnIn(t, svg) {
			if d.pen == finePen && len(d.points) == 2 && near(d.points[1], d.points[0].Add(at(3, -3))) {
				n++
			}
		}
		return n
	}
	figures := figuresOf(passed(t, Settings{}, sagging))
	require.Greater(t, hatched(figures["stage-1-top"].svg), 20, "below the limit of compression")
	require.Greater(t, hatched(figures["stage-1-bottom"].svg), 20)
	require.Zero(t, hatched(figures["stage-1-moment"].svg))
	figures = figuresOf(passed(t, Settings{}, sagging, first(func(s *stages.SituationRecord) { s.Checks[0].Kind = limits.WebShear })))
	require.Zero(t, hatched(figures["stage-1-top"].svg))
}

// A picture that a stage draws has one scale on the paper in both directions, whatever its
// shape, and labels that stand at one place do not hide each other.
func TestPicturesOfStagesAreToScale(t *testing.T) {
	for _, size := range [][2]float64{{40, 12}, {6, 30}, {20, 20}} {
		w, h := size[0], size[1]
		f := stages.Figure{Title: "Crane", XUnit: "m", YUnit: "m", Lines: []stages.Polyline{{Name: "boom", Points: [][2]float64{{0, 0}, {w, 0}, {w, h}}}}}
		for _, words := range []string{"hook 12 t", "R = 400 kN", "pier P2", "slew 35°", "radius 12 m", "gantry"} {
			f.Texts = append(f.Texts, stages.Text{At: [2]float64{w, h}, Text: words})
		}
		c := passed(t, Settings{}).recordChart(f)
		require.Equal(t, w/h > 2.5, c.width == pageWidth, "%g by %g m", w, h)
		svg := c.svg()
		noCollision(t, svg, c.width)
		var boom []vgPoint
		for _, d := range drawnIn(t, svg) {
			if d.pen == thickPen && len(d.points) == 3 {
				boom = d.points
			}
		}
		require.Len(t, boom, 3)
		require.InEpsilon(t, w/h, float64(boom[1].X-boom[0].X)/float64(boom[2].Y-boom[1].Y), 1e-3, "%g by %g m", w, h)
	}
}

// Figures stand two beside each other, a wide one alone.
func TestFiguresInPairs(t *testing.T) {
	var names []string
	for _, b := range inPairs([]figure{{name: "a"}, {name: "b"}, {name: "c"}, {name: "D", wide: true}, {name: "E", wide: true}, {name: "f"}}) {
		row := ""
		for _, f := range b.(drawings).figures {
			row += f.name
		}
		names = append(names, row)
	}
	require.Equal(t, []string{"ab", "c", "D", "E", "f"}, names)
	require.Empty(t, inPairs(nil))
}
