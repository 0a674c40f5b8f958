package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Travel is a frame on its way to the next segment, on wheels or skids and without its anchors.
// It may turn over its front feet.
type Travel struct {
	Behind        float64 // of its centre of gravity behind the front feet, with what hangs in front, m, −10 (before them) to 50
	Base          float64 // from the front to the rear feet, m, 0.5 to 50
	Height        float64 // of its centre of gravity above the rails, m, 0.1 to 30
	Along         float64 // force along at that height over its weight: wind, braking, a wheel that stops, 0.01 to 0.5
	Fall          float64 // of the rails towards the tip, rad, 0 to 0.1
	Counterweight float64 // over the rear feet, N, 0 to 5e6
	Holding       float64 // permissible pull of rail clamps at the rear feet that stay closed or slide, N, 0 to 5e6
	Factor        float64 // wanted against overturning, characteristic, 1 to 5; 0: 1.5 (common practice)
	Document      string  // that states them; must not be empty
}

// check reports the first field that is not as it must be.
func (t *Travel) check(of string) error {
	if t == nil {
		return nil
	}
	if t.Document == "" {
		return fmt.Errorf("%w: field %sDocument is empty: must name the document that states the frame on its way", ErrSegmental, of)
	}
	return within(of, bound{"Behind", t.Behind, "m", -10, 50}, bound{"Base", t.Base, "m", 0.5, 50}, bound{"Height", t.Height, "m", 0.1, 30}, bound{"Along", t.Along, "", 0.01, 0.5},
		bound{"Fall", t.Fall, "rad", 0, 0.1}, bound{"Counterweight", t.Counterweight, "N", 0, 5e6}, bound{"Holding", t.Holding, "N", 0, 5e6}, bound{"Factor", t.wanted(), "", 1, 5})
}

// wanted is the wanted factor.
func (t *Travel) wanted() float64 {
	if t.Factor == 0 {
		return 1.5
	}
	return t.Factor
}

// travelPractice is where the wanted factor comes from.
var travelPractice = formula.Source{Document: "common practice", Place: "factor against overturning of a frame on its way"}

// travelChecks are those of the frame that a move advances: its factor against overturning over
// the front feet, characteristic, and the moments with the standard's factors for equilibrium.
func (s *state) travelChecks(m Move, _ stages.Girder, _ stages.Effects, standard limits.Standard) (list []stages.OwnCheck, err error) {
	if m.Do != Advance {
		return nil, nil
	}
	k := s.standsOn(m.Frame)
	if k < 0 {
		return nil, nil
	}
	at := s.frames[k]
	f := travelling{at.frame, s.deck.tip(at.at, at.arm) - float64(at.arm)*at.frame.Front}
	if f.Travel == nil {
		return []stages.OwnCheck{f.question("feet, centre of gravity and clamps on its way are not stated")}, nil
	}
	first, err := f.factor()
	if err != nil {
		return nil, err
	}
	list = append(list, first)
	answers, err := standard.Limits(limits.Question{Kind: limits.Overturning, Phase: limits.Hauling})
	if err != nil {
		return nil, err
	}
	if len(answers) == 0 {
		list = append(list, f.question("the standard gives no factors for equilibrium"))
	}
	for _, limit := range answers {
		check, err := f.equilibrium(limit)
		if err != nil {
			return nil, err
		}
		list = append(list, check)
	}
	return list, nil
}

// travelling is a frame that arrives at its next place.
type travelling struct {
	Frame
	x float64 // of its front feet there, m
}

// moments derive what turns the frame over its front feet and what holds it, with factors on
// what is unfavourable, on its weight, on a counterweight.
func (f travelling) moments(c *formula.Chain, source formula.Source, sup, inf, counter formula.Quantity) (over, hold formula.Quantity) {
	t := f.Travel
	own, behind := formula.Q("W_f", f.Weight, formula.Newton, "frame"), formula.Q("b_t", t.Behind, formula.Metre, "of its centre of gravity behind the front feet")
	over = c.Derive(formula.Q("M_dst", 0, formula.NewtonMetre, "destabilising moment about the front feet"), "γ_sup*W_f*(h_g*(α_l + tan(φ_r)) + max(0, -b_t))", source, sup, own, behind,
		formula.Q("h_g", t.Height, formula.Metre, "of the centre of gravity above the rails"), formula.Q("α_l", t.Along, formula.One, "force along over the weight"), formula.Q("φ_r", t.Fall, formula.Radian, "fall of the rails"))
	hold = c.Derive(formula.Q("M_stb", 0, formula.NewtonMetre, "stabilising moment about the front feet"), "γ_inf*W_f*max(0, b_t) + (γ_cw*W_c + C_r)*l_t", source, inf, own, behind, counter,
		formula.Q("W_c", t.Counterweight, formula.Newton, "counterweight over the rear feet"), formula.Q("C_r", t.Holding, formula.Newton, "permissible pull of the rail clamps"), formula.Q("l_t", t.Base, formula.Metre, "from the front to the rear feet"))
	return over, hold
}

