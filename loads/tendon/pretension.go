package tendon

import (
	"fmt"
	"math"
	"sort"

	"github.com/tempstage/tempstage/section/formula"
)

// Pretension is the pretensioned strands of one layer: stressed on the bed before
// casting, bonded all along but where they are sleeved, without ducts or anchors.
// [Pretension.Released] is their force on the element.
type Pretension struct {
	Mark      string      // its name on the drawing
	Strand    Strand      // the steel
	Groups    []Debonding // strands by debonded length; fully bonded ones have 0
	Elevation Curve       // z along x, from end to end of the element
	Plan      Curve       // y along x, of the middle of the layer
	Harped    bool        // kinks at hold-downs are intended
}

// Debonding is a number of pretensioned strands sleeved over the same length at
// each end.
type Debonding struct {
	Strands     int     // how many
	Left, Right float64 // sleeved length from each end of the element, m, 0 or more, together less than its length
}

// bond is how a layer that has been released is gripped.
type bond struct {
	layer   Pretension
	stress  float64 // in fully anchored steel, Pa
	lengths TransmissionLength
}

// Check reports the first field that is out of range; the error wraps [ErrTendon].
func (p Pretension) Check() error {
	name := "pretension " + p.Mark
	if p.Mark == "" {
		return fmt.Errorf("%w: Pretension.Mark is empty: must be a name, unique in the element", ErrTendon)
	}
	t := p.Tendon()
	if err := within(name+": ", t.Strand.bounds()...); err != nil {
		return err
	}
	if err := t.checkRun(name); err != nil {
		return err
	}
	if len(p.Groups) == 0 {
		return fmt.Errorf("%w: %s: Groups is empty: must have at least one", ErrTendon, name)
	}
	length := p.Elevation.To() - p.Elevation.From()
	for i, g := range p.Groups {
		if g.Strands < 1 || g.Strands > 1000 {
			return fmt.Errorf("%w: %s: Groups[%d].Strands = %d: must be 1 to 1000", ErrTendon, name, i, g.Strands)
		}
		if !(g.Left >= 0 && g.Right >= 0 && g.Left+g.Right < length) {
			return fmt.Errorf("%w: %s: Groups[%d] sleeved %g m and %g m: must be 0 or more, together below the length %g m", ErrTendon, name, i, g.Left, g.Right, length)
		}
	}
	return nil
}

// Tendon is all strands of the layer as one, without duct and anchors.
func (p Pretension) Tendon() Tendon {
	t := Tendon{Mark: p.Mark, Strand: p.Strand, Elevation: p.Elevation, Plan: p.Plan, Harped: p.Harped}
	for _, g := range p.Groups {
		t.Strands += g.Strands
	}
	return t
}

// Path is the line of the middle of the layer. The error is that of [Pretension.Check].
func (p Pretension) Path() (*Path, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	return p.Tendon().path(), nil
}

// Gripped is the area of the strands that the concrete grips at x, grown linearly
// over the basic transmission length (m²); 0 for a [Force] that is not of a
// pretensioned layer.
func (f *Force) Gripped(x float64) float64 {
	if !f.made() || f.bond == nil {
		return 0
	}
	return f.At(x) / f.bond.stress
}

// Released is the force of the layer on the element for a stress in fully anchored
// steel (Pa): 0 within a sleeve, then linear over the transmission length, EN
// 1992-1-1:2004 8.10.2.2(1). [Force.At] has the basic length, [Force.Range] the forces
// by the long and by the short one, of which the worse counts (8.10.2.2(3)). On the
// transformed section state the stress just before release: the elastic loss then
// follows from the section; on the gross section the stress just after. The error wraps
// [ErrTendon].
func (p Pretension) Released(stress float64, lengths TransmissionLength) (*Force, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	err := within("pretension "+p.Mark+": ", bound{"stress", stress, "Pa", leastSteel, p.Strand.Fpk},
		bound{"TransmissionLength.Basic", lengths.Basic, "m", 0.01, 100},
		bound{"TransmissionLength.Short", lengths.Short, "m", 0.01, lengths.Basic}, bound{"TransmissionLength.Long", lengths.Long, "m", lengths.Basic, 100})
	if err != nil {
		return nil, err
	}
	b := &bond{p, stress, lengths}
	t := p.Tendon()
	return &Force{Tendon: t, Jacking: Jacking{Tendons: []string{p.Mark}, Stress: stress}, Path: t.path(), course: b.course(), bond: b}, nil
}

