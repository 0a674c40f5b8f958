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

// prover writes the tables and lines that show a demand.
type prover interface {
	prove(r *run, book *derive.Book, c *Check) error
}

// lineProof is a demand that lines show.
type lineProof struct{ lines []formula.Line }

func (p *lineProof) prove(_ *run, book *derive.Book, c *Check) error {
	return c.write(book, p.lines...)
}

// write adds lines to what shows a check.
func (c *Check) write(book *derive.Book, lines ...formula.Line) error {
	for _, line := range lines {
		if line.Result.Symbol == "" {
			continue
		}
		n, err := book.Line(line)
		if err != nil {
			return err
		}
		c.Lines = append(c.Lines, n)
	}
	return nil
}

// stressProof is a stress by the ledger.
type stressProof struct {
	of    *variant
	worst ledger.Worst
	sign  float64
	limit limits.Limit
}

func (p *stressProof) prove(r *run, book *derive.Book, c *Check) error {
	sum := formula.Q("σ_c", p.worst.Value, formula.Pascal, "concrete stress, tension +")
	if err := r.stressTable(book, c, p.of, p.worst, sum); err != nil {
		return err
	}
	if p.limit.Name == "" {
		return nil
	}
	if p.sign < 0 {
		line, err := formula.Derive(formula.Q("σ_comp", 0, formula.Pascal, "compressive stress"), "-σ_c", formula.Mechanics, sum)
		if err != nil {
			return err
		}
		return c.write(book, line, p.limit.Line)
	}
	return c.write(book, p.limit.Line)
}

// nothing is a force (N), a moment (N·m) or a stress (Pa) of which no digit is printed.
const nothing = 0.1

// stressTable adds the table of a stress: a row for each action.
func (r *run) stressTable(book *derive.Book, c *Check, v *variant, w ledger.Worst, sum formula.Quantity) error {
	draft := derive.Draft{Of: sum, By: derive.Bending, At: w.At}
	items := r.ledger.Items(v.ledger, w.X, w.Factors, w.Apart)
	draft.Rows = make([]derive.Action, 0, len(items))
	for i := range items {
		item := &items[i]
		properties := r.ledger.Section(w.X, item.State)
		f := ledger.About(item.Forces, properties.Centroid)
		row := derive.Action{
			Label: r.label(v, item), On: book.Section(w.X, r.stateName(item.State), properties),
			N: f.N, My: f.My, Mz: f.Mz, Factors: r.rowFactors(item), Tendons: r.rowTendons(item),
		}
		if row.Value = properties.Stress(f, w.At); math.Abs(row.Value) < nothing && max(math.Abs(f.N), math.Abs(f.My), math.Abs(f.Mz)) < nothing {
			continue // an action that does nothing here
		}
		if ratio := item.State.Ratio(w.Piece); ratio != 1 {
			if ratio == 0 {
				continue
			}
			row.Factors = append(row.Factors, derive.Factor{Symbol: "n_E", Value: ratio, Name: "modulus of the element over the reference modulus"})
		}
		draft.Rows = append(draft.Rows, row)
	}
	bimoment, ω, constant, ok := r.ledger.Warping(v.ledger, w.X, w.Piece, w.At, w.Factors, w.Apart)
	if !ok || math.Abs(bimoment*ω/constant) < nothing {
		return r.table(book, c, draft)
	}
	draft.Of = formula.Q("σ_b", sum.Value-bimoment*ω/constant, formula.Pascal, "stress of the plane section, tension +")
	if err := r.table(book, c, draft); err != nil {
		return err
	}
	return warpingLines(book, c, draft.Of, sum, bimoment, ω, constant)
}

