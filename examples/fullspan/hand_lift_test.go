package main

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// suspendedByHand is the range of the characteristic reaction of a lift point of the
// independent left pair and of the linked right pair, 1.7 m from the axis and 1.7 m from
// the ends, under roll and gradient of 0.01: the centre of gravity swings to one side and
// to one end, the wind pushes 1.2 m under the hooks, and the left pair alone resists.
func suspendedByHand() (left, right [2]float64) {
	area, level, _ := grossByHand()
	weight := area*25*34 + 300
	below := 2.4 - (area*25*34*level+300*1.2)/weight // of the centre of gravity under the hooks
	for i, factor := range []float64{0.97 * 0.9, 1.03 * 1.1} {
		sign, w := []float64{-1, 1}[i], weight*factor
		ends := w * 0.01 * below / 30.6 / 2
		across := (w*0.01*below + 0.6*34*1.2) / 3.4
		right[i] = w/4 + sign*ends
		left[i] = right[i] + sign*across
	}
	return left, right
}

// Both lifts by the straddle carrier, from the bed and on to the girder carrier.
func TestLiftsByHand(t *testing.T) {
	left, right := suspendedByHand()
	r := record(t)
	for _, stage := range []int{2, 5} {
		s := r.Stages[stage-1].Situations[0]
		require.Contains(t, s.Name, "lift")
		for i, of := range s.Reactions {
			want := left
			if i >= 2 {
				want = right
			}
			require.InEpsilon(t, want[0], of.Characteristic.Least/1e3, 1e-4, "stage %d, point %d", stage, i+1)
			require.InEpsilon(t, want[1], of.Characteristic.Most/1e3, 1e-4, "stage %d, point %d", stage, i+1)
		}
	}
	require.Equal(t, 28.0, r.Stages[4].Age)
}
