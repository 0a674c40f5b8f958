package stages

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Stitch joins two halves that stand side by side by elements cast between them. Before
// it the halves are matched: difference of level, the force that pulls them level, gap by
// their lateral bows, and the bars that carry what the younger concrete shrinks against
// the halves. The wet concrete counts on the joined section.
type Stitch struct {
	Name       string          // "" means "stitch"
	Day        float64         // of the project, when the halves are matched and the stitch is cast, d; for elements of one Cast an age serves as well
	Joined     float64         // day on which it has hardened and acts with the halves, d, not before Day
	Pieces     []string        // marks of the elements cast between the halves
	On         []Support       // of the joined section; none means those of the previous standing situation
	OutOfLevel float64         // distance of any one elastic support from the plane of the other three, m, 0 to 0.1
	Match      Match           // what the halves must meet
	Actions    []Action        // imposed loads, wind
	Off        []string        // marks of actions that stayed and are taken off
	Equipment  []EquipmentItem // what holds or carries it; drawn and stated, not calculated
}

// Match is what two halves must meet before they are joined, and what joins them.
type Match struct {
	Level    float64 // permissible difference of level at the stitch, m, 0 to 0.2
	Pull     float64 // permissible force that pulls them level, N, 0 to 10e6; 0: none is pulled
	Gap      float64 // permissible change of the width of the stitch by lateral bow, m, 0 to 0.2
	Bars     float64 // area of the bars along the stitch, m², 0 to 1: they carry its shrinkage against the halves
	Stress   float64 // permissible stress in them, Pa, 10e6 to 500e6
	Document string  // from which these come
}

func (m Match) check() error {
	if err := outside("Stitch.Match.", ranged{"Level", m.Level, "m", 0, 0.2}, ranged{"Pull", m.Pull, "N", 0, 10e6}, ranged{"Gap", m.Gap, "m", 0, 0.2},
		ranged{"Bars", m.Bars, "m²", 0, 1}, ranged{"Stress", m.Stress, "Pa", 10e6, 500e6}); err != nil {
		return err
	}
	if m.Document == "" {
		return errors.New("field Stitch.Match.Document is empty: must be where the limits come from")
	}
	return nil
}

// Situations is the halves before they are joined, then all as one section.
func (t Stitch) Situations(h History) ([]Situation, error) {
	if err := t.Match.check(); err != nil {
		return nil, err
	}
	if len(t.Pieces) == 0 {
		return nil, errors.New("field Stitch.Pieces is empty: must be the marks of the elements cast between the halves")
	}
	if !(t.Joined >= t.Day) {
		return nil, fmt.Errorf("field Stitch.Joined = %g d: must be at least Day, %g d", t.Joined, t.Day)
	}
	halves, err := t.halves(h)
	if err != nil {
		return nil, err
	}
	name := named(t.Name, "stitch")
	return []Situation{
		{
			Name: name + ", halves matched", Day: t.Day, Standing: true, Phase: limits.Seating, Off: t.Off, Actions: t.Actions, Equipment: t.Equipment,
			Check: func(e Effects, _ limits.Standard) ([]OwnCheck, error) { return t.matched(e, halves) },
		},
		{
			Name: name + ", joined", Day: t.Joined, Standing: true, Phase: limits.Seating, Supports: as(Pad, t.On), OutOfLevel: t.OutOfLevel,
			Events: []Event{{Add: t.Pieces, Join: t.Pieces}}, Equipment: t.Equipment,
			Check: func(Effects, limits.Standard) ([]OwnCheck, error) { return t.shrunk(h) },
		},
	}, nil
}

// half is one of the two, with its stiffness on the day.
type half struct {
	mark       string
	properties section.Properties // at mid-length
	modulus    float64            // Pa
}

// halves are the two elements that are carried before the stitch.
func (t Stitch) halves(h History) ([2]half, error) {
	var list []half
	for _, p := range h.Girder.Pieces {
		if !slices.Contains(h.Added, p.Element.Mark) {
			continue
		}
		state, err := p.Element.Concrete.At(t.Day - p.Element.Cast)
		if err != nil {
			return [2]half{}, fmt.Errorf("stitch: %s on day %g: %w", p.Element.Mark, t.Day, err)
		}
		list = append(list, half{p.Element.Mark, p.Element.Section.At(p.Element.Length / 2).Properties(), state.Modulus})
	}
	if len(list) != 2 {
		return [2]half{}, fmt.Errorf("stitch: %d elements are carried before it: must be two halves", len(list))
	}
	return [2]half{list[0], list[1]}, nil
}

