package launching_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// unlike are four elastic pads, a wide pair at the first line and a narrow one at the
// second, of different stiffness.
func unlike() []stages.Support {
	wide, narrow := stages.Pads(1.7, 1.5), stages.Pads(1.1, 31)
	return append(stages.Elastic(300e6, wide...), stages.Elastic(120e6, narrow...)...)
}

// torsion is GJ of the span (N·m²) at an age.
func torsion(t *testing.T, age float64) float64 {
	e := span(t)
	j, err := e.Section.At(17).Torsion()
	require.NoError(t, err)
	state, err := e.Concrete.At(age)
	require.NoError(t, err)
	return state.Modulus / 2.4 * j.Constant
}

// A stage's reactions for a level difference of a support are those of the four points, with
// the worst of the four supports out of the plane, also where the pairs are unlike.
func TestOutOfLevelOfAStageIsTheWarpOfFourPoints(t *testing.T) {
	for name, on := range map[string][]stages.Support{"wide pair first": unlike(), "narrow pair first": mirrored(unlike())} {
		store := func(out float64) []stages.Reaction {
			record, err := stages.Plan{stages.Store{Age: 28, On: on, OutOfLevel: out}}.Run(span(t), limits.EN1992{})
			require.NoError(t, err)
			return record.Stages[0].Situations[0].Reactions
		}
		at1, at2 := store(0.0002), store(0.0005)
		f := launching.FourPoints{
			Length: on[2].X - on[0].X, Widths: [2]float64{on[1].Y - on[0].Y, on[3].Y - on[2].Y}, Torsion: torsion(t, 28),
		}
		for i, s := range on {
			f.Stiffness[i], f.Level[i] = s.Stiffness, at1[i].Nominal
		}
		for i := range on {
			most := 0.0
			for support := range on {
				forces, err := f.At(support, 0.0001)
				require.NoError(t, err)
				most = math.Max(most, math.Abs(forces[i]-f.Level[i])/0.0001)
			}
			width := func(r stages.Reaction) float64 { return r.Static.Most - r.Static.Least }
			require.InEpsilon(t, most, (width(at2[i])-width(at1[i]))/2/0.0003, 1e-3, "%s, support %d", name, i+1)
		}
	}
}

// mirrored are supports with their lines changed over along the span of 34 m.
func mirrored(on []stages.Support) []stages.Support {
	list := append([]stages.Support(nil), on[2:]...)
	list = append(list, on[:2]...)
	for i := range list {
		list[i].X = 34 - list[i].X
	}
	return list
}

// In storage each of four unlike pads has its own permissible warp: 4 % of the force that is
// used up first over its change for that pad, by hand.
func TestOnFourPointsStorageByHand(t *testing.T) {
	element := span(t)
	element.Extra = []stages.ExtraWeight{{Mark: "plant", From: 3, To: 6, Weight: 200e3, Y: 0.7, Z: 2.6}}
	record, err := stages.Plan{launching.OnFourPoints(stages.Store{Age: 28, On: unlike(), OutOfLevel: 0.0006}, 0.04)}.Run(element, limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, record.Check())
	s := record.Stages[0].Situations[0]
	give := 29.5/torsion(t, 28) + 2/(300e6*3.4*3.4) + 2/(120e6*2.2*2.2)
	least := math.Inf(1) // moment of a force about the middle of the other support of its pair
	for i, r := range s.Reactions {
		least = math.Min(least, r.Nominal*[]float64{3.4, 3.4, 2.2, 2.2}[i])
	}
	found := 0
	for _, c := range s.Checks {
		if c.Name != "warp of the supports" {
			continue
		}
		found++
		width := 3.4
		if c.X > 17 {
			width = 2.2
		}
		require.InEpsilon(t, 0.04*least*give*width, c.Limit.Value, 1e-9, c.Place)
		require.Equal(t, 0.0006, c.Demand.Value)
	}
	require.Equal(t, 4, found)
	require.Equal(t, stages.Pass, find(t, s, "warp of the supports").State)
	held := 0
	for _, h := range s.HoldPoints {
		if h.Kind == "levels surveyed" {
			held++
			require.True(t, h.AtMost)
			require.Equal(t, 0.0006, h.Required.Value)
		}
	}
	require.Equal(t, 1, held)
}