// warpingLines add the stress of warping torsion to that of the plane section.
func warpingLines(book *derive.Book, c *Check, plane, sum formula.Quantity, bimoment, ω, constant float64) error {
	warping, err := formula.Derive(formula.Q("σ_w", 0, formula.Pascal, "stress of warping torsion, tension +"), "B*ω/C_w", formula.Source{Document: "Vlasov (1940)"},
		formula.Q("B", bimoment, formula.NewtonSquareMetre, "bimoment under these factors, from B″ − G·J/(E·C_w)·B = m along the element, its ends and supports free to warp"),
		formula.Q("ω", ω, formula.SquareMetre, "sectorial coordinate"), formula.Q("C_w", constant, formula.MetreToSixth, "warping constant"))
	if err != nil {
		return err
	}
	total, err := formula.Derive(sum, "σ_b + σ_w", formula.Mechanics, plane, warping.Result)
	if err != nil {
		return err
	}
	return c.write(book, warping, total)
}

// table adds a table to what shows a check; without a row there is none.
func (r *run) table(book *derive.Book, c *Check, draft derive.Draft) error {
	if len(draft.Rows) == 0 {
		return nil
	}
	draft.Rows = derive.Bundle(draft.Rows, joined)
	n, err := book.Table(draft)
	if err != nil {
		return fmt.Errorf("%w: %s at x = %.4f m: %w", ErrStage, c.Name, c.X, err)
	}
	c.Tables = append(c.Tables, n)
	return nil
}

// joined is the label of two tendons of a row: W2L and W2R are W2L, W2R.
func joined(a, b string) string { return a + ", " + b }

// label names an action in a table.
func (r *run) label(v *variant, item *ledger.Item) string {
	if item.Tendon >= 0 {
		return r.tendons[item.Tendon].Mark
	}
	if item.Entry >= len(v.entries) {
		return "contact under these factors"
	}
	e := v.entries[item.Entry]
	name := e.name + " on " + e.of.words()
	if e.coefficient < 0 {
		name = e.name + " off " + e.of.words()
	}
	return name
}

// words are the supports of an arrangement in short.
func (a *arrangement) words() string {
	var texts []string
	for _, s := range a.supports {
		text := fmt.Sprintf("%.4g", s.X)
		if len(texts) == 0 || texts[len(texts)-1] != text {
			texts = append(texts, text)
		}
	}
	word := "supports"
	if a.suspended {
		word = "lift points"
	}
	return word + " at x = " + strings.Join(texts, ", ") + " m"
}

// stateName is a section state in words, written once.
func (r *run) stateName(s *ledger.State) string {
	name, ok := r.names[s]
	if !ok {
		if r.names == nil {
			r.names = map[*ledger.State]string{}
		}
		name = r.nameState(s)
		r.names[s] = name
	}
	return name
}

func (r *run) nameState(s *ledger.State) string {
	var bonded []string
	for i, b := range s.Bonded {
		if b {
			bonded = append(bonded, r.tendons[i].Mark)
		}
	}
	name := "net, all ducts out"
	switch {
	case len(r.tendons) == 0:
		name = "gross"
	case len(bonded) > 0 && s.SteelOut:
		name = "concrete beside the bonded steel"
	case len(bonded) > 0:
		name = "transformed, bonded: " + strings.Join(bonded, ", ")
	}
	if len(r.girder.Pieces) > 1 {
		var marks []string
		for _, k := range s.Pieces {
			marks = append(marks, r.girder.Pieces[k].Element.Mark)
		}
		name += "; " + strings.Join(marks, " + ")
	}
	return name
}

