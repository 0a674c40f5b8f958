package answers

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// Strength is the least strength that must be shown before a stage, with the age at which
// the mix reaches it.
type Strength struct {
	Answer                    // of the characteristic cylinder strength, Pa
	Required     float64      // characteristic cylinder strength, Pa; 0 where no check needs one in the range
	Cube         float64      // the same on cubes, Pa; 0 above the classes of EN 1992-1-1
	MeanCylinder float64      // mean of 3 cylinders that shows it, Pa
	MeanCube     float64      // mean of 3 cubes that shows it, Pa; 0 above the classes
	Assumed      float64      // characteristic cylinder strength in the calculation, Pa
	At           float64      // age of the stage, d
	Least        float64      // age from which on the model of the mix has the strength, d; 0 where it does not reach it
	Elements     []string     // marks of the elements that show it
	Refused      error        // why Least is 0; nil where it is known
	Governs      stages.Check // check that fails below it
}

// leastShown is the least characteristic strength that is tried (Pa): EN 1992-1-1 has no
// class below 12 MPa.
const leastShown = 2e6

// strengthSteps are enough for a reserve that rises with the strength.
const strengthSteps = 8

// specimens is the number of specimens of which a mean is given, as on the sheets.
const specimens = 3

// LeastStrength is the least characteristic cylinder strength, shown by test at the first
// age of the stage, at which the stage passes; before that age strength and modulus keep the
// curve of the mix, and creep is that of the mix that shows the strength. It is shown by the elements of the marks, without marks by all. The error wraps [ErrAnswer]
// as that of [Solve]; where the stage passes with the least strength that is tried, 2 MPa,
// the Answer with it says so.
func LeastStrength(c stages.Case, marks ...string) (Strength, error) {
	first, err := firstSituation(c)
	if err != nil {
		return Strength{}, err
	}
	s, pieces, err := assumed(c, first, marks)
	if err != nil {
		return s, err
	}
	high := s.Assumed
	for _, p := range pieces {
		if at28, err := p.Element.Concrete.At(28); err == nil {
			high = math.Max(high, at28.Characteristic)
		}
	}
	s.Answer, err = Solve(c, Question{
		Asked: "characteristic cylinder strength before " + first.Name, Sense: Minimum, Low: leastShown, High: high, Steps: strengthSteps,
		Input: stages.Input{Symbol: "f_ck_t", Unit: formula.Pascal, Set: func(g *stages.Girder, _ *stages.Plan, strength float64) error {
			return show(g, s.Elements, first, strength)
		}},
	})
	if err != nil {
		return s, err
	}
	s.Required = s.Value
	s.Governs = s.Intervals[len(s.Intervals)-1].From.Governing()
	s.asTested()
	s.Least, s.Refused = LeastAge(pieces[0].Element.Concrete, s.Required)
	for _, p := range pieces[1:] {
		age, err := LeastAge(p.Element.Concrete, s.Required)
		if s.Least, s.Refused = math.Max(s.Least, age), errors.Join(s.Refused, err); s.Refused != nil {
			s.Least = 0
		}
	}
	s.Notes = append(s.Notes, s.inWords())
	return s, nil
}

// assumed is the strength in the calculation of the elements of marks, the least of them,
// and these elements.
func assumed(c stages.Case, first stages.Situation, marks []string) (Strength, []stages.Piece, error) {
	var s Strength
	var pieces []stages.Piece
	for _, p := range c.Subject.Girder().Pieces {
		if len(marks) > 0 && !slices.Contains(marks, p.Element.Mark) {
			continue
		}
		age := ageOf(p, first)
		if age <= 0 { // cast later
			continue
		}
		at, err := p.Element.Concrete.At(age)
		if err != nil {
			return s, nil, fmt.Errorf("%w: element %s: %w", ErrAnswer, p.Element.Mark, err)
		}
		if len(pieces) == 0 || at.Characteristic < s.Assumed {
			s.Assumed = at.Characteristic
		}
		if len(pieces) == 0 {
			s.At = age
		}
		pieces, s.Elements = append(pieces, p), append(s.Elements, p.Element.Mark)
	}
	for _, m := range marks {
		if !slices.Contains(s.Elements, m) {
			return s, nil, fmt.Errorf("%w: no element %q is there at stage %d: must be the mark of one that is cast", ErrAnswer, m, c.Stage)
		}
	}
	if len(pieces) == 0 {
		return s, nil, fmt.Errorf("%w: stage %d has no element: must be at least one", ErrAnswer, c.Stage)
	}
	return s, pieces, nil
}

