package segmental

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// bare is a cantilever of two pairs whose ranges are single values: no working load, no wind,
// weights without tolerance.
func bare(t testing.TB) (Deck, []stages.Support, []Step) {
	d, on, steps := stood(t, 2)
	d.Loads = ArmLoads{}
	for i := range d.Segments {
		d.Segments[i].Element.WeightTolerance = loads.PlusMinus(0)
	}
	return d, on, steps
}

// byNavier is the stress of the engine's forces beside x at a point of the gross section, by hand.
func byNavier(e stages.Effects, shape section.Shape, x float64, at section.Point) float64 {
	f, p := e.Forces(x), shape.Properties()
	moment := f.My + f.N*p.Centroid.Z
	return f.N/p.Area - moment*(at.Z-p.Centroid.Z)/p.SecondMomentY
}

// lastMove is the situation after the last move of a step, with its effects.
func lastMove(t testing.TB, b Built, step int) (stages.SituationRecord, stages.Effects) {
	list := b.Record.Stages[step-1].Situations
	e, err := b.Analysis.Effects(step, len(list))
	require.NoError(t, err)
	return list[len(list)-1], e
}

// The tendons of pair 1 end in the faces of L1 and R1, behind which L2 and R2 are joined: a
// quarter of 12 strands of 150 mm² at 1400 MPa, 630 kN, is tied back by the compression of
// 0.5 m² there alone, as no bars cross the joint. The bars of L2 and R2 end inside of segments
// and have bars behind them.
func TestTieBackByHand(t *testing.T) {
	d, on, steps := bare(t)
	d.TieBack = &TieBack{Area: 1e-3, Yield: 500e6, Beside: 0.5, Document: "TB-1"}
	steps[1].Moves = steps[1].Moves[:5] // the bars are still in
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	_, e := lastMove(t, b, 2)
	tendon := section.Point{Y: 1.75, Z: -0.16}
	compression := -byNavier(e, grossBeside(b.Girder, 3, -1), 3-1e-5, tendon)
	bars := 0.5*math.Max(0, -byNavier(e, grossBeside(b.Girder, 4.4, 1), 4.4, section.Point{Y: 0.6, Z: -0.14})) + 1e-3*248e6
	require.Less(t, 0.25*600e6*1018e-6/bars, 630e3/(0.5*compression), "the tendon governs")
	c := checkOf(t, b, 2, 5, "tie-back of the anchor of T1")
	require.InEpsilon(t, 0.25*1400e6*12*150e-6, c.Demand.Value, 1e-9)
	require.InEpsilon(t, 0.5*compression, c.Limit.Value, 1e-4)
	require.Contains(t, c.Note, "no bars cross joint")

	// Without a joint between anchor and the concrete behind, as in a blister, bars count.
	for i := range d.Segments {
		if d.Segments[i].Element.Mark == "R2" || d.Segments[i].Element.Mark == "L1" {
			d.Segments[i].Joint = stages.Poured
		}
	}
	b, err = d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	more := checkOf(t, b, 2, 5, "tie-back of the anchor of ")
	require.InEpsilon(t, 0.5*compression+1e-3*248e6, more.Limit.Value, 1e-4)
	d.TieBack.Yield = 300e6
	b, err = d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	require.InEpsilon(t, 1e-3*(248e6-180e6), more.Limit.Value-checkOf(t, b, 2, 5, "tie-back of the anchor of ").Limit.Value, 1e-3)
}

// Where no tie-back is stated, one question has the largest force and the smallest compression
// behind such an anchor; the anchors in the faces of the tips have nothing behind them.
func TestTieBackAsked(t *testing.T) {
	d, on, steps := bare(t)
	d.Tendons[1].At.Z = -0.24 // T1R
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	asked := func(s stages.SituationRecord) (list []stages.Check) {
		for _, c := range s.Checks {
			if strings.HasPrefix(c.Name, "tie-back") {
				list = append(list, c)
			}
		}
		return list
	}
	last, e := lastMove(t, b, 2)
	require.Len(t, asked(last), 1)
	c := asked(last)[0]
	require.Equal(t, stages.NotEvaluated, c.State)
	require.Equal(t, limits.LocalForce, c.Kind)
	require.Contains(t, c.Note, "4 anchors without a stated tie-back: required for up to 630 kN")
	shape := grossBeside(b.Girder, 3, -1)
	low, high := -byNavier(e, shape, 3-1e-5, section.Point{Y: -1.75, Z: -0.24}), -byNavier(e, shape, 3-1e-5, section.Point{Y: 1.75, Z: -0.16})
	require.NotEqual(t, math.Floor(low/1e4), math.Floor(high/1e4))
	require.Contains(t, c.Note, fmt.Sprintf("there at least %.2f MPa", math.Floor(math.Min(low, high)/1e4)/100))
	// Both bars of L1 and R1 are out after step 1: no anchor has concrete behind it.
	first, _ := lastMove(t, b, 1)
	require.Empty(t, asked(first))
	// While they are in, each has one anchor in its own segment and one in the pier segment.
	require.Contains(t, asked(b.Record.Stages[0].Situations[0])[0].Note, "8 anchors")
	d.TieBack = &TieBack{Area: 0.2, Yield: 500e6, Document: "TB-1"}
	_, err = d.Plan(on, steps...)
	require.ErrorIs(t, err, ErrSegmental)
	require.ErrorContains(t, err, "Deck.TieBack.Area = 0.2 m²")
	d.TieBack = &TieBack{}
	_, err = d.Plan(on, steps...)
	require.ErrorContains(t, err, "Deck.TieBack.Document is empty")
}
