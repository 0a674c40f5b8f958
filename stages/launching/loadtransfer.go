package launching

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// LoadTransfer takes the element from its locked jacks, or from hooks, to its bearings when
// their mortar has the strength that is stated.
type LoadTransfer struct {
	Name      string                 // "" means "load transfer to the bearings"
	Age       float64                // of the element, d
	From      *JackDown              // whose jacks lower it, for the operation sheet; nil: not stated
	Bearings  []stages.Support       // on which it ends
	OffLevel  float64                // of any one elastic bearing from the plane of the other three, as the jacks leave it, m, 0 to 0.05
	Mortar    Mortar                 // below the bearings, all alike
	Actions   []stages.Action        // wind, crews
	Off       []string               // marks of actions that stayed and are taken off
	Equipment []stages.EquipmentItem // the piers
}

// beddingMortar is the kind of the hold point of the mortar.
const beddingMortar = "bedding mortar"

// Mortar is the bed of mortar or grout between a bearing and its pier.
type Mortar struct {
	Strength float64 // cylinder strength that must be shown before the bearings get the forces, Pa, 1e6 to 100e6
	Area     float64 // of the bed of one bearing, m², 0.01 to 10
}

// Situations is the element on its bearings. The error wraps [ErrLaunching].
func (l LoadTransfer) Situations(stages.History) ([]stages.Situation, error) {
	if err := within("LoadTransfer.", bound{"OffLevel", l.OffLevel, "m", 0, 0.05}, bound{"Bearings, number", float64(len(l.Bearings)), "", 1, 50}); err != nil {
		return nil, err
	}
	if err := l.Mortar.within("LoadTransfer."); err != nil {
		return nil, err
	}
	if l.From != nil {
		if err := l.From.check(); err != nil {
			return nil, fmt.Errorf("in LoadTransfer.From: %w", err)
		}
	}
	return []stages.Situation{{
		Name: or(l.Name, "load transfer to the bearings"), Age: l.Age, Standing: true, Phase: limits.Seating, Supports: as(stages.Bearing, l.Bearings), OutOfLevel: l.OffLevel,
		Actions: l.Actions, Off: l.Off, Equipment: l.Equipment,
		Check: func(e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) { return l.checks(e) },
		Equip: func(stages.Effects, limits.Standard) ([]stages.EquipmentItem, error) { return l.items(), nil },
	}}, nil
}

// checks are that of the mortar, and the question about the pier head.
func (l LoadTransfer) checks(e stages.Effects) ([]stages.OwnCheck, error) {
	own, err := l.Mortar.check(e)
	head := local("below the bearings", own.X, fmt.Sprintf("bearing, its dowels and the pier head below it: required for %s on a bearing, ultimate", kilonewtons(largest(e.Reactions).Ultimate.Most)))
	return []stages.OwnCheck{own, head}, err
}

// within reports the first value that is out of its range.
func (m Mortar) within(of string) error {
	return within(of, bound{"Mortar.Strength", m.Strength, "Pa", 1e6, 100e6}, bound{"Mortar.Area", m.Area, "m²", 0.01, 10})
}

// largest is the reaction with the largest ultimate force.
func largest(reactions []stages.Reaction) stages.Reaction {
	return slices.MaxFunc(reactions, func(a, b stages.Reaction) int { return cmp.Compare(a.Ultimate.Most, b.Ultimate.Most) })
}

// check is the pressure on the mortar below the bearing with the largest force, with the
// strength as a hold point.
func (m Mortar) check(e stages.Effects) (stages.OwnCheck, error) {
	r := largest(e.Reactions)
	most := slices.Index(e.Reactions, r)
	source := formula.Source{Document: "EN 1992-1-1:2004", Place: "3.1.6(1)P with α_cc = 1 and γ_C of table 2.1N, unconfined", Confirm: true}
	strength := formula.Q("f_grout", m.Strength, formula.Pascal, "cylinder strength")
	c := &formula.Chain{}
	pressure := c.Derive(formula.Q("σ_m", 0, formula.Pascal, "pressure on the mortar, ultimate"), "R_U/A_m", formula.Mechanics, newtons("R_U", r.Ultimate.Most, "largest reaction, ultimate"),
		formula.Q("A_m", m.Area, formula.SquareMetre, "bed of a bearing"))
	limit := c.Derive(formula.Q("f_md", 0, formula.Pascal, "design strength of the mortar"), "f_grout/γ_C", source, strength, formula.Q("γ_C", 1.5, formula.One, "partial factor of concrete"))
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: "pressure on the mortar of a bearing", LimitState: limits.Ultimate, Sense: limits.AtMost, Source: source, Line: formula.Given(limit, source)}, pressure)
	check.X, check.Place = r.X, fmt.Sprintf("bearing %d, the governing one", most+1)
	own := check.Derived(lines...)
	own.Hold = &stages.Hold{Kind: beddingMortar, Required: strength, Assumed: strength}
	return own, nil
}
