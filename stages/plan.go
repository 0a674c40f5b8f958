package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Plan is the stages of an element in order of age.
type Plan []Stage

// Run takes the element through the plan and checks every situation against the
// standard. The error wraps [ErrStage] or the sentinel of the package whose
// input is wrong, and names stage, field, value and what is allowed; the Record
// returned with it holds what was computed before.
func (p Plan) Run(element Element, standard limits.Standard) (Record, error) {
	r, err := newRun(p, element, standard)
	if err != nil {
		return Record{Format: Format, Element: element.Mark, Caution: caution}, err
	}
	if err := r.makeGrid(); err != nil {
		return Record{Format: Format, Element: element.Mark, Caution: caution}, err
	}
	record, err := r.record()
	if err != nil {
		return record, err
	}
	for _, s := range r.situations {
		result, err := r.situationRecord(s)
		if err != nil {
			return record, fmt.Errorf("%w %d, %s at age %g d: %w", ErrStage, s.stage+1, s.Name, s.Age, err)
		}
		if s.stage >= len(record.Stages) {
			record.Stages = append(record.Stages, StageRecord{Number: s.stage + 1, Name: s.Name, Age: s.Age})
		}
		stage := &record.Stages[s.stage]
		stage.Situations = append(stage.Situations, result)
	}
	return record, nil
}

// situationRecord is a situation with its results.
func (r *run) situationRecord(s *situation) (SituationRecord, error) {
	record := SituationRecord{
		Name: s.Name, Age: s.Age, Day: r.element.Cast + s.Age, Until: s.Until, Standing: s.Standing, Phase: string(s.Phase),
		System: s.system.words(), Events: s.events(), Factors: r.factorLines(s), Concrete: s.concrete.Derivation, Basis: s.concrete.Basis,
		Loads: loadRecords(partsOf(s.Loads, 0)), Reactions: r.reactions(s), Tendons: r.tendonForces(s), Figures: []Figure{}, NotChecked: []string{}, Unanswered: []string{},
	}
	var err error
	if record.Stations, record.Diagram, err = r.stations(s); err != nil {
		return record, err
	}
	checks, notChecked, err := r.checks(s)
	if err != nil {
		return record, err
	}
	record.Checks = checks
	for _, words := range notChecked {
		if !slices.Contains(record.Unanswered, words) {
			record.Unanswered = append(record.Unanswered, words)
		}
	}
	for _, zone := range r.disturbed(s.steps) {
		record.NotChecked = append(record.NotChecked, fmt.Sprintf("stresses within the dispersion length of the anchors, x = %.2f to %.2f m", zone[0], zone[1]))
	}
	if r.beyondLinearCreep(s, checks) {
		record.Unanswered = append(record.Unanswered, "creep beyond the linear range: a lasting compression above 0.45·fck(t)")
	}
	if s.Draw != nil {
		record.Figures = append(record.Figures, s.Draw(r.effects(s))...)
	}
	return record, nil
}

// beyondLinearCreep is true where a lasting compression is above 0.45·fck(t), EN
// 1992-1-1:2004 3.1.4(4) and 5.10.2.2(5).
func (r *run) beyondLinearCreep(s *situation, checks []Check) bool {
	if r.element.LongTerm == nil || !s.Standing {
		return false
	}
	return slices.ContainsFunc(checks, func(c Check) bool {
		return c.Kind == limits.Compression && c.Demand.Value > 0.45*s.concrete.Characteristic
	})
}

func (r *run) factorLines(s *situation) []formula.Line {
	input := formula.Source{Document: "input"}
	least, most, _ := r.element.WeightTolerance.Range() // checked with the element
	lines := []formula.Line{
		formula.Given(formula.Q("γ_w_least", least, formula.One, "weight tolerance, least"), input),
		formula.Given(formula.Q("γ_w_most", most, formula.One, "weight tolerance, most"), input),
		formula.Given(formula.Q("δ_least", s.dynamic[0], formula.One, "dynamic factor, least"), input),
		formula.Given(formula.Q("δ_most", s.dynamic[1], formula.One, "dynamic factor, most"), input),
	}
	if s.other != nil {
		lines = append(lines, formula.Given(formula.Q("Q", s.Loads.Total(), formula.Newton, "other loads that may be there or not, in all"), input))
	}
	return lines
}

