package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// frameChecks are those of the frame on which a segment hangs: the pull on its rear anchors
// with the standard's factors for equilibrium, one of the bars lost, the force of its front
// feet.
func (s *state) frameChecks(m Move, _ stages.Girder, _ stages.Effects, standard limits.Standard) (list []stages.OwnCheck, err error) {
	if m.Do != Lift || m.Frame == "" {
		return nil, nil
	}
	i, err := s.one(m)
	if err != nil {
		return nil, err
	}
	f, err := s.frame(m, i)
	if err != nil || f == nil {
		return nil, err
	}
	h, err := s.hanging(*f, i)
	if err != nil {
		return nil, err
	}
	anchored, err := h.anchored(standard)
	if err != nil {
		return nil, err
	}
	front, err := h.front()
	return append(anchored, front...), err
}

// hanging is a frame with a segment on its hook.
type hanging struct {
	frame   Frame
	segment string
	x       float64 // of its rear feet, m
	feet    float64 // x of its front feet, m
	weight  float64 // of the segment, nominal, N
	factor  float64 // largest, of tolerance and dynamic factor
	lever   float64 // of the segment before the front feet, m
	behind  float64 // of the centre of gravity of the frame behind them, m
	base    float64 // between front and rear feet, m
}

func (s *state) hanging(f standing, i int) (hanging, error) {
	mass, err := s.deck.weight(i)
	if err != nil {
		return hanging{}, err
	}
	_, high, err := s.deck.Segments[i].Element.WeightTolerance.Range()
	if err != nil {
		return hanging{}, err
	}
	_, most, err := s.deck.Dynamic.Range()
	tip, out := s.deck.tip(f.at, f.arm), float64(f.arm)
	return hanging{
		frame: f.frame, segment: s.deck.Segments[i].Element.Mark, x: tip - out*f.frame.Rear, feet: tip - out*f.frame.Front, weight: mass.Weight, factor: high * most,
		lever: (mass.X-tip)*out + f.frame.Front, behind: f.frame.CoG - f.frame.Front, base: f.frame.Rear - f.frame.Front,
	}, err
}

// given are the quantities of a frame with a segment.
func (h hanging) given() (segment, factor, lever, own, behind, base formula.Quantity) {
	return formula.Q("W_s", h.weight, formula.Newton, "segment, nominal"), formula.Q("φ_s", h.factor, formula.One, "largest weight and dynamic factor"),
		formula.Q("a_s", h.lever, formula.Metre, "of the segment before the front feet"), formula.Q("W_f", h.frame.Weight, formula.Newton, "frame"),
		formula.Q("b_f", h.behind, formula.Metre, "of its centre of gravity behind the front feet"), formula.Q("l_f", h.base, formula.Metre, "from the front to the rear feet")
}

