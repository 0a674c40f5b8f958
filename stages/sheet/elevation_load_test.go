package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// loaded puts loads on the first situation.
func loaded(loads ...stages.Load) func(*stages.Record) {
	return first(func(s *stages.SituationRecord) { s.Loads = loads })
}

// weighed are the parts of the weight.
func weighed(parts ...stages.Load) func(*stages.Record) {
	return func(r *stages.Record) { r.Weights = parts }
}

// The weight is a strip of arrows down on the top over its length, with its name and
// size: of 20 m a strip, 20 m · 22.8 / 22 = 20 arrows and one at its end.
func TestTheWeightIsAStripOfArrowsDown(t *testing.T) {
	svg := elevationOf(t, 0).svg
	list := drawnIn(t, svg)
	require.Equal(t, 1, count(list, thinPen, along(0, topAt), along(0, topAt+10), along(20, topAt+10), along(20, topAt)))
	for i := range 21 {
		require.Equal(t, 1, arrows(list, finePen, along(float64(i), topAt+10), along(float64(i), topAt+0.5)), "at x = %d m", i)
	}
	require.Contains(t, svg, ">girder 750 kN<")
}

// A load is a strip where it is longer than an eighth of the element, 2.5 m of 20.
func TestWhatIsAStripAndWhatIsAnArrow(t *testing.T) {
	strip := drawnIn(t, elevationOf(t, 0, weighed(stages.Load{Mark: "wall", From: 4, To: 6.51, Centre: 5.255, Force: 50e3})).svg)
	require.Equal(t, 1, count(strip, thinPen, along(4, topAt), along(4, topAt+10), along(6.51, topAt+10), along(6.51, topAt)))
	require.Zero(t, arrows(strip, thickPen, along(5.255, topAt+16), along(5.255, topAt+0.5)))
	one := drawnIn(t, elevationOf(t, 0, weighed(stages.Load{Mark: "wall", From: 4, To: 6.5, Centre: 5.25, Force: 50e3})).svg)
	require.Equal(t, 1, arrows(one, thickPen, along(5.25, topAt+16), along(5.25, topAt+0.5)), "at its resultant")
	require.Zero(t, count(one, thinPen, along(4, topAt), along(4, topAt+10), along(6.5, topAt+10), along(6.5, topAt)))
}

// A force down points down to the top of the element, one up points up from it.
func TestArrowsPointAsTheForceActs(t *testing.T) {
	down, up := along(5, topAt+16), along(5, topAt+0.5)
	list := drawnIn(t, elevationOf(t, 0, weighed(), loaded(stages.Load{Mark: "form", Centre: 5, Force: 4e3, Presence: always})).svg)
	require.Equal(t, 1, arrows(list, thickPen, down, up))
	require.Zero(t, arrows(list, thickPen, up, down))
	list = drawnIn(t, elevationOf(t, 0, weighed(), loaded(stages.Load{Mark: "tackle", Centre: 5, Force: -4e3, Presence: always})).svg)
	require.Equal(t, 1, arrows(list, thickPen, up, down))
	require.Zero(t, arrows(list, thickPen, down, up))
	list = drawnIn(t, elevationOf(t, 0, weighed(), loaded(stages.Load{Mark: "wind under", To: 20, Centre: 10, Force: -40e3, Presence: always})).svg)
	require.Equal(t, 1, arrows(list, finePen, along(5, topAt+0.5), along(5, topAt+10)), "a strip upwards")
}

// A force along the element points to +x or −x, with its tip at its place.
func TestForcesAlongTheElement(t *testing.T) {
	tip := along(5, soffitAt+perMetre) // z = 1 m
	for _, c := range []struct{ force, way float64 }{{8e3, 16}, {-8e3, -16}} {
		svg := elevationOf(t, 0, loaded(stages.Load{Mark: "tow", Direction: "along", Centre: 5, Z: 1, Force: c.force, Presence: always})).svg
		require.Equal(t, 1, arrows(drawnIn(t, svg), thickPen, at(tip.X-vgLength(c.way), tip.Y), tip))
	}
	require.Contains(t, elevationOf(t, 0, loaded(stages.Load{Mark: "tow", Direction: "along", Centre: 5, Force: -8e3, Presence: always})).svg, ">tow 8 kN towards −x, always present<")
}