// factor is the check of the factor against overturning, characteristic.
func (f travelling) factor() (stages.OwnCheck, error) {
	c := &formula.Chain{}
	one := func(symbol string) formula.Quantity { return formula.Q(symbol, 1, formula.One, "characteristic") }
	over, hold := f.moments(c, formula.Mechanics, one("γ_sup"), one("γ_inf"), one("γ_cw"))
	demand := c.Derive(formula.Q("FS", 0, formula.One, "factor against overturning"), "M_stb/M_dst", formula.Mechanics, hold, over)
	source := travelPractice
	if f.Travel.Factor > 0 {
		source = formula.Source{Document: f.Travel.Document}
	}
	limit := c.Given(formula.Q("FS_min", f.Travel.wanted(), formula.One, "wanted factor"), source, "")
	return f.compared(c, limits.Limit{Name: "factor against overturning of frame " + f.Mark + " on its way", LimitState: limits.WorkingLoad, Sense: limits.AtLeast, Source: source}, demand, limit)
}

// equilibrium is the check of the moments under the factors of a limit.
func (f travelling) equilibrium(limit limits.Limit) (stages.OwnCheck, error) {
	least, most := limit.Factors.On(limits.Equipment)
	if least == 0 { // the frame is there
		least = limit.Factors.Filled().WeightLeast
	}
	counter, _ := limit.Factors.On(limits.Counterweight)
	c := &formula.Chain{}
	over, hold := f.moments(c, limit.Source, formula.Q("γ_sup", most, formula.One, "on what is unfavourable"), formula.Q("γ_inf", least, formula.One, "on the frame"), formula.Q("γ_cw", counter, formula.One, "on the counterweight"))
	return f.compared(c, limits.Limit{Name: "overturning of frame " + f.Mark + " on its way", LimitState: limits.Equilibrium, Sense: limits.AtMost, Source: limit.Source,
		Scale: formula.Q("M_scale", f.Weight*f.Travel.Base, formula.NewtonMetre, "weight of the frame on the distance of its feet")}, over, hold)
}

// compared is a check with its lines and what must be in place before the anchors are released.
func (f travelling) compared(c *formula.Chain, limit limits.Limit, demand, permissible formula.Quantity) (stages.OwnCheck, error) {
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	limit.Line = formula.Given(permissible, limit.Source)
	check := stages.NewCheck(limit, demand)
	check.X, check.Place = f.x, "frame "+f.Mark+", front feet at its next place"
	own := check.Derived(lines...)
	if held := f.Travel.Counterweight + f.Travel.Holding; held > 0 && limit.Sense == limits.AtLeast {
		q := formula.Q("F_r", held, formula.Newton, "counterweight and permissible pull of the rail clamps")
		own.Hold = &stages.Hold{Kind: "counterweight and rail clamps of frame " + f.Mark + " in place before its anchors are released", Required: q, Assumed: q}
	}
	return own, nil
}

// question asks for what is not stated, with the moment of the frame as it stands at work.
func (f travelling) question(why string) stages.OwnCheck {
	held := math.Floor(f.Weight * (f.CoG - f.Front) / 1e3)
	return stages.OwnCheck{Check: stages.Check{Kind: limits.LocalForce, Name: "overturning of frame " + f.Mark + " on its way", State: stages.NotEvaluated, Sense: limits.AtMost, X: f.x, Place: "frame " + f.Mark,
		Note: fmt.Sprintf("%s: at work its weight holds it with %.0f kN·m about its front feet; required are its factor against overturning with force along, counterweight or rail clamps", why, held)}}
}
