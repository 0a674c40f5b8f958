package tendon_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

// A tendon is level where neither its elevation nor its plan slopes or bends.
func TestLevel(t *testing.T) {
	elevation := tendon.Curve{
		tendon.Straight(tendon.Point{Ordinate: 1.2}, tendon.Point{X: 10, Ordinate: 0.2}),
		tendon.Straight(tendon.Point{X: 10, Ordinate: 0.2}, tendon.Point{X: 20, Ordinate: 0.2}),
		tendon.Straight(tendon.Point{X: 20, Ordinate: 0.2}, tendon.Point{X: 30, Ordinate: 1.2}),
	}
	tn := harped(0.2, 0, tendon.Point{Ordinate: 1.2}, tendon.Point{X: 30, Ordinate: 1.2})
	for _, c := range []struct {
		name      string
		elevation tendon.Curve
		plan      tendon.Curve
		from, to  float64
		level     bool
	}{
		{"between kinks", elevation, tendon.Level(0, 30, 0.1), 10.5, 19.5, true},
		{"over a kink", elevation, tendon.Level(0, 30, 0.1), 10.5, 20.5, false},
		{"before the kink", elevation, tendon.Level(0, 30, 0.1), 5, 6, false},
		{"cut in two", tendon.Level(0, 30, 0.2), tendon.Curve{tendon.Level(0, 15, 0.1)[0], tendon.Level(15, 30, 0.1)[0]}, 1, 29, true},
		{"plan slopes", tendon.Level(0, 30, 0.2), tendon.Curve{tendon.Straight(tendon.Point{Ordinate: 0.1}, tendon.Point{X: 30, Ordinate: 0.11})}, 1, 2, false},
		{"bends from level", tendon.Curve{tendon.Parabola(tendon.Point{Ordinate: 0.2}, 0, tendon.Point{X: 30, Ordinate: 0.5})}, tendon.Level(0, 30, 0.1), 0, 1, false},
	} {
		tn.Elevation, tn.Plan = c.elevation, c.plan
		path, err := tn.Path()
		require.NoError(t, err, c.name)
		require.Equal(t, c.level, path.Level(c.from, c.to), c.name)
	}
	var none *tendon.Path
	require.True(t, none.Level(0, 1))
}
