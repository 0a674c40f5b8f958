package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/unit/constant"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
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
	"Pretensioned strands: bonded from the beginning; the force just before release acts on the section transformed with their gripped area, which gives the elastic loss exactly. Over the transmission length force and gripped area grow linearly, and stresses are checked with its long and its short value.",
	"External tendons: no hole and no bond. They act on the section at their own place in it, as the forces at their anchors and deviators do; later stressing, creep and shrinkage change their force by the mean strain of the concrete between the places where they are held (deviators with friction hold).",
	"Further pulls of a tendon: losses so far, as a mean along it, are inside the force measured at the jack; time-dependent losses are counted from the last pull.",
	"Stress is a sum of entries, each on the section properties at its date: weight on each set of supports and its change, each stressing, elastic and time-dependent losses, levels, actions.",
	"Extremes are sought over the ranges of all causes (weight, dynamic factor, prestress, actions, levels), entries of one cause together, at every corner of the outline along the element; near anchors between the corners as well.",
	"Anchorage zones: the force of an anchor spreads at tan β = 2/3 along the walls (EN 1992-1-1:2004, 8.10.3(5)). Until a point is within the spread, the part of that tendon in its stress counts with any factor from 0 to 1; its shear counts in full at once.",
	"Walls: shear by the flows of the walls under both shears and torsion about the shear centre, on the wall thickness normal to the wall less the allowance for ducts; in open walls torsion at the face is added by magnitude. Where the section varies, the forces of inclined slabs are part of the flow. Thin-wall flows differ from the exact solution by up to 4 %.",
	"Supports: forces by statics; where they share by stiffness and level, by the flexibility of the element in bending and torsion; where nothing is stated, the extremes over every statically determinate set (bounded).",
	"Reactions: static for readings, characteristic with dynamic factors against rated capacities, ULS for ground, concrete and stacks.",
	"Equilibrium: every part of the weight is split where its lever or its influence changes sign, each side with its factor; what stands has a nominal horizontal force of 2.5 % of its weight, or 1 % beside known horizontal forces (BS 5975).",
	"Tendon forces: friction and unintentional angular displacement by exp(−μ(θ + k·s)) with θ in space and s along the tendon, draw-in with friction reversed, elastic loss by tendons stressed later at the same section.",
	"Creep, shrinkage and relaxation, where the element has a model of them: EN 1992-1-1:2004 (5.46) from the stressing of each tendon to the age of the situation, the creep of each lasting change of stress by itself; the loss acts on the concrete beside the steel.",
	"Movements: the curvature of each lasting change of stress on the modulus of its day, times 1 + φ if it came at once and 1 + 0.8·φ if it grew (E by which φ is divided as in (5.46)), integrated twice, referred to the supports as rigid and level; band: creep ±30 %.",
	"Redistribution, where supports share by stiffness: what has crept since the last situation is imposed on the system of that time as curvature and twist, on the age-adjusted modulus with χ = 0.8; its forces have the factors of what creeps.",
	"Plane sections; no shear lag, no cracking. Bonded bars are left out of the section properties.",
	"Warping torsion: in open sections B·ω/C_w is part of the stress (Vlasov 1940), ends and supports free to warp, ω and C_w by thin-wall theory; a tendon works on the warping of its wall. In sections with voids, and where warping dies out within half a section, it is negligible and left out.",
}

// notChecked are what no run of this package checks, and what this one leaves out.
func (r *run) notChecked() []string {
	var words []string
	if slices.ContainsFunc(r.tendons, func(t tendon.Tendon) bool { return t.External }) {
		words = append(words, "change of force of external tendons when weight, actions or supports change: only later stressing and losses are followed", "vibration of the free lengths of external tendons, and their deflection with the element")
	}
	if !r.longTerm() {
		words = append(words, "time-dependent losses: creep, shrinkage and relaxation are left out of every force and stress")
	}
	if r.longTerm() {
		words = append(words, "redistribution by creep of what comes from supports out of level, and where nothing says how supports share")
	}
	for _, t := range r.tendons {
		if r.longTerm() && t.Strand.Relaxation == 0 {
			words = append(words, "relaxation of tendon "+t.Mark+": the class of its steel is not stated")
		}
	}
	if len(r.girder.Pieces) > 1 && r.longTerm() {
		words = append(words, "differential creep and shrinkage between elements that act as one: neglected; a stitch that shrinks 0.2 mm/m more than the halves it joins gets a tension of several MPa before it relaxes")
	}
	if slices.ContainsFunc(r.girder.Pieces, func(p Piece) bool { return len(p.Element.Section.At(p.Element.Length/2).Voids()) == 0 }) {
		words = append(words, "shear stress of warping torsion in open sections: the walls carry the whole torque as Saint-Venant's; creep and losses by the stress of warping; supports and diaphragms that hinder warping; warping of elements that are joined side by side")
	}
	return append(words, neverChecked...)
}

