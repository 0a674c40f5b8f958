package stages

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/unit/constant"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
)

// caution opens every sheet.
var caution = []string{
	"This calculation is an aid. A licensed engineer must confirm every result before it is used.",
	"Local codes, the equipment maker's manual and the appointed lifting team govern.",
	"It is no permit to lift, to stress or to load.",
}

// basisWords say how the numbers were got.
var basisWords = []string{
	"Axes: x along the element from its left end, y to the left looking along +x, z up. Sections are seen looking along +x.",
	"Signs: tension +, sagging moment +, shear V = dM/dx, reactions + upwards, loads + downwards.",
	"Sections: exact polygon sums; net section with all ducts out until a tendon is grouted, then transformed with its steel at Ep/Ecm(t).",
	"Stress is a sum of increments, each on the section of its day: weight on each set of supports, each stressing, elastic losses.",
	"Extremes are sought over weight, dynamic and prestress factors at every corner of the outline along each smooth piece of the length; web stresses at nodes of each piece and between the best ones, at every level where the width changes, between them, at the centroid and at each duct, by V·S/(I·b) on gross first and second moments and the net width.",
	"Tendon forces: friction and wobble by exp(−μ(θ + k·s)) with θ in space and s along the tendon, draw-in with friction reversed, elastic loss by tendons stressed later at the place itself.",
	"Creep, shrinkage and relaxation, where the element has a model of them: EN 1992-1-1:2004 (5.46) from the stressing of each tendon to the age of the situation, the creep of each lasting change of stress by itself; the loss acts on the concrete beside the steel.",
	"Plane sections; no shear lag, no cracking; determinate statics.",
}

// notChecked are what no run of this package checks, and the later losses when
// they are left out.
func (r *run) notChecked() []string {
	if r.element.LongTerm == nil {
		return append([]string{"losses that come later: creep, shrinkage and relaxation are left out of every force and stress"}, neverChecked...)
	}
	words := []string{"creep under stresses that change between the situations of the plan, and what it does to camber"}
	for _, t := range r.element.Tendons {
		if t.Strand.Relaxation == 0 {
			words = append(words, "relaxation of tendon "+t.Mark+": the class of its steel is not stated")
		}
	}
	return append(words, neverChecked...)
}

// neverChecked are what no run checks.
var neverChecked = []string{
	"deflection and camber",
	"anchor zones: bursting and spalling reinforcement, bearing under the anchor plates",
	"slings, hoists, cranes, dunnage, ground and bearings under the reactions given",
	"lateral stability, wind, tilt and twist from supports out of level",
	"transverse bending of slabs and webs, local bending at lift points and supports",
	"flexural and shear strength at the ultimate limit state beyond the web stresses given",
	"states between the steps of one transfer",
}

// inputs are the data of the run, each with its source.
func (r *run) inputs() []Group {
	e := r.element
	input := formula.Source{Document: "input"}
	given := func(symbol string, value float64, unit formula.Unit, name string) formula.Line {
		return formula.Given(formula.Q(symbol, value, unit, name), input)
	}
	least, most, _ := e.WeightTolerance.Range() // checked with the element
	density := input
	if e.UnitWeight == 0 {
		density = formula.Source{Document: "EN 1991-1-1:2002", Place: "Table A.1, 24 + 1 kN/m³", Confirm: true}
	}
	element := Group{Title: "Element " + e.Mark, Lines: []formula.Line{
		given("L", e.Length, formula.Metre, "length"),
		given("Cast", e.Cast, formula.Day, "day of casting"),
		formula.Given(formula.Q("γ_conc", e.unitWeight(), formula.NewtonPerCubic, "unit weight of the reinforced concrete"), density),
		given("γ_w_least", least, formula.One, "weight tolerance, least factor"),
		given("γ_w_most", most, formula.One, "weight tolerance, most factor"),
	}}
	groups := []Group{element, {Title: "Concrete", Lines: e.Concrete.Inputs()}, r.sectionInputs(), r.weightInputs()}
	groups = append(groups, e.tendonInputs()...)
	for i, b := range e.Bars {
		groups = append(groups, Group{Title: fmt.Sprintf("Bonded bars %d, x = %.3f to %.3f m, %s", i+1, b.From, b.To, pointWords(b.At)),
			Lines: []formula.Line{given("A_s", b.Area, formula.SquareMetre, "area of all bars")}})
	}
	return groups
}

