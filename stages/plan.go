package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// Record writes the calculation as plain data. The error wraps [ErrStage]; the
// Record returned with it holds what was written before.
func (a *Analysis) Record() (Record, error) {
	r := a.run
	var book derive.Book
	record := r.record()
	for i := range a.situations {
		s := r.situations[i]
		result, err := r.situationRecord(s, a.situations[i], &book)
		if err != nil {
			record.Lists = book.Lists()
			return record, fmt.Errorf("%w %d, %s at age %g d: %w", ErrStage, s.stage+1, s.Name, s.Age, err)
		}
		if s.stage >= len(record.Stages) {
			record.Stages = append(record.Stages, StageRecord{Number: s.stage + 1, Name: s.Name, Age: s.Age})
		}
		stage := &record.Stages[s.stage]
		stage.Situations = append(stage.Situations, result)
	}
	err := r.put(&record, len(a.situations), &book)
	record.Lists = book.Lists()
	return record, err
}

// put writes what was put in and what follows from the materials alone, behind the
// lines of checks.
func (r *run) put(record *Record, situations int, book *derive.Book) (err error) {
	if record.Inputs, err = written(book, r.inputs()); err != nil {
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

// situationRecord is a situation with its results.
func (r *run) situationRecord(s *situation, of situationChecks, book *derive.Book) (SituationRecord, error) {
	first := s.concrete[s.carried()[0]]
	record := SituationRecord{
		Name: s.Name, Age: s.Age, Day: s.day, Until: s.Until, Standing: s.Standing, Phase: string(s.Phase), Supports: r.supportsIn(s),
		OutOfLevel: s.OutOfLevel, Roll: s.Roll, Gradient: s.Gradient, Dynamic: Range{Least: s.dynamic[0], Most: s.dynamic[1]},
		Basis: first.Basis, Strength: first.Characteristic, Tendons: r.tendonForces(s), Unanswered: of.words(),
	}
	record.Mass, record.Weight = r.carriedWeight(s)
	record.Loads = r.actionRecords(s)
	var err error
	if record.Reactions, err = r.reactions(s); err != nil {
		return record, err
	}
	if record.Total, err = r.total(s); err != nil {
		return record, err
	}
	if record.Stations, record.Diagram, err = r.stations(s); err != nil {
		return record, err
	}
	if record.Moves, record.MoveNotes, err = r.moves(s); err != nil {
		return record, err
	}
	record.Checks = []Check{}
	for _, of := range of.checks {
		c := of.Check
		if of.proof != nil && c.State != NotEvaluated { // a limit that is no number cannot be shown
			if err := of.proof.prove(r, book, &c); err != nil {
				return record, err
			}
		}
		if err := c.write(book, of.extra...); err != nil {
			return record, err
		}
		c.Factors = r.together(c.Factors)
		record.Checks = append(record.Checks, c)
	}
	record.HoldPoints = append(append([]derive.HoldPoint(nil), r.holdPoints(s, of.checks)...), of.documents...)
	record.NotChecked = append(record.NotChecked, r.spreading(s)...)
	if a := s.acts[0]; a.bounded {
		record.NotChecked = append(record.NotChecked, "how the supports share: nothing is stated, so every reaction and stress is the extreme over all statically determinate sets (bounded)")
	}
	record.NotChecked = append(record.NotChecked, r.localForces(s)...)
	record.NotChecked = append(record.NotChecked, s.linkNotes()...)
	if s.Draw != nil {
		effects, err := r.effects(s)
		if err != nil {
			return record, err
		}
		record.Figures = append(record.Figures, s.Draw(effects)...)
	}
	return record, nil
}

// together are factors with those of tendons that have not spread and have the same
// value as one; without those of tendons that count in full.
func (r *run) together(factors []Factor) []Factor {
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
		Format: Format, Element: r.girder.Mark, Length: r.girder.Length(), Caution: caution, Basis: basisWords,
		Weights: loadRecords(r.parts, ""), Stages: []StageRecord{}, NotChecked: r.notChecked(),
	}
	for _, p := range r.girder.Pieces {
		for _, x := range append([]float64{0}, p.Element.Section.Breaks()...) {
			if x >= 0 && x < p.Element.Length {
				shape := p.Element.Section.At(x)
				record.Outlines = append(record.Outlines, Drawing{X: p.At + x, Solids: shape.Solids(), Voids: shape.Voids(), Centroid: shape.Properties().Centroid})
			}
		}
	}
	for i, t := range r.tendons {
		path := r.paths[i]
		tendonRecord := TendonRecord{Mark: t.Mark, Strands: t.Strands, Strand: t.Strand.Name, External: t.External, Pretensioned: r.pretensioned(i)}
		for _, x := range path.Breaks() {
			p := path.At(x)
			tendonRecord.Points = append(tendonRecord.Points, PathPoint{X: x, Y: p.Y, Z: p.Z, Angle: path.Angle(x), Length: path.Length(x)})
		}
		record.Tendons = append(record.Tendons, tendonRecord)
	}
	return record
}

// carriedWeight is the nominal weight of all bodies, and the factor on it by the
// tolerances of its parts.
func (r *run) carriedWeight(s *situation) (Mass, Range) {
	var parts []part
	least, most := 0.0, 0.0
	uniform := true
	first := Range{}
	first.Least, first.Most = r.tolerance(r.girder.Pieces[s.carried()[0]].WeightGroup)
	for _, b := range s.bodies {
		for _, load := range r.weightLoads(b) {
			low, high := r.tolerance(load.group)
			uniform = uniform && first == Range{Least: low, Most: high}
			for _, p := range load.parts {
				least, most, parts = least+low*p.force, most+high*p.force, append(parts, p)
			}
		}
	}
	mass := massOf(parts)
	if uniform {
		return mass, first
	}
	return mass, Range{Least: least / mass.Weight, Most: most / mass.Weight}
}

// actionRecords are the actions that act in a situation, each once, trains last.
func (r *run) actionRecords(s *situation) []Load {
	var list []Load
	var seen []*Action
	for i := range s.current {
		e := &s.current[i]
		if e.inner < 0 || r.causes[e.inner].kind != causeAction || slices.Contains(seen, r.causes[e.inner].action) {
			continue
		}
		act := r.causes[e.inner].action
		seen = append(seen, act)
		for _, load := range loadRecords(partsOf(act.Mark, act.Loads, act.Y, act.Z), string(act.Direction)) {
			load.Presence.Least, load.Presence.Most = act.presence()
			list = append(list, load)
		}
	}
	for _, act := range s.Actions {
		if act.Train != nil {
			list = append(list, trainRecord(act))
		}
	}
	return list
}

// loadRecords are parts of a load as plain data.
func loadRecords(parts []part, direction string) []Load {
	var list []Load
	for _, p := range parts {
		list = append(list, Load{Mark: p.mark, Own: p.own, Direction: direction, From: p.from, To: p.to, Force: p.force, Couple: p.couple, Centre: p.x, Y: p.y, Z: p.z})
	}
	return list
}

// trainRecord is a train, whose place is anywhere on the girder.
func trainRecord(act Action) Load {
	load := Load{Mark: act.Mark + ", " + act.Train.Name, Rolls: true, To: act.Train.Length(), Force: act.Train.Weight() * act.Train.Factor(), Y: act.Y, Z: act.Z}
	load.Presence.Least, load.Presence.Most = act.presence()
	return load
}

// events are the events of a situation.
func (r *run) events(s *situation) []lineGroup {
	var groups []lineGroup
	given := formula.Source{Document: "input"}
	steps := r.steps[s.from:s.steps]
	for _, e := range s.Events {
		if len(e.Transfer) > 0 {
			steps = steps[1:]
		}
		for _, t := range e.Transfer {
			groups = append(groups, lineGroup{title: "release of pretensioned strands " + strings.Join(t.Layers, ", "), lines: t.lines()})
		}
		if e.Jack != nil {
			group := lineGroup{
				title: fmt.Sprintf("%s, jacked at %s", steps[0].words(e.Jack.Tendons), e.Jack.Ends),
				lines: []formula.Line{
					formula.Given(formula.Q("σ_0", e.Jack.Stress, formula.Pascal, "jacking stress"), given),
					formula.Given(formula.Q("w", e.Jack.DrawIn, formula.Metre, "draw-in at each jacked anchor"), given),
				},
			}
			if g := e.Jack.Given; g != nil {
				group.title += ", force as given by " + g.Source.Document
			}
			groups, steps = append(groups, group), steps[1:]
		}
		if len(e.Release) > 0 {
			steps = steps[1:]
		}
		for _, of := range []struct {
			words string
			marks []string
		}{{"release %s: let down and taken out", e.Release}, {"grout %s: bonded from here on", e.Grout}, {"add %s", e.Add}, {"join %s", e.Join}} {
			if len(of.marks) > 0 {
				groups = append(groups, lineGroup{title: fmt.Sprintf(of.words, strings.Join(of.marks, ", "))})
			}
		}
	}
	return groups
}

// words are what a step of stressing does to the tendons named.
func (s *step) words(marks []string) string {
	var list []string
	for _, how := range []how{firstPull, restressed, letDown} {
		var same []string
		for n, p := range s.pulls {
			if p.how == how {
				same = append(same, marks[n])
			}
		}
		if len(same) > 0 {
			list = append(list, string(how)+" "+strings.Join(same, ", "))
		}
	}
	return strings.Join(list, "; ")
}

// tendonForces are the mean forces of the tendons stressed so far.
func (r *run) tendonForces(s *situation) []TendonForce {
	var list []TendonForce
	v := s.cases[0].ledger
	for i, path := range r.paths {
		stressed := r.forceAt(s.steps, i)
		if stressed == nil {
			continue // not stressed yet, or released
		}
		force := func(x float64) float64 { f, _ := r.ledger.TendonForce(v, r.inside(x), i); return f }
		t := TendonForce{Mark: r.tendons[i].Mark, Bonded: s.bonded[i]}
		hair := ledger.Inset * r.girder.Length()
		t.Left, t.Middle, t.Right = force(path.From()+hair), force((path.From()+path.To())/2), force(path.To()-hair)
		t.Losses = r.losses(v, i, (path.From()+path.To())/2)
		for _, part := range []*float64{&t.Losses.Friction, &t.Losses.DrawIn, &t.Losses.Elastic, &t.Losses.Shrinkage, &t.Losses.Creep, &t.Losses.Relaxation} {
			*part = derive.Round(*part, -2) // 0.01 Pa
		}
		if g := stressed.Jacking.Given; g != nil {
			t.Given = strings.TrimSpace(g.Source.Document + " " + g.Source.Place)
		}
		t.Deviations = stressed.Deviations()
		t.Along = along24(path.From()+hair, path.To()-hair, force)
		list = append(list, t)
	}
	return list
}

// along24 is a force (N) from place to place (m), looked at in 24 steps.
func along24(from, to float64, force func(float64) float64) [][2]float64 {
	var rows [][]float64
	most := 0.0
	for k := range 25 {
		x := from + (to-from)*float64(k)/24
		rows = append(rows, []float64{x, force(x)})
		most = math.Max(most, rows[k][1])
	}
	var list [][2]float64
	for _, row := range thinned(rows, []float64{0, 1e-3 * most}) {
		list = append(list, [2]float64{derive.Round(row[0], -3), derive.Round(row[1], 1)})
	}
	return list
}

// losses are the parts of the loss of a tendon at x.
func (r *run) losses(v *ledger.Situation, i int, x float64) tendon.Losses {
	f, area := r.forceAt(v.Steps, i), r.tendons[i].Area()
	l := r.ledger.TimeLosses(v, x, i)
	_, elastic := r.ledger.TendonForce(v, x, i)
	if r.pretensioned(i) {
		area = f.Gripped(x)
	} else {
		l.Friction = f.Jacking.Stress - f.AtJack(x)/area
		l.DrawIn = (f.AtJack(x) - f.At(x)) / area
	}
	if l.Elastic = elastic / area; area == 0 {
		l.Elastic = 0
	}
	return l
}