// neverChecked are what no run checks.
var neverChecked = []string{
	"limits of deflection, camber and bow: movements are given, not checked",
	"anchorage zones: bursting and spalling reinforcement, bearing under the anchor plates, shear between web and flange from the spreading force",
	"slings, hoists, cranes, dunnage, ground and bearings under the reactions given",
	"transverse bending of slabs and webs, local bending and punching at lift points and supports, distortion of the section",
	"lateral buckling: stability of the element as a flexible beam while it is suspended or stands on soft bearings",
	"flexural and shear strength at the ultimate limit state beyond the wall stresses given",
	"states between the tendons of one step of stressing",
}

// spreading is the size of what is excluded in the anchorage zones of a situation: the
// zones of the same tendons in one sentence.
func (r *run) spreading(s *situation) []string {
	var marks, zones []string
	for _, end := range r.ledger.Zones() {
		force := 0.0
		var names []string
		for _, i := range end.Tendons {
			if f, _ := r.ledger.TendonForce(s.cases[0].ledger, r.inside(end.Anchor+end.Ahead*2*ledger.Inset*r.girder.Length()), i); f > 0 {
				force, names = force+f, append(names, r.tendons[i].Mark)
			}
		}
		if force == 0 {
			continue
		}
		from, to := math.Min(end.Anchor, end.End), math.Max(end.Anchor, end.End)
		if i := slices.Index(marks, strings.Join(names, ", ")); i >= 0 {
			zones[i] += fmt.Sprintf(" and one of %.0f kN over x = %.2f to %.2f m", force/1e3, from, to)
			continue
		}
		marks, zones = append(marks, strings.Join(names, ", ")), append(zones, fmt.Sprintf("a force of %.0f kN spreads over x = %.2f to %.2f m", force/1e3, from, to))
	}
	list := make([]string, len(marks))
	for i := range marks {
		list[i] = fmt.Sprintf("anchorage zones of %s: %s; bursting, spalling and the shear between web and flange must be designed for", marks[i], zones[i])
	}
	return list
}

// lineGroup is lines under a heading, before a record has numbers for them.
type lineGroup struct {
	title string
	lines []formula.Line
}

// written are groups with their lines in a book.
func written(book *derive.Book, groups []lineGroup) ([]Group, error) {
	var list []Group
	known := map[*formula.Line][]int{} // pieces of one concrete have the same lines
	for _, g := range groups {
		if len(g.lines) == 0 {
			list = append(list, Group{Title: g.title})
			continue
		}
		numbers := known[&g.lines[0]]
		if numbers == nil {
			var err error
			if numbers, err = linesIn(book, g.lines); err != nil {
				return nil, fmt.Errorf("%s: %w", g.title, err)
			}
			known[&g.lines[0]] = numbers
		}
		list = append(list, Group{Title: g.title, Lines: numbers})
	}
	return list, nil
}

// linesIn are the numbers of lines in a book.
func linesIn(book *derive.Book, lines []formula.Line) ([]int, error) {
	var numbers []int
	for _, line := range lines {
		n, err := book.Line(line)
		if err != nil {
			return nil, err
		}
		numbers = append(numbers, n)
	}
	return numbers, nil
}

// inputs are the data of the run, each with its source.
func (r *run) inputs() []lineGroup {
	var groups []lineGroup
	for _, p := range r.girder.Pieces {
		groups = append(groups, p.inputs()...)
	}
	groups = append(groups, r.weightInputs())
	groups = append(groups, tendonInputs(r.tendons[:len(r.tendons)-len(r.layers)])...)
	return append(groups, r.pretensionInputs()...)
}