// tendonInputs are the data of the tendons, those with the same data together.
func (e Element) tendonInputs() []Group {
	var groups []Group
	var first []tendon.Tendon // of each group
	for _, t := range e.Tendons {
		same := func(u tendon.Tendon) bool {
			return u.Strand == t.Strand && u.Strands == t.Strands && u.Duct == t.Duct && u.Friction == t.Friction && u.Wobble == t.Wobble && u.Approval == t.Approval
		}
		if i := slices.IndexFunc(first, same); i >= 0 {
			groups[i].Title += ", " + t.Mark
			continue
		}
		first = append(first, t)
		groups = append(groups, Group{Title: "Tendons " + t.Mark, Lines: tendonLines(t)})
	}
	return groups
}

func tendonLines(t tendon.Tendon) []formula.Line {
	input := formula.Source{Document: "input"}
	approval := formula.Source{Document: "technical approval of the anchorage", Place: t.Approval.Reference}
	line := func(source formula.Source, symbol string, value float64, unit formula.Unit, name string) formula.Line {
		return formula.Given(formula.Q(symbol, value, unit, name), source)
	}
	return []formula.Line{
		line(input, "n", float64(t.Strands), formula.One, "strands "+t.Strand.Name),
		line(t.Strand.Source, "A_p", t.Area(), formula.SquareMetre, "area of all strands of one tendon"),
		line(t.Strand.Source, "f_pk", t.Strand.Fpk, formula.Pascal, "tensile strength"),
		line(t.Strand.Source, "f_p01k", t.Strand.Fp01k, formula.Pascal, "0.1 % proof stress"),
		line(t.Strand.Source, "E_p", t.Strand.Modulus, formula.Pascal, "modulus"),
		line(input, "φ", t.Duct, formula.Metre, "outer diameter of the duct"),
		line(input, "μ", t.Friction, formula.PerRadian, "friction"),
		line(input, "k", t.Wobble, formula.RadianPerMetre, "wobble, in μ(θ + k·s)"),
		line(approval, "f_cm0", t.Approval.MeanStrength, formula.Pascal, "mean cylinder strength required for full stressing"),
		line(approval, "s_min", t.Approval.AnchorSpacing, formula.Metre, "least spacing of anchor centres"),
		line(approval, "c_min", t.Approval.EdgeDistance, formula.Metre, "least distance of an anchor centre from the edge"),
	}
}

// sectionInputs are the gross properties at mid-length.
func (r *run) sectionInputs() Group {
	p := r.element.Section.At(r.element.Length / 2).Properties()
	if math.Abs(p.ProductMoment) < 1e-12*math.Max(p.SecondMomentY, p.SecondMomentZ) {
		p.ProductMoment = 0 // rounding of a symmetric outline
	}
	q := func(symbol string, value float64, unit formula.Unit, name string) formula.Line {
		return formula.Given(formula.Q(symbol, value, unit, name), outline)
	}
	return Group{Title: "Gross section at mid-length", Lines: []formula.Line{
		q("A_c", p.Area, formula.SquareMetre, "area"),
		q("z_c", p.Centroid.Z, formula.Metre, "level of the centroid"),
		q("I_c", p.SecondMomentY, formula.MetreToFourth, "second moment about y"),
		q("Iz_c", p.SecondMomentZ, formula.MetreToFourth, "second moment about z"),
		q("Iyz_c", p.ProductMoment, formula.MetreToFourth, "product moment"),
		q("z_top", p.Top, formula.Metre, "centroid to top fibre"),
		q("z_bottom", p.Bottom, formula.Metre, "centroid to bottom fibre"),
	}}
}

