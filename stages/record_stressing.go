package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/limits"
)

// Stressing is one jacking of one tendon, as it is done and read on site by
// tendon.Jacking.Reading.
type Stressing struct {
	Mark    string  `json:"mark"`               // of the tendon
	Step    int     `json:"step"`               // in this situation, from 1: tendons of one step are stressed together
	How     string  `json:"how"`                // stress, re-stress or let down
	Ends    string  `json:"ends"`               // where the jacks are
	Stress  float64 `json:"stress"`             // in the strand at the jack before lock-off, Pa
	Force   float64 `json:"f"`                  // in the tendon at the jack before lock-off, N
	Gauge   float64 `json:"gauge"`              // force at the gauge, friction of jack and anchor included, N
	Limit   float64 `json:"limit,omitempty"`    // greatest jacking stress that the standard permits, Pa; 0: it gives none
	Datum   float64 `json:"datum,omitempty"`    // force at the gauge from which the extension is read, N; 0: from no force
	Tail    float64 `json:"tail,omitempty"`     // length of strand in the jack, m
	DrawIn  float64 `json:"draw,omitempty"`     // at each jacked end at lock-off, m
	Area    float64 `json:"a"`                  // of the steel, m²
	Modulus float64 `json:"e"`                  // of the steel, Pa
	Given   string  `json:"given,omitempty"`    // the document that states the force after lock-off; none: computed
	Reach   Ends    `json:"reach,omitzero"`     // of the draw-in from each end, along x, m
	After   Ends    `json:"after,omitzero"`     // force at each anchor after lock-off, N
	Extends Ends    `json:"extension,omitzero"` // from the datum to full, at each jacked end, m; zero where it is not computed

	Seating   string `json:"seating,omitempty"`   // of the wedges, a tendon.Seating in words; "": not stated
	LockOff   string `json:"lockOff,omitempty"`   // a tendon.LockOff in words; "": not stated
	GaugeUnit string `json:"gaugeUnit,omitempty"` // a tendon.GaugeUnit in words; "": not stated

	Kept      float64 `json:"kept,omitempty"` // of the extension after lock-off, both ends together, tails left out, m
	Tolerance float64 `json:"tol,omitempty"`  // permissible difference of the extension, a fraction; 0: by the specification
}

// Ends is a value for each end of a tendon.
type Ends struct {
	Left  float64 `json:"l,omitempty"`
	Right float64 `json:"r,omitempty"`
}

// stressings are the jackings of a situation, in order.
func (r *run) stressings(s *situation) ([]Stressing, error) {
	var list []Stressing
	number := 0
	for _, step := range r.steps[s.from:s.steps] {
		before := len(list)
		for _, p := range step.pulls {
			if r.pretensioned(p.tendon) {
				continue
			}
			one, err := r.stressing(p)
			if err != nil {
				return nil, err
			}
			if one.Limit, err = r.jackingLimit(s, p.tendon); err != nil {
				return nil, err
			}
			one.Step = number + 1
			list = append(list, one)
		}
		if len(list) > before {
			number++
		}
	}
	return list, nil
}

// jackingLimit is the greatest jacking stress that the standard permits (Pa), the least of
// its answers; 0 where it gives none.
func (r *run) jackingLimit(s *situation, i int) (float64, error) {
	q := r.question(s, limits.JackStress, r.anchorPiece(s, i))
	q.Tendon = &r.tendons[i]
	answers, _, err := r.ask(q)
	if err != nil || len(answers) == 0 {
		return 0, err
	}
	least := math.Inf(1)
	for _, limit := range answers {
		least = math.Min(least, limit.Line.Result.Value)
	}
	return least, nil
}

func (r *run) stressing(p pull) (Stressing, error) {
	t, f := r.tendons[p.tendon], p.force
	j, area := f.Jacking, t.Area()
	of := Stressing{
		Mark: t.Mark, How: string(p.how), Ends: j.Ends.String(), Stress: j.Stress, Force: j.Stress * area, Gauge: j.Stress * area / (1 - j.Reading.JackFriction),
		Datum: j.Reading.From * area / (1 - j.Reading.JackFriction), Tail: j.Reading.Tail, DrawIn: j.DrawIn, Area: area, Modulus: t.Strand.Modulus, Tolerance: j.Reading.Tolerance,
		After: Ends{f.At(f.Path.From()), f.At(f.Path.To())},
	}
	of.Seating, of.LockOff, of.GaugeUnit = word(j.Seating), word(j.LockOff), word(j.Reading.GaugeUnit)
	of.Reach.Left, of.Reach.Right = f.DrawInReach()
	if j.Given != nil {
		of.Given = j.Given.Source.String()
		return of, nil
	}
	if p.how == letDown {
		return of, nil
	}
	reading := j.Reading
	if reading.Tolerance == 0 {
		reading.Tolerance = tendon.ToleranceOfTendon // of a band that is not recorded
	}
	e, err := f.Elongation(reading)
	if err != nil {
		return of, err
	}
	of.Extends, of.Kept = Ends{e.Left, e.Right}, e.Kept
	return of, nil
}

// word is a word that a jacking states; "" for none.
func word[T interface {
	~int
	fmt.Stringer
}](w T) string {
	if w == 0 {
		return ""
	}
	return w.String()
}

// validWords reports words that no jacking states.
func (p Stressing) validWords() error {
	for _, of := range []struct {
		name, word string
		known      []string
	}{
		{"seating", p.Seating, []string{"", tendon.PowerSeated.String(), tendon.DrawnIn.String()}},
		{"lock-off", p.LockOff, []string{"", tendon.AllAtOnce.String(), tendon.LeftFirst.String(), tendon.RightFirst.String()}},
		{"unit of the gauge", p.GaugeUnit, []string{"", tendon.GaugeBar.String(), tendon.GaugeMPa.String(), tendon.GaugePSI.String()}},
	} {
		if !slices.Contains(of.known, of.word) {
			return fmt.Errorf("%s %q: must be one of %q", of.name, of.word, of.known)
		}
	}
	return nil
}

// valid reports numbers and words that no jacking has.
func (p Stressing) valid() error {
	if err := p.validWords(); err != nil {
		return err
	}
	switch {
	case !(p.Stress > 0 && p.Area > 0 && p.Modulus > 0 && p.Force > 0 && p.Gauge >= p.Force*(1-agree)):
		return fmt.Errorf("stress %g Pa, force %g N, at the gauge %g N: must be above 0, the gauge at least the force", p.Stress, p.Force, p.Gauge)
	case !(p.Datum >= 0 && p.Datum < p.Gauge && p.DrawIn >= 0 && p.Tail >= 0 && p.Tolerance >= 0 && p.Tolerance <= 0.5):
		return fmt.Errorf("datum %g N, draw-in %g m, tail %g m, tolerance %g: must be 0 or more, the datum below the gauge, the tolerance at most 0.5", p.Datum, p.DrawIn, p.Tail, p.Tolerance)
	case p.Step < 1 || !(p.Limit >= 0):
		return fmt.Errorf("step %d, limit of the jacking stress %g Pa: must be 1 or more, and 0 or more", p.Step, p.Limit)
	case !(p.Extends.Left >= 0 && p.Extends.Right >= 0 && p.Reach.Left >= 0 && p.Reach.Right >= 0):
		return fmt.Errorf("extensions %g and %g m, reaches %g and %g m: must be 0 or more", p.Extends.Left, p.Extends.Right, p.Reach.Left, p.Reach.Right)
	}
	return nil
}
