package segmental

import (
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// pierItems are the piers of free cantilevers: rows, ties, what may be on the deck, and what
// they receive after a move.
func (s *state) pierItems(m Move, standard limits.Standard) (list []stages.EquipmentItem, err error) {
	results, err := s.pierResults(m, standard)
	if err != nil {
		return nil, err
	}
	for _, r := range results {
		p := s.deck.Piers[slices.IndexFunc(s.deck.Piers, func(p Pier) bool { return p.Mark == r.Pier })]
		at, err := s.pierPosition(p, r, m, standard)
		if err != nil {
			return nil, err
		}
		item := stages.EquipmentItem{Mark: itemMark(stages.Pier, p.Mark), Kind: stages.Pier, Facts: s.deck.pierFacts(p), Positions: []stages.EquipmentPosition{at}}
		for _, a := range s.arms(p) {
			item.Brings = append(item.Brings, workingMark(a.name), upliftMark(a.name))
		}
		for k, on := range s.supports {
			if math.Abs(on.X-p.At) <= p.Rows/2+nearly {
				item.Supports = append(item.Supports, k+1)
			}
		}
		list = append(list, item)
	}
	return list, nil
}

// pierFacts are what a pier has and what may be on the deck at any move.
func (d Deck) pierFacts(p Pier) (list facts) {
	if p.Rows > 0 {
		list.value("rows apart", p.Rows, formula.Metre, "")
	}
	if p.Row > 0 {
		list.value("permissible force of a row", p.Row, formula.Newton, limits.AtMost)
	}
	if p.Moment > 0 {
		list.value("permissible moment", p.Moment, formula.NewtonMetre, limits.AtMost)
	}
	if t := p.Ties; t != nil {
		list.value("ties at each row", float64(t.Number), formula.One, "")
		list.value("tie preload", t.Preload, formula.Newton, limits.AtLeast)
		list.value("tie capacity", t.Capacity, formula.Newton, limits.AtMost)
	}
	if l := d.Loads; l.OneArm > 0 {
		list.value("working load, one arm", l.OneArm, formula.NewtonPerSquareMetre, limits.AtMost)
		list.value("working load, other arm", l.OtherArm, formula.NewtonPerSquareMetre, limits.AtMost)
	}
	return list
}

// pierPosition is what a pier receives after a move: nominal, and in the worst combination;
// forces of rows by statics, without the preload of ties.
func (s *state) pierPosition(p Pier, r PierResult, m Move, standard limits.Standard) (stages.EquipmentPosition, error) {
	var list facts
	list.text("left arm", s.armWords(p, m, -1))
	list.text("right arm", s.armWords(p, m, 1))
	list.value("vertical force", r.Vertical, formula.Newton, "")
	list.value("out-of-balance moment", math.Round(r.Along)+0, formula.NewtonMetre, "") // arms alike leave a rest of rounding
	list.value("maximum out-of-balance moment", r.Largest, formula.NewtonMetre, limits.AtLeast)
	if p.Rows > 0 {
		largest, err := s.largestRow(p, m, standard)
		if err != nil {
			return stages.EquipmentPosition{}, err
		}
		list.value("minimum force of a row", r.LeastRow, formula.Newton, limits.AtMost)
		list.value("maximum force of a row", largest, formula.Newton, limits.AtLeast)
		if t := p.Ties; t != nil {
			list.value("maximum force of a tie", max(t.Preload, -r.LeastRow/float64(t.Number)), formula.Newton, limits.AtLeast)
		}
	}
	return stages.EquipmentPosition{Name: cutTo(m.words(), 80), Facts: list}, nil
}

// largestRow is the largest force of a row of a pier in all combinations after a move (N).
func (s *state) largestRow(p Pier, m Move, standard limits.Standard) (float64, error) {
	b, err := s.balance(p, m)
	if err != nil {
		return 0, err
	}
	k, err := p.under(b, s.deck.Rule, standard)
	largest := math.Inf(-1)
	for _, c := range k.combinations {
		_, e := k.worst(c, k.pressed)
		largest = max(largest, e.Value)
	}
	return largest, err
}

// armWords are the outermost segment of an arm, the frames on it and a segment that hangs from
// one.
func (s *state) armWords(p Pier, m Move, sense int) string {
	on := s.segmentAt(p.At)
	tip, right := s.tips(on)
	if sense > 0 {
		tip = right
	}
	words := []string{"to " + s.deck.Segments[tip].Element.Mark}
	if tip == on {
		words[0] = "none"
	}
	for _, f := range s.frames {
		switch {
		case f.arm != sense || (tip-f.at)*sense < 0 || (f.at-on)*sense < 0:
			continue
		case f.at == tip:
			words[0] += " with " + f.frame.Mark
		default:
			words = append(words, f.frame.Mark+" on "+s.deck.Segments[f.at].Element.Mark)
		}
		if m.Do == Lift && m.Frame == f.frame.Mark {
			words = append(words, m.Segments[0]+" hung")
		}
	}
	return strings.Join(words, ", ")
}