// anchored are the checks of the rear anchors.
func (h hanging) anchored(standard limits.Standard) (list []stages.OwnCheck, err error) {
	answers, err := standard.Limits(limits.Question{Kind: limits.Overturning, Phase: limits.Lifting})
	if err != nil {
		return nil, err
	}
	const name = "rear anchors of frame "
	if len(answers) == 0 {
		return []stages.OwnCheck{h.open(name+h.frame.Mark, h.x, "the standard gives no factors for equilibrium")}, nil
	}
	for _, limit := range answers {
		if h.frame.Anchors == nil {
			c, pull := h.pulled(limit)
			zero := formula.Q("U_p", 0, formula.Newton, "permissible pull without anchors")
			check, err := h.compared(c, limits.Limit{Name: name + h.frame.Mark, LimitState: limits.Equilibrium, Sense: limits.AtMost, Source: limit.Source,
				Scale: formula.Q("W_scale", h.weight, formula.Newton, "segment")}, pull, zero, h.x)
			if err != nil {
				return nil, err
			}
			list = append(list, check)
			continue
		}
		more, err := h.bars(limit)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	return list, nil
}

// pulled derives the pull on the rear anchors under the factors of a limit.
func (h hanging) pulled(limit limits.Limit) (*formula.Chain, formula.Quantity) {
	least, most := limit.Factors.On(limits.Equipment)
	if least == 0 { // the frame is there
		least = limit.Factors.Filled().WeightLeast
	}
	c := &formula.Chain{}
	segment, factor, lever, own, behind, base := h.given()
	return c, c.Derive(formula.Q("U_r", 0, formula.Newton, "pull on the rear anchors"), "max(0, (γ_sup*φ_s*W_s*a_s - γ_inf*W_f*b_f)/l_f)", limit.Source,
		formula.Q("γ_sup", most, formula.One, "on the segment"), factor, segment, lever, formula.Q("γ_inf", least, formula.One, "on the frame"), own, behind, base)
}

// bars are the checks of the anchor bars: all of them, and one lost at once.
func (h hanging) bars(limit limits.Limit) (list []stages.OwnCheck, err error) {
	a := h.frame.Anchors
	c, pull := h.pulled(limit)
	source := formula.Source{Document: a.Document}
	n, preload := formula.Q("n_a", float64(a.Number), formula.One, "anchor bars"), formula.Q("P_a", a.Preload, formula.Newton, "preload of each")
	capacity := formula.Q("WLL_a", a.Capacity, formula.Newton, "working load limit of a bar with its anchorage")
	force := c.Derive(formula.Q("F_a", 0, formula.Newton, "force of a bar: its preload, or the pull where that is more"), "max(P_a, U_r/n_a)", formula.Mechanics, preload, pull, n)
	all, err := h.compared(c, limits.Limit{Name: "rear anchor bars of frame " + h.frame.Mark, LimitState: limits.Equilibrium, Sense: limits.AtMost, Source: source}, force, capacity, h.x)
	if err != nil {
		return nil, err
	}
	number := formula.Q("n_a", float64(a.Number), formula.One, "anchor bars")
	all.Hold = &stages.Hold{Kind: fmt.Sprintf("frame %s locked, its anchor bars stressed to %.0f kN each", h.frame.Mark, math.Ceil(a.Preload/1e3)), Required: number, Assumed: number}
	name := "rear anchor bars of frame " + h.frame.Mark + " after the loss of one"
	if a.Number < 2 {
		return []stages.OwnCheck{all, h.open(name, h.x, "there is one bar: without it the frame is not held")}, nil
	}
	lost, pull := h.pulled(limit)
	rest := lost.Derive(formula.Q("F_a1", 0, formula.Newton, "force of a bar that remains: its share, and that of the lost one put on at once"), "max(P_a, U_r*(1 + 1/n_a)/(n_a - 1))", formula.Mechanics, preload, pull, n)
	one, err := h.compared(lost, limits.Limit{Name: name, LimitState: limits.Ultimate, Sense: limits.AtMost, Source: source}, rest, capacity, h.x)
	one.Note = "accidental: a force that is lost at once comes with the factor 2"
	return []stages.OwnCheck{all, one}, err
}

// frontForce derives the force of the front feet, characteristic.
func (h hanging) frontForce() (*formula.Chain, formula.Quantity) {
	c := &formula.Chain{}
	segment, factor, lever, own, behind, base := h.given()
	return c, c.Derive(formula.Q("F_fr", 0, formula.Newton, "force of the front feet together"), "φ_s*W_s*(1 + a_s/l_f) + W_f*(1 - b_f/l_f)", formula.Mechanics, factor, segment, lever, base, own, behind)
}

// front is the check of the front feet.
func (h hanging) front() ([]stages.OwnCheck, error) {
	c, force := h.frontForce()
	name := "front feet of frame " + h.frame.Mark
	local := h.open(name+" on the deck", h.feet, fmt.Sprintf("punching and slab bending below the front feet: required for %.0f kN together, characteristic; pull of the rear anchors on the deck", math.Ceil(force.Value/1e3)))
	local.Kind = limits.LocalForce
	if h.frame.Foot == 0 {
		return []stages.OwnCheck{local}, nil
	}
	source := formula.Source{Document: h.frame.Document}
	check, err := h.compared(c, limits.Limit{Name: name, LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: source}, force, formula.Q("F_p", h.frame.Foot, formula.Newton, "permissible force of the front feet together"), h.feet)
	return []stages.OwnCheck{check, local}, err
}

// compared is a check with the lines of its demand.
func (h hanging) compared(c *formula.Chain, limit limits.Limit, demand, permissible formula.Quantity, x float64) (stages.OwnCheck, error) {
	limit.Line = formula.Given(permissible, limit.Source)
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limit, demand)
	check.X, check.Place = x, "frame "+h.frame.Mark+", segment "+h.segment
	return check.Derived(append(lines, limit.Line)...), nil
}

// open is a check that a document must answer.
func (h hanging) open(name string, x float64, why string) stages.OwnCheck {
	return stages.OwnCheck{Check: stages.Check{Name: name, State: stages.NotEvaluated, Sense: limits.AtMost, X: x, Place: "frame " + h.frame.Mark, Note: why}}
}
