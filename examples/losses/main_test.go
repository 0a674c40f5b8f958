package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

func TestForcesAreWhatTheLossesLeave(t *testing.T) {
	r, err := calculate()
	require.NoError(t, err)
	area, jack := r.force.Tendon.Area(), r.force.Jacking.Stress
	for i, s := range r.stations {
		require.InEpsilon(t, jack-s.monthly.Total(), s.atMonth/area, 1e-12)
		require.InEpsilon(t, jack-s.final.Total(), s.end/area, 1e-12)
		require.InEpsilon(t, s.lockOff/area, jack-s.final.Friction-s.final.DrawIn, 1e-9)
		require.True(t, s.jack >= s.lockOff && s.lockOff > s.atMonth && s.atMonth > s.end && s.end > 0)
		for _, part := range []float64{s.final.Friction, s.final.DrawIn, s.final.Elastic, s.final.Shrinkage, s.final.Creep, s.final.Relaxation} {
			require.False(t, part < 0 || math.IsNaN(part))
		}
		mirror := r.stations[len(r.stations)-1-i]
		require.InEpsilon(t, s.end, mirror.end, 1e-9, "the tendon is symmetric")
	}
}

// Friction at the pier by hand: the angles of four parabolas each way.
func TestFrictionAtThePierByHand(t *testing.T) {
	r, err := calculate()
	require.NoError(t, err)
	pier := r.stations[4]
	middle := (0.25-1.30)/7.2 + 0.14/2 // slope half-way down: the mean of both ends gives the drop
	rise := 1.80 / 10.8                // half-way up to the pier
	angle := math.Abs(math.Atan(middle)-math.Atan(-0.14)) + math.Abs(math.Atan(middle)) + 2*math.Atan(rise)
	want, err := tendon.FrictionFactor(0.19, angle, 0.005, r.force.Path.Length(span))
	require.NoError(t, err)
	require.InEpsilon(t, want, pier.jack/r.force.Tendon.Area()/r.force.Jacking.Stress, 1e-9)
	require.Positive(t, r.secondary, "a tendon low in the spans raises a sagging restraint over the pier")
}

func TestItPrintsEveryLossByName(t *testing.T) {
	var out bytes.Buffer
	require.Equal(t, 0, run(nil, &out, io.Discard))
	for _, words := range []string{"at the jacks", "locked off", "28 d", "end of life", "friction", "draw-in", "elastic", "shrinkage", "creep", "relaxation",
		"Stressing record", "Draw-in felt over", "Restraint moment"} {
		require.Contains(t, out.String(), words)
	}
	require.NotContains(t, out.String(), "NaN")
	require.NotContains(t, out.String(), "-0.0")
	require.Equal(t, 3*(1+9), strings.Count(out.String(), "\n    "), "a head and nine places in each of three tables")
}

// full is a page that takes nothing.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestAPageThatCannotBeWrittenIsAnError(t *testing.T) {
	var complaint bytes.Buffer
	require.Equal(t, 2, run(nil, full{}, &complaint))
	require.Contains(t, complaint.String(), "losses: disk full")
}

func TestStationsAsJSON(t *testing.T) {
	var out bytes.Buffer
	require.Equal(t, 0, run([]string{"-json"}, &out, io.Discard))
	var rows []map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &rows))
	require.Len(t, rows, 9)
	require.InDelta(t, 36, rows[4]["x"], 1e-9)
	require.Equal(t, 2, run([]string{"-nonsense"}, io.Discard, io.Discard))
	require.Equal(t, 2, run([]string{"more"}, io.Discard, io.Discard))
}
