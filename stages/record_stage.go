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
			load.Kind, load.Wind = string(act.kind()), act.windRecord()
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
	load := Load{Mark: act.Mark + ", " + act.Train.Name, Rolls: true, To: act.Train.Length(), Force: act.Train.Weight() * act.Train.Factor(), Y: act.Y, Z: act.Z, Kind: string(act.kind())}
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
				group.title += ", force as given by " + reference(g.Source.Document)
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

// reference is the name of a document as it is printed.
func reference(document string) string {
	if document = strings.TrimSpace(document); document == "" {
		return "no reference given"
	}
	return document
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
	v, pulls := s.cases[0].ledger, r.pullsIn(s)
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
			t.Given = reference(g.Source.Document + " " + g.Source.Place)
		}
		t.Deviations = stressed.Deviations()
		if s.Brief && !slices.ContainsFunc(pulls, func(p pull) bool { return p.tendon == i }) {
			list = append(list, t)
			continue
		}
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
