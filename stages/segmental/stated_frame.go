package segmental

import (
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// frameItem is a frame on the deck: where it stands, its anchor bars, and what its feet bring
// there, alone or with the segment of a move.
func (s *state) frameItem(f standing, m Move, standard limits.Standard) (stages.EquipmentItem, error) {
	var list facts
	list.value("weight", f.frame.Weight, formula.Newton, "")
	list.value("front feet behind the face", f.frame.Front, formula.Metre, "")
	list.value("rear feet behind the face", f.frame.Rear, formula.Metre, "")
	if f.frame.Foot > 0 {
		list.value("permissible on the front feet", f.frame.Foot, formula.Newton, limits.AtMost)
	}
	if a := f.frame.Anchors; a != nil {
		list.value("anchor bars", float64(a.Number), formula.One, "")
		list.value("anchor preload", a.Preload, formula.Newton, limits.AtLeast)
		list.value("anchor capacity", a.Capacity, formula.Newton, limits.AtMost)
	}
	list.text("manual", f.frame.Document)
	brings := []string{s.deck.own(f).Mark}
	if m.Do == Lift && m.Frame == f.frame.Mark {
		brings = append(brings, hungMark(m))
	}
	at, err := s.framePosition(f, m, standard)
	return stages.EquipmentItem{Brings: brings, Mark: itemMark(stages.LiftingFrame, f.frame.Mark), Kind: stages.LiftingFrame, Facts: list, Positions: []stages.EquipmentPosition{at}}, err
}

// framePosition is where a frame stands, with the forces of its feet: of its weight alone
// nominal, with a segment as its checks have them.
func (s *state) framePosition(f standing, m Move, standard limits.Standard) (stages.EquipmentPosition, error) {
	var list facts
	name := "on " + s.deck.Segments[f.at].Element.Mark
	front, rear := f.frame.feet(f.frame.Weight, -f.frame.CoG)
	if m.Frame != f.frame.Mark || m.Do != Lift && m.Do != Attach {
		list.value("front feet", front, formula.Newton, limits.AtLeast)
		list.value("rear feet", rear, formula.Newton, limits.AtMost)
		return stages.EquipmentPosition{Name: cutTo(name, 80), Facts: list}, nil
	}
	i, err := s.one(m)
	if err != nil {
		return stages.EquipmentPosition{}, err
	}
	h, err := s.hanging(f, i)
	if err != nil {
		return stages.EquipmentPosition{}, err
	}
	_, force := h.frontForce()
	list.value("front feet", force.Value, formula.Newton, limits.AtLeast)
	answers, err := standard.Limits(limits.Question{Kind: limits.Overturning, Phase: limits.Lifting})
	if err != nil {
		return stages.EquipmentPosition{}, err
	}
	pull := 0.0
	for _, limit := range answers {
		_, u := h.pulled(limit)
		pull = max(pull, u.Value)
	}
	if len(answers) > 0 {
		list.value("pull on the anchors", pull, formula.Newton, limits.AtLeast)
		if a := f.frame.Anchors; a != nil {
			list.value("force of an anchor bar", max(a.Preload, pull/float64(a.Number)), formula.Newton, limits.AtLeast)
		}
	}
	return stages.EquipmentPosition{Name: cutTo(name+", with "+h.segment, 80), Facts: list}, nil
}