// matched are the checks of the halves before they are joined.
func (t Stitch) matched(e Effects, halves [2]half) ([]OwnCheck, error) {
	moves, err := e.Moves()
	if err != nil {
		return nil, err
	}
	if len(moves) != 2 {
		return nil, fmt.Errorf("stitch: %d bodies stand before it: must be two halves", len(moves))
	}
	level, gap := farthest(moves[0], moves[1])
	source := formula.Source{Document: t.Match.Document}
	limit := func(kind limits.Kind, q formula.Quantity) limits.Limit {
		return limits.Limit{
			Kind: kind, Name: string(kind), LimitState: limits.Serviceability, Sense: limits.AtMost, Source: source, Line: formula.Given(q, source),
			Scale: formula.Q("scale", 0.01, q.Unit, q.Name),
		}
	}
	from := formula.Source{Document: "movements of this calculation", Place: "least and most creep in both halves"}
	apart := func(hold string, q formula.Quantity, of limits.Limit, x float64) OwnCheck {
		check := NewCheck(of, q).Derived(formula.Given(q, from), of.Line)
		check.X, check.Place = x, halves[0].mark+" and "+halves[1].mark
		check.Hold = &Hold{Kind: hold, Required: of.Line.Result, AtMost: true, Assumed: q}
		return check
	}
	list := []OwnCheck{
		apart("measured levels", formula.Q("Δ_level", level.size, formula.Metre, "largest difference of level of the halves"),
			limit(limits.LevelMatch, formula.Q("Δ_level_max", t.Match.Level, formula.Metre, "permissible difference of level")), level.x),
		apart("measured stitch gap", formula.Q("Δ_gap", gap.size, formula.Metre, "largest change of the width of the stitch by lateral bow"),
			limit(limits.StitchGap, formula.Q("Δ_gap_max", t.Match.Gap, formula.Metre, "permissible change of the width of the stitch")), gap.x),
	}
	if t.Match.Pull > 0 {
		pull, err := levelled(level, e, halves)
		if err != nil {
			return nil, err
		}
		of := limit(limits.PullForce, formula.Q("F_pull_max", t.Match.Pull, formula.Newton, "permissible force that pulls the halves level"))
		check := NewCheck(of, pull.Result).Derived(pull, of.Line)
		check.X, check.Place = level.x, halves[0].mark+" and "+halves[1].mark
		list = append(list, check)
	}
	return list, nil
}

// apartAt is a difference of two halves and where it is.
type apartAt struct{ size, x float64 }

// noDifference is the difference (m) below which two movements are alike: far above the
// rounding of movements of metres, far below what anybody measures.
const noDifference = 1e-9

// farthest are the largest differences of two halves, in level and in lateral bow, between
// their supports and over them; creep least or most in both.
func farthest(a, b *Movement) (level, gap apartAt) {
	const looks = 400
	from, to := math.Max(a.From, b.From), math.Min(a.To, b.To)
	level.x, gap.x = (from+to)/2, (from+to)/2 // where they are alike
	for i := range looks + 1 {
		x := from + (to-from)*float64(i)/looks
		p, q := a.At(x), b.At(x)
		d := max(math.Abs(p.Deflection-q.Deflection), math.Abs(p.Least-q.Least), math.Abs(p.Most-q.Most))
		if d > math.Max(level.size, noDifference) {
			level = apartAt{d, x}
		}
		if d := math.Abs(p.Bow - q.Bow); d > math.Max(gap.size, noDifference) {
			gap = apartAt{d, x}
		}
	}
	return level, gap
}

// levelled is the force between two halves at the place of their largest difference that
// makes them level there, each on its outer supports.
func levelled(level apartAt, e Effects, halves [2]half) (formula.Line, error) {
	first, last := math.Inf(1), math.Inf(-1)
	for _, r := range e.Reactions {
		first, last = math.Min(first, r.X), math.Max(last, r.X)
	}
	span := last - first
	a := math.Min(math.Max(level.x-first, 0.05*span), 0.95*span)
	return formula.Derive(formula.Q("F_pull", 0, formula.Newton, "force between the halves that pulls them level"),
		"Δ_level*3*l/(a_l*a_l*b_l*b_l)/(1/(E_1*I_1) + 1/(E_2*I_2))", formula.Mechanics,
		formula.Q("Δ_level", level.size, formula.Metre, "largest difference of level of the halves"), formula.Q("l", span, formula.Metre, "span of both"),
		formula.Q("a_l", a, formula.Metre, "of the force from the left support"), formula.Q("b_l", span-a, formula.Metre, "of the force from the right support"),
		formula.Q("E_1", halves[0].modulus, formula.Pascal, "modulus of "+halves[0].mark), formula.Q("I_1", halves[0].properties.SecondMomentY, formula.MetreToFourth, "second moment about y of "+halves[0].mark),
		formula.Q("E_2", halves[1].modulus, formula.Pascal, "modulus of "+halves[1].mark), formula.Q("I_2", halves[1].properties.SecondMomentY, formula.MetreToFourth, "second moment about y of "+halves[1].mark))
}
