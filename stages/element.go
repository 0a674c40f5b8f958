package stages

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit/constant"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
)

// ErrStage is wrapped by every error about an element, a stage or a plan that
// cannot be carried out as described.
var ErrStage = errors.New("stage")

// usualUnitWeight is the unit weight of reinforced concrete of normal weight, EN
// 1991-1-1:2002 Table A.1 (unconfirmed): 24 + 1 kN/m³.
const usualUnitWeight = 25e3

// lightest and heaviest reinforced concrete that is cast: lightweight of 15
// kN/m³, heavy (barytes, magnetite) of 40 kN/m³; common practice, no source. The
// same concretes in kN/m³ or kg/m³ are all outside.
const (
	lightest = 15e3
	heaviest = 40e3
)

// largest is a bound on every number of an input: no SI value of a structure reaches it.
const largest = 1e15

// otherUnit asks about a unit weight that was given in kN/m³ or kg/m³.
func otherUnit(unitWeight float64) string {
	if unitWeight > 0 && unitWeight < lightest {
		return "; is it in kN/m³ or kg/m³?"
	}
	return ""
}

// Element is a precast element. A run does not change it.
type Element struct {
	Mark            string              // its name on the drawings; must not be empty
	Length          float64             // m, above 0, at most 1000
	Section         section.Along       // outline along x, 0 to Length
	Concrete        concrete.Model      // strength and stiffness at an age
	LongTerm        concrete.TimeModel  // creep and shrinkage of the same concrete, with its Exposure; nil leaves creep, shrinkage and relaxation out
	Cast            float64             // day of the project on which it was cast, d; any finite day
	UnitWeight      float64             // of the reinforced concrete, 15e3 to 40e3 N/m³; 0 means 25e3 (EN 1991-1-1 Table A.1)
	WeightTolerance *loads.Tolerance    // range of the true weight; must be stated, loads.PlusMinus(0) for none
	Extra           []ExtraWeight       // diaphragms, anchor blocks, blisters; at most 10,000 in a girder
	Tendons         []tendon.Tendon     // all tendons, whenever stressed: their ducts are holes from the beginning; with layers at most 400 in a girder
	Pretension      []tendon.Pretension // layers of strands stressed on the bed before casting: see [PretensionRelease]
	Bars            []BondedBars        // continuous bonded bars that may carry tension
}

// ExtraWeight is weight beyond the outline: a diaphragm, an anchor block.
type ExtraWeight struct {
	Mark     string  // its name
	From, To float64 // m, over which it is spread evenly, 0 ≤ From ≤ To ≤ Length; equal for a point
	Weight   float64 // N, downwards, above 0
	Y, Z     float64 // of its centre, m, within ±1000
}

// check reports the first field that is not as it must be.
func (e Element) check() error {
	switch {
	case e.Mark == "":
		return fmt.Errorf("%w: Element.Mark is empty: must be a name", ErrStage)
	case !(e.Length > 0 && e.Length <= 1000):
		return fmt.Errorf("%w: Element.Length = %g m: must be above 0, at most 1000 m", ErrStage, e.Length)
	case e.Section == nil:
		return fmt.Errorf("%w: Element.Section is missing: must be a Shape or another section along x", ErrStage)
	case concrete.Missing(e.Concrete):
		return fmt.Errorf("%w: Element.Concrete is missing: must be a model of package concrete", ErrStage)
	case math.IsNaN(e.Cast) || math.IsInf(e.Cast, 0):
		return fmt.Errorf("%w: Element.Cast = %g d: must be a finite day", ErrStage, e.Cast)
	case e.UnitWeight != 0 && !(e.UnitWeight >= lightest && e.UnitWeight <= heaviest):
		return fmt.Errorf("%w: Element.UnitWeight = %g N/m³: must be 15e3 to 40e3 N/m³ (0 for 25e3)%s", ErrStage, e.UnitWeight, otherUnit(e.UnitWeight))
	case e.WeightTolerance == nil:
		return fmt.Errorf("%w: Element.WeightTolerance is not stated: must be PlusMinus(fraction), PlusMinus(0) for none", ErrStage)
	}
	for _, line := range e.Concrete.Inputs() {
		if !(math.Abs(line.Result.Value) <= largest) {
			return fmt.Errorf("%w: Element.Concrete: %s (%s) = %g: must be finite, within ±%g in SI", ErrStage, line.Result.Symbol, line.Result.Name, line.Result.Value, largest)
		}
	}
	if err := e.checkLongTerm(); err != nil {
		return err
	}
	if _, _, err := e.WeightTolerance.Range(); err != nil {
		return fmt.Errorf("%w: Element.WeightTolerance: %w", ErrStage, err)
	}
	for _, x := range append([]float64{0, e.Length}, e.Section.Breaks()...) {
		if e.Section.At(x).Empty() {
			return fmt.Errorf("%w: Element.Section has no outline at x = %g m: must be a Shape made by its constructor", ErrStage, x)
		}
	}
	return e.checkExtras()
}

func (e Element) checkExtras() error {
	for i, w := range e.Extra {
		if !(w.From >= 0 && w.To >= w.From && w.To <= e.Length) {
			return fmt.Errorf("%w: Element.Extra[%d] %s from x = %g to %g m: must be 0 ≤ From ≤ To ≤ %g m", ErrStage, i, w.Mark, w.From, w.To, e.Length)
		}
		if !(w.Weight > 0) || math.IsInf(w.Weight, 0) || !(math.Abs(w.Y) <= 1000) || !(math.Abs(w.Z) <= 1000) {
			return fmt.Errorf("%w: Element.Extra[%d] %s: Weight = %g N at Y = %g m, Z = %g m: must be a finite, positive weight within ±1000 m", ErrStage, i, w.Mark, w.Weight, w.Y, w.Z)
		}
	}
	return e.checkBars()
}

func (e Element) unitWeight() float64 {
	if e.UnitWeight == 0 {
		return usualUnitWeight
	}
	return e.UnitWeight
}

// Mass is weight and mass of an element with its centre of gravity.
type Mass struct {
	Weight float64 `json:"w"` // nominal, extra weights included, N
	Mass   float64 `json:"m"` // kg
	X      float64 `json:"x"` // of the centre of gravity (CoG), m; lift points belong over it
	Y      float64 `json:"y"` // of the centre of gravity, m
	Z      float64 `json:"z"` // of the centre of gravity, m
}

// CentreOfGravity is the weight of the element and the place of its centre of
// gravity. The error is that of the element's checks; it wraps [ErrStage].
func (e Element) CentreOfGravity() (Mass, error) {
	if err := e.check(); err != nil {
		return Mass{}, err
	}
	return massOf(e.weight()), nil
}

// CentreOfGravity is the weight of all pieces that are there from the beginning
// and the place of their centre of gravity. The error wraps [ErrStage].
func (g Girder) CentreOfGravity() (Mass, error) {
	var parts []part
	for _, p := range g.Pieces {
		if err := p.Element.check(); err != nil {
			return Mass{}, err
		}
		for _, w := range p.Element.weight() {
			if !p.Later {
				w.x += p.At
				parts = append(parts, w)
			}
		}
	}
	return massOf(parts), nil
}

func massOf(parts []part) Mass {
	var m Mass
	for _, p := range parts {
		m.Weight += p.force
		m.X += p.force * p.x
		m.Y += p.force * p.y
		m.Z += p.force * p.z
	}
	m.Mass = m.Weight / float64(constant.StandardGravity)
	m.X, m.Y, m.Z = m.X/m.Weight, m.Y/m.Weight, m.Z/m.Weight
	return m
}