// course is the force at every place where a ramp begins, ends or meets another.
func (b *bond) course() course {
	from, to := b.layer.Elevation.From(), b.layer.Elevation.To()
	places := []float64{from, to}
	for _, g := range b.layer.Groups {
		start, end := from+g.Left, to-g.Right
		places = append(places, start, (start+end)/2, end)
		for _, l := range []float64{b.lengths.Short, b.lengths.Basic, b.lengths.Long} {
			if l < (end-start)/2 {
				places = append(places, start+l, end-l)
			}
		}
	}
	sort.Float64s(places)
	var c course
	for i, x := range places {
		if i == 0 || x > c[len(c)-1].x {
			c = append(c, ordinate{x, b.force(x, b.lengths.Long), b.force(x, b.lengths.Basic), b.force(x, b.lengths.Short)})
		}
	}
	return c
}

// force is the force at x with one transmission length (N).
func (b *bond) force(x, length float64) float64 {
	gripped := 0.0
	for _, g := range b.layer.Groups {
		gripped += float64(g.Strands) * math.Min(1, math.Max(0, b.bonded(g, x))/length)
	}
	return gripped * b.layer.Strand.Area * b.stress
}

// bonded is the distance of x from the nearer end of the bond (m), negative in a
// sleeve.
func (b *bond) bonded(g Debonding, x float64) float64 {
	return math.Min(x-b.layer.Elevation.From()-g.Left, b.layer.Elevation.To()-g.Right-x)
}

// line derives the force at x with the basic transmission length.
func (b *bond) line(x float64, suffix string) ([]formula.Line, error) {
	operands := []formula.Quantity{
		formula.Q("σ_p", b.stress, formula.Pascal, "stress in fully anchored steel"), formula.Q("A_1", b.layer.Strand.Area, formula.SquareMetre, "area of one strand"),
		formula.Q("l_pt", b.lengths.Basic, formula.Metre, "transmission length, basic value"),
	}
	expression := ""
	for i, g := range b.layer.Groups {
		expression += fmt.Sprintf(" + n_%[1]d*min(1, max(0, l_%[1]d)/l_pt)", i+1)
		operands = append(operands, formula.Q(fmt.Sprint("n_", i+1), float64(g.Strands), formula.One, fmt.Sprintf("strands sleeved over %g m and %g m", g.Left, g.Right)),
			formula.Q(fmt.Sprint("l_", i+1), b.bonded(g, x), formula.Metre, "their bonded length from x to the nearer end"))
	}
	line, err := formula.Derive(formula.Q("P"+suffix, 0, formula.Newton, "force at x after release, layer "+b.layer.Mark), "σ_p*A_1*("+expression[len(" + "):]+")",
		formula.Source{Document: "EN 1992-1-1:2004", Place: "8.10.2.2(1)", Confirm: true}, operands...)
	if err != nil {
		return nil, err
	}
	return []formula.Line{line}, nil
}

// HoldDown is the force (N, upwards on the device that holds harped strands
// down) at a bend between two slopes (m/m, rising positive, within ±2) under a force
// along the strands (N, tension, up to 1e12) that is the same on both sides; the result
// is in the unit of the force. The error wraps [ErrTendon].
func HoldDown(force, slopeBefore, slopeAfter float64) (float64, error) {
	err := within("",
		bound{"force", force, "N", 0, 1e12}, bound{"slopeBefore", slopeBefore, "m/m", -steepest, steepest}, bound{"slopeAfter", slopeAfter, "m/m", -steepest, steepest})
	if err != nil {
		return 0, err
	}
	return force * (math.Sin(math.Atan(slopeAfter)) - math.Sin(math.Atan(slopeBefore))), nil
}
