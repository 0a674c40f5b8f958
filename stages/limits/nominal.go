package limits

import (
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Shares of the vertical load that are the nominal horizontal force of what stands: the
// larger of the first, and of the second beside the known horizontal forces. BS
// 5975:2008, 19.2.9.1 (recalled).
const (
	NominalAlone  = 0.025
	NominalBeside = 0.01
)

// NominalSource is where the nominal horizontal force comes from.
var NominalSource = formula.Source{Document: "BS 5975:2008", Place: "19.2.9.1", Confirm: true}

// NominalHorizontal is the nominal horizontal force (N) of what stands with a vertical
// load (N), beside the known horizontal forces (N), which are not in it.
func NominalHorizontal(vertical, known float64) float64 {
	return math.Max(NominalAlone*vertical, NominalBeside*vertical+known) - known
}
