//go:build !race

package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// With the race detector the deck would take minutes; nothing in it runs at once.

// The whole deck passes but for what documents cover. Mirror images give the same but for their
// days, the bearings carry the deck, and more creep takes the moments further.
func TestWholeDeck(t *testing.T) {
	b, err := wholeDeck()
	require.NoError(t, err)
	conditional(t, b)
	last := b.Record.Stages[len(b.Record.Stages)-1]
	finished := last.Situations[len(last.Situations)-1]
	weight, sum := 12e3*end+weightOf(t, b.Girder.Pieces), 0.0
	at := map[float64]float64{}
	for _, r := range finished.Reactions {
		sum += r.Nominal
		at[math.Round(r.X*10)/10] += r.Nominal
	}
	require.InEpsilon(t, weight, sum, 1e-9)
	require.InEpsilon(t, at[0.5], at[end-0.5], 0.03, "P2 was erected later")
	require.InEpsilon(t, at[pier1], at[pier2], 0.01)
	band := b.Record.Results[len(b.Record.Results)-1].Tables[0].Rows
	require.Len(t, band, 5)
	middle := band[2]
	require.Equal(t, (pier1+pier2)/2, middle[0])
	require.True(t, middle[2] < middle[3] && middle[3] < middle[4] || middle[2] > middle[3] && middle[3] > middle[4], "more creep, more of it: %v", middle)
	require.InDelta(t, middle[3], (middle[2]+middle[4])/2, 0.2*math.Abs(middle[4]-middle[2]))
}
