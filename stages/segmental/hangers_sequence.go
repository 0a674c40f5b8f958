package segmental

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// Adjustment is what a pair of hangers has to be shortened by before the joints are closed.
type Adjustment struct {
	Hanger     string
	Segment    string    // that hangs on it
	Force      float64   // of the pair, nominal, N
	Deflection []float64 // of the gantry at the pair after each segment of the order, m, + upwards: negative
	Shorten    float64   // by which the gantry goes down at the pair after its segment was hung to level, m
}

// Adjustments are the deflections of the gantry as segments are hung in an order (marks; none:
// from left to right), each set to its level when it is hung: the gantry goes down under
// those that follow, and every pair is shortened by that before the joints are closed. The
// forces are those of the weights, by statics. The error wraps [ErrSegmental].
func (h Hangers) Adjustments(g stages.Girder, order ...string) ([]Adjustment, error) {
	if err := h.check(g); err != nil {
		return nil, err
	}
	marks := marksOf(g)
	if len(order) == 0 {
		order = marks
	}
	for i, mark := range order {
		if !slices.Contains(marks, mark) || slices.Contains(order[:i], mark) {
			return nil, fmt.Errorf("%w: field Order[%d] = %q: must be the mark of a segment, each once", ErrSegmental, i, mark)
		}
	}
	if len(order) != len(marks) {
		return nil, fmt.Errorf("%w: field Order has %d segments: must be all %d", ErrSegmental, len(order), len(marks))
	}
	member, err := beam.New(h.Gantry.Layout)
	if err != nil {
		return nil, fmt.Errorf("%w: field Hangers.Gantry: %w", ErrSegmental, err)
	}
	list := make([]Adjustment, len(h.List))
	for i, one := range h.List {
		list[i] = Adjustment{Hanger: one.Mark, Segment: marks[segmentOf(g, one.X)]}
	}
	var on loads.Set
	at := map[string]int{}
	for n, mark := range order {
		k := slices.Index(marks, mark)
		at[mark] = n
		for i, force := range h.shares(g, k) {
			list[i].Force = force
			on.Points = append(on.Points, loads.Point{At: h.List[i].X - h.Gantry.At, Force: force})
		}
		r, err := member.Solve(on)
		if err != nil {
			return nil, fmt.Errorf("%w: the gantry with segments to %s: %w", ErrSegmental, mark, err)
		}
		for i, one := range h.List {
			list[i].Deflection = append(list[i].Deflection, r.Deflection(one.X-h.Gantry.At))
		}
	}
	for i := range list {
		d := list[i].Deflection
		list[i].Shorten = d[at[list[i].Segment]] - d[len(d)-1]
	}
	return list, nil
}

// shares are the forces of the pairs of a segment under its weight (N), by place in List.
func (h Hangers) shares(g stages.Girder, k int) map[int]float64 {
	mass, _ := g.Pieces[k].Element.CentreOfGravity() // checked by holds
	on := h.of(g, k)
	a, b := h.List[on[0]].X, h.List[on[1]].X
	second := mass.Weight * (g.Pieces[k].At + mass.X - a) / (b - a)
	return map[int]float64{on[0]: mass.Weight - second, on[1]: second}
}

// items are the gantry with what each pair is set and shortened by.
func (s HangSegments) items(g stages.Girder, e stages.Effects) ([]stages.EquipmentItem, error) {
	adjustments, err := s.Hangers.Adjustments(g, s.Order...)
	if err != nil {
		return nil, err
	}
	item := s.Hangers.gantryItem(e)
	for i, a := range adjustments {
		facts := []stages.Fact{{Name: "at x", Value: s.Hangers.List[i].X, Unit: formula.Metre}}
		left, right := s.Hangers.bars(g, i, e.Reactions[i].Nominal)
		facts = append(facts, stages.Fact{Name: "left bar", Value: left, Unit: formula.Newton}, stages.Fact{Name: "right bar", Value: right, Unit: formula.Newton},
			stages.Fact{Name: "gantry down in all, mm", Text: millimetres(-a.Deflection[len(a.Deflection)-1])}, stages.Fact{Name: "shorten before epoxy, mm", Text: millimetres(a.Shorten)})
		item.Positions = append(item.Positions, stages.EquipmentPosition{Name: a.Hanger + ", segment " + a.Segment, Facts: facts})
	}
	return []stages.EquipmentItem{item}, nil
}

// figures are the deflections of the gantry after each segment, and the adjustments.
func (s HangSegments) figures(g stages.Girder) []stages.Figure {
	adjustments, err := s.Hangers.Adjustments(g, s.Order...)
	if err != nil {
		return nil // checked when the situation was made
	}
	order := s.Order
	if len(order) == 0 {
		order = marksOf(g)
	}
	deflections := stages.Figure{Title: "deflection of the gantry at the hangers as the segments are hung", XUnit: "m", YUnit: "m", Exaggerated: true, Tabulated: true}
	for n, mark := range order {
		line := stages.Polyline{Name: "with " + mark}
		for i, a := range adjustments {
			line.Points = append(line.Points, [2]float64{s.Hangers.List[i].X, a.Deflection[n]})
		}
		deflections.Lines = append(deflections.Lines, line)
	}
	shorten := stages.Polyline{Name: "shortened before the joints are closed"}
	for i, a := range adjustments {
		shorten.Points = append(shorten.Points, [2]float64{s.Hangers.List[i].X, a.Shorten})
	}
	return []stages.Figure{deflections, {Title: "adjustment of the hangers", XUnit: "m", YUnit: "m", Exaggerated: true, Tabulated: true, Lines: []stages.Polyline{shorten}}}
}

// millimetres are a length in words of a table, mm.
func millimetres(v float64) string { return fmt.Sprintf("%.1f", 1e3*v) }