// rowFactors are the factors of a row under their symbols.
func (r *run) rowFactors(item *ledger.Item) []derive.Factor {
	var list []derive.Factor
	for k, i := range item.Causes {
		if i < 0 && item.Factor[k] == 1 {
			continue // a part that counts in full
		}
		f := derive.Factor{Symbol: "ζ", Value: item.Factor[k], Name: "part that has spread from the anchor, EN 1992-1-1:2004 8.10.3(5)"}
		if item.Tendon >= 0 && r.pretensioned(item.Tendon) {
			f.Name = "force by the transmission length that is worst over that by its basic value, EN 1992-1-1:2004 8.10.2.2(3)"
		}
		if i >= 0 {
			switch c := &r.causes[i]; c.kind {
			case causePrestress:
				f.Symbol, f.Name = "r", "on the prestress"
			case causeDynamic:
				f.Symbol, f.Name = "δ", "dynamic factor"
			case causeWeight:
				f.Symbol, f.Name = "γ_w", "on the weight: tolerance and partial factor"
			case causeBed:
				f.Symbol, f.Name = "β_bed", "part of the weight that the bed does not carry: 0 to 1"
			case causeLevel:
				f.Symbol, f.Name = "λ", "support out of level, one way or the other"
			case causeAction:
				f.Symbol, f.Name = "ψ", "presence and partial factor of "+c.key
			}
		}
		list = append(list, f)
	}
	return list
}

func (r *run) rowTendons(item *ledger.Item) *derive.Tendons {
	if item.Tendon < 0 {
		return nil
	}
	d := item.At.Direction
	return &derive.Tendons{Count: 1, Force: item.Force, Cos: d[0], CosY: d[1], CosZ: d[2], At: item.At.At}
}

// wallProof is a shear stress or a principal tension in a wall.
type wallProof struct {
	of        *variant
	worst     ledger.Wall
	principal bool
	limit     limits.Limit
}

func (p *wallProof) prove(r *run, book *derive.Book, c *Check) error {
	w := p.worst
	items := r.ledger.Items(p.of.ledger, w.X, w.Factors, r.transmitted(w.Apart))
	flow, open := shearOf(items, w, nil)
	sign := 1.0
	if flow < 0 {
		sign = -1
	}
	shear := formula.Q("τ", sign*w.Shear, formula.Pascal, "shear stress of the wall, on its thickness less the allowance for ducts")
	torque := w.Cut.T / w.Cut.Net
	if w.Cut.Open { // torsion at the face counts by magnitude: in the sense of the flow
		torque += math.Copysign(w.Cut.Face, flow*open)
	}
	if err := r.shearTable(book, c, p.of, w, items, torque, shear); err != nil {
		return err
	}
	if !p.principal {
		return c.write(book, p.limit.Line)
	}
	normal := formula.Q("σ_c", w.Normal, formula.Pascal, "stress along the element, tension +")
	at := ledger.Worst{X: w.X, Piece: w.Piece, At: w.At, Value: w.Normal, Factors: w.Factors, Apart: w.Apart}
	if err := r.stressTable(book, c, p.of, at, normal); err != nil {
		return err
	}
	line, err := formula.Derive(formula.Q("σ_1", 0, formula.Pascal, "principal tension"), "σ_c/2 + sqrt(σ_c*σ_c/4 + τ*τ)", formula.Mechanics, normal, shear)
	if err != nil {
		return err
	}
	return c.write(book, line, p.limit.Line)
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

// transmitted are those of the tendons kept apart that are pretensioned: the shear
// force of others acts in full at once.
func (r *run) transmitted(apart []ledger.ApartAt) []ledger.ApartAt {
	return slices.DeleteFunc(slices.Clone(apart), func(a ledger.ApartAt) bool { return !r.pretensioned(a.Tendon) })
}

// shearTable adds the table of the shear stress of a wall, of which a unit torque
// gives torque.
func (r *run) shearTable(book *derive.Book, c *Check, v *variant, w ledger.Wall, items []ledger.Item, torque float64, sum formula.Quantity) error {
	name := fmt.Sprintf("wall %.3f m thick, net %.3f m", w.Cut.Thickness(), w.Cut.Net)
	number := book.Flow(w.X, name, w.Cut.Y/w.Cut.Net, w.Cut.Z/w.Cut.Net, torque)
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
	draft.Of = formula.Q("τ_V", sum.Value-taper/w.Cut.Net, formula.Pascal, "shear stress of shear force and torque, as in an even member")
	if err := r.table(book, c, draft); err != nil {
		return err
	}
	return taperLines(book, c, draft.Of, sum, bends, w.Cut)
}

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
