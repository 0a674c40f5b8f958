package segmental

import (
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// facts are what the operation sheet of a step states.
type facts []stages.Fact

func (f *facts) value(name string, v float64, unit formula.Unit, sense limits.Sense) {
	*f = append(*f, stages.Fact{Name: name, Value: v, Unit: unit, Sense: sense})
}

// text is a fact in words; nothing where there are none.
func (f *facts) text(name, words string) {
	if strings.TrimSpace(words) != "" {
		*f = append(*f, stages.Fact{Name: name, Text: cutTo(words, 200)})
	}
}

// cutTo is a text of at most so many letters, the room that a sheet has for it.
func cutTo(words string, most int) string {
	if r := []rune(words); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return words
}

// itemMark is the mark of an item of equipment: a frame, a segment and a pier may have one
// name.
func itemMark(kind stages.EquipmentKind, mark string) string {
	return cutTo(string(kind)+" "+mark, 40)
}

// items are what the operation sheet states of the deck after a move: the segment that the move
// handles, the frames on the deck and the piers of free cantilevers. barsOut says of a
// segment when its temporary bars are taken out.
func (s *state) items(m Move, g stages.Girder, e stages.Effects, standard limits.Standard, barsOut map[string]string) (list []stages.EquipmentItem, err error) {
	if m.Do == Lift || m.Do == Attach {
		item, err := s.erectedItem(m, g, e, barsOut)
		if err != nil {
			return nil, err
		}
		list = append(list, item)
	}
	for _, f := range s.frames {
		item, err := s.frameItem(f, m, standard)
		if err != nil {
			return nil, err
		}
		list = append(list, item)
	}
	piers, err := s.pierItems(m, standard)
	return append(list, piers...), err
}

// erectedItem is the segment of a move: its weight, and where it is joined the pressure on its
// joint and when its bars are taken out.
func (s *state) erectedItem(m Move, g stages.Girder, e stages.Effects, barsOut map[string]string) (stages.EquipmentItem, error) {
	i, err := s.one(m)
	if err != nil {
		return stages.EquipmentItem{}, err
	}
	of := s.deck.Segments[i]
	mass, err := s.deck.weight(i)
	if err != nil {
		return stages.EquipmentItem{}, err
	}
	low, high, err := of.Element.WeightTolerance.Range()
	if err != nil {
		return stages.EquipmentItem{}, err
	}
	inner := s.at[max(i, s.inner(i))]
	var list facts
	list.value("weight", mass.Weight, formula.Newton, "")
	list.value("minimum weight", low*mass.Weight, formula.Newton, limits.AtLeast)
	list.value("maximum weight", high*mass.Weight, formula.Newton, limits.AtMost)
	list.value("CoG from the joint", (mass.X-inner)*float64(s.deck.arm(i)), formula.Metre, "")
	by := "crane, not on the deck"
	if m.Frame != "" {
		by = "frame " + m.Frame
	}
	list.text("lifted by", by)
	if of.Strength > 0 {
		list.value("strength to lift", of.Strength, formula.Pascal, limits.AtLeast)
	}
	list.text("joint", s.jointOf(i))
	if m.Do == Attach && s.deck.joint(max(i, s.inner(i))) == stages.Epoxied {
		if err := s.pressureFacts(&list, s.jointOf(i), m, g, e); err != nil {
			return stages.EquipmentItem{}, err
		}
	}
	if m.Do == Attach && s.deck.barsFor(i) != nil {
		words := barsOut[of.Element.Mark]
		if words == "" {
			words = "not in this calculation"
		}
		list.text("bars released", words)
	}
	return stages.EquipmentItem{Mark: itemMark(stages.Erected, of.Element.Mark), Kind: stages.Erected, Facts: list, Brings: []string{hoistMark(of.Element.Mark)}}, nil
}

// pressureFacts are mean and minimum pressure on a joint that is closed, and what the rule
// requires.
func (s *state) pressureFacts(list *facts, joint string, m Move, g stages.Girder, e stages.Effects) error {
	checks, err := s.deck.pressed(e, g, joint, m.Segments[0])
	if err != nil || len(checks) < 2 {
		return err
	}
	list.value("mean pressure", checks[0].Demand.Value, formula.Pascal, limits.AtMost)
	list.value("mean pressure required", checks[0].Limit.Value, formula.Pascal, limits.AtLeast)
	list.value("minimum pressure", checks[1].Demand.Value, formula.Pascal, limits.AtMost)
	list.value("minimum pressure required", checks[1].Limit.Value, formula.Pascal, limits.AtLeast)
	list.text("pressure by", s.deck.Epoxy.Source.Document)
	return nil
}

// barsTakenOut says of each segment in which step its temporary bars are taken out.
func barsTakenOut(steps []Step) map[string]string {
	list := map[string]string{}
	for i, step := range steps {
		for _, m := range step.Moves {
			if m.Do != Remove {
				continue
			}
			for _, mark := range m.Segments {
				list[mark] = "in " + step.title(i)
			}
		}
	}
	return list
}
