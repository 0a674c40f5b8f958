package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

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
func (r *run) inputs() ([]lineGroup, error) {
	var groups []lineGroup
	for _, p := range r.girder.Pieces {
		groups = append(groups, p.inputs()...)
	}
	groups = append(append(groups, r.axisInputs()...), r.weightInputs())
	groups = append(groups, r.linkInputs()...)
	groups = append(groups, tendonInputs(r.tendons[:len(r.tendons)-len(r.layers)])...)
	groups = append(groups, r.pretensionInputs()...)
	wind, err := r.windInputs()
	return append(append(groups, wind...), r.braceInputs()...), err
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
	approval := formula.Source{Document: "technical approval of the post-tensioning system", Place: t.Approval.Reference}
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
		q("I_c", p.SecondMomentY, formula.MetreToFourth, "second moment of area about y"),
		q("Iz_c", p.SecondMomentZ, formula.MetreToFourth, "second moment of area about z"),
		q("Iyz_c", p.ProductMoment, formula.MetreToFourth, "product moment of area"),
		q("z_top", p.Top, formula.Metre, "centroid to top fibre"),
		q("z_bottom", p.Bottom, formula.Metre, "centroid to bottom fibre"),
	}}
}

// appendix derives each creep coefficient and shrinkage strain that the run used.
func (r *run) appendix() ([]lineGroup, error) {
	groups := []lineGroup{}
	brief := slices.ContainsFunc(r.situations, func(s *situation) bool { return s.Brief })
	for i, p := range r.girder.Pieces {
		if model := r.mixes[i].slow; model != nil {
			name, first := p.Element.Mark, true
			if brief { // elements of one concrete and day of casting once
				name, first = r.alikeInTime(i)
			}
			if !first {
				continue
			}
			more, err := r.timeLines(p, name, model, brief)
			groups = append(groups, more...)
			if err != nil {
				return groups, err
			}
		}
	}
	loss, err := r.lossGroups()
	return append(groups, loss...), err
}

// alikeInTime names the elements that creep and shrink as piece i does; first is false where
// one before it does.
func (r *run) alikeInTime(i int) (name string, first bool) {
	of := castOf{r.mixes[i].slow, r.girder.Pieces[i].Element.Cast}
	number := 0
	for k, p := range r.girder.Pieces {
		if of != (castOf{r.mixes[k].slow, p.Element.Cast}) {
			continue
		}
		if k < i {
			return "", false
		}
		number++
	}
	if name = r.girder.Pieces[i].Element.Mark; number > 1 {
		name = fmt.Sprintf("%s and %d elements of the same concrete and day of casting", name, number-1)
	}
	return name, true
}

// timeLines derive what a piece's model of creep and shrinkage gave; where a situation is brief the
// first shrinkage and the first creep coefficient, of the others the values.
func (r *run) timeLines(p Piece, name string, model *rememberedTime, brief bool) ([]lineGroup, error) {
	derived := map[string]bool{}
	var values []formula.Line
	groups := []lineGroup{}
	add := func(what, when string, lines []formula.Line, err error) error {
		if err == nil && brief && derived[what] && len(lines) > 0 {
			last := lines[len(lines)-1]
			values = append(values, formula.Given(formula.Q(last.Result.Symbol, last.Result.Value, last.Result.Unit, what+when), last.Source))
			return nil
		}
		title := what + when
		derived[what] = true
		if len(r.girder.Pieces) > 1 {
			title = name + ", " + title
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
			if seen[age] || age <= 0 { // known, or not cast yet
				continue
			}
			seen[age] = true
			lines, err := model.ShrinkageLines(age)
			if err := add("shrinkage", fmt.Sprintf(" to age %g d", age), lines, err); err != nil {
				return nil, err
			}
			last := 0.0 // entries are in the order of their days
			for _, e := range r.ledger.Lasting {
				loaded := e.Day - p.Element.Cast
				if loaded >= age {
					break
				}
				if loaded == last || loaded <= 0 {
					continue
				}
				last = loaded
				lines, err := model.CreepLines(age, loaded)
				if err := add("creep coefficient", fmt.Sprintf(" at age %g d, loaded at %g d", age, loaded), lines, err); err != nil {
					return nil, err
				}
			}
		}
	}
	if len(values) > 0 {
		groups = append(groups, lineGroup{title: name + ", further shrinkage and creep coefficients by the same formulas", lines: values})
	}
	return groups, nil
}
