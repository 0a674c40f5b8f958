package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

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

// wallShear is the shear stress of a wall under stated factors.
type wallShear struct {
	flow  float64            // with its sign, taper included
	free  map[int][2]float64 // what counts by magnitude, by group of sections: see ledger.BodyFlow.Under
	bends section.Forces     // N, My and Mz under the factors, of the piece alone
	on    []ledger.BodyFlow  // of each item
	by    []section.Forces   // of each item: nominal, about the shear centre of its section
}

// shearOf is the shear stress of a wall, each row by the flow of the section on which it acts.
func (r *run) shearOf(items []ledger.Item, w ledger.Wall) wallShear {
	s := wallShear{free: map[int][2]float64{}, on: make([]ledger.BodyFlow, 0, len(items)), by: make([]section.Forces, 0, len(items))}
	for i := range items {
		item := &items[i]
		on := r.ledger.FlowOn(&w, item.State)
		factor := 1.0
		for _, k := range item.Factor {
			factor *= k
		}
		across, magnitudes := on.Under(item.Forces)
		s.flow += factor * across
		free := s.free[on.Group()]
		for k, v := range magnitudes {
			free[k] += factor * v
		}
		s.free[on.Group()] = free
		if on.Group() == 0 {
			s.bends = s.bends.Plus(item.Forces.Times(factor))
		}
		s.on, s.by = append(s.on, on), append(s.by, on.About(item.Forces))
	}
	s.flow += s.taper(w)
	return s
}

// taper is the shear stress by the forces of inclined slabs.
func (s *wallShear) taper(w ledger.Wall) float64 {
	return (s.bends.N*w.Cut.Taper[0] + s.bends.My*w.Cut.Taper[1] + s.bends.Mz*w.Cut.Taper[2]) / w.Cut.Net
}

// unit are the stresses of row i for unit Vy, Vz and T, what counts by magnitude in the sense of the flow.
func (s *wallShear) unit(i int) [3]float64 {
	on := &s.on[i]
	unit, free := on.Unit, s.free[on.Group()]
	for k, v := range on.Beside {
		unit[k] += v * math.Copysign(1, s.flow*free[0])
	}
	unit[2] += on.Face * math.Copysign(1, s.flow*free[1])
	return unit
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

// shearTable adds the table of the shear stress of a wall.
func (r *run) shearTable(book *derive.Book, c *Check, v *variant, w ledger.Wall, items []ledger.Item, shear *wallShear, sum formula.Quantity) error {
	draft := derive.Draft{Of: sum, By: derive.Shearing, At: w.At, Rows: make([]derive.Action, 0, len(items))}
	flows := map[*ledger.State]int{} // numbers in the book: the flow is that of the section
	for i := range items {
		item, f, unit, on := &items[i], shear.by[i], shear.unit(i), &shear.on[i]
		flow, known := flows[item.State]
		if !known {
			flow = book.Flow(w.X, derive.Wall{Name: r.flowWords(item.State, on), From: on.Cut.From, To: on.Cut.To}, unit[0], unit[1], unit[2])
			flows[item.State] = flow
		}
		draft.Rows = append(draft.Rows, derive.Action{
			Label: r.label(v, item), On: flow,
			Vy: f.Vy, Vz: f.Vz, T: f.T, Factors: r.rowFactors(item), Tendons: r.rowTendons(item), Rests: r.rests(v, item),
			Value: f.Vy*unit[0] + f.Vz*unit[1] + f.T*unit[2],
		})
	}
	if v.Brief {
		draft.Rows = uncancelled(draft.Rows)
	}
	taper := shear.taper(w)
	if math.Abs(taper) < nothing {
		return r.table(book, c, draft)
	}
	draft.Of = formula.Q("τ_V", sum.Value-taper, formula.Pascal, "shear stress of shear force and torsional moment, as in an even member")
	if err := r.table(book, c, draft); err != nil {
		return err
	}
	return taperLines(book, c, draft.Of, sum, shear.bends, w.Cut)
}

// flowWords name a section through a wall by its ends, with the shear centre about which
// torsion is taken; of elements that act as one with their marks.
func (r *run) flowWords(state *ledger.State, on *ledger.BodyFlow) string {
	from, to := on.Cut.From, on.Cut.To
	words := fmt.Sprintf("wall from y = %.3f m, z = %.3f m to y = %.3f m, z = %.3f m: thickness %.3f m, net %.3f m; shear centre y = %.3f m, z = %.3f m",
		from.Y, from.Z, to.Y, to.Z, on.Cut.Thickness(), on.Net, upright(on.Centre.Y), upright(on.Centre.Z))
	if on.Group() > 0 {
		var marks []string
		for _, k := range state.Pieces {
			marks = append(marks, r.girder.Pieces[k].Element.Mark)
		}
		words += "; " + strings.Join(marks, " + ") + " as one, each thickness times its modulus over that of the element looked at"
	}
	if on.Beside != ([3]float64{}) {
		words += "; with the stress of the wall square to it, by magnitude"
	}
	return words
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
