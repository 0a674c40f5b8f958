package segmental

import (
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Keys are what carries the shear of a match-cast joint: shear keys and friction, while its
// epoxy has not cured and afterwards. The epoxy itself counts for nothing.
type Keys struct {
	Number   int     // of keys in the webs of the face, 0 to 500
	Force    float64 // design shear that one carries, N, 0 to 5e6
	Friction float64 // design coefficient of friction of the wet epoxy, 0 to 1
	Cured    float64 // design coefficient of friction of the cured joint or of a dry one, 0 to 1; 0: Friction
	Days     float64 // until the epoxy has cured, d, 0 to 30; 0: 2 (common practice)
	Document string  // that gives them
}

// check reports the first field that is not as it must be.
func (k Keys) check(of string) error {
	return within(of, bound{"Number", float64(k.Number), "", 0, 500}, bound{"Force", k.Force, "N", 0, 5e6}, bound{"Friction", k.Friction, "", 0, 1}, bound{"Cured", k.Cured, "", 0, 1}, bound{"Days", k.Days, "d", 0, 30})
}

// keysOf are the keys of the joint of segment i towards its pier; nil: not stated.
func (s *state) keysOf(i int) *Keys {
	if k := s.deck.Segments[max(i, s.inner(i))].Keys; k != nil {
		return k
	}
	return s.deck.Keys
}

// wetShear is the check of the shear of the joint that a move has closed, with its wet
// epoxy: what friction does not carry goes to the keys, over all ranges of the actions.
func (s *state) wetShear(m Move, _ stages.Girder, e stages.Effects, standard limits.Standard) ([]stages.OwnCheck, error) {
	if m.Do != Attach {
		return nil, nil
	}
	i, err := s.one(m)
	if err != nil {
		return nil, err
	}
	x, name := s.at[max(i, s.inner(i))], "shear of joint "+s.jointOf(i)+", wet epoxy"
	keys := s.keysOf(i)
	if keys == nil {
		return []stages.OwnCheck{{Check: stages.Check{Kind: limits.LocalForce, Name: name, State: stages.NotEvaluated, Sense: limits.AtMost, X: x, Place: "joint " + s.jointOf(i), Note: "shear keys of the joint are not stated"}}}, nil
	}
	factors, err := s.strengthFactors(i, standard)
	if err != nil {
		return nil, err
	}
	shear, normal, err := shearAndCompression(e, x, factors)
	if err != nil {
		return nil, err
	}
	c := &formula.Chain{}
	source := formula.Source{Document: keys.Document}
	demand := c.Derive(formula.Q("V_key", 0, formula.Newton, "shear that friction does not carry"), "max(0, V_Ed - μ_d*N_Ed)", formula.Mechanics,
		formula.Q("V_Ed", shear, formula.Newton, "maximum shear of the joint, with the factors for strength"), formula.Q("μ_d", keys.Friction, formula.One, "design friction of the wet epoxy"),
		formula.Q("N_Ed", normal, formula.Newton, "minimum compression of the joint, with these factors"))
	limit := c.Derive(formula.Q("V_Rd", 0, formula.Newton, "design shear of the keys"), "n_key*V_1", source,
		formula.Q("n_key", float64(keys.Number), formula.One, "keys"), formula.Q("V_1", keys.Force, formula.Newton, "design shear of one key"))
	lines, err := c.Lines()
	if err != nil {
		return nil, err
	}
	check := stages.NewCheck(limits.Limit{Name: name, LimitState: limits.Ultimate, Sense: limits.AtMost, Source: source, Line: formula.Given(limit, source)}, demand)
	check.X, check.Place, check.Note = x, "joint "+s.jointOf(i), "bounded: maximum shear with minimum compression; the hoist present or absent"
	return []stages.OwnCheck{check.Derived(lines...)}, nil
}

// shearAndCompression are the largest shear and the smallest compression on both sides of a
// joint (N).
func shearAndCompression(e stages.Effects, x float64, factors limits.Factors) (shear, normal float64, err error) {
	left, right, err := e.Ranges(x, factors, func(f section.Forces) float64 { return f.Vz })
	if err != nil {
		return 0, 0, err
	}
	shear = max(left.Most, right.Most, -left.Least, -right.Least)
	left, right, err = e.Ranges(x, factors, func(f section.Forces) float64 { return -f.N })
	return shear, min(left.Least, right.Least), err
}

// weaker is the weaker concrete of the two beside the joint left of segment i, on the day, and the
// mark of its segment.
func (s *state) weaker(i int) (of concrete.State, mark string, err error) {
	for k, beside := range [2]stages.Element{s.deck.Segments[i-1].Element, s.deck.Segments[i].Element} {
		at, err := beside.Concrete.At(s.day - beside.Cast)
		if err != nil {
			return of, mark, err
		}
		if k == 0 || at.Characteristic < of.Characteristic {
			of, mark = at, beside.Mark
		}
	}
	return of, mark, nil
}

// strengthFactors are the factors of a standard for strength, those of its limit of web
// shear, for the concrete of segment i.
func (s *state) strengthFactors(i int, standard limits.Standard) (limits.Factors, error) {
	g := s.deck.Segments[i].Element
	of, err := g.Concrete.At(s.day - g.Cast)
	if err != nil {
		return limits.Factors{}, err
	}
	answers, err := standard.Limits(limits.Question{Kind: limits.WebShear, Phase: limits.Stressing, Concrete: of})
	if err != nil || len(answers) == 0 {
		return limits.Factors{}, err
	}
	return answers[0].Factors, nil
}
