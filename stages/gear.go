package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Gear is the slings and lifting anchors of a lift, all alike. Which of them carry is said
// by the lift points of the plan: four that nothing equalises are two that carry.
type Gear struct {
	Sling        float64         // working load limit of one sling in straight pull, N, 1e3 to 20e6; 0: slings are not checked
	FromVertical float64         // greatest permissible angle of a sling from the vertical, rad, 0 to 1.05; 0 means π/3 (EN 13414-1, unconfirmed)
	Anchor       *rigging.Anchor // nil: anchors are not checked
	FromAxis     float64         // largest angle between pull and axis of an anchor, rad, beside that of its sling: of one that is cast in upright 0
	Edge         float64         // distance of an anchor from the nearest edge, m
	Document     string          // of the slings: certificate or rigging plan
}

// flattest is the angle of a sling from the vertical beyond which its rating ends.
const flattest = math.Pi / 3

func (g *Gear) check() error {
	if g == nil {
		return nil
	}
	switch {
	case g.Sling != 0 && !(g.Sling >= 1e3 && g.Sling <= 20e6):
		return fmt.Errorf("field Gear.Sling = %g N: must be 0 (not checked) or 1 kN to 20 MN", g.Sling)
	case g.Sling != 0 && g.Document == "":
		return fmt.Errorf("field Gear.Document is empty: must be the certificate or rigging plan of the slings")
	case !(g.FromVertical >= 0 && g.FromVertical <= 1.05):
		return fmt.Errorf("field Gear.FromVertical = %g rad: must be 0 to 1.05 rad; is it in degrees?", g.FromVertical)
	case !(g.FromAxis >= 0 && g.FromAxis <= 1.571):
		return fmt.Errorf("field Gear.FromAxis = %g rad: must be 0 to 1.571 rad; is it in degrees?", g.FromAxis)
	case g.Anchor != nil && !(g.Edge > 0 && g.Edge <= 50):
		return fmt.Errorf("field Gear.Edge = %g m: must be above 0, at most 50 m", g.Edge)
	case g.Anchor != nil:
		return g.Anchor.Check()
	}
	return nil
}

// onGear gives a situation the checks of its slings and anchors beside those it has.
func onGear(s *Situation, gear *Gear) error {
	if gear == nil {
		return nil
	}
	if err := gear.check(); err != nil {
		return err
	}
	s.Equipment = gear.stated(s.Supports, s.Equipment)
	if equip := s.Equip; equip != nil {
		supports := s.Supports
		s.Equip = func(e Effects, standard limits.Standard) ([]EquipmentItem, error) {
			items, err := equip(e, standard)
			return gear.stated(supports, items), err
		}
	}
	s.Check = both(s.Check, func(e Effects, _ limits.Standard) ([]OwnCheck, error) { return gear.checks(e) })
	return nil
}

// stated are items with what the operation sheet says of slings and anchors, those that
// hold a lift point and do not say it themselves.
func (g Gear) stated(supports []Support, items []EquipmentItem) []EquipmentItem {
	list := slices.Clone(items)
	for i := range list {
		item := &list[i]
		if !slices.ContainsFunc(item.Supports, func(n int) bool { return n >= 1 && n <= len(supports) && supports[n-1].Role == LiftPoint }) {
			continue
		}
		item.Facts = slices.Clone(item.Facts)
		add := func(f Fact) {
			if !slices.ContainsFunc(item.Facts, func(o Fact) bool { return o.Name == f.Name }) && (f.Unit != "" || wording("", f.Text, mostFactText) == nil) {
				item.Facts = append(item.Facts, f)
			}
		}
		if g.Sling > 0 {
			add(Fact{Name: "rigging sketch", Text: g.Document})
			add(Fact{Name: "rigging WLL", Value: g.Sling, Unit: formula.Newton, Sense: limits.AtMost})
		}
		if g.Anchor != nil {
			add(Fact{Name: "lifting anchors", Text: g.Anchor.Mark})
		}
	}
	return list
}

// checking is the Check of a situation.
type checking = func(Effects, limits.Standard) ([]OwnCheck, error)

// both are the checks of two, where there is a first.
func both(first, second checking) checking {
	if first == nil {
		return second
	}
	return func(e Effects, standard limits.Standard) ([]OwnCheck, error) {
		list, err := first(e, standard)
		if err != nil {
			return nil, err
		}
		more, err := second(e, standard)
		return append(list, more...), err
	}
}

// slungAt is the largest force along a sling and where.
type slungAt struct {
	support  int
	force    formula.Line
	vertical float64 // angle from the vertical, rad
}

// slung are the lift points with the largest force and with the flattest sling.
func (g Gear) slung(e Effects) (largest, flat slungAt, err error) {
	for i, r := range e.Reactions {
		if r.Role != LiftPoint {
			continue
		}
		incline := math.Max(1, r.Sling)
		p := slungAt{support: i + 1, vertical: math.Acos(1 / incline)}
		p.force, err = formula.Derive(formula.Q("F_sling", 0, formula.Newton, "force along a sling, with dynamic factor and all actions"), "R_char*k_sling", formula.Mechanics,
			formula.Q("R_char", r.Characteristic.Most, formula.Newton, fmt.Sprintf("of lift point %d, characteristic maximum", i+1)), formula.Q("k_sling", incline, formula.One, "force along the sling over its vertical part"))
		if err != nil {
			return largest, flat, err
		}
		if p.force.Result.Value > largest.force.Result.Value {
			largest = p
		}
		if flat.support == 0 || p.vertical > flat.vertical {
			flat = p
		}
	}
	return largest, flat, nil
}

// checks are sling force, sling angle and anchors at their worst lift point.
func (g Gear) checks(e Effects) ([]OwnCheck, error) {
	largest, flat, err := g.slung(e)
	if err != nil || largest.support == 0 {
		return nil, err
	}
	at := func(c OwnCheck, p slungAt) OwnCheck {
		c.X, c.Place = e.Reactions[p.support-1].X, fmt.Sprintf("lift point %d", p.support)
		return c
	}
	var list []OwnCheck
	if g.Sling > 0 {
		source := formula.Source{Document: g.Document}
		limit := limits.Limit{
			Kind: limits.SlingForce, Name: string(limits.SlingForce), LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: source,
			Line: formula.Given(formula.Q("WLL_sling", g.Sling, formula.Newton, "working load limit of one sling in straight pull"), source),
		}
		list = append(list, at(NewCheck(limit, largest.force.Result).Derived(largest.force, limit.Line), largest))
		angle := limits.Limit{
			Kind: limits.SlingAngle, Name: string(limits.SlingAngle), LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: source,
			Line: formula.Given(formula.Q("β_sling_max", g.FromVertical, formula.Radian, "greatest permissible angle of a sling from the vertical"), source),
		}
		if g.FromVertical == 0 {
			angle.Source = formula.Source{Document: "EN 13414-1", Place: "60° from the vertical", Confirm: true}
			angle.Line = formula.Given(formula.Q("β_sling_max", flattest, formula.Radian, "greatest permissible angle of a sling from the vertical"), angle.Source)
		}
		has := formula.Given(formula.Q("β_sling", flat.vertical, formula.Radian, "angle of the sling from the vertical"), formula.Mechanics)
		list = append(list, at(NewCheck(angle, has.Result).Derived(has, angle.Line), flat))
	}
	if g.Anchor == nil {
		return list, nil
	}
	check, err := g.anchor(e, largest, flat)
	return append(list, at(check, largest)), err
}
