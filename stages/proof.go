package stages

import (
	"fmt"
	"math"

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
		n, err := book.LineTo(line, c.sideOf(line.Result))
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

// writtenSection is a section state with its number in the book.
type writtenSection struct {
	section.Properties
	number int
}

// stressTable adds the table of a stress: a row for each action.
func (r *run) stressTable(book *derive.Book, c *Check, v *variant, w ledger.Worst, sum formula.Quantity) error {
	draft := derive.Draft{Of: sum, By: derive.Bending, At: w.At}
	items := r.ledger.Items(v.ledger, w.X, w.Factors, w.Apart)
	draft.Rows = make([]derive.Action, 0, len(items))
	sections := map[*ledger.State]writtenSection{}
	for i := range items {
		item := &items[i]
		on, known := sections[item.State]
		ratio := item.State.Ratio(w.Piece)
		own := v.Brief && ratio != 0
		if !known {
			if on.Properties = r.ledger.Section(w.X, item.State); own {
				on.Properties = toModulus(on.Properties, ratio)
			}
			on.number = book.Section(w.X, r.stateName(item.State), on.Properties)
			sections[item.State] = on
		}
		if own {
			ratio = 1
		}
		properties := &on.Properties
		f := ledger.About(item.Forces, properties.Centroid)
		row := derive.Action{
			Label: r.label(v, item), On: on.number,
			N: f.N, My: f.My, Mz: f.Mz, Factors: r.rowFactors(item), Tendons: r.rowTendons(item), Rests: r.rests(v, item),
		}
		if row.Value = properties.Stress(f, w.At); math.Abs(row.Value) < nothing && max(math.Abs(f.N), math.Abs(f.My), math.Abs(f.Mz)) < nothing {
			continue // an action that does nothing here
		}
		if ratio != 1 {
			if ratio == 0 {
				continue
			}
			row.Factors = append(row.Factors, derive.Factor{Symbol: "n_E", Value: ratio, Name: "modulus of the element over the reference modulus"})
		}
		draft.Rows = append(draft.Rows, row)
	}
	if v.Brief {
		draft.Rows = uncancelled(draft.Rows)
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

// toModulus are section properties referred to the modulus of an element in place of the
// reference modulus of its body: of a segment by itself those of its own section, whatever
// it acts with.
func toModulus(p section.Properties, ratio float64) section.Properties {
	p.Area, p.SecondMomentY, p.SecondMomentZ, p.ProductMoment = p.Area/ratio, p.SecondMomentY/ratio, p.SecondMomentZ/ratio, p.ProductMoment/ratio
	return p
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

func (p *wallProof) prove(r *run, book *derive.Book, c *Check) error {
	w := p.worst
	items := r.wallItems(p.of, w)
	by, sign := r.shearOf(items, w), 1.0
	if by.flow < 0 {
		sign = -1
	}
	shear := formula.Q("τ", sign*w.Shear, formula.Pascal, "shear stress of the wall, on its thickness less the allowance for ducts")
	if err := r.shearTable(book, c, p.of, w, items, &by, shear); err != nil {
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
