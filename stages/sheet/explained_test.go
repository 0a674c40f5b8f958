package sheet

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// The appendix says once how required values, bonded bars, reactions and unit shear stresses
// were got, with symbols set as such.
func TestWhatIsExplainedOnce(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	page := calculationPage(a)
	for _, says := range []string{
		"value at which its demand equals its limit; a mean strength counts as characteristic strength plus 8 MPa", "F_t = ∫σ dA over", "ULS with the partial factors of the ULS row",
		"first moment of area beyond the wall section", "twice the area within the mid-line", "1.2 times the outer diameters of ducts not grouted or of plastic, 0.5 times those of grouted metal ducts",
		"on its face towards +x a positive τ acts to the left of that way where y is drawn to the right, so in Figure ",
	} {
		require.Regexp(t, regexp.QuoteMeta(says), page)
	}
	require.Contains(t, htmlText(a.explained()[0].(paragraph).words), "A<sub>s,req</sub> = F<sub>t</sub>/σ<sub>s</sub>")
	other := calculationPage(passed(t, Settings{}))
	require.NotContains(t, other, "F_t =")
	require.NotContains(t, other, "plus 8 MPa", "no concrete of EN 1992")
}

// The name of a wall section is converted with its ends.
func TestAWallSectionInUSUnits(t *testing.T) {
	page := calculationPage(passed(t, Settings{Units: US}, lists, func(r *stages.Record) {
		r.Flows = []derive.Flow{derive.NewFlow(1, 8, derive.Wall{Name: "wall from y = 1.200 m, z = 0.300 m to y = 1.500 m, z = 0.300 m"}, 1, 1, 1)}
	}))
	require.Contains(t, page, "wall from y = 3.937 ft (1.200 m), z = 0.984 ft (0.300 m)")
}

// A formula of creep and shrinkage is printed once; at other ages only the numbers put in
// and the result.
func TestFormulasOfTheAppendixAreNotRepeated(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, lists, func(r *stages.Record) {
		r.Lines = append(r.Lines, derive.Line{Result: derive.Number{Symbol: 3, Value: -600e3}, Expression: "k*M_y", Operands: []derive.Number{{Symbol: 2, Value: 3}, {Symbol: 1, Value: -200e3}}, Source: 2})
		r.Appendix = []stages.Group{{Title: "at 3 d", Lines: []int{2}}, {Title: "at 4 d", Lines: []int{4}}, {Title: "at 5 d", Lines: []int{4}}}
		r.Stages[0].Situations[0].Checks[0].Lines = nil
	}))
	require.Equal(t, 1, strings.Count(page, "| M_d = k·M_y |"))
	require.Contains(t, page, "| M_d | 3·(−200 kN·m) | **−600 kN·m** | [2†] |")
	require.NotContains(t, page, "at 5 d")
}