// What acts of an earlier stage on the same supports is held to the limit as well.
func TestOnFourPointsAfterAStageOnTheSameSupports(t *testing.T) {
	record, err := stages.Plan{
		stages.Store{Age: 28, On: unlike(), OutOfLevel: 0.004}, launching.OnFourPoints(stages.Store{Age: 30, On: unlike(), OutOfLevel: 0.0002}, 0),
	}.Run(span(t), limits.EN1992{})
	require.NoError(t, err)
	c := find(t, record.Stages[1].Situations[0], "warp of the supports")
	require.Equal(t, 0.004, c.Demand.Value)
	require.Equal(t, stages.Fail, c.State)
}

// An equalised pair says that levels change nothing; other supports are refused in words.
func TestOnFourPointsOnOtherSupports(t *testing.T) {
	record := run(t, launching.OnFourPoints(stages.Seat{Age: 30, On: bearings()}, 0))
	c := find(t, record.Stages[1].Situations[0], "warp of the supports")
	require.Equal(t, stages.Pass, c.State)
	require.Zero(t, c.Demand.Value)
	require.Contains(t, c.Note, "the pair of line 2 is equalised: levels change nothing")
	least := math.Inf(1)
	for _, r := range record.Stages[1].Situations[0].Reactions {
		least = math.Min(least, r.Nominal)
	}
	require.InEpsilon(t, 0.05*least, c.Limit.Value, 1e-9)
	skew := unlike()
	skew[1].X = 1.9
	for words, stage := range map[string]stages.Stage{
		"there are 2: must be four, in two lines across": launching.OnFourPoints(stages.Store{Age: 29, On: stages.At(1, 33)}, 0),
		"two are at x = 1.5 and 1.9 m":                   launching.OnFourPoints(stages.Store{Age: 29, On: skew, OutOfLevel: 0.001}, 0),
		"change of OnFourPoints = 0.6":                   launching.OnFourPoints(stages.Store{Age: 29, On: unlike(), OutOfLevel: 0.001}, 0.6),
		"OnFourPoints without a stage":                   launching.OnFourPoints(nil, 0),
	} {
		_, err := stages.Plan{stages.Seat{Age: 28, On: bearings()}, stage}.Run(span(t), limits.EN1992{})
		require.ErrorIs(t, err, launching.ErrLaunching, words)
		require.ErrorContains(t, err, words)
	}
}

// The checks of the stage itself stay.
func TestOnFourPointsKeepsTheChecksOfTheStage(t *testing.T) {
	s := run(t, launching.OnFourPoints(jackDown(), 0)).Stages[1].Situations
	find(t, s[0], "rated force of a jack")
	require.Contains(t, find(t, s[0], "warp of the supports").Note, "line 2 is equalised")
	require.InEpsilon(t, find(t, s[1], "warp of the locked jacks").Limit.Value, find(t, s[1], "warp of the supports").Limit.Value, 1e-9)
}

// The element turns between its supports as the sum of its stretches: the lengths over their
// own torsion constants, by hand.
func TestOnFourPointsOnASteppedElement(t *testing.T) {
	box := func(web float64) section.Shape {
		shape, err := section.Box{
			Depth: 2.4, TopWidth: 9.6, RootWidth: 5.4, BottomWidth: 4.4, TopSlab: 0.22, BottomSlab: 0.26, WebThickness: web, CantileverRoot: 0.38, CantileverTip: 0.20,
			TopHaunch: section.Haunch{Width: 0.5, Height: 0.15}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.15},
		}.Shape()
		require.NoError(t, err)
		return shape
	}
	constant := func(web float64) float64 {
		j, err := box(web).Torsion()
		require.NoError(t, err)
		return j.Constant
	}
	element := span(t)
	along, err := section.Stepped{{Until: 7, Section: box(0.8)}, {Until: 25, Section: box(0.3)}, {Until: 34, Section: box(0.8)}}.Along()
	require.NoError(t, err)
	element.Section = along
	pads := stages.Elastic(250e6, stages.Pads(1.5, 1.3, 32.7)...) // 3 m apart across
	record, err := stages.Plan{launching.OnFourPoints(stages.Store{Age: 28, On: pads, OutOfLevel: 0.0002}, 0.05)}.Run(element, limits.EN1992{})
	require.NoError(t, err)
	s := record.Stages[0].Situations[0]
	state, err := element.Concrete.At(28)
	require.NoError(t, err)
	width := s.Reactions[1].Y - s.Reactions[0].Y
	give := (5.7+7.7)/constant(0.8)/(state.Modulus/2.4) + 18/constant(0.3)/(state.Modulus/2.4) + 4/(250e6*width*width)
	least := math.Inf(1)
	for _, r := range s.Reactions {
		least = math.Min(least, r.Nominal)
	}
	require.InEpsilon(t, 0.05*least*give*width*width, find(t, s, "warp of the supports").Limit.Value, 1e-6)
}
