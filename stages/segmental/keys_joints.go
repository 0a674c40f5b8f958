package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// The engine checks the walls at a joint as those of one piece of concrete, by web shear and
// principal tension. That keys and friction carry the shear of a match-cast joint is checked here,
// by the rule of its wet epoxy, at every joint that acts: the governing one of a move.

// cures is after how many days epoxy counts as cured where it is not stated (common practice).
const cures = 2.0

// friction is the coefficient of friction of a joint, wet or not.
func (k Keys) friction(wet bool) float64 {
	if wet || k.Cured == 0 {
		return k.Friction
	}
	return k.Cured
}

// wet is true while the epoxy of the joint left of segment i has not cured.
func (s *state) wet(i int, k Keys) bool {
	days := k.Days
	if days == 0 {
		days = cures
	}
	return s.deck.joint(i) == stages.Epoxied && s.day-s.closed[i] < days
}

// sheared is a joint with its shear and what acts against it.
type sheared struct {
	name          string
	x             float64
	shear, normal float64 // largest and smallest, N
	keys          *Keys
	wet           bool
}

// capacity is what friction and keys carry (N).
func (j sheared) capacity() float64 {
	return j.keys.friction(j.wet)*math.Max(0, j.normal) + float64(j.keys.Number)*j.keys.Force
}

// use is the shear over the capacity.
func (j sheared) use() float64 {
	if j.shear <= 0 {
		return 0
	}
	return j.shear / j.capacity()
}

// jointShear is the check of the joint whose shear is nearest to what keys and friction carry, and
// the question about the largest shear of a joint whose keys are not stated. The joint that a move
// closes has its own.
func (s *state) jointShear(m Move, _ stages.Girder, e stages.Effects, standard limits.Standard) (list []stages.OwnCheck, err error) {
	var worst, open *sheared
	for i, joined := range s.joined {
		if kind := s.deck.joint(i); !joined || kind != stages.Epoxied && kind != stages.Dry || s.closes(m, i) {
			continue
		}
		j, err := s.shearedAt(i, e, standard)
		if err != nil {
			return nil, err
		}
		switch {
		case j.keys == nil && (open == nil || j.shear > open.shear):
			open = &j
		case j.keys != nil && (worst == nil || j.use() > worst.use()):
			worst = &j
		}
	}
	if worst != nil {
		check, err := worst.check()
		if err != nil {
			return nil, err
		}
		list = append(list, check)
	}
	if open != nil {
		list = append(list, stages.OwnCheck{Check: stages.Check{Kind: limits.LocalForce, Name: "shear of match-cast joints", State: stages.NotEvaluated, Sense: limits.AtMost, X: open.x, Place: "joint " + open.name,
			Note: fmt.Sprintf("shear keys are not stated: required for %.0f kN at joint %s with a compression of %.0f kN, with the factors for strength", math.Ceil(open.shear/1e3), open.name, math.Floor(open.normal/1e3))}})
	}
	return list, nil
}

// closes is true for the joint left of segment i where a move closes it.
func (s *state) closes(m Move, i int) bool {
	if m.Do != Attach {
		return false
	}
	k, err := s.one(m)
	return err == nil && max(k, s.inner(k)) == i
}

// shearedAt is the joint left of segment i.
func (s *state) shearedAt(i int, e stages.Effects, standard limits.Standard) (j sheared, err error) {
	j = sheared{name: s.deck.jointName(i), x: s.at[i], keys: s.deck.Keys}
	if own := s.deck.Segments[i].Keys; own != nil {
		j.keys = own
	}
	if j.keys != nil {
		j.wet = s.wet(i, *j.keys)
	}
	factors, err := s.strengthFactors(i, standard)
	if err != nil {
		return j, err
	}
	j.shear, j.normal, err = shearAndCompression(e, j.x, factors)
	return j, err
}

func (j sheared) check() (stages.OwnCheck, error) {
	c := &formula.Chain{}
	source := formula.Source{Document: j.keys.Document}
	friction := "design friction of the joint"
	if j.wet {
		friction = "design friction of the wet epoxy"
	}
	demand := c.Given(formula.Q("V_Ed", j.shear, formula.Newton, "maximum shear of the joint, with the factors for strength"), formula.Mechanics, "")
	limit := c.Derive(formula.Q("V_Rd", 0, formula.Newton, "design shear of friction and keys"), "μ_d*max(0, N_Ed) + n_key*V_1", source,
		formula.Q("μ_d", j.keys.friction(j.wet), formula.One, friction), formula.Q("N_Ed", j.normal, formula.Newton, "minimum compression of the joint, with these factors"),
		formula.Q("n_key", float64(j.keys.Number), formula.One, "keys"), formula.Q("V_1", j.keys.Force, formula.Newton, "design shear of one key"))
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: "friction and keys of joint " + j.name, LimitState: limits.Ultimate, Sense: limits.AtMost, Source: source, Line: formula.Given(limit, source)}, demand)
	check.X, check.Place, check.Note = j.x, "joint "+j.name, "bounded: maximum shear with minimum compression"
	return check.Derived(lines...), nil
}
