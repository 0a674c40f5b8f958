package stages

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// Record writes the calculation as plain data. The error wraps [ErrStage]; the Record
// returned with it has what was written before.
func (a *Analysis) Record() (Record, error) {
	if a == nil || a.run == nil || a.unchecked {
		return Record{Format: Format, Caution: slices.Clone(caution)}, errNoAnalysis
	}
	r := a.run
	var book derive.Book
	record := r.record()
	record.Factors = r.factors
	derived := a.derived()
	for i := range a.situations {
		s := r.situations[i]
		result, err := r.situationRecord(s, a.situations[i], derived[i], &book)
		if err != nil {
			record.Lists = book.Lists()
			return record, fmt.Errorf("%w %d, %s at age %g d: %w", ErrStage, s.stage+1, s.Name, s.Age, err)
		}
		if s.stage >= len(record.Stages) {
			record.Stages = append(record.Stages, StageRecord{Number: s.stage + 1, Name: s.Name, Age: s.Age})
		}
		stage := &record.Stages[s.stage]
		stage.Name = inCommon(stage.Name, s.Name)
		if before, _, ok := strings.Cut(s.Name, ": "); ok && s.Brief { // the step, and its move
			stage.Name = before
		}
		stage.Situations = append(stage.Situations, result)
	}
	err := r.put(&record, len(a.situations), &book)
	record.Lists = book.Lists()
	record.sumsOnSides()
	return record, err
}

// inCommon is what the names of situations of a stage begin with, in whole parts between
// commas; the first name where that is nothing.
func inCommon(name, other string) string {
	for common := name; ; {
		if other == common || strings.HasPrefix(other, common+", ") {
			return common
		}
		cut := strings.LastIndex(common, ", ")
		if cut < 0 {
			return name
		}
		common = common[:cut]
	}
}

// put writes the inputs and what follows from the materials alone, behind the lines of
// checks.
func (r *run) put(record *Record, situations int, book *derive.Book) (err error) {
	inputs, err := r.inputs()
	if err != nil {
		return err
	}
	if record.Inputs, err = written(book, inputs); err != nil {
		return err
	}
	for i, s := range r.situations[:situations] {
		number := i
		for _, stage := range record.Stages[:s.stage] {
			number -= len(stage.Situations)
		}
		of := &record.Stages[s.stage].Situations[number]
		if of.Events, err = written(book, r.events(s)); err != nil {
			return err
		}
		if of.Concrete, err = linesIn(book, s.concrete[s.carried()[0]].Derivation); err != nil {
			return err
		}
	}
	derived, err := r.appendix()
	if err != nil {
		return err
	}
	record.Appendix, err = written(book, derived)
	return err
}

// situationRecord is a situation with its results, and the derivation of its checks that have one.
func (r *run) situationRecord(s *situation, of situationChecks, derived []bool, book *derive.Book) (SituationRecord, error) {
	first := s.concrete[s.carried()[0]]
	record := SituationRecord{
		Name: s.Name, Age: s.Age, Day: s.day, Until: s.Until, Standing: s.Standing, Brief: s.Brief, Phase: string(s.Phase), Supports: r.supportsIn(s), Equipment: equipmentRecord(s.Equipment), Method: s.Method,
		Braces: s.bracing(), OutOfLevel: r.outOfLevel(s), Roll: s.Roll, Gradient: s.Gradient, Dynamic: Range{Least: s.dynamic[0], Most: s.dynamic[1]}, DynamicBy: s.Dynamic.Source,
		Basis: first.Basis, Strength: first.Characteristic, Tendons: r.tendonForces(s), Unanswered: of.words(),
	}
	record.Mass, record.Weight = r.carriedWeight(s)
	record.Loads = r.actionRecords(s)
	for _, e := range s.Events {
		record.Added, record.Joined = append(record.Added, e.Add...), append(record.Joined, e.Join...)
	}
	var err error
	if record.Stressing, err = r.stressings(s); err != nil {
		return record, err
	}
	record.Steps = r.elasticSteps(s)
	if record.Reactions, err = r.reactions(s); err != nil {
		return record, err
	}
	if record.Together, err = r.together(s); err != nil {
		return record, err
	}
	if err := r.equip(s, &record); err != nil {
		return record, err
	}
	if record.Total, err = r.total(s); err != nil {
		return record, err
	}
	if r.jointed() {
		record.Present, record.Joints = r.extents(s), s.atJoints
	}
	if record.Bodies, err = r.bodiesOf(s); err != nil {
		return record, err
	}
	if record.Stations, record.Diagram, err = r.stations(s); err != nil {
		return record, err
	}
	if !s.Brief || r.endsStage(s) {
		if record.Moves, record.MoveNotes, err = r.moves(s); err != nil {
			return record, err
		}
	}
	record.Checks = []Check{}
	before := len(book.Lists().Tables)
	for i, of := range of.checks {
		c := of.Check
		if !derived[i] {
			c.Factors = r.atOnce(c.Factors)
			record.Checks = append(record.Checks, c)
			continue
		}
		if s.Brief || c.shows() {
			of.extra = of.given()
		}
		if of.proof != nil && c.State != NotEvaluated { // a limit that is no number cannot be shown
			if err := of.proof.prove(r, book, &c); err != nil {
				return record, err
			}
		}
		if err := c.write(book, of.extra...); err != nil {
			return record, err
		}
		c.Factors = r.atOnce(c.Factors)
		record.Checks = append(record.Checks, c)
	}
	if record.Placed, err = r.placedForces(s, placesOf(record.Checks, before)); err != nil {
		return record, err
	}
	if record.HoldPoints, err = r.holdPoints(s, of.checks); err != nil {
		return record, err
	}
	record.HoldPoints = append(record.HoldPoints, of.documents...)
	record.NotChecked = append(record.NotChecked, r.spreading(s)...)
	if a := s.acts[0]; a.bounded {
		record.NotChecked = append(record.NotChecked, "how the supports share: nothing is stated, so every reaction and stress is the extreme over all statically determinate sets (bounded)")
	}
	record.NotChecked = append(record.NotChecked, r.localForces(s)...)
	record.NotChecked = append(append(record.NotChecked, s.linkNotes()...), s.castNotes()...)
	if s.Draw != nil {
		effects, err := r.effects(s)
		if err != nil {
			return record, err
		}
		if record.Figures, err = drawn(s.Draw(effects)); err != nil {
			return record, err
		}
	}
	return record, nil
}

