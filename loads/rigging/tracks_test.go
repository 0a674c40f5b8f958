package rigging_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/rigging"
)

func crawler() rigging.Tracks {
	return rigging.Tracks{Length: 7.2, Shoe: 1.1, Gauge: 5.8, Ahead: 0.1, Carrier: 700e3, CarrierAt: 0.05, Upper: 900e3, UpperRadius: -1.6, Load: 450e3, Radius: 8}
}

// The pressure below both tracks, integrated, is the weight and its moments about both
// axes: at any slew angle, trapezoidal or triangular.
func TestTracksBalance(t *testing.T) {
	k := crawler()
	triangular, trapezoidal := 0, 0
	for _, load := range []float64{0, 450e3, 700e3} {
		k.Load = load
		for i := range 72 {
			slew := float64(i) * math.Pi / 36
			r, err := k.At(slew)
			require.NoError(t, err)
			sum, along, across := 0.0, 0.0, 0.0
			for side, track := range map[float64]rigging.Track{1: r.Left, -1: r.Right} {
				// From the end that is pressed more: a straight line from Most to Least over Contact.
				force := k.Shoe * track.Contact * (track.Most + track.Least) / 2
				from := track.Contact / 3 * (track.Most + 2*track.Least) / (track.Most + track.Least)
				sum += force
				along += force * math.Copysign(k.Length/2-from, r.Ahead)
				across += side * force * k.Gauge / 2
				require.InEpsilon(t, force, track.Force, 1e-12)
				require.GreaterOrEqual(t, track.Least, 0.0)
			}
			if r.Left.Contact < k.Length {
				triangular++
			} else {
				trapezoidal++
			}
			arm := load*8 - 900e3*1.6
			require.InEpsilon(t, 1600e3+load, sum, 1e-12)
			require.InDelta(t, 700e3*0.05+(900e3+load)*0.1+arm*math.Cos(slew), along, 1e-3)
			require.InDelta(t, arm*math.Sin(slew), across, 1e-3)
		}
	}
	require.Greater(t, triangular, 20)
	require.Greater(t, trapezoidal, 20)
}

// Closed forms: even pressure under a centred crane; twice the mean at a third of half the
// length; a resultant outside tips.
func TestTracksClosedForms(t *testing.T) {
	k := rigging.Tracks{Length: 6, Shoe: 1, Gauge: 4, Carrier: 500e3, Upper: 500e3, Load: 200e3, Radius: 0}
	r, err := k.At(0)
	require.NoError(t, err)
	require.Equal(t, rigging.Track{Force: 600e3, Contact: 6, Most: 100e3, Least: 100e3}, r.Left)
	k.Radius = 6 // the resultant at 1 m: L/6
	r, err = k.At(0)
	require.NoError(t, err)
	require.InEpsilon(t, 200e3, r.Right.Most, 1e-12)
	require.InDelta(t, 0, r.Right.Least, 1e-6)
	k.Radius = 12 // at 2 m: a third of the length is pressed
	r, err = k.At(0)
	require.NoError(t, err)
	require.InEpsilon(t, 3, r.Left.Contact, 1e-12)
	require.InEpsilon(t, 400e3, r.Left.Most, 1e-12)
	require.Zero(t, r.Left.Least)
	k.Radius = 6 // across: 3/4 of the weight on the left track
	r, err = k.At(math.Pi / 2)
	require.NoError(t, err)
	require.InEpsilon(t, 900e3, r.Left.Force, 1e-12)
	k.Radius = 18
	_, err = k.At(0)
	require.ErrorContains(t, err, "outside the tracks: must be within ±3.00 and ±2.00 m: the crane tips")
	k.Radius = 12.5
	_, err = k.Worst(0, 7)
	require.ErrorIs(t, err, rigging.ErrRigging)
	require.ErrorContains(t, err, "the crane tips")
	_, err = k.At(8)
	require.ErrorContains(t, err, "slew = 8 rad: must be within ±7 rad")
	k.Gauge = 0.5
	_, err = k.At(0)
	require.ErrorContains(t, err, "Tracks.Gauge = 0.5 m: must be 1 to 20 m")
}

// No slew angle has a larger pressure than the worst.
func TestTracksWorst(t *testing.T) {
	k := crawler()
	worst, err := k.Worst(0, 2*math.Pi)
	require.NoError(t, err)
	most := math.Max(worst.Left.Most, worst.Right.Most)
	for i := range 5000 {
		r, err := k.At(2 * math.Pi * float64(i) / 5000)
		require.NoError(t, err)
		require.LessOrEqual(t, math.Max(r.Left.Most, r.Right.Most), most*(1+1e-6))
	}
}

func TestTrackLines(t *testing.T) {
	k, triangular := crawler(), 0
	k.Load = 700e3
	for i := range 60 {
		slew := 2 * math.Pi * float64(i) / 60
		r, err := k.At(slew)
		require.NoError(t, err)
		lines, err := k.Lines(slew)
		by := derived(t, lines, err)
		gives(t, by, map[string]float64{"F_t_1": r.Left.Force, "F_t_2": r.Right.Force, "p_max_1": r.Left.Most, "p_max_2": r.Right.Most})
		if r.Left.Contact < k.Length {
			triangular++
			gives(t, by, map[string]float64{"l_c": r.Left.Contact})
			require.NotContains(t, by, "p_min_1")
			continue
		}
		require.InDelta(t, r.Right.Least, by["p_min_2"].Result.Value, 1e-12*r.Right.Most)
	}
	require.Greater(t, triangular, 5)
	_, err := k.Lines(math.NaN())
	require.ErrorIs(t, err, rigging.ErrRigging)
}
