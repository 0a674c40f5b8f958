package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// lossGroups derive the time-dependent loss of one tendon at mid-length, number by number:
// of the last situation the one that loses most. The losses of the others are in the record
// beside their forces.
func (r *run) lossGroups() ([]lineGroup, error) {
	if len(r.situations) == 0 {
		return nil, nil
	}
	s := r.situations[len(r.situations)-1]
	v := s.cases[0].ledger
	var parts ledger.LossParts
	of, x := -1, 0.0
	for i, path := range r.paths {
		at := r.inside((path.From() + path.To()) / 2)
		p, ok := r.ledger.PartsOfLoss(v, at, i)
		if ok && (of < 0 || p.Period.Losses(p.Place).Total() > parts.Period.Losses(parts.Place).Total()+1) {
			parts, of, x = p, i, at
		}
	}
	if of < 0 {
		return nil, nil
	}
	piece := r.girder.Pieces[max(0, r.anchorPiece(s, of))]
	proof := lossProof{run: r, parts: parts, cast: piece.Element.Cast, now: s.day}
	for i, p := range r.girder.Pieces {
		if p.Element.Mark == piece.Element.Mark {
			proof.model = r.mixes[i].slow
		}
	}
	if proof.model == nil {
		return nil, nil
	}
	title := fmt.Sprintf("loss of tendon %s by creep, shrinkage and relaxation at x = %.3f m from age %g d to %g d; those of other tendons and ages by the same formulas", r.tendons[of].Mark, math.Round(x*1e3)/1e3, parts.Period.From, parts.Period.To)
	lines, err := proof.lines(r.tendons[of].Area())
	return []lineGroup{{title: title, lines: lines}}, err
}

// lossProof derives a loss.
type lossProof struct {
	run       *run
	parts     ledger.LossParts
	model     *rememberedTime
	cast, now float64
	list      []formula.Line
	err       error
}

// derive adds a line and gives its result.
func (p *lossProof) derive(result formula.Quantity, expression string, source formula.Source, operands ...formula.Quantity) formula.Quantity {
	line, err := formula.Derive(result, expression, source, operands...)
	if p.err == nil {
		p.err = err
	}
	p.list = append(p.list, line)
	return line.Result
}

func (p *lossProof) lines(area float64) ([]formula.Line, error) {
	p.derive(formula.Q("σ_pi", 0, formula.Pascal, "stress of the tendon from which it relaxes"), "P_i/A_p", formula.Mechanics,
		formula.Q("P_i", p.parts.Force, formula.Newton, "force of the tendon at x at the end of its stressing"), formula.Q("A_p", area, formula.SquareMetre, "area of all strands of one tendon"))
	p.stiffening()
	p.shrinkage()
	p.creep()
	lines, err := p.parts.Period.Lines(p.parts.Place)
	if p.err == nil {
		p.err = err
	}
	return append(p.list, lines...), p.err
}

// stiffening derives how much the concrete gives way with the tendons.
func (p *lossProof) stiffening() {
	c, at := p.parts.Concrete, p.parts.Centre
	y, z := at.Y-c.Centroid.Y, at.Z-c.Centroid.Z
	q := func(symbol string, value float64, unit formula.Unit, name string) formula.Quantity {
		return formula.Q(symbol, value, unit, name)
	}
	expression := "ΣA_p*(1/A_c + z_cp*z_cp/I_c)"
	operands := []formula.Quantity{
		q("ΣA_p", p.parts.Steel, formula.SquareMetre, "area of the tendons stressed with this one or before it"), q("A_c", c.Area, formula.SquareMetre, "area"),
		q("z_cp", z, formula.Metre, "their centre above the centroid of the gross section"), q("I_c", c.SecondMomentY, formula.MetreToFourth, "second moment of area about y"),
	}
	if exact := p.parts.Place.Stiffening; math.Abs(p.parts.Steel*(1/c.Area+z*z/c.SecondMomentY)-exact) > 1e-6*exact {
		expression = "ΣA_p*(1/A_c + (Iz_c*z_cp*z_cp - 2*Iyz_c*y_cp*z_cp + I_c*y_cp*y_cp)/(I_c*Iz_c - Iyz_c*Iyz_c))"
		operands = append(operands, q("y_cp", y, formula.Metre, "their centre beside the centroid of the gross section"),
			q("Iz_c", c.SecondMomentZ, formula.MetreToFourth, "second moment of area about z"), q("Iyz_c", c.ProductMoment, formula.MetreToFourth, "product moment of area"))
	}
	p.derive(q("α_s", 0, formula.One, "stress of the concrete beside the tendons for a unit stress of them"), expression, formula.Mechanics, operands...)
}

// shrinkage derives the shrinkage since stressing.
func (p *lossProof) shrinkage() {
	from, to := p.parts.Period.From, p.parts.Period.To
	strain := func(symbol string, age float64) formula.Quantity {
		of, err := p.model.Shrinkage(age)
		if p.err == nil {
			p.err = err
		}
		return formula.Q(symbol, of.Total, formula.One, fmt.Sprintf("shrinkage to age %g d", age))
	}
	p.derive(formula.Q("ε_cs", 0, formula.One, "shrinkage since stressing"), "ε_cs2 - ε_cs1", formula.Mechanics, strain("ε_cs2", to), strain("ε_cs1", from))
}

