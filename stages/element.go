package stages

import (
	"errors"
	"fmt"
	"math"
	"regexp"

	"gonum.org/v1/gonum/unit/constant"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
)

// ErrStage is wrapped by every error about an element, a stage or a plan that
// cannot be carried out as described.
var ErrStage = errors.New("stage")

// usualUnitWeight is that of reinforced concrete of normal weight, EN
// 1991-1-1:2002 Table A.1 (from memory): 24 + 1 kN/m³.
const usualUnitWeight = 25e3

// lightest and heaviest reinforced concrete that is cast: lightweight of 15
// kN/m³, heavy (barytes, magnetite) of 40 kN/m³; common practice, no source. The
// same concretes in kN/m³ or kg/m³ are all outside.
const (
	lightest = 15e3
	heaviest = 40e3
)

// otherUnit asks about a unit weight that was given in kN/m³ or kg/m³.
func otherUnit(unitWeight float64) string {
	if unitWeight > 0 && unitWeight < lightest {
		return "; is it in kN/m³ or kg/m³?"
	}
	return ""
}

// Element is a precast piece. It is not changed by a run.
type Element struct {
	Mark            string             // its name on the drawings
	Length          float64            // m
	Section         section.Along      // outline along x
	Concrete        concrete.Model     // strength and stiffness at an age
	LongTerm        concrete.TimeModel // creep and shrinkage of the same concrete, with its Exposure; nil leaves creep, shrinkage and relaxation out
	Cast            float64            // day of the project on which it was cast, d
	UnitWeight      float64            // of the reinforced concrete, 15e3 to 40e3 N/m³; 0 means 25e3 (EN 1991-1-1 Table A.1)
	WeightTolerance *loads.Tolerance   // how far the true weight may lie off; must be stated, PlusMinus(0) for none
	Extra           []ExtraWeight      // diaphragms, anchor blocks, blisters
	Tendons         []tendon.Tendon    // all tendons, whenever stressed: their ducts are holes from the start
	Bars            []BondedBars       // continuous bonded bars that may carry tension
}

// ExtraWeight is weight beyond the outline: a diaphragm, an anchor block.
type ExtraWeight struct {
	Mark     string  // what it is
	From, To float64 // m, over which it is spread evenly; equal for a point
	Weight   float64 // N, positive downwards
	Y        float64 // of its centre, m
}

// BondedBars are bonded reinforcing bars along a stretch, counted at one place
// of the section.
type BondedBars struct {
	From, To float64       // m, over which they are fully anchored
	At       section.Point // their centre, m
	Area     float64       // of all of them, m²
}

var symbolic = regexp.MustCompile(`^[\pL][\pL\pN_]*$`)

// check reports the first field that is not allowed.
func (e Element) check() error {
	switch {
	case e.Mark == "":
		return fmt.Errorf("%w: Element.Mark is empty: allowed a name", ErrStage)
	case !(e.Length > 0 && e.Length <= 1000):
		return fmt.Errorf("%w: Element.Length = %g m: allowed above 0, at most 1000 m", ErrStage, e.Length)
	case e.Section == nil:
		return fmt.Errorf("%w: Element.Section is missing: allowed a Shape or another section along x", ErrStage)
	case e.Concrete == nil:
		return fmt.Errorf("%w: Element.Concrete is missing: allowed a model of package concrete", ErrStage)
	case math.IsNaN(e.Cast) || math.IsInf(e.Cast, 0):
		return fmt.Errorf("%w: Element.Cast = %g d: allowed a finite day", ErrStage, e.Cast)
	case e.UnitWeight != 0 && !(e.UnitWeight >= lightest && e.UnitWeight <= heaviest):
		return fmt.Errorf("%w: Element.UnitWeight = %g N/m³: must be 15e3 to 40e3 N/m³ (0 for 25e3)%s", ErrStage, e.UnitWeight, otherUnit(e.UnitWeight))
	case e.WeightTolerance == nil:
		return fmt.Errorf("%w: Element.WeightTolerance is not stated: allowed PlusMinus(fraction), PlusMinus(0) for none", ErrStage)
	}
	for _, line := range e.Concrete.Inputs() {
		if !finite(line.Result.Value) {
			return fmt.Errorf("%w: Element.Concrete: %s (%s) = %g: allowed finite", ErrStage, line.Result.Symbol, line.Result.Name, line.Result.Value)
		}
	}
	if _, _, err := e.WeightTolerance.Range(); err != nil {
		return fmt.Errorf("%w: Element.WeightTolerance: %w", ErrStage, err)
	}
	for _, x := range append([]float64{0, e.Length}, e.Section.Breaks()...) {
		if e.Section.At(x).Empty() {
			return fmt.Errorf("%w: Element.Section has no outline at x = %g m: allowed a Shape made by its constructor", ErrStage, x)
		}
	}
	if err := e.checkExtras(); err != nil {
		return err
	}
	return e.checkTendons()
}

