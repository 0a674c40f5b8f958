package launching_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
)

// whole requires of a stage a record that is whole or an error in words.
func whole(t *testing.T, s stages.Stage) {
	record, err := standing(t, s)
	if err != nil {
		refused(t, err)
		return
	}
	require.NoError(t, record.Check())
	_, err = json.Marshal(record) // refuses NaN and infinities
	require.NoError(t, err)
}

// Whatever numbers a jack-down gets, it is refused in words or gives finite numbers.
func FuzzJackDown(f *testing.F) {
	f.Add(29.0, 1.3, 32.7, 1.2, 3e6, 400e6, 0.0005, 0.05, 0.8, 0.01)
	f.Add(28.0, 0.1, 0.7, 0.1, 1e3, 1e11, 0.05, 0.01, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, age, first, second, half, rated, stiffness, warp, change, height, roll float64) {
		j := jackDown()
		j.Age, j.Warp, j.Change, j.Roll = age, warp, change, roll
		j.Jacks = [4]launching.JackPlace{{X: first, Y: -half}, {X: first, Y: half}, {X: second, Y: -half}, {X: second, Y: half}}
		j.Jack.Rated, j.Jack.Stiffness, j.Stack.Height = rated, stiffness, height
		whole(t, j)
	})
}

// Whatever numbers a hoist by a gantry gets.
func FuzzHoist(f *testing.F) {
	f.Add(1.7, 32.3, 1.6, 0.9, 1.1, 0.1, 16.2, 46.8, -6.0, 36.0, 4e6, 0.0)
	f.Add(0.0, 34.0, 0.3, 0.0, 2.0, 0.5, 82.0, 1.0, 0.0, 60.0, 1e3, 0.35)
	f.Fuzz(func(t *testing.T, left, right, half, least, most, stop, rearTrolley, frontTrolley, rear, main, rated, roll float64) {
		h := hoist()
		for i := range h.On {
			h.On[i].X = [2]float64{left, right}[i/2]
			h.On[i].Y = half * float64(2*(i%2)-1)
		}
		h.Dynamic, h.Stop, h.Roll, h.Hooks[0].Rated = loads.Dynamic{Least: least, Most: most}, stop, roll, rated
		p := &h.Positions[0]
		p.Trolleys[0].At, p.Trolleys[1].At, p.Stands[0].X, p.Stands[1].X = rearTrolley, frontTrolley, rear, main
		whole(t, h)
	})
}

// Whatever numbers a self-launch gets.
func FuzzLaunch(f *testing.F) {
	f.Add(-24.0, 9.5, -6.0, 33.0, 0.0, 40.0, 12.0, 0.0, 0.0, 40e3, 420e3, 1.5)
	f.Add(-80.0, 0.0, 0.0, 34.0, 1.8, 1.0, 80.0, 0.1, 0.1, 1e3, 1e8, 5.0)
	f.Fuzz(func(t *testing.T, at, roll, rear, main, off, trolley, wind, gradient, crossFall, weight, counter, factor float64) {
		l := launch(rolling(trolley))
		p := &l.Positions[0]
		p.At, p.Roll, p.Wind.Speed, p.Gradient, p.CrossFall = at, roll, wind, gradient, crossFall
		p.Stands[0].X, p.Stands[1].X, p.Stands[1].Off = rear, main, off
		l.Gantry.Weights[0].Loads.Lines[0] = loads.Uniform(0, 52, weight)
		l.Gantry.Weights[1].Loads.Points[0].Force, l.Factor = counter, factor
		whole(t, l)
	})
}
