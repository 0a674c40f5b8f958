package sheet

import (
	"encoding/xml"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/stages"
)

// with gives a stage its equipment.
func with(stage int, items ...stages.EquipmentItem) func(*stages.Record) {
	return func(r *stages.Record) { r.Stages[stage].Situations[0].Equipment = items }
}

// portal is a frame over x = 1 to 19 m from 1 m under the soffit to z = 3.2 m.
func portal() stages.EquipmentItem {
	return stages.EquipmentItem{Mark: "SC1", Kind: stages.StraddleCarrier, Supports: []int{1, 2}, Outline: [][][2]float64{{{1, -1}, {1, 3.2}, {19, 3.2}, {19, -1}}}}
}

// Equipment that holds the element is drawn to the scale of the elevation, with kind and
// mark over it, and who cannot see the figure is told.
func TestEquipmentIsDrawnInTheElevation(t *testing.T) {
	f := elevationOf(t, 1, with(1, portal()))
	under := 1*perMetre + 1 + 50.0 // its legs, and the plan
	on := func(x, z float64) vg.Point { return along(x, under+z*perMetre) }
	require.Equal(t, 1, count(drawnIn(t, f.svg), gearInk, on(1, -1), on(1, 3.2), on(19, 3.2), on(19, -1)))
	label := middleOf(t, f.svg, "straddle carrier SC1")
	require.InDelta(t, float64(on(10, 0).X), float64(label.X), 0.1, "over the middle of what is highest")
	require.Greater(t, label.Y, on(10, 3.2).Y)
	var svg struct {
		Title string `xml:"title"`
	}
	require.NoError(t, xml.Unmarshal([]byte(f.svg), &svg))
	require.Contains(t, svg.Title, "Equipment: straddle carrier SC1.")
	plain := elevationOf(t, 1)
	require.NotContains(t, plain.svg, "quipment")
	require.Zero(t, len(drawnBy(drawnIn(t, plain.svg), gearInk)))
}

// drawnBy are the paths of a pen.
func drawnBy(list []drawn, pen string) (found []drawn) {
	for _, d := range list {
		if d.pen == pen {
			found = append(found, d)
		}
	}
	return found
}

// A pier under a support has its mark under it, below that of the support.
func TestAPierStandsUnderItsSupport(t *testing.T) {
	other := stages.EquipmentItem{Mark: "P3", Kind: stages.Pier, Supports: []int{1}}
	require.Equal(t, "pier P3 (1)", equipmentWords(passed(t, Settings{}, with(0, other)).record.Stages[0].Situations[0]))
	pier := stages.EquipmentItem{Mark: "P4", Kind: stages.Pier, Supports: []int{3}, Outline: [][][2]float64{{{15, -1.2}, {15, -0.4}, {17, -0.4}, {17, -1.2}}}}
	svg := elevationOf(t, 0, with(0, pier)).svg
	label, pad := middleOf(t, svg, "pier P4"), middleOf(t, svg, "pad 3 at x = 16 m")
	require.Less(t, label.Y, pad.Y)
	require.InDelta(t, float64(along(16, 0).X), float64(label.X), 0.1)
	for _, d := range drawnBy(drawnIn(t, svg), gearInk) {
		for _, p := range d.points {
			require.Greater(t, p.Y, pad.Y)
		}
	}
}

// What reaches further than the figure has room for is cut off, not squeezed.
func TestALongBoomIsCutOff(t *testing.T) {
	boom := stages.EquipmentItem{Mark: "C1", Kind: stages.Crane, Supports: []int{1}, Outline: [][][2]float64{{{-60, -3}, {10, 67}}, {{-190, 150}, {-150, 150}}}}
	svg := elevationOf(t, 1, with(1, boom)).svg
	width, height := sizeOf(t, svg)
	require.Less(t, height, 300.0)
	list := drawnBy(drawnIn(t, svg), gearInk)
	require.Empty(t, list, "it passes x = −34/22.8 m at z = 55 m, over the frame")
	require.NotContains(t, svg, ">crane C1<", "nothing of it is drawn")
	boom.Outline[0] = [][2]float64{{0, 1}, {20, 5}} // 0.2·22.8 a metre: cut off 56 points over z = 1.5 m
	list = drawnBy(drawnIn(t, elevationOf(t, 1, with(1, boom)).svg), gearInk)
	require.Len(t, list, 1)
	end := list[0].points[1]
	require.InDelta(t, 34+(0.5*perMetre+56)/0.2, float64(end.X), 0.1)
	require.Less(t, float64(end.X), width)
	require.InDelta(t, float64(list[0].points[0].Y)+0.5*perMetre+56, float64(end.Y), 0.1)
}

// The parts of a line within a frame.
func TestClipping(t *testing.T) {
	frame := vg.Rectangle{Max: at(10, 10)}
	for _, c := range []struct{ line, want []vg.Point }{
		{[]vg.Point{at(1, 1), at(9, 9)}, []vg.Point{at(1, 1), at(9, 9)}}, {[]vg.Point{at(-5, 5), at(15, 5)}, []vg.Point{at(0, 5), at(10, 5)}},
		{[]vg.Point{at(5, 20), at(5, -20)}, []vg.Point{at(5, 10), at(5, 0)}}, {[]vg.Point{at(11, 0), at(11, 9)}, nil}, {[]vg.Point{at(-3, 8), at(1, 12)}, nil},
		{[]vg.Point{at(3, 3), at(3, 3)}, []vg.Point{at(3, 3), at(3, 3)}},
	} {
		parts := clipped(c.line, frame)
		if c.want == nil {
			require.Empty(t, parts)
			continue
		}
		require.Len(t, parts, 1)
		require.True(t, near(parts[0][0], c.want[0]) && near(parts[0][1], c.want[1]), "%v", parts)
	}
	require.Len(t, clipped([]vg.Point{at(1, 1), at(1, 20), at(5, 20), at(5, 1)}, frame), 2, "in two parts")
	require.Len(t, clipped([]vg.Point{at(1, 1), at(4, 2), at(5, 1)}, frame), 1, "in one")
}

// Wherever equipment is, no words stand on others or on its outline, and no leaders cross.
func TestLabelsStayClearOfEquipment(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 8))
	for range 120 {
		stage := random.IntN(2)
		var items []stages.EquipmentItem
		for i := range 1 + random.IntN(3) {
			x, w := 18*random.Float64(), 1+6*random.Float64()
			base, top := -1.2*random.Float64(), 2+1.5*random.Float64()
			kind := stages.Crane
			if stage == 0 {
				kind, base, top = stages.Pier, -1.3, -0.5
			}
			items = append(items, stages.EquipmentItem{Mark: fmt.Sprintf("Q%d", i), Kind: kind, Outline: [][][2]float64{{{x, base}, {x, top}, {x + w, top}, {x + w, base}}}})
		}
		svg := elevationOf(t, stage, with(stage, items...), weighed(stages.Load{Mark: "diaphragm", From: 4, To: 5, Centre: 4.5, Force: 50e3})).svg
		noCollision(t, svg, pageWidth)
		boxes := written(t, svg)
		for _, d := range drawnBy(drawnIn(t, svg), gearInk) {
			for i := 1; i < len(d.points); i++ {
				for words, list := range boxes {
					for _, box := range list {
						require.NotZero(t, parted(box, d.points[i-1], d.points[i]), "%q on an outline", words)
					}
				}
			}
		}
		leads := leaders(drawnIn(t, svg))
		for i, l := range leads {
			for _, m := range leads[:i] {
				require.False(t, meet(l[0], l[1], m[0], m[1]))
			}
		}
	}
}