// creep derives the creep strain: for each day on which lasting stress came, that stress,
// the part of the creep coefficient since the tendon was stressed, and their strain.
func (p *lossProof) creep() {
	var sum string
	var strains []formula.Quantity
	for _, c := range p.parts.Crept {
		loaded := c.Day - p.cast
		if loaded <= 0 {
			continue // acted on others before this was cast
		}
		k := len(strains)
		stress := p.stress(c, loaded)
		phi := p.coefficient(c, loaded)
		symbol := fmt.Sprintf("ε_cc%d", k+1)
		strain := p.derive(formula.Q(symbol, 0, formula.One, fmt.Sprintf("creep under the stress that came at age %g d", loaded)), "-φ*σ_c/E_cφ",
			formula.Source{Document: "EN 1992-1-1:2004", Place: "5.10.6, (5.46)", Confirm: true}, phi, stress, formula.Q("E_cφ", c.Modulus, formula.Pascal, "modulus by which creep is divided"))
		strains = append(strains, strain)
		if k > 0 {
			sum += " + "
		}
		sum += symbol
	}
	if len(strains) > 0 {
		p.derive(formula.Q("ε_cc", 0, formula.One, "creep of the concrete beside the tendon since stressing"), sum, formula.Mechanics, strains...)
	}
}

// stress derives the stress beside the tendon that came on one day, where it follows from
// normal force and moment about y alone.
func (p *lossProof) stress(c ledger.Crept, loaded float64) formula.Quantity {
	of := formula.Q("σ_c", c.Stress, formula.Pascal, fmt.Sprintf("stress of the concrete beside the tendon that came at age %g d, tension +", loaded))
	z := p.parts.At.Z - c.On.Centroid.Z
	if c.On == (section.Properties{}) || math.Abs(c.Forces.N/c.On.Area-c.Forces.My*z/c.On.SecondMomentY-c.Stress) > 500 {
		p.list = append(p.list, formula.Given(of, formula.Mechanics))
		p.list[len(p.list)-1].Note = p.run.came(c.Came)
		return of
	}
	stress := p.derive(of, "N/A - M_y*z_t/I_y", formula.Mechanics,
		formula.Q("N", c.Forces.N, formula.Newton, "normal force that came then"), formula.Q("A", c.On.Area, formula.SquareMetre, "area of the section at that age"),
		formula.Q("M_y", c.Forces.My, formula.NewtonMetre, "moment about y that came then, about the centroid at that age"),
		formula.Q("z_t", z, formula.Metre, "tendon above that centroid"), formula.Q("I_y", c.On.SecondMomentY, formula.MetreToFourth, "second moment of area at that age"))
	p.list[len(p.list)-1].Note = p.run.came(c.Came)
	return stress
}

// came says what lasting changes are: weight on supports, tendons stressed, each once.
func (r *run) came(changes []int) string {
	var list []string
	for _, e := range changes {
		words := r.ledger.Lasting[e].Name
		if of := &r.ledger.Lasting[e]; of.Entry == nil {
			words = r.marksOf(r.steps[of.Step].tendons)
		} else if i := slices.IndexFunc(r.lasting, func(l lasting) bool { return l.at == e }); i >= 0 {
			words = map[bool]string{true: r.lasting[i].name + " off ", false: r.lasting[i].name + " on "}[r.lasting[i].coefficient < 0] + r.lasting[i].of.words()
		}
		if !slices.Contains(list, words) {
			list = append(list, words)
		}
	}
	return "by " + strings.Join(list, "; ")
}

// marksOf are the marks of tendons by their numbers.
func (r *run) marksOf(tendons []int) string {
	marks := make([]string, len(tendons))
	for k, i := range tendons {
		marks[k] = r.tendons[i].Mark
	}
	return strings.Join(marks, ", ")
}

// coefficient derives the part of the creep coefficient since the tendon was stressed.
func (p *lossProof) coefficient(c ledger.Crept, loaded float64) formula.Quantity {
	now, stressed := p.now-p.cast, p.parts.Period.From
	of := formula.Q("φ", c.Phi, formula.One, fmt.Sprintf("creep coefficient at age %g d, loaded at %g d", now, loaded))
	if loaded >= stressed {
		p.list = append(p.list, formula.Given(of, formula.Mechanics))
		return of
	}
	phi := func(symbol string, age float64) formula.Quantity {
		value, err := p.model.Creep(age, loaded)
		if p.err == nil {
			p.err = err
		}
		return formula.Q(symbol, value, formula.One, fmt.Sprintf("creep coefficient at age %g d, loaded at %g d", age, loaded))
	}
	of.Name = fmt.Sprintf("part of the creep coefficient from age %g d to %g d, loaded at %g d", stressed, now, loaded)
	return p.derive(of, "φ_2 - φ_1", formula.Mechanics, phi("φ_2", now), phi("φ_1", stressed))
}
