package launching_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// skewed are jacks on unlike lines, the second off the axis.
func skewed() launching.JackDown {
	j := jackDown()
	j.Jacks = [4]launching.JackPlace{{X: 1.3, Y: -1.1}, {X: 1.3, Y: 1.3}, {X: 32.2, Y: -1.0}, {X: 32.2, Y: 0.8}}
	return j
}

// threePoints is what a unit force at a place gives to three supports, by moments (Cramer).
func threePoints(at launching.JackPlace, on [3]launching.JackPlace) (parts [3]float64) {
	area := func(a, b, c launching.JackPlace) float64 { return (b.X-a.X)*(c.Y-a.Y) - (c.X-a.X)*(b.Y-a.Y) }
	all := area(on[0], on[1], on[2])
	return [3]float64{area(at, on[1], on[2]) / all, area(on[0], at, on[2]) / all, area(on[0], on[1], at) / all}
}

// While a stack is repacked three jacks carry what four did, and when one is lost at once the
// change counts by its factor: by statics of three points for every jack, the worst of all.
func TestThreeJacksByHand(t *testing.T) {
	other := skewed() // the narrow line first
	for i, at := range [4]int{2, 3, 0, 1} {
		other.Jacks[i] = skewed().Jacks[at]
		other.Jacks[i].X = 33.5 - other.Jacks[i].X
	}
	threeJacks(t, skewed())
	threeJacks(t, other)
}

func threeJacks(t *testing.T, j launching.JackDown) {
	j.Sudden = 1.6
	s := run(t, j).Stages[1].Situations[0]
	for words, times := range map[string]float64{"while a stack is repacked": 1, "after the loss of a jack": 1.6} {
		most, least := math.Inf(-1), math.Inf(1)
		for gone, place := range j.Jacks {
			var on [3]launching.JackPlace
			var numbers [3]int
			n := 0
			for i, p := range j.Jacks {
				if i != gone {
					on[n], numbers[n] = p, i
					n++
				}
			}
			lost := s.Reactions[gone].Characteristic.Most
			for n, part := range threePoints(place, on) {
				r := s.Reactions[numbers[n]].Characteristic
				if part > 0 {
					most = math.Max(most, r.Most+times*part*lost)
				} else {
					favourable, unfavourable := 0.95, 1.05
					if times > 1 { // accidental
						favourable, unfavourable = 1, 1
					}
					least = math.Min(least, favourable*r.Least+unfavourable*times*part*lost)
				}
			}
		}
		rated, uplift := find(t, s, "rated force of a jack "+words), find(t, s, "uplift at a jack "+words)
		require.InEpsilon(t, most, rated.Demand.Value, 1e-9, words)
		require.Equal(t, 3e6, rated.Limit.Value)
		require.InEpsilon(t, least, uplift.Demand.Value, 1e-9, words)
		require.Equal(t, stages.Fail, uplift.State, "of any four points only the crossing of the diagonals is within each three")
	}
}

// With actions on the element the larger factor on these counts in the uplift.
func TestThreeJacksWithWind(t *testing.T) {
	j := skewed()
	j.Actions = []stages.Action{{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 1.2, Least: -1, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 34, 300)}}}}
	s := run(t, j).Stages[1].Situations[0]
	least := math.Inf(1)
	for gone, at := range [4]int{3, 2, 1, 0} { // the diagonals
		width := [2]float64{2.4, 1.8}
		part := width[gone/2] / width[at/2]
		least = math.Min(least, 0.95*s.Reactions[at].Characteristic.Least-1.5*part*s.Reactions[gone].Characteristic.Most)
	}
	require.InEpsilon(t, least, find(t, s, "uplift at a jack while a stack is repacked").Demand.Value, 1e-9)
}

// Packing beside the jacks takes the force of one; with the lock rings set the element comes
// down on it by the gap, which changes the other three as a warp does.
func TestPackingBesideAJackByHand(t *testing.T) {
	j := skewed()
	j.SafetyPacking = &launching.SafetyPacking{Gap: 0.0012, Capacity: 5e6, Document: "EL-LG-40"}
	record := run(t, j)
	s := record.Stages[1].Situations[0]
	most := 0.0
	for _, r := range s.Reactions {
		most = math.Max(most, r.Characteristic.Most)
	}
	require.InEpsilon(t, most, find(t, s, "force on the packing beside a jack while a stack is repacked").Demand.Value, 1e-9)
	lost := find(t, s, "force on the packing beside a jack after the loss of a jack")
	require.InEpsilon(t, 2*most, lost.Demand.Value, 1e-9)
	require.Equal(t, 5e6, lost.Limit.Value)
	held := 0
	for _, h := range s.HoldPoints {
		if h.Kind == "packing beside jacks" {
			held++
			require.Equal(t, 0.0012, h.Required.Value)
			require.True(t, h.AtMost)
		}
	}
	require.Equal(t, 1, held)
	for _, c := range s.Checks {
		require.NotContains(t, c.Name, "uplift at a jack", "no three jacks carry alone")
	}
	s = record.Stages[1].Situations[1]
	width := [2]float64{2.4, 1.8}
	couple := 1 / (30.9/torsion(t, 29) + 2/(400e6*2.4*2.4) + 2/(400e6*1.8*1.8))
	largest, smallest := math.Inf(-1), math.Inf(1)
	for gone := range 4 {
		for at, r := range s.Reactions {
			change := 2 * 0.0012 * couple / width[gone/2] / width[at/2]
			switch {
			case at == gone:
			case (at/2 == gone/2) == (at%2 != gone%2): // beside it in its line, or on its side beyond
				largest = math.Max(largest, r.Characteristic.Most+change)
			default:
				smallest = math.Min(smallest, r.Characteristic.Least-change)
			}
		}
	}
	require.InEpsilon(t, largest, find(t, s, "rated force of a locked jack after the loss of another").Demand.Value, 1e-9)
	require.InEpsilon(t, smallest, find(t, s, "uplift at a locked jack after the loss of another").Demand.Value, 1e-9)
}

// Packing without what it may carry is refused in words.
func TestRefusedPacking(t *testing.T) {
	for words, b := range map[string]launching.SafetyPacking{
		"field JackDown.SafetyPacking.Document is empty": {Capacity: 1e6},
		"field JackDown.SafetyPacking.Capacity = 0 N":    {Document: "d"},
		"field JackDown.SafetyPacking.Gap = 0.1 m":       {Document: "d", Capacity: 1e6, Gap: 0.1},
	} {
		j := jackDown()
		j.SafetyPacking = &b
		_, err := stages.Plan{j}.Run(span(t), limits.EN1992{})
		require.ErrorIs(t, err, launching.ErrLaunching)
		require.ErrorContains(t, err, words)
	}
	j := jackDown()
	j.Sudden = 4
	_, err := stages.Plan{j}.Run(span(t), limits.EN1992{})
	require.ErrorContains(t, err, "JackDown.Sudden = 4")
}