// A couple that is anticlockwise runs from the right over the top to the left.
func TestTheSenseOfACouple(t *testing.T) {
	head := func(couple float64) (first, last vgPoint) {
		list := drawnIn(t, elevationOf(t, 0, weighed(), loaded(stages.Load{Mark: "couple", Centre: 5, Couple: couple, Presence: always})).svg)
		for _, d := range list {
			if d.pen == thinPen && len(d.points) == 12 {
				return d.points[0], d.points[11]
			}
		}
		require.Fail(t, "no couple")
		return
	}
	centre := along(5, topAt+9)
	from, to := head(5e3)
	require.Greater(t, float64(from.X), float64(centre.X), "it begins on the right")
	require.Less(t, float64(to.X), float64(centre.X))
	from, to = head(-5e3)
	require.Less(t, float64(from.X), float64(centre.X), "it begins on the left")
	require.Greater(t, float64(to.X), float64(centre.X))
	require.Contains(t, elevationOf(t, 0, loaded(stages.Load{Mark: "couple", Centre: 5, Couple: -5e3, Presence: always})).svg, ">couple 5 kN·m clockwise, always present<")
}

// What acts across or rolls has its name at the top, and no arrow down at some x.
func TestActionsAcrossAndTrainsHaveTheirNameOnly(t *testing.T) {
	svg := elevationOf(t, 0, weighed(), loaded(
		stages.Load{Mark: "wind", Direction: "transverse", To: 20, Centre: 10, Force: 8e3, Presence: either},
		stages.Load{Mark: "carrier", Rolls: true, To: 6, Force: 90e3, Presence: maybe})).svg
	list := drawnIn(t, svg)
	for _, d := range list {
		require.False(t, d.pen == inBlack && !d.ring, "an arrow head at %v", d.points)
	}
	wind, carrier := middleOf(t, svg, "wind 8 kN across in total, both ways"), middleOf(t, svg, "carrier 90 kN in total, over 6 m, present or absent")
	require.InDelta(t, 10, float64(wind.Y-carrier.Y), 0.1, "one over the other")
	require.Greater(t, float64(carrier.Y), topAt)
	require.InDelta(t, 0, float64(wind.X-carrier.X), 0.5)
}

// Each load of a crowd has its own arrow and its own name, and no name hides another.
func TestEachLoadOfACrowdIsNamed(t *testing.T) {
	var parts, actions []stages.Load
	for i := range 6 {
		x := 1 + 3.5*float64(i)
		parts = append(parts, stages.Load{Mark: "block " + string(rune('a'+i)), From: x, To: x, Centre: x, Force: 11e3})
		actions = append(actions, stages.Load{Mark: "form " + string(rune('a'+i)), From: x + 1, To: x + 1, Centre: x + 1, Force: 3e3, Presence: maybe})
	}
	svg := elevationOf(t, 0, weighed(parts...), loaded(actions...)).svg
	list, words := drawnIn(t, svg), written(t, svg)
	for i := range 6 {
		require.Equal(t, 1, arrows(list, thickPen, along(parts[i].Centre, topAt+16), along(parts[i].Centre, topAt+0.5)))
		require.Equal(t, 1, arrows(list, thickPen, along(actions[i].Centre, topAt+16), along(actions[i].Centre, topAt+0.5)))
		require.Len(t, words[parts[i].Mark+" 11 kN"], 1)
		require.Len(t, words[actions[i].Mark+" 3 kN, present or absent"], 1)
	}
}

// The elevation is as high as its labels need.
func TestTheRoomAboveTheElement(t *testing.T) {
	_, bare := sizeOf(t, elevationOf(t, 0).svg)
	require.InDelta(t, topAt+30, bare, 0.01)
	form := stages.Load{Mark: "form", Centre: 5, Force: 4e3, Presence: always}
	_, under := sizeOf(t, elevationOf(t, 0, loaded(form)).svg)
	require.InDelta(t, bare, under, 0.01, "beside the label of the weight")
	_, two := sizeOf(t, elevationOf(t, 0, loaded(form, stages.Load{Mark: "wind", Direction: "transverse", To: 20, Centre: 10, Force: 8e3, Presence: either})).svg)
	require.InDelta(t, topAt+11+8.5+1.5+8.5+0.75, two, 0.01, "the weight, its label, that of the wind")
}

// An element on its axis has no plan, and says nothing of one: 28 points are enough.
func TestAnElementOnItsAxisHasNoPlan(t *testing.T) {
	f := elevationOf(t, 0, first(func(s *stages.SituationRecord) {
		for i := range s.Reactions {
			s.Reactions[i].Y = 0
		}
	}))
	require.Equal(t, "1 store, length and depth to the same scale.", f.caption)
	_, height := sizeOf(t, f.svg)
	require.InDelta(t, 28+34.2+30, height, 0.01)
	require.NotContains(t, f.svg, ">plan<")
}
