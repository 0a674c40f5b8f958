package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages/internal/derive"
)

// explained says how what a check requires was got, what stands behind the force of bonded
// bars, and which factors the reactions have, as far as the record has them.
func (a *author) explained() []block {
	text := "What a check requires is the value at which its demand equals its limit"
	if slices.ContainsFunc(a.record.Lines, func(l derive.Line) bool {
		return strings.Contains(l.Expression, "+ 8e6") || strings.Contains(l.Expression, "- 8e6")
	}) {
		text += "; a mean strength counts as characteristic strength plus 8 MPa (EN 1992-1-1:2004, Table 3.1)"
	}
	text += ". "
	if slices.ContainsFunc(a.record.Symbols, func(s derive.Symbol) bool { return s.Symbol == "F_t" }) {
		text += "Bonded bars: F_t = ∫σ dA over the part of the section in tension, A_s_req = F_t/σ_s. "
	}
	text += "Reactions: static at rest with weight tolerance, prestress, levels and the actions that are always present; characteristic with dynamic factors and all actions too; ULS with the partial factors of the ULS row as well."
	return []block{paragraph{a.noted(a.units.words(text))}}
}

// flowWords say how the unit shear stresses of a wall were got.
const flowWords = "τ_Vy, τ_Vz by the flow of thin-wall theory, V·S/(I·t) generalised to unsymmetric sections: S is the first moment of area beyond the wall section, t its net thickness; " +
	"flows round voids are such that no void twists. τ_T: T·t/J in open walls; round voids by the closed flow, which is T/(2·A·t) for a single void of mid-line area A. V and T act at the shear centre given; a tendon adds its own T about it. " +
	"Net thickness: less 1.2·Σφ for ducts not grouted or of plastic, 0.5·Σφ for grouted metal ducts larger than b/8 (EN 1992-1-1:2004, 6.2.3(6))."

// numberTables numbers the tables with a caption in a part of the sheet, behind a prefix:
// Table A1.1, Table M1; those of checks have the numbers of the record.
func numberTables(blocks []block, prefix string, n *int) {
	for i, b := range blocks {
		switch b := b.(type) {
		case grid:
			if text := b.caption.raw(); text != "" && !strings.HasPrefix(text, "Table ") {
				*n++
				b.caption = append(words(fmt.Sprintf("Table %s%d: ", prefix, *n)), b.caption...)
				blocks[i] = b
			}
		case beside:
			for _, column := range b.columns {
				numberTables(column, prefix, n)
			}
		}
	}
}
