package section_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func TestWithinAndExtended(t *testing.T) {
	at := func(y, z float64) section.Point { return section.Point{Y: y, Z: z} }
	channel := shaped(t, at(0, 0), at(3, 0), at(3, 1), at(2, 1), at(2, 0.5), at(1, 0.5), at(1, 1), at(0, 1))
	line := func(y1, z1, y2, z2 float64) section.Cut { return section.Cut{From: at(y1, z1), To: at(y2, z2)} }
	require.Equal(t, []section.CutPart{{Cut: line(0, 0.75, 1, 0.75)}, {Cut: line(2, 0.75, 3, 0.75)}}, channel.Within(line(-1, 0.75, 4, 0.75)))
	require.Equal(t, []section.CutPart{{Cut: line(2.5, 0.75, 3, 0.75)}}, channel.Within(line(2.5, 0.75, 4, 0.75)))
	require.Equal(t, []section.CutPart{{Cut: line(0, 0.5, 1, 0.5)}, {Cut: line(1, 0.5, 2, 0.5), Face: true}, {Cut: line(2, 0.5, 3, 0.5)}}, channel.Within(line(0, 0.5, 3, 0.5)))
	require.Equal(t, []section.CutPart{{Cut: line(0, 0, 0, 1), Face: true}}, channel.Within(line(0, -1, 0, 2)))
	require.Empty(t, channel.Within(line(1.5, 0.6, 1.5, 2)))
	require.Empty(t, channel.Within(line(1.5, 0.2, 1.5, 0.2)))
	require.Empty(t, section.Shape{}.Within(line(0, 0, 1, 1)))

	long, ok := channel.Extended(line(1.5, 0.2, 1.5, 0.3))
	require.True(t, ok)
	require.InDelta(t, 0, long.From.Z, 1e-12)
	require.InDelta(t, 0.5, long.To.Z, 1e-12)
	back, ok := channel.Extended(line(2.6, 0.75, 2.4, 0.75))
	require.True(t, ok)
	require.InDelta(t, 3, back.From.Y, 1e-12)
	require.InDelta(t, 2, back.To.Y, 1e-12)
	_, ok = channel.Extended(line(1.4, 0.7, 1.6, 0.7))
	require.False(t, ok, "in the air")
	_, ok = channel.Extended(line(1.4, 0.5, 1.6, 0.5))
	require.False(t, ok, "along a face")
	past, ok := shaped(t, at(0, 0), at(1, 0), at(1, 1), at(0.5, 0.5), at(0, 1)).Extended(line(0.2, 0.5, 0.3, 0.5))
	require.True(t, ok)
	require.InDelta(t, 1, past.To.Y, 1e-12, "past a corner that it touches")
}
