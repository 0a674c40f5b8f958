package section_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// Regression values, not evidence, so they have no row in examples/verify: the
// standard beams (in) were solved once by finite elements on the same outlines,
// J between a lower bound from a stress function and an upper one from the
// displacements, shear centre above the centroid (ν = 0) and Cw from the warping
// function.
func TestStandardBeamsTwistAsBefore(t *testing.T) {
	flange := func(width, edge, taper, filletWidth, filletHeight float64) section.Flange {
		return section.Flange{Width: width, Edge: edge, Taper: taper, Fillet: section.Haunch{Width: filletWidth, Height: filletHeight}}
	}
	for name, beam := range map[string]struct {
		girder       section.IGirder
		lower, upper float64 // J, in⁴
		centre       float64 // in
		digit        float64 // half of the last digit of centre
		warping      float64 // in⁶
	}{
		"Type I": {section.IGirder{Depth: 28, WebThickness: 6, Top: flange(12, 4, 0, 3, 3), Bottom: flange(16, 5, 0, 5, 5)},
			4706.1, 4706.4, -2.376, 5e-4, 2.0735e5},
		"Type II": {section.IGirder{Depth: 36, WebThickness: 6, Top: flange(12, 6, 0, 3, 3), Bottom: flange(18, 6, 0, 6, 6)},
			7788.6, 7788.9, -4.067, 5e-4, 5.4531e5},
		"Type III": {section.IGirder{Depth: 45, WebThickness: 7, Top: flange(16, 7, 0, 4.5, 4.5), Bottom: flange(22, 7, 0, 7.5, 7.5)},
			17053.4, 17053.8, -4.364, 5e-4, 2.2943e6},
		"Type IV": {section.IGirder{Depth: 54, WebThickness: 8, Top: flange(20, 8, 0, 6, 6), Bottom: flange(26, 8, 0, 9, 9)},
			32877.9, 32878.4, -4.537, 5e-4, 7.2297e6},
		"Type VI": {section.IGirder{Depth: 72, WebThickness: 8, Top: flange(42, 5, 3, 4, 4), Bottom: flange(28, 8, 0, 10, 10)},
			40078.5, 40083.4, 9.479, 5e-4, 4.5160e7},
		"bulb-tee BT-72": {section.IGirder{Depth: 72, WebThickness: 6, Top: flange(42, 3.5, 2, 2, 2), Bottom: flange(26, 6, 4.5, 0, 0)},
			12235, 12251, 12.82, 5e-3, 3.063e7},
	} {
		t.Run(name, func(t *testing.T) {
			shape, err := beam.girder.Shape()
			require.NoError(t, err)
			torsion := torsionOf(t, shape)
			// Refinement stops when J changes by less than 0.05 %.
			require.Greater(t, torsion.Constant, beam.lower*(1-5e-4))
			require.Less(t, torsion.Constant, beam.upper*(1+5e-4))
			centre, err := torsion.ShearCentre(0)
			require.NoError(t, err)
			// 0.002 % of the depth beside the last digit.
			require.InDelta(t, beam.centre, centre.Z-shape.Properties().Centroid.Z, beam.digit+2e-5*beam.girder.Depth)
			// The finite elements' mesh.
			require.InEpsilon(t, beam.warping, torsion.WarpingConstant(), 4e-4)
		})
	}
}