func (e Element) checkExtras() error {
	for i, w := range e.Extra {
		if !(w.From >= 0 && w.To >= w.From && w.To <= e.Length) {
			return fmt.Errorf("%w: Element.Extra[%d] %s from x = %g to %g m: allowed 0 ≤ From ≤ To ≤ %g m", ErrStage, i, w.Mark, w.From, w.To, e.Length)
		}
		if !(w.Weight > 0) || math.IsInf(w.Weight, 0) || !(math.Abs(w.Y) <= 1000) {
			return fmt.Errorf("%w: Element.Extra[%d] %s: Weight = %g N at Y = %g m: allowed a finite, positive weight within ±1000 m", ErrStage, i, w.Mark, w.Weight, w.Y)
		}
	}
	for i, b := range e.Bars {
		if !(b.From >= 0 && b.To > b.From && b.To <= e.Length) {
			return fmt.Errorf("%w: Element.Bars[%d] from x = %g to %g m: allowed 0 ≤ From < To ≤ %g m", ErrStage, i, b.From, b.To, e.Length)
		}
		if !(b.Area > 0 && b.Area <= 1) {
			return fmt.Errorf("%w: Element.Bars[%d]: Area = %g m²: allowed above 0, at most 1 m²", ErrStage, i, b.Area)
		}
		if c := e.Section.At((b.From + b.To) / 2).Clearance(b.At); !(c > 0) {
			return fmt.Errorf("%w: Element.Bars[%d] at y = %g m, z = %g m lies %.3g m outside the concrete: allowed inside", ErrStage, i, b.At.Y, b.At.Z, -c)
		}
	}
	return nil
}

// checkTendons checks each tendon, that its duct lies in the concrete and that it
// does not run into another, at the places of its path.
func (e Element) checkTendons() error {
	marks := map[string]bool{}
	paths := make([]*tendon.Path, 0, len(e.Tendons))
	for _, t := range e.Tendons {
		path, err := t.Path()
		if err != nil {
			return fmt.Errorf("%w: %w", ErrStage, err)
		}
		if marks[t.Mark] {
			return fmt.Errorf("%w: tendon %s stands twice in Element.Tendons: allowed marks that differ", ErrStage, t.Mark)
		}
		if !symbolic.MatchString(t.Mark) {
			return fmt.Errorf("%w: tendon mark %q: allowed a letter, then letters, digits and underscores", ErrStage, t.Mark)
		}
		marks[t.Mark] = true
		if path.From() < 0 || path.To() > e.Length {
			return fmt.Errorf("%w: tendon %s runs from x = %g to %g m: allowed 0 to %g m", ErrStage, t.Mark, path.From(), path.To(), e.Length)
		}
		if err := e.checkDuct(t, path); err != nil {
			return err
		}
		for i, other := range paths {
			if err := e.checkApart(t, e.Tendons[i], path, other); err != nil {
				return err
			}
		}
		paths = append(paths, path)
	}
	return nil
}

// places are where a path is looked at: 24 places of each of its pieces, and
// both sides of each step of the section.
func (e Element) places(path *tendon.Path) []float64 {
	const number = 24
	breaks := path.Breaks()
	var xs []float64
	for i := 1; i < len(breaks); i++ {
		for j := range number + 1 {
			xs = append(xs, breaks[i-1]+(breaks[i]-breaks[i-1])*float64(j)/number)
		}
	}
	for _, x := range e.Section.Breaks() {
		for _, side := range []float64{x - 1e-9*e.Length, x, x + 1e-9*e.Length} {
			if side >= path.From() && side <= path.To() {
				xs = append(xs, side)
			}
		}
	}
	return xs
}