// stations are the internal forces and stresses at supports, ends, eighths of
// the length and the ends of the dispersion lengths, and the diagram at the nodes
// of the pieces.
func (r *run) stations(s *situation) (table, diagram []Station, err error) {
	answers, _, err := r.ask(r.question(s, limits.Compression))
	if err != nil {
		return nil, nil, err
	}
	factors := limits.Factors{}
	if len(answers) > 0 {
		factors = answers[0].Factors
	}
	ranges := r.rangesOf(s, factors)
	zones := r.disturbed(s.steps)
	var xs []float64
	for i := range 9 {
		xs = append(xs, r.element.Length*float64(i)/8)
	}
	for _, support := range s.Supports {
		xs = append(xs, support.X)
	}
	for _, zone := range zones {
		xs = append(xs, zone[0], zone[1])
	}
	slices.Sort(xs)
	xs = slices.CompactFunc(xs, func(a, b float64) bool { return math.Abs(b-a) < 1e-6*r.element.Length })
	hair := inset * r.element.Length
	for _, x := range xs {
		at := r.at(math.Max(hair, math.Min(r.element.Length-hair, x)))
		table = append(table, r.stationRecord(s, at, x, ranges, !r.inside(x, zones)))
	}
	for i := range r.grid {
		p := &r.grid[i]
		evaluated := !within(p.middle(), zones)
		diagram = append(diagram, r.stationRecord(s, p.at[0], p.from, ranges, evaluated),
			r.stationRecord(s, p.at[nodes/2], p.at[nodes/2].x, ranges, evaluated), r.stationRecord(s, p.at[nodes-1], p.to, ranges, evaluated))
	}
	return table, diagram, nil
}

// inside is true within a stretch or at an end of the element that it covers; its
// other end counts as outside.
func (r *run) inside(x float64, stretches [][2]float64) bool {
	hair := inset * r.element.Length
	for _, s := range stretches {
		low, high := s[0]+hair, s[1]-hair
		if s[0] <= hair {
			low = 0
		}
		if s[1] >= r.element.Length-hair {
			high = r.element.Length
		}
		if x >= low && x <= high {
			return true
		}
	}
	return false
}

func (r *run) stationRecord(s *situation, at *station, x float64, f ranges, evaluated bool) Station {
	record := Station{X: x, Weight: s.system.forces(at.x), Evaluated: evaluated}
	_, record.Prestress = at.prestressIn(s)
	if !evaluated {
		return record
	}
	b := r.basis(s, at)
	record.TopLeast, record.TopMost = r.fibre(b, at, false, f)
	record.BottomLeast, record.BottomMost = r.fibre(b, at, true, f)
	return record
}

// fibre is the range of stress over the lowest or the highest corners.
func (r *run) fibre(b basis, at *station, low bool, f ranges) (least, most float64) {
	point := at.extremeCorner(low)
	least, most = math.Inf(1), math.Inf(-1)
	for _, c := range at.corners {
		if c.Z != point.Z {
			continue
		}
		_, small := b.worst(-1, c, f)
		_, large := b.worst(1, c, f)
		least, most = math.Min(least, small), math.Max(most, large)
	}
	return least, most
}

// record is the Record with inputs and no stage yet.
func (r *run) record() (Record, error) {
	e := r.element
	record := Record{
		Format: Format, Element: e.Mark, Length: e.Length, Caution: caution, Basis: basisWords,
		Inputs: r.inputs(), Tendons: []TendonRecord{}, Weights: loadRecords(r.parts), Stages: []StageRecord{}, NotChecked: r.notChecked(),
	}
	for _, x := range append([]float64{0}, e.Section.Breaks()...) {
		if x >= 0 && x < e.Length {
			shape := e.Section.At(x)
			record.Outlines = append(record.Outlines, Drawing{X: x, Solids: shape.Solids(), Voids: shape.Voids(), Centroid: shape.Properties().Centroid})
		}
	}
	for i, t := range e.Tendons {
		path := r.paths[i]
		tendonRecord := TendonRecord{Mark: t.Mark, Strands: t.Strands, Strand: t.Strand.Name}
		for _, x := range path.Breaks() {
			p := path.At(x)
			tendonRecord.Points = append(tendonRecord.Points, PathPoint{X: x, Y: p.Y, Z: p.Z, Angle: path.Angle(x), Length: path.Length(x)})
		}
		record.Tendons = append(record.Tendons, tendonRecord)
	}
	var err error
	record.Appendix, err = r.appendix()
	return record, err
}

// loadRecords are parts of a load as plain data; a couple is left out, for it has
// no force of its own.
func loadRecords(parts []part) []Load {
	list := []Load{}
	for _, p := range parts {
		list = append(list, Load{Mark: p.mark, From: p.from, To: p.to, Force: p.force, Couple: p.couple, Centre: p.x})
	}
	return list
}
