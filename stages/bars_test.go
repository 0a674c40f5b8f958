package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Bars are steel that fits where it is said to be, once.
func TestBarsFitInTheConcreteAndAreCountedOnce(t *testing.T) {
	bars := func(y, z, area float64) stages.BondedBars {
		return stages.BondedBars{To: 12, At: section.Point{Y: y, Z: z}, Area: area}
	}
	try := func(list ...stages.BondedBars) error {
		e := bare(straight("T", 0, 12, 0, 0.4))
		e.Bars = list
		_, err := stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T")}}}.Analyse(e, limits.EN1992{})
		return err
	}
	circle := func(radius float64) float64 { return math.Pi * radius * radius }
	require.ErrorContains(t, try(bars(0, 0.1, 0.3)), "0.3 m² as a circle has a radius of 0.309 m, its centre y = 0 m, z = 0.1 m is 0.100 m inside the edge: must fit in the concrete")
	require.NoError(t, try(bars(0, 0.1, circle(0.0999))))
	require.ErrorContains(t, try(bars(0, 0.1, circle(0.1001))), "must fit")
	require.ErrorContains(t, try(bars(0, 0.9, 1e-4)), "0.1 m outside the concrete: must be inside")
	require.ErrorContains(t, try(bars(0, 0.1, 1e-3), bars(0.1, 0.1, 1e-3), bars(0, 0.1, 1e-3)), "Element.Bars[0] and [2] are the same 0.001 m² at y = 0 m, z = 0.1 m: must be one entry")
	require.ErrorContains(t, try(bars(0, 0.4, 1e-4)), "Element.Bars[0] at x = 0.000 m: tendon T is 0.000 m away: must be at least half its duct and the radius of the bars")
	require.NoError(t, try(bars(0, 0.4-0.035-0.0101, circle(0.01))), "a duct of 70 mm")
	require.ErrorContains(t, try(bars(0, 0.4-0.035-0.0099, circle(0.01))), "tendon T is 0.045 m away")
}

// A section that is thinner in the middle of the bars, or a tendon that crosses them
// there, is found.
func TestBarsAreLookedAtAlongTheirLength(t *testing.T) {
	e := bare(draped(12))
	e.Bars = []stages.BondedBars{{To: 12, At: section.Point{Z: 0.1}, Area: 1e-4}}
	_, err := stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T")}}}.Analyse(e, limits.EN1992{})
	require.ErrorContains(t, err, "tendon T is 0.0")
	e = bare()
	e.Section, err = section.Stepped{{Until: 5.6, Section: rect(t, .5, .8)}, {Until: 5.9, Section: rect(t, .5, .4)}, {Until: 12, Section: rect(t, .5, .8)}}.Along()
	require.NoError(t, err)
	e.Bars = []stages.BondedBars{{To: 12, At: section.Point{Z: 0.6}, Area: 1e-4}}
	_, err = stages.Plan{stages.Store{Age: 28, On: dunnage(1, 11)}}.Analyse(e, limits.EN1992{})
	require.ErrorContains(t, err, "x = 5.600 m, y = 0 m, z = 0.6 m is 0.2 m outside the concrete")
}
