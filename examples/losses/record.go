package main

import (
	"fmt"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

var (
	input       = formula.Source{Document: "input"}
	elasticLoss = formula.Source{Document: "EN 1992-1-1:2004", Place: "5.10.5.1, (5.44)", Confirm: true}
)

func given(symbol string, value float64, unit formula.Unit, name string) formula.Line {
	return formula.Given(formula.Q(symbol, value, unit, name), input)
}

// record is the calculation as data for the sheets.
func (r result) record() (stages.Record, error) {
	lines, err := r.lines()
	if err != nil {
		return stages.Record{}, err
	}
	return stages.Results{
		Mark: r.force.Tendon.Mark, Length: length, Basis: basis, Section: r.shape, Concrete: r.mix,
		Tendons: []tendon.Tendon{r.force.Tendon}, Inputs: r.inputs(), NotChecked: notChecked,
		Parts: []stages.ResultPart{
			{Title: "Force in one tendon", Tables: []stages.ValueTable{r.forces()}, Figures: []stages.Figure{r.figure()}},
			{Title: "Losses of stress in one tendon", Tables: []stages.ValueTable{
				r.losses("Losses up to 28 days, with friction and draw-in", func(s station) tendon.Losses { return s.monthly }),
				r.losses("Losses up to the end of life, with friction and draw-in", func(s station) tendon.Losses { return s.final }),
			}},
			{Title: "Over the middle pier, to the end of life", Lines: lines},
			{Title: "Stressing record, and restraint", Lines: r.stressing()},
		},
	}.Record()
}

var basis = []string{
	"Tendon C1 is one of eight equal tendons of two spans of precast segments, continuous over the middle pier. Everything about the bridge is invented.",
	"Axes: x along the beam from its left end, z up from the lowest fibre. Signs: tension +, compression of the concrete beside the tendon +, sagging moment +, a loss +.",
	"Friction and unintentional angular displacement by exp(−μ(θ + k·s)), draw-in with friction reversed.",
	"Elastic loss: mean of equal tendons stressed one after another, EN 1992-1-1:2004 (5.44), on the gross section.",
	"Creep, shrinkage and relaxation: EN 1992-1-1:2004 (5.46) from the stressing on, under self-weight and all tendons.",
	"Beam: two spans, constant bending stiffness, rigid supports; restraint moment of the tendons by the same beam.",
	"The technical approval of the tendon governs.",
}

var notChecked = []string{
	"any limit: stresses, strength at stressing, anchorage zones, spacing of anchors", "loads other than self-weight", "redistribution by creep",
}

// inputs are those that section, concrete and tendon do not bring themselves.
func (r result) inputs() []stages.Lines {
	j := r.force.Jacking
	return []stages.Lines{
		{Title: "Beam of two equal spans on three rigid supports", Lines: []formula.Line{
			given("l", span, formula.Metre, "each span"),
			given("γ_conc", weight, formula.NewtonPerCubic, "unit weight with reinforcement and epoxy"),
			given("n_t", tendons, formula.One, "equal tendons, stressed one after another"),
		}},
		{Title: "Jacking from " + j.Ends.String(), Lines: []formula.Line{
			given("σ_0", j.Stress, formula.Pascal, "jacking stress"),
			given("w", j.DrawIn, formula.Metre, "draw-in at each end"),
			given("t_0", stressed, formula.Day, "age of the concrete at stressing"),
		}},
		{Title: "Extension", Lines: []formula.Line{
			given("σ_d", measuring.From, formula.Pascal, "stress from which it is read"),
			given("l_t", measuring.Tail, formula.Metre, "tail in each jack"),
		}},
	}
}

func (r result) forces() stages.ValueTable {
	t := stages.ValueTable{Title: "Force in one tendon", Columns: []stages.ValueColumn{
		{Name: "x", Unit: formula.Metre}, {Name: "at the jacks", Unit: formula.Newton}, {Name: "after lock-off", Unit: formula.Newton},
		{Name: "at 28 d", Unit: formula.Newton}, {Name: "end of life", Unit: formula.Newton},
	}}
	for _, s := range r.stations {
		t.Rows = append(t.Rows, []float64{s.x, s.jack, s.lockOff, s.atMonth, s.end})
	}
	return t
}

func (r result) losses(title string, of func(station) tendon.Losses) stages.ValueTable {
	t := stages.ValueTable{Title: title, Columns: []stages.ValueColumn{{Name: "x", Unit: formula.Metre}}}
	for _, name := range []string{"friction", "draw-in", "elastic", "shrinkage", "creep", "relaxation", "total"} {
		t.Columns = append(t.Columns, stages.ValueColumn{Name: name, Unit: formula.Pascal})
	}
	for _, s := range r.stations {
		l := of(s)
		t.Rows = append(t.Rows, []float64{s.x, l.Friction, l.DrawIn, l.Elastic, l.Shrinkage, l.Creep, l.Relaxation, l.Total()})
	}
	return t
}

// figure is the force at every break of its law; between them it is drawn straight.
func (r result) figure() stages.Figure {
	jack, lockOff := stages.Polyline{Name: "at the jacks"}, stages.Polyline{Name: "after lock-off"}
	for _, x := range r.force.Breaks() {
		jack.Points = append(jack.Points, [2]float64{x, r.force.AtJack(x)})
		lockOff.Points = append(lockOff.Points, [2]float64{x, r.force.At(x)})
	}
	atMonth, end := stages.Polyline{Name: "at 28 d"}, stages.Polyline{Name: "end of life"}
	for _, s := range r.stations {
		atMonth.Points = append(atMonth.Points, [2]float64{s.x, s.atMonth})
		end.Points = append(end.Points, [2]float64{s.x, s.end})
	}
	return stages.Figure{Title: "Force along one tendon; at 28 d and at the end of life straight between the stations of the table",
		XUnit: string(formula.Metre), YUnit: string(formula.Newton), Lines: []stages.Polyline{jack, lockOff, atMonth, end}}
}

// lines derive the force over the pier.
func (r result) lines() ([]formula.Line, error) {
	lines, err := r.force.Derivation(span, "")
	if err != nil {
		return nil, err
	}
	pier := r.pier
	elastic, err := formula.Derive(formula.Q("Δσ_el", 0, formula.Pascal, "mean elastic loss"), "(n_t - 1)/(2*n_t)*E_p/E_cm*σ_c", elasticLoss,
		formula.Q("n_t", tendons, formula.One, "tendons"), formula.Q("E_p", r.force.Tendon.Strand.Modulus, formula.Pascal, "modulus of the tendons"),
		formula.Q("E_cm", r.young, formula.Pascal, "modulus of the concrete at stressing"),
		formula.Q("σ_c", pier.beside, formula.Pascal, "stress of the concrete beside the tendons from all of them"))
	if err != nil {
		return nil, err
	}
	later, err := pier.sustained.Lines()
	if err != nil {
		return nil, err
	}
	end, err := formula.Derive(formula.Q("P_end", 0, formula.Newton, fmt.Sprintf("force at the age of %g d", float64(life))), "P - (Δσ_el + Δσ_csr)*A_p", formula.Mechanics,
		lines[len(lines)-1].Result, elastic.Result, later[len(later)-1].Result, formula.Q("A_p", r.force.Tendon.Area(), formula.SquareMetre, "area of the strands"))
	return append(append(append(lines, elastic), later...), end), err
}

// stressing is what the crew reads, and the restraint moment.
func (r result) stressing() []formula.Line {
	left, right := r.force.DrawInReach()
	found := func(symbol string, value float64, unit formula.Unit, name string) formula.Line {
		return formula.Given(formula.Q(symbol, value, unit, name), formula.Source{Document: "tempstage", Place: "packages tendon and redistribution"})
	}
	e := r.elongation
	return []formula.Line{
		found("Δ_l", e.Left, formula.Metre, "extension at the left jack"), found("Δ_r", e.Right, formula.Metre, "extension at the right jack"),
		found("Δ_min", e.Least, formula.Metre, "permissible sum, minimum"), found("Δ_max", e.Most, formula.Metre, "permissible sum, maximum"),
		found("x_dl", left, formula.Metre, "reach of the draw-in from the left anchor"), found("x_dr", right, formula.Metre, "reach of the draw-in from the right anchor"),
		found("M_2", r.secondary, formula.NewtonMetre, "restraint moment of all tendons over the middle pier"),
	}
}