// inputs are the data of one piece.
func (p Piece) inputs() []lineGroup {
	e := p.Element
	input := formula.Source{Document: "input"}
	given := func(symbol string, value float64, unit formula.Unit, name string) formula.Line {
		return formula.Given(formula.Q(symbol, value, unit, name), input)
	}
	least, most, _ := e.WeightTolerance.Range() // checked with the element
	density := input
	if e.UnitWeight == 0 {
		density = formula.Source{Document: "EN 1991-1-1:2002", Place: "Table A.1, 24 + 1 kN/m³", Confirm: true}
	}
	groups := []lineGroup{
		{title: "Element " + e.Mark, lines: []formula.Line{
			given("L", e.Length, formula.Metre, "length"),
			given("Cast", e.Cast, formula.Day, "day of casting"),
			formula.Given(formula.Q("γ_conc", e.unitWeight(), formula.NewtonPerCubic, "unit weight of the reinforced concrete"), density),
			given("γ_w_min", least, formula.One, "weight tolerance, minimum factor"),
			given("γ_w_max", most, formula.One, "weight tolerance, maximum factor"),
		}},
		{title: "Concrete", lines: e.Concrete.Inputs()}, e.sectionInputs(),
	}
	for i, b := range e.Bars {
		groups = append(groups, lineGroup{title: fmt.Sprintf("Bonded bars %d, x = %.3f to %.3f m, %s", i+1, b.From, b.To, pointWords(b.At)),
			lines: []formula.Line{given("A_s", b.Area, formula.SquareMetre, "area of all bars; left out of the section properties")}})
	}
	return groups
}

// tendonInputs are the data of the tendons, those with the same data together.
func tendonInputs(list []tendon.Tendon) []lineGroup {
	var groups []lineGroup
	var first []tendon.Tendon // of each group
	for _, t := range list {
		same := func(u tendon.Tendon) bool {
			return u.Strand == t.Strand && u.Strands == t.Strands && u.Duct == t.Duct && u.Friction == t.Friction && u.Wobble == t.Wobble && u.Approval == t.Approval
		}
		if i := slices.IndexFunc(first, same); i >= 0 {
			groups[i].title += ", " + t.Mark
			continue
		}
		first = append(first, t)
		groups = append(groups, lineGroup{title: "Tendons " + t.Mark, lines: tendonLines(t)})
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
		line(input, "k", t.Wobble, formula.RadianPerMetre, "unintentional angular displacement (wobble), in μ(θ + k·s)"),
		line(approval, "f_cm0", t.Approval.MeanStrength, formula.Pascal, "mean cylinder strength required for full stressing"),
		line(approval, "s_min", t.Approval.AnchorSpacing, formula.Metre, "minimum spacing of anchor centres"),
		line(approval, "c_min", t.Approval.EdgeDistance, formula.Metre, "minimum distance of an anchor centre from the edge"),
	}
}