// show puts a test of the elements at the beginning of a situation.
func show(g *stages.Girder, marks []string, first stages.Situation, strength float64) error {
	for i := range g.Pieces {
		e := &g.Pieces[i].Element
		if !slices.Contains(marks, e.Mark) {
			continue
		}
		age := ageOf(g.Pieces[i], first)
		e.Concrete = e.Concrete.Shown(age, strength)
		if concrete.Missing(e.LongTerm) {
			continue
		}
		slow, ok := e.LongTerm.Shown(age, strength).(concrete.TimeModel)
		if !ok {
			return fmt.Errorf("%w: element %s: Element.LongTerm shows a strength as a model without creep: must be one with creep", ErrAnswer, e.Mark)
		}
		e.LongTerm = slow
	}
	return nil
}

// ageOf is the age of a piece when a situation begins (d).
func ageOf(p stages.Piece, first stages.Situation) float64 {
	if first.Day != 0 {
		return first.Day - p.Element.Cast
	}
	return first.Age
}

// asTested fills the strength as a yard tests it.
func (s *Strength) asTested() {
	s.MeanCylinder = concrete.MeanFor(s.Required, specimens)
	if cube, err := concrete.CubeFor(s.Required); err == nil {
		s.Cube = cube
	}
	if cube, err := concrete.CubeFor(s.MeanCylinder); err == nil {
		s.MeanCube = cube
	}
}

// inWords is the strength as tested and the age.
func (s Strength) inWords() string {
	mpa := func(v float64) string {
		if v == 0 {
			return "above the classes"
		}
		return s.words(v, up)
	}
	age := fmt.Sprintf("the mix reaches it at %.4g d by its model", math.Ceil(s.Least*100)/100)
	if s.Refused != nil {
		age = "the mix does not reach it by its model"
	}
	return fmt.Sprintf("characteristic cube %s; mean of 3 cylinders %s, mean of 3 cubes %s; assumed %s characteristic cylinder at %g d; %s",
		mpa(s.Cube), mpa(s.MeanCylinder), mpa(s.MeanCube), s.words(s.Assumed, down), s.At, age)
}

// The ages that are tried (d): a yard lifts after half a day at the earliest, and no model
// gains much after a year.
const (
	youngest = 0.25
	oldest   = 365.0
	ages     = 400
)

// LeastAge is the age (d) from which on the model of a mix has a characteristic cylinder
// strength (Pa), between 0.25 and 365 d; an age at which the model has no strength is too
// young. The error wraps [ErrAnswer] where the strength is not reached, or is no strength.
func LeastAge(mix concrete.Model, strength float64) (float64, error) {
	if concrete.Missing(mix) {
		return 0, fmt.Errorf("%w: the mix is missing: must be a model of package concrete", ErrAnswer)
	}
	if !(strength > 0 && strength <= largest) {
		return 0, fmt.Errorf("%w: strength %g Pa: must be above 0, finite", ErrAnswer, strength)
	}
	has := func(age float64) bool {
		at, err := mix.At(age)
		return err == nil && at.Characteristic >= strength
	}
	if !has(oldest) {
		at, err := mix.At(oldest)
		if err != nil {
			return 0, fmt.Errorf("%w: %w", ErrAnswer, err)
		}
		return 0, fmt.Errorf("%w: strength %.3g MPa: the mix has %.3g MPa at %g d: must be at most that", ErrAnswer, strength/1e6, at.Characteristic/1e6, oldest)
	}
	high := oldest
	for i := range ages { // from the oldest on: a test may show less than the formula before it
		low := oldest * math.Pow(youngest/oldest, float64(i+1)/ages)
		if has(low) {
			high = low
			continue
		}
		for high-low > 1e-9*high {
			if middle := (low + high) / 2; has(middle) {
				high = middle
			} else {
				low = middle
			}
		}
		return high, nil
	}
	return youngest, nil
}
