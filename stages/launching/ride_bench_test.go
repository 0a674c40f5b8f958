package launching_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// BenchmarkRide is a carrier of 16 axles over a span, every check.
func BenchmarkRide(b *testing.B) {
	b.ReportAllocs()
	element := span(b)
	plan := stages.Plan{stages.Seat{Age: 28, On: bearings()}, ride(0)}
	for range b.N {
		_, err := plan.Analyse(element, limits.EN1992{})
		require.NoError(b, err)
	}
}