// weightInputs are the parts of the weight and their sum.
func (r *run) weightInputs() Group {
	group := Group{Title: "Weight at factor 1"}
	var total, first sum
	for k, p := range r.parts {
		n := fmt.Sprint("_", k+1)
		name := fmt.Sprintf("%s, x = %.3f to %.3f m", p.mark, p.from, p.to)
		force := formula.Q("G"+n, p.force, formula.Newton, name)
		place := formula.Q("x_G"+n, p.x, formula.Metre, "place of its resultant")
		line := formula.Given(force, formula.Source{Document: "input"})
		if p.mark == "girder" {
			line = formula.Given(force, formula.Source{Document: "section outline", Place: "area along x × unit weight"})
			if p.uniform {
				area := formula.Q("A_c", p.line.Intensity[0]/r.element.unitWeight(), formula.SquareMetre, "gross area")
				if derived, err := formula.Derive(force, "γ_conc*A_c*l", formula.Mechanics, formula.Q("γ_conc", r.element.unitWeight(), formula.NewtonPerCubic, "unit weight"),
					area, formula.Q("l", p.to-p.from, formula.Metre, "length")); err == nil {
					line = derived
				}
			}
		}
		group.Lines = append(group.Lines, line)
		total.add(" + ", "G"+n, force)
		first.add(" + ", "G"+n+"*x_G"+n, force, place)
	}
	weight, err := formula.Derive(formula.Q("G", 0, formula.Newton, "whole weight"), total.expression(), formula.Mechanics, total.operands...)
	if err != nil {
		return group
	}
	mass, err := formula.Derive(formula.Q("m", 0, formula.Kilogram, "mass"), "G/g", formula.Mechanics, weight.Result,
		formula.Q("g", float64(constant.StandardGravity), formula.One, "standard gravity, m/s²"))
	if err != nil {
		return group
	}
	centre, err := formula.Derive(formula.Q("x_G", 0, formula.Metre, "mass centre"), "("+first.expression()+")/G", formula.Mechanics, append(first.operands, weight.Result)...)
	if err != nil {
		return group
	}
	group.Lines = append(group.Lines, weight, mass, centre)
	var across sum
	for k, p := range r.parts {
		n := fmt.Sprint("_", k+1)
		y := p.y
		if math.Abs(y) < 1e-12*r.element.Length {
			y = 0 // rounding of a symmetric outline
		}
		across.add(" + ", "G"+n+"*y_G"+n, formula.Q("G"+n, p.force, formula.Newton, p.mark), formula.Q("y_G"+n, y, formula.Metre, "y of its resultant"))
	}
	if side, err := formula.Derive(formula.Q("y_G", 0, formula.Metre, "mass centre across"), "("+across.expression()+")/G", formula.Mechanics, append(across.operands, weight.Result)...); err == nil {
		group.Lines = append(group.Lines, side)
	}
	return group
}

// appendix derives each creep coefficient and shrinkage strain that the run used.
func (r *run) appendix() ([]Group, error) {
	model := r.element.LongTerm
	groups := []Group{}
	if model == nil {
		return groups, nil
	}
	seen := map[string]bool{}
	add := func(title string, derive func() ([]formula.Line, error)) error {
		if seen[title] {
			return nil
		}
		seen[title] = true
		lines, err := derive()
		groups = append(groups, Group{Title: title, Lines: lines})
		return err
	}
	for _, s := range r.situations {
		ages := []float64{s.Age}
		for _, step := range r.steps[:s.steps] {
			ages = append(ages, step.age)
		}
		for _, age := range ages {
			if err := add(fmt.Sprintf("shrinkage to age %g d", age), func() ([]formula.Line, error) { return model.ShrinkageLines(age) }); err != nil {
				return nil, err
			}
			for _, e := range r.increments {
				if e.age >= age {
					break
				}
				if err := add(fmt.Sprintf("creep coefficient at age %g d, loaded at %g d", age, e.age), func() ([]formula.Line, error) { return model.CreepLines(age, e.age) }); err != nil {
					return nil, err
				}
			}
		}
	}
	return groups, nil
}