// sectionInputs are the gross properties at mid-length.
func (e Element) sectionInputs() lineGroup {
	p := e.Section.At(e.Length / 2).Properties()
	if math.Abs(p.ProductMoment) < 1e-12*math.Max(p.SecondMomentY, p.SecondMomentZ) {
		p.ProductMoment = 0 // rounding of a symmetric outline
	}
	q := func(symbol string, value float64, unit formula.Unit, name string) formula.Line {
		return formula.Given(formula.Q(symbol, value, unit, name), outline)
	}
	return lineGroup{title: "Gross section at mid-length", lines: []formula.Line{
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
func (r *run) weightInputs() lineGroup {
	group := lineGroup{title: "Self-weight, nominal"}
	var sum, first, across, up string
	var operands, along, aside, above []formula.Quantity
	for k, p := range r.parts {
		n := fmt.Sprint("_", k+1)
		name := fmt.Sprintf("%s, x = %.3f to %.3f m", p.mark, p.from, p.to)
		force := formula.Q("G"+n, p.force, formula.Newton, name)
		group.lines = append(group.lines, r.partLine(p, force))
		plus := " + "
		if k == 0 {
			plus = ""
		}
		sum, operands = sum+plus+"G"+n, append(operands, force)
		for _, m := range []struct {
			of     *string
			list   *[]formula.Quantity
			symbol string
			value  float64
		}{{&first, &along, "x_G", p.x}, {&across, &aside, "y_G", r.rounded(p.y)}, {&up, &above, "z_G", p.z}} {
			*m.of += plus + "G" + n + "*" + m.symbol + n
			*m.list = append(*m.list, force, formula.Q(m.symbol+n, m.value, formula.Metre, "place of the resultant of "+p.mark))
		}
	}
	weight, err := formula.Derive(formula.Q("G", 0, formula.Newton, "self-weight"), sum, formula.Mechanics, operands...)
	if err != nil {
		return group
	}
	group.lines = append(group.lines, weight)
	add := func(q formula.Quantity, expression string, operands ...formula.Quantity) {
		if line, err := formula.Derive(q, expression, formula.Mechanics, operands...); err == nil {
			group.lines = append(group.lines, line)
		}
	}
	add(formula.Q("m", 0, formula.Kilogram, "mass"), "G/g", weight.Result, formula.Q("g", float64(constant.StandardGravity), formula.One, "standard gravity, m/s²"))
	add(formula.Q("x_G", 0, formula.Metre, "centre of gravity along"), "("+first+")/G", append(along, weight.Result)...)
	add(formula.Q("y_G", 0, formula.Metre, "centre of gravity across"), "("+across+")/G", append(aside, weight.Result)...)
	add(formula.Q("z_G", 0, formula.Metre, "centre of gravity, level"), "("+up+")/G", append(above, weight.Result)...)
	return group
}

// rounded is y without the rounding of a symmetric outline.
func (r *run) rounded(y float64) float64 {
	if math.Abs(y) < 1e-12*r.girder.Length() {
		return 0
	}
	return y
}

// partLine is how the force of a part was got.
func (r *run) partLine(p part, force formula.Quantity) formula.Line {
	if !p.own {
		return formula.Given(force, formula.Source{Document: "input"})
	}
	line := formula.Given(force, formula.Source{Document: "section outline", Place: "area along x × unit weight"})
	if !p.uniform {
		return line
	}
	unit := r.girder.Pieces[p.piece].Element.unitWeight()
	derived, err := formula.Derive(force, "γ_conc*A_c*l", formula.Mechanics, formula.Q("γ_conc", unit, formula.NewtonPerCubic, "unit weight"),
		formula.Q("A_c", p.line[0]/unit, formula.SquareMetre, "gross area"), formula.Q("l", p.to-p.from, formula.Metre, "length"))
	if err != nil {
		return line
	}
	return derived
}

// outline is the source of a property of the section.
var outline = formula.Source{Document: "section outline", Place: "exact polygon sums"}

// appendix derives each creep coefficient and shrinkage strain that the run used.
func (r *run) appendix() ([]lineGroup, error) {
	groups := []lineGroup{}
	for i, p := range r.girder.Pieces {
		if model := r.mixes[i].slow; model != nil {
			more, err := r.timeLines(p, model)
			groups = append(groups, more...)
			if err != nil {
				return groups, err
			}
		}
	}
	return groups, nil
}

// timeLines derive what a piece's model of creep and shrinkage gave.
func (r *run) timeLines(p Piece, model *rememberedTime) ([]lineGroup, error) {
	groups := []lineGroup{}
	add := func(title string, lines []formula.Line, err error) error {
		if len(r.girder.Pieces) > 1 {
			title = p.Element.Mark + ", " + title
		}
		groups = append(groups, lineGroup{title: title, lines: lines})
		return err
	}
	seen := map[float64]bool{}
	for _, s := range r.situations {
		ages := []float64{s.day - p.Element.Cast}
		for _, step := range r.steps[:s.steps] {
			ages = append(ages, step.day-p.Element.Cast)
		}
		for _, age := range ages {
			if seen[age] {
				continue
			}
			seen[age] = true
			lines, err := model.ShrinkageLines(age)
			if err := add(fmt.Sprintf("shrinkage to age %g d", age), lines, err); err != nil {
				return nil, err
			}
			last := 0.0 // entries are in the order of their days
			for _, e := range r.ledger.Lasting {
				loaded := e.Day - p.Element.Cast
				if loaded >= age || loaded <= 0 {
					break
				}
				if loaded == last {
					continue
				}
				last = loaded
				lines, err := model.CreepLines(age, loaded)
				if err := add(fmt.Sprintf("creep coefficient at age %g d, loaded at %g d", age, loaded), lines, err); err != nil {
					return nil, err
				}
			}
		}
	}
	return groups, nil
}