func (e Element) checkDuct(t tendon.Tendon, path *tendon.Path) error {
	for _, x := range e.places(path) {
		p := path.At(x)
		if c := e.Section.At(x).Clearance(p); !(c >= t.Duct/2) {
			return fmt.Errorf("%w: tendon %s at x = %.3f m, y = %.3f m, z = %.3f m: its centre is %.3f m inside the edge of the concrete: allowed at least half its duct, %.3f m",
				ErrStage, t.Mark, x, p.Y, p.Z, c, t.Duct/2)
		}
	}
	return nil
}

// checkApart checks that the ducts of two tendons do not overlap.
func (e Element) checkApart(t, u tendon.Tendon, path, other *tendon.Path) error {
	for _, x := range e.places(path) {
		if x < other.From() || x > other.To() {
			continue
		}
		p, q := path.At(x), other.At(x)
		if d := math.Hypot(p.Y-q.Y, p.Z-q.Z); d < (t.Duct+u.Duct)/2-1e-9 {
			return fmt.Errorf("%w: tendons %s and %s at x = %.3f m are %.3f m apart: allowed at least half of both ducts, %.3f m", ErrStage, u.Mark, t.Mark, x, d, (t.Duct+u.Duct)/2)
		}
	}
	return nil
}

func (e Element) unitWeight() float64 {
	if e.UnitWeight == 0 {
		return usualUnitWeight
	}
	return e.UnitWeight
}

// part is one part of the weight, with the place of its resultant.
type part struct {
	mark     string
	from, to float64 // equal for a point
	line     loads.Line
	force    float64 // N
	couple   float64 // N·m, anticlockwise, of a part that is a couple
	x, y     float64 // of the resultant
	uniform  bool
}

// weight is the parts of the element's weight at factor 1.
func (e Element) weight() []part {
	var parts []part
	for _, a := range section.Areas(e.Section, e.Length) {
		line := loads.Line{From: a.From, To: a.To}
		uniform := true
		for i, c := range a.Coefficients {
			line.Intensity[i] = c * e.unitWeight()
			uniform = uniform && (i == 0 || math.Abs(c)*math.Pow(a.To-a.From, float64(i)) < 1e-12*a.Coefficients[0])
		}
		if uniform {
			line.Intensity = loads.Polynomial{line.Intensity[0]}
		}
		parts = append(parts, part{mark: "girder", from: a.From, to: a.To, line: line, force: line.Resultant(), x: line.Centre(), y: a.Body().Y, uniform: uniform})
	}
	for _, w := range e.Extra {
		p := part{mark: w.Mark, from: w.From, to: w.To, force: w.Weight, x: (w.From + w.To) / 2, y: w.Y, uniform: true}
		if w.To > w.From {
			p.line = loads.Uniform(w.From, w.To, w.Weight/(w.To-w.From))
		}
		parts = append(parts, p)
	}
	return parts
}

// Mass is how heavy an element is and where its mass centre lies.
type Mass struct {
	Weight float64 // at factor 1, extra weights included, N
	Mass   float64 // kg
	X, Y   float64 // of the mass centre, m; lift points belong over it
}

// MassCentre is the weight of the element and the place of its mass centre. The
// error is that of the element's checks; it wraps [ErrStage].
func (e Element) MassCentre() (Mass, error) {
	if err := e.check(); err != nil {
		return Mass{}, err
	}
	var m Mass
	for _, p := range e.weight() {
		m.Weight += p.force
		m.X += p.force * p.x
		m.Y += p.force * p.y
	}
	m.Mass = m.Weight / float64(constant.StandardGravity)
	m.X, m.Y = m.X/m.Weight, m.Y/m.Weight
	return m, nil
}

// loadSet is the parts as loads on a beam.
func loadSet(parts []part) loads.Set {
	var set loads.Set
	for _, p := range parts {
		if p.to > p.from {
			set.Lines = append(set.Lines, p.line)
		} else {
			set.Points = append(set.Points, loads.Point{At: p.x, Force: p.force})
		}
	}
	return set
}
