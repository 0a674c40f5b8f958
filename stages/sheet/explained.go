package sheet

import (
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
		if slices.ContainsFunc(a.record.Lines, func(l derive.Line) bool { return strings.Contains(l.Expression, "8e6*sqrt(1 + 1/n)") }) {
			text += ", but the mean of n test specimens as characteristic strength plus 8 MPa·√(1 + 1/n), for so few leave it uncertain (EN 1990, D.7.2)"
		}
	}
	text += ". "
	if slices.ContainsFunc(a.record.Symbols, func(s derive.Symbol) bool { return s.Symbol == "F_t" }) {
		text += "Bonded bars: F_t = ∫σ dA over the part of the section in tension, A_s_req = F_t/σ_s. "
	}
	text += "Reactions: static at rest with weight tolerance, prestress, levels and the actions that are always present; characteristic with dynamic factors and all actions too; ULS with the partial factors of the ULS row as well."
	return append([]block{paragraph{a.noted(a.units.words(text))}}, a.restWords()...)
}

// restWords say where the numbers of a row come from.
func (a *author) restWords() []block {
	if !slices.ContainsFunc(a.record.Tables, func(t derive.Table) bool {
		return slices.ContainsFunc(t.Rows, func(r derive.Row) bool { return r.Of > 0 })
	}) {
		return nil
	}
	t := words("Rows of weight: the parts of ").with(weightsKey).and(plain, " and the reactions that go with them on the supports of the table named with the row; rows of an action: its force as stated with its stage and the reactions to it. ")
	t = append(t, a.noted("N, M_y, M_z, V_y, V_z and T at x are the sums of what is on one side of x, by statics about the centroid of the section properties, V and T about the shear centre. Where roll and gradient are named with a row, weight and vertical reactions have the parts sin(gradient) along, sin(roll)·cos(gradient) across and cos(roll)·cos(gradient) down; + roll lifts the left side, + gradient the right end. ")...)
	t = t.and(plain, "Weight that was carried before is on the supports of that stage, and leaves them where it says removed. ")
	if len(a.record.Tendons) > 0 {
		t = append(t.and(plain, "Rows of tendons: "), a.noted("P at x and age: ")...).with(lossesChapter).and(plain, "; a row of its own is the loss since grouting, which acts on the concrete beside the steel.")
	}
	if a.brief() {
		t = t.and(plain, " Of brief stages rows of one action, and of one tendon with its losses, on the same section are one; what was applied and removed again with the same stress, and what has none at the place, is left out.")
	}
	return []block{paragraph{t}}
}

// flowWords say how the unit shear stresses of a wall were got.
const flowWords = "τ_Vy, τ_Vz by the flow of thin-wall theory: unit shear force times first moment of area beyond the wall section, by second moment of area and net thickness, generalised to unsymmetric sections; " +
	"flows round voids are such that no void twists. τ_T: net thickness by torsion constant in open walls; round voids by the closed flow, which for a single void is 1 by twice the area within the mid-line and the net thickness. Unit forces act at the shear centre given; a tendon adds its own T about it. " +
	"Net thickness: less 1.2 times the outer diameters of ducts not grouted or of plastic, 0.5 times those of grouted metal ducts larger than an eighth of the wall (EN 1992-1-1:2004, 6.2.3(6))."

// signWords say which way a positive shear stress of a wall section acts.
func (a *author) signWords() prose {
	return a.noted(" Sign: a wall section runs from its first point to its second; on its face towards +x a positive τ acts to the left of that way where y is drawn to the right, so in ").
		with(a.sectionKey()).and(plain, ", where y is to the left, to the right of it. A positive vertical shear acts downwards on that face, a positive torsional moment from y towards z.")
}
