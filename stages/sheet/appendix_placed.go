package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// placedWords say how the forces of tendons at the places of the checks follow.
func (a *author) placedWords() []block {
	var any, lost bool
	for _, stage := range a.record.Stages {
		for _, s := range stage.Situations {
			any = any || len(s.Placed.Values) > 0
			lost = lost || slices.Contains(s.Placed.Columns, "crept")
		}
	}
	if !any {
		return nil
	}
	t := a.noted("Tendons at the places of the checks: P_f from the stress at the jack by exp(−μ(θ + k·s)), within the reach of the draw-in with friction reversed, where it reaches over the whole length from the force after lock-off by exp(μ(θ + k·s)); θ and s from the end that is nearer, in the table from the left anchor. " +
		"Δσ_el: for each step stressed later E_p/E_cm_t·(N/A + M_y·(z − z_c)/I_y) of P_f of its tendons at this x, M_y and z as in the tables of the checks. ")
	end := ""
	if lost {
		t = append(t, a.noted("α_s and ε_cc as for one tendon in ")...).with(creepChapter).and(plain, ", ")
		t = append(t, a.noted("from the rows of the check at this x, each with φ from its age; then Δσ_s, Δσ_c and Δσ_r by the formulas there, relaxation from P_f. ")...)
		end = " + Δσ_s + Δσ_c + Δσ_r"
	}
	return []block{paragraph{append(t, a.noted("P = P_f − A_p·(Δσ_el"+end+").")...)}}
}

// cameWords say where the forces of lasting stresses of creep come from.
func (a *author) cameWords() []block {
	if !slices.ContainsFunc(a.record.Symbols, func(s derive.Symbol) bool { return s.Symbol == "ε_cc" }) {
		return nil
	}
	t := a.noted("N and M_y of a stress that came on a day are those of what the remark names: of weight that in ").with(effectsChapter)
	t = append(t, a.noted(" at this x, or its change where it goes from supports to others; of tendons N = −Σn·P·cos and M_y = Σn·P·cos·(z − z_c), P of those stressed then after friction and draw-in, of the others what they lose by it: ")...)
	return []block{paragraph{t.with(elasticKey).and(plain, " at mid-length, ").with(lossesChapter).and(plain, " elsewhere.")}}
}

// placed are the forces of tendons where the checks of a situation govern; those of brief
// ones are in one table.
func (a *author) placed(stage stages.StageRecord, i int) []block {
	p := stage.Situations[i].Placed
	if len(p.Values) == 0 || stage.Situations[i].Brief {
		return nil
	}
	g := grid{small: true, caption: words("Forces of each tendon at the places of the checks"), columns: columnsOf(">x "+a.units.in(formula.Metre).unit, "Tendons")}
	x := a.units.aligned(formula.Metre)
	for k, at := range p.Values {
		g.rows = append(g.rows, row(x.text(at[0]), strings.Join(p.Of(k).Tendons, ", ")))
	}
	for _, c := range placedHeads {
		if values := p.Column(c.name); values != nil {
			a.placedColumn(&g, c, values)
		}
	}
	return []block{g}
}

// briefPlaced are the forces of tendons where the checks of brief situations are derived.
func (a *author) briefPlaced() []block {
	g := grid{small: true, caption: words("Forces of each tendon at the places of the checks"), columns: columnsOf("Move", ">x "+a.units.in(formula.Metre).unit, "Tendons")}
	x := a.units.aligned(formula.Metre)
	values := map[string][]float64{}
	for _, stage := range a.record.Stages {
		for i, s := range stage.Situations {
			if !s.Brief {
				continue
			}
			p := placedHere(stage, i)
			for k, at := range p.Values {
				g.rows = append(g.rows, row(numbered(stage, i), x.text(at[0]), strings.Join(p.Of(k).Tendons, ", ")))
			}
			for _, c := range placedHeads {
				column := p.Column(c.name)
				if column == nil { // no loss of this kind in this move
					column = make([]float64, len(p.Values))
				}
				values[c.name] = append(values[c.name], column...)
			}
		}
	}
	if len(g.rows) == 0 {
		return nil
	}
	for _, c := range placedHeads {
		if slices.ContainsFunc(values[c.name], func(v float64) bool { return v != 0 }) {
			a.placedColumn(&g, c, values[c.name])
		}
	}
	return []block{g}
}

// placedHere are the rows of a brief situation at the places of the checks derived here.
func placedHere(stage stages.StageRecord, i int) stages.PlacedForces {
	s, p := stage.Situations[i], stage.Situations[i].Placed
	shown := derivedHere(stage, i)
	p.Values = slices.DeleteFunc(slices.Clone(p.Values), func(row []float64) bool {
		for k, c := range s.Checks {
			if shown[k] && len(c.Tables) > 0 && len(row) > 0 && math.Abs(c.X-row[0]) < nearJoint {
				return false
			}
		}
		return true
	})
	return p
}

// placedHead is a column of such a table.
type placedHead struct {
	name, symbol string
	unit         formula.Unit
	last         int // digit in SI
}

var placedHeads = []placedHead{
	{"angle", "θ", formula.Radian, -4}, {"length", "s", formula.Metre, -3}, {"locked", "P_f", formula.Newton, 2}, {"elastic", "Δσ_el", formula.Pascal, 4},
	{"stiffening", "α_s", formula.One, -6}, {"crept", "ε_cc", formula.One, -8}, {"shrinkage", "Δσ_s", formula.Pascal, 4}, {"creep", "Δσ_c", formula.Pascal, 4}, {"relaxation", "Δσ_r", formula.Pascal, 4},
	{"force", "P", formula.Newton, 2},
}

// placedColumn adds a column.
func (a *author) placedColumn(g *grid, c placedHead, values []float64) {
	a.list().use(c.symbol)
	head := prose{{symbol, c.symbol}}
	if c.name == "crept" {
		head = head.and(plain, "·10").and(raisedUp, "6")
	}
	g.columns = append(g.columns, column{head.and(plain, strings.TrimRight(" "+a.units.in(c.unit).unit, " ")), true})
	for i, v := range values {
		text := a.units.digits(v, c.unit, c.last)
		if c.name == "crept" {
			text = strconv.FormatFloat(v*1e6, 'f', 2, 64)
		}
		g.rows[i] = append(g.rows[i], words(text))
	}
}