// equip adds the equipment that is stated by the results.
func (r *run) equip(s *situation, record *SituationRecord) error {
	if s.Equip == nil {
		return nil
	}
	effects, err := r.effects(s)
	if err != nil {
		return err
	}
	items, err := s.Equip(effects, r.standard)
	if err != nil {
		return err
	}
	record.Equipment = append(record.Equipment, equipmentRecord(items)...)
	return checkEquipment(record.Equipment, s.Supports, r.girder.Length())
}

// atOnce are factors with those of tendons that have not spread and have the same
// value as one; without those of tendons that count in full.
func (r *run) atOnce(factors []Factor) []Factor {
	var list []Factor
	parts, marks := map[float64]int{}, map[float64][]string{} // by value: place in the list, tendons
	for _, f := range factors {
		i := slices.IndexFunc(r.tendons, func(t tendon.Tendon) bool { return f.Cause == unspread(t.Mark) })
		if i < 0 {
			list = append(list, f)
			continue
		}
		if f.Value == 1 {
			continue // it counts in full
		}
		if marks[f.Value] = append(marks[f.Value], r.tendons[i].Mark); len(marks[f.Value]) == 1 {
			parts[f.Value], list = len(list), append(list, f)
			continue
		}
		list[parts[f.Value]].Cause = "parts of tendons " + strings.Join(marks[f.Value], ", ") + " before they have spread"
	}
	return list
}

// unspread is the cause of a tendon whose force has not spread, see factorsOf.
func unspread(mark string) string { return "part of tendon " + mark + " before it has spread" }

// supportsIn are the supports of every body, beside the axis.
func (r *run) supportsIn(s *situation) []Support {
	var list []Support
	for _, a := range s.acts {
		for _, p := range a.supports {
			p.Y -= r.girder.offset(p.X)
			list = append(list, p)
		}
	}
	return list
}

// record is the Record with inputs and no stage yet.
func (r *run) record() Record {
	record := Record{
		Format: Format, Element: r.girder.Mark, Length: r.girder.Length(), Caution: slices.Clone(caution), Basis: r.basis(),
		Weights: loadRecords(r.parts, ""), Stages: []StageRecord{}, NotChecked: r.notChecked(),
	}
	for _, p := range r.girder.Pieces {
		record.Outlines = append(record.Outlines, drawings(p.At, p.Element.Length, p.Element.Section, r.girder.after(p))...)
	}
	for i, t := range r.tendons {
		one := newTendonRecord(t, r.paths[i])
		one.Pretensioned = r.pretensioned(i)
		record.Tendons = append(record.Tendons, one)
	}
	return record
}

// newTendonRecord is a tendon with the ends of the segments of its path.
func newTendonRecord(t tendon.Tendon, path *tendon.Path) TendonRecord {
	record := TendonRecord{Mark: t.Mark, Strands: t.Strands, Strand: t.Strand.Name, External: t.External, Approval: t.Approval.Reference}
	for _, x := range path.Breaks() {
		p := path.At(x)
		elevation, plan := t.Elevation.KindAt(x), t.Plan.KindAt(x)
		if x == path.To() {
			elevation, plan = "", ""
		}
		record.Points = append(record.Points, PathPoint{X: x, Y: p.Y, Z: p.Z, Angle: path.Angle(x), Length: path.Length(x), Elevation: elevation, Plan: plan})
	}
	return record
}
