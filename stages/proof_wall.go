package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// wallProof is a shear stress or a principal tension in a wall.
type wallProof struct {
	of        *variant
	worst     ledger.Wall
	principal bool
	limit     limits.Limit
}

// shearOf is the signed shear stress of a wall by its flows, and of torsion at the
// face of an open wall.
func shearOf(items []ledger.Item, w ledger.Wall, visit func(item *ledger.Item, f section.Forces, factor float64)) (flow, open float64) {
	for i := range items {
		item := &items[i]
		f := item.Forces
		f.T += w.Centre.Y*f.Vz - w.Centre.Z*f.Vy
		factor := 1.0
		for _, k := range item.Factor {
			factor *= k
		}
		flow += factor * (f.Vy*w.Cut.Y + f.Vz*w.Cut.Z + f.T*w.Cut.T + f.N*w.Cut.Taper[0] + f.My*w.Cut.Taper[1] + f.Mz*w.Cut.Taper[2]) / w.Cut.Net
		open += factor * f.T * w.Cut.Face
		if visit != nil {
			visit(item, f, factor)
		}
	}
	return flow, open
}

// wallItems are the rows of the shear stress of a wall: what acts on its own piece.
func (r *run) wallItems(v *variant, w ledger.Wall) []ledger.Item {
	items := r.ledger.Items(v.ledger, w.X, w.Factors, r.transmitted(w.Apart))
	return slices.DeleteFunc(items, func(item ledger.Item) bool { return item.State.Ratio(w.Piece) == 0 })
}

// transmitted are those of the tendons kept apart that are pretensioned: the shear
// force of others acts in full at once.
func (r *run) transmitted(apart []ledger.ApartAt) []ledger.ApartAt {
	return slices.DeleteFunc(slices.Clone(apart), func(a ledger.ApartAt) bool { return !r.pretensioned(a.Tendon) })
}

// shearTable adds the table of the shear stress of a wall, of which a unit torque
// gives torque.
func (r *run) shearTable(book *derive.Book, c *Check, v *variant, w ledger.Wall, items []ledger.Item, torque float64, sum formula.Quantity) error {
	number := book.Flow(w.X, derive.Wall{Name: sectionWords(w), From: section.Point(w.Cut.From), To: section.Point(w.Cut.To)}, w.Cut.Y/w.Cut.Net, w.Cut.Z/w.Cut.Net, torque)
	draft := derive.Draft{Of: sum, By: derive.Shearing, At: w.At}
	var bends section.Forces // under the factors
	shearOf(items, w, func(item *ledger.Item, f section.Forces, factor float64) {
		row := derive.Action{
			Label: r.label(v, item), On: number, Vy: f.Vy, Vz: f.Vz, T: f.T, Factors: r.rowFactors(item), Tendons: r.rowTendons(item),
			Value: (f.Vy*w.Cut.Y+f.Vz*w.Cut.Z)/w.Cut.Net + f.T*torque,
		}
		draft.Rows = append(draft.Rows, row)
		bends = bends.Plus(f.Times(factor))
	})
	taper := bends.N*w.Cut.Taper[0] + bends.My*w.Cut.Taper[1] + bends.Mz*w.Cut.Taper[2]
	if math.Abs(taper/w.Cut.Net) < nothing {
		return r.table(book, c, draft)
	}
	draft.Of = formula.Q("τ_V", sum.Value-taper/w.Cut.Net, formula.Pascal, "shear stress of shear force and torsional moment, as in an even member")
	if err := r.table(book, c, draft); err != nil {
		return err
	}
	return taperLines(book, c, draft.Of, sum, bends, w.Cut)
}

// sectionWords name a section through a wall by its ends, with the shear centre about which
// torsion is taken.
func sectionWords(w ledger.Wall) string {
	from, to := w.Cut.From, w.Cut.To
	return fmt.Sprintf("wall from y = %.3f m, z = %.3f m to y = %.3f m, z = %.3f m: thickness %.3f m, net %.3f m; shear centre y = %.3f m, z = %.3f m",
		from.Y, from.Z, to.Y, to.Z, w.Cut.Thickness(), w.Cut.Net, upright(w.Centre.Y), upright(w.Centre.Z))
}

// upright is a coordinate without the sign of a zero.
func upright(v float64) float64 { return math.Round(v*1e3)/1e3 + 0 }

// taperLines add what normal force and moments do to the shear stress of a wall where
// the section varies.
func taperLines(book *derive.Book, c *Check, even, sum formula.Quantity, f section.Forces, cut ledger.Cut) error {
	inclined, err := formula.Derive(formula.Q("τ_i", 0, formula.Pascal, "shear stress by the forces of inclined slabs"), "(N*q_N + M_y*q_My + M_z*q_Mz)/b_net", formula.Mechanics,
		formula.Q("N", f.N, formula.Newton, "normal force under these factors"), formula.Q("q_N", cut.Taper[0], formula.PerMetre, "flow for unit N where the section varies"),
		formula.Q("M_y", f.My, formula.NewtonMetre, "moment about the axis y under these factors"), formula.Q("q_My", cut.Taper[1], formula.PerSquareMetre, "the same for unit M_y"),
		formula.Q("M_z", f.Mz, formula.NewtonMetre, "moment about the axis z under these factors"), formula.Q("q_Mz", cut.Taper[2], formula.PerSquareMetre, "the same for unit M_z"),
		formula.Q("b_net", cut.Net, formula.Metre, "thickness of the wall less the allowance for ducts"))
	if err != nil {
		return err
	}
	total, err := formula.Derive(sum, "τ_V + τ_i", formula.Mechanics, even, inclined.Result)
	if err != nil {
		return err
	}
	return c.write(book, inclined, total)
}
